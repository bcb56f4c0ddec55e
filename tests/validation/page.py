"""page.py EVIDENCE PAGE [--write]: makes the page on validation from what the tests reported in the folder EVIDENCE
(one JSON line a comparison), and compares it with PAGE, or writes it there. The tests report while they run: run them
first."""
import json
import math
import pathlib
import re
import sys

HEAD = """# Against what the numbers were checked

Made from the reports of the tests themselves, by `tests/validation/page.py`; \
a test compares this page with what they report. To make it anew: run the
tests, then `cmake --build build --target validation_page`. \
What is asked and what is expected stands in the files named.

"Exact" means that every digit agreed; "within the bound", that the source states a bound and no value. \
The largest deviation is a bound, the next power of ten above what was measured; a relative one says so.
"""

SEEN = {
    "read": "read",
    "reported by a second source": "second source",
    "from memory": "memory",
    "own computing": "own computing",
    "common practice, no source": "common practice",
}

PARTS = [
    (
        "exposure",
        "exposure_test.py",
        "Random traces: 120 of 20 to 160 readings, in °C and in °F, with gaps, readings on the limits and tolerances.",
    ),
    ("calendar", "calendar_test.py", "Dates, instants and exact numbers."),
    (
        "zones",
        "zones_test.py",
        "Every zone of the system, around the changes of its clock, from 1970 to 2199. "
        "The number of cases follows the system's zone data.",
    ),
    (
        "worked_incident",
        "worked_incident_test.py",
        "A power failure worked on paper, in `examples/worked-incident.md`: "
        "every figure of the page (the script is in `tests/docs/`).",
    ),
    (
        "gs1",
        "gs1_test.py",
        "GS1 codes: random element strings; symbols printed and read back (GS1 DataMatrix, GS1-128, GS1 QR Code); "
        "damaged values. `gs1/README.md` names the parser.",
    ),
    (
        "fhir",
        "fhir_test.py",
        "HL7 FHIR R4 Immunization resources: every dose given of the demo clinic and of 40 random sites with awkward "
        "texts; the official examples; damaged records. `fhir/README.md` names schema and examples, "
        "and what the schema cannot tell.",
    ),
    (
        "opendata",
        "opendata_test.py",
        "Open temperature series, and gaps cut into them; `opendata/README.md` has origin and licence.",
    ),
]

SECOND = """`tests/second/` works every question anew from the definitions, slowly and by other means, \
and shares no code with the library. 300 random sites
of `tests/properties/` are asked about twice each, and every digit must agree.
"""

MUTATION = """
## What the tests notice

Small changes are made in the code of exposure, histories, traces and lists, one at a time, \
and the tests asked whether they see them:
[mutation/RESULTS.md](mutation/RESULTS.md), with a reason for each change that none sees. \
Its figures are those of the day it names.
"""

TAIL = """
## What could not be asked

It computes no reaction rates: the tables of vaccine vial monitors and published Arrhenius or Q10 examples have \
nothing to be
compared with. The mean kinetic temperature takes its constant in whole kelvin. \
No published refrigerator series with a licence, and no worked example of
a pharmacopoeia with all its inputs, was found; the examples used are one project's tests, \
and agree with the formula in all digits printed. What the
sources leave open stands in the tables: which scale governs where a range is stated in two, \
and whether the 28th day is inside 28 days.
"""


def number(n):
    return f"{n:,}"


def cases(line):
    n = line["cases"]
    if not line.get("counts_vary"):
        return number(n)
    unit = 10 ** (len(str(n)) - 1)
    return f"over {number(n // unit * unit)}"


def deviation(line):
    if line.get("bounds"):
        return "within the bound"
    if not line["largest"]:
        return "exact"
    # what is smaller differs between processors
    return f"below 1e{max(-12, math.floor(math.log10(line['largest'])) + 1)}" + (
        " relative" if line.get("relative") else ""
    )


def row(*cells):
    return "| " + " | ".join(str(c).replace("|", "\\|") for c in cells) + " |\n"


def read(folder, name):
    path = folder / f"{name}.jsonl"
    if not path.is_file():
        sys.exit(f"{path}: not there: run the tests first")
    return [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines()]


def published(lines):
    out = (
        "\n## Values that others published\n\n`tests/published/` holds them, one block a source; "
        "where a value does not agree with the library, the block says why.\n\n"
    )
    out += row("asked", "source", "edition", "seen", "cases", "largest deviation", "do not agree") + row(*["---"] * 7)
    for b in lines:
        what = b["what"] + (f", {b['given']}" if 0 < len(b["given"]) <= 40 else "")
        out += row(what, b["against"], b["edition"], SEEN[b["seen"]], cases(b), deviation(b), b["disagree"] or "")
    total, odd = sum(b["cases"] for b in lines), sum(b["disagree"] for b in lines)
    return out + f"\n{number(total)} cases in {len(lines)} blocks; {odd} do not agree, each with its reason.\n"


def mutation(results):
    """The line of the page on mutants that adds them up."""
    return (
        MUTATION
        + "\n"
        + re.search(r"^\d+ mutants, .*?\.(?=\n\n)", results.read_text(encoding="utf-8"), re.M | re.S)[0]
        + "\n"
    )


def page(folder, results):
    out = HEAD + published(read(folder, "published"))
    out += (
        "\n## General-purpose libraries\n\nThe scripts are in `tests/reference/`. "
        "Each case is made from a fixed seed or read from a file; none depends on the clock.\n"
    )
    for name, script, about in PARTS:
        out += f"\n`{script}`: {about}\n\n" + row("compared", "with", "cases", "largest deviation") + row(*["---"] * 4)
        for line in read(folder, name):
            out += row(line["what"], line["against"], cases(line), deviation(line))
    out += (
        "\n## A second implementation\n\n"
        + SECOND
        + "\n"
        + row("compared", "with", "cases", "largest deviation")
        + row(*["---"] * 4)
    )
    for line in read(folder, "second"):
        out += row(line["what"], line["against"], cases(line), deviation(line))
    return out + mutation(results) + TAIL


def without_versions(text):
    """A library's version is worth saying and no reason to fail."""
    return re.sub(r"(NumPy|SciPy|dateutil) \d+[.\d]*", r"\1", text)


def main():
    folder, path = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
    made = page(folder, path.parent / "mutation" / "RESULTS.md")
    if "--write" in sys.argv:
        path.write_text(made, encoding="utf-8")
        return
    old = path.read_text(encoding="utf-8") if path.is_file() else ""
    if without_versions(made) != without_versions(old):
        for a, b in zip(made.splitlines(), old.splitlines()):
            if without_versions(a) != without_versions(b):
                sys.exit(
                    f"{path} is not what the tests report now; make it anew (it says how). First difference:\n"
                    f" now:  {a}\n page: {b}"
                )
        sys.exit(f"{path} is not what the tests report now; make it anew (it says how)")


main()
