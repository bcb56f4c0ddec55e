"""Docstrings: the sections of numpydoc (numpydoc.readthedocs.io, "Style guide": Parameters, Attributes, Returns or
Yields, Raises), in which every parameter and every field has words."""
import dataclasses
import inspect
import re

import pytest

import coldtally
from coldtally import plot
from coldtally.answered import Answered, hints_of
from coldtally.stated import Stated

ORDER = ["Parameters", "Attributes", "Returns", "Yields", "Raises", "Warns", "See Also", "Notes", "Examples"]


def sections(thing):
    """The sections of a docstring: their titles, and the names and words that stand in each."""
    text = inspect.getdoc(thing) or ""
    titles = list(re.finditer(r"^(\w[\w ]*)\n(-+)$", text, flags=re.M))
    assert all(len(t[1]) == len(t[2]) and t[1] in ORDER for t in titles), thing
    ends = [t.start() for t in titles[1:]] + [len(text)]
    return {t[1]: text[t.end() : end].strip("\n") for t, end in zip(titles, ends)}


def described(body):
    """{name: words} of a section."""
    out = {}
    for block in re.split(r"\n(?=\S)", body):
        head, _, words = block.partition("\n")
        for name in head.partition(" : ")[0].split(", "):
            assert name not in out, (name, body)
            out[name] = words.strip()
    return out


def callables():
    """(name, function or class) of all that is public and takes parameters."""
    for name in coldtally.__all__:
        thing = getattr(coldtally, name)
        if inspect.isfunction(thing):
            yield name, thing
        if not inspect.isclass(thing) or not thing.__module__.startswith("coldtally"):
            continue
        yield name, thing
        for cls in thing.__mro__:
            if not cls.__module__.startswith("coldtally"):
                continue
            for member, function in vars(cls).items():
                function = function.__func__ if isinstance(function, (classmethod, staticmethod)) else function
                if inspect.isfunction(function) and not member.startswith("_"):
                    yield f"{name}.{member}", function
    for name in plot.__all__:
        yield f"plot.{name}", getattr(plot, name)


def parameters_of(name, thing):
    """Those that a caller gives."""
    if inspect.isclass(thing) and issubclass(thing, (BaseException, Answered, coldtally.Rows)):
        return []  # made by the core
    if inspect.isclass(thing) and thing in (coldtally.Questions, coldtally.AsOf, coldtally.TableMaker):
        return []  # made by Ledger.as_of
    return [n for n in inspect.signature(thing).parameters if n not in ("self", "cls")]


def test_every_callable_describes_its_parameters_in_their_order():
    seen = 0
    for name, thing in callables():
        wanted = parameters_of(name, thing)
        if not wanted:
            continue
        parts = sections(thing)
        assert "Parameters" in parts, name
        words = described(parts["Parameters"])
        assert list(words) == wanted, (name, list(words), wanted)
        assert all(words.values()), (name, [n for n, w in words.items() if not w])
        assert [t for t in ORDER if t in parts] == list(parts), name
        seen += len(words)
    assert seen > 900, seen


def test_every_function_says_what_comes_back():
    seen = 0
    for name, thing in callables():
        if inspect.isclass(thing) or not parameters_of(name, thing):
            continue
        returns = inspect.signature(thing).return_annotation
        parts = sections(thing)
        assert returns in ("None", None) or {"Returns", "Yields"} & set(parts), name
        seen += 1
    assert seen > 100, seen


@pytest.mark.parametrize("cls", [coldtally.Ledger, coldtally.AsOf])
def test_every_method_says_what_it_raises(cls):
    for name, function in inspect.getmembers(cls, inspect.isfunction):
        if not name.startswith("_") and name not in ("close", "zone"):
            assert all(described(sections(function)["Raises"]).values()), name


def test_every_field_has_words():
    """Of answers in Attributes, of what people state in Parameters; the type is the annotation's."""
    seen = 0
    for name in coldtally.__all__:
        cls = getattr(coldtally, name)
        if not inspect.isclass(cls) or not issubclass(cls, (Answered, Stated)):
            continue
        fields = hints_of(cls)
        parts = sections(cls)
        title = "Attributes" if issubclass(cls, Answered) else "Parameters"
        words = described(parts[title]) if fields else {}
        assert set(words) == set(fields), (name, set(words) ^ set(fields))
        assert all(words.values()), (name, [n for n, w in words.items() if not w])
        seen += len(words)
    assert seen > 800, seen


def test_a_class_describes_its_fields_as_the_class_it_derives_from_does():
    stock, listed = (described(sections(c)["Attributes"]) for c in (coldtally.StockHolding, coldtally.ListedHolding))
    assert listed["do_not_use"] == stock["do_not_use"] != ""
    assert "reasons" in listed and "reasons" not in stock


def test_what_is_common_is_described_with_the_same_words():
    """A parameter that many calls share means one thing."""
    for shared in ("at", "known_on", "now"):
        words = {
            described(sections(getattr(coldtally.Ledger, name))["Parameters"])[shared]
            for name in dir(coldtally.AsOf)
            if not name.startswith("_") and name not in ("at", "known_on", "last_entry", "zone")
        }
        assert len(words) == 1, (shared, words)


def test_dataclasses_that_are_handed_out_are_described_too():
    words = described(sections(coldtally.PostedReadings)["Parameters"])
    assert list(words) == [f.name for f in dataclasses.fields(coldtally.PostedReadings)] and all(words.values())
