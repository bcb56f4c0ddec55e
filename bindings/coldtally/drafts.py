"""Drafts: what everyday work posted, and what entries would change. Doses and entry numbers are whole numbers."""
from __future__ import annotations

import datetime

from .answers import Answer, HoldingName, LastUse, Printed
from .fields import Fact
from .wire import Record

__all__ = [
    "AnswerDraft",
    "ChangedDose",
    "ChangedHolding",
    "Changes",
    "DepartedChange",
    "DepartedState",
    "HoldingState",
    "NotCovered",
    "Opening",
    "Posted",
    "PostedDefinition",
    "PostedWithChanges",
    "SaidSince",
]


class Opening(HoldingName):
    """A vial of several doses that was opened, out of the holding named. `noted`: by the entries; else it is an offer,
    and nothing says that one was. `vial`: the mark of its doses (None: of an offer); `vial_doses`: how many were in it
    (None: not to be told); `opened`: when; `event`, and `period_s`, the seconds for which it is good from then on;
    `last_use`: of what is in it."""

    noted: bool
    vial: str | None
    vial_doses: int | None
    opened: datetime.datetime
    event: str
    period_s: int
    last_use: LastUse


class HoldingState(Record):
    """Doses of a holding, their list and the reasons; `in_doubt` as in ListedHolding."""

    doses: int
    list: str
    reasons: tuple[str, ...]
    in_doubt: tuple[str, ...]


class ChangedHolding(HoldingName):
    """A holding before and after; None: no doses there. `differs`: which of doses, list, reasons, in_doubt and history
    (what they have been through, which neither state tells) is not the same."""

    before: HoldingState | None
    after: HoldingState | None
    differs: tuple[str, ...]


class ChangedDose(HoldingName):
    """Doses given, by the entry of the give, and what is found of them before and after; None: no such give."""

    entry: int
    at: datetime.datetime
    before: str | None
    after: str | None


class SaidSince(Record):
    """Guidance, or a recall, of a time after doses left that is of them, too, by its entry, in words."""

    entry: int
    text: str


class DepartedState(Record):
    """What doses were just before they left, by all that is known, and what was said `since`. `in_doubt` as in
    ListedHolding."""

    list: str
    reasons: tuple[str, ...]
    in_doubt: tuple[str, ...]
    since: tuple[SaidSince, ...]


class DepartedChange(HoldingName):
    """Doses that left by `entry` for another site, or back (`to` is None), which no list holds. `news`: what who has
    them must hear, in words."""

    entry: int
    at: datetime.datetime
    doses: int
    to: str | None
    before: DepartedState
    after: DepartedState
    news: tuple[str, ...]


class Changes(Answer):
    """What entries would change on stock, lists and review, and of doses that left (`left`), everything else left as it
    is. Only what differs is there."""

    _rows = "holdings"
    holdings: tuple[ChangedHolding, ...]
    doses: tuple[ChangedDose, ...]
    left: tuple[DepartedChange, ...]
    caution: str


class Posted(Printed):
    """What was posted, or with `dry_run` would be. `entries` carry their numbers. `filled`: what was not stated and had
    one meaning only. `warnings`: what a careful person wants to know. `next_steps`: what to do at once. `opening`: of a
    vial, noted or offered. `caution`: that of every list."""

    dry_run: bool
    entries: tuple[Fact, ...]
    filled: tuple[str, ...]
    warnings: tuple[str, ...]
    next_steps: tuple[str, ...]
    read_back: tuple[str, ...] | None
    """Of definitions: all that they then say, in both scales, with durations in words; None of other entries."""
    opening: Opening | None
    changes: Changes | None
    """On stock, lists and review, where the entries loosen anything; None elsewhere."""
    caution: str


class PostedDefinition(Posted):
    """A definition, and what it changes on stock, lists and review; None: the first of its thing, which changes
    nothing."""

    changes: Changes | None


class PostedWithChanges(Posted):
    """What was posted, a void or guidance, and what it changes on stock, lists and review."""

    changes: Changes


class NotCovered(Record):
    """What still waits: holdings, and the entries of doses given."""

    holdings: tuple[HoldingName, ...]
    doses: tuple[int, ...]


class AnswerDraft(Changes):
    """Guidance that answers a report, and what it changes. `posted`: the numbers of its entries; none: it was not asked
    for, or `concerns` (what the answer does not cover, and what has become known since) stand against it. `besides`:
    doses of the lot that are elsewhere now, and those of opened vials, in words."""

    entries: tuple[Fact, ...]
    posted: tuple[int, ...]
    concerns: tuple[str, ...]
    besides: tuple[str, ...]
    not_covered: NotCovered
