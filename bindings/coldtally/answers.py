"""Answers: what a ledger says of an instant.

Attributes are exact: seconds, degree-Celsius-seconds and computed degrees Celsius are :class:`fractions.Fraction`,
instants are aware :class:`datetime.datetime` in UTC, dates are :class:`datetime.date`, doses are whole numbers.
``to_dict()`` is the wire form and ``to_json()`` the very bytes that the command line prints. How each answer is
computed stands in lib/answers/README.md of the sources, its fields in lib/forms/README.md.

Every list supports, and does not replace, the manufacturer's and the health department's guidance, local rules and
licensed judgement. Exposure alone never decides discard or revaccination.
"""
from __future__ import annotations

import datetime
import json
from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, Any, ClassVar, Protocol

from . import frames
from .errors import BadValue
from .wire import Record

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

    def table(self, answer: _core.Answer, columns: int, color: bool, zone: str | None, scale: str | None) -> str:
        """The answer as a table."""


# ---- parts


class SideExposure(Record):
    """Time on one side of a limit, seconds: at least <= estimate <= at most. `degree_Cs`: degree-Celsius-seconds."""

    at_least_s: Fraction
    estimate_s: Fraction
    at_most_s: Fraction
    degree_Cs: Fraction


class OpenSide(SideExposure):
    """And `open_s`, what of the estimate has accrued since guidance last cleared it."""

    open_s: Fraction


class AllowanceUse(Record):
    """An allowance of `seconds`, and the exact seconds used of it."""

    seconds: int
    used_s: Fraction


class OpenAllowanceUse(AllowanceUse):
    """And `open_s`, what of it has accrued since guidance last cleared it."""

    open_s: Fraction


class Beyond(Record):
    """Seconds out of range in no allowance, by side."""

    warm_s: Fraction
    cold_s: Fraction


class OpenBeyond(Beyond):
    """And what of them has accrued since guidance last cleared it."""

    warm_open_s: Fraction
    cold_open_s: Fraction


class Coverage(Record):
    """Seconds by what is known of them: logged, bounded by a check's min and max, between checks, near a reading or
    check in range (the temperature itself is not known), awaiting data, unmonitored."""

    logged_s: Fraction
    bounded_s: Fraction
    checked_s: Fraction
    near_s: Fraction
    awaiting_s: Fraction
    unmonitored_s: Fraction


class OpenCoverage(Coverage):
    """And what of the unmonitored time has accrued since guidance last cleared it."""

    unmonitored_open_s: Fraction


class Exposure(Record):
    """What a stretch of a place's trace did to a product. `points`: readings out of range and in no allowance."""

    warm: SideExposure
    cold: SideExposure
    frozen: SideExposure
    allowances: tuple[AllowanceUse, ...]
    beyond: Beyond
    points: int
    coverage: Coverage
    lowest_C: Fraction | None
    highest_C: Fraction | None


class History(Record):
    """What one dose has been through since receipt. `use_by`: the first instant at which it may no longer be used."""

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


class HoldingName(Record):
    """The doses of one lot, fund and mark in one place."""

    place: str
    product: str
    lot: str
    fund: str
    mark: str


LISTS = ("discard", "quarantine-pending-guidance", "keep")
FINDINGS = ("expired", "not viable", "pending guidance", "condemned later", "cleared", "clear")

# ---- answers


class Printed(Record):
    """What the core hands out: attributes, JSON, a table for people, and its rows as a DataFrame."""

    _rows: ClassVar[str] = ""
    _categories: ClassVar[dict[str, tuple[str, ...]]] = {}

    @classmethod
    def _of(cls, core: _core.Answer, ledger: TableMaker) -> Self:
        out = cls.__new__(cls)
        out.__dict__.update(_core=core, _ledger=ledger)
        return out

    if not TYPE_CHECKING:

        def __getattr__(self, name: str) -> Any:
            if name == "_wire" and "_core" in self.__dict__:  # parsed when first needed
                self.__dict__["_wire"] = wire = json.loads(self._core.json())
                return wire
            return super().__getattr__(name)

    def to_json(self) -> str:
        """JSON in one line with a line end: the bytes that the command line prints with ``--format json``."""
        core = self.__dict__.get("_core")
        if core is None:
            return json.dumps(self._wire, ensure_ascii=False, separators=(",", ":")) + "\n"
        text: str = core.json()
        return text

    def to_table(
        self, *, columns: int = 100, color: bool = False, zone: str | None = None, scale: str | None = None
    ) -> str:
        """The table that the command line prints: `columns` wide, local times in `zone` (None: the site's),
        temperatures in `scale` ("C", "F"; None: that of the site's sheets). Asks the ledger, which must be open.
        BadValue where an answer came from a pickle, or has no table."""
        core = self.__dict__.get("_core")
        if core is None:
            raise BadValue("table: an answer from a pickle or a dict has none; ask the ledger again")
        maker: TableMaker = self.__dict__["_ledger"]
        return maker.table(core, columns, color, zone, scale)

    def to_frame(self) -> pandas.DataFrame:
        """The rows of the answer as a pandas DataFrame: dates and instants as datetime64, doses as integers, lists and
        findings as categories. Exact numbers become the nearest double there, good for plots and sums, not for
        decisions. ``attrs["caution"]`` is the answer's caution."""
        frame = frames.to_frame(self, type(self)._rows, type(self)._categories)
        frame.attrs["caution"] = getattr(self, "caution")
        return frame

    def __iter__(self) -> Iterator[Any]:
        """The rows of the answer."""
        if not type(self)._rows:
            raise TypeError(f"{type(self).__name__} has no rows")
        return iter(getattr(self, type(self)._rows))

    def __len__(self) -> int:
        return len(getattr(self, type(self)._rows)) if type(self)._rows else 1

    def __bool__(self) -> bool:
        return True


