"""The commands of everyday work, from nothing to a mistake taken back. All data invented. Usage: commands_test.py
COLDTALLY"""
import json
import os
import pathlib
import subprocess
import sys
import tempfile

COLDTALLY = os.path.abspath(sys.argv[1])
folder = tempfile.TemporaryDirectory()
ledger = str(pathlib.Path(folder.name) / "clinic.ledger")
environment = {**os.environ, "COLUMNS": "100", "COLDTALLY_LEDGER": ledger, "COLDTALLY_BY": "cd"}


def run(*words, status=0):
    done = subprocess.run([COLDTALLY, *words], capture_output=True, text=True, env=environment, cwd=folder.name)
    assert done.returncode == status, (words, done.returncode, done.stdout, done.stderr)
    return done.stdout if status == 0 else done.stderr


def bytes_now():
    return pathlib.Path(ledger).read_bytes() if os.path.exists(ledger) else None


def posted(*words):
    """Posts; before that a dry run, which takes the same words and leaves the file as it is, byte by byte."""
    before = bytes_now()
    if "--dry-run" not in words:
        run(*words, "--dry-run", "--format", "json")
        assert bytes_now() == before, words
    out = json.loads(run(*words, "--format", "json"))
    assert (bytes_now() == before) == out["dry_run"], words
    return out


DAY = "2026-03-02 "
refrigerator = ["--low", "2C/36F", "--high", "8C/46F"]
run("site", "Invented clinic", "America/Chicago", "--dry-run")
assert not os.path.exists(ledger)
assert posted("site", "Invented clinic", "America/Chicago")["entries"][0]["entry"] == 1
product = posted(
    "product",
    "elm",
    "Elm (invented)",
    *refrigerator,
    "--freeze-limit",
    "0C/32F",
    "--allowance",
    "8C",
    "25C",
    "72 h",
    "leaflet",
    "--allowance",
    "25C",
    "30C",
    "1 h",
    "letter",
    "--beyond-use",
    "first puncture",
    "28 days",
    "--doses-per-vial",
    "10",
)["entries"][0]
assert product["range"] == {"low": {"C": "2", "F": "36"}, "high": {"C": "8", "F": "46"}}, product
assert [a["seconds"] for a in product["allowances"]] == [259200, 3600], product
assert product["beyond_use"] == {"first puncture": 2419200}, product
for place in ("main", "annex"):
    run("place", place, place, "refrigerator", *refrigerator)
run("probe", "p1", "F")
# the ledger and the initials as options go before what the environment says
elsewhere = str(pathlib.Path(folder.name) / "other.ledger")
named = json.loads(
    run(
        "place",
        "counter",
        "Counter",
        "room",
        "--low",
        "15C",
        "--high",
        "25C",
        "--ledger",
        ledger,
        "--by",
        "ef",
        "--format",
        "json",
    )
)["entries"][0]
assert named["by"] == "ef", named
assert "no such ledger" in run(
    "probe", "p2", "C", "--ledger", elsewhere, "--by", "ef", status=2
) and not os.path.exists(elsewhere)
refused = run("place", "shelf", "Shelf", "room", status=2)
assert "range" in refused, refused
run(
    "certificate",
    "p1",
    "2027-01-31",
    "--tolerance",
    "0.9",
    "--correction",
    "32",
    "-0.2",
    "--correction",
    "46",
    "0.1",
    "--at",
    DAY + "07:00",
)
run("assign", "p1", "main", "--at", DAY + "07:00")
check = posted("check", "main", "39.2", "--at", DAY + "07:30")
assert check["entries"][0]["scale"] == "F" and check["filled"] == ["scale F (that of the probe in it)"], check
run(
    "receive",
    "K1",
    "20",
    "--product",
    "elm",
    "--place",
    "main",
    "--expiry",
    "2027-05",
    "--fund",
    "state",
    "--at",
    DAY + "08:00",
)

