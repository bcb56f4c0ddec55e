"""Answers: what a ledger says of an instant.

Attributes are exact: seconds, degree-Celsius-seconds and computed degrees Celsius are :class:`fractions.Fraction`,
instants are aware :class:`datetime.datetime` in UTC, dates are :class:`datetime.date`, doses are whole numbers.
``to_dict()`` is the wire form and ``to_json()`` the very bytes that the command line prints. How each answer is
computed stands in lib/conditions/README.md and lib/stock/README.md of the sources, its fields in lib/forms/README.md.

Every list supports, and does not replace, the manufacturer's and the health department's guidance, local rules and
licensed judgement. Exposure alone never decides discard or revaccination.
"""
from __future__ import annotations

import datetime
import json
from collections.abc import Iterator, Sequence
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, Any, ClassVar, Protocol, TypeVar, get_args, overload

from . import frames
from .answered import Answered
from .docstrings import complete_methods
from .errors import BadValue
from .remarks import ExplanationLine, Remark
from .terms import ExcursionKind, Finding, ListName, Reason, Scale, Side, TraceClass, UseLimit

if TYPE_CHECKING:
    import numpy
    import numpy.typing
    import pandas  # type: ignore[import]
    from typing_extensions import Self

    from . import _core

__all__ = [
    "Accounts",
    "AllowanceUse",
    "Answer",
    "Beyond",
    "Bound",
    "Bounds",
    "ConditionsAnswer",
    "Coverage",
    "Excursion",
    "ExcursionsAnswer",
    "Explanation",
    "Exposure",
    "GivenDose",
    "History",
    "HoldingName",
    "Inside",
    "LastUse",
    "ListedHolding",
    "ListsAnswer",
    "OnHand",
    "OpenAllowanceUse",
    "OpenBeyond",
    "OpenCoverage",
    "OpenSide",
    "Printed",
    "ReadingsAnswer",
    "ReviewAnswer",
    "Rows",
    "ScanAnswer",
    "ScanElement",
    "SideExposure",
    "Stay",
    "StaysAnswer",
    "StockAnswer",
    "StockHolding",
    "TableMaker",
    "TraceAnswer",
    "TraceCheck",
    "TracePart",
    "LedgerCopy",
    "Verification",
]


class TableMaker(Protocol):
    """What an answer needs of the ledger it came from to be printed for people."""

    def table(
        self, answer: _core.Answer, columns: int, color: bool, zone: str | None, scale: Scale | None, why: bool
    ) -> str:
        """The answer as a table.

        Parameters
        ----------
        answer : _core.Answer
            What is to be printed.
        columns : int
            How wide.
        color : bool
            With colours of a terminal.
        zone : str | None
            The IANA zone of its local times; None: the site's.
        scale : Scale | None
            "C" or "F"; None: that of the site's sheets.
        why : bool
            With all that is behind each line.

        Returns
        -------
        str
            The lines.
        """


# ---- parts


class SideExposure(Answered):
    """Time on one side of a limit.

    Attributes
    ----------
    at_least_s : Fraction
        Seconds by the readings alone, at least.
    estimate_s : Fraction
        Seconds by the line between the readings: at least <= estimate <= at most.
    at_most_s : Fraction
        Seconds at most.
    degree_Cs : Fraction
        Degree-Celsius-seconds.
    """

    at_least_s: Fraction
    estimate_s: Fraction
    at_most_s: Fraction
    degree_Cs: Fraction


class OpenSide(SideExposure):
    """Time on one side of a limit, and what of it is open.

    Attributes
    ----------
    open_s : Fraction
        Seconds of the estimate that have accrued since guidance last cleared it.
    """

    open_s: Fraction


class AllowanceUse(Answered):
    """What is used of an allowance.

    Attributes
    ----------
    seconds : int
        What it permits.
    used_s : Fraction
        Exact seconds used of it.
    """

    seconds: int
    used_s: Fraction


class OpenAllowanceUse(AllowanceUse):
    """What is used of an allowance, and what of it is open.

    Attributes
    ----------
    open_s : Fraction
        Seconds of it that have accrued since guidance last cleared it.
    """

    open_s: Fraction


class Beyond(Answered):
    """Time out of range in no allowance, by side.

    Attributes
    ----------
    warm_s : Fraction
        Seconds too warm.
    cold_s : Fraction
        Seconds too cold.
    """

    warm_s: Fraction
    cold_s: Fraction


