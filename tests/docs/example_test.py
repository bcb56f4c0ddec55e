"""The tables of examples/README.md, worked by hand from the story, are what the program answers for the example.

Usage: example_test.py COLDTALLY SOURCE_DIR"""
import fractions
import json
import pathlib
import re
import subprocess
import sys
import tempfile

COLDTALLY, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
AT = ["--at", "2026-05-29T17:00:00"]
readme = (SOURCE / "examples" / "README.md").read_text()
bad = []


def expect(what, shown, answered):
    if shown != answered:
        bad.append(f"{what}: examples/README.md says {shown}, the program {answered}")


with tempfile.TemporaryDirectory() as folder:
    made = subprocess.run([SOURCE / "examples" / "run.sh", COLDTALLY, folder + "/x"], capture_output=True, text=True)
    if made.returncode != 0:
        sys.exit(f"examples/run.sh: status {made.returncode}\n{made.stdout[-2000:]}{made.stderr}")

    def ask(command, *more):
        return json.loads(
            subprocess.run(
                [COLDTALLY, command, folder + "/x/heron-flats.ledger", *more, *AT, "--format", "json"],
                capture_output=True,
                text=True,
                check=True,
            ).stdout
        )

    # | list | place | lot, mark | doses | why |
    shown = []
    for row in re.findall(
        r"^\| (discard|quarantine|keep) \| ([\w-]+) \| ([\w-]+)(?:, ([^|]*))? \| (\d+) \| (.*)\|$", readme, re.M
    ):
        shown.append((row[0], row[1], row[2], int(row[4])))
    lists = ask("lists")
    answered = [(h["list"].split("-")[0], h["place"], h["lot"], h["doses"]) for h in lists["holdings"]]
    expect("lists", sorted(shown), sorted(answered))
    expect("number of holdings", len(shown), 13)

    # the accounts, in one sentence
    a = ask("stock")["accounts"]
    sentence = re.search(
        r"The accounts: (\d+) doses received, (\d+) given, (\d+) wasted, (\d+) returned, "
        r"(\d+) transferred, (\d+) missing, (\d+) on hand",
        " ".join(readme.split()),
    )
    expect(
        "accounts",
        [int(n) for n in sentence.groups()],
        [-a["supplier"], a["patient"], a["wasted"], a["returned"], a["transferred"], a["variance"], a["on_hand"]],
    )

    # "12 of 168"; the findings in their number
    few, all_ = re.search(r"Doses to review: (\d+) of (\d+)", readme).groups()
    review = ask("review")["doses"]
    expect("doses to review", int(few), sum(d["doses"] for d in review))
    expect("doses given", int(all_), sum(d["doses"] for d in ask("review", "--all")["doses"]))
    expect(
        "findings",
        {"expired": 2, "not viable": 2, "pending guidance": 3, "cleared": 4},
        {
            f: sum(d["doses"] for d in review if d["finding"] == f)
            for f in ("expired", "not viable", "pending guidance", "cleared")
        },
    )

    # "10.88 h, peak 12.548 °C", in the order of the text
    window = ["--from", "2026-01-05T07:00:00", "--until", "2026-05-29T17:00:00"]
    found = [
        e
        for place in ("main-fridge", "freezer", "annex-fridge", "carrier")
        for e in ask("excursions", place, *window)["excursions"]
    ]
    hours = [(h, p) for h, p in re.findall(r"\((\d+\.\d\d) h,\s+peak\s+(-?[\d.]+) °C\)", readme)]
    expect(
        "excursions",
        hours,
        [
            (
                f"{float(fractions.Fraction(e['duration_s']) / 3600):.2f}",
                f"{float(fractions.Fraction(e['peak_C'])):.3f}",
            )
            for e in found
        ],
    )
print("\n".join(bad) or "the example answers what its page says")
sys.exit(1 if bad else 0)
