"""Answers: the wire form is the command line's, and the attributes are exact."""
import ast
import datetime
import json
import os
import pickle
import subprocess
import types
import typing
from collections.abc import Iterable, Sequence, Sized
from decimal import Decimal
from fractions import Fraction

import pytest
from conftest import AT, ROOT

import coldtally

UTC = datetime.timezone.utc
NOW = datetime.datetime(2026, 6, 1, tzinfo=UTC)
WINDOW = ("2026-01-05T07:00:00", AT)


def transfer_of(ledger):
    """The number of the first transfer."""
    return next(e.entry for e in ledger.entries() if isinstance(e, coldtally.Transfer))


def questions(ledger):
    """(the command line's words, the answer in Python) of every question."""
    sent = transfer_of(ledger)
    known = {"at": AT, "known_on": NOW.replace(year=2199)}
    return [
        (["stock"], ledger.stock(**known)),
        (["lists"], ledger.lists(**known)),
        (["review"], ledger.review(**known)),
        (["review", "--all"], ledger.review(all=True, **known)),
        (["excursions", "main-fridge"], ledger.excursions("main-fridge", *WINDOW, **known)),
        (["excursions", "annex-fridge"], ledger.excursions("annex-fridge", *WINDOW, **known)),
        (["conditions", "freezer"], ledger.conditions("freezer", *WINDOW, **known)),
        (
            ["explain", "main-fridge", "demo-cedar", "CE-44", "--fund", "private"],
            ledger.explain("main-fridge", "demo-cedar", "CE-44", fund="private", **known),
        ),
        (
            ["scan", "(01)09521234543213(17)270531(10)CE-44"],
            ledger.scan("(01)09521234543213(17)270531(10)CE-44", **known),
        ),
        (["rules"], ledger.rules(**known)),
        (["rules", "main-fridge"], ledger.rules("main-fridge", *WINDOW, **known)),
        (["incident"], ledger.incidents(**known)),
        *((["incident", i.incident], ledger.incident(i.incident, **known)) for i in ledger.incidents(**known)),
        (["dates"], ledger.dates(**known)),
        (["loans", "--all"], ledger.loans(all=True, **known)),
        (["accountability"], ledger.accountability(*WINDOW, **known)),
        (["move-list", "main-fridge", "--into", "carrier"], ledger.move_list("main-fridge", "carrier", **known)),
        (["handover", str(sent)], ledger.handover(sent, **known)),
        (["plan"], ledger.plan(**known)),
        (["follow-up"], ledger.follow_up(**known)),
        (["training"], ledger.training(**known)),
        (["unit", "main-fridge"], ledger.unit("main-fridge", **known)),
        (["today"], ledger.today(**known)),
        (["readiness"], ledger.readiness(**known)),
        (["verify"], ledger.verify()),
    ]


def questions_of_wren(ledger):
    """The same of the ledger that has something in every answer."""
    sent = transfer_of(ledger)
    known = {"at": AT, "known_on": NOW.replace(year=2199)}
    return [
        (["stock"], ledger.stock(**known)),
        (["lists"], ledger.lists(**known)),
        (["review", "--all"], ledger.review(all=True, **known)),
        (["excursions", "main"], ledger.excursions("main", *WINDOW, **known)),
        (["conditions", "main"], ledger.conditions("main", *WINDOW, **known)),
        (["rules", "main"], ledger.rules("main", *WINDOW, **known)),
        (["incident"], ledger.incidents(**known)),
        (["incident", "2026-1"], ledger.incident("2026-1", **known)),
        (["incident", "2026-1", "--maker", "M Works"], ledger.incident("2026-1", maker="M Works", **known)),
        (["dates"], ledger.dates(**known)),
        (["loans", "--all"], ledger.loans(all=True, **known)),
        (["accountability"], ledger.accountability(*WINDOW, **known)),
        (["move-list", "main", "--into", "box"], ledger.move_list("main", "box", **known)),
        (["move-list", "main"], ledger.move_list("main", **known)),
        (["trip", "box", "--limit", "1 h"], ledger.trip("box", limit_s=3600, **known)),
        (["trip", "box"], ledger.trip("box", **known)),
        (["handover", str(sent)], ledger.handover(sent, **known)),
        (["plan"], ledger.plan(**known)),
        (["follow-up"], ledger.follow_up(**known)),
        (["follow-up", "--lot", "K1", "--product", "mmr"], ledger.follow_up("K1", "mmr", **known)),
        (["training"], ledger.training(**known)),
        (["unit", "main"], ledger.unit("main", **known)),
        (
            ["unit", "main", "--from", "2026-03-01", "--activation-K", "9000"],
            ledger.unit("main", datetime.date(2026, 3, 1), activation_K=9000, **known),
        ),
        (["today"], ledger.today(**known)),
        (["readiness"], ledger.readiness(**known)),
        (["readiness", "--from", "2026-03-01"], ledger.readiness(datetime.date(2026, 3, 1), **known)),
        (["entries"], ledger.entered(**known)),
        (["entries", "--all", "--patients"], ledger.entered(all=True, patients=True, **known)),
        (
            ["entries", "--kind", "give", "--last", "2", "--by", "QA"],
            ledger.entered(kind="give", last=2, by="QA", **known),
        ),
        (["show"], ledger.show(**known)),
        (["show", "main"], ledger.show("main", **known)),
        (["show", "mmr", "--kind", "product"], ledger.show("mmr", "product", **known)),
        (["show", "--kind", "rules"], ledger.show(kind="rules", **known)),
        (["verify"], ledger.verify()),
    ]