class OpenBeyond(Beyond):
    """Time out of range in no allowance, and what of it is open.

    Attributes
    ----------
    warm_open_s : Fraction
        Seconds too warm that have accrued since guidance last cleared it.
    cold_open_s : Fraction
        Seconds too cold, likewise.
    """

    warm_open_s: Fraction
    cold_open_s: Fraction


class Coverage(Answered):
    """Seconds by what is known of them.

    Attributes
    ----------
    logged_s : Fraction
        Seconds between a logger's readings.
    bounded_s : Fraction
        Seconds bounded by a check's minimum and maximum.
    checked_s : Fraction
        Seconds on a line between plain checks, where nothing is known between them.
    near_s : Fraction
        Seconds near a reading or check in range; the temperature itself is not known.
    awaiting_s : Fraction
        Seconds for which data are awaited.
    unmonitored_s : Fraction
        Seconds of which nothing is known.
    """

    logged_s: Fraction
    bounded_s: Fraction
    checked_s: Fraction
    near_s: Fraction
    awaiting_s: Fraction
    unmonitored_s: Fraction


class OpenCoverage(Coverage):
    """Seconds by what is known of them, and what of the unmonitored is open.

    Attributes
    ----------
    unmonitored_open_s : Fraction
        Seconds of the unmonitored time that have accrued since guidance last cleared it.
    """

    unmonitored_open_s: Fraction


class Exposure(Answered):
    """What a stretch of a place's trace did to a product.

    Attributes
    ----------
    frozen : SideExposure
        Time below the freeze limit.
    allowances : tuple[AllowanceUse, ...]
        What it used of each allowance of the product.
    beyond : Beyond
        Time in no allowance.
    points : int
        Readings out of range and in no allowance.
    """

    warm: SideExposure
    cold: SideExposure
    frozen: SideExposure
    allowances: tuple[AllowanceUse, ...]
    beyond: Beyond
    points: int
    coverage: Coverage
    lowest_C: Fraction | None
    highest_C: Fraction | None


class History(Answered):
    """What one dose has been through since receipt.

    Attributes
    ----------
    frozen : OpenSide
        Time below the freeze limit.
    allowances : tuple[OpenAllowanceUse, ...]
        What is used of each allowance of the product.
    beyond : OpenBeyond
        Time in no allowance.
    points : int
        Readings out of range and in no allowance.
    points_open : int
        Those of them that came since guidance last cleared it.
    places : tuple[str, ...]
        The places it has been in, sorted; of another site "site/place".
    condemned_by : tuple[int, ...]
        Numbers of the guidance that says discard.
    held_by : tuple[int, ...]
        Numbers of the holds that stand.
    use_by : datetime.datetime | None
        The first instant at which it may no longer be used; None: the expiry alone says.
    """

    warm: OpenSide
    cold: OpenSide
    frozen: OpenSide
    allowances: tuple[OpenAllowanceUse, ...]
    beyond: OpenBeyond
    points: int
    points_open: int
    coverage: OpenCoverage
    lowest_C: Fraction | None
    highest_C: Fraction | None
    places: tuple[str, ...]
    condemned_by: tuple[int, ...]
    held_by: tuple[int, ...]
    use_by: datetime.datetime | None


class HoldingName(Answered):
    """The doses of one lot, fund and mark in one place."""

    place: str
    product: str
    lot: str
    fund: str
    mark: str


LISTS: tuple[str, ...] = get_args(ListName)
FINDINGS: tuple[str, ...] = get_args(Finding)

# ---- answers


