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
    return coldtally.Check(
        **{"by": "ab", "at": T, "place": "fridge", "scale": "C", "temperature": Decimal("4.2"), **changed}
    )


def test_the_wire_form_of_an_entry():
    assert check(note="door seal").to_dict() == {
        "kind": "check",
        "at": "2026-03-01T12:00:00Z",
        "by": "ab",
        "place": "fridge",
        "scale": "C",
        "temperature": "4.2",
        "note": "door seal",
    }
    move = coldtally.Move(
        by="ab",
        at=T,
        product="elm",
        lot="E1",
        from_=coldtally.Location("fridge"),
        to=coldtally.Location("box", "bag 1"),
        doses=3,
    )
    assert move.to_dict() == {
        "kind": "move",
        "at": "2026-03-01T12:00:00Z",
        "by": "ab",
        "product": "elm",
        "lot": "E1",
        "from": {"place": "fridge"},
        "to": {"place": "box", "mark": "bag 1"},
        "doses": 3,
    }


@pytest.mark.parametrize(
    "instant, text",
    [
        (
            datetime.datetime(2026, 3, 1, 6, tzinfo=datetime.timezone(datetime.timedelta(hours=-6))),
            "2026-03-01T12:00:00Z",
        ),
        ("2026-03-01T12:00:00Z", "2026-03-01T12:00:00Z"),
        ("2026-03-01T13:30:00+01:30", "2026-03-01T12:00:00Z"),
    ],
)
def test_instants_become_utc(instant, text):
    assert check(at=instant).to_dict()["at"] == text


@pytest.mark.parametrize(
    "changed, kind, says",
    [
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
    ],
)
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
        numbers = ledger.post(
            {"kind": "check", "at": T, "by": "ab", "place": "fridge", "scale": "C", "temperature": Decimal("4.20")},
            now=T + datetime.timedelta(hours=7),
        )
        assert numbers == [8]
        assert list(ledger.entries())[-1] == check(entry=8, recorded=T + datetime.timedelta(hours=7))


def test_entries_are_values():
    assert check() == check() and hash(check()) == hash(check()) and check() != check(by="cd")
    assert pickle.loads(pickle.dumps(check())) == check()
    with pytest.raises(AttributeError):
        check().by = "cd"


@pytest.mark.parametrize("which, least", [("demo", 900), ("wren", 35)])
def test_every_entry_comes_back_as_it_was_printed(request, which, least):
    with coldtally.Ledger(request.getfixturevalue(which), mode="read") as ledger:
        lines = list(ledger.export())
        entries = list(ledger.entries())
    assert len(lines) == len(entries) > least
    for line, entry in zip(lines, entries):
        assert isinstance(entry, coldtally.Entry), line
        assert json.dumps(entry.to_dict(), ensure_ascii=False, separators=(",", ":")) + "\n" == line


def test_every_kind_has_a_class_and_was_tried(wren):
    from coldtally import _core, stated

    assert set(_core.entry_kinds()) == set(stated.kinds)
    assert all(cls.__name__ in coldtally.__all__ and cls.kind == kind for kind, cls in stated.kinds.items())
    with coldtally.Ledger(wren, mode="read") as ledger:
        assert {type(e) for e in ledger.entries()} == set(stated.kinds.values())


