"""Logger files into a ledger, end to end: all files or none, nothing twice, long files in several entries, layouts, a
killed import.

Usage: import_test.py COLDTALLY"""
import datetime
import hashlib
import json
import os
import pathlib
import shlex
import signal
import sqlite3
import subprocess
import sys
import tempfile
import time

coldtally = os.path.abspath(sys.argv[1])
environment = {"PATH": "/usr/bin:/bin"}
SITE = """{"kind":"site","name":"Demo","zone":"UTC","by":"ab"}
{"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}},"by":"ab"}
{"kind":"probe","probe":"k","scale":"C","by":"ab"}
{"kind":"probe","probe":"other","scale":"C","by":"ab"}
{"kind":"assign","at":"2020-01-01T00:00:00Z","probe":"k","place":"main","by":"ab"}
"""
DEFINITIONS = 5
LAYOUT = {
    "delimiter": ";",
    "decimal": ",",
    "skip_lines": 1,
    "columns": {"date": 1, "time": 2, "temperature": 3},
    "date_pattern": "%d/%m/%Y",
    "time_pattern": "%H:%M",
    "offset": "+01:00",
    "scale": "C",
    "no_reading": ["--"],
}
DAYS = "day;clock;degrees\n03/02/2026;08:00;4,5\n03/02/2026;08:05;--\n03/02/2026;08:10;4,75\n"
# the rows of DAYS, an hour east of UTC, the day first
ROWS = [["2026-02-03T07:00:00Z", "4.5"], ["2026-02-03T07:10:00Z", "4.75"]]


def run(*argv, text=None):
    return subprocess.run([coldtally, *argv], input=text, capture_output=True, text=True, env=environment)


class Site:
    """A ledger in a folder of its own, and the logger files beside it."""

    def __init__(self, folder, name):
        self.folder = pathlib.Path(folder, name)
        self.folder.mkdir()
        self.ledger = str(self.folder / "ledger")
        assert run("post", self.ledger, "-", text=SITE).returncode == 0

    def file(self, name, content):
        (self.folder / name).write_bytes(content if isinstance(content, bytes) else content.encode())
        return str(self.folder / name)

    def give(self, *words):
        return run("import", self.ledger, "--by", "ab", "--format", "json", *words)

    def report(self, *words):
        p = self.give(*words)
        assert p.returncode == 0, p.stderr
        return json.loads(p.stdout)["files"]

    def refuse(self, *words, says):
        before, beside = pathlib.Path(self.ledger).read_bytes(), sorted(os.listdir(self.folder))
        p = self.give(*words)
        assert p.returncode == 2 and p.stdout == "", (p.returncode, p.stdout)
        first, *ways = p.stderr.splitlines()
        assert first.startswith("coldtally: ") and all(way.startswith("  ") for way in ways), p.stderr
        for part in says:
            assert part in p.stderr, f"{part!r} is not in {p.stderr!r}"
        assert pathlib.Path(self.ledger).read_bytes() == before, "the ledger has changed"
        assert sorted(os.listdir(self.folder)) == beside, os.listdir(self.folder)
        return p.stderr

    def batches(self):
        p = run("export", self.ledger)
        assert p.returncode == 0, p.stderr
        return [e for e in map(json.loads, p.stdout.splitlines()) if e["kind"] == "readings"]

    def verify(self):
        p = run("verify", self.ledger)
        assert p.returncode == 0, p.stdout + p.stderr


def csv(start, count, minutes=5):
    at = datetime.datetime.fromisoformat(start)
    lines = ["Time,Temp (C)"]
    for i in range(count):
        lines.append(
            f"{at:%Y-%m-%d %H:%M},{4 + at.hour % 3}.{at.minute // 5 % 10}"
        )  # by the clock: parts that overlap agree
        at += datetime.timedelta(minutes=minutes)
    return "\n".join(lines) + "\n"


