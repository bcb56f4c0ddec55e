"""Clocks, zone data, locales, standard files, names of files and full disks that are not as a program would like them:
one clear line, the right status, and nothing written.

Usage: surroundings_test.py COLDTALLY ELSEWHERE [TEST...]
ELSEWHERE is elsewhere.c as a library; none with sanitizers, which are laid over the C library themselves."""
import contextlib
import datetime
import hashlib
import os
import pathlib
import resource
import signal
import sqlite3
import subprocess
import sys
import tempfile
import time

COLDTALLY = os.path.abspath(sys.argv[1])
ELSEWHERE = os.path.abspath(sys.argv[2]) if len(sys.argv) > 2 and sys.argv[2] != "none" else None
SECONDS = 10  # more is a hang
RANGE = '"range":{"low":{"C":"2"},"high":{"C":"8"}}'
SITE = f"""{{"kind":"site","name":"Demo (invented)","zone":"America/Chicago","by":"ab"}}
{{"kind":"product","product":"p","name":"P (invented)",{RANGE},"by":"ab"}}
{{"kind":"lot","product":"p","lot":"L","expiry":"2027-05","by":"ab"}}
{{"kind":"place","place":"main","name":"Main","type":"refrigerator",{RANGE},"by":"ab"}}
{{"kind":"probe","probe":"k","scale":"C","by":"ab"}}
{{"kind":"assign","at":"2026-01-01T00:00:00Z","probe":"k","place":"main","by":"ab"}}
{{"kind":"receive","at":"2026-01-01T00:00:00Z","place":"main","product":"p","lot":"L","doses":10,"by":"ab"}}
"""
CHECK = '{"kind":"check","at":"2026-01-02T00:00:00Z","place":"main","scale":"C","temperature":"5","by":"ab"}\n'
FIRST, STEP = datetime.datetime(2026, 1, 2), datetime.timedelta(minutes=5)
LOGGER = "instant,degrees\n" + "".join(f"{FIRST + i * STEP:%Y-%m-%dT%H:%M:%S}Z,4.{i % 10}\n" for i in range(500))
QUESTIONS = [
    ["stock"], ["lists"], ["review", "--all"], ["verify"], ["export"], ["dates"], ["loans", "--all"],
    ["plan"], ["training"], ["today"], ["readiness"],
    ["conditions", "main", "--from", "2026-01-01T00:00:00", "--until", "2026-01-05T00:00:00"],
    ["unit", "main"],
]  # fmt: skip


def seconds(text):
    return int(datetime.datetime.fromisoformat(text + "+00:00").timestamp())


def run(*argv, clock=None, zones=None, text=None, cwd=None, env=None, shell=None, limit=None, stdout=subprocess.PIPE):
    environment = {"PATH": "/usr/bin:/bin", **(env or {})}
    if clock is not None or zones is not None:
        environment["LD_PRELOAD"] = ELSEWHERE
    if clock is not None:
        environment["COLDTALLY_TEST_CLOCK"] = str(clock if isinstance(clock, int) else seconds(clock))
    if zones is not None:
        environment["COLDTALLY_TEST_ZONES"] = zones
    words = ["/bin/sh", "-c", shell, "sh", COLDTALLY, *argv] if shell else [COLDTALLY, *argv]

    def before():
        if limit is not None:
            resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))

    begin = time.monotonic()
    with subprocess.Popen(
        words,
        stdin=subprocess.PIPE,
        stdout=stdout,
        stderr=subprocess.PIPE,
        cwd=cwd,
        env=environment,
        preexec_fn=before,
        start_new_session=True,
    ) as p:
        try:
            out, errors = p.communicate((text or "").encode(), timeout=SECONDS * 1.5)
        except subprocess.TimeoutExpired:
            os.killpg(p.pid, signal.SIGKILL)
            raise AssertionError(f"{argv}: hangs") from None
    assert time.monotonic() - begin < SECONDS * 2, f"{argv}: took more than {SECONDS} s"
    return p.returncode, (out or b"").decode(errors="surrogateescape"), errors.decode(errors="surrogateescape")


def one_line(result, status, *words):
    """One clear line on standard error, of a status; some word of each of `words` in it."""
    code, out, errors = result
    lines = errors.splitlines()
    statuses = status if isinstance(status, tuple) else (status,)
    assert code in statuses, f"status {code} instead of {status}: {out[-300:]}{errors}"
    assert len(lines) == 1 and lines[0].startswith("coldtally: "), f"not one line: {errors!r}"
    for bad in ("std::", "bad_alloc", "basic_", "map::at", "exception"):
        assert bad not in errors, errors
    for word in words:
        choices = word if isinstance(word, tuple) else (word,)
        assert any(w.lower() in errors.lower() for w in choices), f"none of {choices}: {errors}"
    return lines[0]


