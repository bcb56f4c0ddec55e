"""Doses that left are said in Python as on the command line: what is learnt of them, and that who has them was told.
All data invented."""
import datetime

import pytest

import coldtally
from coldtally import Limit, Range

UTC = datetime.timezone.utc


def june(d, hour, minute=0):
    return datetime.datetime(2026, 6, d, hour, minute, tzinfo=UTC)


NOW = june(5, 15)


@pytest.fixture
def sender(tmp_path):
    """10 of 20 doses leave a refrigerator, of which two checks that are noted later show 11 °C before they left."""
    leaflet = Range(Limit(C=2, F=36), Limit(C=8, F=46))
    with coldtally.Ledger(tmp_path / "sender.ledger") as ledger:
        ledger.post(
            [
                coldtally.Site(by="qa", name="Invented", zone="UTC"),
                *(
                    coldtally.Place(by="qa", place=p, name=p, type="refrigerator", range=leaflet)
                    for p in ("fridge", "annex")
                ),
                coldtally.Product(by="qa", product="ash", name="Ash", range=leaflet),
                coldtally.Lot(by="qa", product="ash", lot="B1", expiry="2027-06"),
            ],
            now=june(1, 7),
        )
        ledger.receive("B1", 20, by="qa", place="fridge", at=june(1, 8), now=june(1, 8))
        ledger.check("fridge", 5, by="qa", scale="C", min=4, max=6, at=june(1, 8), now=june(1, 8))
        ledger.check("fridge", 5, by="qa", scale="C", min=4, max=6, at=june(4, 9), now=june(4, 9))
        sent = ledger.transfer(
            "B1", 10, "Harbour", "used sooner there", by="qa", place="fridge", at=june(4, 10), now=june(4, 10)
        )
        ledger.check("fridge", 11, by="qa", scale="C", at=june(3, 22), now=june(5, 12), yes=True)
        yield ledger, sent.entries[-1].entry


def test_follow_up_changes_and_steps_name_doses_that_left(sender):
    ledger, transfer = sender
    (left,) = ledger.follow_up("B1", now=NOW).left
    assert (left.entry, left.doses, left.to, left.told) == (transfer, 10, "Harbour", None)
    assert left.list == "quarantine-pending-guidance" and "point" in left.reasons
    assert any(one.startswith("keep -> quarantine-pending-guidance") for one in left.news)
    recall = ledger.hold("recall", by="qa", lot="B1", product="ash", at=june(5, 14), now=june(5, 14))
    said = "NOT HERE ANY MORE: 10 doses of ash lot B1, sent from fridge to Harbour"
    assert any(w.startswith(said) for w in recall.warnings)
    (left,) = ledger.follow_up("B1", now=NOW).left
    assert [one.text for one in left.since] == [f"held: recall (entry {recall.entries[0].entry})"]

    discard = coldtally.Guidance(
        by="qa",
        at=june(5, 14, 30),
        product="ash",
        lot="B1",
        through=june(5, 13),
        verdict="discard",
        issuer="Maker",
        reference="r7",
    )
    changes = ledger.changes(discard, now=NOW)
    (change,) = changes.left
    assert change.to == "Harbour" and change.before.since != change.after.since
    assert change.news and change.news[0].startswith("guidance says discard: Maker, r7")
    assert "NOT HERE ANY MORE" in changes.to_table()

    notice = ledger.notice("fridge", "warm", by="qa", at=june(5, 14, 40), now=june(5, 14, 40))
    incident = notice.entries[0].incident
    ledger.step(incident, "action", "Harbour could not be reached", by="qa", at=june(5, 14, 45), now=june(5, 14, 45))
    assert ledger.incident(incident, now=NOW).left[0].told is None
    told = ledger.step(
        incident, "action", "by telephone", by="qa", told=[transfer], at=june(5, 14, 50), now=june(5, 14, 50)
    ).entries[0]
    assert told.text == f"told of entry {transfer}: by telephone"
    assert ledger.incident(incident, now=NOW).left[0].told == told.entry
    assert ledger.follow_up("B1", now=NOW).left[0].news == ()
    with pytest.raises(coldtally.NotKnown):
        ledger.step(incident, "action", "x", by="qa", told=[1], now=NOW)


def test_a_warning_of_posting_names_a_call_that_can_be_made(sender):
    ledger, transfer = sender
    late = coldtally.Check(by="qa", at=june(3, 20), place="fridge", scale="C", temperature=14)
    with pytest.warns(coldtally.EntryWarning, match="NOT HERE ANY MORE") as caught:
        ledger.post(late, now=june(5, 14))
    (said,) = {str(w.message) for w in caught if "NOT HERE ANY MORE" in str(w.message)}
    assert f"`ledger.handover({transfer})`" in said and said.endswith(f"told=[{transfer}]")
    assert ledger.handover(transfer, now=NOW).to == "Harbour"


def test_doses_received_without_a_history_are_asked_about(sender):
    ledger, _ = sender
    with pytest.raises(coldtally.MissingField, match="note: must say why they are not these: 10 doses of ash lot B1"):
        ledger.receive("B1", 10, by="qa", place="annex", at=june(4, 11), now=NOW)
    noted = ledger.receive("B1", 10, by="qa", place="annex", note="a new delivery", at=june(4, 11), now=NOW)
    assert any(w.startswith("THE SAME DOSES?") for w in noted.warnings)


def test_a_delivery_noted_late_says_which_list_it_is_on(sender):
    ledger, _ = sender
    late = ledger.receive(
        "C1", 10, by="qa", product="ash", expiry="2027-06", place="fridge", at=june(2, 8), now=NOW, dry_run=True
    )
    assert any(w.startswith("DO NOT USE: by what is known now") and "point" in w for w in late.warnings)
