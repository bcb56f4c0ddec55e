"""The wire form and Python's types: one mechanism for all answers and entries.

An answer of the core is JSON. A :class:`Record` is a view of one of its objects: each annotated attribute is the field
of that name (``from_`` for ``from``), turned into the annotated type when it is first read. A field that no annotation
knows is turned by its name: ``…_s``, ``…_Cs`` and ``…_C`` that are text are exact numbers, and the names of instants
and dates are those."""
from __future__ import annotations

import copy
import datetime
import json
import re
import sys
import types
import typing
from collections.abc import Callable, Mapping
from decimal import Decimal
from fractions import Fraction
from numbers import Integral, Real
from typing import TYPE_CHECKING, Any, ClassVar

from . import _core
from .errors import BadValue, WrongType

if TYPE_CHECKING:
    from typing_extensions import Self

__all__ = ["Record", "instant_text", "to_wire"]

_INSTANT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ\Z")
_DATE = re.compile(r"\d{4}-\d\d-\d\d\Z")
_EXACT = re.compile(r"-?\d+(/\d+)?\Z")
_INSTANT_NAMES = {
    "at",
    "known_on",
    "from",
    "until",
    "recorded",
    "through",
    "use_by",
    "since",
    "due",
    "usable_until",
    "met",
}
_DATE_NAMES = {"expiry", "expires", "agreed", "reviewed", "use_by", "date"}


def _fraction(text: Any) -> Fraction:
    numerator, _, denominator = text.partition("/")
    return Fraction(int(numerator), int(denominator) if denominator else 1)


def _instant(text: Any) -> datetime.datetime:
    return datetime.datetime.fromisoformat(text[:-1] + "+00:00" if text[-1] == "Z" else text)


def _by_name(name: str, value: Any) -> Any:
    """What a field holds, judged by its name alone."""
    if isinstance(value, str):
        if name.endswith(("_s", "_Cs", "_C")):
            return _fraction(value) if _EXACT.match(value) else Decimal(value)
        if name in _INSTANT_NAMES and _INSTANT.match(value):
            return _instant(value)
        if name in _DATE_NAMES and _DATE.match(value):
            return datetime.date.fromisoformat(value)
        return value
    if isinstance(value, dict):
        return Record.from_dict(value)
    if isinstance(value, list):
        return tuple(_by_name(name, item) for item in value)
    return value


readers: dict[Any, Callable[[Any], Any]] = {}
"""Readers of types that are read in a way of their own."""


def reader(hint: Any) -> Callable[[Any], Any]:
    """The function that turns a wire value into the annotated type."""
    if hint in readers:
        return readers[hint]
    origin = typing.get_origin(hint)
    arguments = typing.get_args(hint)
    if origin in (typing.Union, types.UnionType):
        inner = [a for a in arguments if a is not type(None)]
        read = reader(inner[0]) if len(inner) == 1 else _either(inner)
        return lambda value: None if value is None else read(value)
    if origin is tuple:
        if len(arguments) == 2 and arguments[1] is ...:
            item = reader(arguments[0])
            return lambda value: tuple(item(v) for v in value)
        items = [reader(a) for a in arguments]
        return lambda value: tuple(read(v) for read, v in zip(items, value))
    if hint is Fraction:
        return _fraction
    if hint is Decimal:
        return Decimal
    if hint is datetime.datetime:
        return _instant
    if hint is datetime.date:
        return datetime.date.fromisoformat
    if hint is datetime.time:
        return datetime.time.fromisoformat
    if isinstance(hint, type) and hasattr(hint, "from_dict"):
        return typing.cast(Callable[[Any], Any], getattr(hint, "from_dict"))
    return lambda value: value


def _either(hints: list[Any]) -> Callable[[Any], Any]:
    """Of an instant or a date: told apart by the form."""
    if set(hints) == {datetime.datetime, datetime.date}:
        return lambda text: datetime.date.fromisoformat(text) if len(text) <= 10 else _instant(text)
    return lambda value: value


def hints_of(cls: type) -> dict[str, Any]:
    """The annotated attributes of a class and of those it derives from, class variables left out."""
    out: dict[str, Any] = {}
    for base in reversed(cls.__mro__):
        names = vars(sys.modules[base.__module__]) if base.__module__ in sys.modules else {}
        for name, text in vars(base).get("__annotations__", {}).items():
            hint = eval(text, dict(names)) if isinstance(text, str) else text  # noqa: S307 - the package's own source
            if name.startswith("_") or typing.get_origin(hint) is ClassVar or hint is ClassVar:
                continue
            out[name] = hint
    return out


class _Field:
    """An attribute that reads its field of the wire form on first use."""

    __slots__ = ("name", "wire_name", "hint", "read", "optional")

    def __init__(self, name: str, hint: Any) -> None:
        self.name = name
        self.wire_name = name.rstrip("_")
        self.hint = hint
        self.optional = type(None) in typing.get_args(hint)
        self.read: Callable[[Any], Any] | None = None

    def __get__(self, record: Record | None, owner: type) -> Any:
        if record is None:
            return self
        if self.wire_name not in record._wire:
            if self.optional:
                return None
            raise AttributeError(f"{owner.__name__} without {self.wire_name}")
        if self.read is None:
            self.read = reader(self.hint)
        value = record.__dict__[self.name] = self.read(record._wire[self.wire_name])
        return value


