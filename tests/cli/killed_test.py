"""A writer killed at any moment loses nothing that it acknowledged, and leaves a ledger that verifies.

Usage: killed_test.py COLDTALLY [KILLS]
KILLS: how many are to be killed before their end, 50 unless stated: four of five in a post, the others while they make
a ledger."""
import json
import os
import signal
import subprocess
import sys
import tempfile
import time

coldtally = os.path.abspath(sys.argv[1])
KILLS = int(sys.argv[2]) if len(sys.argv) > 2 else 50
POSTS_TO_ONE = 40  # then a new ledger: a large one takes its time to verify
MOMENTS = 40  # over the length of a post, and a little beyond
environment = {"PATH": "/usr/bin:/bin"}
SITE = """{"kind":"site","name":"Demo","zone":"UTC","by":"ab"}
{"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}},"by":"ab"}
{"kind":"probe","probe":"k","scale":"C","by":"ab"}
"""


def run(*argv, text=None):
    return subprocess.run([coldtally, *argv], input=text, capture_output=True, text=True, env=environment)


CHECK = '{"kind":"check","at":"2026-01-01T00:00:%02dZ","place":"main","scale":"C","temperature":"5","by":"ab"}\n'
BATCH = "".join(CHECK % second for second in range(60)) * 5


def post_and_kill(ledger, text, after):
    """Whether it was killed before its end, and the entries that it acknowledged."""
    words = [coldtally, "post", ledger, "-"]
    p = subprocess.Popen(words, stdin=subprocess.PIPE, stdout=subprocess.PIPE, env=environment)
    p.stdin.write(text.encode())
    p.stdin.close()
    time.sleep(after)
    p.send_signal(signal.SIGKILL)
    out = p.stdout.read().decode()
    p.stdout.close()
    killed = p.wait() == -signal.SIGKILL
    return killed, [json.loads(line)["entry"] for line in out.splitlines() if line.endswith("}")]


def entries_of(ledger):
    found = run("verify", ledger)
    assert found.returncode == 0, found.stdout + found.stderr
    return int(found.stdout.split("Entries ")[1].split(",")[0])


class Ledger:
    def __init__(self, path):
        self.path, self.posts = path, 0
        assert run("post", path, "-", text=SITE).returncode == 0
        # the moments run over the length of a post, found from one that is left alone
        start = time.perf_counter()
        assert run("post", path, "-", text=BATCH).returncode == 0
        self.whole, self.last = time.perf_counter() - start, 303

    def round(self, moment):
        killed, said = post_and_kill(self.path, BATCH, self.whole * moment / (MOMENTS * 0.9))
        entries = entries_of(self.path)
        assert entries in (self.last, self.last + 300), f"{entries} entries after {self.last}: half a batch"
        if said:
            assert entries == self.last + 300, f"entry {said[-1]} was acknowledged and is not there"
        self.last = entries
        self.posts += 1
        return killed, bool(said)

    def close(self):
        assert run("post", self.path, "-", text=BATCH).returncode == 0  # the next writer clears what a killed one left
        left = [f for f in os.listdir(os.path.dirname(self.path)) if f != "ledger"]
        assert not left, f"left behind: {left}"


def main():
    rounds = acknowledged = killed = created = 0
    with tempfile.TemporaryDirectory() as work:
        ledger = None
        while killed < KILLS * 4 // 5 and rounds < 10 * KILLS:
            if ledger is None or ledger.posts == POSTS_TO_ONE:
                if ledger:
                    ledger.close()
                    os.remove(ledger.path)
                ledger = Ledger(work + "/ledger")
            was_killed, said = ledger.round(rounds % MOMENTS)
            killed += was_killed
            acknowledged += said
            rounds += 1
        ledger.close()
        # a new ledger: whole or not there
        for i in range(10 * KILLS):
            if killed >= KILLS:
                break
            fresh = work + "/fresh"
            was_killed, said = post_and_kill(fresh, SITE + BATCH, ledger.whole * (i * 7 % MOMENTS) / (MOMENTS * 0.8))
            killed += was_killed
            rounds += 1
            assert os.path.exists(fresh) or not said, f"entry {said[-1]} was acknowledged, and there is no ledger"
            if os.path.exists(fresh):
                assert entries_of(fresh) == 303
                created += 1
                os.remove(fresh)
        # what a killed one left beside its place is in nobody's way
        assert run("post", work + "/fresh", "-", text=SITE + BATCH).returncode == 0
        assert entries_of(work + "/fresh") == 303
    print(f"killed: {rounds} rounds, {killed} killed before their end; {acknowledged} posts were acknowledged first")
    print(f"killed: {created} ledgers were made all the same")
    if killed < KILLS:
        sys.exit("too few were killed")
    print("1 passed, 0 failed")


main()
