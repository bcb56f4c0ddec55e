"""Answered: what a ledger answers, as Python objects over the JSON that the core prints.

An :class:`Answered` is a view of one JSON object: each annotated attribute is the field of that name (``from_`` for
``from``), turned into the annotated type when it is first read. The annotations alone say the types."""
from __future__ import annotations

import copy
import datetime
import functools
import json
import types
import typing
from collections.abc import Callable, Mapping
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, Any, ClassVar, Literal

from .docstrings import complete_class
from .exact import fraction_of, instant_of
from .remarks import RemarkField, field_of, with_text

if TYPE_CHECKING:
    from typing_extensions import Self

__all__ = ["Answered", "hints_of", "reader", "readers"]

readers: dict[Any, Callable[[Any], Any]] = {
    Any: lambda value: value,
    bool: lambda value: value,
    int: lambda value: value,
    str: lambda value: value,
    Fraction: fraction_of,
    Decimal: Decimal,
    datetime.datetime: instant_of,
    datetime.date: datetime.date.fromisoformat,
    datetime.time: datetime.time.fromisoformat,
    # told apart by the form
    RemarkField: field_of,
    datetime.datetime
    | datetime.date: lambda text: (datetime.date.fromisoformat(text) if len(text) <= 10 else instant_of(text)),
}
"""How a value of JSON becomes one of the annotated type."""


def reader(hint: Any) -> Callable[[Any], Any]:
    """The function that turns a value of JSON into the annotated type. TypeError for an annotation it cannot read."""
    if hint in readers:
        return readers[hint]
    origin, arguments = typing.get_origin(hint), typing.get_args(hint)
    if origin is Literal:
        return readers[str]
    if origin in (typing.Union, types.UnionType) and type(None) in arguments:
        read = reader(typing.Union[tuple(a for a in arguments if a is not type(None))])
        return lambda value: None if value is None else read(value)
    if origin is tuple:
        if len(arguments) == 2 and arguments[1] is ...:
            item = reader(arguments[0])
            return lambda value: tuple(item(v) for v in value)
        items = [reader(a) for a in arguments]
        return lambda value: tuple(read(v) for read, v in zip(items, value))
    if origin is dict:
        key, item = map(reader, arguments)
        return lambda value: {key(k): item(v) for k, v in value.items()}
    if isinstance(hint, type) and hasattr(hint, "from_dict"):
        return typing.cast(Callable[[Any], Any], getattr(hint, "from_dict"))
    raise TypeError(f"{hint!r}: is no type of a field")


_hints: dict[type, Mapping[str, Any]] = {}


def hints_of(cls: type) -> Mapping[str, Any]:
    """The annotated attributes of a class and of those it derives from, class variables left out."""
    if cls not in _hints:
        hints = typing.get_type_hints(cls)
        fields = {n: h for n, h in hints.items() if not n.startswith("_") and typing.get_origin(h) is not ClassVar}
        _hints[cls] = types.MappingProxyType(fields)
    return _hints[cls]


class _Field:
    """An attribute that reads its field of the JSON on first use."""

    def __init__(self, owner: type, name: str) -> None:
        self.owner = owner
        self.name = name
        self.key = name.rstrip("_")
        # where the sentence stands: "notes" of "notes_codes", "text" of "text_code"
        self.said_in = self.key.removesuffix("_codes").removesuffix("_code")

    @functools.cached_property
    def hint(self) -> Any:
        return hints_of(self.owner)[self.name]

    @functools.cached_property
    def optional(self) -> bool:
        return type(None) in typing.get_args(self.hint)

    @functools.cached_property
    def read(self) -> Callable[[Any], Any]:
        return reader(self.hint)

    def __get__(self, part: Answered | None, owner: type) -> Any:
        if part is None:
            return self
        if self.key not in part._json:
            if self.optional:
                return None
            raise AttributeError(self.key)  # Answered.__getattr__ says it
        value = self.read(part._json[self.key])
        if self.said_in != self.key:
            value = with_text(value, part._json.get(self.said_in))
        part.__dict__[self.name] = value
        return value


class Answered:
    """One object of an answer: read-only attributes with exact types, and the JSON they come from.

    Two are equal where their JSON is. A field that this version of the package does not annotate is an attribute all
    the same, as JSON has it."""

    _fields: ClassVar[dict[str, _Field]] = {}
    _json: dict[str, Any]

    def __init_subclass__(cls, **named: Any) -> None:
        super().__init_subclass__(**named)
        own = {
            name: _Field(cls, name)
            for name, hint in vars(cls).get("__annotations__", {}).items()
            if not name.startswith("_") and not str(hint).startswith("ClassVar")
        }
        inherited: dict[str, _Field] = {}
        for base in reversed(cls.__mro__[1:]):
            inherited.update(vars(base).get("_fields", {}))
        cls._fields = {**inherited, **own}
        for name, field in own.items():
            setattr(cls, name, field)
        complete_class(cls, "Attributes")

    @classmethod
    def from_dict(cls, form: Mapping[str, Any]) -> Self:
        """The object of a JSON object, which it keeps without copying it.

        Parameters
        ----------
        form : mapping
            What `to_dict` gives.

        Returns
        -------
        Self
            The object; no field is read yet.
        """
        out = cls.__new__(cls)
        out.__dict__["_json"] = form
        return out

    def to_dict(self) -> dict[str, Any]:
        """What the command line prints as JSON; a copy of its own."""
        return copy.deepcopy(self._json)

    def names(self) -> tuple[str, ...]:
        """The attributes, in the order of the JSON."""
        annotated = {f.key: n for n, f in type(self)._fields.items()}
        return tuple(annotated.get(n, n) for n in self._json)

    if not TYPE_CHECKING:  # a name that no annotation knows is a mistake to mypy

        def __getattr__(self, name: str) -> Any:
            form = self.__dict__.get("_json")
            if form is None or name not in form:
                lacks = "is without its" if name in self._fields else "has no attribute"
                raise AttributeError(f"{type(self).__name__} {lacks} {name!r}")
            return copy.deepcopy(form[name])

    def __setattr__(self, name: str, value: Any) -> None:
        raise AttributeError(f"{type(self).__name__} is read-only: cannot set {name!r}")

    def __delattr__(self, name: str) -> None:
        raise AttributeError(f"{type(self).__name__} is read-only: cannot delete {name!r}")

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Answered):
            return NotImplemented
        return self._json == other._json

    def __hash__(self) -> int:
        return hash(json.dumps(self._json, sort_keys=True))

    def __repr__(self) -> str:
        return f"{type(self).__name__}({', '.join(f'{n}={getattr(self, n)!r}' for n in self.names())})"

    def __reduce__(self) -> Any:
        return (type(self).from_dict, (self._json,))
