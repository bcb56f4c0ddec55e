"""FHIR against an independent validator: Debian's python3-jsonschema with HL7's own JSON Schema for R4; and HL7's
official examples.

Usage: fhir_test.py COLDTALLY SOURCE_DIR. What the schema was cut from and where the examples are from stands in
fhir/README.md."""
import copy
import datetime
import json
import pathlib
import random
import subprocess
import sys

import jsonschema

sys.path.insert(0, str(pathlib.Path(__file__).parent))
from common import Checks, Cli

HERE = pathlib.Path(__file__).parent / "fhir"
HL7 = "HL7's JSON Schema for FHIR R4 4.0, python3-jsonschema"
OURS = "the answer of review, in Python"
EXAMPLES = "HL7 FHIR R4 examples 4.0.1"
TYPES = "FHIR R4: types of the fields of Immunization, and which are required"
PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
SCHEMA = jsonschema.Draft6Validator(json.loads((HERE / "fhir.schema.cut.json").read_text(encoding="utf-8")))

ZONES = [
    "America/Chicago",
    "Asia/Kolkata",
    "Pacific/Auckland",
    "America/St_Johns",
    "UTC",
    "Pacific/Kiritimati",
    "America/Sao_Paulo",
]
AWKWARD = [
    'MMR "II"',
    "Sérum «été»",
    "ワクチン",
    "a\\b/c",
    "tab\there",
    "two\nlines",
    "no\u00a0break",
    "wide\u3000blank",
    "bell\u0007",
    "unit\u001fseparator",
    "next\u0085line",
    "  outer  ",
    "\u202fthin",
    "emoji 💉",
    "{}[]:,",
    "'; DROP",
    "%s %d",
    " ",
    "\ufeffmark",
    "naïve & <b>",
]


def awkward(rng):
    return " ".join(rng.choice(AWKWARD) for _ in range(rng.randrange(1, 3)))


def text(t):
    return datetime.datetime.fromtimestamp(t, datetime.timezone.utc).strftime("%Y-%m-%dT%H:%M:%SZ")


LIMIT = {"low": {"C": "2"}, "high": {"C": "8"}}


def random_stock(rng, t, out):
    """Products, lots and deliveries; the holdings that they make."""
    lots = []
    for n in range(rng.randrange(2, 5)):
        product = f"v{n}"
        out.append(
            {
                "kind": "product",
                "product": product,
                "name": awkward(rng),
                "range": LIMIT,
                **({"cvx": rng.choice(("03", "104", "21", "a b"))} if rng.random() < 0.7 else {}),
            }
        )
        if rng.random() < 0.7:
            out.append({"kind": "maker", "product": product, "name": awkward(rng)})
        for m in range(rng.randrange(1, 3)):
            lot = rng.choice(("K{}{}", "Ä\"{}-{}", "{}/{}#", "lot {} {}")).format(n, m)
            expiry = text(t + rng.randrange(20, 400) * 86400)[:10]
            out.append(
                {"kind": "lot", "product": product, "lot": lot, "expiry": expiry if rng.random() < 0.5 else expiry[:7]}
            )
            for place, mark in (("main", ""), ("main", "bag 1"), ("an «annex» \"2\"", "")):
                out.append(
                    {
                        "kind": "receive",
                        "at": text(t),
                        "place": place,
                        "product": product,
                        "lot": lot,
                        "mark": mark,
                        "doses": 40,
                    }
                )
                lots.append({"place": place, "product": product, "lot": lot, "mark": mark})
    return lots


def random_readings(rng, t):
    warm = rng.random() < 0.7
    return {
        "kind": "readings",
        "probe": "p",
        "scale": "C",
        "rows": [
            [text(t + i * 900), "11.5" if warm and 200 < i < 230 + rng.randrange(60) else "4.5"] for i in range(1200)
        ],
    }


