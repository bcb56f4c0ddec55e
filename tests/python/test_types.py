"""Types: mypy in strict mode over the package and every example, and the stub of the compiled module held against the
module."""
import ast
import inspect
import os
import pathlib
import re
import subprocess
import sys

import pytest

import coldtally
from coldtally import _core

PACKAGE = pathlib.Path(coldtally.__file__).parent
ROOT = pathlib.Path(__file__).resolve().parents[2]


def mypy(cwd, *words):
    environment = dict(os.environ)
    if PACKAGE.parent.name not in ("site-packages", "dist-packages"):  # where mypy looks by itself
        environment["MYPYPATH"] = str(PACKAGE.parent)
    done = subprocess.run([sys.executable, "-m", *words], cwd=cwd, env=environment, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.fixture(scope="module")
def cache(tmp_path_factory):
    """What mypy has read of the libraries, once for all."""
    return tmp_path_factory.mktemp("mypy")


@pytest.mark.parametrize("folder", ["package", "examples/python", "examples/region"])
def test_strict(cache, folder):
    place = PACKAGE if folder == "package" else ROOT / folder
    files = [str(p) for p in sorted(place.glob("*.py"))]
    assert files
    what = ["-p", "coldtally"] if folder == "package" else files
    mypy(PACKAGE.parent.parent if folder == "package" else place, "mypy", "--strict", "--cache-dir", str(cache), *what)


def test_the_stub_of_the_compiled_module(tmp_path):
    allowed = tmp_path / "allowed"
    # pybind11's classes have a metaclass of their own; an answer is made by the core alone
    allowed.write_text("coldtally._core.(Answer|Asked|Ledger)\ncoldtally._core.Answer.__init__\n")
    mypy(tmp_path, "mypy.stubtest", "coldtally._core", "--allowlist", str(allowed))


def test_the_stub_has_the_compiled_functions_parameters():
    """stubtest cannot see into compiled functions; the first line of their docstrings says their parameters."""
    compared = 0

    def compare(owner, functions):
        nonlocal compared
        for f in functions:
            if not isinstance(f, ast.FunctionDef) or (owner is _core.Answer and f.name == "__init__"):
                continue
            # one line, or a line for each overload
            lines = [
                line for line in getattr(owner, f.name).__doc__.splitlines() if re.match(rf"(\d+\. )?{f.name}\(", line)
            ]
            for line in [l for l in lines if "*args" not in l]:
                names = re.findall(r"(?:\(|, )(\w+): ", line.partition(" -> ")[0])
                assert names == [a.arg for a in f.args.args], (owner, f.name, line)
                compared += 1

    tree = ast.parse((PACKAGE / "_core.pyi").read_text())
    compare(_core, tree.body)
    for node in tree.body:
        if isinstance(node, ast.ClassDef):
            compare(getattr(_core, node.name), node.body)
    assert compared > 20


def test_everything_public_says_what_it_is():
    for name in coldtally.__all__:
        thing = getattr(coldtally, name)
        if inspect.isclass(thing) or inspect.isfunction(thing):
            assert (thing.__doc__ or "").strip() and not thing.__doc__.startswith(f"{name}("), name
        if inspect.isclass(thing):
            for member, value in vars(thing).items():
                if not member.startswith("_") and (inspect.isfunction(value) or isinstance(value, property)):
                    assert inspect.getdoc(getattr(thing, member)), f"{name}.{member}"
    for name in coldtally._core.__dict__:
        assert name.startswith("__") or getattr(_core, name).__doc__
    from coldtally import plot

    assert all(inspect.getdoc(getattr(plot, name)) for name in plot.__all__)
    assert (PACKAGE / "py.typed").exists()
