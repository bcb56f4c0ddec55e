"""The caution: whatever judges doses says it, in every form. A new answer, command, frame or picture without it fails
here."""
import datetime
import inspect

import pytest
from conftest import LAYOUT, ROOT
from test_answers import questions, questions_of_wren
from test_complete import CALLS, KINDS, commands, help_of, needs_the_command

import coldtally
from coldtally.answers import LedgerCopy, Printed, Verification

CAUTION = "supports and does not replace the manufacturer's and the health department's guidance"
WITHOUT_TABLE = ("StaysAnswer", "ImmunizationsAnswer")
JUDGES_NOTHING = {LedgerCopy, Verification}  # say whether a file is as it was posted


def kinds_below(kind):
    """Every class of answers by its name."""
    out = {}
    for below in kind.__subclasses__():
        out |= {below.__name__: below} | kinds_below(below)
    return out


def returned(function):
    """The class that a method hands out, where it is an answer."""
    return kinds_below(Printed).get(str(function.__annotations__.get("return", "")).rpartition(".")[2])


def test_the_text_is_that_of_the_library():
    source = (ROOT / "lib" / "words" / "general.hpp").read_text(encoding="utf-8").replace('"\n    "', "")
    assert CAUTION in " ".join(source.split())


def test_every_answer_of_a_method_has_it():
    seen = set()
    for name, function in inspect.getmembers(coldtally.Ledger, inspect.isfunction):
        if name.startswith("_") or not (kind := returned(function)) or kind in JUDGES_NOTHING:
            continue
        seen.add(kind)
        assert coldtally.answered.hints_of(kind).get("caution") is str, (name, kind)
    assert len(seen) >= 27, seen


@needs_the_command
def test_every_command_that_prints_json_has_it():
    seen = 0
    for command in commands():
        if "--format" not in help_of(command):
            continue
        own = command.replace("-", "_") + ("_" if command == "return" else "")
        names = ["post_draft"] if command in KINDS else CALLS.get(command, [own])
        for name in names:
            kind = returned(getattr(coldtally.Ledger, name))
            assert kind, command  # what prints JSON hands out an answer in Python
            assert kind in JUDGES_NOTHING or coldtally.answered.hints_of(kind).get("caution") is str, command
            seen += 1
    assert seen > 40


def test_it_is_in_the_json_the_table_and_the_frame(demo, wren):
    kinds = set()
    for path, asked in ((demo, questions), (wren, questions_of_wren)):
        with coldtally.Ledger(path, mode="read") as ledger:
            answers = [answer for _, answer in asked(ledger)]
            window = ("2026-01-01", "2026-05-01")
            if path is demo:
                answers += [ledger.readings("ml-101", *window), ledger.trace("main-fridge", *window)]
                answers.append(ledger.stays("demo-birch", "B-0117"))
            for answer in answers:
                if type(answer) in JUDGES_NOTHING:
                    continue
                kinds.add(type(answer))
                assert CAUTION in answer.to_dict()["caution"], type(answer)
                if "_core" in answer.__dict__ and type(answer).__name__ not in WITHOUT_TABLE:
                    assert CAUTION in " ".join(answer.to_table().split()), type(answer)
                if type(answer)._rows or hasattr(answer, "instants"):
                    assert answer.to_frame().attrs["caution"] == answer.caution, type(answer)
    assert len(kinds) >= 24, kinds


def test_what_was_posted_and_what_it_changes_have_it(small):
    with coldtally.Ledger(small) as ledger:
        posted = ledger.count("E1", 10, by="ab", dry_run=True)
        assert CAUTION in posted.caution and CAUTION in posted.to_dict()["caution"]
        changed = ledger.takeback(7, "was not ours", by="ab", dry_run=True)
        assert CAUTION in changed.caution and CAUTION in changed.changes.caution
        assert "not thereby invalid" in changed.changes.caution
        void = {"kind": "void", "voids": 7, "reason": "was not ours", "by": "ab"}
        assert changed.changes.caution == ledger.changes(void).caution
        rows = "2026-03-01T10:00:00Z,4.0\n2026-03-01T10:05:00Z,4.0\n"
        (small.parent / "one.csv").write_text("instant,temperature\n" + rows)
        report = ledger.import_readings("p1", small.parent / "one.csv", by="ab", layout=LAYOUT, dry_run=True)
        assert CAUTION in report.caution and report.to_frame().attrs["caution"] == report.caution


def test_pictures_have_it(demo):
    matplotlib = pytest.importorskip("matplotlib", reason="python3-matplotlib is not installed")
    matplotlib.use("Agg")
    import matplotlib.pyplot as plt

    from coldtally import plot

    draw = {
        "trace": lambda ledger: plot.trace(ledger, "main-fridge", "2026-02-09", "2026-02-12", at="2026-05-29T17:00:00"),
        "exposure": lambda ledger: plot.exposure(ledger, "demo-cedar", "CE-44", at="2026-05-29T17:00:00"),
        "years": lambda ledger: plot.years(ledger, "main-fridge", 2026, 2026, at="2026-05-29T17:00:00"),
    }
    assert set(draw) == set(plot.__all__)
    with coldtally.Ledger(demo, mode="read") as ledger:
        for name, picture in draw.items():
            assert CAUTION in " ".join(picture(ledger).get_xlabel().split()), name
    plt.close("all")


def test_doses_in_doubt_are_not_among_those_to_be_used(small):
    """An incident is open, and its doses were not put on hold: they stand on keep, and nobody counts them as usable."""
    when = datetime.datetime(2026, 3, 1, 18, tzinfo=datetime.timezone.utc)
    earlier = [when - datetime.timedelta(minutes=m) for m in (10, 9, 5)]
    with coldtally.Ledger(small) as ledger:
        ledger.check("fridge", "5", scale="C", by="qa", at=earlier[0], now=when)
        ledger.receive("E2", 5, product="elm", expiry="2027-06", place="fridge", by="qa", at=earlier[1], now=when)
        ledger.give("E2", "t-1", by="qa", at=earlier[2], now=when)
        ledger.notice("fridge", "door ajar", by="qa", no_hold="invented", at=earlier[2], now=when)
        lists = ledger.lists(at=when, now=when)
        doubted = [h for h in lists if h.lot == "E2"]
        assert [h.list for h in doubted] == ["keep"] and doubted[0].do_not_use
        assert lists.on("keep") == () and lists.in_doubt == tuple(doubted)
        assert lists.to_frame().do_not_use.all()
        review = ledger.review(at=when, now=when)
        assert review.to_frame().attrs["not_listed"] == review.not_listed
        assert any("2026-1" in said for said in review.not_listed)
