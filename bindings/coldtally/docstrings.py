"""Docstrings: completes those of the package, in the sections of numpydoc, with what is common to many: a parameter or
field that a docstring does not describe itself is described as its base class does, or by the words that hold wherever
that name stands. A test sees to it that none is left without words."""
from __future__ import annotations

import inspect
import re
from collections.abc import Collection, Mapping

__all__ = ["FIELDS", "complete_class", "complete_methods", "items_of", "sections_of"]

_ORDER = ("Parameters", "Attributes", "Returns", "Yields", "Raises", "Warns", "See Also", "Notes", "Examples")

FIELDS = {
    "at": "When it happened.",
    "by": "Initials of who states it.",
    "caution": "What must be read with it: it supports the judgement of people, and does not replace it.",
    "certain": "False where the chart names the lot and not the box.",
    "cold": "Time too cold.",
    "coverage": "How much of the time is known, and how.",
    "doses": "How many doses.",
    "entry": "The number of its entry.",
    "exposure": "What it did to the doses.",
    "expiry": "The lot's last day: that printed on it, or the last of the month.",
    "finding": "What their history means. A clinician decides.",
    "from_": "Its beginning, to the nearest second.",
    "from_s": "Its beginning, exact seconds since 1970.",
    "fund": "Who paid for the doses; empty: the one that needs no name.",
    "guidance": "The number of the last guidance that covers them; None: none does.",
    "highest_C": "The highest that was known, degrees Celsius; None: nothing is known.",
    "history": "What they have been through since receipt.",
    "in_doubt": (
        "Open incidents in whose time in doubt doses of this lot stood where these have been, and that no guidance has "
        "answered since; whatever the list."
    ),
    "incident": "Its name.",
    "known_on": "The instant it is known from: only entries recorded up to then are seen.",
    "last_entry": "The highest number of an entry that is known.",
    "last_use": "The last day on which they may be used, which may be earlier than the expiry.",
    "ledger": "The name of the site.",
    "list": "The list they are on; what is not on keep must not be used.",
    "lot": "The number of the lot.",
    "lowest_C": "The lowest that was known, degrees Celsius; None: nothing is known.",
    "mark": "What keeps doses of a lot apart in one place: a bin, a bag; empty: nothing does.",
    "name": "Its name in words.",
    "note": "Kept with the entry.",
    "patient": "An opaque token, never a name.",
    "place": "The id of the place.",
    "probe": "The id of the probe.",
    "product": "The id of the product.",
    "reason": "Why, in words.",
    "reasons": "All that keeps them from use, or that was found; those of discard first.",
    "recorded": "When it was posted; None: it has not been.",
    "reference": "Where it is kept, or its case number.",
    "scale": "Degrees of \"C\" or \"F\".",
    "text": "In words.",
    "until": "Its end, which is not in it, to the nearest second.",
    "until_s": "Its end, exact seconds since 1970.",
    "warm": "Time too warm.",
    "window": "The time that was asked about, in words of the site's clock.",
    "window_code": "The same as `window`, as a code to decide by; None: the answer is about no window.",
}
"""What a field or parameter of this name means, wherever its own docstring does not say more."""


def sections_of(text: str) -> dict[str, str]:
    """The sections of a clean docstring by their titles, in their order; what stands before them by ""."""
    out = {"": ""}
    title = ""
    lines = text.split("\n")
    for i, line in enumerate(lines):
        if i + 1 < len(lines) and line in _ORDER and lines[i + 1] == "-" * len(line):
            title = line
            out[title] = ""
        elif not (line and set(line) == {"-"} and i and lines[i - 1] == title):
            out[title] += line + "\n"
    return {name: body.strip("\n") for name, body in out.items()}


def items_of(body: str) -> dict[str, tuple[str, str]]:
    """Of each name that a section describes: its head and its words."""
    out: dict[str, tuple[str, str]] = {}
    for block in re.split(r"\n(?=\S)", body):
        head, _, words = block.partition("\n")
        if head:
            out.update((name.strip(), (head, words)) for name in head.partition(" : ")[0].split(","))
    return out