given = posted("give", "K1", "t-1", "--at", DAY + "09:00")
assert given["entries"][0]["place"] == "main" and given["entries"][0]["fund"] == "state", given
# ten doses a vial, 28 days after its first puncture, and nothing says when one was opened
assert (
    len(given["warnings"]) == 1
    and given["warnings"][0].startswith("NO OPENING IS NOTED")
    and given["opening"]["noted"] is False
), given
assert "state a place, a mark" in run("move", "K1", "--at", DAY + "09:02", status=2)
assert posted("move", "K1", "--to-mark", "vial 2", "--doses", "10", "--at", DAY + "09:05")["entries"][0]["to"] == {
    "place": "main",
    "mark": "vial 2",
}
run("beyond-use", "K1", "--mark", "vial 2", "--event", "first puncture", "--at", DAY + "09:06")
refused = run("give", "K1", "t-2", "--at", DAY + "09:10", status=2)
assert refused.count("\n") == 3 and "state the mark" in refused, refused
assert "\n  `--mark 'vial 2'`: 10 doses, opened, usable" in refused and "\n  `--mark ''`: " in refused, refused
run("give", "K1", "t-2", "--mark", "vial 2", "--lot-only", "--at", DAY + "09:10")
run("waste", "K1", "1", "dropped", "--mark", "", "--at", DAY + "09:20")
run("return", "K1", "1", "cracked", "--mark", "", "--at", DAY + "09:21")
# how they were kept since the last reading is not known: that goes with them
sent = posted("transfer", "K1", "2", "Harbour Street", "short-dated", "--mark", "", "--at", DAY + "09:22")
assert sent["files"] == ["handover-K1-2026-03-02-0922.json", "handover-K1-2026-03-02-0922.txt"] and sent["handover"][
    "reasons"
] == ["unmonitored"], sent
assert all((pathlib.Path(folder.name) / name).exists() for name in sent["files"])
assert "1 missing" in run("count", "K1", "4", "--mark", "", "--at", DAY + "09:30").replace("\n", " ")

out = " ".join(run("check", "main", "50.1", "--at", DAY + "10:00").split())
assert (
    "Entry 20: check of main: 50.1 °F, at 2026-03-02 10:00." in out
    and "ACT NOW" in out
    and "move-list" not in out.split("ACT NOW")[0]
), out
assert "note: must say" in run("check", "main", "39", "--min", "31.9", "--max", "50", "--at", DAY + "10:05", status=2)
hold = posted("hold", "door found open", "--lot", "K1", "--place", "main", "--at", DAY + "10:06")["entries"][0]["entry"]
assert "NOT ON KEEP" in run("give", "K1", "t-3", "--mark", "vial 2", "--at", DAY + "10:10")
answered = posted(
    "guidance",
    "K1",
    "use",
    "--through",
    DAY + "10:10",
    "--issuer",
    "invented maker",
    "--reference",
    "case 1",
    "--told-out-of-range",
    "24 h",
    "--told-unmonitored",
    "10 min",
    "--told-points",
    "5",
    "--at",
    DAY + "11:00",
    "--dry-run",
)
# what it would change, before it is posted: a dose that was given, and the holds of what is there
assert answered["dry_run"] and all(
    "held" in h["before"]["reasons"] and "held" not in h["after"]["reasons"] for h in answered["changes"]["holdings"]
), answered
assert len(answered["changes"]["holdings"]) == 2, answered
assert [(d["entry"], d["before"], d["after"]) for d in answered["changes"]["doses"]] == [
    (hold + 1, "pending guidance", "cleared")
], answered
assert "t-3" not in json.dumps(answered["changes"]), answered

tried = posted("takeback", str(hold), "other lot", "--dry-run")
assert tried["dry_run"] and tried["changes"]["holdings"], tried
assert f'entry {hold}: hold on elm lot K1 in main: door found open, at 2026-03-02 10:06' in " ".join(
    run("takeback", str(hold), "other lot", "--dry-run").split()
)
# doses would lose a reason not to be used: shown, asked about, and nothing is written
before = bytes_now()
asked = " ".join(run("takeback", str(hold), "other lot", status=2).split())
assert (
    "yes: must be stated: LOOSENS: " in asked
    and "loses held" in asked
    and "NOT WRITTEN" in asked
    and bytes_now() == before
), asked
assert (
    "yes: must be stated" in run("takeback", str(hold), "other lot", "--format", "json", status=2)
    and bytes_now() == before
)
run("takeback", str(hold), "other lot", "--yes", "--dry-run")
assert bytes_now() == before
back = posted("takeback", str(hold), "other lot", "--yes")
assert back["changes"]["holdings"] == tried["changes"]["holdings"]
assert all(
    "held" in h["before"]["reasons"] and "held" not in h["after"]["reasons"] for h in back["changes"]["holdings"]
), back
assert "is void already" in run("takeback", str(hold), "again", status=2)

