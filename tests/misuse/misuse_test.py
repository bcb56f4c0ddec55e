"""Quantities that must not mix do not compile, each for the reason named; the same lines put right do.

Usage: misuse_test.py COMPILER INCLUDE_DIR"""
import subprocess
import sys
import tempfile

COMPILER, INCLUDE = sys.argv[1:3]

# (what, wrong, right, what the compiler must say)
CASES = [
    ("two instants do not add", "Instant(1) + Instant(2)", "Instant(1) + Duration(2)", r"no match for .operator\+"),
    ("a duration is no instant", "Instant t = Duration(5)", "Instant t = Instant(5)", "conversion"),
    ("a number is no instant", "Instant t = 5", "Instant t(5)", "conversion"),
    ("a number is no duration", "Duration d = 5", "Duration d(5)", "conversion"),
    (
        "an instant and a duration do not compare",
        "Instant(1) < Duration(2)",
        "Instant(1) < Instant(2)",
        "no match for .operator<",
    ),
    ("doses are no duration", "Duration(Doses(3))", "Duration(3)", "no matching function"),
    ("a number is no doses", "Doses d = 3", "Doses d(3)", "conversion"),
    ("doses and numbers do not add", "Doses(3) + 2", "Doses(3) + Doses(2)", r"no match for .operator\+"),
    (
        "two temperatures do not add",
        "Temperature(Scale::C, 1) + Temperature(Scale::C, 2)",
        "Temperature(Scale::C, 3)",
        r"no match for .operator\+",
    ),
    (
        "temperatures do not compare across scales by <",
        "Temperature(Scale::C, 1) < Temperature(Scale::F, 2)",
        "Temperature(Scale::C, 1).celsius() < Temperature(Scale::F, 2).celsius()",
        "no match for .operator<",
    ),
    ("a temperature has a scale", "Temperature(4200)", "Temperature(Scale::C, 4200)", "no matching function"),
    (
        "a difference is no temperature",
        "Temperature t = TemperatureDifference(5)",
        "TemperatureDifference t = TemperatureDifference(5)",
        "conversion",
    ),
    (
        "a temperature is no limit",
        "Limit l = Temperature(Scale::C, 8000)",
        "Limit l = {Temperature(Scale::C, 8000), std::nullopt}",
        "conversion",
    ),
    ("a date is no instant", "Instant t = Date{2026, 3, 2}", "Date t = Date{2026, 3, 2}", "conversion"),
    ("a double is no rational", "Rational r = 0.5", "Rational r(1, 2)", "deleted"),
]


def compiles(expression):
    with tempfile.NamedTemporaryFile("w", suffix=".cpp") as f:
        f.write('#include <coldtally/quantities.hpp>\nusing namespace coldtally;\nvoid use() { ' + expression + "; }\n")
        f.flush()
        p = subprocess.run(
            [COMPILER, "-std=c++20", "-fsyntax-only", "-I" + INCLUDE, f.name],
            capture_output=True,
            text=True,
            env={"LC_ALL": "C", "PATH": "/usr/bin:/bin"},
        )
    return p.returncode == 0, p.stderr


import re  # noqa: E402

failed = 0
for what, wrong, right, says in CASES:
    ok, errors = compiles(wrong)
    if ok:
        print(f"{what}: {wrong}: compiles")
        failed += 1
    elif not re.search(says, errors):
        print(f"{what}: {wrong}: refused for another reason than {says!r}:\n{errors}")
        failed += 1
    ok, errors = compiles(right)
    if not ok:
        print(f"{what}: {right}: does not compile:\n{errors}")
        failed += 1
print(f"{len(CASES)} cases, {failed} failed")
sys.exit(1 if failed else 0)
