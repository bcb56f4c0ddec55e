"""Command line cases: standard output, standard error, exit status and files, whole, in a clean environment.

Usage: cli_test.py COLDTALLY CASES_DIR [NAME=VALUE ...] [--running-clock]

A case is a folder: `cmd` (a line each, which a backslash at its end continues: words as a shell splits them; `> FILE`
keeps the output as a file of the case, `< FILE` gives one as standard input; `at INSTANT` stops the clock for the lines
after it; `with NAME=VALUE` is the environment of the lines after it), `want` (for each line: the words after `$ `, the
output, the errors behind `! `, and `= STATUS`), and any files the commands need, which are copied to where they run.
NAME=VALUE change the environment: the answers must not depend on it. The files of the folder `common` are there in
every case. With --running-clock the cases that stop it are left out. Set COLDTALLY_WRITE_WANT=1 to write `want` anew,
and read what changed."""
import datetime
import os
import pathlib
import re
import shlex
import shutil
import subprocess
import sys
import tempfile

coldtally, cases = os.path.abspath(sys.argv[1]), pathlib.Path(sys.argv[2])
environment = {"PATH": "/usr/bin:/bin", "TZ": "UTC", "LC_ALL": "C.UTF-8"}
running_clock = "--running-clock" in sys.argv[3:]
environment.update(pair.split("=", 1) for pair in sys.argv[3:] if pair != "--running-clock")
failed = passed = 0
FAKETIME = sorted(pathlib.Path("/usr/lib").glob("*/faketime/libfaketime.so.1"))


def stopped(instant):
    """What stops the clock at an instant."""
    assert FAKETIME, "libfaketime is not installed"
    return {
        "LD_PRELOAD": str(FAKETIME[0]),
        "FAKETIME": str(int(datetime.datetime.fromisoformat(instant.replace("Z", "+00:00")).timestamp())),
        "FAKETIME_FMT": "%s",
        "FAKETIME_DONT_FAKE_MONOTONIC": "1",
    }


OVERVIEW = subprocess.run([coldtally, "--help"], capture_output=True, text=True, env=environment, check=True).stdout
COMMANDS = ", ".join(re.findall(r"^  ([a-z-]+(?:, [a-z-]+)*)  ", OVERVIEW, re.M)).split(", ")
assert len(COMMANDS) > 60, COMMANDS


def run_case(folder):
    said = []
    around = dict(environment)
    with tempfile.TemporaryDirectory() as work:
        given = [
            f for f in list(folder.iterdir()) + list((cases / "common").iterdir()) if f.name not in ("cmd", "want")
        ]
        for f in given:
            shutil.copy(f, work)
        for line in (folder / "cmd").read_text().replace("\\\n", "").splitlines():
            if not line.strip() or line.startswith("#"):
                continue
            words = shlex.split(line)
            if words[0] in ("at", "with"):
                around |= stopped(words[1]) if words[0] == "at" else dict(w.split("=", 1) for w in words[1:])
                said.append("$ " + line)
                continue
            out = stdin = None
            if len(words) > 2 and words[-2] == ">":
                words, out = words[:-2], words[-1]
            if len(words) > 2 and words[-2] == "<":
                words, stdin = words[:-2], pathlib.Path(work, words[-1]).read_bytes()
            argv = [coldtally if w == "coldtally" else w for w in words]
            p = subprocess.run(
                argv, cwd=work, env=around, input=stdin if stdin is not None else b"", capture_output=True
            )
            said.append("$ " + line)
            if out:
                pathlib.Path(work, out).write_bytes(p.stdout)
            else:
                shown.update(words[words.index("coldtally") + 1 :][:1] if "coldtally" in words else [])
                said += p.stdout.decode().splitlines()
            said += ["! " + l for l in p.stderr.decode().splitlines()]
            said.append(f"= {p.returncode}")
        left = sorted(set(os.listdir(work)) - {f.name for f in given})
        said.append("files: " + " ".join(left))
    return "\n".join(said) + "\n"


shown = set()  # commands of whose output a case has all
for folder in sorted(f.parent for f in cases.glob("*/*/cmd")):
    name = f"{folder.parent.name}/{folder.name}"
    if running_clock and re.search(r"^at ", (folder / "cmd").read_text(), re.M):
        continue
    got = run_case(folder)
    want = folder / "want"
    if os.environ.get("COLDTALLY_WRITE_WANT"):
        want.write_text(got)
    if not want.exists() or got != want.read_text():
        failed += 1
        print(f"{name}: differs")
        old = want.read_text().splitlines() if want.exists() else []
        import difflib

        print("\n".join(difflib.unified_diff(old, got.splitlines(), "wanted", "got", lineterm="")))
    else:
        passed += 1

# a command without a case, and a help page without an example or its statuses
for command in COMMANDS:
    help_page = subprocess.run([coldtally, command, "--help"], capture_output=True, text=True, env=environment)
    for what, holds in (
        ("has no case", command in shown or running_clock),
        ("help fails", help_page.returncode == 0),
        (
            "help has no example",
            f"coldtally {command}" in help_page.stdout.split("Example")[-1] and "Example" in help_page.stdout,
        ),
        ("help has no exit statuses", "Exit status:" in help_page.stdout),
    ):
        if holds:
            passed += 1
        else:
            failed += 1
            print(f"{command}: {what}")
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