# of two names after one --without the second would be the product's name
swallowed = run("product", "elm", "--without", "low", "high", "--dry-run", status=2)
assert "is what can be dropped of a product, and no name" in swallowed and "--without high" in swallowed, swallowed
assert "once for each" in " ".join(run("product", "--help").split())

plan = pathlib.Path(folder.name) / "plan.json"
plan.write_text(
    '{"people": [{"name": "A. Person", "role": "coordinator", "mobile": "555-0101"}],\n "packing": "in layers"}'
)
drafted = posted("new-plan", str(plan), "--at", DAY + "11:10", "--dry-run")
assert drafted["dry_run"] and "nobody is marked as the coordinator's alternate" in drafted["warnings"], drafted
assert posted("new-plan", str(plan), "--at", DAY + "11:10")["entries"][0]["people"][0]["mobile"] == "555-0101"
assert json.loads(run("plan", ledger, "--format", "json"))["plan"] == json.loads(plan.read_text())

# the move: a container that does not suit a frozen product, a clinic elsewhere, and what comes back
run("product", "fir", "Fir (invented), frozen", "--high=-15C", "--note", "its leaflet states no lower limit")
assert "no lower limit is stated" in run("place", "cold", "Freezer", "freezer", "--high=-15C", status=2)
run("place", "cold", "Freezer", "freezer", "--high=-15C", "--note", "its plate states none")
run("place", "box", "Box", "transport container", *refrigerator)
run(
    "receive",
    "F1",
    "3",
    "--product",
    "fir",
    "--place",
    "cold",
    "--expiry",
    "2028-01",
    "--fund",
    "state",
    "--at",
    DAY + "11:30",
)
refused = run("pack", "cold", "box", "annex", "--at", DAY + "12:00", status=2)
assert refused.count("\n") == 1 and '"fir" lot "F1"' in refused, refused
assert "nothing in it to pack" in run(
    "pack", "cold", "box", "annex", "--unsuited", "leave", "--at", DAY + "12:00", status=2
)
clinic = [
    "pack",
    "main",
    "box",
    "school",
    "--reason",
    "off-site clinic",
    "--at",
    DAY + "12:00",
    "--temp",
    "41F",
    "--container-temp",
    "4.5C",
]
assert (
    posted(*clinic, "--dry-run")["dry_run"]
    and json.loads(run("stock", ledger, "--format", "json"))["holdings"][0]["place"] != "box"
)
tried = run(*clinic, "--dry-run")
kinds = [e["kind"] for e in posted(*clinic)["entries"]]
# the list for the lid is that of the container once it is packed, also where nothing is written
lid = run("move-list", "box", "--at", DAY + "12:00")
assert (
    tried.split("For the lid:")[1].partition("Product")[2] == lid.partition("Product")[2] and lid.count("  K1  ") == 2
), tried
assert kinds == ["check", "check", "trip", "move", "move"], kinds
run("give", "K1", "t-5", "--place", "box", "--mark", "", "--at", DAY + "12:30")
assert "no such lot" in run("unpack", "box", "main", "--count", "Z9=1", "--at", DAY + "13:00", status=2)
assert "not counted" in run("unpack", "box", "main", "--count", "K1,state,=3", "--at", DAY + "13:00", status=2)
home = posted(
    "unpack", "box", "main", "--count", "K1,state,=2", "--as-listed", "--container-temp", "5C", "--at", DAY + "13:00"
)
assert [e["kind"] for e in home["entries"]] == [
    "check",
    "count",
    "move",
    "count",
    "move",
    "trip",
], home  # the open vial is counted and moved first
assert {e["to"].get("mark") for e in home["entries"] if e["kind"] == "move"} == {
    "trip 2026-03-02 12:00",
    "vial 2, trip 2026-03-02 12:00",
}, home
trip = json.loads(run("trip", ledger, "box", "--limit", "59 min 59 s", "--format", "json"))
assert trip["lasted_s"] == 3600 and trip["over_limit"] is True, trip
assert [(r["loaded"], r["given"], r["unloaded"], r["missing"], r["aboard"]) for r in trip["holdings"]] == [
    (4, 1, 2, 1, 0),
    (8, 0, 8, 0, 0),
], trip
assert (
    json.loads(run("move-list", ledger, "cold", "--into", "box", "--format", "json"))["holdings"][0]["container_fit"]
    == "unsuited"
)

