"""run.py BUILD_DIR WORK_DIR [--runs 5] [--page FILE]: the benchmarks as whole processes on one core, interleaved, as
ratios.

Needs a build with -DCOLDTALLY_BENCH=ON, and Debian's python3-numpy and python3-pandas. Takes some minutes and 3 GB in
WORK_DIR. Times are of one machine and one run; the ratios are what can be compared. Nothing here decides a test."""
import argparse
import json
import os
import resource
import shutil
import statistics
import subprocess
import sys
import time

HERE = os.path.dirname(os.path.abspath(__file__))
ANALYST = ["/usr/bin/python3", HERE + "/analyst.py"]
PLACES = 20


def processor():
    """What the machine says of its cores."""
    with open("/proc/cpuinfo") as f:
        names = [line.partition(":")[2].strip() for line in f if line.startswith("model name")]
    return f"{names[0] if names else 'unknown'}, {len(os.sched_getaffinity(0))} cores"


class Measured:
    def __init__(self, seconds, peak_mib, output):
        self.seconds, self.peak_mib, self.output = seconds, peak_mib, output


def measure(argv, out=None, cores="0"):
    """One run on some cores: wall seconds and peak memory of the process."""
    read, write = (None, open(out, "wb")) if out else (subprocess.PIPE, subprocess.PIPE)
    start = time.perf_counter()
    p = subprocess.Popen(["taskset", "-c", cores] + argv, stdout=write, stderr=subprocess.PIPE)
    output, errors = p.communicate() if not out else (b"", p.stderr.read())
    _, status, usage = (0, p.wait(), resource.getrusage(resource.RUSAGE_CHILDREN))
    seconds = time.perf_counter() - start
    if status != 0:
        sys.exit(f"{' '.join(argv)}: status {status}: {errors.decode()}")
    peak = 0
    for line in errors.decode().splitlines():
        if line.startswith("peak_kib "):
            peak = int(line.split()[1]) / 1024
    return Measured(seconds, peak, output or b"")


def timed(argv):
    """argv under time(1), so that its own peak memory is known."""
    return ["/usr/bin/time", "-f", "peak_kib %M"] + argv


def interleaved(runs, commands, before=lambda name: None, cores=lambda name: "0"):
    """name -> argv or list of argvs run one after the other; name -> (median seconds, largest peak MiB)."""
    seen = {name: [] for name in commands}
    peak = {name: 0.0 for name in commands}
    for _ in range(runs):
        for name, argvs in commands.items():
            before(name)
            total = 0.0
            for argv in argvs if isinstance(argvs[0], list) else [argvs]:
                m = measure(timed(argv), os.devnull, cores(name))
                total += m.seconds
                peak[name] = max(peak[name], m.peak_mib)
            seen[name].append(total)
    return {name: (statistics.median(s), peak[name]) for name, s in seen.items()}


def agree(a, b, what):
    """Two answers of all stays: to 1e-9 relative."""
    worst = 0.0
    with open(a) as x, open(b) as y:
        rows = 0
        for p, q in zip(x, y, strict=True):
            rows += 1
            for u, v in zip(map(float, p.split(",")), map(float, q.split(",")), strict=True):
                worst = max(worst, abs(u - v) / max(1.0, abs(u), abs(v)))
    if worst > 1e-9 or rows == 0:
        sys.exit(f"{what}: {rows} stays, worst relative difference {worst}")
    return worst


OTHER_FORMS = ["other_columns", "temperature_first"]  # more cells than the time's and the temperature's change


def form_costs(bench, runs):
    """name of a form -> what a row costs to read, of what one of the plain form costs; medians of runs in turns."""
    out = measure(
        [
            bench + "import_forms",
            "--benchmark_format=json",
            f"--benchmark_repetitions={runs}",
            "--benchmark_enable_random_interleaving=true",
            "--benchmark_report_aggregates_only=true",
        ]
    ).output
    medians = {
        b["run_name"]: b["items_per_second"] for b in json.loads(out)["benchmarks"] if b["aggregate_name"] == "median"
    }
    return {name: medians["plain"] / of for name, of in medians.items() if name != "plain"}


