"""A writer killed at any moment loses nothing that it acknowledged, and leaves a ledger that verifies.

Usage: killed_test.py COLDTALLY"""
import json
import os
import signal
import subprocess
import sys
import tempfile
import time

coldtally = os.path.abspath(sys.argv[1])
environment = {"PATH": "/usr/bin:/bin"}
SITE = """{"kind":"site","name":"Demo","zone":"UTC","by":"ab"}
{"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}},"by":"ab"}
{"kind":"probe","probe":"k","scale":"C","by":"ab"}
"""


def run(*argv, text=None):
    return subprocess.run([coldtally, *argv], input=text, capture_output=True, text=True, env=environment)


def main():
    rounds = acknowledged = killed = 0
    with tempfile.TemporaryDirectory() as work:
        ledger = work + "/ledger"
        assert run("post", ledger, "-", text=SITE).returncode == 0
        batch = "".join('{"kind":"check","at":"2026-01-01T00:00:%02dZ","place":"main","scale":"C","temperature":"5","by":"ab"}\n' % s for s in range(60)) * 5
        last = 3
        # the moments run over the length of a post, found from one that is left alone
        start = time.perf_counter()
        assert run("post", ledger, "-", text=batch).returncode == 0
        whole, last = time.perf_counter() - start, last + 300
        for i in range(40):
            p = subprocess.Popen([coldtally, "post", ledger, "-"], stdin=subprocess.PIPE, stdout=subprocess.PIPE, env=environment)
            p.stdin.write(batch.encode())
            p.stdin.close()
            time.sleep(whole * i / 36)
            p.send_signal(signal.SIGKILL)
            out = p.stdout.read().decode()
            status = p.wait()
            killed += status == -signal.SIGKILL
            said = [json.loads(l)["entry"] for l in out.splitlines() if l.endswith("}")]
            found = run("verify", ledger)
            assert found.returncode == 0, found.stdout + found.stderr
            entries = int(found.stdout.split("Entries ")[1].split(",")[0])
            assert entries in (last, last + 300), f"round {i}: {entries} entries after {last}: half a batch"
            if said:
                assert entries == last + 300, f"round {i}: entry {said[-1]} was acknowledged and is not there"
                acknowledged += 1
            last = entries
            rounds += 1
        assert run("post", ledger, "-", text=batch).returncode == 0  # the next writer clears what a killed one left
        left = [f for f in os.listdir(work) if f != "ledger"]
        assert not left, f"left behind: {left}"
        # a new ledger: whole or not there
        for i in range(20):
            fresh = f"{work}/fresh-{i}"
            p = subprocess.Popen([coldtally, "post", fresh, "-"], stdin=subprocess.PIPE, stdout=subprocess.DEVNULL, env=environment)
            p.stdin.write((SITE + batch).encode())
            p.stdin.close()
            time.sleep(whole * i / 16)
            p.send_signal(signal.SIGKILL)
            p.wait()
            if os.path.exists(fresh):
                found = run("verify", fresh)
                assert found.returncode == 0 and "Entries 303," in found.stdout, found.stdout + found.stderr
            rounds += 1
    print(f"{rounds} rounds: {killed} killed before their end, {acknowledged} acknowledged")
    if killed < 5:
        sys.exit("too few were killed to say anything")
    print("1 passed, 0 failed")


main()
