"""Remarks: the codes of an answer say what its sentences do, by the phrasebook in lib/words of the sources."""
import copy
import dataclasses
import pickle
import re

import pytest
from conftest import ROOT
from test_answers import every_record, questions, questions_of_wren

import coldtally
from coldtally import ExplanationLine, Remark, Suggestion
from coldtally.answered import hints_of, reader

PHRASE = re.compile(r'Says<\d+> \w+\{\s*"([a-z0-9-]+)",\s*((?:"(?:[^"\\]|\\.)*"\s*)+)\}')


@pytest.fixture(scope="module")
def phrases():
    """{code: the English text, with fields in braces}"""
    out = {}
    for path in sorted((ROOT / "lib" / "words").glob("*.hpp")):
        for code, text in PHRASE.findall(path.read_text(encoding="utf-8")):
            parts = re.findall(r'"((?:[^"\\]|\\.)*)"', text)
            out[code] = re.sub(r"\\(.)", lambda m: {"n": "\n"}.get(m[1], m[1]), "".join(parts))
    assert len(out) > 500
    return out


def said(phrases, remark):
    """A remark in English, as a pattern: a suggestion may be said in any way."""
    names = dict.fromkeys(re.findall(r"\{(\w+)\}", phrases[remark.code]))
    assert list(remark.fields) == list(names), remark
    forms = phrases[remark.code].split("|")
    if len(forms) > 1:
        first = next(iter(remark.fields.values()))
        forms = forms[0 if re.match(r"1(?!\d)", first) else 1 :]
    out = ""
    for text, name in re.findall(r"([^{]*)(?:\{(\w+)\}|\Z)", forms[0]):
        out += re.escape(text)
        value = remark.fields[name] if name else ""
        if isinstance(value, Remark):
            out += said(phrases, value)
        else:
            out += ".*" if isinstance(value, Suggestion) else re.escape(value)
    return out


def remarks_of(answer):
    """Every remark that stands beside a sentence."""
    for record in every_record(answer):
        for name in record.names():
            value = getattr(record, name)
            for one in value if isinstance(value, tuple) else [value]:
                if isinstance(one, Remark):
                    yield record, name, one


def test_a_code_says_what_the_sentence_beside_it_says(phrases, demo, wren, tmp_path):
    answers, codes, kinds = [], set(), set()
    for path, all_questions in ((demo, questions), (wren, questions_of_wren)):
        with coldtally.Ledger(path, mode="read") as ledger:
            answers += [answer for _, answer in all_questions(ledger)]
    again = tmp_path / "wren.ledger"
    again.write_bytes(wren.read_bytes())
    with coldtally.Ledger(again) as ledger:
        answers.append(ledger.check("main", "-0.5", by="qa", note="invented", at="2026-03-02 18:00", dry_run=True))
        answers.append(ledger.notice("main", "door ajar", by="qa", at="2026-03-02 18:00", dry_run=True))
    for answer in answers:
        for record, name, one in remarks_of(answer):
            assert one.text is not None and str(one) == one.text, (name, one)
            assert re.fullmatch(said(phrases, one), one.text, flags=re.S), (type(record), name, one)
            codes.add(one.code)
            kinds |= {type(v) for v in one.fields.values()}
    assert len(codes) > 60, sorted(codes)
    assert kinds == {str, Remark, Suggestion}


READ_IN = {  # invented; what is guessed, asked and settled is of many kinds
    "orders.csv": "Clock UTC-08:00\nTime,Temp A,Temp B\n03/04/2026 08:05,4.2,5.2\n",
    "twice.csv": "Time\tTemp\n2025-11-02 00:30\t4.0\n2025-11-02 00:45\t4.1\n2025-11-02 01:00\t4.2\n",
    "digits.csv": "Time;Temp °C\n13.03.2026 08:05;4,599999905\n",
    "ring.csv": "Time,Temp °C\n" + "".join(f"2026-03-14 08:{m},4.1\n" for m in ("20", "30", "00", "10")),
    "newest.csv": "Time,Temp \udcb0C\n2026-03-15 08:20,4.1\n2026-03-15 08:10,4.1\n",
    "scale.csv": "Time,Temp\n2026-03-16 08:20,39.6\n",
    "days.csv": "Time,Temp °C\n03/04/2026 08:05,4.2\n13/04/2026 08:05,4.2\n",
}


def test_what_was_guessed_and_settled_of_a_file_is_said_in_codes(phrases, small):
    codes = set()
    with coldtally.Ledger(small) as ledger:
        for name, content in READ_IN.items():
            file = (name, content.encode(errors="surrogateescape"))
            (report,) = ledger.import_readings("p1", [file], by="qa", accept_guesses=True, dry_run=True).files
            for said_of in ("guesses", "ambiguous", "remarks"):
                texts, remarks = getattr(report, said_of), getattr(report, said_of + "_codes")
                assert tuple(r.text for r in remarks) == texts
                for one in remarks:
                    assert re.fullmatch(said(phrases, one), one.text, flags=re.S), one
                    codes.add(one.code)
    missing = {
        "clock-could-be",
        "could-be",
        "could-be-finer",
        "could-be-other-pass",
        "date-could-be",
        "goes-back-and-fits",
        "hour-shown-twice",
        "newest-row-first",
        "read-as-latin1",
        "readings-of-no-place",
        "scale-could-be-other",
        "settled-by-line",
    } - codes
    assert not missing