def a_layout_file_and_options_read_the_same(folder):
    by_file, by_options = Site(folder, "by-file"), Site(folder, "by-options")
    by_file.report(
        "--probe", "k", "--layout", by_file.file("layout.json", json.dumps(LAYOUT)), by_file.file("days.csv", DAYS)
    )
    by_options.report(
        "--probe",
        "k",
        "--delimiter",
        "semicolon",
        "--decimal",
        "comma",
        "--skip-lines",
        "1",
        "--columns",
        "date=1,time=2,temperature=3",
        "--date-pattern",
        "%d/%m/%Y",
        "--time-pattern",
        "%H:%M",
        "--offset",
        "+01:00",
        "--scale",
        "C",
        "--no-reading",
        "--",
        by_options.file("days.csv", DAYS),
    )
    for site in (by_file, by_options):
        (batch,) = site.batches()
        assert batch["rows"] == ROWS, batch["rows"]
        assert batch["source"] == {"file": "days.csv", "sha256": hashlib.sha256(DAYS.encode()).hexdigest()}, batch[
            "source"
        ]
    # an option goes before the file: the month first, so that 03/02 is the second of March
    other = Site(folder, "both")
    other.report(
        "--probe",
        "k",
        "--layout",
        other.file("layout.json", json.dumps(LAYOUT)),
        "--date-pattern",
        "%m/%d/%Y",
        other.file("days.csv", DAYS),
    )
    assert other.batches()[0]["rows"][0][0] == "2026-03-02T07:00:00Z"
    other.refuse(
        "--probe",
        "k",
        "--layout",
        other.file("wrong.json", '{"delimeter":";"}'),
        other.file("days.csv", DAYS),
        says=["wrong.json", "delimeter"],
    )
    other.refuse(
        "--probe", "k", "--columns", "temperature=0", other.file("days.csv", DAYS), says=["columns", "temperature", "0"]
    )


def what_is_ambiguous_waits_for_yes(folder):
    site = Site(folder, "yes")
    two_ways = site.file("two-ways.csv", "Time,Temp (C)\n03/02/2026 08:00,4.5\n03/02/2026 08:10,4.7\n")
    site.refuse("--probe", "k", two_ways, says=["two-ways.csv", "%d/%m/%Y", "%m/%d/%Y", "--yes"])
    (file,) = site.report("--probe", "k", "--yes", two_ways)
    assert file["ambiguous"] and len(site.batches()) == 1, file


def all_files_or_none(folder):
    site = Site(folder, "none")
    good = site.file("good.csv", csv("2026-02-01 00:00", 10))
    site.refuse(
        "--probe",
        "k",
        good,
        site.file("bad.csv", csv("2026-02-02 00:00", 3) + "2026-02-02 00:20,warm\n"),
        says=["bad.csv", "line 5", "warm"],
    )
    # the second file contradicts the first of the same import
    site.refuse(
        "--probe",
        "k",
        good,
        site.file("differs.csv", "Time,Temp (C)\n2026-02-01 00:00,9\n"),
        says=["differs.csv", "2026-02-01T00:00:00Z", "entry 6"],
    )
    site.refuse(
        "--probe",
        "k",
        good,
        site.file("future.csv", csv("2190-01-01 00:00", 2)),
        says=["future.csv", "2190-01-01T00:00:00Z", "must not be later"],
    )
    site.refuse("--probe", "nobody", good, says=["probe", "nobody", "post its definition first"])
    site.refuse("--probe", "k", site.file("empty.csv", ""), says=["empty.csv"])
    assert site.batches() == []
    assert [
        f["rows_kept"] for f in site.report("--probe", "k", good, site.file("next.csv", csv("2026-02-01 00:40", 4)))
    ] == [10, 2]
    site.verify()


