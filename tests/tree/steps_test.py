"""A step of lib/ may include only the steps before it, and a public header only public headers: the data flows one
way."""
import pathlib
import re
import sys

STEPS = [
    "text",
    "quantities",
    "entries",
    "standards",
    "logger",
    "ledger",
    "trace",
    "exposure",
    "timeline",
    "answers",
    "forms",
]
# the public header of a step may be included by it and by all after it
PUBLIC = {
    "error": 0,
    "quantities": 1,
    "exposure": 1,
    "entries": 2,
    "fhir": 3,
    "gs1": 3,
    "columns": 4,
    "logger": 4,
    "copies": 5,
    "verification": 5,
    "answers": 9,
    "drafts": 9,
    "handovers": 9,
    "immunizations": 9,
    "journeys": 9,
    "traces": 9,
    "incidents": 9,
    "loosening": 9,
    "stewardship": 9,
    "upkeep": 9,
    "forms": 10,
    "ledger": 11,
}

root = pathlib.Path(sys.argv[1])
bad = []
files = 0
for path in sorted((root / "lib").glob("*/*.?pp")):
    step = path.parent.name
    if step not in STEPS:
        bad.append(f"{path.relative_to(root)}: {step} is not one of the steps {STEPS}")
        continue
    files += 1
    for number, line in enumerate(path.read_text().splitlines(), 1):
        m = re.match(r'#include "(?:coldtally/(\w+)\.hpp|(\w+)/[\w.]+)"', line)
        if not m:
            continue
        at = PUBLIC[m[1]] if m[1] else STEPS.index(m[2])
        if at > STEPS.index(step):
            bad.append(f"{path.relative_to(root)}:{number}: {step} comes before {m[1] or m[2]}")
for path in sorted((root / "include" / "coldtally").glob("*.hpp")):
    files += 1
    for number, line in enumerate(path.read_text().splitlines(), 1):
        if re.match(r'#include ["<](sqlite3|boost|nlohmann|nettle|date|csv|CLI)', line):
            bad.append(f"{path.relative_to(root)}:{number}: a public header shows what is behind it: {line}")
for line in bad:
    print(line)
if files < 30:
    bad.append(f"only {files} files were looked at")
sys.exit(1 if bad else 0)
