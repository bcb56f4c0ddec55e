"""Where a process may have few addresses (ulimit -v), a question is answered as anywhere; where they are too few,
status 3 says so.

Usage: memory_test.py COLDTALLY"""
import os
import resource
import subprocess
import sys
import tempfile

coldtally = os.path.abspath(sys.argv[1])
ENTRIES = """{"kind":"site","name":"Demo","zone":"America/Chicago","by":"ab"}
{"kind":"product","product":"mmr","name":"Demo MMR","range":{"low":{"C":"2"},"high":{"C":"8"}},"by":"ab"}
{"kind":"lot","product":"mmr","lot":"K1","expiry":"2030-01","by":"ab"}
{"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}},"by":"ab"}
{"kind":"receive","at":"2026-03-02T08:00:00","place":"main","product":"mmr","lot":"K1","doses":10,"by":"ab"}
"""


def run(*argv, text=None, mib=None):
    limit = (lambda: resource.setrlimit(resource.RLIMIT_AS, (mib << 20, mib << 20))) if mib else None
    return subprocess.run(
        [coldtally, *argv], input=text, capture_output=True, text=True, preexec_fn=limit, env={"PATH": "/usr/bin:/bin"}
    )


with tempfile.TemporaryDirectory() as folder:
    ledger = folder + "/ledger"
    assert run("post", ledger, "-", text=ENTRIES).returncode == 0
    ask = ("lists", ledger, "--at", "2026-03-03T08:00:00", "--format", "json")
    doses = '"lot":"K1","fund":"","mark":"","doses":10'
    for mib in (None, 256, 96, 48):  # the heap asks for 64 at once
        p = run(*ask, mib=mib)
        assert p.returncode == 0 and doses in p.stdout and p.stderr == "", (mib, p)
    big = folder + "/big.jsonl"
    with open(big, "w") as f:
        f.write("x" * (40 << 20))
    p = run("post", ledger, big, mib=48)
    assert p.returncode == 3 and p.stdout == "" and p.stderr == "coldtally: out of memory\n", p
print("ok")