def test_each_code_stands_beside_its_sentence(wren):
    with coldtally.Ledger(wren, mode="read") as ledger:
        lists = ledger.lists(at="2026-03-02T12:00:00")
        explained = ledger.explain("main", "mmr", "K1", fund="state", at="2026-03-02T12:00:00")
        excursions = ledger.excursions("main", "2026-03-01", "2026-03-02")
    noted = [h for h in lists if h.notes]
    assert noted
    for h in noted:
        assert tuple(r.text for r in h.notes_codes) == h.notes
        assert [r.to_dict() for r in h.notes_codes] == h.to_dict()["notes_codes"]
    assert str(excursions.window_code) == excursions.window != ""
    assert {type(line) for line in explained.lines_codes} == {ExplanationLine}
    assert tuple(" " * line.indent + line.text for line in explained.lines_codes) == explained.lines
    assert any(line.indent for line in explained.lines_codes)
    assert [line.to_dict() for line in explained.lines_codes] == explained.to_dict()["lines_codes"]


def test_every_field_of_remarks_has_its_sentence_beside_it():
    seen = 0
    for name in coldtally.__all__:
        cls = getattr(coldtally, name)
        if not (isinstance(cls, type) and issubclass(cls, coldtally.answered.Answered)):
            continue
        hints = hints_of(cls)
        for field, hint in hints.items():
            is_of_remarks = "Remark" in str(hint) or "ExplanationLine" in str(hint)
            assert is_of_remarks == field.endswith(("_code", "_codes")), (cls, field)
            if is_of_remarks:
                beside = str(hints[field.removesuffix("_codes").removesuffix("_code")])
                assert beside.startswith("tuple[str, ...]") == field.endswith("_codes"), (cls, field)
                seen += 1
    assert seen > 50


REMARK = Remark("a", {"place": "main", "inner": Remark("b"), "task": Suggestion("check", (("", "x"), ("yes", True)))})


def test_a_remark_is_frozen_and_goes_through_pickles_and_the_wire_form():
    said = dataclasses.replace(REMARK, text="A.")
    for thing, name, value in ((REMARK, "code", "c"), (REMARK.fields["task"], "task", "t")):
        with pytest.raises(dataclasses.FrozenInstanceError):
            setattr(thing, name, value)
    with pytest.raises(TypeError):
        REMARK.fields["place"] = "annex"
    for again in (pickle.loads(pickle.dumps(said)), copy.deepcopy(said), copy.copy(said)):
        assert again == said and again.text == "A." and type(again) is Remark
    assert Remark.from_dict(REMARK.to_dict()) == REMARK == said and len({REMARK, said}) == 1
    assert REMARK.to_dict()["fields"]["task"] == {
        "task": "check",
        "arguments": [{"name": "", "value": "x"}, {"name": "yes", "value": True}],
    }
    assert REMARK != Remark("a", {"place": "annex"}) and REMARK != Remark("b", REMARK.fields)
    assert str(said) == "A." and str(REMARK).startswith("a(place: main, ")
    line = ExplanationLine("a", {}, "A.", indent=2)
    assert pickle.loads(pickle.dumps(line)) == line and ExplanationLine.from_dict(line.to_dict()).indent == 2


def test_a_field_that_is_said_in_words_or_is_a_name():
    read = reader(coldtally.RemarkField)
    assert read("main") == "main" and read(REMARK.to_dict()) == REMARK
    assert read(REMARK.fields["task"].to_dict()) == REMARK.fields["task"]


def test_a_frame_has_the_codes(wren):
    with coldtally.Ledger(wren, mode="read") as ledger:
        lists = ledger.lists(at="2026-03-02T12:00:00")
        ready = ledger.readiness(at="2026-05-29T17:00:00")
    assert lists.to_frame()["notes_codes"].tolist() == [tuple(r.code for r in h.notes_codes) for h in lists]
    assert ready.to_frame()["text_code"].tolist() == [f.text_code.code for f in ready]


def test_a_task_that_is_suggested_is_a_method():
    """Of what the library suggests, by its sources; where a ledger is missing there is none to call."""
    suggested = set()
    for path in (ROOT / "lib").glob("**/*.cpp"):
        suggested |= set(re.findall(r'words::task\("(\w+)"', path.read_text(encoding="utf-8")))
    assert len(suggested) > 8
    # of these, objects of their kind are posted
    defined = {task for task in suggested if not callable(getattr(coldtally.Ledger, task, None))}
    assert defined == {"assign", "certificate", "maker", "site"}
    assert all(callable(getattr(coldtally, task.capitalize())) for task in defined)
