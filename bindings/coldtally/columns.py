"""Columns: arrays, pandas columns and sequences of times and numbers as the core takes them. A number means the same
whatever holds it: what is asked for says the unit, a type never does. What would have to be guessed is refused, naming
the row, counted from 0."""
from __future__ import annotations

import datetime
import sys
import zoneinfo
from dataclasses import dataclass
from decimal import Decimal
from numbers import Integral, Real
from typing import TYPE_CHECKING, Any

from .errors import BadValue, Contradiction, WrongType
from .remarks import Remark
from .terms import Scale

if TYPE_CHECKING:
    import numpy
    import numpy.typing

__all__ = ["Column", "PostedReadings"]

Column = Any
"""One column: a NumPy array of one dimension, a pandas Series or Index, or a sequence."""

_EPOCH = datetime.datetime(1970, 1, 1)
_UTC_EPOCH = _EPOCH.replace(tzinfo=datetime.timezone.utc)
_NOTHING = "nothing stands there: leave rows without a reading out"


@dataclass(frozen=True, kw_only=True)
class PostedReadings:
    """Readings posted from columns, or with `dry_run` such as would be, read back: are they what was meant?

    Parameters
    ----------
    dry_run : bool
        Nothing was written.
    entries : tuple[int, ...]
        The numbers of their entries.
    rows : int
        How many there are, those that the ledger has already included.
    from_ : datetime.datetime
        The first instant, in UTC.
    until : datetime.datetime
        The last instant, in UTC.
    scale : Scale
        "C" or "F".
    lowest : Decimal
        The lowest of them, degrees.
    highest : Decimal
        The highest of them, degrees.
    rounded : int
        How many of them the resolution has changed.
    largest_change : Decimal
        By how many degrees at most, rounded up in the 18th decimal.
    remarks : tuple[str, ...]
        What was settled: hours that the clock shows twice.
    remarks_codes : tuple[Remark, ...]
        The same as `remarks`, in its order, as codes to decide by.
    """

    dry_run: bool
    entries: tuple[int, ...]
    rows: int
    from_: datetime.datetime
    until: datetime.datetime
    scale: Scale
    lowest: Decimal
    highest: Decimal
    rounded: int
    largest_change: Decimal
    remarks: tuple[str, ...]
    remarks_codes: tuple[Remark, ...]


def instants(at: Column, zone: str | zoneinfo.ZoneInfo | None) -> tuple[numpy.typing.NDArray[numpy.int64], str | None]:
    """Seconds since 1970, and the zone on whose clock they are counted; None: UTC."""
    import numpy

    if isinstance(zone, zoneinfo.ZoneInfo):
        zone = zone.key
    if zone is not None and not isinstance(zone, str):
        raise WrongType(
            f'zone: {zone!r}: must be "site", the name of an IANA zone, or a zoneinfo.ZoneInfo that has one'
        )
    values, aware = _flat(numpy, "at", at)
    if not values.size:
        return numpy.zeros(0, dtype="int64"), None
    if values.dtype.kind == "M":
        seconds = _whole_seconds(numpy, values)
    elif values.dtype.kind == "O":
        seconds, aware = _seconds_of_objects(numpy, values.tolist())
    else:
        raise WrongType(
            f"at: {values.dtype}: must be datetime64 or datetimes; numbers and text are not taken for instants"
        )
    if aware and zone is not None:
        raise Contradiction(f'zone: "{zone}": the instants state their own offsets from UTC: leave the zone out')
    if not aware and zone is None:
        raise BadValue(
            f"at: rows[0]: {numpy.datetime64(int(seconds[0]), 's')}: has no time zone and so names no instant; "
            'say whose clock showed it (zone="site", zone="UTC" or another IANA zone), or give aware datetimes'
        )
    return seconds, zone


