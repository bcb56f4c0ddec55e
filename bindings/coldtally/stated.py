"""Stated: what people state, as frozen dataclasses: entries and their parts, values taken without guessing, the wire
form and back, and the register of kinds."""
from __future__ import annotations

import datetime
import types
from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from decimal import Decimal
from fractions import Fraction
from numbers import Integral
from typing import TYPE_CHECKING, Any, ClassVar, Literal, Union, get_args, get_origin

from .answered import Answered, hints_of, reader, readers
from .docstrings import complete_class
from .errors import BadValue, WrongType
from .exact import degrees_text, exact_text, instant_text, json_value, shown

if TYPE_CHECKING:
    from typing_extensions import Self

__all__ = ["Entry", "Fact", "OtherEntry", "Stated", "entry_from_dict", "kinds"]


def _taken(name: str, hint: Any, value: Any) -> Any:
    """A value of the annotated type from what the caller gave; refuses what would have to be guessed."""
    arguments = get_args(hint)
    if value is None and type(None) in arguments:
        return None
    is_union = get_origin(hint) in (Union, types.UnionType)
    choices = [a for a in arguments if a is not type(None)] if is_union else [hint]
    if set(choices) == {datetime.datetime, datetime.date}:
        whole = isinstance(value, datetime.datetime) or (isinstance(value, str) and len(value) > 10)
        return _taken(name, datetime.datetime if whole else datetime.date, value)
    one = choices[0]
    if one is Decimal:
        return Decimal(degrees_text(name, value))
    if one is Fraction:
        return Fraction(exact_text(name, value))
    if one is datetime.datetime:
        return _instant(name, value)
    if one is datetime.date:
        if isinstance(value, datetime.datetime) or not isinstance(value, (datetime.date, str)):
            raise WrongType(f"{name}: {shown(name, value)}must be a datetime.date")
        try:
            return datetime.date.fromisoformat(value) if isinstance(value, str) else value
        except ValueError:
            raise BadValue(f"{name}: \"{value}\": must be a date, YYYY-MM-DD") from None
    if one is int:
        if isinstance(value, bool) or not isinstance(value, Integral):
            raise WrongType(f"{name}: {shown(name, value)}must be a whole number")
        return int(value)
    if one is datetime.time:
        return _time_of_day(name, value)
    if get_origin(one) is dict:
        if not isinstance(value, Mapping):
            raise WrongType(f"{name}: {shown(name, value)}must be a mapping")
        key, item = get_args(one)
        return {_taken(f"{name}: {k}", key, k): _taken(f"{name}: {k}", item, v) for k, v in value.items()}
    if get_origin(one) is Literal:  # which words there are the ledger says: a later version may know more
        one = str
    if one in (str, bool):
        if not isinstance(value, one):
            raise WrongType(f"{name}: {shown(name, value)}must be {'text' if one is str else 'True or False'}")
        return value
    if get_origin(one) is tuple:
        if isinstance(value, (str, bytes)) or not hasattr(value, "__iter__"):
            raise WrongType(f"{name}: {shown(name, value)}must be a sequence")
        item, *others = get_args(one)
        if others == [...]:
            return tuple(_taken(f"{name}[{i}]", item, v) for i, v in enumerate(value))
        items = tuple(value)
        if len(items) != 1 + len(others):
            raise WrongType(f"{name}: {shown(name, items)}must be {1 + len(others)} values")
        return tuple(_taken(name, a, v) for a, v in zip((item, *others), items))
    if isinstance(one, type) and hasattr(one, "from_dict") and isinstance(value, Mapping):
        return getattr(one, "from_dict")(value)
    if isinstance(one, type) and not isinstance(value, one):
        raise WrongType(f"{name}: {shown(name, value)}must be a {one.__name__}")
    return value


def _instant(name: str, value: Any) -> datetime.datetime:
    if isinstance(value, datetime.datetime):
        instant_text(name, value)
        return value
    if not isinstance(value, str):
        raise WrongType(
            f"{name}: {shown(name, value)}must be an aware datetime.datetime, or text such as \"2026-03-02T08:05:00Z\""
        )
    try:
        read = datetime.datetime.fromisoformat(value[:-1] + "+00:00" if value.endswith("Z") else value)
    except ValueError:
        raise BadValue(f"{name}: \"{value}\": must be an instant, YYYY-MM-DDTHH:MM:SS with Z or an offset") from None
    instant_text(name, read)
    return read


