"""Drafts: what everyday work posted, and what entries would change. Doses and entry numbers are whole numbers."""
from __future__ import annotations

import datetime

from .answers import Answer, HoldingName, LastUse, Printed, Rows
from .remarks import Remark
from .stated import Fact
from .terms import ChangedPart, Finding, ListName, Reason
from .answered import Answered

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
    "StartMistake",
    "StartLine",
    "StartStock",
    "Started",
]


class Opening(HoldingName):
    """A vial of several doses that was opened, out of the holding named.

    Attributes
    ----------
    noted : bool
        By the entries; else it is an offer, and nothing says that one was.
    vial : str | None
        The mark of its doses; None: of an offer.
    vial_doses : int | None
        How many doses were in it; None: not to be told.
    opened : datetime.datetime
        When.
    event : str
        By which of the product's events its use is shortened.
    period_s : int
        The seconds for which it is good from then on.
    last_use : LastUse
        The last day on which what is in it may be used.
    """

    noted: bool
    vial: str | None
    vial_doses: int | None
    opened: datetime.datetime
    event: str
    period_s: int
    last_use: LastUse


class HoldingState(Answered):
    """How doses of a holding stand.

    Attributes
    ----------
    list : ListName
        The list they are on; what is not on keep must not be used.
    reasons : tuple[Reason, ...]
        Why it is not on keep, those of discard first.
    """

    doses: int
    list: ListName
    reasons: tuple[Reason, ...]
    in_doubt: tuple[str, ...]


class ChangedHolding(HoldingName):
    """A holding before and after.

    Attributes
    ----------
    before : HoldingState | None
        None: no doses there.
    after : HoldingState | None
        None: no doses there.
    differs : tuple[ChangedPart, ...]
        What is not the same; history: what they have been through, which neither state tells.
    """

    before: HoldingState | None
    after: HoldingState | None
    differs: tuple[ChangedPart, ...]


class ChangedDose(HoldingName):
    """Doses given, and what is found of them before and after.

    Attributes
    ----------
    entry : int
        The number of the give's entry.
    before : Finding | None
        What is found of them; None: no such give.
    after : Finding | None
        What is found of them; None: no such give.
    """

    entry: int
    at: datetime.datetime
    before: Finding | None
    after: Finding | None


class SaidSince(Answered):
    """Guidance, or a recall, of a time after doses left that is of them, too.

    Attributes
    ----------
    text : str
        What was said, in words.
    """

    entry: int
    text: str
    text_code: Remark


class DepartedState(Answered):
    """What doses were just before they left, by all that is known.

    Attributes
    ----------
    since : tuple[SaidSince, ...]
        Guidance and recalls of a later time that are of them, too.
    """

    list: ListName
    reasons: tuple[Reason, ...]
    in_doubt: tuple[str, ...]
    since: tuple[SaidSince, ...]


class DepartedChange(HoldingName):
    """Doses that left, which no list holds, before and after the entries.

    Attributes
    ----------
    entry : int
        The number of the transfer or return.
    to : str | None
        The other site; None: they were sent back.
    before : DepartedState
        As it is without the entries.
    after : DepartedState
        As it would be.
    news : tuple[str, ...]
        What who has them must hear, in words.
    """

    entry: int
    at: datetime.datetime
    doses: int
    to: str | None
    before: DepartedState
    after: DepartedState
    news: tuple[str, ...]
    news_codes: tuple[Remark, ...]


class Changes(Answer, Rows[ChangedHolding]):
    """What entries would change on stock, lists and review, everything else left as it is. Only what differs is there;
    a sequence of the holdings.

    Attributes
    ----------
    holdings : tuple[ChangedHolding, ...]
        The holdings that differ.
    doses : tuple[ChangedDose, ...]
        The doses given of which something else is found.
    left : tuple[DepartedChange, ...]
        The doses that left this site of which something else is known.
    """

    _rows = "holdings"
    holdings: tuple[ChangedHolding, ...]
    doses: tuple[ChangedDose, ...]
    left: tuple[DepartedChange, ...]
    caution: str


class Posted(Printed):
    """What was posted, or with `dry_run` would be.

    Attributes
    ----------
    dry_run : bool
        Nothing was written.
    entries : tuple[Fact, ...]
        With their numbers.
    filled : tuple[str, ...]
        What was not stated and had one meaning only.
    warnings : tuple[str, ...]
        What a careful person wants to know.
    next_steps : tuple[str, ...]
        What to do at once.
    read_back : tuple[str, ...] | None
        Of definitions: all that they then say, in both scales, with durations in words; None of other entries.
    opening : Opening | None
        Of a vial, noted or offered; None: there is none.
    changes : Changes | None
        On stock, lists and review, where the entries loosen anything; None elsewhere.
    """

    dry_run: bool
    entries: tuple[Fact, ...]
    filled: tuple[str, ...]
    filled_codes: tuple[Remark, ...]
    warnings: tuple[str, ...]
    warnings_codes: tuple[Remark, ...]
    next_steps: tuple[str, ...]
    next_steps_codes: tuple[Remark, ...]
    read_back: tuple[str, ...] | None
    read_back_codes: tuple[Remark, ...] | None
    opening: Opening | None
    changes: Changes | None
    caution: str