class Printed(Answered):
    """What the core hands out: attributes, JSON and a table for people. What has rows is also a sequence of them
    (:class:`Rows`), and a DataFrame."""

    _rows: ClassVar[str] = ""
    _categories: ClassVar[dict[str, tuple[str, ...]]] = {}

    @classmethod
    def _of(cls, core: _core.Answer, ledger: TableMaker) -> Self:
        out = cls.__new__(cls)
        out.__dict__.update(_core=core, _ledger=ledger)
        return out

    if not TYPE_CHECKING:

        def __getattr__(self, name: str) -> Any:
            if name == "_json" and "_core" in self.__dict__:  # parsed when first needed
                self.__dict__["_json"] = wire = json.loads(self._core.json())
                return wire
            return super().__getattr__(name)

    def to_json(self) -> str:
        """JSON in one line with a line end: the bytes that the command line prints with ``--format json``.

        Returns
        -------
        str
            The line.
        """
        core = self.__dict__.get("_core")
        if core is None:
            return json.dumps(self._json, ensure_ascii=False, separators=(",", ":")) + "\n"
        text: str = core.json()
        return text

    def to_table(
        self,
        *,
        columns: int = 100,
        color: bool = False,
        zone: str | None = None,
        scale: Scale | None = None,
        why: bool = False,
    ) -> str:
        """The table that the command line prints. Asks the ledger, which must be open.

        Parameters
        ----------
        columns : int, default 100
            How wide.
        color : bool, default False
            With colours of a terminal.
        zone : str, optional
            The IANA zone of its local times; None: the site's.
        scale : Scale, optional
            The scale of its temperatures, "C" or "F"; None: that of the site's sheets.
        why : bool, default False
            Of lists, a review and readiness: with all reasons, notes and figures behind each line.

        Returns
        -------
        str
            The lines.

        Raises
        ------
        BadValue
            The answer came from a pickle, or has no table.
        """
        core = self.__dict__.get("_core")
        if core is None:
            raise BadValue("table: an answer from a pickle or a dict has none; ask the ledger again")
        maker: TableMaker = self.__dict__["_ledger"]
        return maker.table(core, columns, color, zone, scale, why)

    def to_frame(self) -> pandas.DataFrame:
        """The rows of the answer as a pandas DataFrame: dates and instants as datetime64, doses as integers, lists and
        findings as categories.

        Returns
        -------
        pandas.DataFrame
            A row for each. ``attrs["caution"]`` is the answer's caution; what else stands beside its rows
            (``not_listed``, ``beside``, ``not_judged``) is there, too. Of remarks (``notes_codes``) the codes alone.

        Raises
        ------
        BadValue
            The answer has no rows.

        Notes
        -----
        Exact numbers become the nearest double there, good for plots and sums, not for decisions.
        """
        frame = frames.to_frame(self, type(self)._rows, type(self)._categories)
        for said in ("caution", "not_listed", "beside", "not_judged"):
            if hasattr(self, said):
                frame.attrs[said] = getattr(self, said)
        return frame


Row = TypeVar("Row", covariant=True)


class Rows(Sequence[Row]):
    """An answer that is a sequence of its rows: it has a length, can be indexed and walked over, and is false where it
    has none. A slice is a tuple of rows.

    No rows do not say that nothing happened: what an answer says besides is in its other attributes and its table."""

    _rows: ClassVar[str]

    def _all(self) -> tuple[Row, ...]:
        rows: tuple[Row, ...] = getattr(self, type(self)._rows)
        return rows

    @overload
    def __getitem__(self, index: int) -> Row:
        ...

    @overload
    def __getitem__(self, index: slice) -> tuple[Row, ...]:
        ...

    def __getitem__(self, index: int | slice) -> Row | tuple[Row, ...]:
        return self._all()[index]

    def __len__(self) -> int:
        return len(self._all())

    def __iter__(self) -> Iterator[Row]:
        return iter(self._all())


class Answer(Printed):
    """What every answer to a question has.

    Attributes
    ----------
    at : datetime.datetime
        The instant asked about.
    """

    ledger: str
    at: datetime.datetime
    known_on: datetime.datetime
    last_entry: int
    caution: str


class LastUse(Answered):
    """The last day on which doses may be used.

    Attributes
    ----------
    day : datetime.date
        That day, of the site's calendar.
    whole_day : bool
        To its end; else until the instant `until`.
    until : datetime.datetime
        The first instant at which they may no longer be used.
    set_by : UseLimit
        What sets it.
    entry : int | None
        The number of the entry that set it; None: the expiry.
    """

    day: datetime.date
    whole_day: bool
    until: datetime.datetime
    set_by: UseLimit
    entry: int | None


class StockHolding(HoldingName):
    """Doses of a holding, their list and the last day on which they may be used.

    Attributes
    ----------
    list : ListName
        The list they are on; :class:`ListedHolding` says why.
    do_not_use : bool
        True for all that are not on keep, are in doubt, or of which a note forbids it (what was learnt or held after
        guidance cleared them): they must not be used as they stand. False is no promise: read `in_doubt`, the notes
        and the caution.
    in_doubt : tuple[str, ...]
        Open incidents in whose time in doubt doses of this lot stood where these have been, and that no guidance has
        answered since; whatever the list.
    """

    doses: int
    expiry: datetime.date
    last_use: LastUse
    list: ListName
    do_not_use: bool
    in_doubt: tuple[str, ...]


