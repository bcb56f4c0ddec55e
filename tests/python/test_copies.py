"""Copies: backup, restore, and a link noted on paper."""
import stat

import pytest

import coldtally

SITE = {"kind": "site", "name": "Demo", "zone": "UTC", "by": "ab"}


@pytest.fixture
def ledger(tmp_path):
    with coldtally.Ledger(tmp_path / "a.ledger") as one:
        one.post(SITE)
        yield one


def test_a_backup_is_verified_and_restored_with_its_chain(ledger, tmp_path):
    made = ledger.backup(tmp_path / "copy")
    assert (made.entries, made.format, made.from_format) == (1, 2, 2)
    assert made.chain == ledger.verify().chain
    assert stat.S_IMODE((tmp_path / "copy").stat().st_mode) == 0o600
    again = coldtally.Ledger.restore(tmp_path / "copy", tmp_path / "again")
    assert again.to_note == made.to_note
    assert "it verifies" in again.to_table()
    with pytest.raises(coldtally.LedgerExists):
        ledger.backup(tmp_path / "copy")
    with pytest.raises(coldtally.NotALedger):
        (tmp_path / "text").write_text("x")
        coldtally.Ledger.restore(tmp_path / "text", tmp_path / "new")


def test_a_noted_link_is_held_against_the_chain(ledger):
    noted = ledger.verify().to_note
    assert noted == "1:" + ledger.verify().chain[:16]
    assert not ledger.verify(against=noted).findings
    other = "1:" + "0" * 16
    found = ledger.verify(against=other)
    assert found.findings_in_all == len(found.findings) == 1
    assert found.to_note is None
    with pytest.raises(coldtally.BadValue, match="against"):
        ledger.verify(against="1")