class PostedDefinition(Posted):
    """A definition that was posted, and what it changes.

    Attributes
    ----------
    changes : Changes | None
        On stock, lists and review; None: the first of its thing, which changes nothing.
    """

    changes: Changes | None


class PostedWithChanges(Posted):
    """What was posted, a void or guidance, and what it changes.

    Attributes
    ----------
    changes : Changes
        On stock, lists and review.
    """

    changes: Changes


class NotCovered(Answered):
    """What still waits.

    Attributes
    ----------
    holdings : tuple[HoldingName, ...]
        Doses that are there.
    doses : tuple[int, ...]
        The numbers of the gives' entries.
    """

    holdings: tuple[HoldingName, ...]
    doses: tuple[int, ...]


class AnswerDraft(Changes):
    """Guidance that answers a report, and what it changes.

    Attributes
    ----------
    entries : tuple[Fact, ...]
        The guidance.
    posted : tuple[int, ...]
        The numbers of its entries; none: it was not asked for, or `concerns` stand against it.
    concerns : tuple[str, ...]
        What the answer does not cover, and what has become known since.
    besides : tuple[str, ...]
        Doses of the lot that are elsewhere now, and those of opened vials, in words.
    not_covered : NotCovered
        What still waits.
    """

    entries: tuple[Fact, ...]
    posted: tuple[int, ...]
    concerns: tuple[str, ...]
    concerns_codes: tuple[Remark, ...]
    besides: tuple[str, ...]
    besides_codes: tuple[Remark, ...]
    not_covered: NotCovered


class StartMistake(Answered):
    """Something in a clinic's file that cannot be taken.

    Attributes
    ----------
    line : int
        Of the file, from 1; 0: of the file as a whole.
    table : str
        The table it stands in, "places".
    column : str
        The column; empty: the row as a whole.
    value : str
        As it stands there.
    code : str
        The stable code of the error.
    text : str
        What is wrong, and what would be right.
    """

    line: int
    table: str
    column: str
    value: str
    code: str
    text: str


class StartLine(Answered):
    """What is said of rows of a clinic's file.

    Attributes
    ----------
    lines : tuple[int, ...]
        Those it is said of; empty: it is of no line.
    text : str
        In words.
    """

    lines: tuple[int, ...]
    text: str
    text_code: Remark


class StartStock(Answered):
    """Doses of a fund that a clinic's file brings into a place.

    Attributes
    ----------
    place : str
        The id of the place.
    fund : str
        The fund; may be empty.
    lots : int
        How many lots.
    doses : int
        How many doses.
    first_expiry : datetime.date
        The first of the lots' last days.
    """

    place: str
    fund: str
    lots: int
    doses: int
    first_expiry: datetime.date


class Started(Printed):
    """What of a clinic's file was posted, or with `dry_run` would be.

    Attributes
    ----------
    dry_run : bool
        Nothing was written.
    file : str
        Its name.
    site, zone : str
        As they are with it.
    entries : tuple[Fact, ...]
        With their numbers.
    lines : tuple[int, ...]
        Of each entry, the line it stands in.
    mistakes : tuple[StartMistake, ...]
        Always empty: a file with any is refused.
    not_looked_at : int
        Rows that name what a refused row was to define.
    unchanged : int
        Definitions that hold so already, and are left out.
    stock : tuple[StartStock, ...]
        Doses it brings, by place and fund.
    filled : tuple[StartLine, ...]
        What was not stated and had one meaning only.
    warnings : tuple[StartLine, ...]
        What a careful person wants to know.
    asks : tuple[str, ...]
        Always empty: what must be meant is refused without `yes`.
    missing : tuple[str, ...]
        What the ledger still lacks with it, in the order in which to see to it.
    changes : Changes | None
        On stock, lists and review, where it loosens anything; None elsewhere.
    """

    dry_run: bool
    file: str
    site: str
    zone: str
    entries: tuple[Fact, ...]
    lines: tuple[int, ...]
    mistakes: tuple[StartMistake, ...]
    not_looked_at: int
    unchanged: int
    stock: tuple[StartStock, ...]
    filled: tuple[StartLine, ...]
    warnings: tuple[StartLine, ...]
    asks: tuple[str, ...]
    asks_codes: tuple[Remark, ...]
    missing: tuple[str, ...]
    missing_codes: tuple[Remark, ...]
    changes: Changes | None
    caution: str