class Accounts(Answered):
    """The doses of every account; they add up to 0.

    Attributes
    ----------
    supplier : int
        Doses that came in, negative.
    patient : int
        Doses given.
    wasted : int
        Doses wasted.
    returned : int
        Doses sent back.
    transferred : int
        Doses sent to other sites.
    variance : int
        Doses lost less doses found.
    on_hand : int
        Doses that are there.
    """

    supplier: int
    patient: int
    wasted: int
    returned: int
    transferred: int
    variance: int
    on_hand: int


class OnHand(StockHolding):
    """A holding in stock.

    Attributes
    ----------
    beside : tuple[str, ...]
        What must be known before its doses are used though the list does not say it.
    """

    beside: tuple[str, ...]
    beside_codes: tuple[Remark, ...]


class StockAnswer(Answer, Rows[OnHand]):
    """Which doses are where; a sequence of its holdings.

    Attributes
    ----------
    holdings : tuple[OnHand, ...]
        The holdings, each with its list and `do_not_use`.
    accounts : Accounts
        The accounts in doses.
    """

    _rows = "holdings"
    _categories = {"list": LISTS}
    holdings: tuple[OnHand, ...]
    accounts: Accounts


class ListedHolding(StockHolding):
    """A holding on its list, why, and what else to know.

    Attributes
    ----------
    reasons : tuple[Reason, ...]
        Why it is not on keep, those of discard first; none: it is on keep.
    notes : tuple[str, ...]
        What a careful person wants to know besides, those of `beside` in stock first, in capitals.
    """

    reasons: tuple[Reason, ...]
    notes: tuple[str, ...]
    notes_codes: tuple[Remark, ...]
    history: History


class ListsAnswer(Answer, Rows[ListedHolding]):
    """All doses on the three lists; a sequence of its holdings.

    Attributes
    ----------
    holdings : tuple[ListedHolding, ...]
        The holdings, by place, product, lot, fund and mark.
    """

    _rows = "holdings"
    _categories = {"list": LISTS}
    holdings: tuple[ListedHolding, ...]
    caution: str

    def on(self, name: ListName) -> tuple[ListedHolding, ...]:
        """The holdings of one list. Of keep: those that may be used as things stand; doses in doubt of an open
        incident are :attr:`in_doubt`.

        Parameters
        ----------
        name : ListName
            discard, quarantine-pending-guidance or keep.

        Returns
        -------
        tuple[ListedHolding, ...]
            The holdings.

        Raises
        ------
        BadValue
            There is no such list.
        """
        if name not in type(self)._categories["list"]:
            raise BadValue(f"list: {name!r}: must be one of {', '.join(type(self)._categories['list'])}")
        return tuple(h for h in self.holdings if h.list == name and (name != "keep" or not h.do_not_use))

    @property
    def in_doubt(self) -> tuple[ListedHolding, ...]:
        """Holdings on keep that are not to be used yet: in doubt of an open incident, or a note forbids it."""
        return tuple(h for h in self.holdings if h.list == "keep" and h.do_not_use)


class ScanElement(Answered):
    """One element of a GS1 code.

    Attributes
    ----------
    ai : str
        The application identifier.
    title : str
        Its data title; empty where it is none used here.
    value : str
        What it says.
    """

    ai: str
    title: str
    value: str


class ScanAnswer(Answer, Rows[ListedHolding]):
    """What the code on a box says, and what the ledger knows of such boxes; a sequence of the lot's holdings.

    Attributes
    ----------
    symbology : str
        As the scanner sends it, "]d2"; empty: it sent none.
    elements : tuple[ScanElement, ...]
        The elements of the code, in its order.
    gtin : str | None
        14 digits; None: it states none.
    lot : str | None
        The number of the lot; None: it states none.
    serial : str | None
        None: it states none.
    expiry : str | None
        "2027-05-31", or "2027-05" for a month's last day; None: it states none.
    product : str | None
        The id of the product that has this number; None: none has.
    known_expiry : datetime.date | None
        The lot's, as the ledger knows it.
    remarks : tuple[str, ...]
        Where the two do not agree, or one does not know.
    holdings : tuple[ListedHolding, ...]
        The holdings of the lot on their lists.
    """

    _rows = "holdings"
    _categories = {"list": LISTS}
    symbology: str
    elements: tuple[ScanElement, ...]
    gtin: str | None
    lot: str | None
    serial: str | None
    expiry: str | None
    product: str | None
    known_expiry: datetime.date | None
    remarks: tuple[str, ...]
    remarks_codes: tuple[Remark, ...]
    holdings: tuple[ListedHolding, ...]
    caution: str


