"""Handovers: what goes with doses that leave for another site, so that what they have been through is not lost on the
way. Doses are whole numbers. The page is lib/answers/README.md.
"""
from __future__ import annotations

import datetime

from .answers import Answer, History, LastUse
from .drafts import Posted

__all__ = ["HandoverAnswer", "PostedTransfer"]


class HandoverAnswer(Answer):
    """The history of doses just before they left by the entry `transfer`. `handover`: that history as the other site's
    receive takes it, its places as "site/place" (None: guidance says discard). `exposed`: they were ever out of range,
    or may have been; `needed`: so, or not known for a time, or of a shortened use, or in question. `list` and
    `reasons`: just before they left. `beside`: what the form of a history cannot say, and the receiver must know;
    `to_hold`: why the receiver must hold them, by holds and by open incidents. ``to_table()`` is the sheet for
    people."""

    transfer: int
    left: datetime.datetime
    by: str
    to: str
    reason: str
    place: str
    product: str
    lot: str
    fund: str
    mark: str
    product_name: str
    doses: int
    expiry: datetime.date
    last_use: LastUse
    exposed: bool
    needed: bool
    list: str
    reasons: tuple[str, ...]
    notes: tuple[str, ...]
    beside: tuple[str, ...]
    to_hold: tuple[str, ...]
    handover: History | None
    caution: str


class PostedTransfer(Posted):
    """A transfer that was posted, the handover of its doses, and the `files` that were written (the history and the
    sheet for people)."""

    handover: HandoverAnswer
    files: tuple[str, ...]
