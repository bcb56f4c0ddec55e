"""Doses over three sites at the command line, each with its ledger and its files. All data invented. Usage:
handover_files_test.py COLDTALLY"""
import json
import os
import pathlib
import subprocess
import sys
import tempfile

COLDTALLY = sys.argv[1]
folder = tempfile.TemporaryDirectory()
root = pathlib.Path(folder.name)
DAY = "2026-03-02 "
REFRIGERATOR = ["--low", "2C/36F", "--high", "8C/46F"]


class Site:
    def __init__(self, name, zone):
        self.name, self.folder = name, root / name
        self.folder.mkdir()
        self.ledger = self.folder / "clinic.ledger"
        self.run("site", f"{name} (invented)", zone)
        self.run(
            "product", "elm", "Elm (invented)", *REFRIGERATOR, "--allowance", "8C", "25C", "72 h", "leaflet, invented"
        )
        self.run("place", "fridge", "Fridge", "refrigerator", *REFRIGERATOR)

    def run(self, *words, status=0):
        environment = {**os.environ, "COLUMNS": "100", "COLDTALLY_LEDGER": str(self.ledger), "COLDTALLY_BY": "cd"}
        done = subprocess.run([COLDTALLY, *words], capture_output=True, text=True, env=environment, cwd=self.folder)
        assert done.returncode == status, (words, done.returncode, done.stdout, done.stderr)
        return done.stdout if status == 0 else done.stderr

    def posted(self, *words):
        return json.loads(self.run(*words, "--format", "json"))

    def files(self):
        return sorted(p.name for p in self.folder.iterdir())

    def history(self, at):
        (row,) = json.loads(self.run("lists", "--at", at, "--format", "json"))["holdings"]
        return row["history"]


def check(site, hour, temperature, least, most):
    site.run("check", "fridge", f"{temperature}C", "--min", least, "--max", most, "--at", DAY + hour)


a, b, c = Site("North", "America/Chicago"), Site("South", "America/Chicago"), Site("West", "America/Denver")
a.run("receive", "K1", "20", "--product", "elm", "--expiry", "2027-05", "--place", "fridge", "--at", DAY + "08:00")
check(a, "08:00", "5", "5", "5")
check(a, "10:00", "6", "5", "11")
words = ["transfer", "K1", "8", "South", "short-dated", "--at", DAY + "10:00"]

# a dry run names the files, and writes none
before = a.ledger.read_bytes()
tried = a.posted(*words, "--dry-run")
name = "handover-K1-2026-03-02-1000"
assert tried["files"] == [f"{name}.json", f"{name}.txt"] and tried["dry_run"], tried
assert a.files() == ["clinic.ledger"] and a.ledger.read_bytes() == before
# a file that is there is not overwritten, and then nothing is posted
(a.folder / f"{name}.txt").write_text("mine")
refused = a.run(*words, status=2)
assert refused.count("\n") == 1 and "there is a file of this name, and none is overwritten" in refused, refused
assert (
    (a.folder / f"{name}.txt").read_text() == "mine"
    and a.files() == ["clinic.ledger", f"{name}.txt"]
    and a.ledger.read_bytes() == before
)
(a.folder / f"{name}.txt").unlink()
# a folder that is not there: the machine's failure, and nothing is posted either
a.run(*words, "--handover", "nowhere/h.json", status=3)
assert a.files() == ["clinic.ledger"] and a.ledger.read_bytes() == before

said = " ".join(a.run(*words).split())
assert (
    'WERE OUT OF RANGE: the doses of lot "K1" in "fridge" were too warm for at most 2 h at up to 11 °C '
    '(51.8 °F), since receipt: '
    'their history must go with them (handover).' in said
), said
assert f'Send with the doses: {name}.json,' in said, said
assert a.files() == ["clinic.ledger", f"{name}.json", f"{name}.txt"]
sheet = " ".join((a.folder / f"{name}.txt").read_text().split())
for part in (
    "handover of doses that leave for South",
    "8 doses of elm (Elm (invented)), lot K1",
    "THESE DOSES WERE OUT OF RANGE",
    "Out of range: too warm 2 h",
    "Usable through 2027-05-31, the expiry",
    "The way is not in it",
    "Exposure alone never decides discard or revaccination",
):
    assert part in sheet, (part, sheet)
