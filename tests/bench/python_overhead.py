"""python_overhead.py CALLS DEMO_LEDGER WORK_DIR: what the way through Python costs, as ratios of one run; nothing timed decides a test.

CALLS is the program bench_python_calls, DEMO_LEDGER that of examples/run.sh. Runs of both sides are taken in turns. `lists()` is also
timed with everything read that a caller may read, which C++ hands out in the call. Bounds aimed at: 1.2 and 1.3.
"""
import datetime
import gc
import pathlib
import shutil
import statistics
import subprocess
import sys
import time

import numpy

import coldtally

AT = "2026-05-29T22:00:00Z"
NOW = datetime.datetime(2199, 1, 1, tzinfo=datetime.timezone.utc)
FIRST = 1735689600  # 2025-01-01T00:00:00Z


def calls(program, *words):
    return [float(s) for s in subprocess.run([program, *map(str, words)], check=True, capture_output=True, text=True).stdout.split()]


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
    c, p, w = map(statistics.median, (cpp, python, whole))
    print(f"lists(): C++ {c * 1e3:.3g} ms; Python {p / c:.3g} times that; with every value read {w / c:.3g} times")


def bulk(program, work, rows=500_000, turns=7):
    empty = work / "empty.ledger"
    empty.unlink(missing_ok=True)
    with coldtally.Ledger(empty) as ledger:
        ledger.post([{"kind": "site", "by": "ab", "name": "bench", "zone": "UTC"}, {"kind": "probe", "by": "ab", "probe": "p1", "scale": "C"}])
    at = (FIRST + 60 * numpy.arange(rows)).astype("M8[s]")
    values = (4000 + numpy.arange(rows) * 7 % 900).astype("int32")
    cpp, python = [], []
    for _ in range(turns):
        one, other = work / "cpp.ledger", work / "python.ledger"
        shutil.copy(empty, one)
        shutil.copy(empty, other)
        cpp += calls(program, "import", one, rows, FIRST)
        with coldtally.Ledger(other, mode="write") as ledger:
            ledger.post_readings("p1", "C", at, values, by="ab", now=NOW, dry_run=True)
            gc.collect()
            python.append(timed(lambda: ledger.post_readings("p1", "C", at, values, by="ab", now=NOW)))
    with coldtally.Ledger(one, mode="read") as a, coldtally.Ledger(other, mode="read") as b:
        there = b.readings("p1", "2025-01-01T00:00:00Z", NOW, now=NOW)
        assert (there.instants == at).all() and (there.thousandths == values).all()
        assert a.verify() == b.verify()  # the same entries, byte for byte
    c, p = statistics.median(cpp), statistics.median(python)
    print(f"{rows} rows from arrays: C++ {c * 1e3:.3g} ms; Python {p / c:.3g} times that")


if __name__ == "__main__":
    work = pathlib.Path(sys.argv[3])
    work.mkdir(parents=True, exist_ok=True)
    lists(sys.argv[1], sys.argv[2])
    bulk(sys.argv[1], work)
