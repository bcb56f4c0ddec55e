"""Dates, expiry and RFC 3339 against dateutil and the standard library's calendar; rationals and exposure sums against
fractions."""
import datetime
import pathlib
import random
import subprocess
import sys
from fractions import Fraction

import dateutil
from dateutil.parser import isoparse
from dateutil.relativedelta import relativedelta

sys.path.insert(0, str(pathlib.Path(__file__).parent))
from common import Checks

DATEUTIL = f"dateutil {dateutil.__version__}"
FRACTIONS = "Python fractions"


def main():
    rng = random.Random(71)
    questions = []

    def ask(what, against, question, answer):
        questions.append((what, against, question, answer))

    # every month: its last day is that which is 31 or the latest that exists
    for year in range(1970, 2200):
        for month in range(1, 13):
            last = datetime.date(year, month, 1) + relativedelta(day=31)
            ask("a month's last day as expiry", DATEUTIL, f"expiry {year}-{month:02}", last.isoformat())
    # every day: the one after it
    day = datetime.date(1970, 1, 1)
    while day < datetime.date(2199, 12, 31):
        after = day + relativedelta(days=1)
        if day.day >= 27 or rng.random() < 0.1:
            ask("the day after a date", DATEUTIL, f"next {day}", after.isoformat())
        day = after
    # dates that exist and that do not
    for _ in range(20000):
        y, m, d = rng.randrange(1970, 2200), rng.randrange(0, 14), rng.randrange(0, 33)
        text = f"{y}-{m:02}-{d:02}"
        try:
            ask("dates that exist and that do not", DATEUTIL, f"expiry {text}", isoparse(text).date().isoformat())
        except ValueError:
            ask("dates that exist and that do not", DATEUTIL, f"expiry {text}", "refused")
    for _ in range(20000):
        local = datetime.datetime(1971, 1, 1) + datetime.timedelta(seconds=rng.randrange(0, 228 * 365 * 86400))
        minutes = rng.randrange(-14 * 60, 14 * 60 + 1)
        sign = "+" if minutes >= 0 else "-"
        text = local.isoformat() + (
            f"{sign}{abs(minutes) // 60:02}:{abs(minutes) % 60:02}" if minutes or rng.random() < 0.5 else "Z"
        )
        ask("instants with an offset", DATEUTIL, f"instant {text}", str(int(isoparse(text).timestamp())))

    def number():
        size = 10 ** rng.randrange(1, 40)
        return Fraction(rng.randrange(-size, size + 1), rng.randrange(1, 10 ** rng.randrange(1, 30) + 1))

    for _ in range(10000):
        x, y = number(), number()
        ask("sums and products of rationals", FRACTIONS, f"add {x} {y}", str(x + y))
        ask("sums and products of rationals", FRACTIONS, f"sub {x} {y}", str(x - y))
        ask("sums and products of rationals", FRACTIONS, f"mul {x} {y}", str(x * y))
        if y:
            ask("sums and products of rationals", FRACTIONS, f"div {x} {y}", str(x / y))
        near = x if rng.random() < 0.2 else x + Fraction(rng.choice((-1, 1)), 10 ** rng.randrange(1, 40))
        ask("order of rationals", FRACTIONS, f"cmp {x} {near}", str((x > near) - (x < near)))
    # sums of many fractions: few denominators, many, and numbers at the edge of 64 bits
    for round_ in range(400):
        big = 2**63 - 1 if round_ % 4 == 0 else 10 ** rng.randrange(2, 15)
        denominators = [rng.randrange(1, big) for _ in range(rng.choice((1, 2, 3, 4, 40)))]
        terms = [(rng.randrange(-big, big), rng.choice(denominators)) for _ in range(rng.randrange(1, 60))]
        ask(
            "exposure sums of many fractions",
            FRACTIONS,
            "sum " + " ".join(f"{n}/{d}" for n, d in terms),
            str(sum((Fraction(n, d) for n, d in terms), Fraction(0))),
        )

    made = subprocess.run(
        [sys.argv[1]], input="".join(q[2] + "\n" for q in questions), capture_output=True, text=True, check=True
    )
    answers = made.stdout.splitlines()
    if len(answers) != len(questions):
        sys.exit(f"{len(answers)} answers to {len(questions)} questions")
    checks = Checks("calendar")
    for (what, against, question, wanted), got in zip(questions, answers):
        checks.equal(what, against, got, wanted, question)
    checks.done(100000)


main()
