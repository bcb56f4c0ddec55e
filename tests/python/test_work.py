"""Everyday work: the same words at the command line and in Python make the same entries, the same JSON and the same
tables."""
import datetime
import json
import os
import re
import shlex
import shutil
import subprocess
from decimal import Decimal

import pytest
from conftest import LAYOUT, WARM, wren_street

import coldtally
from coldtally import Limit, Range

UTC = datetime.timezone.utc
COMMAND = os.environ.get("COLDTALLY_COMMAND")
LEAFLET = Range(Limit(C=2), Limit(C=8))


def day(hour, minute=0):
    return datetime.datetime(2026, 3, 3, hour, minute, tzinfo=UTC)


# (the command line's words, the same in Python); every instant is stated, so that the clock stands in nothing
AT = "2026-03-03T%02d:00:00Z"
STORY = [
    (
        "site 'Small Clinic, invented' America/Chicago --stale-after '1 h'",
        lambda l, **d: l.post_draft(
            coldtally.Site(by="qa", name="Small Clinic, invented", zone="America/Chicago", stale_after_s=3600), **d
        ),
    ),
    (
        "product pine Pine --low 2C --high 8C --freeze-limit 0C --allowance 8C 25C 1h 'leaflet, invented' "
        "--beyond-use puncture 24h --cvx 999 --gtin 00000000000017 --doses-per-vial 10",
        lambda l, **d: l.post_draft(
            coldtally.Product(
                by="qa",
                product="pine",
                name="Pine",
                range=LEAFLET,
                freeze_limit=Limit(C=0),
                beyond_use={"puncture": 86400},
                cvx="999",
                gtin=["00000000000017"],
                allowances=[coldtally.Allowance(coldtally.Band(Limit(C=8), Limit(C=25)), 3600, "leaflet, invented")],
                doses_per_vial=10,
            ),
            **d,
        ),
    ),
    (
        "lot pine P1 2027-06",
        lambda l, **d: l.post_draft(coldtally.Lot(by="qa", product="pine", lot="P1", expiry="2027-06"), **d),
    ),
    (
        "place annex Annex refrigerator --low 2C --high 8C --max-gap 1h --max-check-gap '18 h'",
        lambda l, **d: l.post_draft(
            coldtally.Place(
                by="qa",
                place="annex",
                name="Annex",
                type="refrigerator",
                range=LEAFLET,
                max_gap_s=3600,
                max_check_gap_s=64800,
            ),
            **d,
        ),
    ),
    (
        "place box Carrier 'transport container' --low 2C --high 8C",
        lambda l, **d: l.post_draft(
            coldtally.Place(by="qa", place="box", name="Carrier", type="transport container", range=LEAFLET), **d
        ),
    ),
    (
        "probe p2 F --serial 4411",
        lambda l, **d: l.post_draft(coldtally.Probe(by="qa", probe="p2", scale="F", serial="4411"), **d),
    ),
    (
        f"certificate p2 2027-09-15 --number c7 --tolerance 0.5 --correction 32 0.2 --correction 50 0.1 --at {AT % 8}",
        lambda l, **d: l.post_draft(
            coldtally.Certificate(
                by="qa",
                at=day(8),
                probe="p2",
                expires=datetime.date(2027, 9, 15),
                number="c7",
                tolerance=Decimal("0.5"),
                correction=[(32, Decimal("0.2")), (50, Decimal("0.1"))],
            ),
            **d,
        ),
    ),
    (
        f"assign p2 annex --at {AT % 8}",
        lambda l, **d: l.post_draft(coldtally.Assign(by="qa", at=day(8), probe="p2", place="annex"), **d),
    ),
    (
        f"receive P1 20 --place fridge --fund state --note 'van 2' --at {AT % 9}",
        lambda l, **d: l.receive("P1", 20, by="qa", place="fridge", fund="state", note="van 2", at=day(9), **d),
    ),
    (
        f"receive P2 6 --product pine --expiry 2027-08-31 --place annex --fund= --at {AT % 9}",
        lambda l, **d: l.receive(
            "P2", 6, by="qa", product="pine", expiry=datetime.date(2027, 8, 31), place="annex", fund="", at=day(9), **d
        ),
    ),
    (
        f"check fridge 4.2C --min 3.1 --max 6.0 --at {AT % 9}",
        lambda l, **d: l.check(
            "fridge", Decimal("4.2"), by="qa", scale="C", min=Decimal("3.1"), max="6.0", at=day(9), **d
        ),
    ),
    (
        f"move P1 annex --from fridge --doses 5 --to-mark 'bin 2' --at {AT % 10}",
        lambda l, **d: l.move("P1", "annex", by="qa", from_="fridge", doses=5, to_mark="bin 2", at=day(10), **d),
    ),
    (
        f"give P1 t-1 --place fridge --at {AT % 10}",
        lambda l, **d: l.give("P1", "t-1", by="qa", place="fridge", at=day(10), **d),
    ),
    (
        f"give P1 t-2 --place fridge --doses 2 --lot-only --at {AT % 10}",
        lambda l, **d: l.give("P1", "t-2", by="qa", place="fridge", doses=2, certain=False, at=day(10), **d),
    ),
    (
        f"waste P1 1 dropped --place fridge --at {AT % 11}",
        lambda l, **d: l.waste("P1", 1, "dropped", by="qa", place="fridge", at=day(11), **d),
    ),
    (
        f"return E1 2 'to the maker' --at {AT % 11}",
        lambda l, **d: l.return_("E1", 2, "to the maker", by="qa", at=day(11), **d),
    ),
    (
        f"transfer E1 2 'Harbour Street' 'used sooner there' --handover theirs-E1.json --at {AT % 11}",
        lambda l, **d: l.transfer(
            "E1",
            2,
            "Harbour Street",
            "used sooner there",
            by="qa",
            handover=os.path.join(os.path.dirname(l.path), "mine-E1.json"),
            at=day(11),
            **d,
        ),
    ),
    (f"count E1 6 --at {AT % 11}", lambda l, **d: l.count("E1", 6, by="qa", at=day(11), **d)),
    (
        f"hold 'door found open' --lot P1 --place annex --at {AT % 11}",
        lambda l, **d: l.hold("door found open", by="qa", lot="P1", place="annex", at=day(11), **d),
    ),
    (
        f"guidance P1 use-by --use-by 2026-06-30 --through {AT % 11} --issuer 'Pine Works, invented' "
        f"--reference 'case 7' --told-out-of-range '1 min' --told-unmonitored 0s --told-points 1 --at {AT % 12}",
        lambda l, **d: l.guidance(
            "P1",
            "use-by",
            by="qa",
            use_by=datetime.date(2026, 6, 30),
            through=day(11),
            issuer="Pine Works, invented",
            reference="case 7",
            told=coldtally.Told(60, 0, 1),
            at=day(12),
            **d,
        ),
    ),
    (
        f"beyond-use P1 --event puncture --place fridge --at {AT % 12}",
        lambda l, **d: l.beyond_use("P1", by="qa", event="puncture", place="fridge", at=day(12), **d),
    ),
    (
        f"loan 21 private 'none of theirs' --at {AT % 12}",
        lambda l, **d: l.loan(21, "private", "none of theirs", by="qa", at=day(12), **d),
    ),
    (
        f"receive P1 1 --place fridge --fund state --note 'another box' --at {AT % 12}",
        lambda l, **d: l.receive("P1", 1, by="qa", place="fridge", fund="state", note="another box", at=day(12), **d),
    ),
    (f"repayment 30 1 --with 31 --at {AT % 12}", lambda l, **d: l.repayment(30, 1, by="qa", with_=31, at=day(12), **d)),
    (
        f"trained 'A. Person' storage --due 2027-03-02 --reference 'folder 3' --at {AT % 12}",
        lambda l, **d: l.trained(
            "A. Person", "storage", by="qa", due=datetime.date(2027, 3, 2), reference="folder 3", at=day(12), **d
        ),
    ),
    (
        f"patient-step 21 told --text 'by telephone' --at {AT % 12}",
        lambda l, **d: l.patient_step(21, "told", by="qa", text="by telephone", at=day(12), **d),
    ),
    (
        f"patient-step t-2 'not needed' --lot P1 --product pine --every --at {AT % 12}",
        lambda l, **d: l.patient_step(
            "t-2", "not needed", by="qa", lot="P1", product="pine", every=True, at=day(12), **d
        ),
    ),
    (
        f"check fridge 9.5 --min 9.0 --max 9.9 --at {AT % 12}",
        lambda l, **d: l.check("fridge", Decimal("9.5"), by="qa", min=9, max=Decimal("9.9"), at=day(12), **d),
    ),
    (
        f"takeback 22 'entered twice' --yes --at {AT % 12}",
        lambda l, **d: l.takeback(22, "entered twice", by="qa", at=day(12), yes=True, **d),
    ),
    (
        "pack fridge box 'annex refrigerator' --temp 6.5C --container-temp 4.1C --lot P1 --unsuited take "
        "--coolant 'packs, 5 C' --conditioning '3 h' --approval none --packed-by mq --reason relocation "
        f"--at {AT % 13}",
        lambda l, **d: l.pack(
            "fridge",
            "box",
            "annex refrigerator",
            by="qa",
            temperature=Decimal("6.5"),
            container_temperature=Decimal("4.1"),
            scale="C",
            lots=["P1"],
            unsuited="take",
            coolant="packs, 5 C",
            conditioning="3 h",
            approval="none",
            packed_by="mq",
            reason="relocation",
            at=day(13),
            **d,
        ),
    ),
    (
        f"unpack box annex --count P1=13 --container-temp 5.2C --received-by mq --at {AT % 14}",
        lambda l, **d: l.unpack(
            "box",
            "annex",
            by="qa",
            counts={"P1": 13},
            container_temperature=Decimal("5.2"),
            scale="C",
            received_by="mq",
            at=day(14),
            **d,
        ),
    ),
    (
        f"hold 'all that is in it' --place annex --at {AT % 14}",
        lambda l, **d: l.hold("all that is in it", by="qa", place="annex", at=day(14), **d),
    ),
    (
        f"receive V1 20 --product pine --expiry 2027-08 --place annex --fund= --at {AT % 15}",
        lambda l, **d: l.receive(
            "V1", 20, by="qa", product="pine", expiry="2027-08", place="annex", fund="", at=day(15), **d
        ),
    ),
    (
        f"give V1 t-8 --opened {AT % 15} --vial 'vial 1' --vial-doses 10 --at {AT % 16}",
        lambda l, **d: l.give("V1", "t-8", by="qa", opened=day(15), vial="vial 1", vial_doses=10, at=day(16), **d),
    ),
    (
        f"waste V1 1 spilled --vial 'vial 2' --vial-doses 4 --mark= --at {AT % 16}",
        lambda l, **d: l.waste("V1", 1, "spilled", by="qa", vial="vial 2", vial_doses=4, mark="", at=day(16), **d),
    ),
    (
        f"beyond-use V1 --vial 'vial 3' --vial-doses 6 --mark= --at {AT % 16}",
        lambda l, **d: l.beyond_use("V1", by="qa", vial="vial 3", vial_doses=6, mark="", at=day(16), **d),
    ),
]


