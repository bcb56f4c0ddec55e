"""GS1 codes: printed by zint and read back from the picture by ZXing, then by us; element strings taken apart by an
independent parser (gs1/README.md); and what zint's own checks refuse or warn of, we refuse."""
import json
import os
import pathlib
import random
import re
import subprocess
import sys
import tempfile

import matplotlib.image
import numpy
import zxingcpp

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE))
from common import Checks

PROGRAM = sys.argv[1]
YEAR = 2026  # that of gs1/before.js
GS = "\x1d"
# GS1 General Specifications, figure 7.11-1, from memory
LETTERS = "!\"%&'()*+,-./0123456789:;<=>?ABCDEFGHIJKLMNOPQRSTUVWXYZ_abcdefghijklmnopqrstuvwxyz"
PREDEFINED = ("00", "01", "02", "11", "13", "15", "16", "17", "20", "31", "32", "33", "34", "35", "36", "41")
MEASURES = ["310", "311", "315", "320", "330", "336", "340", "356", "360", "369"]


def check_digit(body):
    return str(-sum(int(c) * (3 if i % 2 == 0 else 1) for i, c in enumerate(reversed(body))) % 10)


def digits(rng, n):
    return "".join(rng.choice("0123456789") for _ in range(n))


def text(rng, most, letters=LETTERS):
    return "".join(rng.choice(letters) for _ in range(rng.randrange(1, most + 1)))


def date(rng):
    month = rng.randrange(1, 13)
    return f"{rng.randrange(100):02}{month:02}{rng.randrange(0, 29 if month == 2 else 31):02}"


def element(rng):
    """An application identifier and a value that it may have."""
    kind = rng.randrange(12)
    if kind == 0:
        body = digits(rng, 17)
        return "00", body + check_digit(body)
    if kind <= 2:
        body = digits(rng, 13)
        return "01", body + check_digit(body)
    if kind <= 4:
        return rng.choice(("10", "21")), text(rng, 20)
    if kind <= 6:
        return rng.choice(("11", "13", "15", "16", "17")), date(rng)
    if kind == 7:
        return rng.choice(MEASURES) + rng.choice("012345"), digits(rng, 6)
    if kind == 8:
        body = digits(rng, 12)
        return rng.choice(("410", "412", "414")), body + check_digit(body)
    if kind == 9:
        return rng.choice(("240", "241", "250", "400", "710", "712")), text(rng, 20)
    if kind == 10:
        return rng.choice(("30", "37")), digits(rng, rng.randrange(1, 9))
    return rng.choice(("90", "91", "99")), text(rng, 30)


def elements(rng, most):
    out = {}
    for _ in range(rng.randrange(1, most + 1)):
        ai, value = element(rng)
        out.setdefault(ai, value)
    return list(out.items())


def transmitted(parts):
    """As a scanner sends it: a separator after what has no predefined length, but not at the end."""
    out = ""
    for i, (ai, value) in enumerate(parts):
        out += ai + value + (GS if ai[:2] not in PREDEFINED and i + 1 < len(parts) else "")
    return out


def ask(codes):
    """For each code: its elements and the expiry, or None where it is refused."""
    lines = "".join(f"gs1 {YEAR} {code.encode('latin-1').hex()}\n" for code in codes)
    made = subprocess.run([PROGRAM], input=lines, capture_output=True, text=True, check=True).stdout.splitlines()
    if len(made) != len(codes):
        sys.exit(f"{len(made)} answers to {len(codes)} codes")
    return [None if line == "refused" else taken_apart(line) for line in made]


def taken_apart(line):
    parts = []
    while line.startswith("("):
        ai, rest = line[1:].split(")", 1)
        length, rest = rest.split(":", 1)
        parts.append((ai, rest[: int(length)]))
        line = rest[int(length) + 1 :]
    return parts, line


def parsed_by_the_other(codes):
    script = (HERE / "gs1" / "before.js").read_text() + (
        HERE / "gs1" / "gs1-barcode-parser-mod.min.js"
    ).read_text().replace("const ", "var ", 1)
    script += (
        f"\n;var codes = {json.dumps(codes)};\n"
        "for (var i = 0; i < codes.length; ++i) print(JSON.stringify(exports.parseBarcode(codes[i])"
        ".parsedCodeItems.map(function (e) { return [e.ai, e.raw, e.isoDate]; })));\n"
    )
    with tempfile.NamedTemporaryFile("w", suffix=".js", encoding="utf-8") as file:
        file.write(script)
        file.flush()
        made = subprocess.run(["duk", file.name], capture_output=True, text=True)
    if made.returncode != 0:
        sys.exit(f"the parser stopped: {made.stdout[-500:]} {made.stderr}")
    return [json.loads(line) for line in made.stdout.splitlines()]


