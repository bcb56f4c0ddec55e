"""Exact: Python's values as the text that JSON holds, and back: instants, degrees, fractions. What would have to be
guessed is refused: a float most of all, which is not the number that was read."""
from __future__ import annotations

import datetime
from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from numbers import Integral, Real
from typing import Any

from . import _core
from .errors import BadValue, WrongType

__all__ = ["degrees_text", "exact_text", "fraction_of", "instant_of", "instant_text", "json_value", "shown"]


def fraction_of(text: str) -> Fraction:
    """The number of an exact text, "n" or "n/d"."""
    numerator, _, denominator = text.partition("/")
    return Fraction(int(numerator), int(denominator) if denominator else 1)


def instant_of(text: str) -> datetime.datetime:
    """The aware instant of RFC 3339."""
    return datetime.datetime.fromisoformat(text[:-1] + "+00:00" if text[-1] == "Z" else text)


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
    """Degrees, a correction or a limit as JSON writes them. A float is refused."""
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
    """An exact number as JSON writes it: "n" or "n/d". A float is refused."""
    if isinstance(value, bool) or not isinstance(value, (Integral, Fraction)):
        raise WrongType(f"{name}: {shown(name, value)}must be a fractions.Fraction or a whole number")
    return str(value)


def json_value(name: str, value: Any) -> Any:
    """What JSON writes for a value; `name` begins the message of a refusal. What has a ``to_dict`` says it itself."""
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
    if hasattr(value, "to_dict"):
        return value.to_dict()
    if isinstance(value, Mapping):
        return {key: json_value(f"{name}: {key}", item) for key, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [json_value(f"{name}[{i}]", item) for i, item in enumerate(value)]
    raise WrongType(f"{name}: {shown(name, value)}{type(value).__name__} has no wire form")
