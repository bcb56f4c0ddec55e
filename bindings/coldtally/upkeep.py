"""Upkeep: what a site must keep in order: the contingency plan, doses under review followed to their end, training, the
history of a storage unit, readiness for an inspection. Times are exact seconds, temperatures degrees Celsius, doses and
entry numbers whole numbers. Nothing here judges a dose: the lists do. The page is lib/upkeep/README.md.
"""
from __future__ import annotations

import datetime
from decimal import Decimal
from fractions import Fraction
from typing import Literal, get_args

from .answers import Answer, Coverage, HoldingName, Rows, SideExposure
from .drafts import SaidSince
from .entries import ContingencyPlan
from .remarks import Remark, RemarkField
from .terms import DisagreementOf, FollowedFinding, ListName, Matter, PatientStep, PlanGap, Reason, Standing, Urgency
from .answered import Answered

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


class PlanFinding(Answered):
    """Something that the plan lacks, or that is old in it.

    Attributes
    ----------
    what : PlanGap
        Which part.
    of : str
        The person or backup place; empty: the plan.
    state : Literal["missing", "old"]
        missing or old.
    since : datetime.datetime
        Missing since the first plan from which on all lacked it; old: the first instant of it.
    """

    what: PlanGap
    of: str
    state: Literal["missing", "old"]
    since: datetime.datetime
    text: str
    text_code: Remark


class PlanAnswer(Answer, Rows[PlanFinding]):
    """The contingency plan that holds, and what is missing or old in it; a sequence of the findings.

    Attributes
    ----------
    entry : int | None
        The number of its entry; None: there is none.
    since : datetime.datetime | None
        When it was made; None: there is none.
    by : str | None
        Who made it; None: there is none.
    plan : ContingencyPlan | None
        The plan; None: there is none.
    review_due : datetime.datetime | None
        The first instant at which its review has lapsed; None: nobody says how often.
    findings : tuple[PlanFinding, ...]
        What is missing or old.
    """

    _rows = "findings"
    _categories = {"state": ("missing", "old")}
    entry: int | None
    since: datetime.datetime | None
    by: str | None
    plan: ContingencyPlan | None
    review_due: datetime.datetime | None
    findings: tuple[PlanFinding, ...]
    caution: str


class FollowUpStep(Answered):
    """A step with a patient.

    Attributes
    ----------
    step : PatientStep
        What was done.
    """

    entry: int
    at: datetime.datetime
    by: str
    step: PatientStep
    text: str


class FollowedDose(HoldingName):
    """Doses given, and what was done about them.

    Attributes
    ----------
    give : int
        The number of the give's entry.
    given : datetime.datetime
        When.
    patient : str
        The token.
    finding : FollowedFinding
        Of the review; of a dose apart void, clear or given later.
    standing : Standing
        The last step, or none yet.
    steps : tuple[FollowUpStep, ...]
        What was done.
    news : tuple[str, ...]
        What is known now and was not when the last step was posted, in words: look at it again.
    """

    give: int
    given: datetime.datetime
    patient: str
    doses: int
    certain: bool
    finding: FollowedFinding
    standing: Standing
    steps: tuple[FollowUpStep, ...]
    news: tuple[str, ...]
    news_codes: tuple[Remark, ...]


class FollowUpCount(Answered):
    """How many gives, and doses, stand somewhere.

    Attributes
    ----------
    name : str
        Where.
    gives : int
        How many gives.
    doses : int
        How many doses.
    """

    name: str
    gives: int
    doses: int


class LookAgain(Answered):
    """How many gives, and doses, were decided about before what is known of them now.

    Attributes
    ----------
    gives : int
        How many gives.
    doses : int
        How many doses.
    """

    gives: int
    doses: int


class DepartedDoses(HoldingName):
    """Doses that left this site, as they were just before, by all that is known.

    Attributes
    ----------
    entry : int
        The number of the transfer or return.
    to : str | None
        The other site; None: they were sent back.
    reason : str
        Why they left.
    told : int | None
        The last step of an incident, or report, by which who has them was told; None: by none.
    since : tuple[SaidSince, ...]
        Guidance and recalls of a later time that are of them, too.
    news : tuple[str, ...]
        What who has them must hear that was not known when they left, or when they were told, in words.
    """

    entry: int
    at: datetime.datetime
    doses: int
    to: str | None
    reason: str
    told: int | None
    list: ListName
    reasons: tuple[Reason, ...]
    in_doubt: tuple[str, ...]
    since: tuple[SaidSince, ...]
    news: tuple[str, ...]
    news_codes: tuple[Remark, ...]


