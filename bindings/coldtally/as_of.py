"""As of: questions to a ledger for one instant, from one state of what is known. How each answer is computed stands in
lib/conditions/README.md and lib/stock/README.md of the sources."""
from __future__ import annotations

import datetime
import json
import os
import zoneinfo
from typing import Any, TypeVar

from . import _core
from .answers import (
    ConditionsAnswer,
    ExcursionsAnswer,
    Explanation,
    ListsAnswer,
    Printed,
    ReadingsAnswer,
    ReviewAnswer,
    ScanAnswer,
    StaysAnswer,
    StockAnswer,
    TraceAnswer,
)
from .arguments import Instant, WindowEnd, maybe_bound, maybe_text, now_s, text, utc, whole, window
from .arguments import asked as asked_of
from .docstrings import complete_methods
from .entered import EnteredAnswer, ShownAnswer
from .errors import BadValue, Contradiction, NotKnown, Overtaken, WrongType
from .fhir import ImmunizationsAnswer
from .handovers import HandoverAnswer
from .incidents import IncidentAnswer, IncidentsAnswer, RulesAnswer
from .journeys import MoveListAnswer, TripAnswer
from .stewardship import AccountabilityAnswer, DatesAnswer, LoansAnswer
from .today import TodayAnswer
from .upkeep import FollowUpAnswer, PlanAnswer, ReadinessAnswer, TrainingAnswer, UnitAnswer

__all__ = ["AsOf", "Questions"]

Asked = TypeVar("Asked", bound=Printed)

PARAMETERS = {
    "from_": "The beginning of the window; a date: the first instant of that day.",
    "until": "Its end, which is not in it; a date: the end of that day.",
    "place": "The id of the place.",
    "product": "The id of the product.",
    "lot": "The number of the lot.",
    "activation_K": (
        "Activation energy over the gas constant, kelvin, for the mean kinetic temperature: 1 to 1,000,000."
    ),
}
"""What these parameters mean in every question."""
RAISES = {
    "BadValue": "An instant without a zone, or text that is none.",
    "NotKnown": "`known_on` is before the first entry.",
    "LedgerMissing": "Nothing has been posted yet.",
    "ClosedLedger, ForkedProcess, Busy, Damaged, Machine": "As every call of :class:`Ledger`.",
}
"""What every question raises."""