class GivenDose(HoldingName):
    """Doses given, and what their history then means. A clinician decides.

    Attributes
    ----------
    patient : str
        The token.
    finding : Finding
        clear, cleared, condemned later, pending guidance, not viable or expired.
    reasons : tuple[Reason, ...]
        What was found in their history when they were given.
    guidance : int | None
        The number of the last guidance that covers them; None: none does.
    history : History
        What they had been through just before they were given.
    beside : tuple[str, ...]
        What must be known of them though the finding does not say it, in words.
    """

    entry: int
    at: datetime.datetime
    patient: str
    doses: int
    certain: bool
    finding: Finding
    reasons: tuple[Reason, ...]
    guidance: int | None
    history: History
    beside: tuple[str, ...]
    beside_codes: tuple[Remark, ...]


class ReviewAnswer(Answer, Rows[GivenDose]):
    """Doses given that may need review; a sequence of them.

    Attributes
    ----------
    doses : tuple[GivenDose, ...]
        The doses given.
    not_listed : tuple[str, ...]
        What must not be read as "nothing happened", in words: doses given in the time in doubt of an open incident, or
        that may have been out of range for longer than is permitted, at which nothing was found.
    """

    _rows = "doses"
    _categories = {"finding": FINDINGS}
    doses: tuple[GivenDose, ...]
    not_listed: tuple[str, ...]
    not_listed_codes: tuple[Remark, ...]
    caution: str


class Inside(Answered):
    """Doses that were inside during an excursion.

    Attributes
    ----------
    exposure : Exposure
        What it did to them, over the overlap.
    """

    product: str
    lot: str
    fund: str
    mark: str
    doses: int
    exposure: Exposure


class Excursion(Answered):
    """One excursion of a place.

    Attributes
    ----------
    side : Side
        warm or cold.
    kind : ExcursionKind
        line, bounded or point.
    duration_s : Fraction
        Exact seconds; of a point 0.
    degree_Cs : Fraction
        Degree-Celsius-seconds.
    peak_C : Fraction
        The temperature farthest from the range, degrees Celsius.
    checked_s : Fraction
        Of the duration, seconds that rest on a line between plain checks, where nothing is known.
    open : bool
        Not known to be over.
    marks : tuple[str, ...]
        What its readings lack.
    holdings : tuple[Inside, ...]
        The doses inside.
    """

    side: Side
    kind: ExcursionKind
    from_: datetime.datetime
    from_s: Fraction
    until: datetime.datetime
    until_s: Fraction
    duration_s: Fraction
    degree_Cs: Fraction
    peak_C: Fraction
    checked_s: Fraction
    open: bool
    marks: tuple[str, ...]
    marks_codes: tuple[Remark, ...]
    holdings: tuple[Inside, ...]


class ExcursionsAnswer(Answer, Rows[Excursion]):
    """The excursions of a place in a window; a sequence of them.

    Attributes
    ----------
    not_seen : str
        That what was not recorded does not show.
    excursions : tuple[Excursion, ...]
        In the order of start, side and kind.
    beside : tuple[str, ...]
        What no figure of it counts, in words.
    """

    _rows = "excursions"
    _categories = {"side": get_args(Side), "kind": get_args(ExcursionKind)}
    place: str
    from_: datetime.datetime
    until: datetime.datetime
    window: str
    window_code: Remark | None
    coverage: Coverage
    not_seen: str
    excursions: tuple[Excursion, ...]
    beside: tuple[str, ...]
    beside_codes: tuple[Remark, ...]
    caution: str


class ConditionsAnswer(Answer):
    """The conditions of a place in a window.

    Attributes
    ----------
    mean_C : Fraction | None
        Degrees Celsius; None: nothing is known.
    mean_kinetic_C : Decimal | None
        Degrees Celsius with six decimals, correctly rounded; None: nothing is known.
    excursions : int
        How many.
    marks : tuple[str, ...]
        Times without a valid certificate.
    beside : tuple[str, ...]
        What no figure of it counts, in words.
    """

    place: str
    from_: datetime.datetime
    until: datetime.datetime
    window: str
    window_code: Remark | None
    coverage: Coverage
    lowest_C: Fraction | None
    highest_C: Fraction | None
    mean_C: Fraction | None
    mean_kinetic_C: Decimal | None
    excursions: int
    marks: tuple[str, ...]
    marks_codes: tuple[Remark, ...]
    beside: tuple[str, ...]
    beside_codes: tuple[Remark, ...]


