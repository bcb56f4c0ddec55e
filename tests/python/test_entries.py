"""Entries: typed in, the wire form out, nothing taken by guessing."""
import datetime
import json
import pickle
from decimal import Decimal

import pytest

import coldtally

UTC = datetime.timezone.utc
T = datetime.datetime(2026, 3, 1, 12, tzinfo=UTC)


def check(**changed):
    return coldtally.Check(**{"by": "ab", "at": T, "place": "fridge", "scale": "C", "temperature": Decimal("4.2"), **changed})


def test_the_wire_form_of_an_entry():
    assert check(note="door seal").to_dict() == {
        "kind": "check", "at": "2026-03-01T12:00:00Z", "by": "ab", "place": "fridge", "scale": "C", "temperature": "4.2", "note": "door seal"}
    move = coldtally.Move(by="ab", at=T, product="elm", lot="E1", from_=coldtally.Location("fridge"), to=coldtally.Location("box", "bag 1"), doses=3)
    assert move.to_dict() == {"kind": "move", "at": "2026-03-01T12:00:00Z", "by": "ab", "product": "elm", "lot": "E1",
                              "from": {"place": "fridge"}, "to": {"place": "box", "mark": "bag 1"}, "doses": 3}


@pytest.mark.parametrize("instant, text", [
    (datetime.datetime(2026, 3, 1, 6, tzinfo=datetime.timezone(datetime.timedelta(hours=-6))), "2026-03-01T12:00:00Z"),
    ("2026-03-01T12:00:00Z", "2026-03-01T12:00:00Z"),
    ("2026-03-01T13:30:00+01:30", "2026-03-01T12:00:00Z"),
])
def test_instants_become_utc(instant, text):
    assert check(at=instant).to_dict()["at"] == text


@pytest.mark.parametrize("changed, kind, says", [
    ({"at": datetime.datetime(2026, 3, 1)}, ValueError, "has no time zone and so names no instant; give it one"),
    ({"at": "2026-03-01T12:00:00"}, ValueError, "has no time zone"),
    ({"at": datetime.datetime(2026, 3, 1, 0, 0, 0, 5, UTC)}, ValueError, "must be a whole second"),
    ({"at": 1772366400}, TypeError, "must be an aware datetime"),
    ({"temperature": 4.2}, TypeError, "a float is not the number that was read"),
    ({"min": 4.0, "max": 5}, TypeError, "a float is not"),
    ({"temperature": True}, TypeError, "must be a decimal.Decimal"),
    ({"temperature": "4,2"}, ValueError, "temperature: \"4,2\": must be degrees"),
    ({"temperature": Decimal("4.2001")}, ValueError, "at most three fractional digits"),
    ({"temperature": Decimal("NaN")}, ValueError, "must be degrees"),
    ({"place": 7}, TypeError, "place: 7: must be text"),
])
def test_what_is_not_taken(changed, kind, says):
    with pytest.raises(kind, match=says) as caught:
        check(**changed)
    assert isinstance(caught.value, coldtally.BadValue)


def test_floats_in_a_mapping_are_refused_too(small):
    with coldtally.Ledger(small) as ledger:
        for form in ({"kind": "check", "temperature": 4.2}, {"kind": "certificate", "correction": [[0, 0.1]]}):
            with pytest.raises(coldtally.WrongType, match="is a float"):
                ledger.post(form)


def test_a_mapping_may_hold_python_types(small):
    with coldtally.Ledger(small) as ledger:
        numbers = ledger.post({"kind": "check", "at": T, "by": "ab", "place": "fridge", "scale": "C", "temperature": Decimal("4.20")},
                              now=T + datetime.timedelta(hours=7))
        assert numbers == [8]
        assert list(ledger.entries())[-1] == check(entry=8, recorded=T + datetime.timedelta(hours=7))


def test_entries_are_values():
    assert check() == check() and hash(check()) == hash(check()) and check() != check(by="cd")
    assert pickle.loads(pickle.dumps(check())) == check()
    with pytest.raises(AttributeError):
        check().by = "cd"


def test_every_entry_of_the_demo_comes_back_as_it_was_printed(demo):
    with coldtally.Ledger(demo, mode="read") as ledger:
        lines = list(ledger.export())
        entries = list(ledger.entries())
    assert len(lines) == len(entries) > 900
    for line, entry in zip(lines, entries):
        assert isinstance(entry, coldtally.Entry)
        assert json.dumps(entry.to_dict(), ensure_ascii=False, separators=(",", ":")) + "\n" == line


def test_a_kind_without_a_class_is_an_entry_all_the_same():
    from coldtally.entries import entry_from_dict

    form = {"kind": "new-thing", "at": "2026-03-01T12:00:00Z", "by": "ab", "used_s": "3/2", "parts": [{"at": "2026-03-01T12:00:00Z"}]}
    entry = entry_from_dict(form)
    assert isinstance(entry, coldtally.OtherEntry)
    assert entry.at == T and entry.used_s == coldtally.answers.Fraction(3, 2) and entry.parts[0].at == T
    assert entry.to_dict() == form
