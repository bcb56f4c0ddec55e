"""What the checks against other libraries share: the command line, ledgers in memory where the system has a place for
them, and the lines for the page on validation."""
import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile
from fractions import Fraction


class Checks:
    """Counts what agrees, keeps the largest deviation, and stops at the first disagreement."""

    def __init__(self, name, counts_vary=False):
        """`counts_vary`: the number of cases depends on the system's data, and the page on validation says it
        roughly."""
        self.name = name
        self.counts_vary = counts_vary
        self.lines = {}

    def _line(self, what, against):
        return self.lines.setdefault(
            what,
            {
                "part": self.name,
                "what": what,
                "against": against,
                "cases": 0,
                "counts_vary": self.counts_vary,
                "largest": 0.0,
                "relative": False,
            },
        )

    def equal(self, what, against, got, expected, case):
        self._line(what, against)["cases"] += 1
        if got != expected:
            sys.exit(f"{what}, {case}: {got!r}; {against}: {expected!r}")

    def near(self, what, against, got, expected, case, absolute=0.0, relative=0.0):
        """Within `absolute`, or `relative` to the larger of 1 and what is expected. Reported: the deviation, relative
        if that is what is allowed."""
        line = self._line(what, against)
        line["cases"] += 1
        deviation = abs(float(got) - float(expected))
        if relative:
            line["relative"] = True
            deviation /= max(1.0, abs(float(expected)))
        line["largest"] = max(line["largest"], deviation)
        if not deviation <= (relative or absolute):
            sys.exit(f"{what}, {case}: {float(got)!r}; {against}: {float(expected)!r}")

    def done(self, least):
        """At least so many comparisons must have been made, so that an empty run does not pass."""
        total = sum(line["cases"] for line in self.lines.values())
        if total < least:
            sys.exit(f"only {total} comparisons were made, {least} are expected")
        folder = os.environ.get("COLDTALLY_EVIDENCE")
        if folder:
            path = pathlib.Path(folder)
            path.mkdir(parents=True, exist_ok=True)
            (path / f"{self.name}.jsonl").write_text(
                "".join(json.dumps(line) + "\n" for line in self.lines.values()), encoding="utf-8"
            )
        for line in self.lines.values():
            print(f"{line['what']}: {line['cases']} cases, largest deviation {line['largest']:.2g}; {line['against']}")


class Cli:
    """One ledger in a folder of its own, asked through the command line."""

    def __init__(self, program):
        self.program = program
        self.folder = tempfile.mkdtemp(prefix="coldtally-", dir="/dev/shm" if os.access("/dev/shm", os.W_OK) else None)
        self.ledger = os.path.join(self.folder, "l")

    def __enter__(self):
        return self

    def __exit__(self, *_):
        shutil.rmtree(self.folder)

    def run(self, command, *words, text=None):
        made = subprocess.run([self.program, command, self.ledger, *words], input=text, capture_output=True, text=True)
        if made.returncode != 0:
            sys.exit(f"{command} {' '.join(words)}: {made.returncode}: {made.stderr}")
        return made.stdout

    def post(self, entries):
        self.run("post", "-", text="".join(json.dumps({"by": "RF", **e}) + "\n" for e in entries))

    def ask(self, command, *words):
        return json.loads(self.run(command, *words, "--format", "json"), parse_float=Fraction)


def celsius(value, scale):
    return value if scale == "C" else (value - 32) * Fraction(5, 9)


def beyond(sign, limit, line):
    """Exact time of a line on the far side of a limit, and the integral of the distance."""
    t0, v0, t1, v1 = line
    a, b, d = sign * (v0 - limit), sign * (v1 - limit), Fraction(t1 - t0)
    if a <= 0 and b <= 0:
        return Fraction(0), Fraction(0)
    if a >= 0 and b >= 0:
        return d, d * (a + b) / 2
    top = max(a, b)
    time = d * top / abs(b - a)
    return time, time * top / 2
