#!/usr/bin/python3
"""make_entries.py FOLDER: writes the demo clinic's routine (all invented): 80-routine-doses.jsonl, doses given on
clinic days, as a chart system would export them; 90-checks.jsonl, checks of the three units on workdays, minimum and
maximum as the loggers show them. Same bytes on every machine and every run. """
import datetime
import json
import os
import sys

sys.dont_write_bytecode = True
import curves

FIRST_DAY, LAST_DAY = datetime.date(2026, 1, 5), datetime.date(2026, 5, 29)
FIRST_READING = curves.minute_of("2026-01-05 07:00")
UNITS = [("main-fridge", "ml-101", "C"), ("annex-fridge", "ml-102", "F"), ("freezer", "ml-103", "C")]
NURSES = ["MQ", "TL", "RS"]
WARM_MARK = "warm 10-11 Feb, use first"

# What the Tuesday and Thursday clinics draw from: first day, last day, time, product, lot, fund, place, mark.
ROUTINE = [
    ("2026-01-08", "2026-04-30", "09:10", "demo-alder", "AL-2601A", "state", "main-fridge", ""),
    ("2026-01-08", "2026-04-30", "10:25", "demo-alder", "AL-2601A", "state", "main-fridge", ""),
    ("2026-05-01", "2026-05-28", "09:10", "demo-alder", "AL-2608D", "state", "main-fridge", ""),
    ("2026-05-01", "2026-05-28", "10:25", "demo-alder", "AL-2608D", "state", "main-fridge", ""),
    ("2026-01-08", "2026-02-10", "11:15", "demo-birch", "B-0117", "private", "main-fridge", ""),
    ("2026-02-17", "2026-05-14", "11:15", "demo-birch", "B-0117", "private", "main-fridge", WARM_MARK),
]


def days():
    d = FIRST_DAY
    while d <= LAST_DAY:
        if curves.workday(d):
            yield d
        d += datetime.timedelta(days=1)


def doses():
    number = 0
    for d in days():
        if d.weekday() not in (1, 3):
            continue
        for first, last, time, product, lot, fund, place, mark in sorted(ROUTINE, key=lambda r: r[2]):
            if not first <= d.isoformat() <= last:
                continue
            number += 1
            entry = {
                "kind": "give",
                "at": "%sT%s:00" % (d, time),
                "by": NURSES[number % 3],
                "place": place,
                "product": product,
                "lot": lot,
                "fund": fund,
                "mark": mark,
                "patient": "demo-%04d" % (1000 + number),
            }
            if not mark:
                del entry["mark"]
            yield entry


def checks():
    for place, probe, scale in UNITS:
        unit, rounded = curves.UNITS[place], curves.tenths_c if scale == "C" else curves.tenths_f
        since = FIRST_READING
        for d in days():
            for half, (hour, first) in enumerate(((7, 35), (16, 25))):
                clock = "%s %02d:%02d" % (d, hour, first + curves.mixed(unit.seed, d.toordinal(), 90 + half) % 10)
                m = curves.minute_of(clock)
                now = rounded(unit.at(m))
                seen = [rounded(unit.at(x)) for x in range(since + -since % 5, m, 5)] + [now]
                yield {
                    "kind": "check",
                    "at": clock.replace(" ", "T") + ":00",
                    "by": NURSES[(d.toordinal() + half) % 3],
                    "place": place,
                    "probe": probe,
                    "scale": scale,
                    "temperature": curves.shown(now),
                    "min": curves.shown(min(seen)),
                    "max": curves.shown(max(seen)),
                }
                since = m


def write(folder, name, entries):
    with open(os.path.join(folder, name), "w", encoding="ascii", newline="") as f:
        f.writelines(json.dumps(e) + "\n" for e in entries)


def main():
    if len(sys.argv) != 2:
        sys.exit("usage: make_entries.py FOLDER")
    os.makedirs(sys.argv[1], exist_ok=True)
    write(sys.argv[1], "80-routine-doses.jsonl", doses())
    write(sys.argv[1], "90-checks.jsonl", checks())


if __name__ == "__main__":
    main()