@pytest.fixture
def two(small, tmp_path):
    """The same ledger twice: for the command line and for Python."""
    other = tmp_path / "other.ledger"
    shutil.copy(small, other)
    return small, other


def run(path, words, *more):
    done = subprocess.run(
        [COMMAND, *shlex.split(words), *more],
        env={**os.environ, "COLDTALLY_BY": "qa", "COLDTALLY_LEDGER": str(path)},
        capture_output=True,
        text=True,
        cwd=os.path.dirname(path),
    )
    assert done.returncode == 0, (words, done.stderr)
    return done.stdout


def without_recorded(ledger):
    return [{k: v for k, v in json.loads(line).items() if k != "recorded"} for line in ledger.export()]


def unclocked(text):
    """Without the now that changes and a handover are of, and without the ledger's name, which is as long for both."""
    text = re.sub(r"\b(small|other)\.ledger", "LEDGER", text)
    if "-E1.json" in text:  # files of each their own, in folders of other names
        text = re.sub(r"[^\"'\s]*\b(mine|theirs)-E1\.", "E1.", re.sub(r"\s+", " ", text))
    text = re.sub(r'"at":"[^"]*","known_on":"[^"]*",?', "", text)
    return re.sub(r"\d{4}-\d\d-\d\d \d\d:\d\d:\d\d \(", "(", text)


