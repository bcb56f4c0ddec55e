"""Frames: answers as pandas DataFrames, by one mechanism for all of them. pandas is imported when one is asked for."""
from __future__ import annotations

import datetime
from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from .errors import BadValue
from .answered import Answered
from .remarks import code_of

if TYPE_CHECKING:
    import numpy
    import numpy.typing
    import pandas  # type: ignore[import]

__all__ = ["celsius", "readings_frame", "to_frame", "trace_frame"]


def _flat(record: Answered, prefix: str, out: dict[str, Any]) -> None:
    """A column for each plain value, those of inner objects with the name of the object in front; of remarks their
    codes."""
    for name in record.names():
        value = getattr(record, name)
        column = prefix + name.rstrip("_")
        if isinstance(value, Answered):
            _flat(value, "" if column == "history" else f"{column}_", out)
        elif column.endswith("_codes"):
            out[column] = tuple(map(code_of, value or ()))
        elif column.endswith("_code"):
            out[column] = code_of(value)
        else:
            out[column] = value


def _column(values: list[Any], categories: tuple[str, ...] | None) -> Any:
    import pandas

    present = [v for v in values if v is not None]
    kinds = {type(v) for v in present}
    if categories is not None:
        return pandas.Categorical(values, categories=list(categories), ordered=True)
    if kinds and kinds <= {bool}:
        return pandas.array(values, dtype="bool" if len(present) == len(values) else "boolean")
    if kinds and kinds <= {int}:
        return pandas.array(values, dtype="int64" if len(present) == len(values) else "Int64")
    if kinds and kinds <= {Fraction, Decimal, int}:
        return pandas.array([float("nan") if v is None else float(v) for v in values], dtype="float64")
    if kinds and kinds <= {datetime.datetime}:
        return pandas.to_datetime(values, utc=True)
    if kinds and kinds <= {datetime.date}:
        return pandas.to_datetime(values)
    if kinds and kinds <= {str}:
        return pandas.array(values, dtype="string")
    return pandas.Series(values, dtype="object").array


def to_frame(answer: Any, rows: str, categories: Mapping[str, tuple[str, ...]]) -> pandas.DataFrame:
    """A row for each object of the answer's list `rows`."""
    import pandas

    if not rows:
        raise BadValue(f"{type(answer).__name__}: has no rows to make a frame of")
    table: list[dict[str, Any]] = []
    names: dict[str, None] = {}
    for row in getattr(answer, rows):
        flat: dict[str, Any] = {}
        _flat(row, "", flat)
        table.append(flat)
        names.update(dict.fromkeys(flat))
    if not table:
        row_type = answer._fields[rows].hint.__args__[0]
        names = dict.fromkeys(f.key for f in row_type._fields.values())
    return pandas.DataFrame({name: _column([row.get(name) for row in table], categories.get(name)) for name in names})


def readings_frame(instants: Any, thousandths: Any) -> pandas.DataFrame:
    """`temperature` in degrees by instant."""
    import pandas

    return pandas.DataFrame(
        {"temperature": thousandths / 1000}, index=pandas.DatetimeIndex(instants, tz="UTC", name="at")
    )


def trace_frame(instants: Any, degrees: Any, joined: Any) -> pandas.DataFrame:
    """`celsius` and `joined` by instant."""
    import pandas

    return pandas.DataFrame(
        {"celsius": degrees, "joined": joined}, index=pandas.DatetimeIndex(instants, tz="UTC", name="at")
    )


def celsius(thousandths: Any, fahrenheit: Any) -> numpy.typing.NDArray[numpy.float64]:
    """Degrees Celsius as doubles."""
    import numpy

    degrees = thousandths / 1000
    return numpy.where(fahrenheit, (degrees - 32) * 5 / 9, degrees)
