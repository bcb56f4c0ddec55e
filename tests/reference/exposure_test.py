"""Exposure, means and excursions of random traces against SciPy and NumPy (root finding, quadrature, the trapezoid
rule), to the accuracy of doubles; and the same sums worked with Python's fractions, to the last digit."""
import datetime
import pathlib
import random
import sys
from fractions import Fraction as F

import numpy
import scipy
from scipy import integrate, optimize

sys.path.insert(0, str(pathlib.Path(__file__).parent))
from common import Checks, Cli, beyond, celsius

SCIPY = f"SciPy {scipy.__version__} (brentq, quad)"
NUMPY = f"NumPy {numpy.__version__}"
FRACTIONS = "Python fractions"
START = 1577836800  # 2020-01-01T00:00:00Z
MAX_GAP = 3600
RANGE = {"low": {"C": "2", "F": "36"}, "high": {"C": "8", "F": "46"}}
LIMITS = {"C": (F(2), F(8), F(0)), "F": (F(36), F(46), F(32))}


def text(t):
    return datetime.datetime.fromtimestamp(t, datetime.timezone.utc).strftime("%Y-%m-%dT%H:%M:%SZ")


def decimal(thousandths):
    return f"{'-' if thousandths < 0 else ''}{abs(thousandths) // 1000}.{abs(thousandths) % 1000:03}"


def random_rows(rng, scale):
    """A walk through the range and out of it on both sides; some steps are gaps, some readings lie on a limit."""
    t, value, rows = START, rng.randrange(3000, 7000), []
    for _ in range(rng.randrange(20, 160)):
        shown = rng.choice((2000, 8000, 0)) if rng.random() < 0.05 else value
        rows.append((t, shown if scale == "C" else round(shown * 9 / 5) + 32000))
        t += rng.choice((60, 300, 300, 900, 1234, 3600)) if rng.random() < 0.95 else rng.randrange(3601, 20000)
        value = max(-4000, min(14000, value + rng.randrange(-1500, 1501)))
    return rows


def numerically(sign, limit, line):
    """The same by a root finder and a quadrature that know nothing of straight lines."""
    t0, v0, t1, v1 = line
    # from the line's own beginning: at 1.6e9 s a double has no more than 2e-7 s
    at = lambda t: sign * (numpy.interp(t, (0.0, float(t1 - t0)), (float(v0), float(v1))) - float(limit))
    ends = at(0.0), at(float(t1 - t0))
    if max(ends) <= 0:
        return 0.0, 0.0
    low, high = 0.0, float(t1 - t0)
    if min(ends) < 0:
        root = optimize.brentq(at, low, high, xtol=1e-12, rtol=1e-15)
        low, high = (root, high) if ends[1] > 0 else (low, root)
    return high - low, integrate.quad(at, low, high, epsabs=1e-13, epsrel=1e-13)[0]


def answers(program, scale, rows, tolerance):
    """History, conditions and excursions of one dose that is in the place all of the time."""
    A = rows[-1][0]
    with Cli(program) as cli:
        cli.post(
            [
                {"kind": "site", "name": "Reference", "zone": "UTC", "stale_after_s": 0},
                {
                    "kind": "place",
                    "place": "unit",
                    "name": "Unit",
                    "type": "refrigerator",
                    "range": RANGE,
                    "max_gap_s": MAX_GAP,
                    "near_s": 0,
                },
                {"kind": "probe", "probe": "p", "scale": scale},
                {
                    "kind": "certificate",
                    "at": text(START - 60),
                    "probe": "p",
                    "expires": "2030-01-01",
                    "tolerance": decimal(tolerance),
                },
                {"kind": "assign", "at": text(START - 60), "probe": "p", "place": "unit"},
                {"kind": "product", "product": "v", "name": "V", "range": RANGE, "freeze_limit": {"C": "0", "F": "32"}},
                {"kind": "lot", "product": "v", "lot": "1", "expiry": "2030-01"},
                {"kind": "receive", "at": text(START), "place": "unit", "product": "v", "lot": "1", "doses": 1},
                {"kind": "readings", "probe": "p", "scale": scale, "rows": [[text(t), decimal(v)] for t, v in rows]},
            ]
        )
        history = cli.ask("lists", "--at", text(A))["holdings"][0]["history"]
        window = ("unit", "--from", text(START), "--until", text(A), "--at", text(A))
        conditions = cli.ask("conditions", *window)
        excursions = cli.ask("excursions", *window)["excursions"]
    return history, conditions, excursions