class Questions:
    """Questions to an open ledger. :meth:`Ledger.as_of` fixes the instant and what is known; the methods of
    :class:`Ledger` of these names ask one question each."""

    def __init__(self, core: _core.Ledger, asked: _core.Asked, last_entry: int | None = None) -> None:
        self._core = core
        self._asked = asked
        self._last_entry = last_entry

    def _known(self, last_entry: int | None) -> None:
        """Refuses an answer that knows of more than the question was fixed to."""
        if self._last_entry is not None and last_entry != self._last_entry:
            raise Overtaken(
                f"entry {last_entry} was posted in the second that these answers are known on, after entry "
                f"{self._last_entry}, the last that they know: ask as_of() again"
            )

    def _answer(self, kind: type[Asked], core: _core.Answer) -> Asked:
        self._known(core.last_entry())
        return kind._of(core, self._core)

    # ---- doses

    def stock(self) -> StockAnswer:
        """Which doses are where, and the accounts.

        Returns
        -------
        StockAnswer
            The holdings, in doses, each with its list and whether it must not be used.
        """
        return self._answer(StockAnswer, self._core.stock(self._asked))

    def lists(self) -> ListsAnswer:
        """All doses sorted into discard, quarantine-pending-guidance and keep.

        Returns
        -------
        ListsAnswer
            The holdings with reasons, notes and exact histories, in seconds and degree-Celsius-seconds.
        """
        return self._answer(ListsAnswer, self._core.lists(self._asked))

    def scan(self, code: str) -> ScanAnswer:
        """What the text of a scanned GS1 code says, and the holdings of its lot on their lists.

        Parameters
        ----------
        code : str
            What the scanner sends, or the code with its parentheses.

        Returns
        -------
        ScanAnswer
            The elements of the code, what the ledger knows of such boxes, and where the two do not agree.

        Raises
        ------
        BadValue
            It is no such code, or its check digit, dates or lengths are wrong.
        Contradiction
            It states one thing twice.
        """
        return self._answer(ScanAnswer, self._core.scan(self._asked, text("code", code)))

    def review(self, *, all: bool = False) -> ReviewAnswer:
        """Doses given that may need review. It never says to revaccinate: a clinician decides.

        Parameters
        ----------
        all : bool, default False
            Also those that are clear.

        Returns
        -------
        ReviewAnswer
            The doses, and what must not be read as "nothing happened".

        Notes
        -----
        NOT listed without `all`, and not thereby without doubt: doses given in the time in doubt of an incident that is
        open (:meth:`incident` lists them), and those that may have been out of range for longer by `at_most` alone.
        """
        return self._answer(ReviewAnswer, self._core.review(self._asked, all))

    def immunizations(self, *, patient: str | None = None) -> ImmunizationsAnswer:
        """Doses given as FHIR R4 Immunization resources, with what the review says of each in its notes. It never says
        that a dose does not count: a clinician decides.

        Parameters
        ----------
        patient : str, optional
            Those of this token alone.

        Returns
        -------
        ImmunizationsAnswer
            A resource for each give that stands.
        """
        return self._answer(ImmunizationsAnswer, self._core.immunizations(self._asked, maybe_text("patient", patient)))

    def explain(self, place: str, product: str, lot: str, *, fund: str = "", mark: str = "") -> Explanation:
        """Why a holding is on its list, in the order of time.

        Parameters
        ----------
        fund, mark : str, default ""
            Those of the holding.

        Returns
        -------
        Explanation
            The reasons in words, a line each.

        Raises
        ------
        NotKnown
            There is no such holding, or `known_on` is before the first entry.
        """
        names = [
            text(n, v)
            for n, v in (("place", place), ("product", product), ("lot", lot), ("fund", fund), ("mark", mark))
        ]
        return self._answer(Explanation, self._core.explain(self._asked, *names))

    def stays(self, product: str, lot: str) -> StaysAnswer:
        """When the doses of a lot were where.

        Returns
        -------
        StaysAnswer
            Each stay, with the most doses at once.

        Raises
        ------
        NotKnown
            There is no such lot, or `known_on` is before the first entry.
        """
        return self._answer(StaysAnswer, self._core.stays(self._asked, text("product", product), text("lot", lot)))

    def dates(self) -> DatesAnswer:
        """Until when doses may be used, what sets that, which to use first, and how many will be left over at the rate
        of the last 90 days.

        Returns
        -------
        DatesAnswer
            The holdings with their limits, and the rates of use in doses a day.
        """
        return self._answer(DatesAnswer, self._core.dates(self._asked))

    def handover(self, entry: int, *, file: str | os.PathLike[str] | None = None) -> HandoverAnswer:
        """The history of doses as they left by a transfer: for the site that receives them, and to be stated anew where
        later readings tell more.

        Parameters
        ----------
        entry : int
            The number of the transfer's entry.
        file : path, optional
            A new file for it; the sheet for people is written beside it.

        Returns
        -------
        HandoverAnswer
            The history, and what the receiver must know besides.

        Raises
        ------
        NotKnown
            No such transfer stands, or `known_on` is before the first entry.
        Contradiction
            There is a file already, or guidance condemned the doses.
        """
        path = None if file is None else text("file", os.fspath(file))
        return self._answer(HandoverAnswer, self._core.handover(self._asked, whole("entry", entry), path))

    # ---- funds

    def loans(self, *, all: bool = False, patients: bool = False) -> LoansAnswer:
        """Doses of one fund that another owes it.

        Parameters
        ----------
        all : bool, default False
            Also the loans that are repaid.
        patients : bool, default False
            With the tokens of the patients.

        Returns
        -------
        LoansAnswer
            The loans in doses, and the balances of the funds.
        """
        return self._answer(LoansAnswer, self._core.loans(self._asked, all, patients))

    def accountability(self, from_: WindowEnd, until: WindowEnd) -> AccountabilityAnswer:
        """Every dose of the period [from_, until) by product, lot and fund.

        Returns
        -------
        AccountabilityAnswer
            Accounts that add up, in doses.

        Raises
        ------
        Contradiction
            The period ends before it begins.
        """
        return self._answer(AccountabilityAnswer, self._core.accountability(self._asked, *window(from_, until)))

    # ---- temperatures

    def readings(self, probe: str, from_: WindowEnd, until: WindowEnd) -> ReadingsAnswer:
        """The readings of a probe in [from_, until), as indicated, as NumPy arrays.

        Parameters
        ----------
        probe : str
            The id of the probe.

        Returns
        -------
        ReadingsAnswer
            Instants in UTC, and thousandths of a degree of the probe's scale. The arrays are the caller's own.

        Raises
        ------
        NotKnown
            There is no such probe, or `known_on` is before the first entry.
        Contradiction
            The window ends before it begins.
        """
        head, instants, thousandths = self._core.readings(self._asked, text("probe", probe), *window(from_, until))
        form = json.loads(head)
        self._known(form["last_entry"])
        del form["rows"]
        return ReadingsAnswer._with(form, {"instants": instants.view("M8[s]"), "thousandths": thousandths})

    def trace(self, place: str, from_: WindowEnd, until: WindowEnd) -> TraceAnswer:
        """What is known of a place's temperature in [from_, until): corrected readings as NumPy arrays, checks, and
        what stands for the time that is not logged.

        Returns
        -------
        TraceAnswer
            Thousandths of a degree of each reading's scale. The arrays are the caller's own.

        Raises
        ------
        NotKnown
            There is no such place, or `known_on` is before the first entry.
        Contradiction
            The window ends before it begins.
        """
        head, *arrays = self._core.trace(self._asked, text("place", place), *window(from_, until))
        form = json.loads(head)
        self._known(form["last_entry"])
        del form["readings"]
        named: dict[str, Any] = dict(zip(("instants", "thousandths", "fahrenheit", "tolerance", "joined"), arrays))
        named["instants"] = named["instants"].view("M8[s]")
        return TraceAnswer._with(form, named)

    def excursions(self, place: str, from_: WindowEnd, until: WindowEnd) -> ExcursionsAnswer:
        """The excursions of a place in [from_, until), with the doses inside.

        Returns
        -------
        ExcursionsAnswer
            Exact seconds and degrees Celsius.

        Raises
        ------
        NotKnown
            There is no such place, or `known_on` is before the first entry.
        Contradiction
            The window ends before it begins.
        """
        return self._answer(
            ExcursionsAnswer, self._core.excursions(self._asked, text("place", place), *window(from_, until))
        )

    def conditions(
        self, place: str, from_: WindowEnd, until: WindowEnd, *, activation_K: int = 10000
    ) -> ConditionsAnswer:
        """Coverage, extremes, mean and mean kinetic temperature of a place in [from_, until).

        Returns
        -------
        ConditionsAnswer
            Seconds and degrees Celsius; None where nothing is known.

        Raises
        ------
        NotKnown
            There is no such place, or `known_on` is before the first entry.
        BadValue
            An activation that is not 1 to 1,000,000 K, an instant without a zone, or text that is none.
        Contradiction
            The window ends before it begins.
        """
        ends = window(from_, until)
        kelvin = whole("activation_K", activation_K)
        return self._answer(ConditionsAnswer, self._core.conditions(self._asked, text("place", place), *ends, kelvin))

    def unit(
        self, place: str, from_: WindowEnd | None = None, until: WindowEnd | None = None, *, activation_K: int = 10000
    ) -> UnitAnswer:
        """The history of a storage unit by month in [from_, until); not given: all that is known of it.

        Returns
        -------
        UnitAnswer
            Exact seconds and degrees Celsius.

        Raises
        ------
        NotKnown
            There is no such place, or `known_on` is before the first entry.
        BadValue
            An activation that is not 1 to 1,000,000 K, an instant without a zone, or text that is none.
        Contradiction
            The window ends before it begins.
        """
        ends = maybe_bound("from", from_), maybe_bound("until", until)
        kelvin = whole("activation_K", activation_K)
        return self._answer(UnitAnswer, self._core.unit(self._asked, text("place", place), *ends, kelvin))

    # ---- programme and incidents

    def rules(
        self, place: str | None = None, from_: WindowEnd | None = None, until: WindowEnd | None = None
    ) -> RulesAnswer:
        """What the programme asks for, and which of its conditions were met in [from_, until); not given: the 30 days
        before the instant asked about.

        Parameters
        ----------
        place : str, optional
            The id of the place; None: each.

        Returns
        -------
        RulesAnswer
            The conditions, in exact seconds.

        Raises
        ------
        NotKnown
            There is no such place, or `known_on` is before the first entry.
        Contradiction
            The window ends before it begins.
        """
        ends = maybe_bound("from", from_), maybe_bound("until", until)
        return self._answer(RulesAnswer, self._core.rules(self._asked, maybe_text("place", place), *ends))

    def incident(self, incident: str, *, maker: str | None = None, patients: bool = False) -> IncidentAnswer:
        """The whole of an incident for those who must be told, or what concerns the products of one maker. Others read
        it: patients are a number in it.

        Parameters
        ----------
        incident : str
            Its name.
        maker : str, optional
            Whose products alone.
        patients : bool, default False
            With the tokens of the patients.

        Returns
        -------
        IncidentAnswer
            What happened, to which doses, what was done, and what is to be done.

        Raises
        ------
        NotKnown
            There is none of this name or none of its products, or `known_on` is before the first entry.
        """
        core = self._core.incident(self._asked, text("incident", incident), maybe_text("maker", maker), patients)
        return self._answer(IncidentAnswer, core)

    def incidents(
        self,
        place: str | None = None,
        from_: WindowEnd | None = None,
        until: WindowEnd | None = None,
        *,
        probe: str | None = None,
    ) -> IncidentsAnswer:
        """Which excursions in [from_, until) belong to which incident; not given: from the beginning to the instant
        asked about.

        Parameters
        ----------
        place : str, optional
            Those of this place alone.
        probe : str, optional
            Those of the places that this probe was in then.

        Returns
        -------
        IncidentsAnswer
            The incidents, and excursions for which nobody has opened one.

        Raises
        ------
        NotKnown
            There is no such place or probe, or `known_on` is before the first entry.
        """
        ends = maybe_bound("from", from_), maybe_bound("until", until)
        core = self._core.incidents(self._asked, maybe_text("place", place), maybe_text("probe", probe), *ends)
        return self._answer(IncidentsAnswer, core)

    # ---- journeys

    def move_list(self, place: str, container: str | None = None) -> MoveListAnswer:
        """What is in a place, in the order in which to move it.

        Parameters
        ----------
        container : str, optional
            The id of a container: what its range means for each holding.

        Returns
        -------
        MoveListAnswer
            The holdings: what must go first, what is to be discarded last.

        Raises
        ------
        NotKnown
            There is no such place or container, or `known_on` is before the first entry.
        """
        core = self._core.move_list(self._asked, text("place", place), maybe_text("container", container))
        return self._answer(MoveListAnswer, core)

    def trip(self, container: str, *, limit_s: int | None = None) -> TripAnswer:
        """The last journey of a container and what became of its doses.

        Parameters
        ----------
        container : str
            The id of the container.
        limit_s : int, optional
            Seconds that it may last; None: what the programme's rules say.

        Returns
        -------
        TripAnswer
            How long it lasted, in seconds, and the doses in the container.

        Raises
        ------
        NotKnown
            The container has not departed, or `known_on` is before the first entry.
        """
        seconds = None if limit_s is None else whole("limit_s", limit_s)
        return self._answer(TripAnswer, self._core.trip(self._asked, text("container", container), seconds))

    # ---- what a site keeps in order

    def plan(self) -> PlanAnswer:
        """The contingency plan that holds, and what is missing or old in it.

        Returns
        -------
        PlanAnswer
            The plan, and what is found of it, each with since when.
        """
        return self._answer(PlanAnswer, self._core.plan(self._asked))

    def follow_up(self, lot: str | None = None, product: str | None = None) -> FollowUpAnswer:
        """The doses of the review list, or all that were given of a recalled lot, and what was done about each.

        Parameters
        ----------
        lot : str, optional
            The number of a lot that is recalled.
        product : str, optional
            Its product, where the lot is one of several products.

        Returns
        -------
        FollowUpAnswer
            The doses: those of which nothing was done first.

        Raises
        ------
        NotDefined
            No such lot is known.
        Ambiguous
            It is one of several products.
        MissingField
            A product without a lot.
        """
        core = self._core.follow_up(self._asked, maybe_text("lot", lot), maybe_text("product", product))
        return self._answer(FollowUpAnswer, core)

    def training(self) -> TrainingAnswer:
        """Who was trained in what, until when that is good, and what has lapsed.

        Returns
        -------
        TrainingAnswer
            The last training of each person in each topic.
        """
        return self._answer(TrainingAnswer, self._core.training(self._asked))

    def today(self) -> TodayAnswer:
        """What must be known and done on the day of the instant: one screen to begin and to end the day with.

        Returns
        -------
        TodayAnswer
            What must not be used, units, incidents, last days, checks still to make, papers; and what it did not look
            at.
        """
        return self._answer(TodayAnswer, self._core.today(self._asked))

    def readiness(self, from_: WindowEnd | None = None) -> ReadinessAnswer:
        """What an inspector would find missing, since when and by what rule, and all that was looked at.

        Parameters
        ----------
        from_ : WindowEnd, optional
            How far back checks, temperatures and certificates are looked at; None: 365 days.

        Returns
        -------
        ReadinessAnswer
            The findings by urgency, and the topics that were looked at.
        """
        return self._answer(ReadinessAnswer, self._core.readiness(self._asked, maybe_bound("from", from_)))

    # ---- what was entered

    def entered(
        self,
        *,
        from_: WindowEnd | None = None,
        until: WindowEnd | None = None,
        place: str | None = None,
        product: str | None = None,
        lot: str | None = None,
        patient: str | None = None,
        kind: str | None = None,
        by: str | None = None,
        text: str | None = None,
        last: int | None = None,
        all: bool = False,
        patients: bool = False,
    ) -> EnteredAnswer:
        """What was entered, with what took it back. All that is stated must fit; :meth:`Ledger.entries` has every entry
        whole.

        Parameters
        ----------
        from_ : WindowEnd, optional
            Happened or entered from then on; a date: from that day's first instant.
        until : WindowEnd, optional
            Happened or entered before; a date: that day is in it.
        place : str, optional
            Names this place, or is readings of a probe in it.
        product : str, optional
            Names this product.
        lot : str, optional
            Names this lot.
        patient : str, optional
            A dose given to this token, and what is about it.
        kind : str, optional
            Of this kind: "give", "check"; "takeback" is a void.
        by : str, optional
            Entered by these initials.
        text : str, optional
            With this in what was typed, in small letters or capitals.
        last : int, optional
            So many, the last of them; None: 40.
        all : bool, default False
            All of them.
        patients : bool, default False
            With the tokens of the patients.

        Returns
        -------
        EnteredAnswer
            The entries, the last last.

        Raises
        ------
        BadValue
            There is no such kind, or `last` is not at least 1.
        NotKnown
            Nothing is as asked, and the place, product or lot is not known, or nobody used these initials.
        Contradiction
            `until` lies before `from_`, or `last` is stated with `all`.
        """
        most = 0 if all else 40 if last is None else whole("last", last)
        if all and last is not None:
            raise Contradiction("last: is not stated with all, which is every one")
        if not all and most < 1:
            raise BadValue(f"last: {most}: must be at least 1")
        core = self._core.entered(
            self._asked,
            maybe_bound("from", from_),
            maybe_bound("until", until),
            maybe_text("place", place),
            maybe_text("product", product),
            maybe_text("lot", lot),
            maybe_text("patient", patient),
            maybe_text("kind", kind),
            maybe_text("by", by),
            maybe_text("text", text),
            most,
            patients,
        )
        return self._answer(EnteredAnswer, core)

    def show(self, name: str | None = None, kind: str | None = None) -> ShownAnswer:
        """What is defined under a name, as it holds, with its history.

        Parameters
        ----------
        name : str, optional
            The id of a product, place or probe, a lot's number, a person who was trained, "site" or "rules"; None: the
            names that there are.
        kind : str, optional
            Of this kind alone; "site" and "rules" need no name.

        Returns
        -------
        ShownAnswer
            All that goes by that name.

        Raises
        ------
        BadValue
            There is no such kind.
        NotKnown
            Nothing goes by that name.
        """
        return self._answer(
            ShownAnswer, self._core.show(self._asked, maybe_text("name", name), maybe_text("kind", kind))
        )


