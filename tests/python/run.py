"""run.py TEST...: runs pytest on the named files of this folder; exit status 77 (skipped) where a package is
missing."""
import importlib.util
import pathlib
import sys

NEEDED = {
    "pytest": "python3-pytest",
    "numpy": "python3-numpy",
    "pandas": "python3-pandas",
    "matplotlib": "python3-matplotlib",
    "mypy": "mypy",
    "distributed": "python3-distributed",
}

if __name__ == "__main__":  # a worker that is spawned reads this file, too
    here = pathlib.Path(__file__).resolve().parent
    missing = [package for module, package in NEEDED.items() if importlib.util.find_spec(module) is None]
    if missing:
        print("skipped: missing packages:", " ".join(missing))
        sys.exit(77)

    import pytest

    sys.exit(pytest.main(["-q", "-x", "-p", "no:cacheprovider", *(str(here / name) for name in sys.argv[1:])]))
