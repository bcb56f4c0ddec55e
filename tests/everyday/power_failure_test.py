"""The example's power failure with the everyday commands alone. Usage: power_failure_test.py COLDTALLY SOURCE_DIR

What must come out is what the written story's own entries (chapter 04) put into the annex: found by posting those."""
import json
import pathlib
import subprocess
import sys
import tempfile

COLDTALLY, SOURCE = sys.argv[1], pathlib.Path(sys.argv[2])
ENTRIES = SOURCE / "examples" / "entries"
BEFORE = "2026-03-19T13:00:00"


def call(*words, text=None):
    return subprocess.run([COLDTALLY, *words], input=text, capture_output=True, text=True, check=True).stdout


def annex(ledger):
    rows = json.loads(call("stock", ledger, "--at", "2026-03-19T17:00:00", "--format", "json"))["holdings"]
    return [r for r in rows if r["place"] == "annex-fridge"]


with tempfile.TemporaryDirectory() as folder:
    work = pathlib.Path(folder)
    subprocess.run([sys.executable, str(SOURCE / "examples" / "make_entries.py"), str(work / "routine")], check=True)
    # in the order of run.sh: the story, then the routine, as far as noon
    lines = []
    for chapter in [*sorted(ENTRIES.glob("*.jsonl")), *sorted((work / "routine").glob("*.jsonl"))]:
        for line in chapter.read_text().splitlines():
            if json.loads(line).get("at", "") < BEFORE and not (chapter.parent == ENTRIES and chapter.name[:2] > "04"):
                lines.append(line)
    # voids name the numbers of the story, which stand as long as nothing before them is left out
    start = "\n".join(lines) + "\n"
    told = [line for line in (ENTRIES / "04-march-power-failure.jsonl").read_text().splitlines() if BEFORE <= json.loads(line)["at"] < "2026-03-19T17:00:00"]
    walked, written = str(work / "walked.ledger"), str(work / "written.ledger")
    for ledger in (walked, written):
        call("post", ledger, "-", text=start)
    call("post", written, "-", text="\n".join(told) + "\n")

    out = subprocess.run([str(SOURCE / "examples" / "power-failure.sh"), COLDTALLY, walked], capture_output=True, text=True)
    assert out.returncode == 0, out.stderr
    # what was unpacked into the annex is what the story has there; only marks may differ, which keep the travelled doses apart
    key = lambda r: (r["product"], r["lot"], r["fund"], r["doses"])
    assert sorted(map(key, annex(walked))) == sorted(map(key, annex(written))), (annex(walked), annex(written))

    text = " ".join(out.stdout.split())
    before_lid = text.index("For the lid:")
    commands = (SOURCE / "examples" / "power-failure.sh").read_text().split("For the lid")[0].split("== On the way")[0].count('\n"$coldtally"')
    assert commands == 3, commands  # the measure: doses in the container with the list for its lid
    for lot in ("AL-2601A", "B-0117", "CE-44"):
        assert lot in text[before_lid:], lot
    assert "ACT NOW: temperature 8.4 °C is above" in text and "Lasted 40 min, limit 8 h." in text, text
    assert "Power out in the main building" in text[text.index("last good reading"):], text