class Site:
    """The benchmark's data of one size, and the ledger made of it."""

    def __init__(self, bench, coldtally, folder, quarters, digits, gives):
        self.bench, self.coldtally, self.folder, self.ledger = bench, coldtally, folder, folder + "/ledger"
        if not os.path.exists(folder + "/layout.json"):
            subprocess.run([bench + "generate", folder, str(quarters), str(digits), str(gives)], check=True)

    def imports(self, ledger, layout=False):
        """As people do it, without a layout, or with one."""
        given = ["--layout", self.folder + "/layout.json"] if layout else []
        start = [self.coldtally, "import", ledger, "--by", "bm"]
        return [[*start, "--probe", f"probe-{p}", *given, f"{self.folder}/probe-{p}.csv"] for p in range(PLACES)]

    def define(self, ledger):
        if os.path.exists(ledger):
            os.unlink(ledger)
        subprocess.run(
            [self.coldtally, "post", ledger, self.folder + "/definitions.jsonl"], check=True, stdout=subprocess.DEVNULL
        )

    def build(self, with_events=True):
        if os.path.exists(self.ledger):
            return
        making = self.ledger + ".making"
        self.define(making)
        for argv in self.imports(making):
            subprocess.run(argv, check=True, stdout=subprocess.DEVNULL)
        self.readings_bytes = os.path.getsize(making)
        with open(self.folder + "/sizes", "w") as f:
            f.write(str(os.path.getsize(making)))
        if with_events:
            subprocess.run(
                [self.coldtally, "post", making, self.folder + "/events.jsonl"], check=True, stdout=subprocess.DEVNULL
            )
        os.rename(making, self.ledger)

    def readings(self):
        return sum(
            int(
                subprocess.run(
                    ["wc", "-l", f"{self.folder}/probe-{p}.csv"], capture_output=True, text=True, check=True
                ).stdout.split()[0]
            )
            - 1
            for p in range(PLACES)
        )

    def bytes_a_reading(self):
        with open(self.folder + "/sizes") as f:
            return int(f.read()) / self.readings()


