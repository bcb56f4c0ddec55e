"""mutation.py SOURCE BUILD [--survivors]   changes the code one operator, constant or statement at a time and asks the
tests mutation.py SOURCE BUILD --pages          writes the pages from the last run, after reasons were added mutation.py
SOURCE --check                compares the pages here with the code: no survivor without its reason, and 95 % killed of
all mutation.py SOURCE --self-test            checks this script

BUILD is a build of the tests (`.ci/build release coldtally_tests`); nothing of SOURCE is changed but RESULTS.md and
survivors.txt beside this script. All mutants are compiled at once, each behind a switch. Every test runs once to see
which places it runs through; a mutant is then given those tests that reach it, the quick ones first, until one fails.
--survivors: only those that no test killed the time before, and those of changed lines, after new tests were
written."""
import concurrent.futures
import datetime
import json
import math
import os
import pathlib
import re
import resource
import shlex
import signal
import subprocess
import sys
import time

import points

HERE = pathlib.Path(__file__).resolve().parent
FILES = [
    "lib/exposure/*.?pp",
    "lib/timeline/*.?pp",
    *(f"lib/trace/{n}.?pp" for n in ("trace", "calibration", "assignment", "probe_readings")),
    "lib/trace/lines.hpp",
    *(f"lib/conditions/{n}.cpp" for n in ("find_excursions", "excursions", "conditions")),
    *(f"lib/stock/{n}.cpp" for n in ("lists", "reasons", "review", "stays")),
]
LEAST = 200  # mutants
PERCENT = 95  # killed, of all mutants
AT_ONCE = 2
EVERY = 4  # of the places, in the order of the code, every fourth
SECONDS = 5  # of computing, beyond three times what the tests need: then a mutant hangs
WAITING = 900  # seconds by the clock, for one that waits
MEMORY = 6 << 30
# at length about stock, refused entries, voids and files, in which the code changed here has no part
LEFT_OUT = {
    "stewardship: accountability adds up for every period, and a period's end is the next one's start",
    "refused everywhere: a line over 16 MiB, and not one of 16 MiB",
    "refused everywhere: doses, seconds and rows",
    "every ledger: export and replay give the same bytes, and the same question the same answer",
    "every ledger: a void restores what was",
    "a changed byte is refused or found, or was in no use",
    "opening and posting cost the same in a short ledger and in a long one",
}
EQUIVALENT = "the same: "


def mutated_files(source):
    paths = sorted({p for pattern in FILES for p in source.glob(pattern)})
    return [points.Mutated(str(p.relative_to(source)), p.read_text(encoding="utf-8")) for p in paths]


def limits(seconds):
    def set_limits():
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        if seconds:
            resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds + 5))

    return set_limits