def random_gives(rng, t, lots, out):
    """The numbers of their entries."""
    gives = []
    for i in range(rng.randrange(8, 16)):
        gives.append(len(out) + 1)
        at = t + rng.randrange(3600, 14 * 86400)
        out.append(
            {
                "kind": "give",
                "at": text(at),
                **rng.choice(lots),
                "patient": rng.choice(("t-{}", "ß{}", "https://x.example/P/{}", '"{}"')).format(i),
                "doses": rng.choice((1, 1, 1, 2, 3)),
                "certain": rng.random() < 0.7,
            }
        )
    return gives


def random_site(rng):
    """Entries of a site whose refrigerator is warm at times, with doses given, some of which the chart is not certain
    of, voids, holds and guidance."""
    t = 1577836800 + rng.randrange(0, 4 * 365) * 86400
    out = [
        {
            "kind": "site",
            "name": awkward(rng),
            "zone": rng.choice(ZONES),
            "unmonitored_limit_s": rng.choice((0, 86400)),
        },
        {"kind": "place", "place": "main", "name": awkward(rng), "type": "refrigerator", "range": LIMIT},
        {"kind": "place", "place": "an «annex» \"2\"", "name": "Annex", "type": "refrigerator", "range": LIMIT},
        {"kind": "probe", "probe": "p", "scale": "C"},
        {"kind": "assign", "at": text(t), "probe": "p", "place": "main"},
    ]
    lots = random_stock(rng, t, out)
    out.append(random_readings(rng, t))
    gives = random_gives(rng, t, lots, out)
    end = t + 15 * 86400
    for lot in rng.sample(lots, 2):
        if rng.random() < 0.5:
            out.append(
                {
                    "kind": "guidance",
                    "at": text(end),
                    "product": lot["product"],
                    "lot": lot["lot"],
                    "through": text(end - 86400),
                    "verdict": rng.choice(("use", "discard")),
                    "issuer": awkward(rng) + "M",
                    "reference": "case " + awkward(rng),
                }
            )
    for give in rng.sample(gives, 2):
        out.append({"kind": "void", "at": text(end), "voids": give, "reason": "twice"})
    return out, text(end), len(gives) - 2


def valid(checks, what, resource, case):
    checks.equal(what, HL7, sorted(e.message for e in SCHEMA.iter_errors(resource)), [], case)


def check_lines(checks, cli, at, case):
    """Every line is valid, and says what the review says."""
    lines = cli.run("immunizations", "--at", at).split("\n")
    review = sorted(cli.ask("review", "--all", "--at", at)["doses"], key=lambda d: d["entry"])
    checks.equal("lines of immunizations: one a dose given", OURS, (len(lines) - 1, lines[-1]), (len(review), ""), case)
    out = []
    for line, dose in zip(lines, review):
        resource = json.loads(line)
        here = f"{case}, entry {dose['entry']}"
        checks.equal(
            "lines of immunizations: no blanks between parts",
            OURS,
            line,
            json.dumps(resource, ensure_ascii=False, separators=(",", ":")),
            here,
        )
        valid(checks, "resources written valid", resource, here)
        occurred = datetime.datetime.fromisoformat(resource["occurrenceDateTime"].replace("Z", "+00:00"))
        got = (
            resource["id"],
            resource["patient"],
            resource["lotNumber"],
            int(occurred.timestamp()),
            resource.get("doseQuantity", {"value": 1})["value"],
            resource["status"],
            resource["primarySource"],
        )
        checks.equal(
            "id, token, lot, instant, doses, status",
            OURS,
            got,
            (
                f"give-{dose['entry']}",
                {"identifier": {"value": dose["patient"]}},
                dose["lot"],
                int(datetime.datetime.fromisoformat(dose["at"].replace("Z", "+00:00")).timestamp()),
                dose["doses"],
                "completed",
                True,
            ),
            here,
        )
        notes = [n["text"] for n in resource["note"]]
        says = (
            any(n.startswith("Not certain: ") for n in notes),
            [n.split(":")[1].strip() for n in notes if n.startswith("Why: ")],
            any(n.startswith("Guidance that covers it: ") for n in notes),
            "a clinician decides" in notes[-1]
            and "manufacturer's and the health department's" in notes[-1]
            and "licensed judgement" in notes[-1],
        )
        checks.equal(
            "notes: uncertain gives, reasons, guidance, caution",
            OURS,
            says,
            (
                not dose["certain"],
                [r.rstrip(".") for r in dose["reasons"]],
                bool(dose["reasons"]) or dose["guidance"] is not None,
                True,
            ),
            here,
        )
        checks.equal("subpotency is never set", OURS, [k for k in resource if "ubpotent" in k], [], here)
        out.append(resource)
    return out