def test_the_command_lines_story(two):
    if not COMMAND:
        pytest.skip("COLDTALLY_COMMAND names no command line to compare with")
    theirs, mine = two
    with coldtally.Ledger(mine) as ledger:
        for words, work in STORY:
            dry = work(ledger, dry_run=True)
            table = run(theirs, words, "--dry-run")
            assert dry.dry_run and unclocked(dry.to_table()) == unclocked(table), words
            posted = work(ledger)
            assert unclocked(posted.to_json()) == unclocked(run(theirs, words, "--format", "json")), words
            assert posted.to_dict() == json.loads(posted.to_json()) and not posted.dry_run and posted.entries[0].entry
            assert all(isinstance(e, coldtally.Entry) for e in posted.entries)
        with coldtally.Ledger(theirs) as other:
            assert without_recorded(ledger) == without_recorded(other)


def test_a_plan_from_a_file_and_from_its_parts(two, tmp_path):
    parts = {
        "people": [{"name": "A. Example", "role": "coordinator", "office": "555-0101"}],
        "reviewed": "2026-02-01",
        "review_due": "2027-02-01",
    }
    theirs, mine = two
    with coldtally.Ledger(mine) as ledger:
        posted = ledger.new_plan(coldtally.ContingencyPlan.from_dict(parts), by="qa", at=day(12))
        assert posted.warnings and posted.entries[0].review_due == datetime.date(2027, 2, 1)
        assert ledger.new_plan(parts, by="qa", at=day(12), dry_run=True).entries[0].people == posted.entries[0].people
        answer = ledger.plan(at=day(13))
        assert (
            answer.plan == coldtally.ContingencyPlan.from_dict(parts)
            and answer.plan.to_dict() == answer.to_dict()["plan"]
            and answer.findings
        )
        with pytest.raises(coldtally.UnknownField):
            ledger.new_plan({**parts, "peple": []}, by="qa")
        with pytest.raises(coldtally.UnknownField, match="by: is not a part of a plan"):
            ledger.new_plan({**parts, "by": "zz"}, by="qa")
    if COMMAND:
        (tmp_path / "plan.json").write_text(json.dumps(parts))
        assert (
            run(theirs, f"new-plan '{tmp_path / 'plan.json'}' --at {AT % 12}", "--format", "json") == posted.to_json()
        )