def _joined(sections: Mapping[str, str]) -> str:
    parts = [sections.get("", "")]
    parts += [f"{title}\n{'-' * len(title)}\n{sections[title]}" for title in _ORDER if sections.get(title)]
    return "\n\n".join(parts) + "\n"


def _words_of_code(name: str) -> str:
    """Of a field that has codes for what another says; of any other nothing."""
    if name.endswith("_codes"):
        return f"The same as `{name[:-6]}`, in its order, as codes to decide by."
    return f"The same as `{name[:-5]}`, as a code to decide by." if name.endswith("_code") else ""


def _described(names: Mapping[str, str], own: Mapping[str, tuple[str, str]], common: Mapping[str, str]) -> str:
    """A block for each name of those with their types, in their order. `own`: what is described already."""
    blocks: dict[str, None] = {}
    for name, kind in names.items():
        head, words = own.get(name, (name, ""))
        if "," not in head.partition(" : ")[0]:
            head = f"{name} : {kind}"
        if not words:
            words = common.get(name) or _words_of_code(name)
            words = "    " + words if words else ""
        blocks[f"{head}\n{words}" if words else head] = None  # one that describes several names: once
    return "\n".join(blocks)


def complete_class(cls: type, title: str) -> None:
    """Describes every annotated attribute of a class in the section `title`."""
    if not cls.__dict__.get("__doc__"):  # as under python -OO
        return
    sections = sections_of(inspect.cleandoc(cls.__doc__ or ""))
    own: dict[str, tuple[str, str]] = {}
    names: dict[str, str] = {}
    for base in reversed(cls.__mro__):
        text = sections if base is cls else sections_of(inspect.cleandoc(vars(base).get("__doc__") or ""))
        for name, item in items_of(text.get(title, "")).items():
            if item[1] or name not in own:
                own[name] = item
        for name, kind in vars(base).get("__annotations__", {}).items():
            if not name.startswith("_") and not str(kind).startswith("ClassVar"):
                names[name] = str(kind)
    if names:
        sections[title] = _described(names, own, FIELDS)
        cls.__doc__ = _joined(sections)


def _typed(parameter: inspect.Parameter) -> str:
    kind = str(parameter.annotation)
    if parameter.default is inspect.Parameter.empty:
        return kind
    if parameter.default is None:
        return kind.removesuffix(" | None") + ", optional"
    return f"{kind}, default {parameter.default!r}"


def complete_methods(
    cls: type,
    common: Mapping[str, str],
    raises: Mapping[str, str],
    *,
    only: Collection[str] | None = None,
    like: type | None = None,
) -> None:
    """Describes every parameter of the public methods of a class, and what each of them raises besides.

    Parameters
    ----------
    cls : type
        The class.
    common : mapping of str to str
        The words for a parameter that a method does not describe itself.
    raises : mapping of str to str
        The errors that each raises, and when.
    only : collection of str, optional
        The names of these methods; None: all.
    like : type, optional
        A class whose method of the same name has the rest of the docstring.
    """
    for name, method in list(vars(cls).items()):
        method = method.__func__ if isinstance(method, staticmethod) else method
        if name.startswith("_") or not inspect.isfunction(method) or not method.__doc__:
            continue
        if only is not None and name not in only:
            continue
        model = vars(like).get(name) if like is not None else None
        text = inspect.cleandoc(method.__doc__)
        sections = sections_of(text if model is None else inspect.cleandoc(model.__doc__ or ""))
        if model is not None:
            sections[""] += "\n\n" + sections_of(text)[""]
        parameters = inspect.signature(method).parameters
        names = {n: _typed(p) for n, p in parameters.items() if n != "self"}
        if names:
            sections["Parameters"] = _described(names, items_of(sections.get("Parameters", "")), common)
        own = items_of(sections.get("Raises", ""))
        blocks = [f"{head}\n{words}" for head, words in own.values()]
        blocks += [f"{error}\n    {words}" for error, words in raises.items() if error not in own]
        sections["Raises"] = "\n".join(dict.fromkeys(blocks))
        method.__doc__ = _joined(sections)
