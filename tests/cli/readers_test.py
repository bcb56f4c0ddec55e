"""One writer and several readers in processes of their own: every answer is of a whole batch, and nobody fails.

Usage: readers_test.py COLDTALLY"""
import json
import os
import subprocess
import sys
import tempfile

coldtally = os.path.abspath(sys.argv[1])
environment = {"PATH": "/usr/bin:/bin"}
SITE = """{"kind":"site","name":"Demo","zone":"UTC","by":"ab"}
{"kind":"product","product":"p","name":"P","range":{"low":{"C":"2"}},"by":"ab"}
{"kind":"lot","product":"p","lot":"L","expiry":"2027-05","by":"ab"}
{"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"}},"by":"ab"}
"""
BATCH = (
    '{"kind":"receive","at":"2026-01-01T00:00:00Z","place":"main","product":"p","lot":"L","doses":1,"by":"ab"}\n' * 7
)

with tempfile.TemporaryDirectory() as work:
    ledger = work + "/ledger"
    subprocess.run(
        [coldtally, "post", ledger, "-"], input=SITE.encode(), stdout=subprocess.DEVNULL, check=True, env=environment
    )
    reader = f'for i in $(seq 25); do "{coldtally}" stock "{ledger}" --format json || exit 1; done'
    writer = f'for i in $(seq 25); do printf %s "$BATCH" | "{coldtally}" post "{ledger}" - >/dev/null || exit 1; done'
    processes = [
        subprocess.Popen(["/bin/sh", "-c", reader], stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=environment)
        for _ in range(3)
    ]
    processes += [
        subprocess.Popen(
            ["/bin/sh", "-c", writer],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            env=dict(environment, BATCH=BATCH),
        )
        for _ in range(2)
    ]
    answers = 0
    for p in processes:
        out, errors = p.communicate(timeout=120)
        assert p.returncode == 0, errors.decode()
        for line in out.decode().splitlines():
            doses = json.loads(line)["accounts"]["on_hand"]
            assert doses % 7 == 0, f"{doses} doses: half a batch was seen"
            answers += 1
    last = subprocess.run(
        [coldtally, "stock", ledger, "--format", "json"], capture_output=True, check=True, env=environment
    )
    assert json.loads(last.stdout)["accounts"]["on_hand"] == 2 * 25 * 7
    assert subprocess.run([coldtally, "verify", ledger], capture_output=True, env=environment).returncode == 0
    print(f"{answers} answers\n1 passed, 0 failed")
