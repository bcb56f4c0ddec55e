"""Upkeep: what a site must keep in order: the contingency plan, doses under review followed to their end, training, the
history of a storage unit, readiness for an inspection. Times are exact seconds, temperatures degrees Celsius, doses and
entry numbers whole numbers. Nothing here judges a dose: the lists do. The page is lib/answers/README.md.
"""
from __future__ import annotations

import datetime
from decimal import Decimal
from fractions import Fraction

from .answers import Answer, Coverage, HoldingName, SideExposure
from .drafts import SaidSince
from .entries import ContingencyPlan
from .wire import Record

__all__ = [
    "ComparedMonths",
    "DepartedDoses",
    "DeviceReading",
    "Disagreement",
    "FollowUpAnswer",
    "FollowUpCount",
    "FollowUpStep",
    "FollowedDose",
    "KeptRecords",
    "PlanAnswer",
    "PlanFinding",
    "ReadinessAnswer",
    "ReadinessFinding",
    "ReadinessTopic",
    "TrainedPerson",
    "TrainingAnswer",
    "UnitAnswer",
    "UnitFigures",
    "UnitHour",
    "UnitHourOfDay",
    "UnitMonth",
]


class PlanFinding(Record):
    """Something that the plan lacks, or that is old in it. `of`: the person or backup place; empty: the plan. `state`:
    missing or old. `since`: missing since the first plan from which on all lacked it; old: the first instant of it."""

    what: str
    of: str
    state: str
    since: datetime.datetime
    text: str


class PlanAnswer(Answer):
    """The contingency plan that holds, by its `entry` (None: there is none), and what is missing or old in it.
    `review_due`: the first instant at which its review has lapsed; None: nobody says how often."""

    _rows = "findings"
    _categories = {"state": ("missing", "old")}
    entry: int | None
    since: datetime.datetime | None
    by: str | None
    plan: ContingencyPlan | None
    review_due: datetime.datetime | None
    findings: tuple[PlanFinding, ...]
    caution: str


class FollowUpStep(Record):
    """A step with a patient, by its entry."""

    entry: int
    at: datetime.datetime
    by: str
    step: str
    text: str


class FollowedDose(HoldingName):
    """Doses given, by the entry of the give, and what was done about them. `finding`: of the review; of a dose apart
    void, clear or given later. `standing`: the last step, or none yet."""

    give: int
    given: datetime.datetime
    patient: str
    doses: int
    certain: bool
    finding: str
    standing: str
    steps: tuple[FollowUpStep, ...]


class FollowUpCount(Record):
    """How many gives, and doses, stand somewhere."""

    name: str
    gives: int
    doses: int


class DepartedDoses(HoldingName):
    """Doses that left by `entry` for another site, or back (`to` is None). `list`, `reasons`, `in_doubt`: just before
    they left, by all that is known; `since`: guidance and recalls of a later time that are of them, too. `told`: the
    last step of an incident, or report, by which who has them was told; `news`: what they must hear that was not known
    when they left, or when they were told, in words."""

    entry: int
    at: datetime.datetime
    doses: int
    to: str | None
    reason: str
    told: int | None
    list: str
    reasons: tuple[str, ...]
    in_doubt: tuple[str, ...]
    since: tuple[SaidSince, ...]
    news: tuple[str, ...]


class FollowUpAnswer(Answer):
    """Doses of the review list, or all that were given of a recalled lot, followed to their end: those of which nothing
    was done first. `apart`: with steps, but no longer on that list, in no count. `standings` add up to `whole`; `ever`:
    of the doses that ever had such a step. `not_listed` as in ReviewAnswer; of a recall, whose list is whole: none.
    `left`: doses that left this site, in no count: of a recall all of the lot, else those with `news`."""

    _rows = "doses"
    _categories = {
        "standing": ("none yet", "decided", "told", "no answer", "answered", "repeated", "tested", "not needed")
    }
    product: str | None
    lot: str | None
    doses: tuple[FollowedDose, ...]
    not_listed: tuple[str, ...]
    apart: tuple[FollowedDose, ...]
    standings: tuple[FollowUpCount, ...]
    ever: tuple[FollowUpCount, ...]
    whole: FollowUpCount
    left: tuple[DepartedDoses, ...]
    caution: str


class TrainedPerson(Record):
    """The last training of a person in a topic, by its entry. `due`: the first instant at which it has lapsed; None:
    nobody says."""

    entry: int
    at: datetime.datetime
    person: str
    topic: str
    reference: str | None
    due: datetime.datetime | None
    lapsed: bool


