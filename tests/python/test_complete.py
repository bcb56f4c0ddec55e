"""Complete: whatever the command line can do, Python can. A command or an option that is added without Python fails
here."""
import importlib
import inspect
import os
import re
import subprocess

import pytest
from conftest import ROOT

import coldtally

COMMAND = os.environ.get("COLDTALLY_COMMAND")

# Of the ledger's methods the name is the command's (a hyphen becomes _, a word of the language gets one), but for
# these.
CALLS = {
    "entries": ["entered"],  # Ledger.entries is every entry whole
    "import": ["import_readings"],
    "incident": ["incident", "incidents"],  # one, or all
    "post": ["post", "post_json"],
}
# Definitions need nothing filled in: objects of their kinds, posted by post_draft.
KINDS = ["site", "product", "lot", "place", "probe", "certificate", "assign", "maker"]

# The parameter for an option or a positional where it is not its name.
EVERYWHERE = {
    "LEDGER": None,
    "ledger": None,
    "format": None,
    "color": None,
    "help": None,
    "why": None,
    "from": "from_",
    "with": "with_",
}  # None: of the ledger, or of how to print
PLACE_DURATIONS = ("max-gap", "max-check-gap", "near")
SITE_DURATIONS = ("unmonitored-limit", "stale-after")
PARAMETERS = {
    "post": {"FILE": "entries"},
    "replay": {"FILE": "lines"},
    "new-plan": {"FILE": "plan"},
    "plan": {"check": None},  # a status; an answer has its findings
    "readiness": {"check": None},
    "import": {"FILE": "files", "yes": "accept_guesses"},
    "report": {"patients": None},  # of what the command prints; incident() gives it
    "move-list": {"into": "container"},
    "give": {"lot-only": "certain"},
    "give-records": {"FILE": "records", "lot-only": "certain"},
    "guidance": {f"told-{what}": "told" for what in ("out-of-range", "unmonitored", "points")},
    "pack": {"lot": "lots", "temp": "temperature", "container-temp": "container_temperature"},
    "unpack": {"count": "counts", "temp": "temperature", "container-temp": "container_temperature"},
    "answer": {"yes": "post"},
    "product": {"low": "range", "high": "range", "allowance": "allowances"},
    "place": {"low": "range", "high": "range"} | {name: name.replace("-", "_") + "_s" for name in PLACE_DURATIONS},
    "site": {name: name.replace("-", "_") + "_s" for name in SITE_DURATIONS},
    "trip": {"limit": "limit_s"},
}
LAYOUT = {"ignore": "ignore_rows", "clock-from": "clocks"}


def help_of(*words):
    return subprocess.run([COMMAND, *words, "--help"], capture_output=True, text=True, check=True).stdout


def commands():
    """All but help, which finds the others."""
    shown = re.findall(r"^  ([a-z-]+(?:, [a-z-]+)*)  ", help_of(), flags=re.M)
    return [command for command in ", ".join(shown).split(", ") if command != "help"]


def stated(text):
    """The positionals and long options of a help page, and those of a logger's layout apart."""
    head, _, layout = text.partition("How the files are laid out")
    names = re.findall(r"^  ([A-Z]+) TEXT", head, flags=re.M)
    options = lambda part: re.findall(r"^  (?:-\w,)?--([a-zA-Z-]+)", part, flags=re.M)
    return names + options(head), options(layout)


def parameters(command):
    """All parameters of what stands for a command."""
    if command in KINDS:
        from coldtally.stated import kinds

        return set(coldtally.answered.hints_of(kinds[command])) | set(
            inspect.signature(coldtally.Ledger.post_draft).parameters
        )
    names = CALLS.get(command, [command.replace("-", "_") + ("_" if command == "return" else "")])
    return {p for name in names for p in inspect.signature(getattr(coldtally.Ledger, name)).parameters}


needs_the_command = pytest.mark.skipif(not COMMAND, reason="COLDTALLY_COMMAND names no command line to compare with")


@needs_the_command
def test_every_command_has_a_callable_with_its_parameters():
    found = commands()
    assert len(found) >= 53 and len(set(found)) == len(found)
    for command in found:
        options, layout = stated(help_of(command))
        there = parameters(command)
        assert options, command
        for option in options:
            name = {**EVERYWHERE, **PARAMETERS.get(command, {})}.get(
                option, (option.lower() if option.isupper() else option).replace("-", "_")
            )
            assert name is None or name in there, (command, option, sorted(there))
        for option in layout:
            if option != "layout":
                assert LAYOUT.get(option, option.replace("-", "_")) in coldtally.answered.hints_of(
                    coldtally.Layout
                ), option
    assert "layout" in parameters("import")


@needs_the_command
def test_the_tables_of_this_test_hold_nothing_that_is_no_more():
    found = commands()
    assert set(CALLS) | set(KINDS) | set(PARAMETERS) <= set(found)
    for command, names in PARAMETERS.items():
        assert set(names) <= set(stated(help_of(command))[0]), command


