"""What the Python tests share: the demo clinic's ledger, made once by the package alone."""
import pathlib
import sys

import pytest

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "examples" / "python"))

AT = "2026-05-29T17:00:00"


@pytest.fixture(scope="session")
def demo(tmp_path_factory):
    import heron_flats

    return heron_flats.make(tmp_path_factory.mktemp("demo"))


def wren_street(path):
    """An invented clinic with rules, a maker, a warm morning and a dose given at noon."""
    import coldtally

    leaflet = coldtally.Range(coldtally.Limit(C=2), coldtally.Limit(C=8))
    with coldtally.Ledger(path) as ledger:
        ledger.post(
            [
                coldtally.Site(by="qa", name="Wren Street Practice, invented", zone="UTC"),
                coldtally.Place(by="qa", place="main", name="Refrigerator", type="refrigerator", range=leaflet),
                coldtally.Probe(by="qa", probe="p", scale="C"),
                coldtally.Assign(by="qa", at="2026-03-01T00:00:00Z", probe="p", place="main"),
                coldtally.Product(by="qa", product="mmr", name="M, invented", range=leaflet),
                coldtally.Lot(by="qa", product="mmr", lot="K1", expiry="2099-06"),
                coldtally.Maker(by="qa", product="mmr", name="M Works"),
                coldtally.Rules(
                    by="qa",
                    programme="P",
                    source="invented",
                    dated="2026-01-01",
                    report=[
                        coldtally.Reportable(
                            rule="hour", form="run", temperature=coldtally.RuleTemperatures("above"), at_least_s=3600
                        )
                    ],
                    duties=[coldtally.Duty("health department told", 86400, if_reportable=True)],
                    retention=[coldtally.Retention("temperature logs", 3)],
                ),
                coldtally.Receive(
                    by="qa", at="2026-03-01T01:00:00Z", place="main", product="mmr", lot="K1", doses=24, fund="state"
                ),
                coldtally.Give(
                    by="qa",
                    at="2026-03-01T12:00:00Z",
                    place="main",
                    product="mmr",
                    lot="K1",
                    patient="t-1",
                    fund="state",
                ),
                coldtally.Loan(
                    by="qa", at="2026-03-01T12:00:00Z", give=10, eligible="private", reason="nothing else was there"
                ),
            ]
        )


WARM = (
    "instant,temperature\n"
    + "\n".join(
        f"2026-03-01T{m // 60:02d}:{m % 60:02d}:00Z,{'12.0' if 600 <= m <= 960 else '5.0'}" for m in range(0, 1440, 30)
    )
    + "\n"
)
LAYOUT = {
    "delimiter": ",",
    "decimal": ".",
    "columns": {"instant": 1, "temperature": 2},
    "instant_pattern": "%Y-%m-%dT%H:%M:%S%z",
    "scale": "C",
}


def warm_day_and_its_answer(ledger, folder):
    ledger.import_readings("p", folder / "march.csv", by="qa", layout=LAYOUT)
    ledger.notice("main", "door ajar", by="qa", at="2026-03-01T16:00:00Z")
    ledger.count("K1", 23, by="qa", at="2026-03-01T17:00:00Z")
    report = ledger.report("2026-1", "manufacturer", "M Works", by="qa", at="2026-03-01T20:00:00Z").entries[0]
    ledger.answer(
        report.entry,
        "mmr",
        "K1",
        "use",
        issuer="M Works",
        reference="letter 9",
        by="qa",
        at="2026-03-01T23:00:00Z",
        post=True,
    )


def records_of_the_next_day():
    import coldtally

    leaflet = coldtally.Range(coldtally.Limit(C=2), coldtally.Limit(C=8))
    return [
        coldtally.Place(by="qa", place="box", name="Carrier", type="transport container", range=leaflet),
        coldtally.Certificate(
            by="qa",
            at="2026-03-02T08:00:00Z",
            probe="p",
            expires="2027-01-31",
            tolerance="0.5",
            correction=[("0", "0.1")],
        ),
        coldtally.Check(by="qa", at="2026-03-02T08:00:00Z", place="main", scale="C", temperature="5"),
        coldtally.Check(
            by="qa", at="2026-03-01T08:00:00Z", place="main", scale="C", temperature="7"
        ),  # the logger says 5
        coldtally.Check(
            by="qa", at="2025-03-05T08:00:00Z", place="main", scale="C", temperature="4"
        ),  # the same month a year before
        coldtally.Repayment(by="qa", at="2026-03-02T08:00:00Z", loan=11, doses=1),
        coldtally.FollowUp(by="qa", at="2026-03-02T08:00:00Z", give=10, step="decided", text="no more is needed"),
        coldtally.Training(
            by="qa",
            at="2026-03-02T08:00:00Z",
            person="QA",
            topic="what to do when it is warm",
            due="2027-03-02",
            reference="folder 3",
        ),
        coldtally.Plan(
            by="qa",
            at="2026-03-02T08:00:00Z",
            people=[coldtally.Person("A. Example", "coordinator", alternate=True)],
            signatures=[coldtally.Signature("A. Example", "2026-03-02")],
            services=[coldtally.Service("power company", "555-0100")],
        ),
    ]


