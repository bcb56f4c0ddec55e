"""No table of the example breaks a word, or leaves its width, at 60, 80 and 132 columns: what stands in the lines of
one width stands whole in those of the widest. A word that is longer than a line is the only one that may be broken; the
example has none.

Usage: width_test.py COLDTALLY SOURCE_DIR"""
import datetime
import json
import os
import pathlib
import subprocess
import sys
import tempfile
import unicodedata

from on_terminal import on_terminal

coldtally, root = os.path.abspath(sys.argv[1]), pathlib.Path(sys.argv[2])
clean = {"PATH": "/usr/bin:/bin", "LC_ALL": "C.UTF-8"}
WINDOW = ["--from", "2026-01-05", "--until", "2026-05-29"]
bad = []


def run(argv, columns=None, status=(0,)):
    done = subprocess.run(argv, capture_output=True, env=clean | ({"COLUMNS": str(columns)} if columns else {}))
    assert done.returncode in status, (argv, done.returncode, done.stderr)
    return done.stdout.decode()


def cells(line):
    """Of a terminal: 2 for a wide character, none for one that combines."""
    return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in line)


def words(text):
    """Without the signs by which a title stands before what went below its row, and by which such parts are kept
    apart."""
    return {word.rstrip(":;") for word in text.split()}


def questions(ledger):
    incidents = [
        i["incident"] for i in json.loads(run([coldtally, "incident", ledger, "--format", "json"]))["incidents"]
    ]
    holdings = json.loads(run([coldtally, "stock", ledger, *AT, "--format", "json"]))["holdings"]
    places = sorted({h["place"] for h in holdings} | {"carrier"})
    assert len(incidents) == 3 and len(holdings) > 10
    yield from (
        ["stock"], ["lists"], ["lists", "--why"], ["dates"], ["review"], ["review", "--all"], ["review", "--why"],
        ["follow-up"], ["follow-up", "--lot", "B-0117"], ["plan"], ["training"], ["readiness"], ["readiness", "--why"],
        ["loans", "--all"], ["accountability", *WINDOW], ["rules", *WINDOW], ["incident"],
        ["scan", "(10)B-0117"],
    )  # fmt: skip
    for place in places:
        yield from (
            ["unit", place],
            ["move-list", place],
            ["excursions", place, *WINDOW],
            ["conditions", place, *WINDOW],
        )
    for incident in incidents:
        yield from (["incident", incident], ["incident", incident, "--patients"])
    for h in holdings:
        yield ["explain", h["place"], h["product"], h["lot"], "--fund=" + h["fund"], "--mark=" + h["mark"]]


with tempfile.TemporaryDirectory() as folder:
    work = folder + "/example"
    run(["/bin/bash", str(root / "examples/run.sh"), coldtally, work])
    ledger = work + "/heron-flats.ledger"
    run(["/bin/bash", str(root / "examples/power-failure.sh"), coldtally, work + "/afternoon.ledger"])
    # one state of knowledge for all, so that no instant of asking differs
    known = datetime.datetime.now(datetime.timezone.utc).strftime("%Y-%m-%dT%H:%M:%SZ")
    AT = ["--at", "2026-05-29T17:00:00", "--known-on", known]
    asked = 0
    on_the_way = [["trip", "carrier"], ["move-list", "annex-fridge"], ["lists"], ["incident", "2026-2"]]
    for of, question in [(ledger, q) for q in questions(ledger)] + [
        (work + "/afternoon.ledger", q) for q in on_the_way
    ]:
        argv = [
            coldtally,
            question[0],
            *question[1:],
            "--ledger",
            of,
            *(AT if of == ledger else ["--at", "2026-03-19T17:00:00", *AT[2:]]),
        ]
        widest = run(argv, 160)
        for columns in (60, 80, 132):
            table = run(argv, columns)
            asked += 1
            what = f"{' '.join(question)} at {columns}"
            bad += [f"{what}: {cells(line)} cells: {line}" for line in table.splitlines() if cells(line) > columns]
            bad += [f"{what}: broken: {word}" for word in sorted(words(table) - words(widest))]
    assert asked > 150, asked
    # every id that JSON has stands whole in the table of any width
    listed = [coldtally, "lists", ledger, *AT]
    for h in json.loads(run([*listed, "--format", "json"]))["holdings"]:
        for columns in (60, 80):
            table = run(listed, columns).split()
            bad += [
                f"lists at {columns}: {h[f]} is not whole" for f in ("place", "product", "lot") if h[f] not in table
            ]

    # how wide: COLUMNS, else the terminal, else as paper; never narrower than 60 or wider than 160
    def shown(columns, more):
        return on_terminal([*listed, "--color", "never"], clean | more, columns)

    assert run(listed) == run(listed, 100) != run(listed, 80)
    assert shown(80, {}) == run(listed, 80)
    assert shown(80, {"COLUMNS": "60"}) == run(listed, 60) == run(listed, 20)
    assert shown(0, {}) == run(listed) == run(listed, "wide") == run(listed, -5) == run(listed, "9" * 30)
    assert run(listed, 160) == run(listed, 5000)

for one in bad[:40]:
    print(one)
print(f"{asked} tables, {len(bad)} bad")
sys.exit(1 if bad else 0)
