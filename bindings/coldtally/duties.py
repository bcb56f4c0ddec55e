"""Duties: loans between funds, repayments, follow-up of patients, training. They change no stock and no list. Doses and
entry numbers are whole numbers, dates :class:`datetime.date`. The page is lib/entries/duties.md."""
from __future__ import annotations

import datetime
from dataclasses import dataclass
from typing import ClassVar

from .fields import Entry, empty_label

__all__ = ["FollowUp", "Loan", "Repayment", "Training"]


@dataclass(frozen=True, kw_only=True)
class Loan(Entry):
    """The doses of a give, by its entry number, went to somebody for whom the fund `eligible` should have paid; it owes
    them."""

    kind: ClassVar[str] = "loan"
    give: int
    eligible: str
    reason: str


@dataclass(frozen=True, kw_only=True)
class Repayment(Entry):
    """Doses of a loan, by its entry number, that came back. `with_`: the entry of the receive or give by which they
    did. The attribute `with_` is the wire's `with`."""

    kind: ClassVar[str] = "repayment"
    loan: int
    doses: int
    with_: int | None = None


@dataclass(frozen=True, kw_only=True)
class FollowUp(Entry):
    """A step with the patient of a give, by its entry number: decided, told, answered, repeated, tested, no answer or
    not needed. `text` must not name the patient."""

    kind: ClassVar[str] = "follow-up"
    give: int
    step: str
    text: str = empty_label()


@dataclass(frozen=True, kw_only=True)
class Training(Entry):
    """A person was trained in a topic. `due`: the date of the next; `reference`: where the proof is kept."""

    kind: ClassVar[str] = "training"
    person: str
    topic: str
    due: datetime.date | None = None
    reference: str | None = None
