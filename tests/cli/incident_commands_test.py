"""From a logger's file to all that a health department asks, and from an answer to the new review list, with commands
alone. Invented data.

Usage: incident_commands_test.py COLDTALLY"""
import json
import os
import pathlib
import subprocess
import sys
import tempfile

COLDTALLY = pathlib.Path(sys.argv[1]).resolve()
bad = []
ran = 0


def check(what, true):
    if not true:
        bad.append(what)


with tempfile.TemporaryDirectory() as folder:
    ledger = os.path.join(folder, "c.ledger")

    def run(*words, status=0, stdin=None):
        global ran
        ran += 1
        p = subprocess.run(
            [COLDTALLY, *words], input=stdin, capture_output=True, text=True, env={"COLDTALLY_BY": "QA", "TZ": "UTC"}
        )
        if p.returncode != status:
            bad.append(f"{' '.join(words)}: status {p.returncode}, not {status}: {p.stdout}{p.stderr}")
        return p.stdout if status != 2 else p.stderr

    entries = [
        {"kind": "site", "name": "Wren Street Practice, invented", "zone": "UTC"},
        {
            "kind": "place",
            "place": "main",
            "name": "Refrigerator",
            "type": "refrigerator",
            "range": {"low": {"C": "2"}, "high": {"C": "8"}},
        },
        {"kind": "probe", "probe": "p", "scale": "C"},
        {"kind": "assign", "at": "2026-03-01T00:00:00Z", "probe": "p", "place": "main"},
        {"kind": "product", "product": "mmr", "name": "M, invented", "range": {"low": {"C": "2"}, "high": {"C": "8"}}},
        {"kind": "lot", "product": "mmr", "lot": "K1", "expiry": "2099-06"},
        {"kind": "maker", "product": "mmr", "name": "M Works"},
        {
            "kind": "rules",
            "programme": "P",
            "source": "invented",
            "dated": "2026-01-01",
            "report": [{"rule": "hour", "form": "run", "temperature": {"is": "above"}, "at_least_s": 3600}],
            "duties": [{"step": "health department told", "within_s": 86400, "if_reportable": True}],
        },
        {"kind": "receive", "at": "2026-03-01T01:00:00Z", "place": "main", "product": "mmr", "lot": "K1", "doses": 24},
        {
            "kind": "give",
            "at": "2026-03-01T12:00:00Z",
            "place": "main",
            "product": "mmr",
            "lot": "K1",
            "patient": "t-1",
        },
    ]
    run("post", ledger, "-", stdin="\n".join(json.dumps({**e, "by": "QA"}) for e in entries))
    # every half hour for a day, at 12 C from 10:00 to 16:00
    rows = [
        f"2026-03-01T{m // 60:02d}:{m % 60:02d}:00Z,{'12.0' if 600 <= m <= 960 else '5.0'}" for m in range(0, 1440, 30)
    ]
    file = pathlib.Path(folder, "march.csv")
    file.write_text("instant,temperature\n" + "\n".join(rows) + "\n")

    # the file, the notice, the whole: three commands
    ran = 0
    out = run("import", ledger, "--probe", "p", "--columns", "instant=1,temperature=2", "--yes", str(file))
    check(
        "import says that an excursion has no incident",
        "nobody has opened an incident" in out and "main: too warm 2026-03-01" in out,
    )
    out = run("notice", ledger, "--place", "main", "--text", "door ajar", "--at", "2026-03-01T16:00:00")
    check("notice names the incident", out.startswith("Incident 2026-1, entry "))
    given = out.split("Doses given since the last good reading")[1].split("What happened")[0]
    check(
        "notice lists the dose given at once, and no token",
        "to 1 patient" in given and "entry 10, 1 dose, mmr lot K1 in main" in given and "t-1" not in out,
    )
    check("notice asks for the count", "NOT been counted" in out)
    whole = run("incident", ledger, "2026-1", "--at", "2026-03-01T20:00:00", "--format", "json")
    check("three commands", ran == 3)
    out = run("notice", ledger, "--place", "main", "--text", "again", "--at", "2026-03-01T16:05:00", "--dry-run")
    check("a second notice of one place is said", "incident 2026-1 of main is open since 2026-03-01 16:00" in out)
    whole = json.loads(whole)
    check("the condition was met at 11 h and 17/14 of the flank", whole["findings"][0]["estimate"]["met"])
    # 5 to 12 C in 1800 s from 09:30 passes 8 C after 1800 * 3/7 s; an hour later
    check("first instant", whole["findings"][0]["estimate"]["first_s"] == f"{(1772357400 + 3600) * 7 + 5400}/7")
    check(
        "duty", [d["due"] for d in whole["duties"] if d["step"] == "health department told"] == ["2026-03-02T16:00:00Z"]
    )
    told = {
        "place": "main",
        "product": "mmr",
        "lot": "K1",
        "fund": "",
        "mark": "",
        "doses": 23,
        # 6 h, 1800 * 4/7 s before and as much after, rounded up
        "out_of_range_s": 21600 + 2058,
        "at_most_s": str(21600 + 3600),  # anything may have been on the flanks
        "checked_s": "0",
        "unmonitored_s": 0,
        "points": 13,
    }
    check("told", [{k: t[k] for k in told} for t in whole["told"]] == [told])
    check("missing", any(m.startswith("device: certificate") for m in whole["missing"]))

    # not counted: the report is refused, or says so
    before = pathlib.Path(ledger).read_bytes()
    to = ("--to", "manufacturer", "--recipient", "M Works", "--at", "2026-03-01T20:00:00")
    check(
        "uncounted",
        "--uncounted" in run("report", ledger, "2026-1", *to, status=2) and pathlib.Path(ledger).read_bytes() == before,
    )
    run("report", ledger, "2026-1", *to, "--uncounted", "--dry-run")
    check("dry run", pathlib.Path(ledger).read_bytes() == before)
    sent = run("report", ledger, "2026-1", *to, "--uncounted").split("entry ")[1].split()[0]
    check(
        "the report says that it was not counted",
        '"counted":false' in run("export", ledger).splitlines()[-1].replace(" ", ""),
    )

    # the answer: seen first, then posted; then the list: two commands
    answer = (
        "answer",
        ledger,
        sent,
        "mmr",
        "K1",
        "--verdict",
        "use",
        "--issuer",
        "M Works",
        "--reference",
        "case 7",
        "--at",
        "2026-03-03T10:00:00",
    )
    before = pathlib.Path(ledger).read_bytes()
    out = run(*answer)
    check("seen", "NOT POSTED" in out and "cleared by guidance" in out and pathlib.Path(ledger).read_bytes() == before)
    ran = 0
    run(*answer, "--yes")
    review = json.loads(run("review", ledger, "--at", "2026-03-01T23:00:00", "--format", "json"))
    check("two commands", ran == 2)
    check("review", [d["finding"] for d in review["doses"]] == ["cleared"])

    # a late file shows that more was out of range: the same answer is no longer enough
    file.write_text("instant,temperature\n2026-03-01T09:45:00Z,12.0\n2026-03-01T09:35:00Z,12.0\n")
    late = json.loads(
        run(
            "import",
            ledger,
            "--probe",
            "p",
            "--columns",
            "instant=1,temperature=2",
            "--yes",
            "--format",
            "json",
            str(file),
        )
    )
    check(
        "import names the incident",
        [i["incident"] for i in late["found"]["incidents"]] == ["2026-1"] and not late["found"]["without_incident"],
    )
    before = pathlib.Path(ledger).read_bytes()
    out = run(*answer, "--yes", status=1)
    check("more is known", "ask again" in out and pathlib.Path(ledger).read_bytes() == before)
    run(*answer, "--yes", "--despite", "asked by telephone")

    check("a name typed wrong", "no incident" in run("step", ledger, "2026-9", "cause", "--text", "x", status=2))
    run("step", ledger, "2026-1", "closed", "--text", "done", "--at", "2026-03-04T10:00:00")
    check(
        "closed",
        json.loads(run("incident", ledger, "--format", "json"))["incidents"][0]["closed"] == "2026-03-04T10:00:00Z",
    )
    check(
        "rules",
        json.loads(
            run(
                "rules",
                ledger,
                "main",
                "--from",
                "2026-03-01T00:00:00",
                "--until",
                "2026-03-02T00:00:00",
                "--format",
                "json",
            )
        )["findings"][0]["estimate"]["met"],
    )
    check("intact", "as it was posted" in run("verify", ledger))

    # an alarm that was none: held at once, in every list and at every give; let go when the record knows all of it
    quiet = os.path.join(folder, "q.ledger")
    run("post", quiet, "-", stdin="\n".join(json.dumps({**e, "by": "QA"}) for e in entries if e["kind"] != "give"))
    file.write_text(
        "instant,temperature\n"
        + "".join(f"2026-03-01T{m // 60:02d}:{m % 60:02d}:00Z,5.0\n" for m in range(0, 1440, 30))
    )
    layout = ("--probe", "p", "--columns", "instant=1,temperature=2", "--yes", str(file))
    run("import", quiet, *layout)
    then, later = ("--at", "2026-03-01T16:10:00"), ("--at", "2026-03-01T23:40:00")
    notice = ("notice", quiet, "--place", "main", "--text", "alarm", "--at", "2026-03-01T16:05:00")
    check("the reason must be said", "why" in run(*notice, "--no-hold", " ", status=2))
    before = pathlib.Path(quiet).read_bytes()
    check(
        "dry run of a notice",
        "is on hold: 1 lot" in run(*notice, "--dry-run") and pathlib.Path(quiet).read_bytes() == before,
    )
    check(
        "held",
        run(*notice).startswith(
            'Incident 2026-1, entry 11: all that was in "main" at 2026-03-01 16:05 is on hold: 1 lot (entry 12)\n'
        ),
    )
    check("move list", "DO NOT USE (quarantine)" in run("move-list", quiet, "main", *then))
    held = json.loads(run("lists", quiet, *then, "--format", "json"))["holdings"][0]
    check(
        "lists",
        (held["list"], held["reasons"], held["in_doubt"]) == ("quarantine-pending-guidance", ["held"], ["2026-1"]),
    )
    given = run("give", "--ledger", quiet, "K1", "t-1", *then, "--dry-run")
    check(
        "give",
        "NOT ON KEEP" in given and "do not give it" in given and "incident 2026-1 is open" in " ".join(given.split()),
    )
    closed = ("step", quiet, "2026-1", "closed", "--text", "a lamp")
    before = pathlib.Path(quiet).read_bytes()
    check(
        "too early",
        "no reading in range is known since" in run(*closed, "--release", *then, status=2)
        and pathlib.Path(quiet).read_bytes() == before,
    )
    check(
        "without release they stand",
        "DO NOT USE goes on for 24 doses, held by entry 12" in " ".join(run(*closed, *later, "--dry-run").split()),
    )
    whole = json.loads(run("incident", quiet, "2026-1", *later, "--format", "json"))
    check("holds", whole["holds"] == [{"entry": 12, "place": "main", "product": "mmr", "lot": "K1", "doses": 24}])
    check("nothing against it", whole["against_release"] == [] and whole["release_from"] == "2026-03-01T16:00:00Z")
    out = run(*closed, "--release", *later)
    check("released", "took back entry 12" in out and "incident 2026-1: closed, entry 14" in out)
    kept = json.loads(run("lists", quiet, *later, "--format", "json"))["holdings"][0]
    check("kept", (kept["list"], kept["in_doubt"]) == ("keep", []))

print("\n".join(bad) or "from file to report in three commands, from answer to list in two")
sys.exit(1 if bad else 0)