said_wrong = []


@contextlib.contextmanager
def case(name):
    """One of several cases of a test: the others are tried, too."""
    try:
        yield
    except AssertionError as wrong:
        said_wrong.append(f"{name}: {str(wrong)[:800]}")


def bytes_of(path):
    return hashlib.sha256(pathlib.Path(path).read_bytes()).hexdigest()


@contextlib.contextmanager
def folder():
    with tempfile.TemporaryDirectory() as name:
        yield pathlib.Path(name)


def made(work, name="ledger", text=SITE):
    ledger = str(work / name)
    code, _, errors = run("post", ledger, "-", text=text)
    assert code == 0, errors
    return ledger


def unchanged(work, ledger, before):
    assert bytes_of(ledger) == before, "something was written"
    assert run("verify", ledger)[0] == 0
    beside = pathlib.Path(ledger).name + "-"
    left = sorted(f.name for f in work.iterdir() if f.name.startswith(beside) or ".unfinished" in f.name)
    assert not left, f"left behind: {left}"


def test_a_clock_set_back_stops_no_work():
    with folder() as work:
        ledger = str(work / "ledger")
        assert run("post", ledger, "-", text=SITE, clock="2026-06-01T12:00:00")[0] == 0
        code, _, errors = run("post", ledger, "-", text=CHECK, clock="2026-03-01T12:00:00")
        assert code == 0, errors
        entries = run("export", ledger)[1].splitlines()
        assert '"recorded":"2026-06-01T12:00:00Z"' in entries[-1].replace('": "', '":"'), entries[-1]
        assert run("verify", ledger)[0] == 0
        # back behind what is told: an entry of a time that the clock has not reached yet is refused, as on any day
        assert run("stock", ledger, clock="2020-01-01T00:00:00")[0] == 0


def test_a_clock_after_all_that_a_ledger_can_say_writes_nothing():
    for clock in ("2200-01-01T00:00:00", "2262-04-11T23:47:16", 2**40):
        with case(clock), folder() as work:
            ledger = made(work)
            before = bytes_of(ledger)
            (work / "k.csv").write_text(LOGGER)
            one_line(run("post", ledger, "-", text=CHECK, clock=clock), (2, 3), "clock")
            bring_in = ["import", ledger, "--probe", "k", "--by", "ab", str(work / "k.csv")]
            one_line(run(*bring_in, clock=clock), (2, 3), "clock")
            receive = ["receive", ledger, "L", "5", "--place", "main", "--by", "ab", "--at", "2026-01-03T00:00:00Z"]
            one_line(run(*receive, clock=clock), (2, 3))
            unchanged(work, ledger, before)
            one_line(run("post", str(work / "new"), "-", text=SITE, clock=clock), (2, 3), "clock")
            assert not (work / "new").exists()
            for question in QUESTIONS:
                result = run(question[0], ledger, *question[1:], clock=clock)
                if result[0] not in (0, 1):
                    one_line(result, (2, 3))


def test_a_clock_before_1970():
    """It is no clock that was set back: what is recorded by it could not be read again."""
    for clock in ("1969-12-31T23:59:59", "1901-12-13T20:45:52", -(2**40)):
        with case(clock), folder() as work:
            one_line(run("post", str(work / "new"), "-", text=SITE, clock=clock), (2, 3), "clock")
            assert not (work / "new").exists()
            ledger = made(work)
            before = bytes_of(ledger)
            one_line(run("post", ledger, "-", text=CHECK, clock=clock), (2, 3), "clock")
            unchanged(work, ledger, before)


def test_the_last_and_first_instant_of_a_ledger():
    for clock in ("2199-12-31T23:59:59",):
        with folder() as work:
            ledger = str(work / "ledger")
            assert run("post", ledger, "-", text=SITE, clock=clock)[0] == 0
            code, _, errors = run("post", ledger, "-", text=CHECK, clock=clock)
            assert code == 0, errors
            assert run("verify", ledger, clock=clock)[0] == 0 and run("stock", ledger, clock=clock)[0] == 0


