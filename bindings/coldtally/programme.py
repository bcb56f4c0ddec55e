"""Programme: what a programme asks of a site, who makes what, and reports that were sent.

Programmes differ; none of it is built in. A site posts what its own programme says, with the place where it is written
and its date, and what is left out the programme does not say. Seconds and days are whole numbers, limits Decimal
degrees, times of day those of the site's clock. The page is lib/entries/programme.md.
"""
from __future__ import annotations

import datetime
from dataclasses import dataclass
from typing import ClassVar

from .entries import Limit
from .stated import Entry, Stated, empty_label, false_unless_said
from .terms import Comparison, DutyStep, PlaceType, Reader, Recurring, RuleForm, Weekday

__all__ = [
    "Duty",
    "Maker",
    "ProgrammeRules",
    "Report",
    "ReportedHolding",
    "Reportable",
    "Retention",
    "Rules",
    "RuleTemperatures",
    "WantedChecks",
]


@dataclass(frozen=True)
class RuleTemperatures(Stated):
    """Which temperatures count.

    Parameters
    ----------
    is_ : Comparison
        above, at or above, below, at or below. The wire's `is`.
    limit : Limit | None
        None: the place's own range on that side.
    """

    is_: Comparison
    limit: Limit | None = None


@dataclass(frozen=True, kw_only=True)
class Reportable(Stated):
    """A condition on which something must be reported.

    Parameters
    ----------
    rule : str
        Its name.
    text : str
        In the programme's words.
    form : RuleForm
        run and sum (seconds of such temperatures, without a break or within any `within_s`), reading (any one) or
        pattern (excursions within `within_s`).
    temperature : RuleTemperatures | None
        Which temperatures count.
    at_least_s, more_than_s : int | None
        Seconds, of a run or sum.
    at_least, more_than : int | None
        Excursions, of a pattern.
    within_s : int | None
        Seconds; None: ever.
    places : tuple[PlaceType, ...] | None
        Only in places of these types.
    products : tuple[str, ...] | None
        Only when doses of one of these are there.
    """

    rule: str
    text: str = empty_label()
    form: RuleForm
    temperature: RuleTemperatures | None = None
    at_least_s: int | None = None
    more_than_s: int | None = None
    at_least: int | None = None
    more_than: int | None = None
    within_s: int | None = None
    places: tuple[PlaceType, ...] | None = None
    products: tuple[str, ...] | None = None


@dataclass(frozen=True)
class Duty(Stated):
    """A step and the time within which it is due: from the step "noticed", an "answer" from when the one who answers
    was told.

    Parameters
    ----------
    step : DutyStep
        What is due.
    within_s : int
        Seconds.
    if_reportable : bool
        Only where a condition was met or may have been.
    """

    step: DutyStep
    within_s: int
    if_reportable: bool = false_unless_said()


@dataclass(frozen=True)
class Retention(Stated):
    """How long records of a kind are kept.

    Parameters
    ----------
    records : str
        Which.
    years : int
        How many years.
    """

    records: str
    years: int


@dataclass(frozen=True, kw_only=True)
class WantedChecks(Stated):
    """Checks that a programme wants.

    Parameters
    ----------
    places : tuple[PlaceType, ...] | None
        Of places of these types; None: of all.
    weekdays : tuple[Weekday, ...]
        On which days ("Monday", …).
    per_day : int
        How many a day.
    by : tuple[datetime.time, ...] | None
        By which times of the site's clock.
    min_max : bool
        With minimum and maximum.
    """

    places: tuple[PlaceType, ...] | None = None
    weekdays: tuple[Weekday, ...]
    per_day: int
    by: tuple[datetime.time, ...] | None = None
    min_max: bool = false_unless_said()


@dataclass(frozen=True, kw_only=True)
class ProgrammeRules(Stated):
    """What a programme asks.

    Parameters
    ----------
    programme : str
        Whose rules.
    source : str
        Where they stand.
    dated : datetime.date
        Of which date.
    report : tuple[Reportable, ...] | None
        What must be reported.
    duties : tuple[Duty, ...] | None
        What is due when.
    retention : tuple[Retention, ...] | None
        How long records are kept.
    checks : tuple[WantedChecks, ...] | None
        Which checks are wanted.
    longest_trip_s : int | None
        Seconds.
    repay_loans_within_days : int | None
        Days.
    every_days : dict[Recurring, int] | None
        Days by what is to be done (plan review, backup agreement, training, count, logger reading, log review,
        certificate, service, self-audit).
    """

    programme: str
    source: str
    dated: datetime.date
    report: tuple[Reportable, ...] | None = None
    duties: tuple[Duty, ...] | None = None
    retention: tuple[Retention, ...] | None = None
    checks: tuple[WantedChecks, ...] | None = None
    longest_trip_s: int | None = None
    repay_loans_within_days: int | None = None
    every_days: dict[Recurring, int] | None = None


@dataclass(frozen=True, kw_only=True)
class Rules(Entry, ProgrammeRules):
    """The rules of a programme. The last that is known holds, for every instant asked about, as a definition does."""

    kind: ClassVar[str] = "rules"


@dataclass(frozen=True, kw_only=True)
class Maker(Entry):
    """Who makes a product and answers for it, and how to ask. The last of a product holds.

    Parameters
    ----------
    name : str
        The maker's.
    contact : str | None
        Who answers there.
    phone : str | None
        A number.
    email : str | None
        An address.
    """

    kind: ClassVar[str] = "maker"
    product: str
    name: str
    contact: str | None = None
    phone: str | None = None
    email: str | None = None


@dataclass(frozen=True, kw_only=True)
class ReportedHolding(Stated):
    """The figures of one holding as the reader of a report was told them.

    Parameters
    ----------
    out_of_range_s : int
        Seconds out of range.
    unmonitored_s : int
        Seconds unmonitored.
    points : int
        Readings out of range.
    """

    place: str
    product: str
    lot: str
    fund: str = empty_label()
    mark: str = empty_label()
    doses: int
    out_of_range_s: int
    unmonitored_s: int
    points: int


@dataclass(frozen=True, kw_only=True)
class Report(Entry):
    """A report of an incident that was sent. :meth:`Ledger.report` makes one with the figures of the ledger.

    Parameters
    ----------
    at : datetime.datetime, optional
        When it was sent.
    to : Reader
        supervisor, health department or manufacturer.
    recipient : str
        Their name.
    through : datetime.datetime
        The instant the figures are of.
    counted : bool
        Had the doses of the affected places been counted?
    reference : str | None
        Their case number.
    told : tuple[ReportedHolding, ...] | None
        The figures.
    """

    kind: ClassVar[str] = "report"
    incident: str
    to: Reader
    recipient: str
    through: datetime.datetime
    counted: bool
    reference: str | None = None
    text: str | None = None
    told: tuple[ReportedHolding, ...] | None = None