# every field of the kinds that have many, as lib/entries/programme.md, duties.md and README.md state them
WHOLE = [
    {
        "kind": "rules",
        "by": "MQ",
        "programme": "Tern County (invented)",
        "source": "handbook, chapter 4",
        "dated": "2025-11-01",
        "report": [
            {
                "rule": "warm run",
                "text": "An hour",
                "form": "run",
                "temperature": {"is": "above", "limit": {"C": "8", "F": "46"}},
                "at_least_s": 3600,
                "places": ["refrigerator"],
            },
            {
                "rule": "warm sum",
                "form": "sum",
                "temperature": {"is": "above"},
                "more_than_s": 3600,
                "within_s": 172800,
            },
            {
                "rule": "freezing",
                "form": "reading",
                "temperature": {"is": "at or below", "limit": {"C": "0"}},
                "products": ["elm"],
            },
            {"rule": "again", "form": "pattern", "at_least": 3, "within_s": 1209600},
            {"rule": "ever", "form": "pattern", "more_than": 9},
        ],
        "duties": [
            {"step": "supervisor told", "within_s": 3600},
            {"step": "health department told", "within_s": 86400, "if_reportable": True},
        ],
        "retention": [{"records": "temperature logs", "years": 3}],
        "checks": [
            {
                "places": ["refrigerator"],
                "weekdays": ["Monday", "Tuesday"],
                "per_day": 2,
                "by": ["09:00", "17:00"],
                "min_max": True,
            },
            {"weekdays": ["Sunday"], "per_day": 1},
        ],
        "longest_trip_s": 28800,
        "repay_loans_within_days": 60,
        "every_days": {"plan review": 365, "training": 365},
    },
    {
        "kind": "maker",
        "by": "MQ",
        "product": "elm",
        "name": "Elm Works (invented)",
        "contact": "desk",
        "phone": "555-0141",
        "email": "a@elm.example",
    },
    {
        "kind": "report",
        "at": "2026-03-01T12:00:00Z",
        "by": "MQ",
        "incident": "i1",
        "to": "health department",
        "recipient": "Tern County",
        "through": "2026-03-01T12:00:00Z",
        "counted": True,
        "reference": "case 7",
        "text": "by telephone",
        "told": [
            {
                "place": "fridge",
                "product": "elm",
                "lot": "E1",
                "fund": "state",
                "mark": "bin 2",
                "doses": 5,
                "out_of_range_s": 60,
                "unmonitored_s": 0,
                "points": 1,
            }
        ],
    },
    {
        "kind": "plan",
        "at": "2026-03-01T12:00:00Z",
        "by": "MQ",
        "people": [
            {
                "name": "A. Example",
                "role": "coordinator",
                "office": "1",
                "home": "2",
                "mobile": "3",
                "email": "4",
                "alternate": True,
            }
        ],
        "backups": [
            {
                "name": "Fire station",
                "contact": "B. Example",
                "phone": "5",
                "address": "6",
                "agreement": "7",
                "agreed": "2026-01-01",
                "agreed_until": "2028-01-01",
                "power": "8",
                "distance": "9",
                "capacity": "10",
            }
        ],
        "services": [{"what": "power company", "phone": "11", "name": "C"}],
        "notify": [{"what": "supervisor", "phone": "12"}],
        "containers": "shelf",
        "packing": "as trained",
        "steps": "close the door",
        "reviewed": "2026-02-01",
        "reviewed_by": "MQ",
        "review_due": "2027-02-01",
        "signatures": [{"name": "A. Example", "signed": "2026-02-02"}],
    },
    {
        "kind": "trip",
        "at": "2026-03-01T12:00:00Z",
        "by": "MQ",
        "container": "box",
        "step": "departure",
        "destination": "annex",
        "reason": "relocation",
        "packed_by": "MQ",
        "approval": "none",
        "coolant": "packs",
        "conditioning": "3 h",
    },
    {
        "kind": "trip",
        "at": "2026-03-01T13:00:00Z",
        "by": "MQ",
        "container": "box",
        "step": "arrival",
        "received_by": "AB",
    },
    {"kind": "loan", "at": "2026-03-01T12:00:00Z", "by": "MQ", "give": 9, "eligible": "state", "reason": "none left"},
    {"kind": "repayment", "at": "2026-03-01T12:00:00Z", "by": "MQ", "loan": 16, "doses": 1, "with": 10},
    {"kind": "follow-up", "at": "2026-03-01T12:00:00Z", "by": "MQ", "give": 9, "step": "decided", "text": "repeat"},
    {
        "kind": "training",
        "at": "2026-03-01T12:00:00Z",
        "by": "MQ",
        "person": "AB",
        "topic": "packing",
        "due": "2027-03-01",
        "reference": "folder",
    },
]