class Explanation(Answer):
    """Why a holding is on its list.

    Attributes
    ----------
    holding : HoldingName
        Which doses.
    lines : tuple[str, ...]
        The reasons in words, in the order of time.
    """

    holding: HoldingName
    lines: tuple[str, ...]
    lines_codes: tuple[ExplanationLine, ...]
    caution: str


class Verification(Printed):
    """What a check of the whole file found; no findings: the ledger is as it was posted.

    Attributes
    ----------
    entries : int
        How many.
    readings : int
        How many.
    chain : str
        SHA-256 of the last link.
    to_note : str | None
        What of it to write down on paper; None where anything was found.
    findings : tuple[str, ...]
        The first hundred of them, in words.
    findings_in_all : int
        How many there are.
    """

    entries: int
    readings: int
    chain: str
    to_note: str | None
    findings: tuple[str, ...]
    findings_codes: tuple[Remark, ...]
    findings_in_all: int


class LedgerCopy(Printed):
    """A copy of a ledger that was made and verified.

    Attributes
    ----------
    copy : str
        The path of the copy.
    from_format : int
        The format of the file that was copied.
    format : int
        That of the copy.
    entries : int
        How many.
    readings : int
        How many.
    chain : str
        SHA-256 of the last link.
    to_note : str | None
        To write down on paper, see :meth:`Ledger.verify`.
    """

    copy: str
    from_format: int
    format: int
    entries: int
    readings: int
    chain: str
    to_note: str | None


class Stay(Answered):
    """Doses of a lot in one place.

    Attributes
    ----------
    from_ : datetime.datetime
        Since when.
    until : datetime.datetime | None
        Until when; None: they are still there.
    doses : int
        The most doses at once.
    """

    place: str
    fund: str
    mark: str
    from_: datetime.datetime
    until: datetime.datetime | None
    doses: int


class StaysAnswer(Answer, Rows[Stay]):
    """When the doses of a lot were where; a sequence of the stays.

    Attributes
    ----------
    stays : tuple[Stay, ...]
        In the order of time.
    """

    _rows = "stays"
    product: str
    lot: str
    stays: tuple[Stay, ...]


# ---- with arrays


class _WithArrays(Answer):
    """An answer whose many numbers are NumPy arrays instead of JSON."""

    def _array(self, name: str) -> Any:
        return self.__dict__["_arrays"][name]

    @classmethod
    def _with(cls, wire: dict[str, Any], arrays: dict[str, Any]) -> Self:
        out = cls.from_dict(wire)
        out.__dict__["_arrays"] = arrays
        return out

    def __reduce__(self) -> Any:
        return (type(self)._with, (self._json, self.__dict__["_arrays"]))

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _WithArrays) and self.to_dict() == other.to_dict()

    __hash__ = Answer.__hash__

    @property
    def instants(self) -> numpy.typing.NDArray[numpy.datetime64]:
        """The readings' instants, ``datetime64[s]`` in UTC, ascending."""
        return self._array("instants")  # type: ignore[no-any-return]

    @property
    def thousandths(self) -> numpy.typing.NDArray[numpy.int32]:
        """Their temperatures in thousandths of a degree."""
        return self._array("thousandths")  # type: ignore[no-any-return]

    def to_json(self) -> str:
        """The wire form as JSON in one line with a line end."""
        return json.dumps(self.to_dict(), ensure_ascii=False, separators=(",", ":")) + "\n"


class ReadingsAnswer(_WithArrays):
    """The readings of a probe as indicated. The arrays are the caller's own and may be written to.

    Attributes
    ----------
    scale : Scale
        "C" or "F", that of the probe.
    """

    probe: str
    scale: Scale
    window: str
    window_code: Remark | None

    def to_dict(self) -> dict[str, Any]:
        """The wire form, with a row for each reading."""
        rows = [[f"{t}Z", degrees(int(n))] for t, n in zip(self.instants, self.thousandths)]
        return {**super().to_dict(), "rows": rows}

    def to_frame(self) -> pandas.DataFrame:
        """A DataFrame of one column, `temperature` (double, degrees of the scale), by instant (UTC)."""
        frame = frames.readings_frame(self.instants, self.thousandths)
        frame.attrs["caution"] = self.caution
        return frame


