"""Open temperature series through import, conditions, excursions and lists, against a reading of the same files that
shares no code with the library: the csv module, datetime, fractions and NumPy."""
import csv
import datetime
import pathlib
import sys
from fractions import Fraction as F

import numpy

here = pathlib.Path(__file__).parent
sys.path.insert(0, str(here))
from common import Checks, Cli, beyond, celsius

AGAINST = "Python csv and fractions"
MAX_GAP = 3600


def text(t):
    return datetime.datetime.fromtimestamp(t, datetime.timezone.utc).strftime("%Y-%m-%dT%H:%M:%SZ")


def excursions_of(rows, low, high):
    """[side, kind, from, until, degree-seconds, extreme] in the series' own scale."""
    lines = [(*a, *b) for a, b in zip(rows, rows[1:]) if b[0] - a[0] <= MAX_GAP]
    out = []
    for side, sign, limit in (("warm", 1, high), ("cold", -1, low)):
        found = []
        for line in lines:
            t0, v0, t1, v1 = line
            time, degrees = beyond(sign, limit, line)
            if not time:
                continue
            rising = sign * (v1 - v0) > 0
            begins, ends = (F(t1) - time, F(t1)) if rising else (F(t0), F(t0) + time)
            worst = max(sign * v0, sign * v1) * sign
            if found and found[-1][1] == begins:
                found[-1][1] = ends
                found[-1][2] += degrees
                found[-1][3] = sign * max(sign * found[-1][3], sign * worst)
            else:
                found.append([begins, ends, degrees, worst])
        out += [(side, "line", *f) for f in found]
        for t, v in rows:
            if sign * (v - limit) > 0 and not any(f[0] <= t <= f[1] for f in found):
                out.append((side, "point", F(t), F(t), F(0), v))
    return sorted(out, key=lambda e: (e[2], e[0], e[1]))


def answers(program, path, rows, scale, low, high, layout):
    """What importing said, and conditions, excursions and history of a dose that is there all of the time."""
    start, A = rows[0][0], rows[-1][0]
    limits = {"low": {scale: str(low)}, "high": {scale: str(high)}}
    with Cli(program) as cli:
        cli.post(
            [
                {"kind": "site", "name": "Open data", "zone": "America/Los_Angeles", "stale_after_s": 0},
                {
                    "kind": "place",
                    "place": "air",
                    "name": "Air",
                    "type": "room",
                    "range": limits,
                    "max_gap_s": MAX_GAP,
                    "near_s": 0,
                },
                {"kind": "probe", "probe": "p", "scale": scale},
                {"kind": "assign", "at": text(start), "probe": "p", "place": "air"},
                {"kind": "product", "product": "v", "name": "V", "range": limits},
                {"kind": "lot", "product": "v", "lot": "1", "expiry": "2030-01"},
                {"kind": "receive", "at": text(start), "place": "air", "product": "v", "lot": "1", "doses": 1},
            ]
        )
        report = cli.run("import", str(path), "--probe", "p", "--by", "OD", "--format", "json", *layout)
        window = ("air", "--from", text(start), "--until", text(A), "--at", text(A))
        conditions, got = cli.ask("conditions", *window), cli.ask("excursions", *window)["excursions"]
        history = cli.ask("lists", "--at", text(A))["holdings"][0]["history"]
    return report, conditions, got, history


def compare_excursions(checks, name, got, expected, scale):
    per_degree = F(1) if scale == "C" else F(5, 9)
    checks.equal("excursions", AGAINST, len(got), len(expected), name)
    for g, e in zip(got, expected):
        checks.equal(
            "excursions: side, from, until, degree-seconds, peak",
            AGAINST,
            (g["side"], g["kind"], F(g["from_s"]), F(g["until_s"]), F(g["degree_Cs"]), F(g["peak_C"])),
            (e[0], e[1], e[2], e[3], e[4] * per_degree, celsius(e[5], scale)),
            f"{name}, {e}",
        )


def compare_conditions(checks, name, conditions, rows, lines, scale):
    logged = sum(l[2] - l[0] for l in lines)
    coverage = conditions["coverage"]
    checks.equal(
        "seconds logged and, in the gaps, unmonitored",
        AGAINST,
        (F(coverage["logged_s"]), F(coverage["unmonitored_s"])),
        (F(logged), F(rows[-1][0] - rows[0][0] - logged)),
        name,
    )
    checks.equal(
        "lowest and highest",
        AGAINST,
        (F(conditions["lowest_C"]), F(conditions["highest_C"])),
        (celsius(min(v for _, v in rows), scale), celsius(max(v for _, v in rows), scale)),
        name,
    )
    mean = sum((l[2] - l[0]) * (celsius(l[1], scale) + celsius(l[3], scale)) / 2 for l in lines) / logged
    checks.equal("mean temperature", AGAINST, F(conditions["mean_C"]), mean, name)
    power = numpy.array(
        [[numpy.exp(-10000 / (float(celsius(v, scale)) + 273.15)) for v in (l[1], l[3])] for l in lines]
    )
    weights = numpy.array([l[2] - l[0] for l in lines], dtype=float)
    kinetic = 10000 / -numpy.log(numpy.average(power.mean(axis=1), weights=weights)) - 273.15
    checks.near(
        "mean kinetic temperature (six places)",
        f"NumPy {numpy.__version__}",
        F(conditions["mean_kinetic_C"]),
        kinetic,
        name,
        absolute=5.01e-7,
    )


