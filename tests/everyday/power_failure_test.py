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
    start = subprocess.run(
        [sys.executable, str(SOURCE / "examples" / "entries_before.py"), BEFORE, str(work / "routine")],
        capture_output=True,
        text=True,
        check=True,
    ).stdout
    start += (SOURCE / "examples" / "programme" / "rules.jsonl").read_text()
    told = [
        line
        for line in (ENTRIES / "04-march-power-failure.jsonl").read_text().splitlines()
        if BEFORE <= json.loads(line)["at"] < "2026-03-19T17:00:00"
    ]
    walked, written = str(work / "walked.ledger"), str(work / "written.ledger")
    for ledger in (walked, written):
        call("post", ledger, "-", text=start)
    call("post", written, "-", text="\n".join(told) + "\n")

    out = subprocess.run(
        [str(SOURCE / "examples" / "power-failure.sh"), COLDTALLY, walked], capture_output=True, text=True
    )
    assert out.returncode == 0, out.stderr
    # what was unpacked into the annex is what the story has there; only marks may differ, which keep the travelled
    # doses apart
    key = lambda r: (r["product"], r["lot"], r["fund"], r["doses"])
    assert sorted(map(key, annex(walked))) == sorted(map(key, annex(written))), (annex(walked), annex(written))

    text = " ".join(out.stdout.split())
    before_lid = text.index("For the lid:")
    script = (SOURCE / "examples" / "power-failure.sh").read_text().replace(" \\\n    ", " ")
    commands = [line for line in script.splitlines() if line.startswith("coldtally ")]
    assert commands[2].startswith(
        "coldtally pack "
    ), commands  # the measure: three commands to doses in the container with the list for its lid
    readme = (SOURCE / "README.md").read_text()
    assert all(command in readme for command in commands), [command for command in commands if command not in readme]
    for lot in ("AL-2601A", "B-0117", "CE-44"):
        assert lot in text[before_lid : text.index("== On the way")], lot
    assert "ACT NOW: temperature 8.4 °C is above" in text and "Lasted 40 min, limit 8 h." in text, text
    assert "Power out, doors kept shut" in text[text.index("last good reading") :], text