class Program:
    """The test program with all mutants in it."""

    def __init__(self, source, build):
        self.source, self.build = source, build
        self.dir = build / "mutation"
        self.dir.mkdir(exist_ok=True)
        self.files = mutated_files(source)
        self.dropped = set(json.loads(self.read("dropped.json") or "[]"))
        for n, p in enumerate([p for f in self.files for p in f.points], 1):
            p.number = n
        while True:
            self.points = [p for f in self.files for p in f.points if p.key not in self.dropped]
            lines = self.compile()
            if not lines:
                break
            more = {p.key for p in self.points if (p.file, p.line) in lines}
            if not more:
                sys.exit(f"the mutants do not compile; see {self.dir}/errors.txt")
            self.dropped |= more
            (self.dir / "dropped.json").write_text(json.dumps(sorted(self.dropped)))
        self.link()

    def read(self, name):
        path = self.dir / name
        return path.read_text() if path.is_file() else ""

    def run(self, command, **more):
        return subprocess.run(
            command,
            cwd=self.build,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            errors="replace",
            **more,
        )

    def commands(self):
        """Compile commands of the library by file."""
        made = self.run(["ninja", "-t", "compdb"])
        out = {}
        for entry in json.loads(made.stdout):
            path = pathlib.Path(self.build, entry["file"]).resolve()
            if "coldtally.dir" in entry["output"] and path.is_relative_to(self.source / "lib"):
                out[str(path.relative_to(self.source))] = shlex.split(entry["command"])
        return out

    def compile(self):
        """Lines (file, line) on which a switch does not compile."""
        chosen = {p.key: p.number for p in self.points}
        commands = self.commands()
        header, runtime = HERE / "mutation.hpp", HERE / "mutation.cpp"
        newest = header.stat().st_mtime
        for f in self.files:
            path = self.dir / f.file
            path.parent.mkdir(parents=True, exist_ok=True)
            text = f.switched(chosen)
            if not path.is_file() or path.read_text(encoding="utf-8") != text:
                path.write_text(text, encoding="utf-8")
            if f.file.endswith(".hpp"):
                newest = max(newest, path.stat().st_mtime)
        jobs = []
        self.objects = []
        for f in self.files:
            if not f.file.endswith(".cpp"):
                continue
            original = commands[f.file]
            made = self.dir / (f.file + ".o")
            self.objects.append(str(made))
            command = [w for w in original if not w.startswith(("-W", "-O")) and w not in {"-MD"}]
            for flag in ("-o", "-MF", "-MT"):
                if flag in command:
                    k = command.index(flag)
                    del command[k : k + 2]
            command = [
                w
                for w in command
                if not (w.endswith(".cpp") and pathlib.Path(self.build, w).resolve() == self.source / f.file)
            ]
            command += ["-w", "-O1", "-include", str(header), "-o", str(made), str(self.dir / f.file)]
            k = next(k for k, w in enumerate(command) if w.startswith("-I"))
            command.insert(k, f"-I{self.dir / 'lib'}")
            if not made.is_file() or made.stat().st_mtime < max(newest, (self.dir / f.file).stat().st_mtime):
                jobs.append((f.file, made, command))
        made = self.dir / "mutation.o"
        compiler = next(
            w for w in commands[self.files[0].file] if re.search(r"(\+\+|g\+\+-\d+|cc)$", w) and "ccache" not in w
        )
        self.objects.append(str(made))
        jobs.append(
            (
                "mutation.cpp",
                made,
                [
                    compiler,
                    "-std=c++20",
                    "-O1",
                    f"-DCOLDTALLY_MUTANTS={sum(len(f.points) for f in self.files)}",
                    "-c",
                    str(runtime),
                    "-o",
                    str(made),
                ],
            )
        )
        bad, log = set(), ""
        with concurrent.futures.ThreadPoolExecutor(AT_ONCE) as pool:
            for (name, out, _), done in zip(jobs, pool.map(lambda job: self.run(job[2]), jobs)):
                if done.returncode == 0:
                    continue
                out.unlink(missing_ok=True)
                log += done.stdout
                for file, line in re.findall(r"\bmutation/(lib/[\w/.]+):(\d+)", done.stdout):
                    bad.add((file, int(line)))
                if not bad:
                    bad.add((name, 0))
        (self.dir / "errors.txt").write_text(log)
        return bad

    def link(self):
        commands = self.run(["ninja", "-t", "commands", "tests/coldtally_tests"]).stdout.splitlines()
        command = commands[-1].replace(" -o tests/coldtally_tests ", f" -o {shlex.quote(str(self.dir / 'tests'))} ")
        # the objects stand before the library, which then has nothing to add for them
        command = re.sub(
            r"(\s)(lib/libcoldtally\.a)",
            lambda m: m[1] + " ".join(map(shlex.quote, self.objects)) + " " + m[2],
            command,
            count=1,
        )
        made = self.run(command, shell=True)
        if made.returncode:
            sys.exit(f"the mutants do not link: {made.stdout[-3000:]}")

    def tests(self, names, mutant=None, reached=None, seconds=None):
        """Status of the tests of these names; None where they do not end."""
        listed = self.dir / f"names-{mutant or reached.stem}.txt"
        listed.write_text("".join(re.sub(r"([\\,])", r"\\\1", n) + "\n" for n in names))
        env = {k: v for k, v in os.environ.items() if not k.startswith("COLDTALLY_")}
        if mutant:
            env["COLDTALLY_MUTANT"] = str(mutant)
        if reached:
            env["COLDTALLY_REACHED"] = str(reached)
        try:
            status = subprocess.run(
                [self.dir / "tests", "--input-file", listed, "--abort", "--warn", "NoTests"],
                cwd=self.dir,
                env=env,
                timeout=WAITING,
                preexec_fn=limits(seconds),
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
            ).returncode
            return None if status in {-signal.SIGXCPU, -signal.SIGKILL} else status
        except subprocess.TimeoutExpired:
            return None
        finally:
            listed.unlink()

    def measure(self):
        """By test: seconds, and the numbers of the places it runs through."""
        listed = subprocess.run(
            [self.dir / "tests", "--list-test-names-only"], stdout=subprocess.PIPE, text=True
        ).stdout.splitlines()
        names = [n.strip() for n in listed if n.strip() and n.strip() not in LEFT_OUT]

        def of(k):
            file = self.dir / f"reached-{k}.bin"
            file.unlink(missing_ok=True)
            start = time.monotonic()
            if self.tests([names[k]], reached=file) != 0:
                sys.exit(f"the test {names[k]!r} fails without any mutant")
            seconds = time.monotonic() - start
            seen = file.read_bytes()
            file.unlink()
            return names[k], (seconds, {n for n, v in enumerate(seen) if v})

        with concurrent.futures.ThreadPoolExecutor(AT_ONCE) as pool:
            return dict(pool.map(of, range(len(names))))