class TrainingAnswer(Answer):
    """Who was trained in what, and until when that is good. `every_days`: the programme's. `without`: people of the
    plan of whom no training is known, in calling order."""

    _rows = "training"
    every_days: int | None
    training: tuple[TrainedPerson, ...]
    without: tuple[str, ...]
    caution: str


class UnitFigures(Record):
    """What a time in a unit was like. `excursions` that began in it; `longest_s` of them, None without any. `in_range`:
    exact share of the measured time (logged; between checks nothing is measured), 0 to 1; None where none was measured.
    `measured_out_s`: of `out_of_range_s`, what a logger measured. `mean_kinetic_C`: six decimals, correctly rounded."""

    excursions: int
    longest_s: Fraction | None
    warm: SideExposure
    cold: SideExposure
    out_of_range_s: Fraction
    coverage: Coverage
    known_s: Fraction
    measured_s: Fraction
    measured_out_s: Fraction
    in_range: Fraction | None
    lowest_C: Fraction | None
    highest_C: Fraction | None
    mean_C: Fraction | None
    mean_kinetic_C: Decimal | None
    disagreements: int


class UnitMonth(UnitFigures):
    """A month of the site's clock, "2026-03", cut to the window."""

    month: str
    from_: datetime.datetime
    until: datetime.datetime


class UnitHour(Record):
    """Excursions that began in an hour of the day, and exact seconds out of range in it."""

    excursions: int
    warm_s: Fraction
    cold_s: Fraction


class UnitHourOfDay(UnitHour):
    """And which: 0 to 23 by the site's clock."""

    hour: int


class ComparedMonths(Record):
    """The same month, 1 to 12, of several years, by the names of the months."""

    calendar_month: int
    months: tuple[str, ...]


class DeviceReading(Record):
    """A temperature of a device, corrected. `probe` None: a check that names no thermometer; `check` None: a logger's
    reading. `tolerance_C` None: not known, and half a degree is assumed."""

    probe: str | None
    check: int | None
    at: datetime.datetime
    temperature_C: Fraction
    tolerance_C: Fraction | None


class Disagreement(Record):
    """Two devices in one place that differ by more than both tolerances: at least one is wrong, and nothing here says
    which. `what`: reading (at one instant), minimum or maximum (since the check before)."""

    what: str
    from_: datetime.datetime
    until: datetime.datetime
    check: DeviceReading
    other: DeviceReading
    difference_C: Fraction
    allowed_C: Fraction


class UnitAnswer(Answer):
    """What a storage unit has been like, month by month, by the hour of the day, and the same month over the years.
    `hour_not_known`: known from a minimum or maximum alone. `window`: the time in words."""

    _rows = "months"
    place: str
    from_: datetime.datetime
    until: datetime.datetime
    window: str
    whole: UnitFigures
    months: tuple[UnitMonth, ...]
    hours: tuple[UnitHourOfDay, ...]
    hour_not_known: UnitHour
    compared: tuple[ComparedMonths, ...]
    disagreements: tuple[Disagreement, ...]
    marks: tuple[str, ...]
    caution: str


class ReadinessFinding(Record):
    """Something an inspector would find missing. `urgency`: act now, overdue or due soon. `where`: place, probe,
    holding, incident or person. `since` None: not known since when. `rule`: what makes it due."""

    topic: str
    urgency: str
    where: str
    text: str
    since: datetime.datetime | None
    rule: str
    details: tuple[str, ...]


class ReadinessTopic(Record):
    """What was looked at. `judged` False: no rule says what is due, or the ledger keeps no record of it. `what`: what
    was counted. `findings`, without those `due_soon`, is 0 where all that was looked at is in order, and only there."""

    topic: str
    judged: bool
    rule: str
    what: str
    looked_at: int
    in_order: int
    findings: int
    due_soon: int


class KeptRecords(Record):
    """How many years records are kept; the last day on which the first of them, and those of today, must still be
    there."""

    records: str
    years: int
    first_until: datetime.date
    today_until: datetime.date


class ReadinessAnswer(Answer):
    """What an inspector would find missing, by urgency, and all that was looked at since `from_`. `rules`: the entry of
    the programme's rules; None: none are known, and nothing is made up for them. `not_judged`: names of the topics that
    could not be judged."""

    _rows = "findings"
    _categories = {"urgency": ("act now", "overdue", "due soon")}
    from_: datetime.datetime
    rules: int | None
    findings: tuple[ReadinessFinding, ...]
    topics: tuple[ReadinessTopic, ...]
    not_judged: tuple[str, ...]
    retention: tuple[KeptRecords, ...]
    first_record: datetime.datetime
    caution: str