class FollowUpAnswer(Answer, Rows[FollowedDose]):
    """Doses of the review list, or all that were given of a recalled lot, followed to their end; a sequence of them.

    Attributes
    ----------
    product : str | None
        The id of a recalled lot's product; None: the review list.
    lot : str | None
        The number of a recalled lot; None: the review list.
    doses : tuple[FollowedDose, ...]
        Those of which nothing was done first.
    not_listed : tuple[str, ...]
        As in ReviewAnswer; of a recall, whose list is whole: none.
    apart : tuple[FollowedDose, ...]
        Doses with steps, but no longer on that list, in no count.
    standings : tuple[FollowUpCount, ...]
        How many stand where; they add up to `whole`.
    ever : tuple[FollowUpCount, ...]
        How many doses ever had such a step.
    whole : FollowUpCount
        How many there are.
    look_again : LookAgain
        How many of them have `news`, wherever they stand.
    left : tuple[DepartedDoses, ...]
        Doses that left this site, in no count: of a recall all of the lot, else those with `news`.
    """

    _rows = "doses"
    _categories = {"standing": get_args(Standing)}
    product: str | None
    lot: str | None
    doses: tuple[FollowedDose, ...]
    not_listed: tuple[str, ...]
    not_listed_codes: tuple[Remark, ...]
    apart: tuple[FollowedDose, ...]
    standings: tuple[FollowUpCount, ...]
    ever: tuple[FollowUpCount, ...]
    whole: FollowUpCount
    look_again: LookAgain
    left: tuple[DepartedDoses, ...]
    caution: str


class TrainedPerson(Answered):
    """The last training of a person in a topic.

    Attributes
    ----------
    person : str
        Who.
    topic : str
        In what.
    reference : str | None
        Where the proof is kept.
    due : datetime.datetime | None
        The first instant at which it has lapsed; None: nobody says.
    lapsed : bool
        It has.
    """

    entry: int
    at: datetime.datetime
    person: str
    topic: str
    reference: str | None
    due: datetime.datetime | None
    lapsed: bool


class TrainingAnswer(Answer, Rows[TrainedPerson]):
    """Who was trained in what, and until when that is good; a sequence of the trainings.

    Attributes
    ----------
    every_days : int | None
        The programme's, days; None: it does not say.
    training : tuple[TrainedPerson, ...]
        The last of each person in each topic.
    without : tuple[str, ...]
        People of the plan of whom no training is known, in calling order.
    """

    _rows = "training"
    every_days: int | None
    training: tuple[TrainedPerson, ...]
    without: tuple[str, ...]
    caution: str


class UnitFigures(Answered):
    """What a time in a unit was like.

    Attributes
    ----------
    excursions : int
        How many began in it.
    longest_s : Fraction | None
        Seconds of the longest of them; None without any.
    out_of_range_s : Fraction
        Exact seconds.
    known_s : Fraction
        Seconds of which something is known.
    measured_s : Fraction
        Seconds that a logger measured; between checks nothing is measured.
    measured_out_s : Fraction
        Of `out_of_range_s`, seconds that a logger measured.
    in_range : Fraction | None
        Exact share of the measured time, 0 to 1; None where none was measured.
    mean_C : Fraction | None
        Degrees Celsius; None: nothing is known.
    mean_kinetic_C : Decimal | None
        Degrees Celsius with six decimals, correctly rounded; None: nothing is known.
    disagreements : int
        How many.
    """

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
    """A month of the site's clock, cut to the window.

    Attributes
    ----------
    month : str
        "2026-03".
    from_ : datetime.datetime
        Its beginning.
    until : datetime.datetime
        Its end, which is not in it.
    """

    month: str
    from_: datetime.datetime
    until: datetime.datetime


class UnitHour(Answered):
    """Excursions that began in an hour of the day, and time out of range in it.

    Attributes
    ----------
    excursions : int
        How many.
    warm_s : Fraction
        Exact seconds too warm.
    cold_s : Fraction
        Exact seconds too cold.
    """

    excursions: int
    warm_s: Fraction
    cold_s: Fraction


class UnitHourOfDay(UnitHour):
    """An hour of the day.

    Attributes
    ----------
    hour : int
        0 to 23 by the site's clock.
    """

    hour: int


class ComparedMonths(Answered):
    """The same month of several years.

    Attributes
    ----------
    calendar_month : int
        1 to 12.
    months : tuple[str, ...]
        By their names.
    """

    calendar_month: int
    months: tuple[str, ...]


class DeviceReading(Answered):
    """A temperature of a device, corrected.

    Attributes
    ----------
    probe : str | None
        The id of the probe; None: a check that names no thermometer.
    check : int | None
        The number of a check's entry; None: a logger's reading.
    at : datetime.datetime
        When.
    temperature_C : Fraction
        Degrees Celsius.
    tolerance_C : Fraction | None
        Degrees Celsius; None: not known, and half a degree is assumed.
    """

    probe: str | None
    check: int | None
    at: datetime.datetime
    temperature_C: Fraction
    tolerance_C: Fraction | None


