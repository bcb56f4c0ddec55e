"""Errors: a class for each code, and the command line's words."""
import os
import subprocess

import pytest

import coldtally
from coldtally import _core, errors


def test_every_code_has_a_class_of_its_own():
    classes = [errors.class_of(code) for code in _core.code_names()]
    assert len(set(classes)) == len(classes) > 20 and errors.Error not in classes
    for code, cls in zip(_core.code_names(), classes):
        assert cls.code == code and issubclass(cls, errors.Error)
        assert any(issubclass(cls, builtin) for builtin in (ValueError, LookupError, OSError)), cls
        assert cls.__doc__ and cls.__name__ in errors.__all__
        assert cls.machine_failed == (code in ("busy", "machine"))


REFUSED = [
    (
        '{"kind": "check", "at": "2026-03-01T09:00:00", "by": "ab", "place": "frige", "scale": "C", '
        '"temperature": "4"}',
        errors.NotDefined,
        LookupError,
    ),
    (
        '{"kind": "check", "at": "2026-03-01T09:00:00", "by": "ab", "place": "fridge", "scale": "C", '
        '"temperature": 4.5}',
        errors.BadValue,
        ValueError,
    ),
    (
        '{"kind": "check", "at": "2026-03-08T02:30:00", "by": "ab", "place": "fridge", "scale": "C", "temperature": 4}',
        errors.BadValue,
        ValueError,
    ),
    (
        '{"kind": "give", "at": "2026-03-01T09:00:00", "by": "ab", "place": "fridge", "product": "elm", "lot": "E1", '
        '"doses": 11, "patient": "x"}',
        errors.NotEnough,
        ValueError,
    ),
    ('{"kind": "check", "kind": "check"}', errors.BadJson, ValueError),
    ('{"kind": "check", "by": "ab"}', errors.MissingField, ValueError),
    (
        '{"kind": "void", "at": "2026-03-01T09:00:00", "by": "ab", "voids": 1, "reason": "x"}',
        errors.NotVoidable,
        ValueError,
    ),
    ('{"kind": "void", "at": "2026-03-01T09:00:00", "by": "ab", "voids": 3, "reason": "x"}', errors.InUse, ValueError),
    ("", errors.BadText, ValueError),
]


@pytest.mark.parametrize("line, cls, builtin", REFUSED)
def test_refusals_are_the_command_lines(small, line, cls, builtin):
    with coldtally.Ledger(small) as ledger:
        before = list(ledger.export())
        with pytest.raises(cls) as caught:
            ledger.post_json(line)
        assert isinstance(caught.value, builtin)
        assert list(ledger.export()) == before
    command = os.environ.get("COLDTALLY_COMMAND")
    if command:
        done = subprocess.run([command, "post", str(small), "-"], input=line, text=True, capture_output=True)
        assert done.returncode == 2 and done.stderr == f"coldtally: {caught.value}\n"


def test_files(tmp_path):
    with pytest.raises(FileNotFoundError) as caught:
        coldtally.Ledger(tmp_path / "none.ledger", mode="read")
    assert isinstance(caught.value, errors.LedgerMissing) and str(tmp_path / "none.ledger") in str(caught.value)
    assert "`coldtally.Ledger(PATH)` makes one, or `ledger.post()`" in str(caught.value)
    other = tmp_path / "other"
    other.write_bytes(b"not a ledger at all" * 100)
    with pytest.raises(errors.NotALedger):
        coldtally.Ledger(other)
    with pytest.raises(errors.BadValue, match="mode"):
        coldtally.Ledger(other, mode="rw")
    with pytest.raises(errors.NoSite):
        coldtally.Ledger(tmp_path / "new").post({"kind": "probe", "by": "ab", "probe": "p", "scale": "C"})
    assert not (tmp_path / "new").exists()