class TraceCheck(Answered):
    """A check as it counts for the trace, corrected.

    Attributes
    ----------
    temperature : Decimal
        Degrees of its scale.
    min : Decimal | None
        The lowest since the check before, degrees; None: not read.
    max : Decimal | None
        The highest since then, degrees; None: not read.
    tolerance : Decimal
        That of the thermometer, degrees.
    """

    entry: int
    at: datetime.datetime
    temperature: Decimal
    scale: Scale
    min: Decimal | None
    max: Decimal | None
    tolerance: Decimal


class TracePart(Answered):
    """Time that no logger covers.

    Attributes
    ----------
    class_ : TraceClass
        bounded, checked, near, awaiting or unmonitored. The wire's `class`.
    """

    class_: TraceClass
    from_: datetime.datetime
    until: datetime.datetime


class Bound(Answered):
    """A limit of temperature, in C, in F or in both.

    Attributes
    ----------
    C : Decimal | None
        Degrees Celsius; None: not stated.
    F : Decimal | None
        Degrees Fahrenheit; None: not stated.
    """

    C: Decimal | None
    F: Decimal | None

    def celsius(self) -> Fraction:
        """Degrees Celsius: its own number, or the exact conversion of °F."""
        if self.C is not None:
            return Fraction(self.C)
        assert self.F is not None  # a limit states one of the two
        return (Fraction(self.F) - 32) * Fraction(5, 9)


class Bounds(Answered):
    """The range of a place.

    Attributes
    ----------
    low : Bound | None
        None: no bound on that side.
    high : Bound | None
        None: no bound on that side.
    """

    low: Bound | None
    high: Bound | None


class TraceAnswer(_WithArrays):
    """What is known of a place's temperature in a window, corrected by the probes' certificates.

    Attributes
    ----------
    range : Bounds
        The range of the place.
    checks : tuple[TraceCheck, ...]
        The checks in it.
    parts : tuple[TracePart, ...]
        What stands for the time that no logger covers.
    """

    place: str
    from_: datetime.datetime
    until: datetime.datetime
    window: str
    window_code: Remark | None
    range: Bounds
    checks: tuple[TraceCheck, ...]
    parts: tuple[TracePart, ...]

    @property
    def fahrenheit(self) -> numpy.typing.NDArray[numpy.bool_]:
        """Which of the readings are in °F."""
        return self._array("fahrenheit")  # type: ignore[no-any-return]

    @property
    def tolerance(self) -> numpy.typing.NDArray[numpy.int32]:
        """The probe's tolerance at each, in thousandths of a degree of the reading's scale."""
        return self._array("tolerance")  # type: ignore[no-any-return]

    @property
    def joined(self) -> numpy.typing.NDArray[numpy.bool_]:
        """Is the time from each to the next logged, so that a straight line joins them?"""
        return self._array("joined")  # type: ignore[no-any-return]

    def celsius(self) -> numpy.typing.NDArray[numpy.float64]:
        """Degrees Celsius as doubles, for plotting."""
        return frames.celsius(self.thousandths, self.fahrenheit)

    def to_dict(self) -> dict[str, Any]:
        """The wire form, with an object for each reading."""
        out = super().to_dict()
        out["readings"] = [
            {
                "at": f"{t}Z",
                "temperature": degrees(int(n)),
                "scale": "F" if f else "C",
                "tolerance": degrees(int(u)),
                "joined": bool(j),
            }
            for t, n, f, u, j in zip(self.instants, self.thousandths, self.fahrenheit, self.tolerance, self.joined)
        ]
        return out

    def to_frame(self) -> pandas.DataFrame:
        """A DataFrame of the readings, `celsius` (double) and `joined`, by instant (UTC)."""
        frame = frames.trace_frame(self.instants, self.celsius(), self.joined)
        frame.attrs["caution"] = self.caution
        return frame


def degrees(thousandths: int) -> str:
    """The shortest decimal of thousandths of a degree: "4.2"."""
    whole, rest = divmod(abs(thousandths), 1000)
    text = f"{whole}.{rest:03d}".rstrip("0").rstrip(".")
    return "-" + text if thousandths < 0 else text