class Benchmarks:
    """Each of the methods measures, and reports rows of the page."""

    def __init__(self, build, work, runs):
        self.bench, self.coldtally = build + "/tests/bench/bench_", build + "/cli/coldtally"
        self.work, self.runs, self.rows = work, runs, []
        self.large = Site(self.bench, self.coldtally, work + "/4x", 4, 1, 1_000_000)
        self.small = Site(self.bench, self.coldtally, work + "/1x", 1, 1, 250_000)
        self.fine = Site(self.bench, self.coldtally, work + "/4x3", 4, 3, 1000)
        for site in (self.large, self.small, self.fine):
            site.build(site is not self.fine)
        self.scratch = work + "/scratch"
        shutil.rmtree(self.scratch, ignore_errors=True)
        os.makedirs(self.scratch)

    def row(self, what, figure, at, ok):
        self.rows.append((what, figure, at, "" if ok is None else "yes" if ok else "NO"))
        print(f"{what}: {figure} ({at}) {self.rows[-1][3]}", flush=True)

    def fresh(self, name):
        for f in os.listdir(self.scratch):
            os.unlink(f"{self.scratch}/{f}")
        if name.startswith("library"):
            (self.small if name.endswith("1x") else self.large).define(self.scratch + "/ledger")

    def import_times(self):
        """Those of the library and the limit, and those of other tools."""
        two = "0,1" if len(os.sched_getaffinity(0)) > 1 else None
        commands = {
            "library": self.large.imports(self.scratch + "/ledger"),
            "library with a layout": self.large.imports(self.scratch + "/ledger", layout=True),
            "limit": [self.bench + "limit_import", self.large.folder, self.scratch + "/arrays"],
            "library 1x": self.small.imports(self.scratch + "/ledger"),
        }
        if two:
            commands["library with a layout, two cores"] = commands["library with a layout"]
            commands["limit, two cores"] = commands["limit"]
        times = interleaved(self.runs, commands, self.fresh, lambda name: two if name.endswith("two cores") else "0")
        others = interleaved(
            max(1, self.runs // 2),
            {
                "sqlite": [self.bench + "sqlite_rows", "import", self.large.folder, self.scratch + "/rows.db"],
                "pandas": ANALYST + ["import", self.large.folder, self.scratch + "/arrays.npz"],
            },
            self.fresh,
        )
        return times, others

    def imports(self):
        times, others = self.import_times()
        library = times["library"][0]
        layout, limit = times["library with a layout"][0], times["limit"][0]
        self.row(
            "import without a layout / a parser of exactly this form",
            f"{library / limit:.2f}",
            "at most 2.5",
            library / limit <= 2.5,
        )
        self.row(
            "import without a layout / with one", f"{library / layout:.2f}", "at most 1.15", library / layout <= 1.15
        )
        self.row("import with a layout / the parser", f"{layout / limit:.2f}", "at most 2.0", layout / limit <= 2.0)
        if "limit, two cores" in times:
            both = times["library with a layout, two cores"][0] / times["limit, two cores"][0]
            self.row("the same on two cores", f"{both:.2f}", "at most 1.3", both <= 1.3)
        self.forms()
        self.row(
            "import: plain SQLite / library",
            f"{others['sqlite'][0] / library:.1f}",
            "at least 4",
            others["sqlite"][0] / library >= 4,
        )
        self.row(
            "import: pandas / library",
            f"{others['pandas'][0] / library:.1f}",
            "at least 9",
            others["pandas"][0] / library >= 9,
        )
        self.row(
            "import: growth from 1x to 4x",
            f"{library / times['library 1x'][0]:.2f}",
            "at most 4.4",
            library / times["library 1x"][0] <= 4.4,
        )
        self.row(
            "import without a layout: peak memory",
            f"{times['library'][1]:.0f} MiB",
            "at most 48 MiB",
            times["library"][1] <= 48,
        )
        self.row("import: readings a second", f"{self.large.readings() / library / 1e6:.1f} million", "", None)
        self.file_size()

    def forms(self):
        forms = form_costs(self.bench, self.runs)
        dearest = max((name for name in forms if name not in OTHER_FORMS), key=forms.get)
        self.row(
            "reading a row of a form / of the plain one, the dearest",
            f"{forms[dearest]:.2f} ({dearest.replace('_', ' ')})",
            "at most 1.3",
            forms[dearest] <= 1.3,
        )
        for name in OTHER_FORMS:
            self.row(f"the same of {name.replace('_', ' ')}", f"{forms[name]:.2f}", "reported", None)

    def file_size(self):
        one, three = self.large.bytes_a_reading(), self.fine.bytes_a_reading()
        self.row("file: bytes a reading, one digit", f"{one:.2f}", "at most 1.5", one <= 1.5)
        self.row("file: bytes a reading, three digits", f"{three:.2f}", "at most 3.0", three <= 3.0)

    def stays(self):
        subprocess.run(
            [self.bench + "sqlite_rows", "import", self.large.folder, self.scratch + "/rows.db"], check=True
        ) if not os.path.exists(self.scratch + "/rows.db") else None
        if not os.path.exists(self.scratch + "/arrays.npz"):
            subprocess.run(ANALYST + ["import", self.large.folder, self.scratch + "/arrays.npz"], check=True)
        answers = {
            "library": [self.bench + "library_stays", self.large.folder, self.large.ledger],
            "limit": [self.bench + "limit_stays", self.large.folder],
            "sqlite": [self.bench + "sqlite_rows", "stays", self.large.folder, self.scratch + "/rows.db"],
            "numpy": ANALYST + ["stays", self.large.folder, self.scratch + "/arrays.npz"],
        }
        for name, argv in answers.items():
            measure(argv, f"{self.scratch}/{name}.csv")
        worst = max(
            agree(f"{self.scratch}/library.csv", f"{self.scratch}/{other}.csv", other)
            for other in ("limit", "sqlite", "numpy")
        )
        self.row("all stays: largest relative difference of the four", f"{worst:.1e}", "at most 1e-9", worst <= 1e-9)
        times = interleaved(
            self.runs,
            dict(answers, **{"library 1x": [self.bench + "library_stays", self.small.folder, self.small.ledger]}),
        )
        library = times["library"][0]
        self.row(
            "all stays: library / one pass over mapped arrays",
            f"{library / times['limit'][0]:.2f}",
            "at most 1.5",
            library / times["limit"][0] <= 1.5,
        )
        self.row(
            "all stays: plain SQLite / library",
            f"{times['sqlite'][0] / library:.1f}",
            "at least 2.5",
            times["sqlite"][0] / library >= 2.5,
        )
        self.row(
            "all stays: NumPy / library",
            f"{times['numpy'][0] / library:.1f}",
            "at least 6",
            times["numpy"][0] / library >= 6,
        )
        self.row(
            "all stays: growth from 1x to 4x",
            f"{library / times['library 1x'][0]:.2f}",
            "at most 4",
            library / times["library 1x"][0] <= 4,
        )
        self.stays_at_three_digits()
        self.row(
            "all stays: peak memory of library, array pass, SQLite, NumPy",
            ", ".join(f"{times[n][1]:.0f}" for n in ("library", "limit", "sqlite", "numpy")) + " MiB",
            "",
            None,
        )

    def stays_at_three_digits(self):
        measure([self.bench + "library_stays", self.fine.folder, self.fine.ledger], self.scratch + "/fine-library.csv")
        measure([self.bench + "limit_stays", self.fine.folder], self.scratch + "/fine-limit.csv")
        worst = agree(self.scratch + "/fine-library.csv", self.scratch + "/fine-limit.csv", "three digits")
        three = interleaved(
            self.runs,
            {
                "library": [self.bench + "library_stays", self.fine.folder, self.fine.ledger],
                "limit": [self.bench + "limit_stays", self.fine.folder],
            },
        )
        self.row(
            "all stays at three digits: library / one pass over mapped arrays",
            f"{three['library'][0] / three['limit'][0]:.2f}, largest difference {worst:.1e}",
            "at most 1.5, 1e-9",
            three["library"][0] / three["limit"][0] <= 1.5,
        )

    def ask(self, site, *words):
        return [self.coldtally, words[0], site.ledger, *words[1:], "--format", "json"]

    def questions(self):
        window = ["--from", "2015-01-01T00:00:00Z", "--until", "2025-01-01T00:00:00Z"]
        times = interleaved(
            self.runs,
            {
                "open": [self.bench + "open", self.large.ledger],
                "open 1x": [self.bench + "open", self.small.ledger],
                "lists": self.ask(self.large, "lists"),
                "lists 1x": self.ask(self.small, "lists"),
                "review": self.ask(self.large, "review"),
                "excursions": self.ask(self.large, "excursions", "unit-0", *window),
            },
        )
        lists, opened = times["lists"][0], times["open"][0]
        self.row(
            "lists: whole process / a process that opens the ledger",
            f"{lists / opened:.1f}",
            "at most 5",
            lists / opened <= 5,
        )
        self.row("lists: whole process", f"{lists * 1000:.0f} ms", "under 120 ms", lists < 0.12)
        self.row(
            "lists: growth from 1x to 4x",
            f"{lists / times['lists 1x'][0]:.2f}",
            "at most 1.5",
            lists / times["lists 1x"][0] <= 1.5,
        )
        self.row(
            "review of a million doses given",
            f"{times['review'][0]:.2f} s, {times['review'][1]:.0f} MiB",
            "under 3 s, 300 MB",
            times["review"][0] < 3 and times["review"][1] * 1.048576 < 300,
        )
        self.row(
            "excursions of one place over ten years",
            f"{times['excursions'][0] * 1000:.0f} ms",
            "under 150 ms",
            times["excursions"][0] < 0.15,
        )
        self.row(
            "opening: 4x / 1x",
            f"{opened / times['open 1x'][0]:.2f}",
            "independent of size",
            opened / times["open 1x"][0] < 1.3,
        )
        self.row(
            "answers: peak memory of lists, excursions",
            f"{times['lists'][1]:.0f}, {times['excursions'][1]:.0f} MiB",
            "at most 128 MiB",
            max(times["lists"][1], times["excursions"][1]) <= 128,
        )

    def small_ledger(self):
        """A thousand entries, to post into."""
        tiny = self.work + "/tiny"
        if not os.path.exists(tiny):
            with open(self.large.folder + "/definitions.jsonl") as f:
                lines = f.readlines()
            keep = [l for l in lines if '"kind":"lot"' not in l] + [l for l in lines if '"kind":"lot"' in l][:700]
            subprocess.run(
                [self.coldtally, "post", tiny, "-"], input="".join(keep).encode(), check=True, stdout=subprocess.DEVNULL
            )
        return tiny

    def posting(self):
        entries = {
            "check": '{"by":"bm","kind":"check","at":"%s","place":"unit-0","scale":"C","temperature":5}\n',
            "receive": '{"by":"bm","kind":"receive","at":"%s","place":"unit-0","product":"%s","lot":"%s","doses":5}\n',
            "give": '{"by":"bm","kind":"give","at":"%s","place":"unit-0","product":"%s","lot":"%s","patient":"x"}\n',
            "move": '{"by":"bm","kind":"move","at":"%s","product":"%s","lot":"%s",'
            '"from":{"place":"unit-0"},"to":{"place":"unit-1"},"doses":1}\n',
        }
        with open(self.large.folder + "/definitions.jsonl") as f:
            lot = next(e for e in map(json.loads, f) if e["kind"] == "lot")
        commands = {}
        for name, ledger in (("large", self.large.ledger), ("tiny", self.small_ledger())):
            copy = f"{self.scratch}/{name}.ledger"
            shutil.copy(ledger, copy)
            subprocess.run(
                [self.coldtally, "post", copy, "-"],
                input=(entries["receive"] % ("2025-02-01T08:00:00Z", lot["product"], lot["lot"])).encode() * 40,
                check=True,
                stdout=subprocess.DEVNULL,
            )
            for kind in ("check", "give", "move"):
                path = f"{self.scratch}/{kind}.jsonl"
                with open(path, "w") as f:
                    words = ("2025-02-02T08:00:00Z",) + ((lot["product"], lot["lot"]) if kind != "check" else ())
                    f.write(entries[kind] % words)
                commands[f"{kind} {name}"] = [self.coldtally, "post", copy, path]
        late = f"{self.scratch}/late.jsonl"
        with open(late, "w") as f:
            f.write(entries["receive"] % ("2022-12-01T08:00:00Z", lot["product"], lot["lot"]))
        commands["late"] = [self.coldtally, "post", f"{self.scratch}/large.ledger", late]
        times = interleaved(max(self.runs, 5), commands)
        for kind in ("check", "give", "move"):
            ratio = times[f"{kind} large"][0] / times[f"{kind} tiny"][0]
            self.row(
                f"posting one {kind}: into a million entries / into a thousand", f"{ratio:.2f}", "at most 2", ratio <= 2
            )
        self.row("a late entry two years back", f"{times['late'][0] * 1000:.0f} ms", "under 1 s", times["late"][0] < 1)
        target = subprocess.run(
            [self.coldtally, "post", f"{self.scratch}/large.ledger", late], capture_output=True, text=True, check=True
        ).stdout
        number = json.loads(target.splitlines()[-1])["entry"]
        with open(f"{self.scratch}/void.jsonl", "w") as f:
            f.write('{"by":"bm","kind":"void","at":"2025-02-02T08:00:00Z","voids":%d,"reason":"benchmark"}\n' % number)
        m = measure([self.coldtally, "post", f"{self.scratch}/large.ledger", f"{self.scratch}/void.jsonl"])
        self.row("a void of an old entry", f"{m.seconds * 1000:.0f} ms", "under 1 s", m.seconds < 1)

    def cold_cache(self):
        try:
            subprocess.run(["sync"], check=True)
            with open("/proc/sys/vm/drop_caches", "w") as f:
                f.write("3")
            m = measure(self.ask(self.large, "lists"), os.devnull)
            self.row("lists with a cold cache", f"{m.seconds * 1000:.0f} ms", "reported", None)
        except OSError as x:
            self.row("lists with a cold cache", f"not measured: {x.strerror}", "reported", None)

    def write_page(self, path):
        sections = ""  # those that other programs wrote
        if os.path.exists(path):
            with open(path) as f:
                _, mark, rest = f.read().partition("\n## ")
            sections = mark + rest
        with open(path, "w") as f:
            f.write(
                "# What the benchmarks measured\n\n"
                f"Made by `tests/bench/run.py` on one core ({processor()}), medians of "
                f"{self.runs} interleaved runs (SQLite and pandas imports: {max(1, self.runs // 2)}). "
                "Ratios can be compared between machines; times cannot.\n"
                "The data: twenty places, ten years of five-minute readings "
                f"({self.large.readings() / 1e6:.1f} million, 4x; 1x is a quarter of it), 20,000 stays, "
                "a million doses given, checks with minimum and maximum, certificates; all invented.\n\n"
                "| what | measured | wanted | holds |\n|---|---|---|---|\n"
            )
            for r in self.rows:
                f.write("| " + " | ".join(r) + " |\n")
            f.write(sections)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("build")
    parser.add_argument("work")
    parser.add_argument("--runs", type=int, default=5)
    parser.add_argument("--page")
    a = parser.parse_args()
    os.makedirs(a.work, exist_ok=True)
    benchmarks = Benchmarks(os.path.abspath(a.build), a.work, a.runs)
    benchmarks.imports()
    benchmarks.stays()
    benchmarks.questions()
    benchmarks.posting()
    benchmarks.cold_cache()
    if a.page:
        benchmarks.write_page(a.page)


if __name__ == "__main__":
    main()
