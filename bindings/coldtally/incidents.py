"""Incidents: what a programme's rules make of a place's temperatures, and excursions with what people did about them.
Times are exact seconds, temperatures exact degrees Celsius, doses and entry numbers whole numbers. Nothing here says to
discard or to revaccinate: the manufacturer, the health department and a clinician do. The page is
lib/incidents/README.md."""
from __future__ import annotations

import datetime
from fractions import Fraction
from typing import get_args

from .answers import Answer, Exposure, History, HoldingName, Rows
from .programme import ProgrammeRules
from .remarks import Remark
from .terms import (
    DutyState,
    DutyStep,
    ExcursionKind,
    Finding,
    IncidentStepName,
    ListName,
    PlaceType,
    Reader,
    Reason,
    RuleForm,
    RuleState,
    Side,
)
from .answered import Answered

__all__ = [
    "AnswerAwaited",
    "AskedMaker",
    "Device",
    "DutyClock",
    "IncidentAnswer",
    "IncidentDose",
    "IncidentExcursion",
    "IncidentHold",
    "IncidentHolding",
    "IncidentLeft",
    "IncidentLine",
    "IncidentRow",
    "IncidentStep",
    "IncidentUnit",
    "IncidentsAnswer",
    "RuleFinding",
    "RuleLevel",
    "RulesAnswer",
    "SentReport",
    "ToldHolding",
    "UnknownTime",
    "UsedUp",
]


class RuleLevel(Answered):
    """A condition by one way of judging readings. Of `most` and `most_s` there is the one that fits the form.

    Attributes
    ----------
    met : bool
        Was it met?
    first : datetime.datetime | None
        When, to the nearest second; None: it was not.
    first_s : Fraction | None
        When, exact seconds since 1970.
    most : Fraction | None
        Readings or excursions, the most.
    most_s : Fraction | None
        The longest run or largest sum, seconds.
    """

    met: bool
    first: datetime.datetime | None
    first_s: Fraction | None
    most: Fraction | None
    most_s: Fraction | None


class RuleFinding(Answered):
    """One condition of the programme for one place.

    Attributes
    ----------
    rule : str
        Its name.
    text : str
        In the programme's words.
    form : RuleForm
        run, sum, reading or pattern.
    state : RuleState
        met, met by the estimate, perhaps met, cannot be said (`unknown_s` seconds that it asks about are not known, and
        could have met it) or not met.
    at_least : RuleLevel
        By the readings alone; met, it implies the other three.
    estimate : RuleLevel
        By the line between the readings.
    at_most : RuleLevel
        By the most that the readings permit.
    with_unknown : RuleLevel
        `at_most`, had it been beyond the limit in all the time that is not known.
    unknown_s : Fraction
        Seconds of the time it asks about that are not known.
    checked_s : Fraction
        Of those, seconds on a line between plain checks.
    """

    rule: str
    text: str
    place: str
    form: RuleForm
    state: RuleState
    at_least: RuleLevel
    estimate: RuleLevel
    at_most: RuleLevel
    with_unknown: RuleLevel
    unknown_s: Fraction
    checked_s: Fraction


class UnknownTime(Answered):
    """A place that was looked at, and the time of the window of which nothing is known there: it may hide more.

    Attributes
    ----------
    unmonitored_s : Fraction
        Exact seconds.
    checked_s : Fraction
        Exact seconds on a line between plain checks, where nothing is known between them.
    """

    place: str
    unmonitored_s: Fraction
    checked_s: Fraction


class RulesAnswer(Answer, Rows[RuleFinding]):
    """The programme's rules that hold, and which conditions were met where in a window; a sequence of the findings.

    Attributes
    ----------
    entry : int | None
        The number of the entry that posted them; None: none are known.
    rules : ProgrammeRules | None
        As they were posted; None: none are known.
    places : tuple[UnknownTime, ...]
        Those that were looked at.
    findings : tuple[RuleFinding, ...]
        A condition for a place each.
    not_judged : tuple[str, ...]
        Places of a type that no condition is for, in words.
    """

    _rows = "findings"
    _categories = {"form": get_args(RuleForm), "state": get_args(RuleState)}
    entry: int | None
    rules: ProgrammeRules | None
    from_: datetime.datetime
    until: datetime.datetime
    window: str
    window_code: Remark | None
    places: tuple[UnknownTime, ...]
    findings: tuple[RuleFinding, ...]
    not_judged: tuple[str, ...]
    not_judged_codes: tuple[Remark, ...]
    caution: str


