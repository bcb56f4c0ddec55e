"""wheel_test.py: builds the wheel as pip install does, offline and without isolation, installs it into a fresh
environment, and runs the tests against it."""
import os
import pathlib
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[1]
TESTS = [
    "test_answers.py",
    "test_errors.py",
    "test_entries.py",
    "test_work.py",
    "test_logger.py",
    "test_complete.py",
    "test_arrays.py",
    "test_processes.py",
    "test_types.py",
]

environment = {k: v for k, v in os.environ.items() if k != "PYTHONPATH"}
environment["PIP_NO_INDEX"] = "1"  # offline
environment.pop("CMAKE_GENERATOR", None)


def run(*words, **named):
    subprocess.run([str(w) for w in words], check=True, env=environment, **named)


with tempfile.TemporaryDirectory() as work:
    work = pathlib.Path(work)
    # A machine may have a make that .ci/packages does not name: the package must be built without one.
    (work / "bin").mkdir()
    for name in ("make", "gmake"):
        (work / "bin" / name).write_text(f"#!/bin/sh\necho '{name}: is no package of .ci/packages' >&2\nexit 1\n")
        (work / "bin" / name).chmod(0o755)
    environment["PATH"] = f"{work / 'bin'}:{environment['PATH']}"
    run(sys.executable, "-m", "venv", "--system-site-packages", work / "fresh")
    python = work / "fresh" / "bin" / "python"
    run(python, "-m", "pip", "-q", "wheel", "--no-build-isolation", "--no-deps", "-w", work / "dist", ROOT)
    wheel = next((work / "dist").glob("coldtally-*.whl"))
    run(python, "-m", "pip", "-q", "install", "--no-deps", wheel)
    where = subprocess.run(
        [python, "-c", "import coldtally; print(coldtally.__file__)"],
        check=True,
        env=environment,
        cwd=work,
        capture_output=True,
        text=True,
    ).stdout
    assert str(work / "fresh") in where, where
    run(python, HERE / "run.py", *TESTS, cwd=work)