def test_without_zone_data():
    for zones in ("none", "folder", "unreadable"):
        with case(zones), folder() as work:
            ledger = made(work)
            before = bytes_of(ledger)
            for question in QUESTIONS:
                if question[0] in ("verify", "export"):
                    continue
                one_line(run(question[0], ledger, *question[1:], zones=zones), (2, 3), ("zone", "tzdata"))
            # all that a ledger holds is in UTC: what needs no zone may do its work, or say why not; damage it is not
            for question in ("verify", "export"):
                with case(f"{zones}: {question}"):
                    code, out, errors = run(question, ledger, zones=zones)
                    assert "NOT AS IT WAS" not in out and "damaged" not in errors, f"told as damage: {out}{errors}"
                    if code != 0:
                        one_line((code, out, errors), 3, ("zone", "tzdata"))
            one_line(run("post", ledger, "-", text=CHECK.replace("00Z", "00"), zones=zones), (2, 3), ("zone", "tzdata"))
            unchanged(work, ledger, before)
            one_line(run("post", str(work / "new"), "-", text=SITE, zones=zones), (2, 3), "zone")
            assert not (work / "new").exists()


def test_a_zone_that_is_a_folder():
    with folder() as work:
        for zone in ("America", "Etc", "posix/America"):
            with case(zone):
                text = SITE.replace("America/Chicago", zone)
                one_line(run("post", str(work / "new"), "-", text=text), 2, "line 1", "zone", zone)
                assert not (work / "new").exists()


def test_odd_locales_say_the_same():
    with folder() as work:
        ledger = made(work)
        for question in QUESTIONS:
            known = run("export", ledger)[1].splitlines()[-1].split('"recorded":')[1].split('"')[1]
            at = [] if question[0] in ("verify", "export") else ["--at", "2026-02-01T00:00:00Z", "--known-on", known]
            plain = run(question[0], ledger, *question[1:], *at)
            assert plain[0] in (0, 1), plain
            for env in (
                {"LC_ALL": "xx_XX.UTF-8"},
                {"LC_ALL": "tr_TR.ISO-8859-9", "LANGUAGE": "tr"},
                {"LANG": "\xff"},
                {"TZ": "Nowhere/None"},
                {"TZ": ":/etc/passwd"},
                {"COLUMNS": "-3"},
                {"COLUMNS": "9" * 30},
            ):
                with case(f"{question}: {env}"):
                    other = run(question[0], ledger, *question[1:], *at, env=env)
                    assert other[0] == plain[0] and (other[1] == plain[1] or "COLUMNS" in env), other


def test_standard_files_that_are_closed():
    with folder() as work:
        ledger = made(work)
        for closed in ("<&-", "2>&-", "<&- 2>&-"):
            code, out, _ = run("stock", ledger, shell=f'exec "$@" {closed}')
            assert code == 0 and "main" in out, (closed, out)
        before = bytes_of(ledger)
        for closed in (">&-", "<&- >&-"):
            one_line(run("stock", ledger, shell=f'exec "$@" {closed}'), 3, "standard output")
        code, _, _ = run("stock", ledger, shell='exec "$@" <&- >&- 2>&-')
        assert code == 3
        code, _, errors = run("post", ledger, "-", shell='exec "$@" <&-')
        assert code in (2, 3) and len(errors.splitlines()) == 1, errors
        unchanged(work, ledger, before)


def test_an_output_that_takes_nothing():
    with folder() as work, open("/dev/full", "wb") as full:
        ledger = made(work)
        before = bytes_of(ledger)
        for question in QUESTIONS:
            one_line(run(question[0], ledger, *question[1:], stdout=full), 3, "standard output")
        one_line(run("--help", stdout=full), 3, "standard output")
        unchanged(work, ledger, before)
        # whoever cannot be shown the numbers must know whether the entries are in, since a give told twice is two
        result = run("post", ledger, "-", text=CHECK, stdout=full)
        entries = len(run("export", ledger)[1].splitlines())
        line = one_line(result, 3, "standard output")
        if entries == 8:
            said = any(word in line for word in ("posted", "recorded", "entry 8", "in the ledger"))
            assert said, f"the batch is in, and that is not said: {line}"
        else:
            assert bytes_of(ledger) == before


def test_names_that_are_no_ledger():
    with folder() as work:
        os.mkfifo(work / "fifo")
        os.mkdir(work / "folder")
        os.symlink("loop", work / "loop")
        os.symlink("nothing", work / "dangling")
        (work / "empty").write_bytes(b"")
        (work / "text").write_text("hello\n" * 100)
        names = ["fifo", "folder", "loop", "dangling", "empty", "text", "missing", "missing/ledger", "text/ledger"]
        names += ["x" * 300, "", "/dev/null", "/dev/zero", "/dev/full", "/dev/stdin", "/", ".", "/proc/self/mem"]
        for name in names:
            path = name if name.startswith("/") or not name else str(work / name)
            for question in ("stock", "verify"):
                with case(f"{question} {name[:40]}"):
                    line = one_line(run(question, path, cwd=work), (2, 3))
                    assert len(line) < 1000, line
            if name not in ("missing", "dangling"):
                with case(f"post {name[:40]}"):
                    one_line(run("post", path, "-", text=SITE, cwd=work), (2, 3))
        assert (work / "text").read_text() == "hello\n" * 100 and (work / "empty").read_bytes() == b""
        # a link that leads nowhere: the ledger it leads to, or a line; never half of one
        code, _, errors = run("post", str(work / "dangling"), "-", text=SITE)
        if code != 0:
            one_line((code, "", errors), (2, 3))
        else:
            assert run("verify", str(work / "dangling"))[0] == 0


