"""Incidents: what a programme's rules make of a place's temperatures, and excursions with what people did about them.
Times are exact seconds, temperatures exact degrees Celsius, doses and entry numbers whole numbers. Nothing here says to
discard or to revaccinate: the manufacturer, the health department and a clinician do. The page is
lib/answers/README.md."""
from __future__ import annotations

import datetime
from fractions import Fraction

from .answers import Answer, Exposure, History, HoldingName
from .programme import ProgrammeRules
from .wire import Record

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


class RuleLevel(Record):
    """A condition by one way of judging readings. `first`: when it was met, to the nearest second; `first_s`: exact
    seconds since 1970. `most_s`: longest run or largest sum, seconds; `most`: readings or excursions. Of the two there
    is the one that fits the form."""

    met: bool
    first: datetime.datetime | None
    first_s: Fraction | None
    most: Fraction | None
    most_s: Fraction | None


class RuleFinding(Record):
    """One condition of the programme for one place. `at_least` met implies the other three. `form`: run, sum,
    reading or pattern. `state`: met, met by the estimate, perhaps met, cannot be said (`unknown_s` seconds that it
    asks about are not known, and could have met it) or not met. `with_unknown`: `at_most`, had it been beyond the
    limit in all the time that is not known."""

    rule: str
    text: str
    place: str
    form: str
    state: str
    at_least: RuleLevel
    estimate: RuleLevel
    at_most: RuleLevel
    with_unknown: RuleLevel
    unknown_s: Fraction


class UnknownTime(Record):
    """A place that was looked at, and the exact seconds of the window of which nothing is known there: they may hide
    more. `checked_s`: those on a line between plain checks, where nothing is known between them."""

    place: str
    unmonitored_s: Fraction
    checked_s: Fraction


class RulesAnswer(Answer):
    """The programme's rules that hold, as posted by `entry` (None: none are known), and which conditions were met where
    in a window; `window`: it in words."""

    _rows = "findings"
    _categories = {
        "form": ("run", "sum", "reading", "pattern"),
        "state": ("met", "met by the estimate", "perhaps met", "cannot be said", "not met"),
    }
    entry: int | None
    rules: ProgrammeRules | None
    from_: datetime.datetime
    until: datetime.datetime
    window: str
    places: tuple[UnknownTime, ...]
    findings: tuple[RuleFinding, ...]
    caution: str


class IncidentExcursion(Record):
    """An excursion of a place. `side`: warm or cold. `kind`: line, bounded or point. `from_s` and `until_s` are exact
    seconds since 1970; `from_` and `until` the nearest whole second. `open`: not known to be over."""

    place: str
    side: str
    kind: str
    from_: datetime.datetime
    from_s: Fraction
    until: datetime.datetime
    until_s: Fraction
    duration_s: Fraction
    peak_C: Fraction
    checked_s: Fraction
    open: bool


class IncidentRow(Record):
    """An incident, when it was noticed and closed, the places that its steps name (none: it is of all, as one that was
    noticed of no one place), and its excursions."""

    incident: str
    noticed: datetime.datetime | None
    closed: datetime.datetime | None
    places: tuple[str, ...]
    excursions: tuple[IncidentExcursion, ...]


class IncidentsAnswer(Answer):
    """Which excursions belong to which incident, and those for which nobody has opened one. `window`: that asked for,
    in words; empty: all that is known."""

    _rows = "incidents"
    window: str
    incidents: tuple[IncidentRow, ...]
    without_incident: tuple[IncidentExcursion, ...]
    caution: str


class IncidentStep(Record):
    """A step that was written down, by its entry. `note`: also why doses were not put on hold, or why the incident was
    closed all the same."""

    entry: int
    at: datetime.datetime
    by: str
    step: str
    text: str
    place: str | None
    note: str | None


class Device(Record):
    """What measured. `tolerance`: degrees of the probe's scale, with the unit, as text: "0.5 °C"."""

    probe: str
    serial: str | None
    certificate: str | None
    certified_until: datetime.date | None
    tolerance: str | None


class IncidentUnit(Record):
    """An affected place. `last_good`: the last reading or check in range before; from there on its doses are in doubt.
    `back_in_range`: the first after; None: not yet known. `exposure` is that of the place's own range."""

    place: str
    name: str
    type: str
    last_good: datetime.datetime | None
    last_good_C: Fraction | None
    back_in_range: datetime.datetime | None
    exposure: Exposure
    excursions: tuple[IncidentExcursion, ...]
    devices: tuple[Device, ...]
    earlier_incidents: tuple[str, ...]
    earlier_excursions: int