ASKED_AT = datetime.datetime(2026, 3, 1, 18, tzinfo=UTC)
BOTH_SCALES = Range(Limit(C=2, F=36), Limit(C=8, F=46))


def define_asked(ledger):
    """A site, a product and a refrigerator; what was posted of the first two."""
    now = ASKED_AT
    first = ledger.post_draft(coldtally.Site(by="qa", name="Asked, invented", zone="UTC"), now=now)
    made = ledger.post_draft(
        coldtally.Product(by="qa", product="oak", name="Oak", range=BOTH_SCALES, freeze_limit=Limit(C=0, F=32)), now=now
    )
    ledger.post_draft(
        coldtally.Place(by="qa", place="main", name="Main", type="refrigerator", range=BOTH_SCALES), now=now
    )
    return first, made


def five_doses_warm_for_half_an_hour(ledger):
    now = ASKED_AT
    ledger.receive("O1", 5, by="qa", product="oak", place="main", expiry="2027-05", at="2026-03-01T16:00:00Z", now=now)
    for degrees, at in ((4, "16:00"), (17, "16:30"), (4, "17:00"), (4, "17:55")):
        ledger.check("main", degrees, by="qa", scale="C", at=f"2026-03-01T{at}:00Z", now=now)


def test_definitions_keep_what_they_do_not_state(tmp_path):
    now = ASKED_AT
    with coldtally.Ledger(tmp_path / "asked.ledger") as ledger:
        first, made = define_asked(ledger)
        assert isinstance(first, coldtally.PostedDefinition) and first.changes is None
        assert "range: 2 °C (36 °F) to 8 °C (46 °F)" in made.read_back and "range: 2 °C (36 °F)" in made.to_table()
        with pytest.raises(coldtally.MissingField, match="note: must say why: its upper limit, 18 °C"):
            ledger.post_draft(
                {"kind": "place", "by": "qa", "place": "main", "range": {"high": {"C": 18, "F": "64.4"}}}, now=now
            )
        five_doses_warm_for_half_an_hour(ledger)
        named = ledger.post_draft({"kind": "product", "by": "qa", "product": "oak", "name": "Oak II"}, now=now)
        assert (
            named.entries[0].range == BOTH_SCALES
            and named.entries[0].freeze_limit == Limit(C=0, F=32)
            and named.changes.holdings == ()
        )


def test_definitions_ask_before_they_loosen(tmp_path):
    now = ASKED_AT
    with coldtally.Ledger(tmp_path / "asked.ledger") as ledger:
        define_asked(ledger)
        five_doses_warm_for_half_an_hour(ledger)
        count = len(list(ledger.export()))
        drop = {"kind": "product", "by": "qa", "product": "oak", "note": "as the letter says"}
        with pytest.raises(
            coldtally.MissingField, match="yes: must be stated: LOOSER: high 8 °C .46 °F. -> none; LOOSENS: 5 doses"
        ):
            ledger.post_draft(drop, without=["high"], now=now)
        assert len(list(ledger.export())) == count
        tried = ledger.post_draft(drop, without=["high"], now=now, dry_run=True)
        assert (
            tried.dry_run
            and tried.changes.holdings[0].after.list == "keep"
            and any(w.startswith("LOOSENS: 5 doses") for w in tried.warnings)
        )
        # what is on hold loses a reason; what is looser is asked about whatever the lists show
        hold = ledger.hold("a recall, invented", by="qa", product="oak", at="2026-03-01T17:56:00Z", now=now)
        wider = {
            "kind": "product",
            "by": "qa",
            "product": "oak",
            "note": "as the letter says",
            "range": {"high": {"C": 20, "F": 68}},
        }
        with pytest.raises(coldtally.MissingField, match="loses warm, point; on quarantine-pending-guidance for held"):
            ledger.post_draft(wider, now=now)
        with pytest.raises(
            coldtally.MissingField,
            match="LOOSER: a reading speaks for the time around it up to 30 min -> 1 h; "
            "LOOSENS: of 1 excursion recorded",
        ):
            ledger.post_draft({"kind": "place", "by": "qa", "place": "main", "near_s": 3600}, now=now)
        assert len(list(ledger.export())) == count + 1
        count = len(list(ledger.export()))
        with pytest.raises(
            coldtally.MissingField,
            match="yes: must be stated: LOOSENS: 5 doses would lose a reason not to be used: .* loses held",
        ):
            ledger.takeback(hold.entries[0].entry, "invented", by="qa", now=now)
        with pytest.raises(coldtally.MissingField, match="loses held"):
            ledger.post_draft(coldtally.Void(by="qa", voids=hold.entries[0].entry, reason="invented"), now=now)
        assert len(list(ledger.export())) == count
        assert ledger.takeback(hold.entries[0].entry, "invented", by="qa", now=now, dry_run=True).changes.holdings[
            0
        ].differs == ("reasons", "history")
        ledger.takeback(hold.entries[0].entry, "invented", by="qa", yes=True, now=now)
        assert ledger.post_draft(drop, without="high", yes=True, now=now).entries[0].range.high is None