def test_a_ledger_by_any_name():
    with folder() as work:
        names = [b"caf\xe9.ledger", b":memory:", b"file:x.ledger?mode=memory", b"file:y", b"a?b=c", b"% 41", b"-"]
        names += [b"a b\nc", b"'; --", "日本".encode()]
        for name in names:
            given = os.fsdecode(name)
            argument = given if name != b"-" else "./-"
            with case(name):
                code, _, errors = run("post", argument, "-", text=SITE, cwd=work)
                assert code == 0, errors
                assert (work / given).is_file() and (work / given).stat().st_size > 4096, "no file of this name"
                code, _, errors = run("post", argument, "-", text=CHECK, cwd=work)
                assert code == 0, errors
                assert run("verify", argument, cwd=work)[0] == 0
                assert len(run("export", argument, cwd=work)[1].splitlines()) == 8
        left = {os.fsencode(f.name) for f in work.iterdir()}
        assert len(left) == 10, f"others were made: {left}"


def test_a_ledger_behind_links():
    with folder() as work:
        (work / "real").mkdir()
        made(work / "real")
        os.symlink("real/ledger", work / "link")
        os.symlink("link", work / "further")
        for name in ("link", "further"):
            code, _, errors = run("post", str(work / name), "-", text=CHECK)
            assert code == 0, errors
        assert (work / "link").is_symlink() and len(run("export", str(work / "real" / "ledger"))[1].splitlines()) == 9
        assert sorted(f.name for f in work.iterdir()) == ["further", "link", "real"]


def test_files_that_are_no_logger_files():
    with folder() as work:
        ledger = made(work)
        before = bytes_of(ledger)
        os.mkdir(work / "folder")
        os.symlink("loop", work / "loop")
        (work / "empty").write_bytes(b"")
        (work / "zeros").write_bytes(bytes(100_000))
        for name in ("folder", "loop", "empty", "zeros", "missing", "/proc/self/mem", os.fsdecode(b"\xff\xfe")):
            path = name if name.startswith("/") else str(work / name)
            for words in (["import", ledger, "--probe", "k", "--by", "ab", path], ["post", ledger, path]):
                with case(f"{words[0]} {name!r}"):
                    line = one_line(run(*words), (2, 3))
                    assert len(line) < 2000, line
        (work / os.fsdecode(b"caf\xe9.csv")).write_text(LOGGER)
        code, _, errors = run("import", ledger, "--probe", "k", "--by", "ab", str(work / os.fsdecode(b"caf\xe9.csv")))
        if code != 0:
            one_line((code, "", errors), 2)
            unchanged(work, ledger, before)
        # a pipe that somebody writes into is a file like any other
        os.mkfifo(work / "pipe.csv")
        with subprocess.Popen(["/bin/sh", "-c", 'printf "%s" "$1" > "$2"', "sh", LOGGER, str(work / "pipe.csv")]):
            code, _, errors = run("import", ledger, "--probe", "k", "--by", "ab", str(work / "pipe.csv"))
        assert code == 0, errors
        assert run("verify", ledger)[0] == 0


def on_full_disks(work, attempt):
    """Calls `attempt` with limits on the size of a file, from one that nothing fits in to one that all fits in."""
    refused = 0
    for limit in [0, 512, 4096, 20_000, 50_000, 90_000, 130_000, 200_000, 300_000, 500_000]:
        refused += attempt(limit)
    assert 1 <= refused, "no limit was too small"