class Answer(Printed):
    """What every answer to a question has: the site's name, the instant asked about, the one asked from, the highest
    entry known, and the caution that its table ends with."""

    ledger: str
    at: datetime.datetime
    known_on: datetime.datetime
    last_entry: int
    caution: str


class LastUse(Record):
    """The last day on which doses may be used: `day`, to its end where `whole_day`, else until the instant `until` (the
    first at which they may no longer be used). `set_by`: expiry, beyond-use, guidance or handover, and its `entry`
    (None: the expiry)."""

    day: datetime.date
    whole_day: bool
    until: datetime.datetime
    set_by: str
    entry: int | None


class StockHolding(HoldingName):
    """Doses of a holding, the lot's expiry, and the last day on which they may be used, which may be earlier. `list`:
    discard, quarantine-pending-guidance or keep; :class:`ListedHolding` says why. `do_not_use`: of all that are not on
    keep or are in doubt. `in_doubt`: open incidents in whose time in doubt doses of this lot stood where these have
    been, and that no guidance has answered since; whatever the list."""

    doses: int
    expiry: datetime.date
    last_use: LastUse
    list: str
    do_not_use: bool
    in_doubt: tuple[str, ...]


class Accounts(Record):
    """The doses of every account; they add up to 0. `variance`: doses lost less doses found."""

    supplier: int
    patient: int
    wasted: int
    returned: int
    transferred: int
    variance: int
    on_hand: int


class OnHand(StockHolding):
    """A holding in stock. `beside`: what must be known before its doses are used though the list does not say it."""

    beside: tuple[str, ...]


class StockAnswer(Answer):
    """Which doses are where."""

    _rows = "holdings"
    _categories = {"list": LISTS}
    holdings: tuple[OnHand, ...]
    accounts: Accounts


class ListedHolding(StockHolding):
    """A holding on its list: discard, quarantine-pending-guidance or keep, with the reasons and what else to know."""

    reasons: tuple[str, ...]
    notes: tuple[str, ...]
    history: History


class ListsAnswer(Answer):
    """All doses on the three lists."""

    _rows = "holdings"
    _categories = {"list": LISTS}
    holdings: tuple[ListedHolding, ...]
    caution: str

    def on(self, name: str) -> tuple[ListedHolding, ...]:
        """The holdings of one list."""
        if name not in type(self)._categories["list"]:
            raise BadValue(f"list: {name!r}: must be one of {', '.join(type(self)._categories['list'])}")
        return tuple(h for h in self.holdings if h.list == name)


class ScanElement(Record):
    """One element of a GS1 code: application identifier, its data title (empty where it is none used here), value."""

    ai: str
    title: str
    value: str


class ScanAnswer(Answer):
    """What the code on a box says (gtin: 14 digits; expiry: "2027-05-31", or "2027-05" for a month's last day), and
    what the ledger knows of such boxes. `remarks`: where the two do not agree, or one does not know."""

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
    holdings: tuple[ListedHolding, ...]
    caution: str


class GivenDose(HoldingName):
    """Doses given, and what their history then means: clear, cleared, condemned later, pending
    guidance, not viable or expired. A clinician decides."""

    entry: int
    at: datetime.datetime
    patient: str
    doses: int
    certain: bool
    finding: str
    reasons: tuple[str, ...]
    guidance: int | None
    history: History


class ReviewAnswer(Answer):
    """Doses given that may need review. `not_listed`: what must not be read as "nothing happened", in words: doses
    given in the time in doubt of an open incident, or that may have been out of range for longer than is permitted, at
    which nothing was found."""

    _rows = "doses"
    _categories = {"finding": FINDINGS}
    doses: tuple[GivenDose, ...]
    not_listed: tuple[str, ...]
    caution: str


class Inside(Record):
    """Doses that were inside during an excursion, and their exposure over the overlap."""

    product: str
    lot: str
    fund: str
    mark: str
    doses: int
    exposure: Exposure


