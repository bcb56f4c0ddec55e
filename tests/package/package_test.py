"""Installs the build, builds a project that finds it as a package, and runs that.

Usage: package_test.py CMAKE BUILD_DIR CONSUMER_DIR"""
import json
import subprocess
import sys
import tempfile

CMAKE, BUILD, CONSUMER = sys.argv[1:4]


def run(*argv):
    p = subprocess.run(argv, capture_output=True, text=True)
    if p.returncode != 0:
        sys.exit(f"{' '.join(argv)}: status {p.returncode}\n{p.stdout}{p.stderr}")
    return p.stdout


with tempfile.TemporaryDirectory() as work:
    run(CMAKE, "--install", BUILD, "--prefix", work + "/installed")
    run(CMAKE, "-G", "Ninja", "-S", CONSUMER, "-B", work + "/build", "-DCMAKE_PREFIX_PATH=" + work + "/installed")
    run(CMAKE, "--build", work + "/build")
    answer = json.loads(run(work + "/build/consumer", work + "/demo.ledger"))
    assert answer["ledger"] == "Demo" and answer["at"] == "2026-03-02T08:00:00Z" and answer["holdings"] == [], answer
    help_text = run(work + "/installed/bin/coldtally", "--help")
    assert "lists" in help_text, help_text
print("1 passed, 0 failed")
