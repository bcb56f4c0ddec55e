"""Zones against Python's zoneinfo, which reads the same zone data with code of its own: every zone of the system,
around every change of its clock from 1970 to 2037 and a sample of those to 2199; and the end of a day where midnight is
skipped or comes twice."""
import datetime
import pathlib
import random
import subprocess
import sys
import zoneinfo

sys.path.insert(0, str(pathlib.Path(__file__).parent))
from common import Checks

UTC = datetime.timezone.utc
EPOCH = datetime.datetime(1970, 1, 1)
DAY = 86400
FIRST = 2 * DAY
LAST = int((datetime.datetime(2199, 12, 30) - EPOCH).total_seconds())
AGAINST = "Python zoneinfo, on the same zone data"


def offset(zone, t):
    return int(datetime.datetime.fromtimestamp(t, UTC).astimezone(zone).utcoffset().total_seconds())


def changes(zone):
    """Instants from which the offset is another one: found by looking every ten days, then halving."""
    out = []
    t, before = FIRST, offset(zone, FIRST)
    while t < LAST:
        until = min(t + 10 * DAY, LAST)
        after = offset(zone, until)
        if after != before:
            low, high = t, until
            while high - low > 1:
                middle = (low + high) // 2
                low, high = (middle, high) if offset(zone, middle) == before else (low, middle)
            out.append((high, before, offset(zone, high)))
            # two changes within the ten days: go on from the first
            t, before = high, offset(zone, high)
            continue
        t = until
    return out


def instants(zone, local):
    """The instants at which the zone's clock shows `local`, ascending."""
    found = set()
    for fold in (0, 1):
        u = local.replace(tzinfo=zone, fold=fold).astimezone(UTC)
        if u.astimezone(zone).replace(tzinfo=None) == local:
            found.add(int(u.timestamp()))
    return sorted(found)


def end_of_day(zone, date):
    midnight = datetime.datetime.combine(date + datetime.timedelta(days=1), datetime.time())
    found = instants(zone, midnight)
    if found:
        return found[0]
    low, high = (int((midnight - EPOCH).total_seconds()) + d * DAY for d in (-2, 3))
    while high - low > 1:
        middle = (low + high) // 2
        shows = datetime.datetime.fromtimestamp(middle, UTC).astimezone(zone).date()
        low, high = (middle, high) if shows <= date else (low, middle)
    return high


def main():
    rng = random.Random(20261125)
    questions, expected = [], []

    def ask(what, question, answer):
        questions.append((what, question))
        expected.append(answer)

    def ask_local(name, zone, local):
        ask("local times", f"resolve {name} {local:%Y-%m-%d %H %M %S}", " ".join(map(str, instants(zone, local))))

    known = {}  # zones that are alike have their changes looked for once
    names = sorted(zoneinfo.available_timezones() - {"localtime"})
    for name in names:
        zone = zoneinfo.ZoneInfo(name)
        for path in zoneinfo.TZPATH:
            if (pathlib.Path(path) / name).is_file():
                data = (pathlib.Path(path) / name).read_bytes()
                break
        is_new = data not in known
        if is_new:
            known[data] = changes(zone)
        all_changes = known[data]
        near = [c for c in all_changes if c[0] < 2145916800]  # 2038
        far = [c for c in all_changes if c[0] >= 2145916800]
        for t, before, after in (near if is_new else rng.sample(near, min(2, len(near)))) + rng.sample(
            far, min(12 if is_new else 1, len(far))
        ):
            for u in (t - 1, t):
                ask("offsets", f"offset {name} {u}", str(offset(zone, u)))
            low, high = sorted((t + before, t + after))
            for local_s in {low - 1, low, (low + high) // 2, high - 1, high}:
                ask_local(name, zone, EPOCH + datetime.timedelta(seconds=local_s))
            date = (EPOCH + datetime.timedelta(seconds=low)).date()
            for d in (date - datetime.timedelta(days=1), date):
                ask("ends of days", f"end {name} {d}", str(end_of_day(zone, d)))
        for _ in range(20 if is_new else 4):
            t = rng.randrange(FIRST, LAST)
            ask("offsets", f"offset {name} {t}", str(offset(zone, t)))
            ask_local(name, zone, EPOCH + datetime.timedelta(seconds=t))
            d = (EPOCH + datetime.timedelta(seconds=t)).date()
            ask("ends of days", f"end {name} {d}", str(end_of_day(zone, d)))

    made = subprocess.run(
        [sys.argv[1]], input="".join(q + "\n" for _, q in questions), capture_output=True, text=True, check=True
    )
    answers = made.stdout.splitlines()
    if len(answers) != len(expected):
        sys.exit(f"{len(answers)} answers to {len(expected)} questions")
    checks = Checks("zones", counts_vary=True)
    for (what, question), got, wanted in zip(questions, answers, expected):
        checks.equal(f"zone arithmetic, {what}", AGAINST, got, wanted, question)
    if len(names) < 300 or sum(len(c) for c in known.values()) < 10000:
        sys.exit(f"only {len(names)} zones")
    checks.done(100000)


main()