class Record:
    """One object of an answer: read-only attributes with exact types, and the wire form they come from.

    Two records are equal where their wire forms are. Fields that this version of the package does not annotate are
    attributes all the same."""

    _fields: ClassVar[dict[str, _Field]] = {}
    _wire: dict[str, Any]

    def __init_subclass__(cls, **named: Any) -> None:
        super().__init_subclass__(**named)
        cls._fields = {name: _Field(name, hint) for name, hint in hints_of(cls).items()}
        for name, field in cls._fields.items():
            setattr(cls, name, field)

    @classmethod
    def from_dict(cls, wire: Mapping[str, Any]) -> Self:
        """The record of a wire form, which it keeps without copying it."""
        out = cls.__new__(cls)
        out.__dict__["_wire"] = wire
        return out

    def to_dict(self) -> dict[str, Any]:
        """The wire form, a copy of its own: what the command line prints as JSON."""
        return copy.deepcopy(self._wire)

    def names(self) -> tuple[str, ...]:
        """The attributes, in the order of the wire form."""
        annotated = {f.wire_name: n for n, f in type(self)._fields.items()}
        return tuple(annotated.get(n, n) for n in self._wire)

    if not TYPE_CHECKING:  # a name that no annotation knows is a mistake to mypy

        def __getattr__(self, name: str) -> Any:
            wire = self.__dict__.get("_wire")
            plain = name.rstrip("_")
            if wire is None or plain not in wire:
                raise AttributeError(f"{type(self).__name__} has no attribute {name!r}")
            value = self.__dict__[name] = _by_name(plain, wire[plain])
            return value

    def __setattr__(self, name: str, value: Any) -> None:
        raise AttributeError(f"{type(self).__name__} is read-only: cannot set {name!r}")

    def __delattr__(self, name: str) -> None:
        raise AttributeError(f"{type(self).__name__} is read-only: cannot delete {name!r}")

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Record):
            return NotImplemented
        return self._wire == other._wire

    def __hash__(self) -> int:
        return hash(json.dumps(self._wire, sort_keys=True))

    def __repr__(self) -> str:
        return f"{type(self).__name__}({', '.join(f'{n}={getattr(self, n)!r}' for n in self.names())})"

    def __reduce__(self) -> Any:
        return (type(self).from_dict, (self._wire,))


# ---- Python's types to the wire form

_SHOWN_CHARACTERS = 80  # as the core


def shown(name: str, value: object) -> str:
    """A value for a message, with ": " behind it: its beginning where it is long, nothing where it may be a patient's
    token."""
    text = repr(value)
    if "patient" in name.split(": ") or "patient" in text:
        return ""
    if len(text) > _SHOWN_CHARACTERS:
        text = f"{text[:_SHOWN_CHARACTERS - 1]}… ({len(text)} characters)"
    return f"{text}: "


def instant_text(name: str, value: object) -> str:
    """An instant as RFC 3339 in UTC; a text as it stands. A datetime without a zone is refused."""
    if isinstance(value, str):
        return value
    if not isinstance(value, datetime.datetime):
        raise WrongType(
            f"{name}: {shown(name, value)}must be an aware datetime.datetime, or text such as \"2026-03-02T08:05:00Z\""
        )
    if value.tzinfo is None or value.utcoffset() is None:
        raise BadValue(
            f"{name}: {value.isoformat()}: has no time zone and so names no instant; give it one, such as "
            f"value.replace(tzinfo=zoneinfo.ZoneInfo(\"America/Chicago\")), with the zone its clock was in"
        )
    if value.microsecond or getattr(value, "nanosecond", 0):  # pandas has those
        raise BadValue(f"{name}: {value.isoformat()}: must be a whole second; value.replace(microsecond=0) cuts it")
    return value.astimezone(datetime.timezone.utc).strftime("%Y-%m-%dT%H:%M:%SZ").rjust(20, "0")


def degrees_text(name: str, value: object) -> str:
    """Degrees, a correction or a limit as the wire writes them. A float is refused."""
    if isinstance(value, bool) or not isinstance(value, (Integral, Decimal, str)):
        raise WrongType(
            f"{name}: {shown(name, value)}must be a decimal.Decimal, a whole number or text: Decimal(\"4.2\")"
            + (
                "; a float is not the number that was read"
                if type(value) is not bool and isinstance(value, Real)
                else ""
            )
        )
    if isinstance(value, str):
        text = value
    else:
        text = format(value, "f") if isinstance(value, Decimal) else str(int(value))
    try:
        _core.check_degrees(text)
    except BadValue as error:
        raise BadValue(f"{name}: {error}") from None
    return text


def exact_text(name: str, value: object) -> str:
    """An exact number as the wire writes it: "n" or "n/d". A float is refused."""
    if isinstance(value, bool) or not isinstance(value, (Integral, Fraction)):
        raise WrongType(f"{name}: {shown(name, value)}must be a fractions.Fraction or a whole number")
    return str(value)


def to_wire(name: str, value: Any) -> Any:
    """What JSON writes for a value; `name` begins the message of a refusal."""
    if value is None or isinstance(value, (str, bool, int)):
        return value
    if isinstance(value, Integral):  # of NumPy
        return int(value)
    if isinstance(value, Real) and not isinstance(value, Fraction):
        raise WrongType(
            f"{name}: {shown(name, value)}is a float, which is not the number that was read; "
            'write Decimal("4.2") or "4.2"'
        )
    if isinstance(value, Decimal):
        return degrees_text(name, value)
    if isinstance(value, Fraction):
        return exact_text(name, value)
    if isinstance(value, datetime.datetime):
        return instant_text(name, value)
    if isinstance(value, datetime.date):
        return value.isoformat()
    if isinstance(value, datetime.time):
        return value.isoformat("minutes")
    if isinstance(value, Record):
        return value._wire
    if hasattr(value, "to_dict"):
        return value.to_dict()
    if isinstance(value, Mapping):
        return {key: to_wire(f"{name}: {key}", item) for key, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [to_wire(f"{name}[{i}]", item) for i, item in enumerate(value)]
    raise WrongType(f"{name}: {shown(name, value)}{type(value).__name__} has no wire form")