def nothing_twice(folder):
    site = Site(folder, "twice")
    first, second = site.file("first.csv", csv("2026-02-01 00:00", 30)), site.file(
        "second.csv", csv("2026-02-01 00:00", 50)
    )
    site.report("--probe", "k", first)
    before = pathlib.Path(site.ledger).read_bytes()
    for again in (first, site.file("renamed.csv", pathlib.Path(first).read_text())):
        (file,) = site.report("--probe", "k", again)
        assert file["known_already"] and file["rows_kept"] == 0 and file["entries"] == [], file
    assert pathlib.Path(site.ledger).read_bytes() == before
    # a later download of the same memory: what is there already is counted, and only the rest is kept
    (file,) = site.report("--probe", "k", second)
    assert (
        file["rows_read"],
        file["rows_kept"],
        file["rows_repeated"],
        file["from"],
        file["until"],
        file["longest_step_s"],
    ) == (50, 20, 30, "2026-02-01T00:00:00Z", "2026-02-01T04:05:00Z", 300), file
    assert [len(b["rows"]) for b in site.batches()] == [30, 20]
    # the same bytes are another probe's too; and what was voided is read again
    assert site.report("--probe", "other", first)[0]["rows_kept"] == 30
    assert (
        run(
            "post",
            site.ledger,
            "-",
            text='{"kind":"void","at":"2026-02-02T00:00:00Z","voids":6,"reason":"the wrong probe","by":"ab"}\n',
        ).returncode
        == 0
    )
    assert site.report("--probe", "k", first)[0]["rows_kept"] == 30
    site.verify()


def readings_of_a_probe_in_no_place_are_remarked(folder):
    site = Site(folder, "nowhere")
    remark = (
        lambda n, probe: f'{n} of 24 readings count for no place: probe "{probe}" was in none then; '
        'if it was, say where since when (assign, with its instant)'
    )
    (file,) = site.report("--probe", "other", site.file("early.csv", csv("2019-12-31 23:00", 24)))
    assert file["remarks"] == [remark(24, "other")], file
    (file,) = site.report("--probe", "k", site.file("half.csv", csv("2019-12-31 23:00", 24)))
    assert file["remarks"] == [remark(12, "k")], file
    (file,) = site.report("--probe", "k", site.file("good.csv", csv("2026-02-01 00:00", 10)))
    assert not any("no place" in r for r in file["remarks"]), file["remarks"]


def options_of(line):
    """The options that a line of a refusal names, as a shell reads them."""
    words = shlex.split(line[line.index(" --") :].split("   (")[0])
    assert words and all(isinstance(w, str) for w in words)
    return words


def what_cannot_be_read_is_said_together_with_the_options_that_let_the_rest_through(folder):
    site = Site(folder, "unreadable")
    good = csv("2026-02-01 00:00", 30)
    damaged = site.file(
        "damaged.csv",
        good + "2026-02-01 02:30,N/A\n2026-02-01 02:35,it's off\n2026-02-01 02:40,--\n"
        "End of $part 1\nEnd of $part 2\n2026-02-01 02:45,4.2505\n",
    )
    message = site.refuse(
        "--probe",
        "k",
        damaged,
        says=[
            "damaged.csv: 6 rows cannot be read",
            "  line 32: temperature: \"N/A\"",
            "  line 35: ",
            "  line 37: ",
            "of what they leave out, nothing is known",
        ],
    )
    lines = message.splitlines()
    assert len(lines) == 8, message
    options = options_of(lines[-1])
    assert "--no-reading=--" in options and "it's off" in options, options
    (file,) = site.report("--probe", "k", *options, damaged)
    assert (file["rows_kept"], file["rows_without_reading"]) == (31, 3), file
    assert (file["rows_rounded"], file["largest_change"]) == (1, "0.0005"), file
    assert site.batches()[0]["source"]["resolution"] == "0.001", site.batches()[0]["source"]
    # two files of one import: both are said, and the good one is not kept
    rows = "".join(f"2026-03-01 0{i // 60}:{i % 60:02d},{'off' if i % 2 else 4}\n" for i in range(100))
    many = site.file("many.csv", "Time,Temp (C)\n" + rows)
    message = site.refuse(
        "--probe",
        "other",
        site.file("fine.csv", good),
        damaged,
        many,
        says=["56 rows in 2 files cannot be read", "damaged.csv: line 32", "many.csv: line 3", "and 36 more"],
    )
    assert len(message.splitlines()) == 1 + 20 + 1 + 1, message
    files = site.report("--probe", "other", *options_of(message.splitlines()[-1]), damaged, many)
    assert [f["rows_kept"] for f in files] == [31, 50], files
    site.verify()