def test_tokens_like_what_a_person_is_known_by_are_warned_of(tmp_path):
    now = ASKED_AT
    with coldtally.Ledger(tmp_path / "asked.ledger") as ledger:
        define_asked(ledger)
        five_doses_warm_for_half_an_hour(ledger)
        with pytest.warns(coldtally.EntryWarning, match="line 1: patient: the token looks like a name"):
            numbers = ledger.post(
                {
                    "kind": "give",
                    "by": "qa",
                    "at": "2026-03-01T17:58:00Z",
                    "place": "main",
                    "product": "oak",
                    "lot": "O1",
                    "patient": "Roe",
                },
                now=now,
            )
        assert numbers == [ledger.review(at=now, all=True, now=now).doses[0].entry]
        assert any(
            "looks like a date of birth" in w
            for w in ledger.give("O1", "1960-04-12", by="qa", at="2026-03-01T17:59:00Z", now=now, dry_run=True).warnings
        )


def test_what_is_filled_in_and_warned_of(small):
    now = datetime.datetime(2026, 3, 1, 18, 5, tzinfo=UTC)
    with coldtally.Ledger(small) as ledger:
        given = ledger.give("E1", "t-9", by="ab", at="11:30", now=now)  # today, by the clinic's clock
        assert (
            given.entries[0].at == datetime.datetime(2026, 3, 1, 17, 30, tzinfo=UTC)
            and given.entries[0].product == "elm"
        )
        assert any("place" in words for words in given.filled)
        with pytest.raises(coldtally.NotDefined):
            ledger.give("E9", "t-9", by="ab", now=now)
        with pytest.raises(coldtally.MissingField, match="freezing"):
            ledger.check("fridge", Decimal("-0.5"), by="ab", scale="C", now=now)
        frozen = ledger.check("fridge", Decimal("-0.5"), by="ab", scale="C", note="marked, supervisor told", now=now)
        assert frozen.warnings and frozen.next_steps and "DO NOT USE" in " ".join(frozen.next_steps)
        with pytest.raises(coldtally.WrongType, match="a float is not"):
            ledger.check("fridge", 4.2, by="ab", scale="C", now=now)
        with pytest.raises(coldtally.BadValue, match="has no time zone"):
            ledger.give("E1", "t-9", by="ab", at=datetime.datetime(2026, 3, 1, 9), now=now)
        with pytest.raises(coldtally.WrongType, match="doses: 1.5: is a float"):
            ledger.waste("E1", 1.5, "x", by="ab", now=now)
        before = list(ledger.export())
        assert ledger.give("E1", "t-9", by="ab", now=now, dry_run=True).dry_run and list(ledger.export()) == before


