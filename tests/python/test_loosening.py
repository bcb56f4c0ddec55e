"""Entries that take doses off a list, or make what was out of range less, need yes=True; those of every day do not. All
data invented."""
import datetime

import pytest

import coldtally
from coldtally import Limit, Range

UTC = datetime.timezone.utc


def day(d, hour, minute=0):
    return datetime.datetime(2026, 11, d, hour, minute, tzinfo=UTC)


NOW = day(27, 10, 5)
LAYOUT = {
    "delimiter": ",",
    "decimal": ".",
    "columns": {"instant": 1, "temperature": 2},
    "instant_pattern": "%Y-%m-%dT%H:%M:%S%z",
    "scale": "C",
}
CALM = (
    "instant,temperature\n"
    + "\n".join(f"2026-11-27T{7 + m // 60:02d}:{m % 60:02d}:00Z,5.0" for m in range(0, 181, 5))
    + "\n"
)


@pytest.fixture
def warm(tmp_path):
    """20 doses in a refrigerator whose display saw 20 °C between 07:00 and 10:00."""
    leaflet = Range(Limit(C=2, F=36), Limit(C=8, F=46))
    ledger = coldtally.Ledger(tmp_path / "warm.ledger")
    ledger.post(
        [
            coldtally.Site(by="qa", name="Invented", zone="UTC"),
            *(coldtally.Place(by="qa", place=p, name=p, type="refrigerator", range=leaflet) for p in ("fr", "ff")),
            coldtally.Product(by="qa", product="ash", name="Ash", range=leaflet),
            coldtally.Lot(by="qa", product="ash", lot="B1", expiry="2027-06"),
            coldtally.Probe(by="qa", probe="q1", scale="C"),
        ],
        now=day(25, 16),
    )
    ledger.receive("B1", 20, by="qa", place="fr", at=day(25, 16), now=day(25, 16, 1))
    ledger.check("fr", 5, by="qa", scale="C", min=4, max=6, at=day(25, 16), now=day(25, 16, 1))
    ledger.post_draft(coldtally.Assign(by="qa", at=day(27, 7), probe="q1", place="fr"), now=day(27, 7))
    for d, hour in ((26, 7), (27, 7)):
        ledger.check("fr", 5, by="qa", min=4, max=6, at=day(d, hour), now=day(d, hour, 1))
    ledger.check("fr", 5, by="qa", min=4, max=20, at=day(27, 10), now=day(27, 10, 1))
    with ledger:
        yield ledger


def last_list(ledger):
    return ledger.lists(now=NOW).holdings[0].list


def test_a_late_check_needs_yes(warm):
    assert last_list(warm) == "quarantine-pending-guidance"
    before = list(warm.export())
    with pytest.raises(coldtally.MissingField, match="of 1 excursion recorded in \"fr\" 0 vanish and 1 is shortened"):
        warm.check("fr", 5, by="qa", at=day(27, 9), now=NOW)
    assert list(warm.export()) == before
    dry = warm.check("fr", 5, by="qa", at=day(27, 9), now=NOW, dry_run=True)
    assert dry.warnings[0].startswith("LOOSENS: less would have been out of range"), dry.warnings
    assert list(warm.export()) == before
    posted = warm.check("fr", 5, by="qa", at=day(27, 9), now=NOW, yes=True)
    assert posted.changes is not None and posted.entries[0].entry == len(before) + 1


def test_a_check_of_every_day_says_nothing(warm):
    posted = warm.check("fr", 5, by="qa", min=4, max=6, at=day(27, 10, 4), now=NOW)
    assert posted.warnings == () and posted.changes is None


def test_a_loggers_file_that_disagrees_needs_loosen(warm):
    before = list(warm.export())
    with pytest.raises(coldtally.MissingField, match="DISAGREE: in \"fr\" the check of entry"):
        warm.import_readings("q1", [("calm.csv", CALM.encode())], by="qa", layout=LAYOUT, now=NOW)
    assert list(warm.export()) == before
    report = warm.import_readings("q1", [("calm.csv", CALM.encode())], by="qa", layout=LAYOUT, loosen=True, now=NOW)
    assert any(w.startswith("DISAGREE") for w in report.warnings) and any(
        "would come off a list" in w for w in report.warnings
    )


def test_what_is_posted_as_it_is_is_warned_of(warm):
    with pytest.warns(coldtally.EntryWarning, match="with these entries: LOOSENS"):
        warm.post(coldtally.Check(by="qa", at=day(27, 9), place="fr", scale="C", temperature=5), now=NOW)


def test_doses_that_move_late_past_a_hold(warm):
    warm.hold("display", by="qa", lot="B1", place="fr", at=day(27, 9, 10), now=NOW)
    with pytest.raises(coldtally.MissingField, match="held"):
        warm.move("B1", "ff", by="qa", to_mark="m", at=day(27, 9, 5), now=NOW)
    moved = warm.move("B1", "ff", by="qa", at=day(27, 10, 4), now=NOW)
    assert any(w.startswith("DO NOT USE: lot \"B1\" comes to \"ff\"") for w in moved.warnings)
