"""The commands with which lib/ledger/README.md checks a ledger by hand do so: each block prints a number twice, and for
every entry.

Usage: byhand_test.py COLDTALLY SOURCE_DIR"""
import pathlib
import re
import subprocess
import sys
import tempfile

COLDTALLY, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
blocks = re.findall(r"```sh\n(.*?)```", (SOURCE / "lib" / "ledger" / "README.md").read_text(), re.S)
assert len(blocks) == 2 and blocks[0].startswith("n=910\n"), blocks
entries = [1, 2, 64, 904, 910, 921]
tries = [(f"entry {n}", blocks[0].replace("n=910", f"n={n}")) for n in entries] + [("block 1", blocks[1])]

bad = []
with tempfile.TemporaryDirectory() as folder:
    made = subprocess.run([SOURCE / "examples" / "run.sh", COLDTALLY, folder + "/x"], capture_output=True, text=True)
    if made.returncode != 0:
        sys.exit(f"examples/run.sh: status {made.returncode}\n{made.stdout[-2000:]}{made.stderr}")
    for name, commands in tries:
        p = subprocess.run(["bash", "-ec", commands], cwd=folder + "/x", capture_output=True, text=True)
        lines = [line.split()[0] for line in p.stdout.splitlines()]
        if p.returncode != 0 or len(lines) != 2 or lines[0] != lines[1] or not re.fullmatch("[0-9a-f]{64}", lines[0]):
            bad.append(f"{name}: status {p.returncode}, {lines} {p.stderr}")
print("\n".join(bad) or f"{len(tries)} numbers agree")
sys.exit(1 if bad else 0)