class AsOf(Questions):
    """A ledger as of one instant, as it is known on one: every question is a method of it, and all are answered of the
    same state of knowledge, whatever is posted meanwhile.

    :meth:`Ledger.as_of` makes one. It needs its ledger open; any number of them may be there at once.

    Notes
    -----
    What is known is fixed when it is made, by the last entry that there was. `known_on` is then the last whole second
    by which that entry had been recorded and after which every later one is; the same question asked of the ledger with
    this `at` and `known_on` gives the same bytes on any day. Only where the last entry was recorded in the very second
    in which the view was made can another come into that second: a question then raises Overtaken, and says nothing of
    another state.

    Examples
    --------
    ::

        seen = ledger.as_of(at="2026-05-29 17:00")
        quarantined = seen.lists().on("quarantine-pending-guidance")
        given = seen.review()
    """

    def __init__(
        self, core: _core.Ledger, at: Instant | None, known_on: Instant | None, now: datetime.datetime | None
    ) -> None:
        moment = utc(now_s(now))
        at_s, known_s, last = core.head(asked_of(at, known_on, moment))
        latest_s = core.head(asked_of(None, None, moment))[1]
        if known_s >= latest_s:  # what is yet to be posted may come into this second: the one before will not change
            known_s = latest_s
            try:
                if core.head(asked_of(None, utc(latest_s - 1), moment))[2] == last:
                    known_s = latest_s - 1
            except NotKnown:  # the first entry is of this second
                pass
        self._at, self._known_on = utc(at_s), utc(known_s)
        super().__init__(core, asked_of(self._at, self._known_on, moment), last)

    @property
    def at(self) -> datetime.datetime:
        """The instant asked about, in UTC."""
        return self._at

    @property
    def known_on(self) -> datetime.datetime:
        """The instant it is known from, in UTC."""
        return self._known_on

    @property
    def last_entry(self) -> int:
        """The number of the last entry that is known."""
        assert self._last_entry is not None
        return self._last_entry

    def zone(self) -> zoneinfo.ZoneInfo:
        """The site's time zone, as it is known.

        Returns
        -------
        zoneinfo.ZoneInfo
            The zone.
        """
        return zoneinfo.ZoneInfo(self._core.zone(self._known_on.strftime("%Y-%m-%dT%H:%M:%SZ"), 0))

    def __reduce__(self) -> Any:
        raise WrongType(
            "a view asks an open file and cannot be pickled: pass the path, at and known_on, and make it there"
        )

    def __repr__(self) -> str:
        return f"<coldtally.AsOf {self._at:%Y-%m-%dT%H:%M:%SZ}, known up to entry {self._last_entry}>"


complete_methods(Questions, PARAMETERS, RAISES)
complete_methods(AsOf, {}, RAISES)
