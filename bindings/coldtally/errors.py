"""Errors: one class for each reason for which coldtally refuses or fails.

All derive from :class:`Error`, and each from the built-in that fits, so that ``except ValueError`` or ``except
OSError`` do what one expects. The message is the command line's: where (line or entry), field, value, and what would be
right. A call that raises has written nothing."""
from __future__ import annotations

import json
from typing import TYPE_CHECKING, ClassVar, NamedTuple

from . import _core

if TYPE_CHECKING:
    from .logger import Layout

__all__ = [
    "Ambiguous",
    "BadJson",
    "BadRow",
    "BadText",
    "BadValue",
    "Busy",
    "ClosedLedger",
    "Contradiction",
    "Damaged",
    "EntryWarning",
    "Error",
    "ForkedProcess",
    "HandoverDiffers",
    "InUse",
    "LedgerExists",
    "LedgerMissing",
    "Machine",
    "MissingField",
    "NewerFormat",
    "NoSite",
    "OlderFormat",
    "NotALedger",
    "NotDefined",
    "NotEnough",
    "NotKnown",
    "NotThere",
    "NotVoidable",
    "OutOfOrder",
    "ReadingsDiffer",
    "Overtaken",
    "Remedy",
    "TooLate",
    "UnknownField",
    "UnreadableRow",
    "WrongScale",
    "WrongType",
    "class_of",
]


class UnreadableRow(NamedTuple):
    """A row of a logger's file that cannot be read.

    Parameters
    ----------
    file : str
        The file's name.
    line : int
        The number of the line.
    what : str
        Field, value and what would be right.
    """

    file: str
    line: int
    what: str


class Remedy(NamedTuple):
    """What would let a logger's file through.

    Parameters
    ----------
    when : str
        When that is right; "": always.
    layout : Layout
        The fields to state besides those that were given.
    """

    when: str
    layout: Layout


class Error(Exception):
    """Every refusal and failure of coldtally.

    Attributes
    ----------
    code : str
        The stable name of the reason, in lower case with hyphens: ``"not-enough"``.
    machine_failed : bool
        True where the machine failed (file, disk, lock): trying again may help. False where the data or the request is
        refused.
    rows : tuple of UnreadableRow
        Of a logger's file that is refused, the first twenty rows that cannot be read.
    unreadable : int
        How many there are in all.
    remedies : tuple of Remedy
        What would let the file through.
    without_remedy : int
        How many rows none of them lets through.
    can_accept : bool
        Would `accept_guesses` let it through?
    """

    code: ClassVar[str] = ""
    machine_failed: ClassVar[bool] = False
    rows: tuple[UnreadableRow, ...] = ()
    unreadable: int = 0
    remedies: tuple[Remedy, ...] = ()
    without_remedy: int = 0
    can_accept: bool = False


class BadText(Error, ValueError):
    """The text is not UTF-8, holds a NUL, has a line that is too long, or there is none."""

    code = "bad-text"


class BadJson(Error, ValueError):
    """Not JSON, a key twice, or nested too deep."""

    code = "bad-json"


class UnknownField(Error, ValueError):
    """A field that the kind of entry does not have."""

    code = "unknown-field"


class MissingField(Error, ValueError):
    """A field that the kind of entry needs."""

    code = "missing-field"


class BadValue(Error, ValueError):
    """A value of the wrong type, form or size."""

    code = "bad-value"


class WrongType(BadValue, TypeError):
    """A Python object that cannot be taken without guessing: a float, most of all."""

    code = "wrong-type"


class Contradiction(Error, ValueError):
    """Two fields that cannot both hold: low above high, until before from."""

    code = "contradiction"


class NotDefined(Error, LookupError):
    """An entry names a thing that no entry defines."""

    code = "not-defined"


class NoSite(Error, ValueError):
    """The first entry of a ledger is not its site."""

    code = "no-site"


class TooLate(Error, ValueError):
    """An instant after that of posting."""

    code = "too-late"


class WrongScale(Error, ValueError):
    """Readings or a check in another scale than the probe's."""

    code = "wrong-scale"


class ReadingsDiffer(Error, ValueError):
    """Two unequal readings of one probe at one instant."""

    code = "readings-differ"


