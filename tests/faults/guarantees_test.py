"""Every guarantee has its number and a test, and every test that the page names is there.

Usage: guarantees_test.py CTEST BUILD_DIR SOURCE_DIR"""
import pathlib
import re
import subprocess
import sys

ctest, build, source = sys.argv[1:4]
page = (pathlib.Path(source) / "tests" / "faults" / "README.md").read_text()
listed = subprocess.run([ctest, "--test-dir", build, "-N"], capture_output=True, text=True, check=True).stdout
tests = set(re.findall(r"Test +#\d+: (\S+)", listed))
# of every build: with sanitizers some are left out
for lists in (pathlib.Path(source) / "tests").rglob("CMakeLists.txt"):
    tests |= set(re.findall(r"add_test\(NAME (\w+) ", lists.read_text()))
long_script = (pathlib.Path(source) / ".ci" / "long").read_text()
long_parts = set(re.findall(r"^        (\w+)\)", long_script, re.M))
scripts = {f".ci/{p.name}" for p in (pathlib.Path(source) / ".ci").iterdir()}
assert len(tests) > 30 and {"kills", "power", "damage"} <= long_parts, (tests, long_parts)

bad = []
rows = re.findall(r"^\| (\d+) \| (.*) \| (.*) \|(.*)\|$", page, re.M)
if [int(row[0]) for row in rows] != list(range(1, len(rows) + 1)) or len(rows) < 18:
    bad.append(f"the numbers are {[row[0] for row in rows]}")
for number, _, now, later in rows:
    named = re.findall(r"`([^`]+)`", now)
    if not named:
        bad.append(f"{number}: no test of each commit")
    bad += [f"{number}: no test {name}" for name in named if name not in tests | scripts]
    parts = re.findall(r"`([^`]+)`", later)
    bad += [f"{number}: no part {name} of .ci/long" for name in parts if name not in long_parts]
print("\n".join(bad) or f"{len(rows)} guarantees have their tests")
sys.exit(1 if bad else 0)