def compare_side(checks, case, got, lines, scale, tolerance, side, sign, limit):
    per_degree = F(1) if scale == "C" else F(5, 9)
    U = F(tolerance, 1000)
    exact = [beyond(sign, limit, line) for line in lines]
    if side == "frozen":  # at the limit is frozen: a level line on it counts, and adds no degrees
        exact = [(F(l[2] - l[0]), F(0)) if l[1] == l[3] == limit else e for l, e in zip(lines, exact)]
    seconds, degrees = sum(e[0] for e in exact), sum(e[1] for e in exact) * per_degree
    inside = lambda v, bound: sign * (v - bound) > 0 or (side == "frozen" and v == bound)
    least = sum(l[2] - l[0] for l in lines if inside(l[1], limit + sign * U) and inside(l[3], limit + sign * U))
    most = sum(l[2] - l[0] for l in lines if inside(l[1], limit - sign * U) or inside(l[3], limit - sign * U))
    where = f"case {case}, {side}"
    checks.equal("seconds out of range, exact", FRACTIONS, F(got["estimate_s"]), seconds, where)
    checks.equal("degree-seconds, exact", FRACTIONS, F(got["degree_Cs"]), degrees, where)
    checks.equal(
        "seconds out of range, at least and at most",
        FRACTIONS,
        (F(got["at_least_s"]), F(got["at_most_s"])),
        (least, most),
        where,
    )
    estimated = [numerically(sign, limit, line) for line in lines]
    level = sum(l[2] - l[0] for l in lines if side == "frozen" and l[1] == l[3] == limit)
    checks.near(
        "seconds out of range", SCIPY, F(got["estimate_s"]), sum(e[0] for e in estimated) + level, where, relative=1e-10
    )
    checks.near(
        "degree-seconds",
        SCIPY,
        F(got["degree_Cs"]),
        sum(e[1] for e in estimated) * float(per_degree),
        where,
        relative=1e-10,
    )


def compare_conditions(checks, case, conditions, lines, scale, elapsed):
    logged = sum(l[2] - l[0] for l in lines)
    coverage = conditions["coverage"]
    checks.equal(
        "seconds logged and unmonitored",
        FRACTIONS,
        (F(coverage["logged_s"]), F(coverage["unmonitored_s"])),
        (F(logged), F(elapsed - logged)),
        case,
    )
    if lines:
        in_C = [(t0, celsius(a, scale), t1, celsius(b, scale)) for t0, a, t1, b in lines]
        mean = sum((t1 - t0) * (a + b) / 2 for t0, a, t1, b in in_C) / logged
        checks.equal("mean temperature, exact", FRACTIONS, F(conditions["mean_C"]), mean, case)
        integral = sum(numpy.trapz([float(a), float(b)], [0.0, float(t1 - t0)]) for t0, a, t1, b in in_C)
        checks.near("mean temperature", NUMPY, F(conditions["mean_C"]), integral / logged, case, relative=1e-12)
        power = lambda c: numpy.exp(-10000 / (float(c) + 273.15))
        weighted = sum(numpy.trapz([power(a), power(b)], [0.0, float(t1 - t0)]) for t0, a, t1, b in in_C)
        # the answer has six places; a double of 280 K has 5e-14
        checks.near(
            "mean kinetic temperature (six places)",
            NUMPY,
            F(conditions["mean_kinetic_C"]),
            10000 / -numpy.log(weighted / logged) - 273.15,
            case,
            absolute=5.01e-7,
        )


def compare_excursions(checks, case, excursions, history):
    """Those that are a stretch of line: of a side their times add up to the history's."""
    for side in ("warm", "cold"):
        found = [e for e in excursions if e["side"] == side and e["kind"] == "line"]
        checks.equal(
            "excursions add up to the exposure",
            FRACTIONS,
            (sum((F(e["duration_s"]) for e in found), F(0)), sum((F(e["degree_Cs"]) for e in found), F(0))),
            (F(history[side]["estimate_s"]), F(history[side]["degree_Cs"])),
            f"case {case}, {side}",
        )
        for e in found:
            checks.equal(
                "an excursion's length is its end less its start",
                FRACTIONS,
                F(e["until_s"]) - F(e["from_s"]),
                F(e["duration_s"]),
                case,
            )


def one(rng, program, checks, case):
    scale = rng.choice("CF")
    rows = random_rows(rng, scale)
    tolerance = rng.choice((0, 0, 200, 500))
    history, conditions, excursions = answers(program, scale, rows, tolerance)
    exact_rows = [(t, F(v, 1000)) for t, v in rows]
    lines = [(*a, *b) for a, b in zip(exact_rows, exact_rows[1:]) if b[0] - a[0] <= MAX_GAP]
    low, high, freeze = LIMITS[scale]
    for side, sign, limit in (("warm", 1, high), ("cold", -1, low), ("frozen", -1, freeze)):
        compare_side(checks, case, history[side], lines, scale, tolerance, side, sign, limit)
    compare_conditions(checks, case, conditions, lines, scale, rows[-1][0] - START)
    compare_excursions(checks, case, excursions, history)


def main():
    rng = random.Random(4)
    checks = Checks("exposure")
    for case in range(120):
        one(rng, sys.argv[1], checks, case)
    checks.done(2000)


main()
