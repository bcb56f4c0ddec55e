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


@pytest.fixture
def small(tmp_path):
    """An invented clinic with one refrigerator, one product, one lot; recorded on 1 March 2026."""
    import datetime

    import coldtally

    now = datetime.datetime(2026, 3, 1, 18, tzinfo=datetime.timezone.utc)
    path = tmp_path / "small.ledger"
    limit = coldtally.Limit
    with coldtally.Ledger(path) as ledger:
        ledger.post([
            coldtally.Site(by="ab", name="Small Clinic", zone="America/Chicago"),
            coldtally.Product(by="ab", product="elm", name="Elm", range=coldtally.Range(limit(C=2, F=36), limit(C=8, F=46)),
                              allowances=(coldtally.Allowance(coldtally.Band(limit(C=8), limit(C=25)), 7200, "invented"),)),
            coldtally.Lot(by="ab", product="elm", lot="E1", expiry="2027-05"),
            coldtally.Place(by="ab", place="fridge", name="Fridge", type="refrigerator", range=coldtally.Range(limit(C=2), limit(C=8))),
            coldtally.Probe(by="ab", probe="p1", scale="C"),
            coldtally.Assign(by="ab", at="2026-03-01T00:00:00Z", probe="p1", place="fridge"),
            coldtally.Receive(by="ab", at="2026-03-01T00:00:00Z", place="fridge", product="elm", lot="E1", doses=10),
        ], now=now)
    return path
