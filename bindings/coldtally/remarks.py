"""Remarks: what answers say besides their figures, as stable codes with what they are about.

Beside every sentence of an answer (``notes``) stands its code (``notes_codes``). Decide by the codes: the English may
change. Which answers have them stands in lib/forms/README.md of the sources, the phrases in lib/words/README.md."""
from __future__ import annotations

import dataclasses
import types
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Union

if TYPE_CHECKING:
    from typing_extensions import Self

__all__ = ["ExplanationLine", "Remark", "RemarkField", "Suggestion"]


@dataclass(frozen=True)
class Suggestion:
    """A task that a remark points to, or an argument of the task that is being done.

    Parameters
    ----------
    task : str
        Its name, "follow_up": that of a method of :class:`Ledger`; empty: the task that is being done.
    arguments : tuple[tuple[str, str | bool], ...]
        Each a name, empty where it goes by its place, and its value; True: a switch.
    """

    task: str
    arguments: tuple[tuple[str, str | bool], ...] = ()

    @classmethod
    def from_dict(cls, form: Mapping[str, Any]) -> Self:
        """From the wire form.

        Parameters
        ----------
        form : Mapping[str, Any]
            What `to_dict` gives.

        Returns
        -------
        Self
            The suggestion.
        """
        return cls(form["task"], tuple((a["name"], a["value"]) for a in form["arguments"]))

    def to_dict(self) -> dict[str, Any]:
        """The wire form."""
        return {"task": self.task, "arguments": [{"name": n, "value": v} for n, v in self.arguments]}


@dataclass(frozen=True)
class Remark:
    """Something said: a phrase by its stable code, and what it is about. ``str()`` is its sentence in English, where
    that is known. Two are equal where code and fields are, whatever the sentence.

    Parameters
    ----------
    code : str
        The stable name of the phrase: "display-showed-more".
    fields : Mapping[str, RemarkField]
        By their names: a text that is no language's (a name, a number, an instant by the site's clock), another remark,
        or a suggestion. Read-only.
    text : str | None
        The sentence that stood beside it; None: there was none, as of a remark that is a field of another.
    """

    code: str
    fields: Mapping[str, RemarkField] = field(default_factory=dict, hash=False)
    text: str | None = field(default=None, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "fields", types.MappingProxyType(dict(self.fields)))

    def __str__(self) -> str:
        if self.text is not None:
            return self.text
        return f"{self.code}({', '.join(f'{name}: {value}' for name, value in self.fields.items())})"

    def __reduce__(self) -> Any:
        values = {one.name: getattr(self, one.name) for one in dataclasses.fields(self)}
        return (_remade, (type(self), {**values, "fields": dict(self.fields)}))

    @classmethod
    def from_dict(cls, form: Mapping[str, Any]) -> Self:
        """From the wire form, which has no sentence.

        Parameters
        ----------
        form : Mapping[str, Any]
            What `to_dict` gives.

        Returns
        -------
        Self
            The remark.
        """
        return cls(form["code"], {name: field_of(value) for name, value in form["fields"].items()})

    def to_dict(self) -> dict[str, Any]:
        """The wire form."""
        return {
            "code": self.code,
            "fields": {n: v if isinstance(v, str) else v.to_dict() for n, v in self.fields.items()},
        }

    def _saying(self, text: str) -> Self:
        return dataclasses.replace(self, text=text)


@dataclass(frozen=True)
class ExplanationLine(Remark):
    """A line of an explanation.

    Parameters
    ----------
    code : str
        The stable name of the phrase.
    fields : Mapping[str, RemarkField]
        By their names, as of every remark.
    text : str | None
        The sentence, without the blanks before it; None: there was none.
    indent : int
        How many blanks stand before it: a line that is further in belongs to the last that is less so.
    """

    indent: int = 0

    @classmethod
    def from_dict(cls, form: Mapping[str, Any]) -> Self:
        """From the wire form, which has no sentence.

        Parameters
        ----------
        form : Mapping[str, Any]
            What `to_dict` gives.

        Returns
        -------
        Self
            The line.
        """
        return dataclasses.replace(super().from_dict(form), indent=form["indent"])

    def to_dict(self) -> dict[str, Any]:
        """The wire form."""
        return {"indent": self.indent, **super().to_dict()}

    def _saying(self, text: str) -> Self:
        return super()._saying(text.removeprefix(" " * self.indent))


RemarkField = Union[str, Remark, Suggestion]
"""What a remark is about, under one name: a text that is no language's, another remark, or a suggestion."""


def _remade(cls: type[Remark], values: dict[str, Any]) -> Remark:
    return cls(**values)


def field_of(form: Any) -> RemarkField:
    """A field of the wire form."""
    if isinstance(form, str):
        return form
    return Remark.from_dict(form) if "code" in form else Suggestion.from_dict(form)


def with_text(value: Any, text: Any) -> Any:
    """A remark, or several, with what is said beside them. What is neither stays as it is."""
    if isinstance(value, tuple) and isinstance(text, (list, tuple)) and len(text) == len(value):
        return tuple(map(with_text, value, text))
    return value._saying(text) if isinstance(value, Remark) and isinstance(text, str) else value


def code_of(value: Any) -> str | None:
    """The code of a remark; of anything else none."""
    return value.code if isinstance(value, Remark) else None