class IncidentLine(HoldingName):
    """Doses in an affected place when the doubt began, or when they came in. `before`: what they had been through by
    then; `exposure`: what the incident did to them there. `counted`: when the doses of the lot were, after it was
    noticed. The rest: doses of the lot since."""

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


class IncidentDose(HoldingName):
    """A dose given since the doubt began, or found to need review. A clinician decides. `patient`: the token, None
    unless it was asked for. `guidance`: the last entry that covers it."""

    entry: int
    at: datetime.datetime
    patient: str | None
    doses: int
    certain: bool
    finding: str
    reasons: tuple[str, ...]
    guidance: int | None


class IncidentHolding(HoldingName):
    """Where these doses are at the instant asked about, and on which list. `in_doubt` as in ListedHolding."""

    doses: int
    list: str
    reasons: tuple[str, ...]
    in_doubt: tuple[str, ...]


class IncidentHold(Record):
    """A hold that came with the notice of an incident and was not taken back: its entry, and the doses that it holds
    still."""

    entry: int
    place: str
    product: str
    lot: str
    doses: int


class AnswerAwaited(Record):
    """A lot a maker is asked about. `guidance`: the entries of its answers; none: awaited. `said`: each in words.
    `waits`: doses of the lot wait for what no answer covers; `waits_since`: in words, what they wait for that came
    after all that the answers are about."""

    product: str
    lot: str
    guidance: tuple[int, ...]
    said: tuple[str, ...]
    waits: bool
    waits_since: tuple[str, ...]


class AskedMaker(Record):
    """A maker to ask, how, and about what. `known`: False where no entry says who makes a product. `reports`: entries
    sent to it."""

    maker: str
    known: bool
    contact: str | None
    phone: str | None
    email: str | None
    products: tuple[str, ...]
    reports: tuple[int, ...]
    answers: tuple[AnswerAwaited, ...]


class IncidentLeft(HoldingName):
    """Doses of the affected holdings that went to another site (`to`), or back (None), since the doubt began: who has
    them must be told. `told`: the last step of the incident that says so of their entry (`told` of
    Work.step), or report to a recipient of the site's name; None where nothing says so, or worse was learnt since."""

    entry: int
    at: datetime.datetime
    doses: int
    to: str | None
    reason: str
    told: int | None


class SentReport(Record):
    """A report of the incident that was sent, by its entry. `to`: supervisor, health department or manufacturer;
    `recipient`: their name; `reference`: their case number; `counted`: had the doses of the affected places been
    counted?"""

    entry: int
    at: datetime.datetime
    by: str
    to: str
    recipient: str
    reference: str | None
    counted: bool


class DutyClock(Record):
    """The clock of one thing to be done. `due`: None where the programme's rules state no time. `state`: overdue, due,
    no limit, done late or done. `since_done`: of an answer that is complete, what doses wait for that came after, in
    words."""

    step: str
    who: str
    since: datetime.datetime | None
    due: datetime.datetime | None
    done: datetime.datetime | None
    state: str
    since_done: tuple[str, ...]


class UsedUp(Record):
    """An allowance that is used up: the product's first is 1; `seconds` it permits, and exact seconds beyond them."""

    allowance: int
    seconds: int
    over_s: Fraction
    source: str


class ToldHolding(HoldingName):
    """The figures to tell of a holding: whole seconds, rounded up, of what no guidance covers yet, time in an
    allowance included; `beyond_s`: exact seconds of it that no allowance covers. Since receipt, what guidance covers
    included, exact seconds: `at_most_s`: out of range at most; `checked_s`: on a line between plain checks, where
    nothing is known. `doses`: that are there; `given`: given out of it, to which the figures apply, too."""

    doses: int
    given: int
    out_of_range_s: int
    beyond_s: Fraction
    at_most_s: Fraction
    checked_s: Fraction
    over: tuple[UsedUp, ...]
    unmonitored_s: int
    points: int


class IncidentAnswer(Answer):
    """All that the ledger knows of an incident, for those who must be told. `duties`: overdue first. `counted`: were
    the doses of every line? `patients`: how many the doses of `given` went to. `moved`: entries that took doses out of
    an affected place since, in words. `missing`: what a report asks and the ledger does not know. `against_release`:
    what stands against releasing `holds` by closing it then, in words; the time that was looked at is [release_from,
    release_until). Rows of its frame: the lines."""

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
    makers: tuple[AskedMaker, ...]
    reports: tuple[SentReport, ...]
    duties: tuple[DutyClock, ...]
    holds: tuple[IncidentHold, ...]
    against_release: tuple[str, ...]
    release_from: datetime.datetime | None
    release_until: datetime.datetime | None
    told: tuple[ToldHolding, ...]
    missing: tuple[str, ...]
    caution: str
