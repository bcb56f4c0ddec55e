"""What has no page is noticed: every kind of entry, every command, and every link from one page to another.

Usage: pages_test.py COLDTALLY SOURCE_DIR"""
import pathlib
import re
import subprocess
import sys

COLDTALLY, SOURCE = sys.argv[1], pathlib.Path(sys.argv[2])
pages = [
    p for p in sorted(SOURCE.rglob("*.md")) if not any(part.startswith("build") for part in p.relative_to(SOURCE).parts)
]
text = {p: p.read_text() for p in pages}
bad = []

entry_pages = "\n".join(t for p, t in text.items() if p.parent == SOURCE / "lib" / "entries")
kinds = [
    k
    for h in sorted((SOURCE / "include" / "coldtally").glob("*.hpp"))
    for k in re.findall(r'string_view kind = "([\w-]+)"', h.read_text())
]
bad += [f"kind {k}: no page of lib/entries/ names it" for k in kinds if f"`{k}`" not in entry_pages]

help_text = subprocess.run([COLDTALLY, "--help"], capture_output=True, text=True, check=True).stdout
commands = ", ".join(re.findall(r"^  ([a-z-]+(?:, [a-z-]+)*)  ", help_text, re.M)).split(", ")
everything = "\n".join(text.values())
bad += [
    f"command {c}: no page names `{c}` or `coldtally {c}`"
    for c in commands
    if not re.search(rf"`{c}`|coldtally {c}\b", everything)
]

links = 0
for page, t in text.items():
    for target in re.findall(r"\]\(([^)#]+)(?:#[^)]*)?\)", re.sub(r"```.*?```", "", t, flags=re.S)):
        if re.match(r"https?:", target):
            continue
        links += 1
        if not (page.parent / target).exists():
            bad.append(f"{page.relative_to(SOURCE)}: no such file: {target}")

if len(kinds) < 22 or len(commands) < 60 or links < 20:
    bad.append(f"only {len(kinds)} kinds, {len(commands)} commands and {links} links were looked at")
print("\n".join(bad) or f"{len(kinds)} kinds, {len(commands)} commands and {links} links have their page")
sys.exit(1 if bad else 0)