def test_an_opened_vial_and_one_that_is_not_noted(small):
    """Common practice, no source: an opened vial gets a date of its own. The product is invented."""
    with coldtally.Ledger(small) as ledger:
        product = coldtally.Product(
            by="qa",
            product="pine",
            name="Pine, invented",
            range=LEAFLET,
            beyond_use={"first puncture": 86400},
            doses_per_vial=10,
        )
        ledger.post([product, coldtally.Lot(by="qa", product="pine", lot="V1", expiry="2027-08")])
        ledger.receive("V1", 20, by="qa", product="pine", place="fridge", fund="", at=day(8))
        offered = ledger.give("V1", "t-1", by="qa", at=day(9), dry_run=True)
        assert (
            any("NO OPENING IS NOTED" in w for w in offered.warnings)
            and not offered.opening.noted
            and offered.opening.vial is None
        )
        assert (offered.opening.vial_doses, offered.opening.period_s, offered.opening.event) == (
            10,
            86400,
            "first puncture",
        )
        noted = ledger.give("V1", "t-1", by="qa", opened=day(8, 30), vial="vial 1", at=day(9))
        assert (
            [e.kind for e in noted.entries] == ["move", "beyond-use", "give"]
            and noted.opening.noted
            and noted.opening.opened == day(8, 30)
        )
        assert not noted.opening.last_use.whole_day and noted.opening.last_use.until == day(8, 30) + datetime.timedelta(
            days=1
        )
        held = {h.mark: (h.doses, h.last_use.set_by) for h in ledger.stock(at=day(9)) if h.lot == "V1"}
        assert held == {"": (10, "expiry"), "vial 1": (9, "beyond-use")}
        with pytest.raises(coldtally.WrongType, match="vial_doses"):
            ledger.give("V1", "t-2", by="qa", vial="v", vial_doses=2.5)


def harbour_street(ledger, path):
    """The other site, which knows the product and the lot."""
    there = coldtally.Ledger(path)
    definitions = [
        e for e in ledger.entries() if isinstance(e, (coldtally.Product, coldtally.Lot)) and e.product == "elm"
    ]
    there.post(
        [
            coldtally.Site(by="qa", name="Harbour Street, invented", zone="UTC"),
            *definitions,
            coldtally.Place(by="qa", place="unit", name="Unit", type="refrigerator", range=LEAFLET),
        ]
    )
    return there


def test_a_transfer_writes_its_handover(small, tmp_path):
    with coldtally.Ledger(small) as ledger:
        sent = ledger.transfer(
            "E1", 3, "Harbour Street", "used sooner there", by="qa", handover=tmp_path / "h.json", at=day(11)
        )
        assert sent.files == (str(tmp_path / "h.json"), str(tmp_path / "h.txt")) and sent.handover.doses == 3
        assert json.loads((tmp_path / "h.json").read_text()) == sent.handover.to_dict()
        sheet = " ".join((tmp_path / "h.txt").read_text().split())
        assert "handover of doses that leave for Harbour Street" in sheet and coldtally.caution in sheet
        again = ledger.handover(sent.handover.transfer, file=tmp_path / "again.json", at=day(11))
        assert "handover of doses that leave for Harbour Street" in again.to_table()
        assert (
            again.handover == sent.handover.handover
            and json.loads((tmp_path / "again.json").read_text())["handover"] == again.handover.to_dict()
        )
        assert all("/" in place for place in again.handover.places)
        with pytest.raises(coldtally.Contradiction, match="none is overwritten"):
            ledger.transfer(
                "E1", 1, "Harbour Street", "used sooner there", by="qa", handover=tmp_path / "h.json", at=day(11)
            )
        with pytest.raises(coldtally.NotKnown, match="must be a transfer"):
            ledger.handover(1)
        count = len(list(ledger.export()))
        unwritten = ledger.transfer("E1", 1, "Harbour Street", "used sooner there", by="qa", at=day(11))
        assert (
            unwritten.files == ()
            and unwritten.handover.handover is not None
            and len(list(ledger.export())) == count + 1
        )
        # where their history must go with them, that none was written is said, and what writes it
        said = [w for w in unwritten.warnings if w.startswith("NO HANDOVER IS WRITTEN")]
        assert (
            unwritten.handover.needed and len(said) == 1 and f"entry {unwritten.handover.transfer} " in said[0]
        ), unwritten.warnings
        assert not any("NO HANDOVER" in w for w in sent.warnings)


def test_a_handover_is_what_the_other_site_receives(small, tmp_path):
    with coldtally.Ledger(small) as ledger, harbour_street(ledger, tmp_path / "there.ledger") as there:
        sent = ledger.transfer(
            "E1", 3, "Harbour Street", "used sooner there", by="qa", handover=tmp_path / "h.json", at=day(11)
        )
        again = ledger.handover(sent.handover.transfer, file=tmp_path / "again.json", at=day(11))
        unwritten = ledger.transfer("E1", 1, "Harbour Street", "used sooner there", by="qa", at=day(11))
        with pytest.raises(coldtally.HandoverDiffers, match="it states 3"):
            there.receive("E1", 4, by="qa", place="unit", fund="", handover=tmp_path / "h.json", at=day(11))
        taken = there.receive("E1", 3, by="qa", place="unit", fund="", handover=tmp_path / "h.json", at=day(11))
        assert (
            taken.entries[0].note == f"handover of {sent.handover.ledger}, transfer {sent.handover.transfer}; "
            "the way: none, received at the instant they left"
        )
        received = there.lists(at=day(11)).holdings[0]
        assert received.history.warm == again.handover.warm and set(again.handover.places) < set(
            received.history.places
        )
        alone = there.receive(
            "E1", 1, by="qa", place="unit", fund="", mark="the other", handover=unwritten.handover.handover, at=day(11)
        )
        assert any(w.startswith("NOTHING BINDS") for w in alone.warnings)
        with pytest.raises(coldtally.Machine):
            there.receive("E1", 3, by="qa", place="unit", fund="", handover=tmp_path / "nowhere.json", at=day(11))
        (tmp_path / "not.json").write_text("no")
        with pytest.raises(coldtally.BadJson):
            there.receive("E1", 3, by="qa", place="unit", fund="", handover=tmp_path / "not.json", at=day(11))