@pytest.fixture(params=["demo", "wren"])
def asked(request):
    """(path, its questions)"""
    return request.getfixturevalue(request.param), questions if request.param == "demo" else questions_of_wren


def test_json_and_tables_are_the_command_lines(asked):
    command = os.environ.get("COLDTALLY_COMMAND")
    if not command:
        pytest.skip("COLDTALLY_COMMAND names no command line to compare with")
    path, all_questions = asked
    with coldtally.Ledger(path, mode="read") as ledger:
        for words, answer in all_questions(ledger):
            asked = [command, words[0], str(path), *words[1:]]
            if words[0] in ("excursions", "conditions", "accountability") or (words[0] == "rules" and len(words) > 1):
                asked += ["--from", WINDOW[0], "--until", WINDOW[1]]
            if words[0] != "verify":
                asked += ["--at", AT, "--known-on", "2199-06-01T00:00:00Z"]
            run = lambda *more, columns=100: subprocess.run(
                [*asked, *more], text=True, capture_output=True, check=True, env={**os.environ, "COLUMNS": str(columns)}
            ).stdout
            assert answer.to_json() == run("--format", "json"), words
            table = run()
            assert answer.to_table() == table, words
            assert answer.to_table(columns=70) == run(columns=70), words
            if words[0] in ("lists", "review", "readiness"):
                assert answer.to_table(why=True) == run("--why") != table, words


def test_to_dict_is_the_wire_form(asked):
    path, all_questions = asked
    with coldtally.Ledger(path, mode="read") as ledger:
        for words, answer in all_questions(ledger):
            assert answer.to_dict() == json.loads(answer.to_json()), words
            kept = pickle.loads(pickle.dumps(answer))
            assert kept == answer and kept.to_json() and type(kept) is type(answer)
            assert repr(answer).startswith(type(answer).__name__)


def every_record(value):
    if isinstance(value, coldtally.answered.Answered):
        yield value
        for name in value.names():
            yield from every_record(getattr(value, name))
    elif isinstance(value, tuple):
        for item in value:
            yield from every_record(item)


def is_of(hint, value):
    """Is a value of the annotated type, its parts included?"""
    origin, arguments = typing.get_origin(hint), typing.get_args(hint)
    if origin is typing.Literal:
        return value in arguments
    if origin in (typing.Union, types.UnionType):
        return any(is_of(a, value) for a in arguments)
    if origin is tuple:
        if type(value) is not tuple:
            return False
        item, *others = arguments
        of = [item] * len(value) if others == [...] else arguments
        return len(of) == len(value) and all(map(is_of, of, value))
    if origin is dict:
        key, item = arguments
        return type(value) is dict and all(is_of(key, k) and is_of(item, v) for k, v in value.items())
    return isinstance(value, hint) if hint is coldtally.Entry else type(value) is hint


def held_against_its_annotations(record):
    """What the core prints and what the package annotates cannot part: each attribute is read and held against its
    annotation."""
    fields = type(record)._fields
    assert type(record) is not coldtally.answered.Answered, record
    assert set(record.names()) <= fields.keys(), (type(record), set(record.names()) - fields.keys())
    assert {n for n, f in fields.items() if not f.optional} <= set(record.names()), type(record)
    for name, field in fields.items():
        value = getattr(record, name)
        assert is_of(field.hint, value), (type(record), name, value)
        assert not isinstance(value, float)