# a dose of one fund for somebody of another, and back again
given = posted("give", "F1", "t-9", "--at", DAY + "14:00")["entries"][0]["entry"]
words = " ".join(run("loan", str(given), "private", "order delayed", "--at", DAY + "14:05", "--dry-run").split())
assert (
    f"loan: give {given} is owed by fund private: order delayed" in words
    and f"entry {given}: gave 1 dose of fir lot F1 in cold, fund state" in words
), words
lent = posted("loan", str(given), "private", "order delayed", "--at", DAY + "14:05")["entries"][0]["entry"]
assert json.loads(run("loans", "--format", "json"))["loans"][0]["open"] == 1
assert "doses: 2" in run("repayment", str(lent), "2", "--at", DAY + "14:10", status=2)
repaid = " ".join(run("repayment", str(lent), "1", "--at", DAY + "14:10").split())
assert f"repaid 1 dose of loan {lent}" in repaid and "gave 1 dose of fir lot F1 in cold, fund state" in repaid, repaid
assert json.loads(run("loans", "--format", "json"))["loans"] == []

# two files of a logger, and no ledger named: the first is not taken for one
for name, hour in (("one.csv", "09"), ("two.csv", "10")):
    (pathlib.Path(folder.name) / name).write_text(
        "Time,Temperature (C)\n" + "".join(f"2026-03-03T{hour}:{m:02}:00Z,4.0\n" for m in (0, 5))
    )
run("probe", "p9", "C")
report = json.loads(
    run(
        "import",
        str(pathlib.Path(folder.name) / "one.csv"),
        str(pathlib.Path(folder.name) / "two.csv"),
        "--probe",
        "p9",
        "--yes",
        "--format",
        "json",
    )
)
assert [f["rows_kept"] for f in report["files"]] == [2, 2], report

# the ledger that is named once, and times and dates as people type them
THEN = ["--at", DAY + "13:30", "--known-on", "2199-06-01T00:00:00Z"]  # else two runs might see two seconds
assert run("stock", *THEN) == run("stock", ledger, *THEN)
assert (
    json.loads(run("move-list", "cold", "--into", "box", "--at", DAY + "13:30", "--format", "json"))["at"]
    == "2026-03-02T19:30:00Z"
)
assert "PLACE is required" in run("move-list", status=2)
assert run("rules", "main", *THEN, "--format", "json") == run("rules", ledger, "main", *THEN, "--format", "json")
window = json.loads(run("excursions", "main", "--from", "2026-03-02", "--until", "2026-03-03", "--format", "json"))
# the day that is named is in it
assert (window["from"], window["until"]) == ("2026-03-02T06:00:00Z", "2026-03-04T06:00:00Z"), window
assert window["window"] == "from 2026-03-02 00:00 through the end of 2026-03-03", window
day, words = ["--from", "2026-03-02", "--until", "2026-03-02"], "from 2026-03-02 00:00 through the end of 2026-03-02"
assert words in run("conditions", "main", *day)
for command in (["accountability"], ["unit", "main"], ["rules", "main"], ["conditions", "main"]):
    one = json.loads(run(*command, *day, "--format", "json"))
    assert (one["until"], one["window"]) == ("2026-03-03T06:00:00Z", words), (command, one)
refused = run("excursions", "main", "--from", "2026-03-03", "--until", "2026-03-02", status=2)
assert "--until: \"2026-03-02\"" in refused and "ends before the window begins" in refused, refused
assert "no such ledger" in run("lists", ledger + ".other", status=2)
assert "--from: \"2026-02-30\"" in run("excursions", "main", "--from", "2026-02-30", "--until", "2026-03-03", status=2)

# a dose under review is followed to its end; what may be several doses is asked
run("hold", "second thoughts", "--lot", "K1", "--at", DAY + "08:50")
assert "may be" not in run("patient-step", "t-2", "told", "--text", "by telephone", "--at", DAY + "13:20")
assert posted("patient-step", "t-1", "decided", "--at", DAY + "13:21", "--dry-run")["dry_run"]
run("give", "K1", "t-1", "--mark", "vial 2, trip 2026-03-02 12:00", "--at", DAY + "13:22")
refused = run("patient-step", "t-1", "told", "--at", DAY + "13:23", status=2)
assert refused.count("\n") == 4 and "may be 2 doses" in refused and "  `--give 12`: give 12 (" in refused, refused
each = posted("patient-step", "t-1", "no answer", "--every", "--at", DAY + "13:24")["entries"]
assert [e["step"] for e in each] == ["no answer"] * 2, each
followed = json.loads(run("follow-up", ledger, "--format", "json"))
stands = {c["name"]: c["gives"] for c in followed["standings"]}
assert (
    stands["told"] == 1
    and stands["no answer"] == 2
    and sum(stands.values()) == followed["whole"]["gives"] == len(followed["doses"])
), followed
assert "recall of elm lot K1" in run("follow-up", ledger, "--lot", "K1")
assert "no such lot" in run("follow-up", ledger, "--lot", "Z9", status=2)
assert (
    posted("trained", "A. Person", "storage", "--due", "2026-03-31", "--reference", "folder 3", "--at", DAY + "13:25")[
        "entries"
    ][0]["due"]
    == "2026-03-31"
)
assert (
    json.loads(run("training", ledger, "--at", "2026-04-01T00:00:00", "--format", "json"))["training"][0]["lapsed"]
    is True
)

