"""Duties: loans between funds, repayments, follow-up of patients, training. They change no stock and no list. Doses and
entry numbers are whole numbers, dates :class:`datetime.date`. The page is lib/entries/duties.md."""
from __future__ import annotations

import datetime
from dataclasses import dataclass
from typing import ClassVar

from .stated import Entry, empty_label
from .terms import PatientStep

__all__ = ["FollowUp", "Loan", "Repayment", "Training"]


@dataclass(frozen=True, kw_only=True)
class Loan(Entry):
    """Doses of a give that went to somebody for whom another fund should have paid; it owes them.

    Parameters
    ----------
    give : int
        The number of the give's entry.
    eligible : str
        The fund that should have paid.
    """

    kind: ClassVar[str] = "loan"
    give: int
    eligible: str
    reason: str


@dataclass(frozen=True, kw_only=True)
class Repayment(Entry):
    """Doses of a loan that came back.

    Parameters
    ----------
    loan : int
        The number of the loan's entry.
    with_ : int | None
        The number of the receive or give by which they did. The wire's `with`.
    """

    kind: ClassVar[str] = "repayment"
    loan: int
    doses: int
    with_: int | None = None


@dataclass(frozen=True, kw_only=True)
class FollowUp(Entry):
    """A step with the patient of a give.

    Parameters
    ----------
    give : int
        The number of the give's entry.
    step : PatientStep
        decided, told, answered, repeated, tested, no answer or not needed.
    text : str
        In words that do not name the patient.
    """

    kind: ClassVar[str] = "follow-up"
    give: int
    step: PatientStep
    text: str = empty_label()


@dataclass(frozen=True, kw_only=True)
class Training(Entry):
    """A person was trained in a topic.

    Parameters
    ----------
    person : str
        Who.
    topic : str
        In what.
    due : datetime.date | None
        The date of the next.
    reference : str | None
        Where the proof is kept.
    """

    kind: ClassVar[str] = "training"
    person: str
    topic: str
    due: datetime.date | None = None
    reference: str | None = None
