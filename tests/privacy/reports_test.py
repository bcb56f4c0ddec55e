"""No patient's token stands in a report that is not about patients: every question of the command line is asked of the
demo clinic, as a table and as JSON, and a report is written for the health department and for every manufacturer.

Usage: reports_test.py COLDTALLY SOURCE_DIR"""
import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

COLDTALLY, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
AT, NOW = "2026-05-29T17:00:00", "2026-03-19T13:40:00"
# what is about patients, and the ledger itself
ABOUT_PATIENTS = {"review", "follow-up", "immunizations", "export"}
bad, looked = [], 0


def run(*argv, status=(0,), text=None):
    p = subprocess.run([COLDTALLY, *map(str, argv)], capture_output=True, text=True, input=text)
    if p.returncode not in status:
        bad.append(f"{argv}: status {p.returncode}: {p.stderr}")
    return p.stdout + p.stderr


def quiet(*argv, **more):
    """Runs it, and finds no token in what it prints."""
    global looked
    said = run(*argv, **more)
    looked += 1
    found = sorted(t for t in tokens if t in said)
    if found:
        bad.append(f"{' '.join(map(str, argv))}: tells {len(found)} tokens, {found[0]} among them")
    return said


def both(*argv, **more):
    for form in ("table", "json"):
        quiet(*argv, "--format", form, **more)