def refused(path, resource):
    """The status and message of give-records with one resource, on a ledger at `path`."""
    made = subprocess.run(
        [PROGRAM, "give-records", "--ledger", path, "--by", "RF", "--dry-run", "-"],
        input=json.dumps(resource),
        capture_output=True,
        text=True,
    )
    return made.returncode, made.stdout + made.stderr


# A field of use, what it must not be, and whether HL7's schema can tell. It cannot ask for a field that is one text or
# truth, since an extension may stand in its place; it says which fields an object has and not that it is one, knows no
# calendar and no least number, and takes any code for a status.
WRONG = [
    ("status", 5, True),
    ("status", "done", False),
    ("vaccineCode", "104", False),
    ("vaccineCode", {"coding": "104"}, True),
    ("vaccineCode", {"coding": [{"code": 104}]}, True),
    ("vaccineCode", {"text": 5}, True),
    ("patient", "Patient/1", False),
    ("patient", {"reference": 1}, True),
    ("patient", {"identifier": {"value": 1}}, True),
    ("patient", {"identifier": "t-1"}, False),
    ("occurrenceDateTime", 20180618, True),
    ("occurrenceDateTime", "18/06/2018", True),
    ("occurrenceDateTime", "2018-06-18T08:05:00", True),
    ("occurrenceDateTime", "2018-06-18T08:05", True),
    ("occurrenceDateTime", "2018-13-18", True),
    ("occurrenceDateTime", "2018-02-30", False),
    ("occurrenceDateTime", "2018-06-18T25:00:00Z", True),
    ("occurrenceDateTime", "2018-06-18T08:05:00+15:00", True),
    ("lotNumber", 5, True),
    ("lotNumber", [], True),
    ("expirationDate", 2018, True),
    ("expirationDate", "15/12/2018", True),
    ("expirationDate", "2018-12-15T00:00:00Z", True),
    ("expirationDate", "2018-00", True),
    ("doseQuantity", 5, False),
    ("doseQuantity", {"value": "5"}, True),
    ("doseQuantity", {"unit": 5}, True),
    ("isSubpotent", "false", True),
    ("isSubpotent", 0, True),
    ("subpotentReason", {}, True),
    ("subpotentReason", ["partial"], False),
    ("primarySource", "true", True),
    ("location", "main", False),
    ("location", {"display": 5}, True),
    ("manufacturer", [], False),
    ("statusReason", "MEDPREC", False),
    ("recorded", "yesterday", True),
    ("protocolApplied", {}, True),
    ("protocolApplied", [{"series": 2, "doseNumberPositiveInt": 1}], True),
    ("protocolApplied", [{"doseNumberPositiveInt": 0}], False),
    ("id", 5, True),
    ("id", "a b", True),
    ("id", "x" * 65, True),
    ("id", "", True),
]
REQUIRED = [
    ("status", False),
    ("vaccineCode", True),
    ("patient", True),
    ("occurrenceDateTime", False),
    ("resourceType", True),
]