def test_every_field_is_annotated_and_of_its_type(demo, wren):
    seen = set()
    for path, all_questions in ((demo, questions), (wren, questions_of_wren)):
        with coldtally.Ledger(path, mode="read") as ledger:
            for _, answer in all_questions(ledger):
                for record in every_record(answer):
                    seen.add(type(record))
                    held_against_its_annotations(record)
    # every class of the answers has been met, but those that no question hands out
    modules = (
        coldtally.answers,
        coldtally.handovers,
        coldtally.incidents,
        coldtally.journeys,
        coldtally.stewardship,
        coldtally.upkeep,
    )
    classes = {
        c
        for m in modules
        for c in map(vars(m).get, m.__all__)
        if isinstance(c, type) and issubclass(c, coldtally.answered.Answered)
    }
    not_asked = {
        "Answer",
        "DepartedDoses",  # test_departed.py
        "LedgerCopy",
        "Printed",
        "PostedTransfer",
        "ReadingsAnswer",
        "TraceAnswer",
        "TraceCheck",
        "TracePart",
        "Bound",
        "Bounds",
        "Stay",
        "StaysAnswer",
        "StockHolding",  # what others are made of
        "UsedUp",  # test_an_allowance_that_is_used_up_is_told
    }
    assert {c.__name__ for c in classes - seen} <= not_asked


def test_every_field_of_what_was_posted_or_would_change_is_annotated(wren, tmp_path):
    path = tmp_path / "wren.ledger"
    path.write_bytes(wren.read_bytes())
    seen = set()
    with coldtally.Ledger(path) as ledger:
        report = next(e for e in ledger.entries() if isinstance(e, coldtally.Report))
        given = next(e for e in ledger.entries() if isinstance(e, coldtally.Give))
        now = datetime.datetime(2026, 3, 2, 18, tzinfo=UTC)
        leaflet = coldtally.Range(coldtally.Limit(C=2), coldtally.Limit(C=8))
        ledger.post(
            [
                coldtally.Product(
                    by="qa",
                    product="fir",
                    name="Fir, invented",
                    range=leaflet,
                    beyond_use={"first puncture": 3600},
                    doses_per_vial=10,
                ),
                coldtally.Lot(by="qa", product="fir", lot="F1", expiry="2099-06"),
            ]
        )
        ledger.receive("F1", 20, by="qa", place="main", fund="state", at=now)
        for answer in (
            ledger.give("F1", "t-3", by="qa", at=now),
            ledger.give("F1", "t-4", by="qa", at=now, vial="v", vial_doses=10),
            ledger.transfer("K1", 1, "Elm Street", "short there", by="qa", at=now, mark=""),
            ledger.post_draft({"kind": "product", "by": "qa", "product": "fir", "name": "Fir II, invented"}),
            ledger.give("K1", "t-2", by="qa", at=now, mark=""),
            ledger.takeback(given.entry, "was not", by="qa", at=now, yes=True),
            ledger.changes([given]),
            ledger.answer(
                report.entry, "mmr", "K1", "discard", by="qa", issuer="M Works", reference="letter 10", at=now
            ),
            ledger.import_readings("p", [("march.csv", (wren.parent / "march.csv").read_bytes())], by="qa"),
            ledger.import_readings(
                "p",
                [
                    (
                        "april.csv",
                        b"instant,temperature\n"
                        b"2026-04-01T00:00:00Z,5.0\n2026-04-01T00:30:00Z,12.5\n2026-04-01T01:00:00Z,5.0\n",
                    )
                ],
                by="qa",
                accept_guesses=True,
            ),
            ledger.readings("p", *WINDOW),
            ledger.trace("main", *WINDOW),
            ledger.stays("mmr", "K1"),
        ):
            for record in every_record(answer):
                seen.add(type(record).__name__)
                held_against_its_annotations(record)
    assert seen >= {
        "Posted",
        "PostedDefinition",
        "Opening",
        "PostedTransfer",
        "HandoverAnswer",
        "PostedWithChanges",
        "Changes",
        "ChangedHolding",
        "ChangedDose",
        "HoldingState",
        "AnswerDraft",
        "NotCovered",
        "ImportReport",
        "ImportedFile",
        "IncidentsAnswer",
        "ReadingsAnswer",
        "TraceAnswer",
        "TraceCheck",
        "TracePart",
        "StaysAnswer",
        "Stay",
        "Bounds",
        "Bound",
    }


