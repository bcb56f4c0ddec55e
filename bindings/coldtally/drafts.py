"""Drafts: what everyday work posted, and what entries would change. Doses and entry numbers are whole numbers."""
from __future__ import annotations

import datetime

from .answers import Answer, HoldingName, Printed
from .fields import Fact
from .wire import Record

__all__ = ["AnswerDraft", "ChangedDose", "ChangedHolding", "Changes", "HoldingState", "NotCovered", "Posted", "PostedWithChanges"]


class Posted(Printed):
    """What was posted, or with `dry_run` would be. `entries` carry their numbers. `filled`: what was not stated and had one meaning only.
    `warnings`: what a careful person wants to know. `next_steps`: what to do at once."""

    dry_run: bool
    entries: tuple[Fact, ...]
    filled: tuple[str, ...]
    warnings: tuple[str, ...]
    next_steps: tuple[str, ...]


class HoldingState(Record):
    """Doses of a holding, their list and the reasons."""

    doses: int
    list: str
    reasons: tuple[str, ...]


class ChangedHolding(HoldingName):
    """A holding before and after; None: no doses there."""

    before: HoldingState | None
    after: HoldingState | None


class ChangedDose(HoldingName):
    """Doses given, by the entry of the give, and what is found of them before and after; None: no such give."""

    entry: int
    at: datetime.datetime
    patient: str
    before: str | None
    after: str | None


class Changes(Answer):
    """What entries would change on stock, lists and review, everything else left as it is. Only what differs is there."""

    _rows = "holdings"
    holdings: tuple[ChangedHolding, ...]
    doses: tuple[ChangedDose, ...]
    caution: str


class PostedWithChanges(Posted):
    """What was posted, a void or guidance, and what it changes on stock, lists and review."""

    changes: Changes


class NotCovered(Record):
    """What still waits: holdings, and the entries of doses given."""

    holdings: tuple[HoldingName, ...]
    doses: tuple[int, ...]


class AnswerDraft(Changes):
    """Guidance that answers a report, and what it changes. `posted`: the numbers of its entries; none: it was not asked for, or
    `concerns` (what the answer does not cover, and what has become known since) stand against it."""

    entries: tuple[Fact, ...]
    posted: tuple[int, ...]
    concerns: tuple[str, ...]
    not_covered: NotCovered