def judge(program, point, measured):
    """How a mutant fared: killed, hangs, survives, or not reached."""
    able = sorted((s, n) for n, (s, seen) in measured.items() if point.number in seen)
    if not able:
        return "not reached"
    groups, names, seconds, limit = [], [], 0, 1.0
    for s, n in able:
        if names and seconds + s > limit:
            groups.append((names, seconds))
            names, seconds, limit = [], 0, limit * 3
        names.append(n)
        seconds += s
    groups.append((names, seconds))
    for names, seconds in groups:
        status = program.tests(names, mutant=point.number, seconds=SECONDS + 3 * math.ceil(seconds))
        if status is None:
            return "hangs"
        if status != 0:
            return "killed"
    return "survives"


def read_survivors():
    """Reason by key; \"\" where none is given. One block a survivor: its key, and an indented line with the reason."""
    out, key = {}, None
    path = HERE / "survivors.txt"
    for line in path.read_text(encoding="utf-8").splitlines() if path.is_file() else []:
        if line.startswith("    "):
            out[key] = line.strip()
        elif line and not line.startswith("#"):
            key = line
            out[key] = ""
    return out


def write_pages(files, dropped, fates):
    """fates: by key, in the order of the code."""
    reasons = read_survivors()
    lines = [
        "# Mutants that no test kills, and why (mutation.py writes the first line of each; the reason is ours). "
        "Those whose reason begins with",
        f"# \"{EQUIVALENT.strip()}\" are the same program in other words: no test can tell them apart.",
        "",
    ]
    for key, fate in fates.items():
        if fate in {"survives", "not reached"}:
            lines += [key, *([f"    {reasons[key]}"] if reasons.get(key) else []), ""]
    (HERE / "survivors.txt").write_text("\n".join(lines), encoding="utf-8")
    total, dead, same = 0, 0, 0
    rows = ""
    for f in files:
        mine = [(p.key, fates[p.key]) for p in f.points if p.key in fates]
        if not mine:
            continue
        killed = sum(fate in {"killed", "hangs"} for _, fate in mine)
        hangs = sum(fate == "hangs" for _, fate in mine)
        equal = sum(
            fate in {"survives", "not reached"} and reasons.get(key, "").startswith(EQUIVALENT) for key, fate in mine
        )
        total, dead, same = total + len(mine), dead + killed, same + equal
        rows += (
            f"| `{f.file}` | {len(mine)} | {killed} | {hangs} | {equal} | {len(mine) - killed - equal} | "
            f"{percent(killed, len(mine))} % |\n"
        )
    places = sum(len(f.points) for f in files) - len(dropped)
    skipped = sum(f.skipped for f in files) + len(dropped)
    (HERE / "RESULTS.md").write_text(
        f"""# What the tests notice

Made by `mutation.py` on {datetime.date.today()}: small changes of the code, one at a time: \
a comparison with or without its limit, equal and unequal,
+ and -, and and or, minimum and maximum exchanged, a constant one more, a condition negated, a statement left out. \
Of the {places:,} places, in the
order of the code, every {EVERY}th is tried. Each mutant runs in a process of its own the tests of `coldtally_tests` \
that run through its place, until one
fails; it is killed when a test fails or crashes, or takes {SECONDS} s and three times its own time of computing \
("hangs": in a column of its own, and among the
killed). A survivor is "the same" where no question and no ledger can tell it from the code; \
[survivors.txt](survivors.txt) says of each why.
A few long tests, named in `mutation.py`, are not run: a mutant that they alone would kill counts as survivor.

{total} mutants, {dead} killed, {same} the same, {total - dead - same} survive otherwise: \
{percent(dead, total)} % killed of all
({percent(dead, total - same)} % of those that are not the same).

Counted are all that were tried, also survivors that are "the same"; \
no place of the code is left out because its mutant survives. {skipped} are no places
from the start: they hold for the compiler (constexpr and the like), do not compile with a switch, \
or only make room beforehand (`reserve`).

| file | mutants | killed | of these, hangs | the same | survive otherwise | killed of all |
| --- | --- | --- | --- | --- | --- | --- |
{rows}
These are the files of exposure, histories, traces and lists; no others are changed. \
A header's mutants are seen by the files of this table alone.
""",
        encoding="utf-8",
    )