def test_rules(small):
    rules = {
        "kind": "rules",
        "by": "ab",
        "programme": "Invented",
        "source": "page 1",
        "dated": "2026-01-01",
        "report": [{"rule": "r1", "form": "reading", "temperature": {"is": "above"}}],
    }
    now = datetime.datetime(2026, 3, 1, 18, tzinfo=UTC)
    with coldtally.Ledger(small) as ledger:
        assert ledger.rules(at=now).rules is None
        ledger.post([rules, coldtally.Check(by="ab", at=now, place="fridge", scale="C", temperature=9)], now=now)
        answer = ledger.rules(at=now)
        assert answer.entry == 8 and answer.rules.programme == "Invented"
        assert (
            answer.findings[0].at_least.met
            and answer.findings[0].estimate.first == now
            and answer.findings[0].estimate.most == 1
        )
        assert answer.rules.report[0].temperature.is_ == "above" and answer.rules.to_dict() == answer.to_dict()["rules"]
        assert len(answer.to_frame()) == 1 and isinstance(list(ledger.entries())[7], coldtally.Rules)
        assert answer.findings[0].state == "met"
        # of the day before nothing is known: any reading may have been missed
        day = datetime.datetime(2026, 2, 1, tzinfo=UTC), datetime.datetime(2026, 2, 2, tzinfo=UTC)
        before = ledger.rules("fridge", *day, at=now).findings[0]
        assert before.state == "cannot be said" and before.with_unknown.met and not before.at_most.met
        assert before.unknown_s == 86400


def test_what_an_entry_changes_is_that_alone(tmp_path):
    """A lot that was used up keeps its findings when a give of it is taken back, whatever else is in stock."""
    leaflet = coldtally.Range(coldtally.Limit(C=2), coldtally.Limit(C=8))
    rows = [[f"2026-01-{1 + h // 24:02d}T{h % 24:02d}:00:00Z", "5"] for h in range(9, 59)]
    now = datetime.datetime(2026, 1, 3, 10, tzinfo=UTC)
    with coldtally.Ledger(tmp_path / "plover.ledger") as ledger:
        ledger.post(
            [
                coldtally.Site(by="qa", name="Plover Lane (invented)", zone="UTC"),
                coldtally.Place(by="qa", place="main", name="Refrigerator", type="refrigerator", range=leaflet),
                coldtally.Probe(by="qa", probe="p", scale="C"),
                coldtally.Assign(by="qa", at="2026-01-01T00:00:00Z", probe="p", place="main"),
                coldtally.Product(by="qa", product="mmr", name="M, invented", range=leaflet),
                coldtally.Lot(by="qa", product="mmr", lot="A", expiry="2099-06"),
                coldtally.Lot(by="qa", product="mmr", lot="B", expiry="2099-06"),
                {"kind": "readings", "by": "qa", "probe": "p", "scale": "C", "rows": rows},
                coldtally.Receive(by="qa", at="2026-01-01T10:00:00Z", place="main", product="mmr", lot="A", doses=2),
                coldtally.Give(by="qa", at="2026-01-01T11:00:00Z", place="main", product="mmr", lot="A", patient="t-1"),
                coldtally.Give(by="qa", at="2026-01-01T12:00:00Z", place="main", product="mmr", lot="A", patient="t-2"),
                coldtally.Receive(by="qa", at="2026-01-03T08:00:00Z", place="main", product="mmr", lot="B", doses=5),
            ],
            now=now,
        )
        changes = ledger.changes([coldtally.Void(by="qa", voids=11, reason="entered twice")], now=now)
        assert [(d.entry, d.before, d.after) for d in changes.doses] == [(11, "clear", None)]
        undo = ledger.takeback(8, "another unit's file", by="qa", now=now, dry_run=True)
        assert "entry 8: 50 readings of probe p" in undo.filled


