"""python_overhead.py CALLS DEMO_LEDGER WORK_DIR [--page FILE]: what the way through Python costs, as ratios of one run;
nothing timed decides a test.

CALLS is the program bench_python_calls, DEMO_LEDGER that of examples/run.sh. Runs of both sides are taken in turns, and
of each the fastest counts: what else the machine does can only add. `lists()` is also timed with everything read that a
caller may read, which C++ hands out in the call. `--page` puts the figures into a section of the page.
"""
import argparse
import datetime
import gc
import pathlib
import shutil
import subprocess
import time

import numpy

import coldtally

AT = "2026-05-29T22:00:00Z"
NOW = datetime.datetime(2199, 1, 1, tzinfo=datetime.timezone.utc)
FIRST = 1735689600  # 2025-01-01T00:00:00Z


def calls(program, *words):
    return [
        float(s)
        for s in subprocess.run([program, *map(str, words)], check=True, capture_output=True, text=True).stdout.split()
    ]


def timed(step):
    start = time.perf_counter()
    step()
    return time.perf_counter() - start


def read_all(answer):
    for h in answer.holdings:
        for side in (h.history.warm, h.history.cold, h.history.frozen):
            _ = side.at_least_s, side.estimate_s, side.at_most_s, side.degree_Cs, side.open_s
        _ = h.reasons, h.notes, h.expiry, h.history.coverage.logged_s, h.history.lowest_C, h.history.highest_C


def lists(program, path, runs=40, turns=5):
    cpp, python, whole = [], [], []
    for _ in range(turns):
        cpp += calls(program, "lists", path, AT, runs)
        with coldtally.Ledger(path, mode="read") as ledger:
            ask = lambda: ledger.lists(at=AT, now=NOW)
            ask()
            python += [timed(ask) for _ in range(runs)]
            whole += [timed(lambda: read_all(ask())) for _ in range(runs)]
    c, p, w = map(min, (cpp, python, whole))
    return [("lists() of the example ledger: Python / C++", p / c, 1.2), ("the same, every value read", w / c, None)]


def bulk(program, work, rows=500_000, turns=7):
    empty = work / "empty.ledger"
    empty.unlink(missing_ok=True)
    with coldtally.Ledger(empty) as ledger:
        ledger.post(
            [
                {"kind": "site", "by": "ab", "name": "bench", "zone": "UTC"},
                {"kind": "probe", "by": "ab", "probe": "p1", "scale": "C"},
            ]
        )
    at = (FIRST + 60 * numpy.arange(rows)).astype("M8[s]")
    values = (4000 + numpy.arange(rows) * 7 % 900).astype("int32")
    cpp, python = [], []
    for _ in range(turns):
        one, other = work / "cpp.ledger", work / "python.ledger"
        shutil.copy(empty, one)
        shutil.copy(empty, other)
        cpp += calls(program, "import", one, rows, FIRST)
        with coldtally.Ledger(other, mode="write") as ledger:
            ledger.post_readings("p1", "C", at, thousandths=values, zone="UTC", by="ab", now=NOW, dry_run=True)
            gc.collect()
            python.append(
                timed(lambda: ledger.post_readings("p1", "C", at, thousandths=values, zone="UTC", by="ab", now=NOW))
            )
    with coldtally.Ledger(one, mode="read") as a, coldtally.Ledger(other, mode="read") as b:
        there = b.readings("p1", "2025-01-01T00:00:00Z", NOW, now=NOW)
        assert (there.instants == at).all() and (there.thousandths == values).all()
        assert a.verify() == b.verify()  # the same entries, byte for byte
    c, p = min(cpp), min(python)
    return [(f"{rows:,} readings from arrays: Python / C++", p / c, 1.3)]


def write_section(page, rows):
    head, _, after = page.read_text().partition(f"\n{TITLE}\n")
    after = after.partition("\n## ")
    table = "".join(
        f"| {what} | {ratio:.2f} | {f'at most {bound}' if bound else ''} | "
        f"{'' if bound is None else 'yes' if ratio <= bound else 'NO'} |\n"
        for what, ratio, bound in rows
    )
    page.write_text(
        f"{head}\n{TITLE}\n\nMade by `tests/bench/python_overhead.py`: the fastest of runs taken in turns, "
        "on both sides: what else the machine does can only add.\n\n"
        f"| what | measured | wanted | holds |\n|---|---|---|---|\n{table}{after[1]}{after[2]}"
    )


TITLE = "## The way through Python"

if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    for name in ("calls", "demo", "work"):
        parser.add_argument(name)
    parser.add_argument("--page", type=pathlib.Path)
    a = parser.parse_args()
    work = pathlib.Path(a.work)
    work.mkdir(parents=True, exist_ok=True)
    rows = lists(a.calls, a.demo) + bulk(a.calls, work)
    for what, ratio, bound in rows:
        print(f"{what}: {ratio:.3g}" + (f" (wanted: at most {bound})" if bound else ""))
    if a.page:
        write_section(a.page, rows)