class IncidentExcursion(Answered):
    """An excursion of a place.

    Attributes
    ----------
    side : Side
        warm or cold.
    kind : ExcursionKind
        line, bounded or point.
    duration_s : Fraction
        Exact seconds.
    peak_C : Fraction
        The temperature farthest from the range, degrees Celsius.
    checked_s : Fraction
        Of the duration, seconds on a line between plain checks, where nothing is known.
    open : bool
        Not known to be over.
    """

    place: str
    side: Side
    kind: ExcursionKind
    from_: datetime.datetime
    from_s: Fraction
    until: datetime.datetime
    until_s: Fraction
    duration_s: Fraction
    peak_C: Fraction
    checked_s: Fraction
    open: bool


class IncidentRow(Answered):
    """An incident and its excursions.

    Attributes
    ----------
    noticed : datetime.datetime | None
        When; None: not yet.
    closed : datetime.datetime | None
        When; None: it is open.
    places : tuple[str, ...]
        Those that its steps name; none: it is of all, as one that was noticed of no one place.
    excursions : tuple[IncidentExcursion, ...]
        Those that belong to it.
    """

    incident: str
    noticed: datetime.datetime | None
    closed: datetime.datetime | None
    places: tuple[str, ...]
    excursions: tuple[IncidentExcursion, ...]


class IncidentsAnswer(Answer, Rows[IncidentRow]):
    """Which excursions belong to which incident; a sequence of the incidents.

    Attributes
    ----------
    window : str
        The time that was asked about, in words; empty: all that is known.
    incidents : tuple[IncidentRow, ...]
        The incidents.
    without_incident : tuple[IncidentExcursion, ...]
        Excursions for which nobody has opened one.
    not_listed : tuple[str, ...]
        How many there are outside of the place or time that was asked for, in words.
    """

    _rows = "incidents"
    window: str
    window_code: Remark | None
    incidents: tuple[IncidentRow, ...]
    without_incident: tuple[IncidentExcursion, ...]
    not_listed: tuple[str, ...]
    not_listed_codes: tuple[Remark, ...]
    caution: str


class IncidentStep(Answered):
    """A step that was written down.

    Attributes
    ----------
    step : IncidentStepName
        What was done.
    place : str | None
        The id of a place that it is of; None: none is named.
    note : str | None
        Also why doses were not put on hold, or why the incident was closed all the same.
    """

    entry: int
    at: datetime.datetime
    by: str
    step: IncidentStepName
    text: str
    place: str | None
    note: str | None


class Device(Answered):
    """What measured.

    Attributes
    ----------
    serial : str | None
        Its number; None: not known.
    certificate : str | None
        The certificate's number; None: not known.
    certified_until : datetime.date | None
        Its last day; None: there is none.
    tolerance : str | None
        Degrees of the probe's scale, with the unit, as text: "0.5 °C".
    """

    probe: str
    serial: str | None
    certificate: str | None
    certified_until: datetime.date | None
    tolerance: str | None


class IncidentUnit(Answered):
    """An affected place.

    Attributes
    ----------
    type : PlaceType
        What it is.
    last_good : datetime.datetime | None
        The last reading or check in range before; from there on its doses are in doubt.
    last_good_C : Fraction | None
        What it read, degrees Celsius.
    back_in_range : datetime.datetime | None
        The first after; None: not yet known.
    exposure : Exposure
        That of the place's own range.
    excursions : tuple[IncidentExcursion, ...]
        Its excursions in that time.
    devices : tuple[Device, ...]
        What measured there.
    earlier_incidents : tuple[str, ...]
        Their names.
    earlier_excursions : int
        How many there were of no incident.
    beside : tuple[str, ...]
        What no figure of it counts, in words.
    """

    place: str
    name: str
    type: PlaceType
    last_good: datetime.datetime | None
    last_good_C: Fraction | None
    back_in_range: datetime.datetime | None
    exposure: Exposure
    excursions: tuple[IncidentExcursion, ...]
    devices: tuple[Device, ...]
    earlier_incidents: tuple[str, ...]
    earlier_excursions: int
    beside: tuple[str, ...]
    beside_codes: tuple[Remark, ...]


class IncidentLine(HoldingName):
    """Doses in an affected place when the doubt began, or when they came in, and the doses of the lot since.

    Attributes
    ----------
    maker : str | None
        Who makes it; None: no entry says.
    expiry : datetime.date
        The lot's last day.
    exposed_before : bool
        They had been out of range by then.
    before : History
        What they had been through by then.
    exposure : Exposure
        What the incident did to them there.
    counted : datetime.datetime | None
        When the doses of the lot were, after it was noticed; None: not yet.
    given : int
        Doses given since.
    wasted : int
        Doses wasted since.
    returned : int
        Doses sent back since.
    transferred : int
        Doses sent to other sites since.
    found : int
        Doses found by counts.
    missing : int
        Doses missing by counts.
    beside : tuple[str, ...]
        Of its doses, how many another line counts, too, in words.
    """

    name: str
    maker: str | None
    expiry: datetime.date
    doses: int
    exposed_before: bool
    before: History
    exposure: Exposure
    counted: datetime.datetime | None
    given: int
    wasted: int
    returned: int
    transferred: int
    found: int
    missing: int
    beside: tuple[str, ...]
    beside_codes: tuple[Remark, ...]