def test_a_full_disk():
    big = "".join(CHECK.replace("00:00:00Z", f"{i // 3600:02}:{i // 60 % 60:02}:{i % 60:02}Z") for i in range(900))

    def taken_back(work, ledger, before):
        # a limit below the file's own size keeps also what was written from being taken back: who opens it next does
        # that
        assert run("verify", ledger)[0] == 0
        unchanged(work, ledger, before)

    with folder() as work:

        def post(limit):
            ledger = made(work, f"post-{limit}")
            before = bytes_of(ledger)
            result = run("post", ledger, "-", text=big, limit=limit)
            if result[0] == 0:
                return 0
            one_line(result, 3)
            taken_back(work, ledger, before)
            return 1

        def create(limit):
            ledger = work / f"new-{limit}"
            result = run("post", str(ledger), "-", text=SITE + big, limit=limit)
            if result[0] == 0:
                return 0
            one_line(result, 3)
            left = [f.name for f in work.iterdir() if f.name.startswith(f"new-{limit}")]
            assert not left, f"left behind: {left}"
            return 1

        def bring_in(limit):
            ledger = made(work, f"import-{limit}")
            before = bytes_of(ledger)
            (work / "k.csv").write_text(LOGGER)
            result = run("import", ledger, "--probe", "k", "--by", "ab", str(work / "k.csv"), limit=limit)
            if result[0] == 0:
                return 0
            one_line(result, 3)
            taken_back(work, ledger, before)
            return 1

        for attempt in (post, create, bring_in):
            with case(attempt.__name__):
                on_full_disks(work, attempt)


def test_a_full_file_system():
    """The same on a small file system of its own, where we may mount one; elsewhere the limits stand for it."""
    apart = ["unshare", "--mount", "--propagation", "private"]
    if os.getuid() != 0 or subprocess.run([*apart, "true"], capture_output=True).returncode != 0:
        return
    big = "".join(CHECK.replace("00:00:00Z", f"{i // 3600:02}:{i // 60 % 60:02}:{i % 60:02}Z") for i in range(2000))
    with folder() as work:
        (work / "site.jsonl").write_text(SITE)
        (work / "big.jsonl").write_text(big)
        script = f"""
            mount -t tmpfs -o size=400k none "$1" && cd "$1" || exit 99
            "$0" post ledger ../site.jsonl >/dev/null || exit 98
            sha256sum ledger >../before
            "$0" post ledger ../big.jsonl >/dev/null 2>../said; echo $? >../status
            sha256sum ledger >../after; ls >../left; "$0" verify ledger >../verify
            dd if=/dev/zero of=filler bs=4k 2>/dev/null
            "$0" post fresh ../site.jsonl >/dev/null 2>../said-new; echo $? >../status-new; ls >../left-new
            "$0" stock ledger >../stock 2>&1; echo $? >../status-stock"""
        (work / "small").mkdir()
        words = [*apart, "/bin/sh", "-c", script, COLDTALLY, str(work / "small")]
        p = subprocess.run(words, capture_output=True, text=True, timeout=60)
        assert p.returncode == 0, p
        said = lambda name: (work / name).read_text()
        one_line((int(said("status")), "", said("said")), 3, ("full", "space", "disk"))
        assert said("before") == said("after") and "as it was posted" in said("verify").lower(), said("verify")
        assert said("left").split() == ["ledger"], said("left")
        one_line((int(said("status-new")), "", said("said-new")), 3, ("full", "space", "disk"))
        assert sorted(said("left-new").split()) == ["filler", "ledger"], said("left-new")
        assert said("status-stock") == "0\n", said("stock")


def test_a_lock_is_waited_for_and_then_said():
    with folder() as work:
        ledger = made(work)
        before = bytes_of(ledger)
        for begin in ("BEGIN IMMEDIATE", "BEGIN EXCLUSIVE"):
            other = sqlite3.connect(ledger, isolation_level=None)
            other.execute(begin)
            start = time.monotonic()
            line = one_line(run("post", ledger, "-", text=CHECK), 3)
            assert 5 < time.monotonic() - start < 20, f"waited {time.monotonic() - start} s"
            assert "another" in line, line
            other.execute("ROLLBACK")
            other.close()
        unchanged(work, ledger, before)


LAID_OVER = {
    "test_a_clock_set_back_stops_no_work",
    "test_a_clock_after_all_that_a_ledger_can_say_writes_nothing",
    "test_a_clock_before_1970",
    "test_the_last_and_first_instant_of_a_ledger",
    "test_without_zone_data",
}
tests = [(name, f) for name, f in globals().items() if name.startswith("test_")]
tests = [(name, f) for name, f in tests if ELSEWHERE or name not in LAID_OVER]
failed = 0
for name, test in tests:
    if sys.argv[3:] and name not in sys.argv[3:]:
        continue
    said_wrong.clear()
    with case("all"):
        test()
    failed += bool(said_wrong)
    for wrong in said_wrong:
        print(f"{name}: {wrong}")
print(f"{len(tests) - failed} passed, {failed} failed")
sys.exit(1 if failed else 0)
