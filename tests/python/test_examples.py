"""Every example and every snippet of the documentation runs, and prints what it is said to print."""
import doctest
import os
import pathlib
import re
import subprocess
import sys

import pytest
from conftest import ROOT

import coldtally

HERE = pathlib.Path(__file__).resolve().parent


def output(script, *words):
    done = subprocess.run(
        [sys.executable, str(ROOT / "examples" / script), *map(str, words)], capture_output=True, text=True
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_heron_flats(tmp_path):
    assert output("python/heron_flats.py", tmp_path) == (HERE / "expected" / "heron_flats.txt").read_text()


def test_power_failure(tmp_path):
    """What it prints, and that the shell's walk of the same afternoon posts the same entries."""
    import json
    import shutil

    assert output("python/power_failure.py", tmp_path / "mine") == (HERE / "expected" / "power_failure.txt").read_text()
    command = os.environ.get("COLDTALLY_COMMAND")
    if not command:
        pytest.skip("COLDTALLY_COMMAND names no command line to compare with")
    sys.path.insert(0, str(ROOT / "examples" / "python"))
    import power_failure

    theirs = power_failure.one_o_clock(tmp_path / "theirs")
    shutil.rmtree(tmp_path / "theirs" / "entries")
    subprocess.run([str(ROOT / "examples" / "power-failure.sh"), command, str(theirs)], check=True, capture_output=True)
    without_clock = lambda path: [
        {k: v for k, v in json.loads(line).items() if k != "recorded"}
        for line in coldtally.Ledger(path, mode="read").export()
    ]
    assert without_clock(theirs) == without_clock(tmp_path / "mine" / "afternoon.ledger")


def test_region(tmp_path):
    printed = output("region/run.py", tmp_path)
    assert printed == (HERE / "expected" / "region.txt").read_text()
    assert printed.startswith("200 ledgers") and printed.endswith("the local pool says the same: True\n")


def test_the_readme_of_the_package(demo, tmp_path, monkeypatch):
    """The snippets of bindings/README.md, with the demo's ledger as heron-flats.ledger."""
    page = (ROOT / "bindings" / "README.md").read_text(encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    os.symlink(demo, tmp_path / "heron-flats.ledger")
    # a fence ends a snippet and is no part of what it prints
    test = doctest.DocTestParser().get_doctest(
        re.sub(r"^```.*$", "", page, flags=re.M), {}, "README.md", "bindings/README.md", 0
    )
    assert len(test.examples) > 20
    runner = doctest.DocTestRunner(optionflags=doctest.ELLIPSIS | doctest.NORMALIZE_WHITESPACE)
    said = []
    runner.run(test, out=said.append)
    assert runner.failures == 0, "".join(said)
