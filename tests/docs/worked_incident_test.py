"""examples/worked-incident.md: every figure worked on paper there is asked of the program, in the order of the page."""
import datetime
import json
import pathlib
import re
import sys
import zoneinfo
from fractions import Fraction

root = pathlib.Path(sys.argv[2])
sys.path.insert(0, str(root / "tests" / "reference"))
from common import Checks, Cli

ZONE = zoneinfo.ZoneInfo("America/Chicago")
NIGHT = "2025-01-14T"
LATE = NIGHT + "15:00:00"


def clock(text):
    return datetime.datetime.fromisoformat(text.replace("Z", "+00:00")).astimezone(ZONE).strftime("%H:%M:%S")


def after(text, time):
    """Seconds since a time of that morning."""
    return str(
        Fraction(text) - Fraction(datetime.datetime.fromisoformat(NIGHT + time).replace(tzinfo=ZONE).timestamp())
    )


def average(of):
    return str(float(Fraction(of["degree_Cs"]) / Fraction(of["duration_s"])))


def finding(ledger, product):
    return next(d for d in ledger.ask("review", "--all", "--at", LATE)["doses"] if d["product"] == product)


class Figures:
    """What the program answers, in the order of the page."""

    def __init__(self, cli):
        self.cli, self.all = cli, []

    def holding(self, at, place, product):
        return next(
            h
            for h in self.cli.ask("lists", "--at", NIGHT + at)["holdings"]
            if (h["place"], h["product"]) == (place, product)
        )

    def excursion(self, place, start, end):
        return self.cli.ask("excursions", place, "--from", start, "--until", end, "--at", LATE)["excursions"]

    def part(self, start, end):
        return self.excursion("fridge", NIGHT + start, NIGHT + end)[0]

    def mean(self, start, end):
        window = ("--from", NIGHT + start, "--until", NIGHT + end, "--at", LATE)
        return self.cli.ask("conditions", "fridge", *window)["mean_C"]

    def of_the_refrigerator(self):
        (whole,) = self.excursion("fridge", "2025-01-13T16:00:00", NIGHT + "08:00:00")
        last = self.part("06:30:00", "07:00:00")
        self.all += [
            after(whole["from_s"], "02:00:00"),
            clock(whole["from"]),
            after(whole["until_s"], "06:30:00"),
            str(round(Fraction(after(whole["until_s"], "06:30:00")))),
            clock(whole["until"]),
        ]
        self.all += [
            self.part("02:00:00", "02:30:00")["duration_s"],
            self.part("02:30:00", "06:30:00")["duration_s"],
            last["duration_s"],
            whole["duration_s"],
        ]
        self.all += [str(datetime.timedelta(seconds=round(Fraction(whole["duration_s"])))), whole["peak_C"]]
        edges = [f"{NIGHT}{h:02}:{m:02}:00" for h in range(2, 6) for m in (0, 30)][:7]
        for start, end in zip(edges, edges[1:]):
            (half_hour,) = self.excursion("fridge", start, end)
            self.all += [half_hour["duration_s"], average(half_hour), half_hour["degree_Cs"]]
        # all that the doses had when they left: what is in the carrier at that instant
        left = self.holding("05:00:00", "carrier", "demo-fir")["history"]["warm"]
        self.all += [left["estimate_s"], left["degree_Cs"]]
        self.all += [
            self.part(a, b)["degree_Cs"]
            for a, b in (("05:00:00", "05:30:00"), ("05:30:00", "06:00:00"), ("06:00:00", "06:30:00"))
        ]
        inside = next(h["exposure"]["warm"] for h in whole["holdings"] if h["product"] == "demo-fir")
        self.all += [
            last["duration_s"],
            average(last),
            last["degree_Cs"],
            left["degree_Cs"],
            whole["degree_Cs"],
            inside["degree_Cs"],
        ]
        halves = [f"{h:02}:{m:02}:00" for h in range(1, 6) for m in (0, 30)][:9]
        self.all += [str(float(Fraction(self.mean(a, b)))) for a, b in zip(halves, halves[1:])]
        self.all += [self.mean("01:00:00", "05:00:00"), str(float(Fraction(self.mean("01:00:00", "05:00:00"))))]
        self.all += [left["at_least_s"], left["at_most_s"]]

    def of_the_carrier(self):
        (carried,) = self.excursion("carrier", NIGHT + "05:00:00", NIGHT + "05:30:00")
        self.all += [carried["duration_s"], average(carried), carried["degree_Cs"]]
        fir, elm = (self.holding("05:30:00", "annex", p)["history"] for p in ("demo-fir", "demo-elm"))
        self.all += [fir["warm"][k] for k in ("estimate_s", "at_least_s", "at_most_s", "degree_Cs")]
        used = elm["allowances"][0]
        self.all += [
            used["used_s"],
            str(used["seconds"]),
            str(used["seconds"] - Fraction(used["used_s"])),
            fir["beyond"]["warm_s"],
            str(fir["points"]),
        ]
        before = self.holding("05:29:59", "annex", "demo-elm")["history"]["warm"]
        self.all += [
            before["estimate_s"],
            before["degree_Cs"],
            elm["warm"]["estimate_s"],
            elm["lowest_C"],
            elm["highest_C"],
        ]

    def of_lists_and_review(self, without_the_last):
        for at in ("06:00:00", "10:00:00", "12:00:00", "15:00:00"):
            for product in ("demo-elm", "demo-fir"):
                h = self.holding(at, "annex", product)
                self.all += [h["list"], str(h["doses"])]
            if h["reasons"]:
                self.all.append(", ".join(h["reasons"]))
        late = self.holding("15:00:00", "annex", "demo-fir")["history"]["warm"]
        self.all += [late["open_s"], late["estimate_s"]]
        with Cli(sys.argv[1]) as earlier:  # the maker's second answer, the last entry, is not there yet
            earlier.run("post", "-", text="".join(without_the_last))
            pending = finding(earlier, "demo-fir")
        self.all += [
            pending["history"]["warm"]["estimate_s"],
            pending["finding"],
            finding(self.cli, "demo-fir")["finding"],
            finding(self.cli, "demo-elm")["finding"],
        ]