def test_the_kinds_with_many_fields(small):
    """Posted as objects and exported: the wire form that was put in; and nothing of it is left to types of no name."""
    from coldtally.stated import Stated, entry_from_dict

    def parts(value):
        for v in value if isinstance(value, tuple) else [value]:
            if isinstance(v, Stated):
                yield v
                for name in coldtally.answered.hints_of(type(v)):
                    yield from parts(getattr(v, name))

    entries = [entry_from_dict(form) for form in WHOLE]
    for form, entry in zip(WHOLE, entries):
        assert (
            type(entry).kind == form["kind"] and entry.to_dict() == form and entry_from_dict(entry.to_dict()) == entry
        )
        assert pickle.loads(pickle.dumps(entry)) == entry
    seen = {type(part).__name__ for entry in entries for part in parts(entry)}
    assert seen >= {
        "RuleTemperatures",
        "Reportable",
        "Duty",
        "Retention",
        "WantedChecks",
        "ReportedHolding",
        "Person",
        "Backup",
        "Service",
        "Signature",
    }
    now = datetime.datetime(2026, 3, 1, 18, tzinfo=UTC)
    with coldtally.Ledger(small) as ledger:
        ledger.post(
            [
                coldtally.Place(
                    by="ab",
                    place="box",
                    name="Carrier",
                    type="transport container",
                    range=coldtally.Range(coldtally.Limit(C=2)),
                ),
                coldtally.Give(by="ab", at=T, place="fridge", product="elm", lot="E1", patient="t-1", doses=1),
                coldtally.Receive(by="ab", at=T, place="fridge", product="elm", lot="E1", doses=5),
                coldtally.Incident(by="ab", at=T, incident="i1", step="noticed", text="warm", place="fridge"),
            ],
            now=now,
        )
        ledger.post([coldtally.Rules.from_dict(WHOLE[0]), *entries[1:6]], now=now)
        numbers = ledger.post(entries[6:7], now=now)
        repaid = {**WHOLE[7], "loan": numbers[0]}
        ledger.post([entry_from_dict(repaid), *entries[8:]], now=now)
        printed = [
            {k: v for k, v in json.loads(line).items() if k not in ("entry", "recorded")}
            for line in list(ledger.export())[11:]
        ]
    assert printed == [*WHOLE[:7], repaid, *WHOLE[8:]]


def test_times_of_day_and_mappings_are_judged():
    checks = lambda by: coldtally.WantedChecks(weekdays=["Monday"], per_day=1, by=by)
    assert checks(["16:30"]).by == (datetime.time(16, 30),) == checks([datetime.time(16, 30)]).by
    for bad, kind, says in (
        ("4 pm", ValueError, "must be a local time"),
        (datetime.time(16, 30, 5), ValueError, "whole minutes"),
        (16, TypeError, "datetime.time"),
    ):
        with pytest.raises(kind, match=says):
            checks([bad])
    with pytest.raises(coldtally.WrongType, match="must be a whole number"):
        coldtally.ProgrammeRules(programme="P", source="s", dated="2026-01-01", every_days={"count": 30.5})
    with pytest.raises(coldtally.WrongType, match="must be a mapping"):
        coldtally.ProgrammeRules(programme="P", source="s", dated="2026-01-01", every_days=[("count", 30)])


def test_a_kind_without_a_class_is_an_entry_all_the_same():
    from coldtally.entries import entry_from_dict

    form = {
        "kind": "new-thing",
        "at": "2026-03-01T12:00:00Z",
        "by": "ab",
        "used_s": "3/2",
        "parts": [{"at": "2026-03-01T12:00:00Z"}],
    }
    entry = entry_from_dict(form)
    assert isinstance(entry, coldtally.OtherEntry)
    assert entry.at == T and entry.by == "ab"
    # of what no annotation names nothing is guessed: it is there as JSON has it, and nobody's to change
    assert entry.used_s == "3/2" and entry.parts == [{"at": "2026-03-01T12:00:00Z"}]
    entry.parts.clear()
    assert len(entry.parts) == 1
    with pytest.raises(AttributeError):
        entry.used_C
    assert entry.to_dict() == form