file = json.loads((a.folder / f"{name}.json").read_text())
stated = file["handover"]
assert (file["ledger"], file["product"], file["lot"], file["doses"], file["to"], file["to_hold"]) == (
    "North (invented)",
    "elm",
    "K1",
    8,
    "South",
    [],
), file
assert (
    stated["places"] == ["North (invented)/fridge"]
    and stated["warm"]["estimate_s"] == "7200"
    and stated["allowances"][0]["used_s"] == "7200"
), stated
# the same later, by the number of its entry
entry = str(a.posted("give", "K1", "t-1", "--at", DAY + "10:01")["entries"][0]["entry"] - 1)
again = json.loads(a.run("handover", entry, "--at", DAY + "10:00", "--format", "json"))
assert again["handover"] == stated and again["exposed"] and again["needed"] and again["to"] == "South", again
a.run("handover", entry, "--file", "again.json", "--at", DAY + "10:00")
assert json.loads((a.folder / "again.json").read_text())["handover"] == stated and (a.folder / "again.txt").exists()
assert "none is overwritten" in a.run("handover", entry, "--file", "again.json", status=2)
assert "must be a transfer" in a.run("handover", "1", status=2)

b.run(
    "receive",
    "K1",
    "8",
    "--product",
    "elm",
    "--expiry",
    "2027-05",
    "--place",
    "fridge",
    "--handover",
    str(a.folder / f"{name}.json"),
    "--at",
    DAY + "10:00",
)
check(b, "10:00", "6", "6", "6")
check(b, "11:30", "7", "6", "9")
b.run("transfer", "K1", "8", "West", "closing", "--handover", "to-west.json", "--at", DAY + "11:30")
assert b.files() == ["clinic.ledger", "to-west.json", "to-west.txt"]
c.run(
    "receive",
    "K1",
    "8",
    "--product",
    "elm",
    "--expiry",
    "2027-05",
    "--place",
    "fridge",
    "--handover",
    str(b.folder / "to-west.json"),
    "--at",
    DAY + "10:30",
)  # 11:30 in Chicago
check(c, "10:30", "5", "5", "5")
there = c.history(DAY + "10:30")
assert there["places"] == ["North (invented)/fridge", "South (invented)/fridge", "fridge"], there
assert there["warm"]["estimate_s"] == "12600" and there["allowances"] == [
    {"seconds": 259200, "used_s": "12600", "open_s": "12600"}
], there  # 2 h and 1 h 30 min
assert there["coverage"]["bounded_s"] == "12600" and there["highest_C"] == "11", there

# doses of which nothing was out of range: no file that nobody asked for
c.run("receive", "Z9", "5", "--product", "elm", "--expiry", "2027-05", "--place", "fridge", "--at", DAY + "10:30")
check(c, "11:00", "5", "5", "6")
quiet = c.posted("transfer", "Z9", "5", "North", "short-dated", "--at", DAY + "11:00")
assert (
    quiet["files"] == [] and not quiet["handover"]["needed"] and not any("OUT OF RANGE" in w for w in quiet["warnings"])
), quiet
assert c.files() == ["clinic.ledger"]

# what is on hold in one site is on hold in the other, and the file is of these doses alone
c.run("receive", "Q4", "6", "--product", "elm", "--expiry", "2027-05", "--place", "fridge", "--at", DAY + "11:00")
c.run("hold", "dropped box", "--lot", "Q4", "--at", DAY + "11:00")
c.run("transfer", "Q4", "6", "South", "short-dated", "--handover", "q4.json", "--at", DAY + "11:30")
q4 = [
    "--product",
    "elm",
    "--expiry",
    "2027-05",
    "--place",
    "fridge",
    "--handover",
    str(c.folder / "q4.json"),
    "--at",
    DAY + "12:40",
]
assert "it states 6" in b.run("receive", "Q4", "7", *q4, status=2) and 'it states "Q4"' in b.run(
    "receive", "Q5", "6", *q4, status=2
)
left_off = b.posted("receive", "Q4", "6", *q4, "--no-hold", "lifted by telephone", "--dry-run")
assert [e["kind"] for e in left_off["entries"]] == [
    "lot",
    "receive",
] and "not put on hold: lifted by telephone" in left_off["entries"][1]["note"], left_off
said = " ".join(b.run("receive", "Q4", "6", *q4).split())
assert (
    "DO NOT USE: the doses are put on hold here, too, since they were held at West (invented): dropped box" in said
), said
(row,) = [
    r for r in json.loads(b.run("lists", "--at", DAY + "12:40", "--format", "json"))["holdings"] if r["lot"] == "Q4"
]
assert row["reasons"] == ["held"], row
assert any(w.startswith("RECEIVED ALREADY") for w in b.posted("receive", "Q4", "6", *q4[2:], "--dry-run")["warnings"])
(b.folder / "alone.json").write_text(json.dumps(stated))
alone = b.posted(
    "receive", "K1", "1", "--place", "fridge", "--handover", "alone.json", "--at", DAY + "12:40", "--dry-run"
)
assert any(w.startswith("NOTHING BINDS") for w in alone["warnings"]), alone
print("three sites, one history")