def test_an_allowance_that_is_used_up_is_told(tmp_path):
    """Four hours at 12 °C, stepped from 5 °C in five minutes each way, where two are allowed: worked by hand."""
    leaflet = coldtally.Range(coldtally.Limit(C=2), coldtally.Limit(C=8))
    band = coldtally.Band(coldtally.Limit(C=8), coldtally.Limit(C=15))
    warm = [("08:00", "5"), ("08:05", "12"), ("10:00", "12"), ("12:05", "12"), ("12:10", "5")]
    now = datetime.datetime(2026, 1, 1, 13, tzinfo=UTC)
    with coldtally.Ledger(tmp_path / "plover.ledger") as ledger:
        ledger.post(
            [
                coldtally.Site(by="qa", name="Plover Lane (invented)", zone="UTC"),
                coldtally.Place(by="qa", place="main", name="M", type="refrigerator", range=leaflet, max_gap_s=10800),
                coldtally.Probe(by="qa", probe="p", scale="C"),
                coldtally.Assign(by="qa", at="2026-01-01T00:00:00Z", probe="p", place="main"),
                coldtally.Product(
                    by="qa",
                    product="mmr",
                    name="M, invented",
                    range=leaflet,
                    allowances=(coldtally.Allowance(band, 7200, "leaflet, invented"),),
                ),
                coldtally.Lot(by="qa", product="mmr", lot="A", expiry="2099-06"),
                coldtally.Receive(by="qa", at="2026-01-01T08:00:00Z", place="main", product="mmr", lot="A", doses=2),
                {
                    "kind": "readings",
                    "by": "qa",
                    "probe": "p",
                    "scale": "C",
                    "rows": [[f"2026-01-01T{t}:00Z", c] for t, c in warm],
                },
                coldtally.Incident(
                    by="qa", at="2026-01-01T12:30:00Z", incident="i1", step="noticed", place="main", text="door"
                ),
            ],
            now=now,
        )
        (told,) = ledger.incident("i1", at=now, now=now).told
        (over,) = told.over
        # 4 h, and of each flank of 300 s what lies above 8 °C: 4/7
        assert over.over_s == 4 * 3600 + 2 * Fraction(1200, 7) - 7200
        assert (over.allowance, over.seconds, over.source) == (1, 7200, "leaflet, invented")
        assert told.to_dict()["over"] == [over.to_dict()]


def test_exact_types(demo):
    with coldtally.Ledger(demo, mode="read") as ledger:
        lists = ledger.lists(at=AT)
        assert lists.at == datetime.datetime(2026, 5, 29, 22, tzinfo=UTC)
        alder = next(h for h in lists if h.lot == "AL-2603B")
        assert alder.history.warm.estimate_s == Fraction(5400) and alder.expiry == datetime.date(2027, 5, 31)
        warm = ledger.excursions("main-fridge", *WINDOW, at=AT).excursions[0]
        assert (
            warm.duration_s == Fraction(1919000, 49)
            and warm.until_s - warm.from_s == warm.duration_s
            and warm.from_.tzinfo is UTC
        )
        kinetic = ledger.conditions("main-fridge", *WINDOW, at=AT).mean_kinetic_C
        assert isinstance(kinetic, Decimal) and kinetic.as_tuple().exponent == -6


def test_instants_of_a_question(demo):
    with coldtally.Ledger(demo, mode="read") as ledger:
        local = ledger.stock(at=AT, known_on=NOW.replace(year=2199))
        aware = ledger.stock(
            at=datetime.datetime(2026, 5, 29, 17, tzinfo=ledger.zone()), known_on=NOW.replace(year=2199)
        )
        assert local == aware == ledger.stock(at="2026-05-29 17:00", known_on=NOW.replace(year=2199))
        evening = datetime.datetime(2026, 5, 30, 1, tzinfo=UTC)  # 20:00 in the clinic: its today is the 29th
        assert ledger.stock(at="17:00", known_on=NOW.replace(year=2199), now=evening).at == local.at
        by_day = ledger.accountability(datetime.date(2026, 2, 1), datetime.date(2026, 2, 28), at=AT)  # the day is in it
        assert by_day.window == "from 2026-02-01 00:00 through the end of 2026-02-28"
        assert (by_day.from_, by_day.until) == (
            datetime.datetime(2026, 2, 1, 6, tzinfo=UTC),
            datetime.datetime(2026, 3, 1, 6, tzinfo=UTC),
        )
        with pytest.raises(ValueError, match="at: .*has no time zone"):
            ledger.stock(at=datetime.datetime(2026, 5, 29, 17))
        with pytest.raises(coldtally.BadValue, match='^at: "2026-03-08T02:30:00": '):
            ledger.stock(at="2026-03-08T02:30:00")
        with pytest.raises(coldtally.NotKnown):
            ledger.conditions("no-such-place", *WINDOW)
        with pytest.raises(coldtally.WrongType):
            ledger.stock(at=datetime.date(2026, 5, 29))


def every_answer_class(cls=coldtally.Printed):
    for below in cls.__subclasses__():
        yield below
        yield from every_answer_class(below)


