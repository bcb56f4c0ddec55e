"""The data flows one way: a step of lib/ includes only the steps before it, a public header only headers of its own
rank or below, and what a header declares is defined in its own step.

Usage: steps_test.py SOURCE_DIR"""
import pathlib
import re
import sys

STEPS = [
    "text",
    "words",
    "quantities",
    "entries",
    "standards",
    "logger",
    "ledger",
    "trace",
    "exposure",
    "timeline",
    "question",
    "conditions",
    "stock",
    "incidents",
    "upkeep",
    "drafts",
    "entered",
    "start",
    "forms",
]
FACE = len(STEPS)  # the files of lib/ itself
RANK = {step: rank for rank, step in enumerate(STEPS)}
# the steps that a public header may be included by: the first of them, and all after it
PUBLIC = {
    "error": "text",
    "words": "words",
    "nearest": "text",
    "quantities": "quantities",
    "exposure": "quantities",
    "entries": "entries",
    "fhir": "standards",
    "gs1": "standards",
    "columns": "logger",
    "logger": "logger",
    "copies": "ledger",
    "verification": "ledger",
    "answers": "question",
    "conditions": "question",
    "question": "question",
    "stock": "question",
    "today": "question",
    "traces": "question",
    "journeys": "question",
    "stewardship": "question",
    "incidents": "question",
    "upkeep": "question",
    "departures": "question",
    "handovers": "question",
    "immunizations": "question",
    "loosening": "question",
    "drafts": "question",
    "entered": "question",
    "start": "question",
    "forms": "forms",
}
# What the face alone defines: it hands each call to its step.
OF_THE_FACE = {"ledger", "view", "definition_work", "entry_work", "handover_work", "incident_work", "work"}
INCLUDE = re.compile(r'#include "(?:coldtally/(\w+)\.hpp|(\w+)/[\w.]+)"')
# a function at namespace level: "TYPE NAME(" without a body on the line before it ends with ";"
DECLARED = re.compile(r"^(?!using|template|class|struct|enum|namespace|return|inline|constexpr|static|friend|#|//|/\*)"
                      r"[A-Za-z_][\w:<>,&* ]*?[ &*](\w+)\((?!\))?", re.M)  # fmt: skip

root = pathlib.Path(sys.argv[1])
bad = []
files = 0


def rank_of(header, step):
    if header:
        return FACE if header in OF_THE_FACE else RANK[PUBLIC[header]]
    return RANK[step]


def look_at_includes(path, rank):
    for number, line in enumerate(path.read_text().splitlines(), 1):
        m = INCLUDE.match(line)
        if m and rank_of(m[1], m[2]) > rank:
            bad.append(f"{path.relative_to(root)}:{number}: comes before {m[1] or m[2]}")


def functions_of(text):
    """Names that a header declares at namespace level and defines not itself."""
    names = set()
    depth = 0
    statement = ""
    for line in text.splitlines():
        line = line.split("//")[0].rstrip()
        if depth == 0 and not line.startswith(("#", "}", "namespace ")):
            statement += line + " "
        opened = line.count("{") - line.count("}")
        if line.startswith("namespace ") or (line.startswith("}") and "{" not in line and depth == 0):
            statement = ""
            continue
        depth += opened
        if depth == 0 and (statement.rstrip().endswith(";") or statement.rstrip().endswith("}")):
            m = DECLARED.match(statement.strip())
            if m and "{" not in statement and " operator" not in statement and "=" not in statement.split("(")[0]:
                names.add(m[1])
            statement = ""
    return names


defined = {}  # a function's name: the steps that define one of this name at namespace level
for path in sorted((root / "lib").rglob("*.cpp")):
    step = "text" if path.name == "error.cpp" else path.parent.name if path.parent.name in RANK else "the face"
    for m in re.finditer(r"^[A-Za-z_][\w:<>,&* ]*?[ &*](\w+)\([^;]*?\)[^;{}]*\{", path.read_text(), re.M):
        defined.setdefault(m[1], set()).add(step)

checked = 0
for path in sorted((root / "lib").glob("*/*.?pp")):
    step = path.parent.name
    if step not in RANK:
        bad.append(f"{path.relative_to(root)}: {step} is not one of the steps {STEPS}")
        continue
    files += 1
    look_at_includes(path, RANK[step])
    if path.suffix == ".hpp":
        for name in functions_of(path.read_text()):
            checked += 1
            if step not in defined.get(name, {step}):
                bad.append(f"{path.relative_to(root)}: {name} is defined in {sorted(defined[name])}")
for path in sorted((root / "include" / "coldtally").glob("*.hpp")):
    files += 1
    name = path.stem
    if name not in PUBLIC and name not in OF_THE_FACE:
        bad.append(f"{path.relative_to(root)}: has no rank here")
        continue
    look_at_includes(path, rank_of(name, None))
    for function in functions_of(path.read_text()):
        checked += 1
        steps = defined.get(function, set())
        lowest = min((RANK.get(step, FACE) for step in steps), default=0)  # of overloads, the one that fits
        # what is asked of a World is answered by the rooms after it, and no form makes an answer
        limit = FACE if name in OF_THE_FACE else RANK["forms"] if name == "forms" else RANK["start"]
        if RANK[PUBLIC.get(name, "forms")] < RANK["question"]:
            limit = RANK["timeline"]
        if lowest > limit:
            bad.append(f"{path.relative_to(root)}: {function} is defined in {sorted(steps)}")
    for number, line in enumerate(path.read_text().splitlines(), 1):
        if re.match(r'#include ["<](sqlite3|boost|nlohmann|nettle|date|csv|CLI)', line):
            bad.append(f"{path.relative_to(root)}:{number}: a public header shows what is behind it: {line}")
for line in bad:
    print(line)
if files < 30 or checked < 150:
    bad.append(f"only {files} files, {checked} functions were looked at")
    print(bad[-1])
sys.exit(1 if bad else 0)