# definitions: read back whole, what is not stated is kept, what is dropped is dropped by name, what loosens is asked
# about
shown = " ".join(run("product", "elm", "--freeze-limit=-0.5C/31.1F", "--dry-run").split())
assert (
    "range: 2 °C (36 °F) to 8 °C (46 °F)" in shown
    and "allowance 1: 3 d in all from 8 °C (46 °F) to 25 °C (= 77 °F), by leaflet" in shown
    and 'beyond-use after "first puncture": 28 d' in shown
), shown
assert (
    "freeze limit: frozen at or below 0 °C (32 °F) -> frozen at or below -0.5 °C (31.1 °F)" in shown
    and "kept as it was: " in shown
    and " name, " in shown
), shown
kept = posted("product", "elm", "--freeze-limit=-0.5C/31.1F", "--dry-run")
assert (
    kept["entries"][0]["beyond_use"] == product["beyond_use"]
    and kept["entries"][0]["allowances"] == product["allowances"]
    and "changes" in kept
), kept
assert "allowances" not in posted("product", "elm", "--without", "allowances", "--yes", "--dry-run")["entries"][0]
assert posted("place", "annex", "--max-gap", "15 min", "--dry-run")["entries"][0]["range"] == product["range"]
assert "must be one of low, high" in run("place", "annex", "--without", "name", status=2)
run("product", "oak", "Oak (invented)", *refrigerator)
run(
    "receive",
    "O1",
    "5",
    "--product",
    "oak",
    "--place",
    "annex",
    "--expiry",
    "2027-05",
    "--fund",
    "state",
    "--at",
    DAY + "14:20",
)
for degrees, at in (("40F", "14:20"), ("50F", "14:30"), ("40F", "14:45")):
    run("check", "annex", degrees, "--at", DAY + at)
oak = posted("give", "O1", "t-20", "--at", DAY + "14:50")["entries"][0]["entry"]
before = bytes_now()
asked = subprocess.run(
    [COLDTALLY, "product", "oak", "--without", "high", "--note", "as the letter says"],
    capture_output=True,
    text=True,
    env=environment,
)
assert asked.returncode == 2 and bytes_now() == before, asked
assert (
    asked.stderr.count("\n") == 1
    and asked.stderr.startswith("coldtally: yes: must be stated: ")
    and f"would come off the review list: entry {oak}" in asked.stderr
), asked.stderr
assert "DRY RUN: nothing has been written" in asked.stdout and "waiting for guidance -> nothing found" in " ".join(
    asked.stdout.split()
), asked.stdout
for looser, says in (
    (
        ("place", "annex", "--near", "1 h"),
        "LOOSER: a reading speaks for the time around it up to 30 min -> 1 h; LOOSENS: of ",
    ),
    (("site", "--unmonitored-limit", "1 min"), "LOOSER: time not known without quarantine 0 s -> 1 min"),
    (
        ("product", "elm", "--beyond-use", "first puncture", "28 d 1 s"),
        'LOOSER: beyond-use after "first puncture" 28 d -> 28 d 1 s',
    ),
):
    assert says in run(*looser, status=2), looser
assert bytes_now() == before
loosened = posted("product", "oak", "--without", "high", "--note", "as the letter says", "--yes")
assert [d["entry"] for d in loosened["changes"]["doses"]] == [oak] and loosened["entries"][0]["range"] == {
    "low": {"C": "2", "F": "36"}
}, loosened

