"""Handovers: what goes with doses that leave for another site, so that what they have been through is not lost on the
way. Doses are whole numbers. The page is lib/stock/README.md.
"""
from __future__ import annotations

import datetime

from .answers import Answer, History, LastUse
from .drafts import Posted
from .remarks import Remark
from .terms import ListName, Reason

__all__ = ["HandoverAnswer", "PostedTransfer"]


class HandoverAnswer(Answer):
    """The history of doses just before they left by a transfer. ``to_table()`` is the sheet for people.

    Attributes
    ----------
    transfer : int
        The number of the transfer's entry.
    left : datetime.datetime
        When they left.
    to : str
        The other site.
    product_name : str
        Its name in words.
    expiry : datetime.date
        The lot's last day.
    exposed : bool
        They were ever out of range, or may have been.
    needed : bool
        So, or not known for a time, or of a shortened use, or in question: their history must go with them.
    list : ListName
        The list just before they left.
    reasons : tuple[Reason, ...]
        Why they were not on keep then.
    notes : tuple[str, ...]
        What a careful person wants to know besides.
    beside : tuple[str, ...]
        What the form of a history cannot say, and the receiver must know.
    to_hold : tuple[str, ...]
        Why the receiver must hold them, by holds and by open incidents.
    handover : History | None
        That history as the other site's receive takes it, its places as "site/place"; None: guidance says discard.
    """

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
    list: ListName
    reasons: tuple[Reason, ...]
    notes: tuple[str, ...]
    notes_codes: tuple[Remark, ...]
    beside: tuple[str, ...]
    beside_codes: tuple[Remark, ...]
    to_hold: tuple[str, ...]
    to_hold_codes: tuple[Remark, ...]
    handover: History | None
    caution: str


class PostedTransfer(Posted):
    """A transfer that was posted.

    Attributes
    ----------
    handover : HandoverAnswer
        The handover of its doses.
    files : tuple[str, ...]
        Those that were written: the history and the sheet for people.
    """

    handover: HandoverAnswer
    files: tuple[str, ...]
