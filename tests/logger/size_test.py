"""However large a logger's file is, importing it holds less than 64 MiB, one that can be read 48 at most, and takes
time linear in it; beyond the limits of lib/text/limits.md it is refused in their words, with nothing written.

Usage: size_test.py COLDTALLY SOURCE_DIR"""
import datetime
import hashlib
import json
import os
import pathlib
import subprocess
import sys
import tempfile

COLDTALLY, SOURCE = os.path.abspath(sys.argv[1]), pathlib.Path(sys.argv[2])
ROWS, MIB = 2_000_000, 1 << 20
PAGE = (SOURCE / "lib" / "text" / "limits.md").read_text()
SITE = """{"kind":"site","name":"Demo","zone":"America/Chicago","by":"ab"}
{"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}},"by":"ab"}
{"kind":"probe","probe":"p","scale":"C","by":"ab"}
{"kind":"assign","at":"2000-01-01T00:00:00Z","probe":"p","place":"main","by":"ab"}
"""
bad = []


# asks from a small process: what a child takes counts from its parent's size on
ASK = """import json, resource, subprocess, sys
p = subprocess.run(sys.argv[1:], capture_output=True)
print(json.dumps([p.returncode, p.stdout.decode(), p.stderr.decode(), \
resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss // 1024]))"""


def run(*argv, text=None, stdin=None):
    """Status, output, what it says of errors, and the MiB that it took at most."""
    p = subprocess.run(
        [sys.executable, "-c", ASK, COLDTALLY, *argv], input=text, stdin=stdin, capture_output=True, check=True
    )
    return json.loads(p.stdout)


def imported(name, path, *options, status=0, words="", on_page=True, stdin=None, most=63):
    status_, out, err, peak = run(
        "import", ledger, path, "--probe", "p", "--by", "ab", "--format", "json", *options, stdin=stdin
    )
    print(f"{name}: {peak} MiB")
    if status_ != status or words not in err:
        bad.append(f"{name}: status {status_}: {err[:300]}")
    if peak > most:
        bad.append(f"{name}: {peak} MiB")
    if on_page and words not in PAGE:
        bad.append(f"{words}: is not on the page")
    return json.loads(out)["files"][0] if status_ == 0 else None


def content(rows, first="2001-01-01T00:00", step=60, tail="", title="Time,Temp (C)\n"):
    """Rows of the site's clock, a minute apart, written in parts."""
    at = datetime.datetime.fromisoformat(first)
    yield title
    part = []
    for i in range(rows):
        part.append(f"{at:%Y-%m-%d %H:%M},{4 + i % 7 / 10:.1f}{tail}\n")
        at += datetime.timedelta(seconds=step)
        if len(part) == 50_000:
            yield "".join(part)
            part = []
    yield "".join(part)


def write(path, parts):
    with open(path, "w") as out:
        out.writelines(parts)
    return os.path.getsize(path)


with tempfile.TemporaryDirectory() as folder:
    os.chdir(folder)
    ledger = folder + "/x.ledger"
    assert run("post", ledger, "-", text=SITE.encode())[0] == 0
    before = hashlib.sha256(open(ledger, "rb").read()).digest()

    # what is no file of a logger
    with open("commas.csv", "wb") as out:
        for _ in range(100):
            out.write(b"," * MIB)
    imported("100 MiB of commas in a line", "commas.csv", status=2, words="looks like a row", on_page=False)
    with open("commas.csv", "wb") as out:
        for _ in range(100):
            out.write((b"," * 31 + b"\n") * (MIB // 32))
    imported("100 MiB of commas in lines", "commas.csv", status=2, words="looks like a row", on_page=False)
    with open("commas.csv", "wb") as out:
        out.write(b"2016-03-02 08:05,4.2\n2016-03-02 08:10,4.2\n")
        for _ in range(60):
            out.write(b"," * MIB + b"\n" * MIB)
    imported(
        "rows, then 120 MiB of commas and line ends",
        "commas.csv",
        status=2,
        words="is longer than 1024 bytes; the rows of a logger are short",
    )
    with open("commas.csv", "wb") as out:
        out.truncate(512 * MIB + 1)
    imported("a byte more than 512 MiB", "commas.csv", status=2, words="larger than 512 MiB; split it")
    with open("commas.csv", "wb") as out:
        out.truncate(4096 * MIB)
    imported("4 GiB", "commas.csv", status=2, words="larger than 512 MiB; split it")
    os.remove("commas.csv")

    # rows to the limit, guessed, at an offset that a layout states, and by the careful way
    layout = ["--columns", "instant=1,temperature=2", "--instant-pattern", "%Y-%m-%d %H:%M"]
    size = write("rows.csv", content(ROWS, step=300, first="2001-01-01T00:00"))
    fixed = ["--offset=-06:00", "--scale", "C", *layout]
    careful = [*fixed, "--ignore", "^no line is so$"]
    for name, options, most in (
        ("guessed", ["--zone", "Etc/GMT+6"], 48),
        ("with a layout", fixed, 48),
        ("the careful way", careful, 63),
    ):
        file = imported(f"{ROWS} rows, {size // MIB} MiB, {name}", "rows.csv", *options, "--dry-run", most=most)
        if file and (file["rows_kept"], file["longest_step_s"]) != (ROWS, 300):
            bad.append(f"{name}: kept {file['rows_kept']} rows")
    with open("rows.csv", "rb") as pipe:
        file = imported("the same through a pipe", "-", *fixed, "--dry-run", stdin=pipe)
    with open("rows.csv", "a") as out:
        out.write("2021-01-01 00:00,4.0\n")
    for options in (["--zone", "Etc/GMT+6"], fixed, careful):
        imported(
            "a row more", "rows.csv", *options, "--dry-run", status=2, words="has more than 2000000 rows; split it"
        )
    os.remove("rows.csv")

    # few rows in much text, of another encoding; into a ledger, and a second time over what is there
    rows = 200_000
    parts = "".join(content(rows, tail="," + "é" * 150, title="Time,Temp (C),Note\n", first="2010-01-05T00:00"))
    with open("wide.csv", "wb") as out:
        out.write(parts.encode("utf-16"))
    del parts
    size = os.path.getsize("wide.csv")
    options = ["--zone", "UTC", *layout]
    if hashlib.sha256(open(ledger, "rb").read()).digest() != before:
        bad.append("a refusal or a dry run wrote into the ledger")
    file = imported(f"UTF-16, {size // MIB} MiB", "wide.csv", *options)
    if file and (file["rows_kept"], len(file["entries"])) != (rows, 2):
        bad.append(f"UTF-16: kept {file['rows_kept']} rows in {file['entries']}")
    write("again.csv", content(rows + 100, first="2010-01-05T00:00"))
    file = imported("over what is there", "again.csv", *options)
    if file and (file["rows_kept"], file["rows_repeated"]) != (100, rows):
        bad.append(f"over what is there: {file['rows_kept']} kept, {file['rows_repeated']} repeated")
    # parts in another order: a memory that was written in a ring
    lines = "".join(content(1_000_000, first="2014-01-01T00:00")).splitlines(keepends=True)
    with open("ring.csv", "w") as out:
        out.writelines([lines[0], *lines[500_001:], *lines[1:500_001]])
    del lines
    file = imported("a ring of a million rows", "ring.csv", *options, "--dry-run", most=48)
    if file and file["rows_kept"] != 1_000_000:
        bad.append(f"a ring: {file['rows_kept']} kept")
    if run("verify", ledger)[0] != 0:
        bad.append("verify finds something")
print("\n".join(bad) or "ok")
sys.exit(1 if bad else 0)
