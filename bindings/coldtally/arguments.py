"""Arguments: what callers give, as the core takes it; refuses what would have to be guessed."""
from __future__ import annotations

import datetime
import json
import time
from collections.abc import Iterable, Mapping
from numbers import Integral
from typing import Any, TypeVar, Union

from . import _core
from .errors import BadText, WrongType
from .exact import instant_text, json_value, shown
from .stated import Entry, OtherEntry

Instant = Union[datetime.datetime, str]
"""An aware datetime of whole seconds, or text: RFC 3339, or the site's clock as people type it: "2026-03-02 08:05",
"08:05" (today)."""
WindowEnd = Union[datetime.datetime, datetime.date, str]
"""An end of a window: an instant, or a date by the site's clock: a window begins with the first instant of that day,
and ends with its last (the
day is in it)."""
Postable = Union[Entry, OtherEntry, Mapping[str, Any]]
"""An entry to be posted: an object of its kind, or a mapping in the wire form, in which Decimal, datetime and date may
stand."""


Text = TypeVar("Text", bound=str)


def text(name: str, value: Text) -> Text:
    """Text that is UTF-8; of a type of fixed words it stays one of them."""
    if not isinstance(value, str):
        raise WrongType(f"{name}: {shown(name, value)}must be text")
    try:
        value.encode()
    except UnicodeEncodeError:
        raise BadText(f"{name}: {shown(name, value)}not valid UTF-8, or a NUL") from None
    return value


def maybe_text(name: str, value: Text | None) -> Text | None:
    """The same where it is given."""
    return None if value is None else text(name, value)


def whole(name: str, value: object) -> int:
    """A whole number of any type; a truth or a float is none."""
    if isinstance(value, bool) or not isinstance(value, Integral):
        raise WrongType(f"{name}: {shown(name, value)}must be a whole number")
    return int(value)


def instant(name: str, value: Instant) -> str:
    """An instant as text."""
    return text(name, instant_text(name, value))


def maybe_instant(name: str, value: Instant | None) -> str | None:
    """The same where it is given."""
    return None if value is None else instant(name, value)


def now_s(now: datetime.datetime | None) -> int:
    """Seconds since 1970 of the instant that stands for now."""
    if now is None:
        return int(time.time())
    return int(datetime.datetime.fromisoformat(instant_text("now", now)[:-1] + "+00:00").timestamp())


def utc(seconds: int) -> datetime.datetime:
    """The aware instant of seconds since 1970."""
    return datetime.datetime.fromtimestamp(seconds, datetime.timezone.utc)


def asked(at: Instant | None, known_on: Instant | None, now: datetime.datetime | None) -> _core.Asked:
    """The instants of a question."""
    return _core.Asked(maybe_instant("at", at), maybe_instant("known_on", known_on), now_s(now))


def bound(name: str, value: WindowEnd) -> str:
    """An end of a window as text."""
    if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
        return value.isoformat()
    return instant(name, value)


def maybe_bound(name: str, value: WindowEnd | None) -> str | None:
    """The same where it is given."""
    return None if value is None else bound(name, value)


def window(from_: WindowEnd, until: WindowEnd) -> tuple[str, str]:
    """The two ends of a window."""
    return bound("from", from_), bound("until", until)


def entry_json(entry: Postable) -> str:
    """One entry as JSON in one line."""
    form = entry.to_dict() if isinstance(entry, (Entry, OtherEntry)) else entry
    if not isinstance(form, Mapping):
        raise WrongType(
            f"entry: {shown('entry', form)}must be an entry of coldtally.entries, or a mapping in the wire form"
        )
    plain = {key: json_value(str(key), value) for key, value in form.items()}
    if isinstance(entry, Entry):  # one that was read from a ledger may be posted again
        plain.pop("entry", None)
        plain.pop("recorded", None)
    return json.dumps(plain)


def several(entries: Postable | Iterable[Postable]) -> list[str]:
    """One entry or several, JSON each."""
    if isinstance(entries, (str, bytes)):
        raise WrongType("entries: text: must be entries or mappings; post_json takes JSON Lines")
    return [entry_json(e) for e in ([entries] if isinstance(entries, (Entry, OtherEntry, Mapping)) else entries)]
