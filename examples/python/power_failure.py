"""power_failure.py WORKDIR: the demo clinic's afternoon of 19 March, in Python. All data are invented.

The same afternoon as power-failure.sh, and the same entries.
"""
import pathlib
import subprocess
import sys
from decimal import Decimal

import coldtally

EXAMPLES = pathlib.Path(__file__).resolve().parent.parent


def printed(*words: object) -> str:
    """What another script of the examples prints."""
    return subprocess.run([sys.executable, *map(str, words)], check=True, capture_output=True, text=True).stdout


def one_o_clock(work: pathlib.Path) -> pathlib.Path:
    """Makes the ledger as it was before the power failed, in an empty folder, and returns its path."""
    work.mkdir(parents=True, exist_ok=True)
    printed(EXAMPLES / "make_entries.py", work / "entries")
    path = work / "afternoon.ledger"
    with coldtally.Ledger(path) as ledger:
        ledger.post_json(printed(EXAMPLES / "entries_before.py", "2026-03-19T13:00:00", work / "entries"))
        ledger.post_json((EXAMPLES / "programme" / "rules.jsonl").read_text(encoding="utf-8"))
    return path


def say(posted: coldtally.Posted) -> None:
    """What was posted, and what a careful person wants to know."""
    print(f"  {len(posted.entries)} entries: {', '.join(type(e).__name__ for e in posted.entries)}")
    for warning in posted.warnings:
        print(f"  WARNING: {warning}")


def main(work: str) -> None:
    by = "RS"
    with coldtally.Ledger(one_o_clock(pathlib.Path(work)), mode="write") as ledger:
        print("Noticed: which doses were given since the last good reading?")
        noticed = ledger.notice("main-fridge", "Power out, doors kept shut", by=by, at="2026-03-19 13:12")
        say(noticed)
        incident = noticed.to_dict()["entries"][0]["incident"]
        whole = ledger.incident(incident, at="2026-03-19 13:12")
        print(
            f"  incident {incident}: {sum(d.doses for d in whole.given)} doses given, "
            f"{len(whole.lines)} holdings inside; to be done:"
        )
        for duty in whole.duties:
            if duty.done is None:
                print(f"    {duty.step}{f' ({duty.who})' if duty.who else ''}: {duty.state}")

        print("In which order to move, and may the container take it?")
        for row in ledger.move_list("main-fridge", "carrier", at="2026-03-19 15:35"):
            print(f"  {row.product} {row.lot}{', ' + row.mark if row.mark else ''}: {row.doses}, {row.container_fit}")

        print("Into the container, and out of it")
        say(
            ledger.pack(
                "main-fridge",
                "carrier",
                "annex-fridge",
                by=by,
                temperature=Decimal("8.4"),
                container_temperature=Decimal("4.6"),
                scale="C",
                at="2026-03-19 15:40",
            )
        )
        say(ledger.check("carrier", Decimal("5.0"), by=by, scale="C", at="2026-03-19 16:00"))
        say(
            ledger.unpack(
                "carrier",
                "annex-fridge",
                by=by,
                as_listed=True,
                container_temperature=Decimal("5.1"),
                temperature="39.4F",
                scale="C",
                received_by="MQ",
                at="2026-03-19 16:20",
            )
        )

        trip = ledger.trip("carrier", at="2026-03-19 17:00")
        print(f"The journey lasted {trip.lasted_s} s; limit {trip.limit_s} s, over it: {trip.over_limit}")
        print(
            f"  {sum(h.loaded for h in trip)} doses out, {sum(h.unloaded for h in trip)} back, "
            f"{sum(h.missing for h in trip)} missing"
        )
        print(trip.caution)


if __name__ == "__main__":
    main(sys.argv[1])