def test_doses_on_hold_are_received_on_hold_unless_it_is_said_why_not(small, tmp_path):
    with coldtally.Ledger(small) as ledger, harbour_street(ledger, tmp_path / "there.ledger") as there:
        ledger.hold("dropped box", by="qa", lot="E1", at=day(11))
        held = ledger.transfer("E1", 1, "Harbour Street", "used sooner there", by="qa", at=day(11)).handover
        assert held.to_hold == ("dropped box",)
        off = there.receive(
            "E1",
            1,
            by="qa",
            place="unit",
            fund="",
            mark="new",
            handover=held,
            no_hold="lifted",
            at=day(11),
            dry_run=True,
        )
        assert len(off.entries) == 1 and off.entries[0].note.startswith("not put on hold: lifted; handover of ")
        on = there.receive("E1", 1, by="qa", place="unit", fund="", mark="new", handover=held, at=day(11))
        assert [e.kind for e in on.entries] == ["receive", "hold"] and on.entries[1].mark == "new"
        assert ["held" in r.reasons for r in there.lists(at=day(11)).holdings if r.mark == "new"] == [True]


def test_changes_are_shown_and_nothing_is_written(small):
    now = datetime.datetime(2026, 3, 1, 18, 5, tzinfo=UTC)
    with coldtally.Ledger(small) as ledger:
        before = list(ledger.export())
        changes = ledger.changes(coldtally.Hold(by="ab", at=now, reason="recall, invented", product="elm"), now=now)
        assert list(ledger.export()) == before
        change = changes.holdings[0]
        assert (change.lot, change.before.doses, change.after.list) == ("E1", 10, "quarantine-pending-guidance")
        assert (
            changes.to_dict() == json.loads(changes.to_json())
            and "recall" in changes.to_table()
            or "held" in changes.to_table()
        )
        taken = ledger.takeback(7, "never came", by="ab", now=now, dry_run=True)
        assert isinstance(taken.entries[0], coldtally.Void) and taken.changes.holdings[0].after is None
        with pytest.raises(coldtally.InUse):
            ledger.takeback(3, "no such lot", by="ab", now=now)


THAT_EVENING = {"at": "2026-03-01T20:00:00Z", "known_on": "2199-01-01T00:00:00Z"}


def import_and_notice(ledger, folder):
    imported = ledger.import_readings("p", folder / "march.csv", by="qa", layout=coldtally.Layout.from_dict(LAYOUT))
    assert [e.side for e in imported.found.without_incident] == ["warm"] and imported.found.incidents == ()
    assert "nobody has opened an incident" in imported.to_table() and imported.to_dict() == json.loads(
        imported.to_json()
    )
    assert imported.files[0].layout.columns.temperature == 2
    noticed = ledger.notice("main", "door ajar", by="qa", at="2026-03-01T16:00:00Z")
    assert noticed.entries[0] == coldtally.Incident(
        by="qa", at="2026-03-01T16:00:00Z", entry=13, incident="2026-1", step="noticed", text="door ajar", place="main"
    )
    told = ledger.step("2026-1", "supervisor told", "by telephone", by="qa", at="2026-03-01T16:30:00Z")
    assert told.entries[0].step == "supervisor told"
    with pytest.raises(coldtally.NotKnown):
        ledger.step("2026-9", "cause", "typed wrong", by="qa")
    return imported