class IncidentDose(HoldingName):
    """Doses given since the doubt began, or found to need review. A clinician decides.

    Attributes
    ----------
    patient : str | None
        The token; None unless it was asked for.
    reasons : tuple[Reason, ...]
        What was found in their history when they were given.
    beside : tuple[str, ...]
        What must be known of them though the finding does not say it, in words.
    """

    entry: int
    at: datetime.datetime
    patient: str | None
    doses: int
    certain: bool
    finding: Finding
    reasons: tuple[Reason, ...]
    guidance: int | None
    beside: tuple[str, ...]
    beside_codes: tuple[Remark, ...]


class IncidentHolding(HoldingName):
    """Where these doses are at the instant asked about, and on which list.

    Attributes
    ----------
    beside : tuple[str, ...]
        What must be known before they are used though the list does not say it, in words.
    """

    doses: int
    list: ListName
    reasons: tuple[Reason, ...]
    in_doubt: tuple[str, ...]
    beside: tuple[str, ...]
    beside_codes: tuple[Remark, ...]


class IncidentHold(Answered):
    """A hold that came with the notice of an incident and was not taken back.

    Attributes
    ----------
    doses : int
        The doses that it holds still.
    """

    entry: int
    place: str
    product: str
    lot: str
    doses: int


class AnswerAwaited(Answered):
    """A lot a maker is asked about.

    Attributes
    ----------
    guidance : tuple[int, ...]
        The numbers of its answers' entries; none: awaited.
    said : tuple[str, ...]
        Each answer in words.
    waits : bool
        Doses of the lot wait for what no answer covers.
    waits_since : tuple[str, ...]
        In words, what they wait for that came after all that the answers are about.
    """

    product: str
    lot: str
    guidance: tuple[int, ...]
    said: tuple[str, ...]
    said_codes: tuple[Remark, ...]
    waits: bool
    waits_since: tuple[str, ...]
    waits_since_codes: tuple[Remark, ...]


class AskedMaker(Answered):
    """A maker to ask, how, and about what.

    Attributes
    ----------
    maker : str
        Its name.
    known : bool
        False where no entry says who makes a product.
    contact : str | None
        Who answers there.
    phone : str | None
        A number.
    email : str | None
        An address.
    products : tuple[str, ...]
        The ids of its products.
    reports : tuple[int, ...]
        The numbers of the reports sent to it.
    answers : tuple[AnswerAwaited, ...]
        Of each lot what it has said.
    """

    maker: str
    known: bool
    contact: str | None
    phone: str | None
    email: str | None
    products: tuple[str, ...]
    reports: tuple[int, ...]
    answers: tuple[AnswerAwaited, ...]


class IncidentLeft(HoldingName):
    """Doses of the affected holdings that left since the doubt began: who has them must be told.

    Attributes
    ----------
    to : str | None
        The other site; None: they were sent back.
    told : int | None
        The last step of the incident that says so of their entry (`told` of :meth:`Work.step`), or report to a
        recipient of the site's name; None: nothing says so, or worse was learnt since.
    """

    entry: int
    at: datetime.datetime
    doses: int
    to: str | None
    reason: str
    told: int | None


class SentReport(Answered):
    """A report of the incident that was sent.

    Attributes
    ----------
    to : Reader
        supervisor, health department or manufacturer.
    recipient : str
        Their name.
    reference : str | None
        Their case number.
    counted : bool
        Had the doses of the affected places been counted?
    """

    entry: int
    at: datetime.datetime
    by: str
    to: Reader
    recipient: str
    reference: str | None
    counted: bool


class DutyClock(Answered):
    """The clock of one thing to be done.

    Attributes
    ----------
    step : DutyStep
        What.
    who : str
        The maker that is asked or answers; empty: no maker.
    since : datetime.datetime | None
        When the clock began; None: not yet.
    due : datetime.datetime | None
        None where the programme's rules state no time.
    done : datetime.datetime | None
        When; None: not yet.
    state : DutyState
        overdue, due, no limit, done late or done.
    since_done : tuple[str, ...]
        Of an answer that is complete, what doses wait for that came after, in words.
    beside : tuple[str, ...]
        Of an answer, by whom it is, where that is not the maker, in words.
    """

    step: DutyStep
    who: str
    since: datetime.datetime | None
    due: datetime.datetime | None
    done: datetime.datetime | None
    state: DutyState
    since_done: tuple[str, ...]
    since_done_codes: tuple[Remark, ...]
    beside: tuple[str, ...]
    beside_codes: tuple[Remark, ...]