class Disagreement(Answered):
    """Two devices in one place that differ by more than both tolerances: at least one is wrong, and nothing here says
    which.

    Attributes
    ----------
    what : DisagreementOf
        reading (at one instant), minimum or maximum (since the check before).
    from_ : datetime.datetime
        Since when.
    until : datetime.datetime
        Until when.
    check : DeviceReading
        The one.
    other : DeviceReading
        The other.
    difference_C : Fraction
        Degrees Celsius by which they differ.
    allowed_C : Fraction
        Degrees Celsius of both tolerances.
    """

    what: DisagreementOf
    from_: datetime.datetime
    until: datetime.datetime
    check: DeviceReading
    other: DeviceReading
    difference_C: Fraction
    allowed_C: Fraction


class UnitAnswer(Answer, Rows[UnitMonth]):
    """What a storage unit has been like, month by month; a sequence of the months.

    Attributes
    ----------
    from_ : datetime.datetime
        Its beginning.
    until : datetime.datetime
        Its end, which is not in it.
    whole : UnitFigures
        The whole time.
    months : tuple[UnitMonth, ...]
        Month by month.
    hours : tuple[UnitHourOfDay, ...]
        By the hour of the day.
    hour_not_known : UnitHour
        Known from a minimum or maximum alone.
    compared : tuple[ComparedMonths, ...]
        The same month over the years.
    disagreements : tuple[Disagreement, ...]
        Where two devices differ.
    marks : tuple[str, ...]
        Times without a valid certificate.
    """

    _rows = "months"
    place: str
    from_: datetime.datetime
    until: datetime.datetime
    window: str
    window_code: Remark | None
    whole: UnitFigures
    months: tuple[UnitMonth, ...]
    hours: tuple[UnitHourOfDay, ...]
    hour_not_known: UnitHour
    compared: tuple[ComparedMonths, ...]
    disagreements: tuple[Disagreement, ...]
    marks: tuple[str, ...]
    marks_codes: tuple[Remark, ...]
    caution: str


class ReadinessFinding(Answered):
    """Something an inspector would find missing.

    Attributes
    ----------
    topic : Matter
        Of what.
    urgency : Urgency
        act now, overdue or due soon.
    where : str
        Place, probe, holding, incident or person.
    where_code : RemarkField
        The same, as a code to decide by; of a place or person the name alone.
    since : datetime.datetime | None
        None: not known since when.
    rule : str
        What makes it due.
    details : tuple[str, ...]
        In words.
    """

    topic: Matter
    urgency: Urgency
    where: str
    where_code: RemarkField
    text: str
    text_code: Remark
    since: datetime.datetime | None
    rule: str
    rule_code: Remark
    details: tuple[str, ...]
    details_codes: tuple[Remark, ...]


class ReadinessTopic(Answered):
    """What was looked at.

    Attributes
    ----------
    topic : Matter
        Its name.
    judged : bool
        False: no rule says what is due, or the ledger keeps no record of it.
    rule : str
        What is due; where not judged: why.
    what : str
        What was counted; empty: not judged.
    what_code : Remark | None
        The same, as a code to decide by; None: not judged.
    looked_at : int
        How many.
    in_order : int
        How many of them are.
    findings : int
        How many; without those `due_soon`, 0 where all that was looked at is in order, and only there.
    due_soon : int
        How many of them are due soon.
    """

    topic: Matter
    judged: bool
    rule: str
    rule_code: Remark
    what: str
    what_code: Remark | None
    looked_at: int
    in_order: int
    findings: int
    due_soon: int


class KeptRecords(Answered):
    """How long records are kept.

    Attributes
    ----------
    records : str
        Which.
    years : int
        How many years.
    first_until : datetime.date
        The last day on which the first of them must still be there.
    today_until : datetime.date
        The last day for those of today.
    """

    records: str
    years: int
    first_until: datetime.date
    today_until: datetime.date


class ReadinessAnswer(Answer, Rows[ReadinessFinding]):
    """What an inspector would find missing, and all that was looked at; a sequence of the findings.

    Attributes
    ----------
    from_ : datetime.datetime
        Since when it was looked at.
    excursions_from : datetime.datetime
        Since when excursions were: no less than a year, since one that belongs to no incident must not vanish.
    rules : int | None
        The number of the programme's rules; None: none are known, and nothing is made up for them.
    findings : tuple[ReadinessFinding, ...]
        By urgency.
    topics : tuple[ReadinessTopic, ...]
        All that was looked at.
    not_judged : tuple[Matter, ...]
        Names of the topics that could not be judged.
    retention : tuple[KeptRecords, ...]
        How long records are kept.
    first_record : datetime.datetime
        When the ledger begins.
    """

    _rows = "findings"
    _categories = {"urgency": get_args(Urgency)}
    from_: datetime.datetime
    excursions_from: datetime.datetime
    rules: int | None
    findings: tuple[ReadinessFinding, ...]
    topics: tuple[ReadinessTopic, ...]
    not_judged: tuple[Matter, ...]
    retention: tuple[KeptRecords, ...]
    first_record: datetime.datetime
    caution: str