def hourly(program, checks, name, scale, low, high, read_instant, layout):
    path = here / "opendata" / name
    with open(path, newline="") as file:
        table = list(csv.reader(file))[1:]
    rows = [(read_instant(t), F(v)) for t, v in table]
    report, conditions, got, history = answers(program, path, rows, scale, low, high, layout)
    checks.equal("rows read", AGAINST, f'"rows_read":{len(rows)}' in report.replace(" ", ""), True, name)

    expected = excursions_of(rows, low, high)
    compare_excursions(checks, name, got, expected, scale)
    lines = [(*a, *b) for a, b in zip(rows, rows[1:]) if b[0] - a[0] <= MAX_GAP]
    compare_conditions(checks, name, conditions, rows, lines, scale)
    for side, sign, limit in (("warm", 1, high), ("cold", -1, low)):
        checks.equal(
            "exposure of the doses inside",
            AGAINST,
            F(history[side]["estimate_s"]),
            sum(beyond(sign, limit, l)[0] for l in lines),
            f"{name}, {side}",
        )
        if not any(e[0] == side for e in expected):
            sys.exit(f"{name}: nothing {side}: the range tests nothing")


def daily(program, checks):
    """A day's minimum and maximum become the midnight check's."""
    low, high = F(0), F(20)
    with open(here / "opendata" / "seattle-daily.csv", newline="") as file:
        days = [
            (datetime.date.fromisoformat(d), F(highest), F(lowest)) for d, highest, lowest in list(csv.reader(file))[1:]
        ]
    midnight = lambda d: int(datetime.datetime(d.year, d.month, d.day, 8, tzinfo=datetime.timezone.utc).timestamp())
    one_day = datetime.timedelta(days=1)
    start, A = midnight(days[0][0]), midnight(days[-1][0] + one_day)
    decimal = lambda v: str(float(v))
    limits = {"low": {"C": str(low)}, "high": {"C": str(high)}}
    with Cli(program) as cli:
        cli.post(
            [
                {"kind": "site", "name": "Open data", "zone": "UTC", "stale_after_s": 0},
                {"kind": "place", "place": "air", "name": "Air", "type": "room", "range": limits},
                {"kind": "check", "at": text(start), "place": "air", "scale": "C", "temperature": decimal(days[0][2])},
            ]
            + [
                {
                    "kind": "check",
                    "at": text(midnight(d + one_day)),
                    "place": "air",
                    "scale": "C",
                    "temperature": decimal(lowest),
                    "min": decimal(lowest),
                    "max": decimal(highest),
                }
                for d, highest, lowest in days
            ]
        )
        window = ("air", "--from", text(start), "--until", text(A), "--at", text(A))
        conditions, got = cli.ask("conditions", *window), cli.ask("excursions", *window)["excursions"]
    name = "seattle-daily.csv"
    checks.equal("bounded seconds", AGAINST, F(conditions["coverage"]["bounded_s"]), F(86400 * len(days)), name)
    checks.equal(
        "lowest and highest",
        AGAINST,
        (F(conditions["lowest_C"]), F(conditions["highest_C"])),
        (min(d[2] for d in days), max(d[1] for d in days)),
        name,
    )
    bounded = [
        (e["side"], F(e["from_s"]), F(e["duration_s"]), F(e["degree_Cs"]), F(e["peak_C"]))
        for e in got
        if e["kind"] == "bounded"
    ]
    expected = []
    for d, highest, lowest in days:
        if lowest < low:
            expected.append(("cold", F(midnight(d)), F(86400), (low - lowest) * 86400, lowest))
        if highest > high:
            expected.append(("warm", F(midnight(d)), F(86400), (highest - high) * 86400, highest))
    checks.equal("excursions", AGAINST, len(bounded), len(expected), name)
    for g, e in zip(bounded, expected):
        checks.equal("excursions of checks with minimum and maximum", AGAINST, g, e, name)
    # what else is found is a check of itself out of range
    if any(e["kind"] != "point" for e in got if e["kind"] != "bounded"):
        sys.exit(f"{name}: a line between checks that have minimum and maximum")


def main():
    checks = Checks("opendata")
    program = sys.argv[1]
    standard = datetime.timezone(datetime.timedelta(hours=-8))
    hourly(
        program,
        checks,
        "seattle-hourly-normals.csv",
        "C",
        F(5),
        F(10),
        lambda t: int(datetime.datetime.fromisoformat(t).replace(tzinfo=standard).timestamp()),
        (
            "--columns",
            "instant=1,temperature=2",
            "--instant-pattern",
            "%Y-%m-%dT%H:%M:%S",
            "--offset=-08:00",
            "--delimiter",
            "comma",
            "--decimal",
            "point",
            "--skip-lines",
            "1",
            "--scale",
            "C",
        ),
    )
    hourly(
        program,
        checks,
        "san-francisco-hourly-normals.csv",
        "F",
        F(54),
        F(62),
        lambda t: int(datetime.datetime.fromisoformat(t).timestamp()),
        (
            "--columns",
            "instant=1,temperature=2",
            "--instant-pattern",
            "%Y-%m-%dT%H:%M:%S%z",
            "--delimiter",
            "comma",
            "--decimal",
            "point",
            "--skip-lines",
            "1",
            "--scale",
            "F",
        ),
    )
    daily(program, checks)
    checks.done(200)


main()
