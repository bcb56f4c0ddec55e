"""The whole example, said by a phrasebook whose every phrase is marked, has no unmarked word: what is printed comes out
of the phrasebook, is stated in an entry or on the command line, or is a command that is suggested.

Usage: marked_test.py MARKED COLDTALLY SOURCE_DIR
MARKED: the command line with the phrasebook of marked.cpp; COLDTALLY: the usual one."""
import json
import pathlib
import re
import subprocess
import sys
import tempfile

marked, coldtally, root = sys.argv[1:]
examples = pathlib.Path(root) / "examples"
environment = {"PATH": "/usr/bin:/bin", "LC_ALL": "C.UTF-8"}
# units, and what is the same in all languages here: zones, the digest's name, the hours' letters
UNITS = set("h min s d C F UTC SHA GTIN CVX".split())
# the letters of a layout's patterns: "%Y-%m-%d %H:%M"
UNITS |= set("Y m H M".split())
# a suggested command that goes on in the next line, and what it leaves to be written
COMMANDS = set("coldtally notice WHAT WAS FOUND".split())
WORD = re.compile(r"[A-Za-z]+(?:'[a-z]+)?")
DIGEST = re.compile(r"\b[0-9a-f]{64}\b")
# files of a logger (invented) without a layout, so that much is guessed, asked and settled
LOGGER_FILES = {
    "1.csv": "Clock UTC-08:00\nTime,Temp 1,Temp 2\n03/04/2025 08:05,4.2,5.2\n",
    "2.csv": "Time\tTemp\n2025-11-02 00:30\t4.0\n2025-11-02 00:45\t4.1\n2025-11-02 01:00\t4.2\n",
    "3.csv": "Time;Temp °C\n13.03.2025 08:05;4,599999905\n",
    "4.csv": "Time,Temp °C\n" + "".join(f"2025-03-14 08:{m},4.1\n" for m in ("20", "30", "00", "10")),
    "5.csv": "Time,Temp \udcb0C\n2025-03-15 08:20,4.1\n2025-03-15 08:10,4.1\n",
    "6.csv": "Time,Temp\n2025-03-16 08:20,39.6\n",
    "7.csv": "2025-03-17 08:05,4,2\n2025-03-17 08:15,4,3\n",
}


def run(*words, **more):
    done = subprocess.run(words, capture_output=True, text=True, env=environment, **more)
    assert done.returncode in (0, 1), (words, done.returncode, done.stderr)
    return done.stdout


def words_of(value, out):
    """Every word in the texts of an entry, and the names of its fields."""
    if isinstance(value, dict):
        for name, one in value.items():
            out.update(WORD.findall(name))
            words_of(one, out)
    elif isinstance(value, list):
        for one in value:
            words_of(one, out)
    elif isinstance(value, str):
        out.update(WORD.findall(value))


with tempfile.TemporaryDirectory() as folder:
    work = pathlib.Path(folder) / "example"
    printed = [run("/bin/bash", str(examples / "run.sh"), marked, str(work))]
    ledger = str(work / "heron-flats.ledger")
    printed.append(run("/bin/bash", str(examples / "power-failure.sh"), marked, str(work / "afternoon.ledger")))
    at = ["--at", "2026-05-29T17:00:00"]
    window = ["--from", "2026-01-05", "--until", "2026-05-29"]
    for question in (
        ["stock"], ["dates"], ["review", "--all"], ["incident"], ["loans", "--all"], ["accountability", *window],
        ["lists", "--why"], ["review", "--why"], ["readiness", "--why"], ["incident", "2026-1"],
        ["plan"], ["training"], ["today"], ["readiness"], ["follow-up"], ["rules", *window],
        ["conditions", "annex-fridge", *window], ["unit", "annex-fridge"], ["move-list", "main-fridge"],
    ):  # fmt: skip
        name, *rest = question
        printed.append(run(marked, name, ledger, *rest, *at))
    for file, content in LOGGER_FILES.items():
        path = work / file
        path.write_bytes(content.encode(errors="surrogateescape"))
        stated = ["--columns", "temperature=2"] if file == "7.csv" else []
        trial = ["--probe", "ml-101", "--by", "MQ", "--yes", "--dry-run", *stated]
        printed.append(run(marked, "import", ledger, *trial, str(path)))
    exported = [run(coldtally, "export", str(path)) for path in work.glob("*.ledger")]
    known = UNITS | COMMANDS
    for line in "".join(exported).splitlines():
        words_of(json.loads(line), known)
    known.update(WORD.findall(folder))
    for path in list(examples.rglob("*")) + list(work.rglob("*")):
        known.update(WORD.findall(path.name))
    known.update(WORD.findall(" ".join(LOGGER_FILES.values())))
    # what the scripts themselves say
    for script in examples.glob("*.sh"):
        known.update(WORD.findall(" ".join(re.findall(r"(?:echo|printf|say) +\"([^\"]*)\"", script.read_text()))))

text = "\n".join(printed)
marks = len(re.findall("[А-Яа-я]+", text))
unmarked = {}
for line in DIGEST.sub("", text).splitlines():
    if line.startswith("{"):
        continue  # JSON is the same in every language
    without_commands = re.sub(r"`?coldtally [^`]*`?|--[a-z-]+", "", line)
    # where a name may go on in the next line
    in_columns = re.search(r"\S  +\S", line.strip()) or line.startswith("   ")
    for word in WORD.findall(without_commands):
        if word not in known and not (in_columns and any(word in whole for whole in known)):
            unmarked.setdefault(word, line)
for word, line in sorted(unmarked.items()):
    print(f"{word}: {line}")
print(f"{marks} words by the phrasebook, {len(unmarked)} by nobody")
sys.exit(1 if unmarked or marks < 5000 else 0)