def numbers(name: str, column: Column, rounds: bool) -> numpy.typing.NDArray[Any] | list[str]:
    """Numbers without a loss: integers of 32 or 64 bits, floats of as many where they are to be rounded, else text.
    `name`: "degrees", or "thousandths", which are whole."""
    import numpy

    values, _ = _flat(numpy, name, column)
    kind, bytes_each = values.dtype.kind, values.dtype.itemsize
    if kind in "iu" or not values.size:
        if kind == "u" and bytes_each == 8 and values.size and values.max() > numpy.iinfo("int64").max:
            raise BadValue(f"rows[{int(values.argmax())}]: {values.max()}: no temperature is that far from 0")
        narrow = bytes_each < 4 or (kind == "i" and bytes_each == 4)
        return values.astype("int32" if narrow else "int64", copy=False)  # type: ignore[no-any-return]
    if name == "thousandths":
        if kind == "O":
            return numpy.array([_whole(f"rows[{i}]", v) for i, v in enumerate(values.tolist())], dtype="int64")
        raise WrongType(
            f"thousandths: {values.dtype}: must be integers, 4200 for 4.2 degrees; degrees have a parameter of their "
            "own"
        )
    if kind == "f" and not rounds:
        raise WrongType(
            'degrees: floats are not the numbers that were read: resolution="0.1" (what the logger resolves: 1, 0.1, '
            "0.01 or 0.001 degrees) says to what they are rounded, halves away from zero"
        )
    if kind == "f" and bytes_each in (4, 8):
        return values.astype(f"float{8 * bytes_each}", copy=False)  # type: ignore[no-any-return]
    if kind in "fUO":
        return [
            _decimals(numpy, f"rows[{i}]", v, rounds) for i, v in enumerate(values if kind == "f" else values.tolist())
        ]
    raise WrongType(f"degrees: {values.dtype}: must be integers, Decimals or text, or floats with a resolution")


def _flat(numpy: Any, name: str, column: Any) -> tuple[Any, bool]:
    """A column as an array of one dimension, nothing missing; and whether it was of aware times, then in UTC."""
    pandas = sys.modules.get("pandas")
    aware = False
    if pandas is not None and isinstance(column, (pandas.Series, pandas.Index, pandas.api.extensions.ExtensionArray)):
        missing = numpy.asarray(pandas.isna(column))
        if missing.any():
            raise BadValue(f"rows[{int(missing.argmax())}]: {name}: {_NOTHING}")
        column = (
            column.astype(column.dtype.categories.dtype)
            if isinstance(column.dtype, pandas.CategoricalDtype)
            else column
        )
        aware = isinstance(column.dtype, pandas.DatetimeTZDtype)
        if aware:
            values = pandas.DatetimeIndex(column).tz_convert("UTC").tz_localize(None).to_numpy()
        else:
            values = numpy.asarray(column, dtype=getattr(column.dtype, "numpy_dtype", None))  # of Int64: int64
    elif isinstance(column, numpy.ma.MaskedArray):
        missing = numpy.ma.getmaskarray(column)
        if missing.any():
            raise BadValue(f"rows[{int(missing.argmax())}]: {name}: {_NOTHING}")
        values = numpy.asarray(column)
    elif hasattr(column, "__array__"):
        values = numpy.asarray(column)
    elif isinstance(column, (str, bytes)) or not hasattr(column, "__iter__"):
        raise WrongType(f"{name}: {column!r}: must be an array, a pandas column or a sequence")
    else:
        # Python's own objects stay what they are: an array of mixed ones would make numbers of truths, text of numbers
        rows = list(column)
        kinds = set(map(type, rows))
        if (
            kinds == {float}
            or (kinds == {int} and all(-(2**63) <= v < 2**63 for v in rows))
            or (kinds and all(issubclass(k, numpy.generic) for k in kinds))
        ):
            values = numpy.array(rows)
        else:
            values = numpy.fromiter(rows, dtype=object, count=len(rows))
    if values.ndim != 1:
        raise WrongType(f"{name}: an array of {values.ndim} dimensions: must have one")
    return values, aware