def test_every_method_of_the_library_is_in_python():
    """The public methods of Ledger in C++, by the header."""
    header = (ROOT / "include" / "coldtally" / "ledger.hpp").read_text(encoding="utf-8")
    body = re.sub(r"//.*", "", header.split("class Ledger {", 1)[1].split("private:")[0])
    methods = set(re.findall(r"^    [\w:<>]+(?: [\w:<>]+)* (\w+)\(", body, flags=re.M)) - {"Ledger", "explicit"}
    elsewhere = {
        "draft": "post_draft",
        "for_each_entry": "entries",
        "answer_draft": "answer",
        "start_draft": "start",
        "counters": None,
        "loosening": None,
        "move_list_after": None,
        "arrivals": None,
        "late_correction": None,
        "handover_after": None,  # what tests and the command line ask besides
    }
    assert len(methods) > 25 and set(elsewhere) <= methods
    for method in methods:
        name = elsewhere.get(method, method)
        assert name is None or callable(getattr(coldtally.Ledger, name)), method


def documented():
    """(name, function) of everything public that computes, reads or writes."""
    from coldtally import plot

    for name, function in inspect.getmembers(coldtally.Ledger, inspect.isfunction):
        if not name.startswith("_"):
            yield f"Ledger.{name}", function
    for name in plot.__all__:
        yield f"plot.{name}", getattr(plot, name)
    yield "entry_from_dict", coldtally.entry_from_dict


QUANTITIES = {
    "doses": "dose",
    "counts": "dose",
    "temperature": "degree|°",
    "temperatures": "degree|°",
    "min": "lowest",
    "max": "highest",
    "activation_K": "kelvin",
    "wait_s": "second",
    "limit_s": "second",
    "told": "second|entries",  # figures, or of which doses
}


def test_docstrings_say_units_and_errors():
    seen, silent = 0, []
    for name, function in documented():
        text = inspect.getdoc(function) or ""
        assert re.search(r"\braises?\b", text, flags=re.I), f"{name}: says nothing of errors"
        for parameter in inspect.signature(function).parameters:
            word = QUANTITIES.get(parameter)
            if word:
                seen += 1
                silent += [] if re.search(word, text, flags=re.I) else [(name, parameter)]
    assert not silent and seen > 15


UNITS = [
    (r"_s\Z", r"second"),
    (r"_Cs\Z", r"degree-Celsius-seconds|degree-seconds"),
    (r"_C\Z", r"degrees? Celsius|degrees|°C"),
    (r"\Adoses\Z", r"dose"),
    (r"\A(temperature|tolerance|correction|min|max)\Z", r"degree"),
    (r"_days\Z|\Adays\Z", r"day"),
    (r"\Ayears\Z", "year"),
]


def test_the_docstring_of_a_class_says_the_units_of_its_fields():
    """In its own words, in those of a class it derives from, or in those of its module."""
    import sys

    from coldtally.stated import Stated

    seen, silent = 0, []
    for name in coldtally.__all__:
        cls = getattr(coldtally, name)
        if not (isinstance(cls, type) and issubclass(cls, (coldtally.answered.Answered, Stated))):
            continue
        bases = [b for b in cls.__mro__ if b.__module__.startswith("coldtally") and b.__doc__]
        text = "\n".join(b.__doc__ for b in bases) + (sys.modules[cls.__module__].__doc__ or "")
        for field in coldtally.answered.hints_of(cls):
            for pattern, word in UNITS:
                if re.search(pattern, field):
                    seen += 1
                    silent += [] if re.search(word, text, flags=re.I) else [(name, field)]
    assert not silent and seen > 80


def test_every_test_of_this_folder_is_run_and_every_module_is_installed():
    """What no list names is silently left out."""
    here = ROOT / "tests" / "python"
    run = re.findall(r"\b(test_\w+\.py)\b", (here / "CMakeLists.txt").read_text(encoding="utf-8"))
    assert sorted(run) == sorted(p.name for p in here.glob("test_*.py"))
    listed = re.search(r"set\(package_files\s(.*?)\)", (ROOT / "bindings" / "CMakeLists.txt").read_text(), flags=re.S)
    there = [p.name for p in (ROOT / "bindings" / "coldtally").iterdir() if p.is_file()]
    assert sorted(listed[1].split()) == sorted(there)


def test_every_name_is_public_once():
    assert len(set(coldtally.__all__)) == len(coldtally.__all__) and all(
        hasattr(coldtally, name) for name in coldtally.__all__
    )
    inside = {"answered", "arguments", "docstrings", "exact", "frames", "plot", "stated", "work"}
    for path in (ROOT / "bindings" / "coldtally").glob("*.py"):
        if path.stem in inside or path.stem == "__init__":
            continue
        module = importlib.import_module(f"coldtally.{path.stem}")
        for name in module.__all__:
            assert name in coldtally.__all__ and getattr(coldtally, name) is getattr(module, name), (path.stem, name)


def test_every_error_has_words_of_its_own():
    texts = [getattr(coldtally, name).__doc__ for name in coldtally.errors.__all__]
    assert all(texts) and len(set(texts)) == len(texts)


def test_the_modules_say_where_their_answers_come_from():
    """A page of the sources that is there."""
    for module in (
        coldtally.answers,
        coldtally.fhir,
        coldtally.handovers,
        coldtally.incidents,
        coldtally.journeys,
        coldtally.stewardship,
        coldtally.upkeep,
        coldtally.work,
        coldtally.logger,
        coldtally.programme,
        coldtally.duties,
        coldtally.entries,
        coldtally.Ledger,
    ):
        pages = re.findall(r"(?:lib|cli)/[\w/]*\w+\.md", module.__doc__)
        assert pages and all((ROOT / page).exists() for page in pages), module