def damage(checks, path, resource, case):
    """Wrong or missing fields are refused by the schema, where it can tell, and by the reader; the message names the
    field."""

    def both(what, damaged, field, schema_tells, here):
        if schema_tells:
            checks.equal(
                f"{what}: refused by the schema, where it can tell", HL7, SCHEMA.is_valid(damaged), False, here
            )
        status, said = refused(path, damaged)
        checks.equal(
            f"{what}: refused by the reader, which names the field",
            TYPES,
            (status, field.split("Date")[0] in said),
            (2, True),
            here,
        )

    for field, wrong, schema_tells in WRONG:
        damaged = copy.deepcopy(resource)
        if field == "occurrenceDateTime":
            damaged.pop("occurrenceString", None)
        damaged[field] = wrong
        both("a field of a wrong type or form", damaged, field, schema_tells, f"{case}: {field} {wrong!r}")
    for field, schema_tells in REQUIRED:
        damaged = {
            k: v for k, v in resource.items() if k != field and (field, k) != ("occurrenceDateTime", "occurrenceString")
        }
        both("a required field removed", damaged, field, schema_tells, f"{case}: without {field}")


def post_site_of_examples(cli):
    """Lots of the numbers that the examples state, one of them of two vaccines."""
    cli.post(
        [
            {"kind": "site", "name": "Reference", "zone": "Australia/Sydney"},
            {"kind": "place", "place": "unit", "name": "Unit", "type": "refrigerator", "range": LIMIT},
            *(
                {"kind": "product", "product": p, "name": p, "range": LIMIT, **more}
                for p, more in (("fluvax", {}), ("hepb", {}), ("hepab", {"cvx": "104"}))
            ),
            *(
                {"kind": "lot", "product": p, "lot": lot, "expiry": expiry}
                for p, lot, expiry in (
                    ("fluvax", "AAJN11K", "2015-02-15"),
                    ("hepb", "AAJN11K", "2015-02"),
                    ("hepab", "PT123F", "2018-12-15"),
                )
            ),
            *(
                {
                    "kind": "receive",
                    "at": "2012-12-01T00:00:00Z",
                    "place": "unit",
                    "product": p,
                    "lot": lot,
                    "doses": 10,
                }
                for p, lot in (("fluvax", "AAJN11K"), ("hepb", "AAJN11K"), ("hepab", "PT123F"))
            ),
        ]
    )


def give_records(cli, data, *words):
    made = subprocess.run(
        [PROGRAM, "give-records", "--ledger", cli.ledger, "--by", "RF", "-", "--format", "json", *words],
        input=data,
        capture_output=True,
    )
    return made.returncode, json.loads(made.stdout) if made.returncode == 0 else made.stderr.decode()


def examples_as_they_are(checks, cli, read):
    """None of them is a dose of a ledger of ours, each for its reason."""
    date = 'occurrenceDateTime "{}": a date without a time: state it with give'
    reasons = {
        "example": date.format("2013-01-10"),
        "subpotent": date.format("2015-01-15"),
        "protocol": date.format("2018-06-18"),
        "historical": "primarySource false: reported from elsewhere, no dose of this site",
        "notGiven": "not-done (MEDPREC)",
    }
    for name, resource in read.items():
        valid(checks, "official examples valid", resource, name)
        raw = (HERE / f"Immunization-{name}.json").read_bytes()
        for form, data in (
            ("as it is", raw),
            ("CR LF", raw.replace(b"\n", b"\r\n")),
            ("NDJSON", json.dumps(resource).encode() + b"\n"),
            (
                "Bundle",
                json.dumps(
                    {
                        "resourceType": "Bundle",
                        "type": "searchset",
                        "entry": [{"resource": {"resourceType": "Patient", "id": "p"}}, {"resource": resource}],
                    }
                ).encode(),
            ),
        ):
            status, said = give_records(cli, data)
            checks.equal(
                "official examples read, each with its reason",
                EXAMPLES,
                (status, [(x["id"], x["reason"]) for x in said["left_out"]], said["entries"]),
                (0, [(name, reasons[name])], []),
                f"{name}, {form}",
            )
        damage(checks, cli.ledger, resource, name)


