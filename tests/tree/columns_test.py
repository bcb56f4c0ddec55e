"""No line of code is over 120 columns. Asks the files that git tracks, or, without git, all but those of build folders.

Usage: columns_test.py SOURCE_DIR"""
import pathlib
import subprocess
import sys

MOST = 120
SUFFIXES = {".cpp", ".hpp", ".py", ".pyi", ".cmake", ".sql", ".sh"}
NAMES = {"CMakeLists.txt", "CMakePresets.json"}
# every ledger keeps this line of its trigger, and a ledger whose schema has other bytes is refused
KEPT = ("lib/ledger/schema.sql", "WHEN NEW.one IS NOT 1 OR NEW.entry IS NOT OLD.entry + 1 ")

root = pathlib.Path(sys.argv[1]).resolve()


def is_code(path):
    return path.suffix in SUFFIXES or path.name in NAMES or path.parts[0] == ".ci"


def paths():
    """Relative to the root."""
    try:
        tracked = subprocess.run(["git", "-C", str(root), "ls-files", "-z"], capture_output=True, text=True).stdout
    except FileNotFoundError:
        tracked = ""
    if tracked:
        return [pathlib.Path(name) for name in tracked.split("\0") if name]
    every = [path.relative_to(root) for path in root.rglob("*")]
    return [p for p in every if not p.parts[0].startswith("build") and (p.parts[0] == ".ci" or p.parts[0][0] != ".")]


bad = []
files = kept = 0
for path in sorted(filter(is_code, paths())):
    if not (root / path).is_file():
        continue
    files += 1
    for number, line in enumerate((root / path).read_text(encoding="utf-8").splitlines(), 1):
        if len(line) <= MOST:
            continue
        if path.as_posix() == KEPT[0] and line.startswith(KEPT[1]):
            kept += 1
        else:
            bad.append(
                f"{path}:{number}: {len(line)} columns; at most {MOST}: run clang-format or black, or break it by hand"
            )
if kept != 1:
    bad.append(f"{KEPT[0]}: {kept} long lines begin with {KEPT[1]!r}; there is 1, or this test needs no exception")
if files < 500:
    bad.append(f"only {files} files were looked at")
print("\n".join(bad) or f"{files} files")
sys.exit(1 if bad else 0)