# posted JSON means what it says; what may be a mistake is said on standard error, and the numbers stand alone
odd = pathlib.Path(folder.name) / "odd.jsonl"
odd.write_text(
    '{"kind":"product","by":"ab","product":"ash","name":"Ash",'
    '"range":{"low":{"C":"2","F":"36"},"high":{"C":"8","F":"46"}},'
    '"allowances":[{"band":{"low":{"C":"8"},"high":{"C":"25"}},"seconds":60,"source":"s"}]}\n'
)
spoken = subprocess.run(
    [COLDTALLY, "post", ledger, str(odd), "--dry-run"], capture_output=True, text=True, env=environment, check=True
)
assert [list(json.loads(line)) for line in spoken.stdout.splitlines()] == [["entry"]], spoken.stdout
assert spoken.stderr == (
    'coldtally: WARNING: line 1: HOLE between the limits of product "ash": '
    'in °F readings above 46 °F and below 46.4 °F (7 7/9 and 8 °C) are out of range and in no allowance\n'
), spoken.stderr
# a vial opened by the command that uses it, dated back, and what to write on it
run(
    "receive",
    "V1",
    "20",
    "--product",
    "elm",
    "--place",
    "main",
    "--expiry",
    "2027-05",
    "--fund",
    "private",
    "--at",
    DAY + "14:20",
)
opened = ["give", "V1", "t-20", "--at", DAY + "14:40", "--opened", DAY + "14:30", "--vial", "vial 7"]
words = " ".join(run(*opened, "--dry-run").split())
assert (
    'Write on the vial: opened 2026-03-02 14:30, use until 2026-03-30 15:30, '
    'by beyond-use (28 d after first puncture); its mark here is "vial 7".' in words
), words
given = posted(*opened)
assert [(e["kind"], e["at"]) for e in given["entries"]] == [
    ("move", "2026-03-02T20:30:00Z"),
    ("beyond-use", "2026-03-02T20:30:00Z"),
    ("give", "2026-03-02T20:40:00Z"),
], given
assert given["opening"]["noted"] and given["opening"]["last_use"] == {
    "day": "2026-03-30",
    "whole_day": False,
    "until": "2026-03-30T20:30:00Z",
    "set_by": "beyond-use",
    "entry": None,
}, given
assert posted("give", "V1", "t-21", "--mark", "vial 7", "--at", DAY + "14:41")["opening"] is None
assert "have that mark there already" in run(
    "waste", "V1", "1", "spilled", "--mark", "", "--vial", "vial 7", "--at", DAY + "14:42", status=2
)
assert "--vial-doses" in run(
    "waste", "V1", "1", "spilled", "--mark", "", "--vial", "v", "--vial-doses", "ten", "--at", DAY + "14:42", status=2
)
run(
    "waste", "V1", "1", "spilled", "--mark", "", "--at", DAY + "14:43"
)  # forgotten, and noted afterwards with what was left
forgotten = posted("beyond-use", "V1", "--mark", "", "--vial", "vial 8", "--vial-doses", "9", "--at", DAY + "14:43")
assert [e["kind"] for e in forgotten["entries"]] == ["move", "beyond-use"] and forgotten["entries"][0][
    "doses"
] == 9, forgotten
assert {
    h["mark"]: h["doses"]
    for h in json.loads(run("stock", *THEN[2:], "--format", "json"))["holdings"]
    if h["lot"] == "V1"
} == {"vial 7": 8, "vial 8": 9}

assert "maker of elm: Elm Works (invented), 555-0100" in " ".join(
    run("maker", "elm", "Elm Works (invented)", "--phone", "555-0100", "--dry-run").split()
)
# what a terminal in another encoding sends
before = bytes_now()
for words in (
    ("give", "K1", "t\udcff"),
    ("waste", "K1", "1", "x\udcff"),
    ("product", "p", "n", "--low", "2C", "--high", "8C", "--gtin", "\udcff"),
):
    assert "is not valid UTF-8" in run(*words, status=2)
assert bytes_now() == before

environment.pop("COLDTALLY_BY")
assert "--by is required, unless COLDTALLY_BY names them" in run("give", "K1", "t-4", status=2)
for command in ("hold", "guidance"):  # neither has a fund
    assert "--fund" not in run(command, "--help"), command
for command in (
    "receive move give waste return transfer count check hold guidance beyond-use loan repayment takeback "
    "site product lot place probe certificate assign new-plan patient-step trained"
).split():
    page = run(command, "--help")
    assert "Example:\n  coldtally " + command in page and "Exit status:" in page and "--dry-run" in page, command
assert (
    json.loads(
        subprocess.run(
            [COLDTALLY, "verify", ledger, "--format", "json"], capture_output=True, text=True, check=True
        ).stdout
    )["findings"]
    == []
)
