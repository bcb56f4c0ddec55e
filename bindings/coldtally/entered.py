"""Entered: what was entered, by whom, and what took it back; definitions as they hold, with how they came to be so.
Entry numbers and readings are whole numbers. The page is lib/entered/README.md."""
from __future__ import annotations

import datetime

from .answered import Answered
from .answers import Answer, Rows
from .remarks import Remark, RemarkField, Suggestion
from .terms import DefinedKind

__all__ = [
    "DefinedThing",
    "DefinitionChange",
    "DefinitionLine",
    "DefinitionVersion",
    "EnteredAnswer",
    "EnteredEntry",
    "KnownNames",
    "ShownAnswer",
    "TakenBack",
]


class TakenBack(Answered):
    """What took an entry back.

    Attributes
    ----------
    entry : int
        The number of the taking back.
    at : datetime.datetime
        When.
    by : str
        Whose initials.
    reason : str
        Why.
    """

    entry: int
    at: datetime.datetime
    by: str
    reason: str


class EnteredEntry(Answered):
    """One entry that was posted.

    Attributes
    ----------
    entry : int
        Its number.
    kind : str
        As the wire form has it: "give", "check", "void".
    at : datetime.datetime | None
        When it happened; None: it says no instant, as a definition or readings.
    recorded : datetime.datetime
        When it was posted.
    by : str
        Initials.
    note : str | None
        Its note.
    patient : str | None
        Of a give the token, where `patients` asked for it.
    text : str
        What it says, in English; instants in UTC.
    taken_back : TakenBack | None
        What took it back; None: nothing has.
    takes_back : int | None
        Of a taking back: which entry.
    takeback : Suggestion | None
        What would take it back; None: it is taken back already, or cannot be.
    """

    entry: int
    kind: str
    at: datetime.datetime | None
    recorded: datetime.datetime
    by: str
    note: str | None
    patient: str | None
    text: str
    text_code: Remark
    taken_back: TakenBack | None
    takes_back: int | None
    takeback: Suggestion | None


class EnteredAnswer(Answer, Rows[EnteredEntry]):
    """What was entered, the last last; a sequence of the entries.

    Attributes
    ----------
    entries : tuple[EnteredEntry, ...]
        The last of those that are as asked.
    earlier : int
        How many more are, before these.
    """

    _rows = "entries"
    window: str
    window_code: Remark | None
    entries: tuple[EnteredEntry, ...]
    earlier: int
    caution: str


class DefinitionLine(Answered):
    """One thing that a definition says.

    Attributes
    ----------
    name : str
        What it is about, in words.
    value : str
        What it says of it.
    """

    name: str
    name_code: Remark
    value: str
    value_code: RemarkField


class DefinitionChange(Answered):
    """A line of a definition that differs from the version before.

    Attributes
    ----------
    name : str
        What it is about, in words.
    before : str | None
        None: it was not stated.
    after : str | None
        None: it is not stated any more.
    """

    name: str
    name_code: Remark
    before: str | None
    before_code: RemarkField | None
    after: str | None
    after_code: RemarkField | None


class DefinitionVersion(Answered):
    """A version of a definition, as it was posted.

    Attributes
    ----------
    entry : int
        Its number.
    recorded : datetime.datetime
        When it was posted.
    at : datetime.datetime | None
        From when it is, where it says that.
    by : str
        Initials.
    note : str | None
        Its note.
    holds : bool
        Is it the one that holds?
    changes : tuple[DefinitionChange, ...]
        What it changed of the one that held before it.
    taken_back : TakenBack | None
        What took it back.
    """

    entry: int
    recorded: datetime.datetime
    at: datetime.datetime | None
    by: str
    note: str | None
    holds: bool
    changes: tuple[DefinitionChange, ...]
    taken_back: TakenBack | None


class DefinedThing(Answered):
    """What is defined, as it holds, and how it came to be so.

    Attributes
    ----------
    kind : DefinedKind
        What it is.
    name : str
        Its name; of a certificate, and of where a probe is, the probe's.
    product : str | None
        Of a lot.
    lines : tuple[DefinitionLine, ...]
        As it holds; none where all that was said of it was taken back.
    history : tuple[DefinitionVersion, ...]
        In the order of posting.
    """

    kind: DefinedKind
    name: str
    product: str | None
    lines: tuple[DefinitionLine, ...]
    history: tuple[DefinitionVersion, ...]


class KnownNames(Answered):
    """The names that there are of a kind.

    Attributes
    ----------
    kind : DefinedKind
        Of what.
    ids : tuple[str, ...]
        Each once.
    """

    kind: DefinedKind
    ids: tuple[str, ...]


class ShownAnswer(Answer, Rows[DefinedThing]):
    """What goes by a name, as it is defined; a sequence of the things.

    Attributes
    ----------
    things : tuple[DefinedThing, ...]
        All that go by it.
    known : tuple[KnownNames, ...]
        Where no name was asked for: those that there are.
    """

    _rows = "things"
    things: tuple[DefinedThing, ...]
    known: tuple[KnownNames, ...]
    caution: str