class Printer:
    """Symbols printed by zint, and what it says of their data."""

    KINDS = {"]d2": 71, "]C1": 16, "]Q3": 58}

    def __init__(self, folder):
        self.picture = os.path.join(folder, "symbol.png")
        self.version = subprocess.run(["zint", "--version"], capture_output=True, text=True, check=True).stdout.split()[
            -1
        ]

    def says(self, parts, symbology):
        made = subprocess.run(
            [
                "zint",
                "-b",
                str(self.KINDS[symbology]),
                "--gs1",
                "--quietzones",
                "--scale=2",
                "-o",
                self.picture,
                "-d",
                "".join(f"[{ai}]{value}" for ai, value in parts),
            ],
            capture_output=True,
            text=True,
        )
        return made.stderr + (" error" if made.returncode != 0 else "")

    def objects_to(self, parts, symbology):
        said = self.says(parts, symbology)
        return "arning" in said or "rror" in said

    def read_back(self):
        """What a scanner sends of the picture: symbology identifier and text; None where nothing is seen."""
        picture = (matplotlib.image.imread(self.picture)[:, :, 0] * 255).astype("uint8")
        seen = zxingcpp.read_barcode(numpy.ascontiguousarray(numpy.pad(picture, 40, constant_values=255)))
        return seen and seen.symbology_identifier + seen.bytes.decode("latin-1")


def longest_value(rng, form):
    """The longest value of a format of lib/standards/gs1_formats.hpp."""
    out = ""
    for part in form.split():
        kind, _, more = part.strip("[]").partition(",")
        length = int(kind[1:].lstrip("."))
        if more == "csum":
            body = digits(rng, length - 1)
            out += body + check_digit(body)
        elif more in ("date", "date0"):
            out += "261130"
        elif more == "time":
            out += "1230"
        else:
            out += text(rng, 1, "123456789" if kind[0] == "N" else "ABC123") * length
    return out


def every_length(rng, checks, printer):
    """Of every identifier that zint knows: the longest value, and one that is longer by one."""
    formats = (HERE.parent.parent / "lib" / "standards" / "gs1_formats.hpp").read_text(encoding="utf-8")
    for first, last, form in re.findall(r'\{"(\d+)", "(\d+)", "([^"]+)"\}', formats):
        for ai in sorted({first, last} - {"8110", "8112"}):  # coupons, whose inner lengths we do not look at
            value = longest_value(rng, form)
            for given in (value, value + "1"):
                said = printer.says([(ai, given)], "]d2")
                if "Invalid AI" not in said:
                    checks.equal(
                        "length of every identifier",
                        f"zint {printer.version}, as far as it knows them",
                        ask([f"({ai}){given}"])[0] is None,
                        "Invalid data length" in said,
                        (ai, given),
                    )


def damaged(rng, parts):
    """One value made wrong, or perhaps only other: zint says which."""
    out = list(parts)
    i = rng.randrange(len(out))
    ai, value = out[i]
    at = rng.randrange(len(value))
    out[i] = (
        ai,
        rng.choice(
            (
                value[:at] + rng.choice("0123456789") + value[at + 1 :],
                value[:at] + rng.choice("AZ#~") + value[at + 1 :],
                value + digits(rng, rng.choice((1, 9))),
                value[:-1] or "0",
            )
        ),
    )
    return out


def main():
    rng = random.Random(17)
    checks = Checks("gs1")
    other = "gs1-barcode-parser-mod 1.2.1"

    many = [elements(rng, 6) for _ in range(20000)]
    codes = [rng.choice(("]d2", "]C1", "]Q3")) + transmitted(parts) for parts in many]
    for parts, code, got, theirs in zip(many, codes, ask(codes), parsed_by_the_other(codes)):
        checks.equal(
            "elements of a transmitted code", other, got and got[0], [(ai, raw) for ai, raw, _ in theirs], code
        )
        if got and got[0] != parts:
            sys.exit(f"{code!r}: {got[0]}, made of {parts}")
        for ai, _, iso in theirs:
            if ai == "17":
                checks.equal("expiry: century and day 00", other, got and got[1], iso, code)

    with tempfile.TemporaryDirectory() as folder:
        printer = Printer(folder)
        scanner = f"zint {printer.version} and ZXing-C++"
        for n in range(400):
            symbology = ("]d2", "]C1", "]Q3")[n % 3]
            parts = elements(rng, 4 if symbology != "]C1" else 1)
            if sum(len(ai + value) for ai, value in parts) > 44 and symbology == "]C1":
                continue  # more than a GS1-128 holds
            if symbology == "]Q3" and any("%" in value for _, value in parts):
                continue  # in a QR Code, zint and ZXing do not agree on this character
            if printer.objects_to(parts, symbology):
                sys.exit(f"zint does not take {parts}")
            seen = printer.read_back()
            if seen is None:
                sys.exit(f"{symbology} {parts}: ZXing sees no code")
            checks.equal(
                "a printed code read back from its picture", scanner, ask([seen])[0] and ask([seen])[0][0], parts, seen
            )

        every_length(rng, checks, printer)
        wrong = [damaged(rng, elements(rng, 3)) for _ in range(700)]
        taken = ["objected to" if printer.objects_to(parts, "]d2") else "taken" for parts in wrong]
        ours = ask(["".join(f"({ai})" + value.replace("(", "\\(") for ai, value in parts) for parts in wrong])
        for parts, theirs, got in zip(wrong, taken, ours):
            checks.equal(
                "values that may and may not be",
                f"zint {printer.version}",
                "objected to" if got is None else "taken",
                theirs,
                parts,
            )
        if not 100 < taken.count("taken") < 600:
            sys.exit(f"{taken.count('taken')} of {len(taken)} were taken: not much of a choice")
    checks.done(20000)


main()