def a_resolution_is_asked_for_stated_and_kept(folder):
    site = Site(folder, "resolution")
    floats = site.file(
        "floats.csv",
        "Time,Temp (C)\n2026-02-01 00:00,4.599999905\n2026-02-01 00:05,4.699999809\n" "2026-02-01 00:10,-4.650000095\n",
    )
    site.refuse("--probe", "k", floats, says=["resolution: readings rounded to 0.01", "4.599999905", "--yes"])
    site.refuse("--probe", "k", "--resolution", "0.2", floats, says=["resolution", "0.2", '"0.1", "0.01" or "0.001"'])
    (file,) = site.report("--probe", "k", "--resolution", "0.1", floats)
    assert (file["rows_rounded"], file["largest_change"]) == (3, "0.049999905"), file
    assert file["layout"]["resolution"] == "0.1", file
    (batch,) = site.batches()
    assert [r[1] for r in batch["rows"]] == ["4.6", "4.7", "-4.7"] and batch["source"]["resolution"] == "0.1", batch
    table = run("import", site.ledger, "--by", "ab", "--probe", "other", "--resolution", "0.1", floats).stdout
    words = " ".join(table.split())
    assert "Rounded to 0.1 degrees: 3 readings, by at most 0.049999905; of readings beside a limit" in words, table
    # without a resolution none is kept; and what is kept is exported and replayed
    site.report("--probe", "k", site.file("plain.csv", csv("2026-03-01 00:00", 3)))
    assert "resolution" not in site.batches()[-1]["source"]
    every = run("export", site.ledger).stdout
    again = str(site.folder / "again")
    assert run("replay", again, "-", text=every).returncode == 0 and run("export", again).stdout == every
    site.verify()


def utf16_is_read_as_utf8_is(folder):
    site = Site(folder, "utf16")
    text = "Ort: Kühlschrank, 冷蔵庫 \N{ICE CUBE}\n" + csv("2026-02-01 00:00", 300)
    (want,) = site.report("--probe", "k", site.file("utf8.csv", text))
    for codec, mark in (("utf-16-le", b"\xff\xfe"), ("utf-16-be", b"\xfe\xff")):  # Python's own
        other = Site(folder, codec)
        bytes_ = mark + text.encode(codec)
        (got,) = other.report("--probe", "k", other.file("utf8.csv", bytes_))
        assert got.pop("sha256") == hashlib.sha256(bytes_).hexdigest(), got
        assert got == {k: v for k, v in want.items() if k != "sha256"}, got
        assert other.batches()[0]["rows"] == site.batches()[0]["rows"]
        cut = other.file("cut.csv", bytes_[:-1])
        other.refuse("--probe", "other", cut, says=["cut.csv: line 302: is damaged UTF-16"])