class UsedUp(Answered):
    """An allowance that is used up.

    Attributes
    ----------
    allowance : int
        Which: the product's first is 1.
    seconds : int
        What it permits.
    over_s : Fraction
        Exact seconds beyond that.
    source : str
        The document.
    """

    allowance: int
    seconds: int
    over_s: Fraction
    source: str


class ToldHolding(HoldingName):
    """The figures to tell of a holding: of what no guidance covers yet, time in an allowance included.

    Attributes
    ----------
    doses : int
        Doses that are there.
    given : int
        Doses given out of it, to which the figures apply, too.
    out_of_range_s : int
        Whole seconds, rounded up.
    beyond_s : Fraction
        Exact seconds of it that no allowance covers.
    at_most_s : Fraction
        Exact seconds out of range at most since receipt, what guidance covers included.
    checked_s : Fraction
        Exact seconds since receipt on a line between plain checks, where nothing is known.
    over : tuple[UsedUp, ...]
        Allowances that are used up.
    unmonitored_s : int
        Whole seconds of which nothing is known, rounded up.
    points : int
        Readings out of range and in no allowance.
    """

    doses: int
    given: int
    out_of_range_s: int
    beyond_s: Fraction
    at_most_s: Fraction
    checked_s: Fraction
    over: tuple[UsedUp, ...]
    unmonitored_s: int
    points: int


class IncidentAnswer(Answer, Rows[IncidentLine]):
    """All that the ledger knows of an incident, for those who must be told; a sequence of the lines.

    Attributes
    ----------
    maker : str | None
        Whose products alone; None: all.
    noticed : datetime.datetime | None
        When; None: not yet.
    closed : datetime.datetime | None
        When; None: it is open.
    steps : tuple[IncidentStep, ...]
        What was written down.
    units : tuple[IncidentUnit, ...]
        The affected places.
    rules_entry : int | None
        The number of the programme's rules; None: none are known.
    findings : tuple[RuleFinding, ...]
        Conditions of the programme.
    counted : bool
        Were the doses of every line?
    lines : tuple[IncidentLine, ...]
        Doses that were in doubt, a holding each.
    patients : int
        How many the doses of `given` went to.
    given : tuple[IncidentDose, ...]
        Doses given since the doubt began, or found to need review.
    left : tuple[IncidentLeft, ...]
        Doses that other sites have, or that were sent back.
    now : tuple[IncidentHolding, ...]
        Where the doses are.
    moved : tuple[str, ...]
        Entries that took doses out of an affected place since, in words.
    makers : tuple[AskedMaker, ...]
        Who is to be asked.
    reports : tuple[SentReport, ...]
        What was sent.
    duties : tuple[DutyClock, ...]
        What is to be done, overdue first.
    holds : tuple[IncidentHold, ...]
        That came with its notice and stand.
    against_release : tuple[str, ...]
        What stands against releasing `holds` by closing it then, in words.
    release_from, release_until : datetime.datetime | None
        The time that was looked at for that, [release_from, release_until).
    told : tuple[ToldHolding, ...]
        The figures to tell.
    missing : tuple[str, ...]
        What a report asks and the ledger does not know.
    """

    _rows = "lines"
    incident: str
    maker: str | None
    noticed: datetime.datetime | None
    closed: datetime.datetime | None
    steps: tuple[IncidentStep, ...]
    units: tuple[IncidentUnit, ...]
    rules_entry: int | None
    findings: tuple[RuleFinding, ...]
    counted: bool
    lines: tuple[IncidentLine, ...]
    patients: int
    given: tuple[IncidentDose, ...]
    left: tuple[IncidentLeft, ...]
    now: tuple[IncidentHolding, ...]
    moved: tuple[str, ...]
    moved_codes: tuple[Remark, ...]
    makers: tuple[AskedMaker, ...]
    reports: tuple[SentReport, ...]
    duties: tuple[DutyClock, ...]
    holds: tuple[IncidentHold, ...]
    against_release: tuple[str, ...]
    against_release_codes: tuple[Remark, ...]
    release_from: datetime.datetime | None
    release_until: datetime.datetime | None
    told: tuple[ToldHolding, ...]
    missing: tuple[str, ...]
    missing_codes: tuple[Remark, ...]
    caution: str