def report_to_maker(ledger):
    with pytest.raises(coldtally.MissingField, match="have not been counted"):
        ledger.report("2026-1", "manufacturer", "M Works", by="qa", at="2026-03-01T20:00:00Z")
    sent = ledger.report(
        "2026-1", "manufacturer", "M Works", by="qa", reference="case 7", uncounted=True, at="2026-03-01T20:00:00Z"
    )
    report = sent.entries[0]
    assert (
        isinstance(report, coldtally.Report)
        and not report.counted
        and report.told[0].doses > 0
        and report.told[0].out_of_range_s > 3600
    )
    whole = ledger.incident("2026-1", **THAT_EVENING)
    assert (
        [d.step for d in whole.duties if d.state != "done"]
        and whole.patients >= 1
        and whole.given[0].patient is None
        and whole.makers[0].maker == "M Works"
    )
    assert ledger.incident("2026-1", patients=True, **THAT_EVENING).given[0].patient == "t-1"
    assert {f.rule for f in whole.findings if f.at_least.met} == {"hour"}
    return report


def answer_of_maker(ledger, report):
    shown = ledger.answer(
        report.entry, "mmr", "K1", "use", issuer="M Works", reference="letter 9", by="qa", at="2026-03-01T23:00:00Z"
    )
    assert (
        shown.posted == ()
        and isinstance(shown.entries[0], coldtally.Guidance)
        and shown.to_dict() == json.loads(shown.to_json())
    )
    assert [h.before.list for h in shown.holdings] == ["quarantine-pending-guidance"]
    count = len(list(ledger.export()))
    posted = ledger.answer(
        report.entry,
        "mmr",
        "K1",
        "use",
        issuer="M Works",
        reference="letter 9",
        by="qa",
        at="2026-03-01T23:00:00Z",
        post=True,
        despite="read over the telephone",
    )
    assert len(list(ledger.export())) == count + len(posted.posted) > count
    with pytest.raises(coldtally.Contradiction, match="use_by: comes with the verdict"):
        ledger.answer(report.entry, "mmr", "K1", "use-by", issuer="M Works", reference="letter 9", by="qa")


def test_from_a_loggers_file_to_the_answer_of_a_maker(tmp_path):
    wren_street(tmp_path / "mine.ledger")
    (tmp_path / "march.csv").write_text(WARM)
    with coldtally.Ledger(tmp_path / "mine.ledger") as ledger:
        import_and_notice(ledger, tmp_path)
        answer_of_maker(ledger, report_to_maker(ledger))


@pytest.mark.skipif(not COMMAND, reason="COLDTALLY_COMMAND names no command line to compare with")
def test_the_same_at_the_command_line_makes_a_ledger_that_holds_and_answers_the_same(tmp_path):
    theirs, mine = tmp_path / "theirs.ledger", tmp_path / "mine.ledger"
    wren_street(mine)
    (tmp_path / "march.csv").write_text(WARM)
    (tmp_path / "layout.json").write_text(json.dumps(LAYOUT))
    with coldtally.Ledger(mine) as ledger:
        imported = import_and_notice(ledger, tmp_path)
        report = report_to_maker(ledger)
        answer_of_maker(ledger, report)
        with coldtally.Ledger(theirs) as other:
            other.post_json(
                "\n".join(
                    json.dumps({k: v for k, v in json.loads(line).items() if k not in ("entry", "recorded")})
                    for line in list(ledger.export())[:11]
                )
            )

        def run(*words):
            return subprocess.run(
                [COMMAND, *words, *(["--format", "json"] if words[0] != "step" else [])],
                env={**os.environ, "COLDTALLY_BY": "qa"},
                capture_output=True,
                text=True,
                check=True,
            ).stdout

        found = run("import", theirs, "--probe", "p", "--layout", tmp_path / "layout.json", tmp_path / "march.csv")
        same = lambda text: {k: v for k, v in json.loads(text).items() if k != "found"}
        assert (
            same(found) == same(imported.to_json())
            and json.loads(found)["found"]["without_incident"] == imported.to_dict()["found"]["without_incident"]
        )
        run("notice", theirs, "--place", "main", "--text", "door ajar", "--at", "2026-03-01T16:00:00Z")
        run("step", theirs, "2026-1", "supervisor told", "--text", "by telephone", "--at", "2026-03-01T16:30:00Z")
        run(
            "report",
            theirs,
            "2026-1",
            "--to",
            "manufacturer",
            "--recipient",
            "M Works",
            "--reference",
            "case 7",
            "--uncounted",
            "--at",
            "2026-03-01T20:00:00Z",
        )
        run(
            "answer",
            theirs,
            str(report.entry),
            "mmr",
            "K1",
            "--verdict",
            "use",
            "--issuer",
            "M Works",
            "--reference",
            "letter 9",
            "--at",
            "2026-03-01T23:00:00Z",
            "--yes",
            "--despite",
            "read over the telephone",
        )
        with coldtally.Ledger(theirs) as other:
            assert without_recorded(other) == without_recorded(ledger)
            assert (
                other.incident("2026-1", **THAT_EVENING).to_json()
                == ledger.incident("2026-1", **THAT_EVENING).to_json()
            )