def examples_told_a_time(checks, cli, read):
    """Those that are of doses given are doses of the ledger, once; one lot number of two vaccines is not guessed."""
    timed = [
        {**read[n], "occurrenceDateTime": f"{read[n]['occurrenceDateTime']}T09:30:00+10:00"}
        for n in ("example", "protocol", "subpotent")
    ]
    both = "".join(json.dumps(r) + "\r\n" for r in timed).encode()
    status, said = give_records(cli, both)
    got = [(e["product"], e["lot"], e["patient"], e["at"], e["doses"], e["note"]) for e in said["entries"]]
    # 2015-02-28 is the last day of the month that the ledger knows of the second lot of that number
    checks.equal(
        "official examples, told a time: doses of the ledger",
        EXAMPLES,
        got,
        [
            (
                "fluvax",
                "AAJN11K",
                "Patient/example",
                "2013-01-09T23:30:00Z",
                1,
                "FHIR Immunization/example; the record says it is subpotent",
            ),
            ("hepab", "PT123F", "Patient/example", "2018-06-17T23:30:00Z", 1, "FHIR Immunization/protocol"),
            (
                "hepb",
                "AAJN11K",
                "Patient/example",
                "2015-01-14T23:30:00Z",
                1,
                "FHIR Immunization/subpotent; the record states a reason of subpotency: partial",
            ),
        ],
        "three",
    )
    status, said = give_records(cli, both)
    checks.equal(
        "official examples, a second time: already noted",
        EXAMPLES,
        [x["reason"][:24] for x in said["left_out"]],
        ["already noted as entry 1"] * 3,
        "three",
    )
    ambiguous = {k: v for k, v in timed[0].items() if k != "expirationDate"} | {"id": "other"}
    status, said = give_records(cli, json.dumps(ambiguous).encode())
    checks.equal(
        "official examples: one lot number of two vaccines is not guessed",
        EXAMPLES,
        (status, '"fluvax"' in said and '"hepb"' in said),
        (2, True),
        "without expiry",
    )


def official_examples(checks):
    """The five are valid, and read; none of them is a dose of a ledger of ours, each for its reason; told a time, two
    of them are."""
    read = {
        p.stem.split("-")[1]: json.loads(p.read_text(encoding="utf-8"))
        for p in sorted(HERE.glob("Immunization-*.json"))
    }
    checks.equal(
        "official examples, by name",
        EXAMPLES,
        sorted(read),
        ["example", "historical", "notGiven", "protocol", "subpotent"],
        "names",
    )
    with Cli(PROGRAM) as cli:
        post_site_of_examples(cli)
        examples_as_they_are(checks, cli, read)
        examples_told_a_time(checks, cli, read)


def main():
    checks = Checks("fhir")
    official_examples(checks)
    with Cli(PROGRAM) as cli:
        made = subprocess.run(
            [SOURCE / "examples" / "run.sh", PROGRAM, cli.folder + "/x"], capture_output=True, text=True
        )
        if made.returncode != 0:
            sys.exit(f"examples/run.sh: {made.stderr}")
        cli.ledger = cli.folder + "/x/heron-flats.ledger"
        given = check_lines(checks, cli, "2026-05-29T17:00:00", "example")
        for resource in given[:3]:
            damage(checks, cli.ledger, resource, resource["id"])
    rng = random.Random(41)
    everything = []
    for case in range(40):
        entries, at, count = random_site(rng)
        with Cli(PROGRAM) as cli:
            cli.post(entries)
            lines = check_lines(checks, cli, at, f"site {case}")
            everything += lines
            checks.equal("doses given that stand", OURS, len(lines), count, case)
    notes = [[n["text"] for n in r["note"]] for r in everything]
    met = {
        "uncertain": sum(n[1].startswith("Not certain") for n in notes),
        "with a reason": sum(any(t.startswith("Why") for t in n) for n in notes),
        "under guidance": sum("case " in " ".join(n) for n in notes),
        "of a month as expiry": sum(len(r["expirationDate"]) == 7 for r in everything),
        "beyond ASCII": sum(not json.dumps(r, ensure_ascii=False).isascii() for r in everything),
        "with CVX": sum("coding" in r["vaccineCode"] for r in everything),
        "of several doses": sum("doseQuantity" in r for r in everything),
    }
    if min(met.values()) < 10:
        sys.exit(f"too few resources of a kind: {met}")
    checks.done(3000)


main()
