"""heron_flats.py WORKDIR: the demo clinic's ledger from nothing to its lists, in Python. All data are invented.

The same story as run.sh, and the same ledger.
"""
import pathlib
import subprocess
import sys
from typing import get_args

import coldtally

EXAMPLES = pathlib.Path(__file__).resolve().parent.parent
# the clinic's clock: every question is asked for one instant, so that the answers never change
AT = "2026-05-29T17:00:00"
PROBES = {"ml-101": "main-fridge", "ml-102": "annex-fridge", "ml-103": "freezer", "ml-104": "carrier"}


def make(work: pathlib.Path) -> pathlib.Path:
    """Makes the ledger in an empty folder and returns its path."""
    work.mkdir(parents=True, exist_ok=True)
    for script, folder in (("make_logger_files.py", "logger"), ("make_entries.py", "entries")):
        subprocess.run(
            [sys.executable, str(EXAMPLES / script), str(work / folder)], check=True, stdout=subprocess.DEVNULL
        )
    path = work / "heron-flats.ledger"
    with coldtally.Ledger(path) as ledger:
        for chapter in [*sorted((EXAMPLES / "entries").glob("*.jsonl")), *sorted((work / "entries").glob("*.jsonl"))]:
            ledger.post_json(chapter.read_text(encoding="utf-8"))
        for probe, unit in PROBES.items():
            files = sorted((work / "logger").glob(f"{unit}-*.csv"))
            ledger.import_readings(probe, files, by="MQ", loosen=True, layout=EXAMPLES / "layouts" / f"{unit}.json")
    return path


def main(work: str) -> None:
    with coldtally.Ledger(make(pathlib.Path(work)), mode="read") as ledger:
        seen = ledger.as_of(at=AT)  # both lists are of one state of knowledge
        lists = seen.lists()
        told_apart = [(name, lists.on(name)) for name in get_args(coldtally.ListName)]
        told_apart.append(("do not use yet, in doubt of an open incident", lists.in_doubt))
        for name, holdings in told_apart:
            print(f"{name}: {sum(h.doses for h in holdings)} doses")
            for h in holdings:
                print(
                    f"  {h.place}, {h.lot}{', ' + h.mark if h.mark else ''}: "
                    f"{h.doses} ({', '.join(h.reasons or h.in_doubt) or 'in order'})"
                )
        findings: dict[str, int] = {}
        for dose in seen.review(all=True):
            findings[dose.finding] = findings.get(dose.finding, 0) + dose.doses
        print("doses given:", ", ".join(f"{n} {finding}" for finding, n in sorted(findings.items())))
        print(lists.caution)


if __name__ == "__main__":
    main(sys.argv[1])
