"""Answers: the wire form is the command line's, and the attributes are exact."""
import datetime
import json
import os
import pickle
import subprocess
from decimal import Decimal
from fractions import Fraction

import pytest
from conftest import AT

import coldtally

UTC = datetime.timezone.utc
NOW = datetime.datetime(2026, 6, 1, tzinfo=UTC)
WINDOW = ("2026-01-05T07:00:00", AT)


def questions(ledger):
    """(the command line's words, the answer in Python) of every question."""
    known = {"at": AT, "known_on": NOW.replace(year=2199)}
    return [
        (["stock"], ledger.stock(**known)),
        (["lists"], ledger.lists(**known)),
        (["review"], ledger.review(**known)),
        (["review", "--all"], ledger.review(all=True, **known)),
        (["excursions", "main-fridge"], ledger.excursions("main-fridge", *WINDOW, **known)),
        (["excursions", "annex-fridge"], ledger.excursions("annex-fridge", *WINDOW, **known)),
        (["conditions", "freezer"], ledger.conditions("freezer", *WINDOW, **known)),
        (["explain", "main-fridge", "demo-cedar", "CE-44", "--fund", "private"], ledger.explain("main-fridge", "demo-cedar", "CE-44", fund="private", **known)),
        (["rules"], ledger.rules(**known)),
        (["rules", "main-fridge"], ledger.rules("main-fridge", *WINDOW, **known)),
        (["incident"], ledger.incidents(**known)),
        *((["incident", i.incident], ledger.incident(i.incident, **known)) for i in ledger.incidents(**known)),
        (["verify"], ledger.verify()),
    ]


def test_json_and_tables_are_the_command_lines(demo):
    command = os.environ.get("COLDTALLY_COMMAND")
    if not command:
        pytest.skip("COLDTALLY_COMMAND names no command line to compare with")
    with coldtally.Ledger(demo, mode="read") as ledger:
        for words, answer in questions(ledger):
            asked = [command, words[0], str(demo), *words[1:]]
            if words[0] in ("excursions", "conditions", "rules") and len(words) > 1:
                asked += ["--from", WINDOW[0], "--until", WINDOW[1]]
            if words[0] != "verify":
                asked += ["--at", AT, "--known-on", "2199-06-01T00:00:00Z"]
            run = lambda *more: subprocess.run([*asked, *more], text=True, capture_output=True, check=True).stdout
            assert answer.to_json() == run("--format", "json"), words
            assert answer.to_table() == run(), words


def test_to_dict_is_the_wire_form(demo):
    with coldtally.Ledger(demo, mode="read") as ledger:
        for words, answer in questions(ledger):
            assert answer.to_dict() == json.loads(answer.to_json()), words
            kept = pickle.loads(pickle.dumps(answer))
            assert kept == answer and kept.to_json() and type(kept) is type(answer)
            assert repr(answer).startswith(type(answer).__name__)


def every_record(value):
    if isinstance(value, coldtally.wire.Record):
        yield value
        for name in value.names():
            yield from every_record(getattr(value, name))
    elif isinstance(value, tuple):
        for item in value:
            yield from every_record(item)


def test_every_field_is_annotated_and_of_its_type(demo):
    """What the core prints and what the package annotates cannot part: each attribute is read and held against its annotation."""
    seen = set()
    with coldtally.Ledger(demo, mode="read") as ledger:
        for _, answer in questions(ledger):
            for record in every_record(answer):
                if type(record) is coldtally.wire.Record:
                    continue
                seen.add(type(record).__name__)
                assert set(type(record)._fields) <= set(record.names()), type(record)
                for name, field in type(record)._fields.items():
                    value = getattr(record, name)
                    allowed = getattr(field.hint, "__args__", (field.hint,)) if getattr(field.hint, "__origin__", None) is not tuple else (tuple,)
                    assert type(value) in {getattr(a, "__origin__", a) for a in allowed}, (type(record), name, value)
                    assert not isinstance(value, float)
    assert {"ListedHolding", "History", "OpenSide", "GivenDose", "Excursion", "Inside", "Accounts", "Coverage", "IncidentAnswer"} <= seen


def test_rules(small):
    rules = {"kind": "rules", "by": "ab", "programme": "Invented", "source": "page 1", "dated": "2026-01-01",
             "report": [{"rule": "r1", "form": "reading", "temperature": {"is": "above"}}]}
    now = datetime.datetime(2026, 3, 1, 18, tzinfo=UTC)
    with coldtally.Ledger(small) as ledger:
        assert ledger.rules(at=now).rules is None
        ledger.post([rules, coldtally.Check(by="ab", at=now, place="fridge", scale="C", temperature=9)], now=now)
        answer = ledger.rules(at=now)
        assert answer.entry == 8 and answer.rules.programme == "Invented"
        assert answer.findings[0].at_least.met and answer.findings[0].estimate.first == now and answer.findings[0].estimate.most == 1
        assert len(answer.to_frame()) == 1 and isinstance(list(ledger.entries())[7], coldtally.OtherEntry)


