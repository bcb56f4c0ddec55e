"""Runs the commands that the README shows, one after the other in the folder that the example makes, and compares what
they print.

A block is shown output where it follows a block of commands that "<!-- runs -->" marks. What differs from day to day is
compared as a word: the instant after "known on", and the chain, which binds the instants of posting.

Usage: readme_test.py COLDTALLY SOURCE_DIR [--write]   (--write puts what is printed now into the README)"""
import difflib
import os
import pathlib
import re
import subprocess
import sys
import tempfile

COLDTALLY, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
WRITE = sys.argv[3:] == ["--write"]
BLOCK = re.compile(r"(<!-- runs -->\n```sh\n)(.*?)(```\n\n```text\n)(.*?)(```\n)", re.S)


def timeless(text):
    text = re.sub(r"known on \d{4}-\d\d-\d\d \d\d:\d\d(:\d\d)?", "known on DAY", text)
    return re.sub(r"\b[0-9a-f]{64}\b|(?<=\d:)[0-9a-f]{16}\b", "CHAIN", text)


def run(commands, cwd, path):
    env = {
        "PATH": f"{path}:/usr/bin:/bin",
        "HOME": str(cwd),
        **{k: os.environ[k] for k in ("TZ", "LC_ALL", "LOCPATH") if k in os.environ},
    }
    p = subprocess.run(
        ["bash", "-c", commands], cwd=cwd, env=env, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )
    return p.stdout


failed = []
with tempfile.TemporaryDirectory() as folder:
    work = pathlib.Path(folder)
    # the program under the name that the README uses, whatever its file is called
    (work / "bin").mkdir()
    (work / "bin" / "coldtally").symlink_to(COLDTALLY)
    made = subprocess.run([SOURCE / "examples" / "run.sh", COLDTALLY, work / "example"], capture_output=True, text=True)
    if made.returncode != 0:
        sys.exit(f"examples/run.sh: status {made.returncode}\n{made.stdout[-2000:]}{made.stderr}")
    readme = SOURCE / "README.md"
    text = readme.read_text()
    blocks = 0

    def compare(m):
        global blocks
        blocks += 1
        printed = run(m[2], work / "example", work / "bin")
        if timeless(printed) == timeless(m[4]):
            return m[0]
        failed.append(
            f"README.md shows other output than this prints:\n{m[2]}"
            + "".join(
                difflib.unified_diff(
                    timeless(m[4]).splitlines(True), timeless(printed).splitlines(True), "shown", "printed"
                )
            )
        )
        return m[1] + m[2] + m[3] + printed + m[5]

    now = BLOCK.sub(compare, text)
    if blocks != text.count("<!-- runs -->") or blocks < 5:
        failed.append(f"README.md: {blocks} blocks with commands and output, {text.count('<!-- runs -->')} marks")
    if WRITE:
        readme.write_text(now)
print("\n".join(failed) or f"{blocks} blocks print what the README shows")
sys.exit(1 if failed and not WRITE else 0)