def test_an_answer_with_rows_is_a_sequence_of_them_and_one_without_is_none():
    classes = [c for c in every_answer_class() if not c.__name__.startswith("_")]
    with_rows = {c for c in classes if c._rows}
    assert len(with_rows) > 20 and len(set(classes) - with_rows) > 8
    for cls in classes:
        for kind in (Sequence, Sized, Iterable):
            assert issubclass(cls, kind) == (cls in with_rows), (cls, kind)
    for cls in with_rows:  # what a type checker takes for a row is one
        bases = [base for k in cls.__mro__ for base in vars(k).get("__orig_bases__", ())]
        (row,) = typing.get_args(next(base for base in bases if typing.get_origin(base) is coldtally.Rows))
        assert coldtally.answered.hints_of(cls)[cls._rows] == tuple[row, ...], cls


def test_rows_are_indexed_counted_and_walked_over(demo):
    with coldtally.Ledger(demo, mode="read") as ledger:
        lists = ledger.lists(at=AT)
        assert len(lists) == len(lists.holdings) == 13 and lists
        assert lists[0] is lists.holdings[0] and lists[-1] is lists.holdings[12] and lists[1:3] == lists.holdings[1:3]
        assert tuple(lists) == lists.holdings and tuple(reversed(lists)) == lists.holdings[::-1]
        assert lists[4] in lists and lists.index(lists[4]) == 4 and lists.count(lists[4]) == 1
        with pytest.raises(IndexError):
            lists[13]
        empty = ledger.lists(at="2025-01-01T00:00:00")
        assert len(empty) == 0 and not empty and list(empty) == [] and empty.caution
        conditions = ledger.conditions("freezer", *WINDOW, at=AT)
        readings = ledger.readings("ml-101", *WINDOW, at=AT)
        for answer in (conditions, readings, ledger.verify()):
            assert answer
            with pytest.raises(TypeError):
                len(answer)
            with pytest.raises(TypeError):
                iter(answer)
            with pytest.raises(TypeError):
                answer[0]


def test_a_field_is_read_as_it_is_annotated_and_never_by_its_name():
    class Part(coldtally.answered.Answered):
        """Text by names that units have."""

        used_s: str
        at: str
        odd: Fraction
        day: datetime.date | None
        either: datetime.datetime | datetime.date

    form = {"used_s": "3/2", "at": "2026-03-01T12:00:00Z", "odd": "3/2", "more_s": "1/2", "either": "2026-03-01"}
    part = Part.from_dict(form)
    assert (part.used_s, part.at, part.odd) == ("3/2", "2026-03-01T12:00:00Z", Fraction(3, 2))
    assert part.day is None and part.more_s == "1/2" and part.either == datetime.date(2026, 3, 1)
    assert Part.from_dict({"either": "2026-03-01T12:00:00Z"}).either == datetime.datetime(2026, 3, 1, 12, tzinfo=UTC)
    with pytest.raises(AttributeError, match="Part is without its 'odd'"):
        Part.from_dict({}).odd

    class Unreadable(coldtally.answered.Answered):
        """Of a type that nothing reads."""

        number: float

    with pytest.raises(TypeError, match="is no type of a field"):
        Unreadable.from_dict({"number": 1.5}).number


def test_the_package_evaluates_no_text():
    """Annotations are resolved by typing.get_type_hints alone."""
    sources = sorted((ROOT / "bindings" / "coldtally").glob("*.py"))
    assert len(sources) > 20
    for path in sources:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            assert not (isinstance(node, ast.Name) and node.id in ("eval", "exec", "compile")), path


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
        layout = {
            "delimiter": ",",
            "decimal": ".",
            "columns": {"instant": 1, "temperature": 2},
            "instant_pattern": "%Y-%m-%d %H:%M",
            "zone": "UTC",
            "scale": "C",
        }
        dry = ledger.import_readings("p1", [("march.csv", rows.encode())], by="ab", layout=layout, dry_run=True)
        assert dry.dry_run and dry.files[0].rows_kept == 7
        assert len(list(ledger.entries())) == 7
        report = ledger.import_readings("p1", [("march.csv", rows.encode())], by="ab", layout=layout)
        assert report.files[0].entries == (8,) and report.files[0].from_ == datetime.datetime(2026, 3, 1, 2, tzinfo=UTC)
        assert (
            ledger.import_readings("p1", [("march.csv", rows.encode())], by="ab", layout=layout).files[0].known_already
        )
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