with tempfile.TemporaryDirectory() as folder:
    work = pathlib.Path(folder)
    # the demo's tokens, marked: nothing else looks like one
    shutil.copytree(SOURCE / "examples", work / "examples")
    for path in [*(work / "examples" / "entries").glob("*.jsonl"), work / "examples" / "make_entries.py"]:
        path.write_text(path.read_text().replace('"patient": "demo-', '"patient": "QZX-'))
    made = subprocess.run([work / "examples" / "run.sh", COLDTALLY, work / "x"], capture_output=True, text=True)
    if made.returncode != 0:
        sys.exit(f"examples/run.sh: status {made.returncode}\n{made.stdout[-2000:]}{made.stderr}")
    ledger, afternoon = work / "x" / "heron-flats.ledger", work / "x" / "afternoon.ledger"
    entries = [json.loads(line) for line in run("export", ledger).splitlines()]
    tokens = {e["patient"] for e in entries if e["kind"] == "give"}
    assert len(tokens) > 90 and all(t.startswith("QZX-") for t in tokens)
    assert sorted(t for t in tokens if t in made.stdout) == sorted(
        {
            d["patient"]
            for d in json.loads(run("review", ledger, "--at", AT, "--format", "json").splitlines()[0])["doses"]
            if d["finding"] != "cleared"  # those are a number
        }
    ), "the demo's run shows the review, and nothing else of patients"

    places = sorted({e["place"] for e in entries if e["kind"] == "place"})
    lots = sorted({(e["product"], e["lot"]) for e in entries if e["kind"] == "lot"})
    incidents = sorted({e["incident"] for e in entries if e["kind"] == "incident"})
    makers = sorted({e["name"] for e in entries if e["kind"] == "maker"})
    assert len(places) > 3 and len(lots) > 5 and len(incidents) == 3 and len(makers) > 2

    give = next(e for e in entries if e["kind"] == "give" and e["fund"] != "")
    run(
        "loan",
        give["entry"],
        "state" if give["fund"] != "state" else "private",
        "no other dose",
        "--ledger",
        ledger,
        "--by",
        "MQ",
        "--at",
        AT,
    )
    at, window = ["--at", AT], ["--from", "2026-01-05T07:00:00", "--until", AT]
    both("stock", ledger, *at)
    both("lists", ledger, *at)
    both("dates", ledger, *at)
    both("plan", ledger, *at)
    both("training", ledger, *at)
    both("today", ledger, *at)
    both("readiness", ledger, *at)
    both("accountability", ledger, *window)
    both("loans", ledger, *at, "--all")
    both("rules", ledger, *window)
    both("verify", ledger)
    both("incident", ledger, *at)
    for place in places:
        both("excursions", ledger, place, *window)
        both("conditions", ledger, place, *window)
        both("unit", ledger, place, *at)
        both("move-list", place, "--ledger", ledger, *at, status=(0, 2))
        both("trip", place, "--ledger", ledger, *at, status=(0, 2))
    for holding in json.loads(run("stock", ledger, *at, "--format", "json"))["holdings"]:
        both(
            "explain",
            ledger,
            *(holding[f] for f in ("place", "product", "lot")),
            "--fund=" + holding["fund"],
            "--mark=" + holding["mark"],
            *at,
        )
    for product, lot in lots:
        both("scan", lot, "--ledger", ledger, *at, status=(0, 2))
    for incident in incidents:
        both("incident", ledger, incident, *at)
        for maker in makers:
            both("incident", ledger, incident, "--maker", maker, *at, status=(0, 2))
        for to, names in (("health department", ["Marsh County"]), ("supervisor", ["MQ"]), ("manufacturer", makers)):
            for name in names:
                both(
                    "report",
                    ledger,
                    incident,
                    "--to",
                    to,
                    "--recipient",
                    name,
                    "--by",
                    "MQ",
                    "--uncounted",
                    "--at",
                    AT,
                    "--dry-run",
                    status=(0, 2),
                )
    # what they are a number in: the rows that stand for them, and each counted once
    for incident in incidents:
        told = json.loads(run("incident", ledger, incident, *at, "--patients", "--format", "json"))
        plain = json.loads(run("incident", ledger, incident, *at, "--format", "json"))
        if (
            plain["patients"] != len({d["patient"] for d in told["given"]})
            or any(d["patient"] is not None for d in plain["given"])
            or [d["entry"] for d in plain["given"]] != [d["entry"] for d in told["given"]]
        ):
            bad.append(f"incident {incident}: its patients are not counted right")
        page = run("incident", ledger, incident, *at)
        if plain["given"] and not re.search(rf"\bto {plain['patients']} patients?\b", page):
            bad.append(f"incident {incident}: the table does not say how many patients")
        report = run(
            "report",
            ledger,
            incident,
            "--to",
            "health department",
            "--recipient",
            "X",
            "--by",
            "MQ",
            "--uncounted",
            "--at",
            AT,
            "--dry-run",
            "--patients",
        )
        if any(d["patient"] not in report for d in told["given"]):
            bad.append(f"report of {incident} --patients: does not name them")
    assert max(len(json.loads(run("incident", ledger, i, *at, "--format", "json"))["given"]) for i in incidents) > 20
    if (
        json.loads(run("loans", ledger, *at, "--all", "--patients", "--format", "json"))["loans"][0]["patient"]
        != give["patient"]
    ):
        bad.append("loans --patients: does not name the patient")

    # work: what it says of doses given, which it finds by itself
    condemned = (
        "guidance",
        "demo-birch",
        "B-0203",
        "discard",
        "--issuer",
        "maker",
        "--reference",
        "r-1",
        "--through",
        AT,
        "--ledger",
        ledger,
        "--by",
        "MQ",
        "--at",
        AT,
        "--dry-run",
    )
    both(*condemned, status=(0, 2))
    quiet("takeback", give["entry"], "wrong dose", "--ledger", ledger, "--by", "MQ", "--dry-run", status=(0, 2))
    both("notice", afternoon, "--place", "main-fridge", "--text", "power out", "--by", "RS", "--at", NOW)
    given = [json.loads(line) for line in run("export", ledger).splitlines()]
    for e in [e for e in given if e["kind"] == "give"][:20]:  # the same patient, lot and day once more
        quiet(
            "give",
            e["lot"],
            e["patient"],
            "--product",
            e["product"],
            "--place",
            e["place"],
            "--fund=" + e["fund"],
            "--mark=" + e.get("mark", ""),
            "--ledger",
            ledger,
            "--by",
            "MQ",
            "--at",
            e["at"],
            "--note",
            "again",
            "--dry-run",
            status=(0, 2),
        )
        quiet(
            "patient-step",
            e["patient"],
            "told",
            "--ledger",
            ledger,
            "--by",
            "MQ",
            "--at",
            AT,
            "--dry-run",
            status=(0, 2),
        )
    both("entries", ledger, "--all")
    both("show", ledger)
    for name in [*places, *(lot for _, lot in lots)]:
        both("show", ledger, name)
    # every kind of refusal in which a token is an argument
    token = sorted(tokens)[0]
    for argv in (
        ["give", "B-0203", token, "too-many", token],
        ["give", "no such lot", token],
        ["give", "B-0203", token, "--doses", "x"],
        ["give", "B-0203", token + " Q", "--at", AT],
        ["give", "B-0203", token, "--at", "no time"],
        ["give", "B-0203", token * 600, "--at", AT],
        ["patient-step", token, "told", "--give", "7"],
        ["patient-step", token + "-unknown", "told"],
        ["patient-step", token, "danced"],
        ["patient-step", token, "told", token],
    ):
        quiet(*argv, "--ledger", ledger, "--by", "MQ", status=(2,))
    quiet("immunizations", ledger, "--patient", token, token, status=(2,))

    shown = re.findall(r"^  ([a-z-]+(?:, [a-z-]+)*)  ", run("--help"), flags=re.M)
    commands = set(", ".join(shown).split(", "))
    assert len(commands) > 60, commands
    asked = {
        "stock",
        "lists",
        "dates",
        "plan",
        "training",
        "today",
        "entries",
        "show",
        "readiness",
        "accountability",
        "loans",
        "rules",
        "verify",
        "incident",
        "excursions",
        "conditions",
        "unit",
        "move-list",
        "trip",
        "explain",
        "scan",
        "report",
        "guidance",
        "takeback",
        "notice",
        "give",
        "patient-step",
    }
    questions = {c for c in commands if "--at" in run(c, "--help") and "LEDGER" in run(c, "--help").split("\n\n")[0]}
    if missing := questions - asked - ABOUT_PATIENTS - {"import", "handover", "answer", "step", "post", "replay"}:
        bad.append(f"not looked at: {sorted(missing)}")
print("\n".join(bad) or f"{looked} reports and messages tell no token")
sys.exit(1 if bad else 0)