def percent(part, whole):
    """Rounded down: 100 means all."""
    return f"{part * 1000 // max(1, whole) / 10:.1f}"


def pages_again(source, build):
    """With the fates of the last run, after reasons were added."""
    files = mutated_files(source)
    write_pages(
        files,
        json.loads((build / "mutation" / "dropped.json").read_text()),
        json.loads((build / "mutation" / "fates.json").read_text()),
    )


def run(source, build, survivors_only):
    program = Program(source, build)
    print(f"{len(program.points)} places; measuring the tests", flush=True)
    measured = program.measure()
    print(f"{len(measured)} tests, {sum(s for s, _ in measured.values()):.0f} s", flush=True)
    before = json.loads(program.read("fates.json") or "{}") if survivors_only else {}
    chosen = [p for p in program.points if p.number % EVERY == 1]
    ask = [p for p in chosen if before.get(p.key) not in {"killed", "hangs"}]
    fates, start = {}, time.monotonic()
    with concurrent.futures.ThreadPoolExecutor(AT_ONCE) as pool:
        for k, (p, fate) in enumerate(zip(ask, pool.map(lambda p: judge(program, p, measured), ask)), 1):
            fates[p.key] = fate
            if fate in {"survives", "not reached"}:
                print(f"{p.file}:{p.line} {fate}: {p.text}: {p.change}, place {p.nth}", flush=True)
            if k % 20 == 0:
                (program.dir / "so-far.json").write_text(json.dumps({**before, **fates}))
                print(f"{k} of {len(ask)} in {time.monotonic() - start:.0f} s", flush=True)
    fates = {p.key: fates.get(p.key) or before[p.key] for p in chosen}
    (program.dir / "fates.json").write_text(json.dumps(fates, indent=0))
    write_pages(program.files, program.dropped, fates)