def a_clock_that_was_set_is_stated_from_its_row_on(folder):
    rows = (
        "Time,Temp (C)\n2026-02-01 08:05,4.1\n2026-02-01 08:15,4.2\n2026-02-01 08:25,4.3\n"
        "2026-02-01 08:08,4.4\n2026-02-01 08:18,4.5\n"
    )
    want = [["08:05", "08:15", "08:25", "08:35", "08:45"], ["07:38", "07:48", "07:58", "08:08", "08:18"]]
    site = Site(folder, "clock")
    set_back = site.file("set-back.csv", rows)
    message = site.refuse(
        "--probe",
        "k",
        set_back,
        says=[
            "set-back.csv: line 5",
            "was the clock set back?",
            "If the clock was right up to line 4: --clock-from '5=2026-02-01 08:35'",
        ],
    )
    ways = message.splitlines()[1:]
    assert len(ways) == 2, ways
    for n, (way, times) in enumerate(zip(ways, want)):  # each command works as it is printed
        other = Site(folder, f"clock-{n}")
        (file,) = other.report("--probe", "k", *options_of(way), other.file("set-back.csv", rows))
        assert [r[0][11:16] for r in other.batches()[0]["rows"]] == times, (way, other.batches())
        assert len(file["layout"]["clocks"]) == n + 1, file
    # beside a layout file, what is stated again of a line is as it was stated last
    layout = site.file("layout.json", json.dumps({"clocks": [{"line": 5, "at": "2026-02-01T09:00:00"}]}))
    site.report("--probe", "k", "--layout", layout, "--clock-from", "5=-00:27", set_back)
    assert site.batches()[0]["rows"][-1][0] == "2026-02-01T08:45:00Z"
    for wrong, says in (
        ("five=UTC", "line"),
        ("5", "LINE=CLOCK"),
        ("5=Mars/Olympus", "zone"),
        ("99=UTC", "the last row is in line 6"),
        ("5=+15:00", "offset"),
    ):
        site.refuse("--probe", "other", "--clock-from", wrong, set_back, says=[says])
    site.refuse(
        "--probe",
        "other",
        "--clock-from",
        "5=-00:27",
        set_back,
        site.file("next.csv", csv("2026-02-02 00:00", 3)),
        says=["next.csv", "clocks", "lines of one file"],
    )


def many_excursions_are_said_in_short(folder):
    site = Site(folder, "excursions")
    # an hour at 12 °C each day for 40 days, the last but one of three hours
    at, lines = datetime.datetime(2026, 2, 1), ["Time,Temp (C)"]
    for i in range(40 * 48):
        hour = at.hour + at.minute / 60
        lines.append(f"{at:%Y-%m-%d %H:%M},{12 if 10 <= hour <= 11 or (i // 48 == 38 and 10 <= hour <= 13) else 5}.0")
        at += datetime.timedelta(minutes=30)
    warm = site.file("warm.csv", "\n".join(lines) + "\n")
    table = run("import", site.ledger, "--by", "ab", "--probe", "k", warm).stdout
    assert table.count("main: too warm") == 2 and "40 excursions" in table, table
    assert "the longest: main: too warm 2026-03-11" in table and "the latest: main: too warm 2026-03-12" in table, table
    assert run("incident", site.ledger).stdout.count("main: too warm") == 40
    # the report as JSON has all of them, and the same in short
    other = Site(folder, "excursions-json")
    p = other.give("--probe", "k", warm)
    report = json.loads(p.stdout)
    short, every = report["found_in_short"], report["found"]["without_incident"]
    assert short["count"] == len(every) == 40 and short["longest"] == every[38] and short["latest"] == every[39], short
    # ten are told one by one
    few = Site(folder, "few")
    ten_days = few.file("few.csv", "\n".join(lines[: 48 * 10 + 1]) + "\n")
    table = run("import", few.ledger, "--by", "ab", "--probe", "k", ten_days).stdout
    assert table.count("main: too warm") == 10 and "the longest" not in table, table