def compare_figures(checks, expected, page):
    figures = re.findall(r"`([^`]+)`", page.split("is compared -->")[1])
    against = ("figures of the worked incident", "examples/worked-incident.md, by hand")
    checks.equal(*against, len(expected), len(figures), "their number")
    for i, (got, figure) in enumerate(zip(expected, figures), 1):
        checks.equal(*against, got, figure, f"figure {i} of the page")


def compare_readings(checks, entries, page):
    """The readings that the page prints are those that were posted."""
    posted = {
        e["probe"]: {row[0][5:16]: row[1] for row in e["rows"]}
        for e in map(json.loads, entries)
        if e["kind"] == "readings"
    }
    for probe, name in (("p1", "refrigerator"), ("p2", "carrier")):
        times, values = re.search(rf"^\| {name} \|(.*)\|\n\|[-|]+\|\n\| °C \|(.*)\|$", page, re.M).groups()
        for time, value in zip(times.split("|"), values.split("|")):
            ends = re.findall(r"\d\d:\d\d", time)
            for end in ends:
                day = "01-13T" if end == "16:00" else "01-14T"
                checks.equal(
                    "readings of the worked incident",
                    "examples/worked-incident.md",
                    posted[probe][day + end],
                    value.strip(),
                    f"{name} at {end}",
                )


def main():
    entries = (root / "examples" / "worked-incident.jsonl").read_text(encoding="utf-8").splitlines(keepends=True)
    page = (root / "examples" / "worked-incident.md").read_text(encoding="utf-8")
    with Cli(sys.argv[1]) as cli:
        cli.run("post", "-", text="".join(entries))
        figures = Figures(cli)
        figures.of_the_refrigerator()
        figures.of_the_carrier()
        figures.of_lists_and_review(entries[:-1])
    checks = Checks("worked_incident")
    compare_figures(checks, figures.all, page)
    compare_readings(checks, entries, page)
    checks.done(60)


main()