def check(source):
    """What stands on the pages must be so of the code as it is, but for a few changed lines: those do not ask for a run
    each time."""
    bad, gone = [], 0
    known = {p.key for f in mutated_files(source) for p in f.points}
    reasons = read_survivors()
    for key, reason in reasons.items():
        if key not in known:
            gone += 1
            print(f"survivors.txt: no such place in the code now, run anew some time: {key}")
        if not reason:
            bad.append(f"survivors.txt: no reason given: {key}")
    page = (HERE / "RESULTS.md").read_text(encoding="utf-8")
    m = re.search(r"^(\d+) mutants, (\d+) killed, (\d+) the same, (\d+) survive otherwise", page, re.M)
    total, killed, same, others = map(int, m.groups())
    if same + others != len(reasons) or same != sum(r.startswith(EQUIVALENT) for r in reasons.values()):
        bad.append(f"RESULTS.md says {same} the same and {others} others, survivors.txt has {len(reasons)}: run anew")
    if gone * 10 > len(reasons):
        bad.append(f"{gone} of {len(reasons)} survivors speak of code that has changed: run anew")
    if total < LEAST:
        bad.append(f"{total} mutants are fewer than {LEAST}")
    if killed * 100 < PERCENT * total:
        bad.append(f"{killed} of {total} killed is less than {PERCENT} %")
    for line in bad:
        print(line)
    sys.exit(1 if bad else 0)


def self_test(source):
    files = mutated_files(source)
    count = sum(len(f.points) for f in files)
    assert count // EVERY >= LEAST, count
    keys = [p.key for f in files for p in f.points]
    assert len(keys) == len(set(keys)), "two mutants of one name"
    for f in files:
        assert f.switched({}) == f.source, f"{f.file} is not itself without mutants"
        assert [p.key for p in points.Mutated(f.file, f.source).points] == [p.key for p in f.points]
    text = "bool f(int a, int b) {\n    return a < b && b != 3;  // a < b\n}\n"
    small = points.Mutated("a.cpp", text)
    assert [p.change for p in small.points] == [
        "< becomes <=",
        "&& becomes ||",
        "!= becomes ==",
        "3 becomes 4",
    ], small.points
    for p, want in zip(
        small.points,
        [
            "a < ::mutation::Less{1} > b && b != 3",
            "((((static_cast<bool>(a < b)) != ::mutation::on(1)) && ((static_cast<bool>(b != 3)",
            "b == ::mutation::Unequal{1} == 3",
            "b != ::mutation::one_more(1, 3)",
        ],
    ):
        got = re.sub(r"\s+", "", small.switched({p.key: 1}))
        assert re.sub(r"\s+", "", want) in got, got
    whole = points.Mutated("a.cpp", "void f(bool a, bool b) {\n    if (a || b) return;\n}\n")
    got = re.sub(r"\s+", "", whole.switched({p.key: n for n, p in enumerate(whole.points, 1)}))
    assert "if((static_cast<bool>(((((static_cast<bool>(a))" in got and "))!=::mutation::on(1)))return;" in got.replace(
        "!=::mutation::on(2)", ""
    ), got
    held = points.Mutated("a.hpp", "constexpr int c = 1 + 2;\n")
    assert not held.points and held.skipped == 1
    print(f"{count} places in {len(files)} files")


def main():
    source = pathlib.Path(sys.argv[1]).resolve()
    if "--check" in sys.argv:
        check(source)
    elif "--self-test" in sys.argv:
        self_test(source)
    elif "--pages" in sys.argv:
        pages_again(source, pathlib.Path(sys.argv[2]).resolve())
    else:
        run(source, pathlib.Path(sys.argv[2]).resolve(), "--survivors" in sys.argv)


main()