class NotEnough(Error, ValueError):
    """A holding would fall below 0 doses."""

    code = "not-enough"


class NotThere(Error, LookupError):
    """A count or a beyond-use of a holding without doses."""

    code = "not-there"


class HandoverDiffers(Error, ValueError):
    """A handover that does not match its product, or is not consistent in itself."""

    code = "handover-differs"


class NotVoidable(Error, ValueError):
    """A void of what cannot be voided."""

    code = "not-voidable"


class InUse(Error, ValueError):
    """A void of a definition that entries still name."""

    code = "in-use"


class OutOfOrder(Error, ValueError):
    """Entry numbers or instants of recording that do not follow on."""

    code = "out-of-order"


class NotKnown(Error, LookupError):
    """A question about a place, holding or instant of which the ledger knows nothing."""

    code = "not-known"


class BadRow(Error, ValueError):
    """A row of a logger's file that cannot be read."""

    code = "bad-row"


class Ambiguous(Error, ValueError):
    """A layout, a local time or a name with more than one meaning."""

    code = "ambiguous"


class LedgerMissing(Error, FileNotFoundError):
    """There is no such file."""

    code = "ledger-missing"


class LedgerExists(Error, FileExistsError):
    """A new ledger was asked for, and the file is there."""

    code = "ledger-exists"


class NotALedger(Error, ValueError):
    """A file of another application."""

    code = "not-a-ledger"


class NewerFormat(Error, ValueError):
    """A ledger of a later format than this library reads."""

    code = "newer-format"


class OlderFormat(Error, ValueError):
    """A ledger of an older format: Ledger.restore makes a copy in that of today."""

    code = "older-format"


class Damaged(Error, ValueError):
    """A ledger that was truncated or altered."""

    code = "damaged"


class Busy(Error, TimeoutError):
    """Another process holds the ledger for longer than this one waits."""

    code = "busy"


class Machine(Error, OSError):
    """Disk, file or memory."""

    code = "machine"


class ClosedLedger(Error, ValueError):
    """The ledger has been closed."""

    code = "closed-ledger"


class ForkedProcess(Error, RuntimeError):
    """The ledger was opened in another process, of which this one is a fork."""

    code = "forked-process"


class Overtaken(Error, RuntimeError):
    """An entry came into the very second that a view's answers are known on: make the view again."""

    code = "overtaken"


class EntryWarning(UserWarning):
    """What a careful person wants to know of an entry that was posted and means what it says. It refuses nothing."""


_classes: dict[str, type[Error]] = {
    cls.code: cls
    for cls in list(globals().values())
    if isinstance(cls, type) and issubclass(cls, Error) and cls is not Error
}
for _name in _core.machine_failures():
    _classes[_name].machine_failed = True


def class_of(code: str) -> type[Error]:
    """The class for a code of the core.

    Parameters
    ----------
    code : str
        Its stable name, "not-enough".

    Returns
    -------
    type[Error]
        The class; :class:`Error` itself for a code that this package does not know.
    """
    return _classes.get(code, Error)


def refusal_of(
    code: str,
    found: str,
    unreadable: int,
    without_remedy: int,
    can_accept: bool,
    rows: list[tuple[str, int, str]],
    remedies: list[tuple[str, str]],
) -> Error:
    """The error for a logger's file that is refused, in the words of this package."""
    from .logger import Layout

    first = tuple(UnreadableRow(*row) for row in rows)
    ways = tuple(Remedy(when, Layout.from_dict(json.loads(layout))) for when, layout in remedies)
    lines = [found]
    if unreadable > 1:
        lines += [f"{row.file}: line {row.line}: {row.what}" for row in first]
        lines += [f"and {unreadable - len(first)} more"] if unreadable > len(first) else []
    lines += ["if the first is right: accept_guesses=True"] if can_accept else []
    lines += [f"{'if ' + way.when + ': ' if way.when else ''}layout={way.layout.stated()}" for way in ways]
    lines += [f"no layout lets {without_remedy} of them through"] if without_remedy else []
    error = class_of(code)("\n  ".join(lines))
    error.rows, error.unreadable, error.remedies = first, unreadable, ways
    error.without_remedy, error.can_accept = without_remedy, can_accept
    return error
