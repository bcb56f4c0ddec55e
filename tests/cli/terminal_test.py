"""Colour on a terminal alone, and never where NO_COLOR is set; an output that cannot be written is a failure of the
machine.

Usage: terminal_test.py COLDTALLY SITE.jsonl"""
import os
import subprocess
import sys
import tempfile

from on_terminal import on_terminal

coldtally, site = map(os.path.abspath, sys.argv[1:3])
clean = {"PATH": "/usr/bin:/bin", "TERM": "xterm"}


with tempfile.TemporaryDirectory() as work:
    ledger = work + "/ledger"
    subprocess.run([coldtally, "replay", ledger, site], check=True, stdout=subprocess.DEVNULL, env=clean)
    lists = [coldtally, "lists", ledger, "--at", "2026-03-02T18:00:00Z", "--known-on", "2026-03-02T18:00:00Z"]
    plain = subprocess.run(lists, check=True, capture_output=True, env=clean).stdout.decode()
    assert "\x1b" not in plain and "DO NOT USE" in plain
    colored = on_terminal(lists, clean)
    assert "\x1b[" in colored, "no colour on a terminal"
    import re

    assert re.sub("\x1b\\[[0-9;]*m", "", colored) == plain, "colour changes what is said"
    assert on_terminal(lists, dict(clean, NO_COLOR="1")) == plain
    assert on_terminal(lists + ["--color", "never"], clean) == plain
    assert (
        "\x1b["
        in subprocess.run(lists + ["--color", "always"], check=True, capture_output=True, env=clean).stdout.decode()
    )
    for argv in (lists, [coldtally, "export", ledger], [coldtally, "verify", ledger]):
        with open("/dev/full", "w") as full:
            p = subprocess.run(argv, stdout=full, stderr=subprocess.PIPE, env=clean)
        assert p.returncode == 3 and p.stderr.count(b"\n") == 1, (argv, p.returncode, p.stderr)
print("1 passed, 0 failed")