def _whole_seconds(numpy: Any, values: Any) -> Any:
    """datetime64 of any unit below a day, as seconds; the date alone is no time of a reading."""
    missing = numpy.isnat(values)
    if missing.any():
        raise BadValue(f"rows[{int(missing.argmax())}]: NaT: must be an instant; leave rows without one out")
    if numpy.datetime_data(values.dtype)[0] in ("Y", "M", "W", "D"):
        raise BadValue(f"at: rows[0]: {values[0]}: must be an instant with its time of day, not a date")
    seconds = values.astype("M8[s]", copy=False)
    if seconds is not values:
        other = seconds.astype(values.dtype) != values
        if other.any():
            i = int(other.argmax())
            raise BadValue(f"rows[{i}]: {values[i]}: must be a whole second of the years 1970 to 2199")
    return seconds.astype("M8[s]", copy=False).view("int64")


def _seconds_of_objects(numpy: Any, rows: list[Any]) -> tuple[Any, bool]:
    """Seconds since 1970 of datetimes that are all aware, or all naive."""
    out = numpy.empty(len(rows), dtype="int64")
    aware: bool | None = None
    for i, value in enumerate(rows):
        if isinstance(value, numpy.datetime64):
            if numpy.isnat(value):
                raise BadValue(f"rows[{i}]: NaT: must be an instant; leave rows without one out")
            out[i], own = int(_whole_seconds(numpy, numpy.array([value]))[0]), False
        elif _is_nothing(value):
            raise BadValue(f"rows[{i}]: {value!r}: must be an instant; leave rows without one out")
        elif not isinstance(value, datetime.datetime):
            raise WrongType(
                f"rows[{i}]: {value!r}: must be a datetime; numbers, dates and text are not taken for instants"
            )
        else:
            own = value.utcoffset() is not None
            since = value - (
                _UTC_EPOCH if own else _EPOCH if value.tzinfo is None else _EPOCH.replace(tzinfo=value.tzinfo)
            )
            if value.microsecond or getattr(value, "nanosecond", 0):
                raise BadValue(
                    f"rows[{i}]: {value.isoformat()}: must be a whole second; value.replace(microsecond=0) cuts it"
                )
            out[i] = since.days * 86400 + since.seconds
        if aware is None:
            aware = own
        if aware != own:
            raise BadValue(
                f"rows[{i}]: {value}: {'states its offset from UTC' if own else 'has no time zone'}, "
                f"and the rows before it {'do not' if own else 'have one'}: give all of them theirs"
            )
    return out, bool(aware)


def _whole(name: str, value: Any) -> int:
    _refuse_nothing(name, value)
    if isinstance(value, bool) or not isinstance(value, Integral):
        raise WrongType(f"{name}: {value!r}: must be a whole number of thousandths, 4200 for 4.2 degrees")
    number = int(value)
    if abs(number) >= 2**63:
        raise BadValue(f"{name}: {number}: no temperature is that far from 0")
    return number


def _decimals(numpy: Any, name: str, value: Any, rounds: bool) -> str:
    """A number as its shortest decimals."""
    _refuse_nothing(name, value)
    if isinstance(value, str):
        return str(value)
    if isinstance(value, Integral) and not isinstance(value, bool):
        return str(int(value))
    if isinstance(value, Decimal) and value.is_finite():
        return format(value, "f")
    if isinstance(value, (float, numpy.floating)) and rounds:
        if not numpy.isfinite(value):
            raise BadValue(f"{name}: {value}: is no temperature; leave rows without a reading out")
        return str(numpy.format_float_positional(value, trim="-"))
    is_float = isinstance(value, (float, numpy.floating))
    raise WrongType(
        f'{name}: {value!r}: must be a decimal.Decimal, a whole number or text: Decimal("4.2")'
        + (
            "; a float is not the number that was read, and needs a resolution to which it is rounded"
            if is_float
            else ""
        )
    )


def _is_nothing(value: Any) -> bool:
    """None, NaN of any type, and pandas' NA and NaT."""
    if isinstance(value, Decimal):
        return value.is_nan()
    return (
        value is None or type(value).__name__ in ("NAType", "NaTType") or (isinstance(value, Real) and value != value)
    )


def _refuse_nothing(name: str, value: Any) -> None:
    if _is_nothing(value):
        raise BadValue(f"{name}: {value!r}: {_NOTHING}")