def a_long_file_makes_several_entries(folder):
    site = Site(folder, "long")
    long = site.file("long.csv", csv("2022-01-01 00:00", 250_001, minutes=1))
    (file,) = site.report("--probe", "k", long)
    assert file["rows_kept"] == 250_001 and file["entries"] == [6, 7, 8], file["entries"]
    batches = site.batches()
    assert [len(b["rows"]) for b in batches] == [100_000, 100_000, 50_001]
    assert batches[0]["rows"][-1][0] < batches[1]["rows"][0][0] and len({b["source"]["sha256"] for b in batches}) == 1
    assert site.report("--probe", "k", long)[0]["known_already"]
    # a fault in the last row of such a file leaves none of its entries
    site.refuse(
        "--probe",
        "other",
        site.file("fault.csv", csv("2022-01-01 00:00", 150_000, minutes=1) + "2022-12-31 00:00,1001\n"),
        says=["fault.csv", "line 150002", "1001"],
    )
    site.verify()


def a_killed_import_leaves_all_or_nothing(folder):
    site = Site(folder, "killed")
    rows, whole, killed, kept = 120_000, None, 0, 0
    for i in range(12):
        name = site.file(f"part-{i}.csv", csv(f"{2000 + i}-01-01 00:00", rows, minutes=1))
        start = time.perf_counter()
        p = subprocess.Popen(
            [coldtally, "import", site.ledger, "--by", "ab", "--probe", "k", name],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            env=environment,
        )
        if whole is not None:  # the first is left alone and says how long one takes
            time.sleep(whole * i / 11)
            p.send_signal(signal.SIGKILL)
        out, err = p.communicate()
        if whole is None:
            assert p.returncode == 0, err
            whole = time.perf_counter() - start
        assert p.returncode in (0, -signal.SIGKILL), err
        killed += p.returncode != 0
        found = run("verify", site.ledger)
        assert found.returncode == 0, found.stdout + found.stderr
        entries = int(found.stdout.split("Entries ")[1].split(",")[0]) - DEFINITIONS
        assert entries in (kept, kept + 2), f"{entries} entries after {kept}: half a file"
        assert entries == kept + 2 or p.returncode != 0, "an import that ended well is not there"
        kept = entries
    # one that was killed early leaves a journal in which nothing stands yet: the next to write takes it away
    site.report("--probe", "k", site.file("last.csv", csv("2020-01-01 00:00", 2)))
    left = [f for f in os.listdir(site.folder) if f.startswith("ledger") and f != "ledger"]
    assert not left, left
    assert killed >= 3, f"only {killed} were killed before their end"


def main():
    with tempfile.TemporaryDirectory() as folder:
        # a ledger that another process is writing: said after the wait, as a failure of the machine; it waits while the
        # rest runs
        busy = Site(folder, "busy")
        writer = sqlite3.connect(busy.ledger, isolation_level=None)
        writer.execute("BEGIN IMMEDIATE")
        waiting = subprocess.Popen(
            [
                coldtally,
                "import",
                busy.ledger,
                "--by",
                "ab",
                "--probe",
                "k",
                busy.file("a.csv", csv("2026-02-01 00:00", 3)),
            ],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            env=environment,
        )
        cases = [
            a_layout_file_and_options_read_the_same,
            what_is_ambiguous_waits_for_yes,
            all_files_or_none,
            nothing_twice,
            readings_of_a_probe_in_no_place_are_remarked,
            what_cannot_be_read_is_said_together_with_the_options_that_let_the_rest_through,
            a_resolution_is_asked_for_stated_and_kept,
            utf16_is_read_as_utf8_is,
            a_clock_that_was_set_is_stated_from_its_row_on,
            many_excursions_are_said_in_short,
            a_long_file_makes_several_entries,
            a_killed_import_leaves_all_or_nothing,
        ]
        for case in cases:
            case(folder)
        out, err = waiting.communicate(timeout=60)
        assert (waiting.returncode, out) == (3, "") and "another process is reading or writing the ledger" in err, (
            waiting.returncode,
            out,
            err,
        )
        writer.execute("ROLLBACK")
        writer.close()
        assert busy.batches() == [] and busy.report("--probe", "k", str(busy.folder / "a.csv"))[0]["rows_kept"] == 3
    print(f"{len(cases) + 1} passed, 0 failed")


main()