class Excursion(Record):
    """One excursion of a place. `side`: warm or cold. `marks`: what its readings lack. `kind`: line, bounded or point.
    `checked_s`: of the duration, what rests on a line between plain checks, where nothing is known. `from_s` and
    `until_s` are exact seconds since 1970; `from_` and `until` the nearest whole second."""

    side: str
    kind: str
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
    holdings: tuple[Inside, ...]


class ExcursionsAnswer(Answer):
    """The excursions of a place in a window; `window`: it in words. `not_seen`: that what was not recorded does not
    show."""

    _rows = "excursions"
    _categories = {"side": ("cold", "warm"), "kind": ("bounded", "line", "point")}
    place: str
    from_: datetime.datetime
    until: datetime.datetime
    window: str
    coverage: Coverage
    not_seen: str
    excursions: tuple[Excursion, ...]
    caution: str


class ConditionsAnswer(Answer):
    """The conditions of a place in a window; `window`: it in words. `mean_kinetic_C`: six decimals, correctly
    rounded."""

    place: str
    from_: datetime.datetime
    until: datetime.datetime
    window: str
    coverage: Coverage
    lowest_C: Fraction | None
    highest_C: Fraction | None
    mean_C: Fraction | None
    mean_kinetic_C: Decimal | None
    excursions: int
    marks: tuple[str, ...]


class Explanation(Answer):
    """Why a holding is on its list, in the order of time."""

    holding: HoldingName
    lines: tuple[str, ...]
    caution: str


class Verification(Printed):
    """What a check of the whole file found; no findings: the ledger is as it was posted. `chain`: SHA-256 of the last
    link; `to_note`: what of it to write down on paper; None where anything was found. `findings`: the first hundred of
    `findings_in_all`."""

    entries: int
    readings: int
    chain: str
    to_note: str | None
    findings: tuple[str, ...]
    findings_in_all: int


class LedgerCopy(Printed):
    """A copy of a ledger that was made and verified. `format` and `from_format`: of the two files; `to_note`: to write
    down on paper, see :meth:`Ledger.verify`."""

    copy: str
    from_format: int
    format: int
    entries: int
    readings: int
    chain: str
    to_note: str | None


class Stay(Record):
    """Doses of a lot in one place, from an instant until another; None: they are still there. `doses`: the most at
    once."""

    place: str
    fund: str
    mark: str
    from_: datetime.datetime
    until: datetime.datetime | None
    doses: int


class StaysAnswer(Answer):
    """When the doses of a lot were where."""

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
        return (type(self)._with, (self._wire, self.__dict__["_arrays"]))

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

    def __len__(self) -> int:
        return len(self.instants)

    def to_json(self) -> str:
        """The wire form as JSON in one line with a line end."""
        return json.dumps(self.to_dict(), ensure_ascii=False, separators=(",", ":")) + "\n"


class ReadingsAnswer(_WithArrays):
    """The readings of a probe as indicated, in its `scale`; `window`: what was asked for, in words. The arrays are
    the caller's own and may be written to."""

    probe: str
    scale: str
    window: str

    def to_dict(self) -> dict[str, Any]:
        """The wire form, with a row for each reading."""
        rows = [[f"{t}Z", degrees(int(n))] for t, n in zip(self.instants, self.thousandths)]
        return {**super().to_dict(), "rows": rows}

    def to_frame(self) -> pandas.DataFrame:
        """A DataFrame of one column, `temperature` (double, degrees of the scale), by instant (UTC)."""
        frame = frames.readings_frame(self.instants, self.thousandths)
        frame.attrs["caution"] = self.caution
        return frame


class TraceCheck(Record):
    """A check as it counts for the trace: corrected, in its scale; degrees."""

    entry: int
    at: datetime.datetime
    temperature: Decimal
    scale: str
    min: Decimal | None
    max: Decimal | None
    tolerance: Decimal


class TracePart(Record):
    """Time that no logger covers: bounded, checked, near, awaiting or unmonitored. The attribute `class_` is the wire's
    `class`."""

    class_: str
    from_: datetime.datetime
    until: datetime.datetime


class Bound(Record):
    """A limit of temperature, degrees, in C, in F or in both."""

    C: Decimal | None
    F: Decimal | None

    def celsius(self) -> Fraction:
        """Degrees Celsius: its own number, or the exact conversion of °F."""
        if self.C is not None:
            return Fraction(self.C)
        assert self.F is not None  # a limit states one of the two
        return (Fraction(self.F) - 32) * Fraction(5, 9)


class Bounds(Record):
    """The range of a place; None: no bound on that side."""

    low: Bound | None
    high: Bound | None


class TraceAnswer(_WithArrays):
    """What is known of a place's temperature in a window (`window`: it in words), corrected by the probes'
    certificates."""

    place: str
    from_: datetime.datetime
    until: datetime.datetime
    window: str
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