def hold_and_doses_that_left():
    import coldtally

    return [
        coldtally.Hold(by="qa", at="2026-03-02T08:00:00Z", reason="seal", product="mmr", lot="K1", place="main"),
        coldtally.Transfer(
            by="qa",
            at="2026-03-02T08:05:00Z",
            place="main",
            product="mmr",
            lot="K1",
            fund="state",
            doses=1,
            reason="short there",
            to="Elm Street",
        ),
        coldtally.Waste(
            by="qa",
            at="2026-03-02T08:10:00Z",
            place="main",
            product="mmr",
            lot="K1",
            fund="state",
            doses=1,
            reason="dropped",
        ),
        coldtally.Return(
            by="qa",
            at="2026-03-02T08:10:00Z",
            place="main",
            product="mmr",
            lot="K1",
            fund="state",
            doses=1,
            reason="surplus",
        ),
        coldtally.BeyondUse(
            by="qa", at="2026-03-02T08:10:00Z", place="main", product="mmr", lot="K1", fund="state", use_by="2098-01-31"
        ),
    ]


def give_on_loan(ledger):
    import coldtally

    given = ledger.give(
        "K1", "t-2", by="qa", place="main", at="2026-03-02T08:15:00Z", note="before the hold was seen"
    ).entries[0]
    ledger.post(
        coldtally.Loan(
            by="qa", at="2026-03-02T08:15:00Z", give=given.entry, eligible="private", reason="nothing else was there"
        )
    )


def journey(ledger):
    ledger.pack(
        "main",
        "box",
        "Elm Street",
        by="qa",
        temperature="5",
        container_temperature="4",
        scale="C",
        unsuited="take",
        reason="avoid waste",
        at="2026-03-02T09:00:00Z",
    )
    ledger.unpack(
        "box",
        "main",
        by="qa",
        as_listed=True,
        temperature="5",
        container_temperature="6",
        scale="C",
        at="2026-03-02T11:00:00Z",
    )


@pytest.fixture(scope="session")
def wren(tmp_path_factory):
    """Wren Street after the incident and a journey: every kind of entry and something in every answer. Invented."""
    import coldtally

    path = tmp_path_factory.mktemp("wren") / "wren.ledger"
    wren_street(path)
    (path.parent / "march.csv").write_text(WARM)
    with coldtally.Ledger(path) as ledger:
        warm_day_and_its_answer(ledger, path.parent)
        ledger.post(records_of_the_next_day() + hold_and_doses_that_left())
        give_on_loan(ledger)
        journey(ledger)
        ledger.takeback(11, "was their own", by="qa", at="2026-03-02T12:00:00Z", dry_run=True)
        wasted = next(e for e in ledger.entries() if isinstance(e, coldtally.Waste))
        ledger.takeback(wasted.entry, "it was another lot", by="qa", at="2026-03-02T12:00:00Z")
    return path


@pytest.fixture
def small(tmp_path):
    """An invented clinic with one refrigerator, one product, one lot; recorded on 1 March 2026."""
    import datetime

    import coldtally

    now = datetime.datetime(2026, 3, 1, 18, tzinfo=datetime.timezone.utc)
    path = tmp_path / "small.ledger"
    limit = coldtally.Limit
    with coldtally.Ledger(path) as ledger:
        ledger.post(
            [
                coldtally.Site(by="ab", name="Small Clinic", zone="America/Chicago"),
                coldtally.Product(
                    by="ab",
                    product="elm",
                    name="Elm",
                    range=coldtally.Range(limit(C=2, F=36), limit(C=8, F=46)),
                    allowances=(coldtally.Allowance(coldtally.Band(limit(C=8), limit(C=25)), 7200, "invented"),),
                ),
                coldtally.Lot(by="ab", product="elm", lot="E1", expiry="2027-05"),
                coldtally.Place(
                    by="ab",
                    place="fridge",
                    name="Fridge",
                    type="refrigerator",
                    range=coldtally.Range(limit(C=2), limit(C=8)),
                ),
                coldtally.Probe(by="ab", probe="p1", scale="C"),
                coldtally.Assign(by="ab", at="2026-03-01T00:00:00Z", probe="p1", place="fridge"),
                coldtally.Receive(
                    by="ab", at="2026-03-01T00:00:00Z", place="fridge", product="elm", lot="E1", doses=10
                ),
            ],
            now=now,
        )
    return path