def _time_of_day(name: str, value: Any) -> datetime.time:
    try:
        read = datetime.time.fromisoformat(value) if isinstance(value, str) else value
    except ValueError:
        raise BadValue(f"{name}: \"{value}\": must be a local time, HH:MM") from None
    if not isinstance(read, datetime.time):
        raise WrongType(f"{name}: {shown(name, value)}must be a datetime.time")
    if read.tzinfo is not None or read.second or read.microsecond:
        raise BadValue(f"{name}: {read.isoformat()}: must be whole minutes of the site's clock, without a zone")
    return read


class Stated:
    """A dataclass of what people state, with a wire form: its fields in their order, those that are None left out."""

    def __init_subclass__(cls, **named: Any) -> None:
        super().__init_subclass__(**named)
        complete_class(cls, "Parameters")

    def __post_init__(self) -> None:
        for name, hint in hints_of(type(self)).items():
            object.__setattr__(self, name, _taken(name.rstrip("_"), hint, getattr(self, name)))

    def to_dict(self) -> dict[str, Any]:
        """The wire form."""
        out: dict[str, Any] = {}
        for one in fields(self):
            value = getattr(self, one.name)
            if value is None or one.metadata.get("not_written") == value:
                continue
            out[one.name.rstrip("_")] = json_value(one.name.rstrip("_"), value)
        return out

    @classmethod
    def from_dict(cls, form: Mapping[str, Any]) -> Self:
        """From the wire form.

        Parameters
        ----------
        form : Mapping[str, Any]
            A mapping as `to_dict` gives it.

        Returns
        -------
        Self
            The object.

        Raises
        ------
        BadValue
            A field that it does not have; and what making one raises.
        """
        hints = hints_of(cls)
        names = {name.rstrip("_"): name for name in hints}
        unknown = next((key for key in form if key not in names and key != "kind"), None)
        if unknown is not None:
            raise BadValue(f"\"{unknown}\": is not a field of {cls.__name__}")
        return cls(
            **{
                names[key]: reader(hints[names[key]])(value) if value is not None else None
                for key, value in form.items()
                if key != "kind"
            }
        )


def empty_label() -> Any:
    """A label or text that is empty where it is not given, and then not written."""
    return field(default="", metadata={"not_written": ""})


def false_unless_said() -> Any:
    """A truth that is false where it is not given, and then not written."""
    return field(default=False, metadata={"not_written": False})


kinds: dict[str, type[Entry]] = {}
"""The class of each kind, by its name in the wire form."""


@dataclass(frozen=True, kw_only=True)
class Entry(Stated):
    """One posted fact, or one to be posted.

    Parameters
    ----------
    at : datetime.datetime | None
        When it happened. Definitions need none, readings have none; every other kind needs it.
    entry : int | None
        Its number in the ledger; None: not posted.
    """

    kind: ClassVar[str] = ""
    by: str
    at: datetime.datetime | None = None
    note: str | None = None
    entry: int | None = None
    recorded: datetime.datetime | None = None

    def __init_subclass__(cls, **named: Any) -> None:
        super().__init_subclass__(**named)
        if cls.kind:
            kinds[cls.kind] = cls

    def to_dict(self) -> dict[str, Any]:
        """The wire form, in the order of the command line's export."""
        form = super().to_dict()
        head = {name: form.pop(name) for name in ("entry", "recorded") if name in form}
        head["kind"] = type(self).kind
        head.update({name: form.pop(name) for name in ("at", "by") if name in form})
        note = {"note": form.pop("note")} if "note" in form else {}
        return {**head, **form, **note}


class OtherEntry(Answered):
    """An entry of a kind, or with fields, that this package has no class for. What it does not know is there as JSON
    has it.

    Attributes
    ----------
    kind : str
        Its kind, by its name in the wire form.
    entry : int | None
        Its number in the ledger; None: not posted.
    """

    kind: str
    entry: int | None
    recorded: datetime.datetime | None
    at: datetime.datetime | None
    by: str
    note: str | None


Fact = Union[Entry, OtherEntry]
"""What a ledger hands out: an entry of a known kind, or :class:`OtherEntry`."""


def entry_from_dict(form: Mapping[str, Any]) -> Fact:
    """The entry of a wire form: of the class of its kind where there is one that knows all its fields, else an
    OtherEntry.

    Parameters
    ----------
    form : Mapping[str, Any]
        One line of an export.

    Returns
    -------
    Fact
        The entry. What this package does not know raises nothing: a later version may have posted it.
    """
    cls = kinds.get(form.get("kind", ""))
    if cls is None or not form.keys() <= {name.rstrip("_") for name in hints_of(cls)} | {"kind"}:
        return OtherEntry.from_dict(form)
    try:
        return cls.from_dict(form)
    except BadValue:  # a field of a part that this package does not know
        return OtherEntry.from_dict(form)


readers[Fact] = entry_from_dict
