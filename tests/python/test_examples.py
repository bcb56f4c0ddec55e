"""Every example and every snippet of the documentation runs, and prints what it is said to print."""
import doctest
import os
import pathlib
import re
import subprocess
import sys

from conftest import ROOT

HERE = pathlib.Path(__file__).resolve().parent


def output(script, *words):
    done = subprocess.run([sys.executable, str(ROOT / "examples" / script), *map(str, words)], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_heron_flats(tmp_path):
    assert output("python/heron_flats.py", tmp_path) == (HERE / "expected" / "heron_flats.txt").read_text()


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
    test = doctest.DocTestParser().get_doctest(re.sub(r"^```.*$", "", page, flags=re.M), {}, "README.md", "bindings/README.md", 0)
    assert len(test.examples) > 15
    runner = doctest.DocTestRunner(optionflags=doctest.ELLIPSIS | doctest.NORMALIZE_WHITESPACE)
    said = []
    runner.run(test, out=said.append)
    assert runner.failures == 0, "".join(said)