def test_exact_types(demo):
    with coldtally.Ledger(demo, mode="read") as ledger:
        lists = ledger.lists(at=AT)
        assert lists.at == datetime.datetime(2026, 5, 29, 22, tzinfo=UTC)
        alder = next(h for h in lists if h.lot == "AL-2603B")
        assert alder.history.warm.estimate_s == Fraction(5400) and alder.expiry == datetime.date(2027, 5, 31)
        warm = ledger.excursions("main-fridge", *WINDOW, at=AT).excursions[0]
        assert warm.duration_s == Fraction(1919000, 49) and warm.until_s - warm.from_s == warm.duration_s and warm.from_.tzinfo is UTC
        kinetic = ledger.conditions("main-fridge", *WINDOW, at=AT).mean_kinetic_C
        assert isinstance(kinetic, Decimal) and kinetic.as_tuple().exponent == -6


def test_instants_of_a_question(demo):
    with coldtally.Ledger(demo, mode="read") as ledger:
        local = ledger.stock(at=AT, known_on=NOW.replace(year=2199))
        aware = ledger.stock(at=datetime.datetime(2026, 5, 29, 17, tzinfo=ledger.zone()), known_on=NOW.replace(year=2199))
        assert local == aware
        with pytest.raises(ValueError, match="at: .*has no time zone"):
            ledger.stock(at=datetime.datetime(2026, 5, 29, 17))
        with pytest.raises(coldtally.BadValue, match='^at: "2026-03-08T02:30:00": '):
            ledger.stock(at="2026-03-08T02:30:00")
        with pytest.raises(coldtally.NotKnown):
            ledger.conditions("no-such-place", *WINDOW)
        with pytest.raises(coldtally.WrongType):
            ledger.stock(at=datetime.date(2026, 5, 29))


def test_answers_are_read_only(demo):
    with coldtally.Ledger(demo, mode="read") as ledger:
        lists = ledger.lists(at=AT)
    with pytest.raises(AttributeError, match="read-only"):
        lists.holdings = ()
    lists.to_dict()["holdings"].clear()
    assert len(lists.holdings) == 13  # answers outlive the ledger
    with pytest.raises(AttributeError, match="has no attribute"):
        lists.no_such_name
    with pytest.raises(coldtally.ClosedLedger):
        lists.to_table()


def test_import_report(small):
    rows = "".join(f"2026-03-01 {h:02}:00,{h}.5\n" for h in range(2, 9))
    with coldtally.Ledger(small) as ledger:
        layout = {"delimiter": ",", "decimal": ".", "columns": {"instant": 1, "temperature": 2}, "instant_pattern": "%Y-%m-%d %H:%M", "zone": "UTC", "scale": "C"}
        dry = ledger.import_readings("p1", [("march.csv", rows.encode())], by="ab", layout=layout, dry_run=True)
        assert dry.dry_run and dry.files[0].rows_kept == 7
        assert len(list(ledger.entries())) == 7
        report = ledger.import_readings("p1", [("march.csv", rows.encode())], by="ab", layout=layout)
        assert report.files[0].entries == (8,) and report.files[0].from_ == datetime.datetime(2026, 3, 1, 2, tzinfo=UTC)
        assert ledger.import_readings("p1", [("march.csv", rows.encode())], by="ab", layout=layout).files[0].known_already
        assert report.to_dict() == json.loads(report.to_json()) and "march.csv" in report.to_table()
        with pytest.raises(coldtally.UnknownField):
            ledger.import_readings("p1", [("x.csv", b"1")], by="ab", layout={"colums": {}})
        with pytest.raises(coldtally.Machine, match="cannot be read: No such file"):
            ledger.import_readings("p1", "no-such-file.csv", by="ab")


def test_export_and_replay(demo, tmp_path):
    with coldtally.Ledger(demo, mode="read") as ledger, coldtally.Ledger(tmp_path / "again.ledger") as again:
        again.replay("".join(ledger.export()))
        known = {"at": AT, "known_on": NOW.replace(year=2199)}
        assert again.lists(**known).to_json() == ledger.lists(**known).to_json()
        assert again.verify().findings == ()
        with pytest.raises(coldtally.LedgerExists):
            again.replay("".join(ledger.export()))
