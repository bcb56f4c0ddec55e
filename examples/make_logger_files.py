#!/usr/bin/python3
"""make_logger_files.py FOLDER: writes the demo clinic's logger files (all invented).

Every logger writes its own kind of file; the files in layouts/ describe them.
Same bytes on every machine and every run.
"""
import datetime
import os
import sys

sys.dont_write_bytecode = True
import curves

STEP = 5  # minutes between readings
FIRST = curves.minute_of("2026-01-05 07:00")
LAST = curves.minute_of("2026-05-29 12:00")  # the loggers were last read out on 29 May at noon
MONTHS = [
    "2026-01-01 00:00",
    "2026-02-01 00:00",
    "2026-03-01 00:00",
    "2026-04-01 00:00",
    "2026-05-01 00:00",
    "2026-06-01 00:00",
]
# The logger in the annex ran out of battery over a weekend.
ANNEX_STOPPED = (curves.minute_of("2026-04-24 17:00"), curves.minute_of("2026-04-27 08:05"))
# The carrier's logger runs on trips only; on the last one it stopped at 10:05, on the way.
TRIPS = [
    ("power-failure-out", "2026-03-19 15:20", "2026-03-19 16:35"),
    ("power-failure-back", "2026-03-20 09:15", "2026-03-20 10:20"),
    ("outreach", "2026-05-14 08:00", "2026-05-14 10:05"),
]


def minutes(start, end):
    """Every fifth minute from start to end, both included if they are one."""
    start += -start % STEP
    return range(start, end + 1, STEP)


def months(overlap):
    """(year-month, first minute, last minute) of each month's file; a file may begin with the end of the one before."""
    for a, b in zip(MONTHS, MONTHS[1:]):
        yield a[:7], max(FIRST, curves.minute_of(a) - overlap), min(LAST, curves.minute_of(b) - 1)


def utc(minute):
    return curves.EPOCH + datetime.timedelta(minutes=minute)


def main_rows(a, b):
    """Clinic's clock, Celsius, decimal point."""
    yield "Time,Temperature (C)"
    for m in minutes(a, b):
        yield "%s,%s" % (
            curves.local(m).strftime("%Y-%m-%dT%H:%M:%S"),
            curves.shown(curves.tenths_c(curves.UNITS["main-fridge"].at(m))),
        )


def annex_rows(a, b):
    """A clock that stays on winter time, Fahrenheit, decimal comma, day before month; now and then no reading."""
    yield "Demo logger ml-102;invented data;"
    yield "Interval;5 min;"
    yield "Date;Time;Temp F"
    for m in minutes(a, b):
        if ANNEX_STOPPED[0] < m < ANNEX_STOPPED[1]:
            continue
        value = (
            "---"
            if curves.mixed(7, m) % 900 == 0
            else curves.shown(curves.tenths_f(curves.UNITS["annex-fridge"].at(m)), ",")
        )
        winter = utc(m - 360)
        yield "%s;%s;%s" % (winter.strftime("%d/%m/%Y"), winter.strftime("%H:%M"), value)


def freezer_rows(a, b):
    """UTC, Celsius, tab stops, month before day, a running number in front and remarks between."""
    yield "# demo logger ml-103, invented data, times in UTC"
    yield "No\tDate\tTime\tCelsius"
    for n, m in enumerate(minutes(a, b), 1):
        if utc(m).hour == 0 and utc(m).minute == 0:
            yield "# battery ok"
        yield "%d\t%s\t%s\t%s" % (
            n,
            utc(m).strftime("%m/%d/%Y"),
            utc(m).strftime("%H:%M:%S"),
            curves.shown(curves.tenths_c(curves.UNITS["freezer"].at(m))),
        )


def carrier_rows(a, b):
    """Clinic's clock with its offset from UTC, Celsius."""
    yield "sample,instant,celsius"
    for n, m in enumerate(minutes(a, b), 1):
        stamp = "%s-%02d:00" % (curves.local(m).strftime("%Y-%m-%dT%H:%M:%S"), curves.offset(m) // 60)
        yield "%d,%s,%s" % (n, stamp, curves.shown(curves.tenths_c(curves.UNITS["carrier"].at(m))))


def write(folder, name, rows):
    with open(os.path.join(folder, name), "w", encoding="ascii", newline="") as f:
        f.writelines(r + "\n" for r in rows)


def main():
    if len(sys.argv) != 2:
        sys.exit("usage: make_logger_files.py FOLDER")
    folder = sys.argv[1]
    os.makedirs(folder, exist_ok=True)
    for month, a, b in months(overlap=720):  # read out before it was full: rows that the last file has too
        write(folder, "main-fridge-%s.csv" % month, main_rows(a, b))
    for month, a, b in months(overlap=0):
        write(folder, "annex-fridge-%s.csv" % month, annex_rows(a, b))
        write(folder, "freezer-%s.csv" % month, freezer_rows(a, b))
    for trip, a, b in TRIPS:
        write(folder, "carrier-%s.csv" % trip, carrier_rows(curves.minute_of(a), curves.minute_of(b)))


if __name__ == "__main__":
    main()
