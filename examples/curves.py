"""Invented temperatures of the demo clinic's storage units, minute by minute.

Whole numbers only (minutes, thousandths of a degree Celsius), so that every
machine makes the same bytes.  A minute is counted from 2026-01-01T00:00 UTC.
"""
import datetime

EPOCH = datetime.datetime(2026, 1, 1)
# America/Chicago in the months of the story: clocks go forward on 8 March, 02:00.
SUMMER = (datetime.datetime(2026, 3, 8, 8) - EPOCH) // datetime.timedelta(minutes=1)

CLOSED = {datetime.date(2026, 1, 19), datetime.date(2026, 5, 25)}


def offset(minute):
    """Minutes that the clinic's clock is behind UTC."""
    return 300 if minute >= SUMMER else 360


def local(minute):
    """The clinic's clock at a minute."""
    return EPOCH + datetime.timedelta(minutes=minute - offset(minute))


def minute_of(text):
    """The minute of a local time such as "2026-02-10 18:40"."""
    plain = (datetime.datetime.strptime(text, "%Y-%m-%d %H:%M") - EPOCH) // datetime.timedelta(minutes=1)
    winter = plain + 360
    return winter if winter < SUMMER else plain + 300


def workday(date):
    return date.weekday() < 5 and date not in CLOSED


def mixed(*numbers):
    """A number from 0 to 2**32 - 1 that depends on all of those given, and on nothing else."""
    x = 0x9E3779B97F4A7C15
    for n in numbers:
        x = ((x ^ n) * 0xBF58476D1CE4E5B9) & 0xFFFFFFFFFFFFFFFF
        x ^= x >> 29
    return (x * 0x94D049BB133111EB & 0xFFFFFFFFFFFFFFFF) >> 32


def triangle(minute, period, height):
    phase, half = minute % period, period // 2
    if phase < half:
        return -height + 2 * height * phase // half
    return height - 2 * height * (phase - half) // (period - half)


class Unit:
    """One storage unit: how it behaves on quiet days, and what happened to it."""

    def __init__(self, seed, level, cycle, swing, noise, opening, events=()):
        self.seed, self.level, self.cycle, self.swing = seed, level, cycle, swing
        self.noise, self.opening = noise, opening
        self.events = [[(minute_of(t), v) for t, v in knots] for knots in events]
        self._openings = {}

    def _doors(self, date):
        if date not in self._openings:
            n = 6 if workday(date) else 0
            self._openings[date] = [485 + mixed(self.seed, date.toordinal(), k) % 520 for k in range(n)]
        return self._openings[date]

    def at(self, minute):
        """Thousandths of a degree Celsius, as the unit's probe shows them."""
        jitter = mixed(self.seed, minute) % (2 * self.noise + 1) - self.noise
        for knots in self.events:
            if knots[0][0] <= minute < knots[-1][0]:
                for (a, va), (b, vb) in zip(knots, knots[1:]):
                    if a <= minute < b:
                        return va + (vb - va) * (minute - a) // (b - a) + jitter // 2
        clock = local(minute)
        now = clock.hour * 60 + clock.minute
        door = max(
            [self.opening * (25 - (now - d)) // 25 for d in self._doors(clock.date()) if 0 <= now - d < 25] or [0]
        )
        return self.level + triangle(minute, self.cycle, self.swing) + triangle(minute, 1440, 250) + door + jitter


UNITS = {
    "main-fridge": Unit(
        101,
        4500,
        47,
        550,
        90,
        800,
        events=[
            # the door that did not latch
            [
                ("2026-02-10 18:40", 4600),
                ("2026-02-10 20:00", 6300),
                ("2026-02-10 21:30", 7950),
                ("2026-02-10 23:00", 9500),
                ("2026-02-11 01:00", 10900),
                ("2026-02-11 03:00", 11800),
                ("2026-02-11 05:30", 12400),
                ("2026-02-11 07:46", 12600),
                ("2026-02-11 08:00", 10600),
                ("2026-02-11 08:25", 8000),
                ("2026-02-11 09:05", 6100),
                ("2026-02-11 09:50", 4700),
            ],
            # the power failure; emptied at 15:40, left to itself until the power was back at 20:45
            [
                ("2026-03-19 13:10", 4700),
                ("2026-03-19 14:25", 7900),
                ("2026-03-19 15:40", 9600),
                ("2026-03-19 18:00", 12400),
                ("2026-03-19 20:45", 14200),
                ("2026-03-19 21:15", 10500),
                ("2026-03-19 21:50", 7900),
                ("2026-03-19 23:10", 4800),
            ],
        ],
    ),
    "annex-fridge": Unit(
        102,
        4900,
        61,
        450,
        80,
        700,
        events=[
            # a large delivery put away with the door open; stays under 46 F, but not by more than the probe's tolerance
            [
                ("2026-04-09 13:00", 5000),
                ("2026-04-09 13:20", 7450),
                ("2026-04-09 13:35", 7450),
                ("2026-04-09 14:10", 5200),
            ]
        ],
    ),
    "freezer": Unit(
        103,
        -20500,
        83,
        900,
        150,
        1500,
        events=[
            # the same power failure; door kept shut
            [
                ("2026-03-19 13:10", -20300),
                ("2026-03-19 15:30", -17200),
                ("2026-03-19 17:10", -15000),
                ("2026-03-19 19:00", -12900),
                ("2026-03-19 20:45", -11200),
                ("2026-03-19 21:30", -13200),
                ("2026-03-19 22:20", -15300),
                ("2026-03-20 00:30", -20000),
            ]
        ],
    ),
    "carrier": Unit(104, 4700, 173, 500, 60, 400),
}


def tenths_c(value):
    return (value + 50) // 100


def tenths_f(value):
    return (value * 9 + 160250) // 500


def shown(tenths, point="."):
    """Tenths of a degree as text."""
    sign = "-" if tenths < 0 else ""
    return "%s%d%s%d" % (sign, abs(tenths) // 10, point, abs(tenths) % 10)
