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
from .fields import Entry, Form, empty_label, false_unless_said

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
class RuleTemperatures(Form):
    """Which temperatures count: `is_` above, at or above, below, at or below a limit; no limit: the place's own range
    on that side. The attribute `is_` is the wire's `is`."""

    is_: str
    limit: Limit | None = None


@dataclass(frozen=True, kw_only=True)
class Reportable(Form):
    """A condition on which something must be reported. `form`: run and sum (`at_least_s` or `more_than_s` seconds of
    such temperatures, without a break or within any `within_s` seconds), reading (any one), pattern (`at_least` or
    `more_than` excursions within `within_s`; None: ever). `places` limits it to places of these types, `products` to
    the time when doses of one of these are there. `text`: in the programme's words."""

    rule: str
    text: str = empty_label()
    form: str
    temperature: RuleTemperatures | None = None
    at_least_s: int | None = None
    more_than_s: int | None = None
    at_least: int | None = None
    more_than: int | None = None
    within_s: int | None = None
    places: tuple[str, ...] | None = None
    products: tuple[str, ...] | None = None


@dataclass(frozen=True)
class Duty(Form):
    """A step and the seconds within which it is due: from the step "noticed", an "answer" from when the one who answers
    was told. `if_reportable`: only where a condition was met or may have been."""

    step: str
    within_s: int
    if_reportable: bool = false_unless_said()


@dataclass(frozen=True)
class Retention(Form):
    """How many years records of a kind are kept."""

    records: str
    years: int


@dataclass(frozen=True, kw_only=True)
class WantedChecks(Form):
    """Checks of places of these types (None: all): on which `weekdays` ("Monday", …), how many a day, by which times of
    the site's clock, and whether with minimum and maximum."""

    places: tuple[str, ...] | None = None
    weekdays: tuple[str, ...]
    per_day: int
    by: tuple[datetime.time, ...] | None = None
    min_max: bool = false_unless_said()


@dataclass(frozen=True, kw_only=True)
class ProgrammeRules(Form):
    """What a programme asks: `programme` and `source` say whose rules and where they stand, `dated` of which date.
    `longest_trip_s`: seconds. `every_days`: days by what is to be done (plan review, backup agreement, training, count,
    logger reading, log review, certificate, service, self-audit)."""

    programme: str
    source: str
    dated: datetime.date
    report: tuple[Reportable, ...] | None = None
    duties: tuple[Duty, ...] | None = None
    retention: tuple[Retention, ...] | None = None
    checks: tuple[WantedChecks, ...] | None = None
    longest_trip_s: int | None = None
    repay_loans_within_days: int | None = None
    every_days: dict[str, int] | None = None


@dataclass(frozen=True, kw_only=True)
class Rules(Entry, ProgrammeRules):
    """The rules of a programme. The last that is known holds, for every instant asked about, as a definition does."""

    kind: ClassVar[str] = "rules"


@dataclass(frozen=True, kw_only=True)
class Maker(Entry):
    """Who makes a product and answers for it, and how to ask. The last of a product holds."""

    kind: ClassVar[str] = "maker"
    product: str
    name: str
    contact: str | None = None
    phone: str | None = None
    email: str | None = None


@dataclass(frozen=True, kw_only=True)
class ReportedHolding(Form):
    """The figures of one holding as the reader of a report was told them: doses, seconds out of range, seconds
    unmonitored, points."""

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
    """A report of an incident that was sent, `at` when. `to`: supervisor, health department or manufacturer;
    `recipient`: their name; `through`: the instant the figures are of; `counted`: had the doses of the affected places
    been counted? :meth:`Ledger.report` makes one with the figures of the ledger."""

    kind: ClassVar[str] = "report"
    incident: str
    to: str
    recipient: str
    through: datetime.datetime
    counted: bool
    reference: str | None = None
    text: str | None = None
    told: tuple[ReportedHolding, ...] | None = None
