"""Commands by which doses would come off a list, or what was out of range would get less, ask first; those of every day
say one line. All data invented; data are awaited for long, so that the clock stands in nothing. Usage:
loosening_commands_test.py COLDTALLY"""
import json
import os
import pathlib
import subprocess
import sys
import tempfile

COLDTALLY = os.path.abspath(sys.argv[1])
folder = tempfile.TemporaryDirectory()
ledger = pathlib.Path(folder.name) / "clinic.ledger"
environment = {**os.environ, "COLUMNS": "100", "COLDTALLY_LEDGER": str(ledger), "COLDTALLY_BY": "cd"}


def run(*words, status=0, text=None):
    done = subprocess.run(
        [COLDTALLY, *words], capture_output=True, text=True, env=environment, cwd=folder.name, input=text
    )
    assert done.returncode == status, (words, done.returncode, done.stdout, done.stderr)
    return done


def asked(*words, yes="--yes"):
    """What is said on standard error of what is not written; then that it is, with `yes`."""
    before = ledger.read_bytes()
    shown = run(*words, status=2)
    assert ledger.read_bytes() == before and "NOT WRITTEN" in shown.stderr and shown.stderr.count("\n") == 1, shown
    run(*words, "--dry-run")
    assert ledger.read_bytes() == before
    run(*words, yes)
    assert ledger.read_bytes() != before
    return shown


def lists():
    return {(h["place"], h["lot"]): h["list"] for h in json.loads(run("lists", "--format", "json").stdout)["holdings"]}


DAY = "2026-03-02 "
refrigerator = ["--low", "2C/36F", "--high", "8C/46F"]
run("site", "Invented clinic", "America/Chicago", "--stale-after", "11574 d 1 h 46 min 40 s",
    "--note", "invented")
run("product", "ash", "Ash (invented)", *refrigerator)
for place in ("fr", "ff"):
    run("place", place, place, "refrigerator", *refrigerator)
run("place", "box", "Box", "transport container", *refrigerator)
run("receive", "B1", "20", "--product", "ash", "--place", "fr", "--expiry", "2099-05", "--at", DAY + "07:00")
run("check", "fr", "5C", "--min", "4C", "--max", "6C", "--at", DAY + "07:00")

# every day: one line, and no question
for time, words in (("08:00", ["5C", "--min", "4C", "--max", "6C"]), ("09:00", ["5C"])):
    said = run("check", "fr", *words, "--at", DAY + time)
    assert said.stdout.startswith("Entry ") and said.stdout.count("\n") == 1 and said.stderr == "", said

# a maximum after a glance says since when it can be, and a late glance that cuts it is asked about
said = run("check", "fr", "5C", "--min", "4C", "--max", "20C", "--at", DAY + "12:00").stdout
assert "THE DISPLAY MAY HAVE SEEN IT EARLIER" in " ".join(said.split()) and "2026-03-02 08:00" in said, said
assert lists()["fr", "B1"] == "quarantine-pending-guidance"
late = asked("check", "fr", "5C", "--at", DAY + "11:50")
assert 'of 1 excursion recorded in "fr" 0 vanish and 1 is shortened' in late.stderr, late
assert "DRY RUN" in late.stdout and "LOOSENS: less would have been out of range" in " ".join(late.stdout.split()), late
second = asked("check", "fr", "5C", "--at", DAY + "12:00")
assert "20 doses would come off a list of what must not be used" in second.stderr, second
assert lists()["fr", "B1"] == "keep"

# so is one that comes with a packing
run("check", "fr", "12C", "--at", DAY + "12:30")
packed = asked("pack", "fr", "box", "annex", "--temp", "5C", "--container-temp", "5C", "--at", DAY + "12:30")
assert (
    "doses would not be where they come to be on a list" in packed.stderr and "For the lid" not in packed.stdout
), packed
run("unpack", "box", "ff", "--as-listed", "--container-temp", "5C", "--temp", "5C", "--at", DAY + "13:00")

# doses do not slip past a hold; where they come to they are what they were
run("hold", "display", "--place", "ff", "--at", DAY + "13:30")
before = lists()
moved = run("move", "B1", "fr", "--from", "ff", "--at", DAY + "13:20", "--to-mark", "m", status=2)
assert "held" in moved.stderr and lists() == before, moved
assert 'DO NOT USE: lot "B1" comes to "fr"' in " ".join(
    run("move", "B1", "fr", "--from", "ff", "--at", DAY + "13:40").stdout.split()
)

# a logger's file that disagrees with a display
run("probe", "q1", "C")
run("assign", "q1", "fr", "--at", DAY + "13:40", "--yes")
run("check", "fr", "5C", "--min", "4C", "--max", "6C", "--at", DAY + "13:45")
run("check", "fr", "5C", "--min", "4C", "--max", "20C", "--at", DAY + "14:45")
rows = "".join(f"2026-03-02T{19 + m // 60:02d}:{m % 60:02d}:00Z,5.0\n" for m in range(40, 110, 5))
(pathlib.Path(folder.name) / "calm.csv").write_text("instant,temperature\n" + rows)
file = ["import", str(ledger), "calm.csv", "--probe", "q1", "--columns", "instant=1,temperature=2"]
guessed = run(*file, "--yes", status=2)  # says nothing of what it loosens
assert (
    "DISAGREE: " in guessed.stderr and "maximum 20 °C" in guessed.stderr and "is 5 °C in that time" in guessed.stderr
), guessed
assert "DISAGREE: " in " ".join(run(*file, "--yes", "--loosen").stdout.split())

# entries as they are: standard output stays the numbers alone
run("check", "fr", "12C", "--at", DAY + "14:50")
entry = {"kind": "check", "by": "cd", "place": "fr", "scale": "C", "temperature": "5", "at": "2026-03-02T14:50:00"}
posted = run("post", str(ledger), "-", text=json.dumps(entry) + "\n")
assert posted.stdout.startswith('{"entry": ') and posted.stdout.count("\n") == 1, posted
assert "WARNING: with these entries: LOOSENS: " in posted.stderr, posted
print("ok")
