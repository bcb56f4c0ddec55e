"""A clinic that describes itself in a file: the same file at the command line and in Python makes the same entries, the
same JSON and the same tables. All data invented."""
import datetime
import os
import subprocess

import pytest
from conftest import ROOT

import coldtally

COMMAND = os.environ.get("COLDTALLY_COMMAND")
NOW = datetime.datetime(2026, 11, 27, 16, tzinfo=datetime.timezone.utc)
CLINIC = ROOT / "examples" / "start" / "wren-mill.csv"
SMALL = """[site]
name,Mill Lane (invented)
zone,America/Chicago
[places]
place,name,type,low,high
main,Main,refrigerator,2C/36F,8C/46F
[products]
product,name,low,high,doses per vial
elm,Elm,2C/36F,8C/46F,1
[lots]
product,lot,expiry,place,doses
elm,K1,2099-05,main,40
"""


def test_a_file_begins_a_ledger(tmp_path):
    with coldtally.Ledger(tmp_path / "a.ledger") as ledger:
        dry = ledger.start(CLINIC, by="qa", now=NOW, dry_run=True)
        assert dry.dry_run and not (tmp_path / "a.ledger").exists()
        assert "Still missing" in dry.to_table()
        done = ledger.start(CLINIC, by="qa", now=NOW)
        assert not done.dry_run and done.site == "Wren Mill Clinic (invented)" and done.zone == "America/Chicago"
        assert len(done.entries) == len(done.lines) == done.entries[-1].entry
        assert [(s.place, s.fund, s.lots, s.doses) for s in done.stock] == [
            ("freezer", "private", 1, 30),
            ("main", "private", 1, 12),
            ("main", "state", 2, 104),
        ]
        assert done.mistakes == () and done.asks == () and done.unchanged == 0
        assert {m.code for m in done.missing_codes} >= {"start-no-rules", "start-plan-lacks"}
        assert sum(h.doses for h in ledger.stock(now=NOW)) == 146


def test_text_and_bytes_are_the_content(tmp_path):
    for name, content in (("t", SMALL), ("b", SMALL.encode("utf-16"))):
        with coldtally.Ledger(tmp_path / name) as ledger:
            assert ledger.start(content, by="qa", now=NOW).stock[0].doses == 40


def test_mistakes_are_said_together(tmp_path):
    with coldtally.Ledger(tmp_path / "a.ledger") as ledger:
        with pytest.raises(coldtally.BadValue) as refused:
            ledger.start(SMALL.replace("refrigerator", "fridge").replace(",40", ",forty"), by="qa", now=NOW)
        lines = str(refused.value).splitlines()
        assert lines[0] == "2 mistakes in text. NOT WRITTEN: put them right, and give it again"
        assert lines[1].startswith('line 6, [places], type: "fridge": must be') and "refrigerator?" in lines[1]
        assert lines[2].startswith('line 12, [lots], doses: "forty": must be')
        with pytest.raises(coldtally.Machine):
            ledger.start(tmp_path / "none.csv", by="qa")
    assert not (tmp_path / "a.ledger").exists()


def test_stock_that_is_there_is_asked_about(tmp_path):
    with coldtally.Ledger(tmp_path / "a.ledger") as ledger:
        ledger.start(SMALL, by="qa", now=NOW)
        with pytest.raises(coldtally.MissingField, match="has 40 doses already"):
            ledger.start(SMALL, by="qa", now=NOW)
        assert ledger.start(SMALL, by="qa", now=NOW, yes=True).unchanged == 3


def test_templates_are_written_and_read_back(tmp_path):
    with coldtally.Ledger(tmp_path / "a.ledger") as ledger:
        ledger.start(SMALL, by="qa", now=NOW)
        for what in ("clinic", "lots", "plan", "rules"):
            text = ledger.template(what, tmp_path / f"{what}.csv")
            assert (tmp_path / f"{what}.csv").read_text(encoding="utf-8") == text
            assert f"ledger.start('{what}.csv')" in text
            with pytest.raises(coldtally.LedgerExists):
                ledger.template(what, tmp_path / f"{what}.csv")
            with pytest.raises(coldtally.BadText, match="states nothing"):
                ledger.start(tmp_path / f"{what}.csv", by="qa", now=NOW)
        with pytest.raises(coldtally.BadValue, match="did you mean plan"):
            ledger.template("plann")


@pytest.mark.skipif(not COMMAND, reason="COLDTALLY_COMMAND names no command line to compare with")
def test_the_command_line_says_the_same(tmp_path):
    def run(*words):
        done = subprocess.run([COMMAND, *words], capture_output=True, text=True, cwd=tmp_path)
        return done.returncode, done.stdout, done.stderr

    words = ("start", str(CLINIC), "--ledger", "c.ledger", "--by", "qa", "--at", "2026-11-27T16:00:00Z", "--dry-run")
    status, said, errors = run(*words, "--format", "json")
    assert (status, errors) == (0, "")
    with coldtally.Ledger(tmp_path / "p.ledger") as ledger:
        done = ledger.start(CLINIC, by="qa", at="2026-11-27T16:00:00Z", dry_run=True)
        assert done.to_json() == said
    status, said, errors = run("template", "plan", "plan.csv")
    assert (status, said, errors) == (0, "", "") and (tmp_path / "plan.csv").exists()
