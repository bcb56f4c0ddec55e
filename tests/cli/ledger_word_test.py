"""Which word is the ledger: every way to name it, in every command that takes one, and what is said of the wrong ones.
All data invented.

Usage: ledger_word_test.py COLDTALLY"""
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile

COLDTALLY = os.path.abspath(sys.argv[1])
folder = tempfile.TemporaryDirectory()
CSV = "Time,Temp (C)\n2026-03-02 08:00,4.1\n2026-03-02 08:05,4.2\n"
tried = 0


def call(*words, ledger=None):
    environment = {"PATH": "/usr/bin:/bin", "COLDTALLY_BY": "ab"}
    if ledger is not None:
        environment["COLDTALLY_LEDGER"] = ledger
    return subprocess.run([COLDTALLY, *words], capture_output=True, text=True, env=environment, cwd=folder.name)


def answers(site, *words, ledger=None):
    """The answer is that of the site."""
    global tried
    tried += 1
    done = call(words[0], "--format", "json", *words[1:], ledger=ledger)
    assert done.returncode == 0, (words, ledger, done)
    said = json.loads(done.stdout)
    assert said["ledger"] == site, (words, ledger, said["ledger"])
    return said


def refused(says, *words, ledger=None):
    """One line that says it, status 2, and no file changed."""
    global tried
    tried += 1
    before = {p.name: p.read_bytes() for p in pathlib.Path(folder.name).iterdir()}
    done = call(*words, ledger=ledger)
    assert done.returncode == 2 and done.stdout == "" and done.stderr.count("\n") == 1, (words, ledger, done)
    assert says in done.stderr, (words, ledger, done.stderr)
    assert {p.name: p.read_bytes() for p in pathlib.Path(folder.name).iterdir()} == before, words


def site(name, ledger):
    lines = [
        {"kind": "site", "name": name, "zone": "UTC", "by": "ab"},
        {
            "kind": "place",
            "place": "main",
            "name": "Main",
            "type": "refrigerator",
            "range": {"low": {"C": "2"}, "high": {"C": "8"}},
            "by": "ab",
        },
        {"kind": "probe", "probe": "p1", "scale": "C", "by": "ab"},
    ]
    text = "\n".join(json.dumps(line) for line in lines)
    path = pathlib.Path(folder.name) / f"{name}.jsonl"
    path.write_text(text)
    done = call("post", ledger, path.name)
    assert done.returncode == 0, done


site("Here", "here.ledger")
site("There", "there")  # a name that looks like no ledger
pathlib.Path(folder.name, "a.csv").write_text(CSV)
pathlib.Path(folder.name, "b.csv").write_text(CSV.replace("08:0", "09:0"))
WINDOW = ["--from", "2026-03-01", "--until", "2026-03-08"]

# A command with as many words as it must have: no word, one word, one of two.
for fixed in (["stock"], ["unit", "main"], ["excursions", "main", *WINDOW]):
    command, own, options = fixed[0], fixed[1:2], fixed[2:]
    answers("Here", command, "here.ledger", *own, *options)
    answers("There", command, "there", *own, *options)
    answers("There", command, *options, "there", *own)  # options before words
    answers("There", command, *options, "--", "there", *own)
    answers("There", command, "--ledger", "there", *own, *options)
    answers("There", command, *own, *options, "--ledger=there")
    answers("There", command, *own, *options, ledger="there")
    answers("Here", command, "here.ledger", *own, *options, ledger="there")
    answers("There", command, "there", *own, *options, ledger="here.ledger")
    answers("There", command, "there", *own, *options, ledger="")
    answers("There", command, *own, *options, "--ledger", "there", ledger="here.ledger")
    answers("There", command, *own, *options, "--ledger", "there", ledger="no such file")
    named_twice = "is a word too many: --ledger names the ledger"
    refused('"here.ledger" ' + named_twice, command, "here.ledger", *own, *options, "--ledger", "there")
    refused('"there" ' + named_twice, command, "there", *own, *options, "--ledger", "there", ledger="there")
    refused("--ledger", command, *own, *options, "--ledger", "there", "--ledger", "here.ledger")
    refused("not expected: more", command, "there", *own, "more", *options)
    refused("not expected: more", command, "there", *own, "more", *options, ledger="here.ledger")
    refused("LEDGER is required, unless --ledger or COLDTALLY_LEDGER names it", command, *options)
    refused("no such ledger", command, "no.ledger", *own, *options)
    refused("no such ledger", command, "no.ledger", *own, *options, ledger="here.ledger")
    refused("no such ledger", command, *own, *options, "--ledger", "no.ledger", ledger="here.ledger")
    refused("no such ledger", command, *own, *options, "--ledger=", ledger="here.ledger")

# A word is missing: which, and what the first word was taken for.
refused('PLACE is required: "main" is taken for the ledger', "unit", "main")
refused("as neither --ledger nor COLDTALLY_LEDGER names one", "excursions", "here.ledger", *WINDOW)
refused("PLACE is required (coldtally unit --help", "unit", ledger="there")
refused("PLACE is required (coldtally unit --help", "unit", "--ledger", "there")
refused(
    'place: "here.ledger": no place of this id is known', "unit", "here.ledger", ledger="there"
)  # by the number of words

# A command that takes words or not: the number of words does not tell, where COLDTALLY_LEDGER is set.
for command in ("incident", "rules"):
    answers("Here", command, "here.ledger")
    answers("There", command, "there")
    answers("There", command, "--ledger", "there")
    answers("There", command, ledger="there")
    answers("Here", command, "here.ledger", ledger="there")  # it ends as ledgers do
    answers("There", command, "there", ledger="there")  # it is what is set
    answers("There", command, "--ledger", "there", ledger="here.ledger")
    refused("no such ledger", command, "2026-1.ledger", ledger="there")
    refused("no such ledger", command, "main")
    refused("not expected: more", command, "there", "main", "more")
answers("There", "rules", "main", ledger="there")
answers("There", "rules", "main", "--ledger", "there")
answers("There", "rules", "there", "main", ledger="here.ledger")
answers("Here", "rules", "here.ledger", "main", ledger="there")
refused('incident: "2026-1": no incident of this name is known', "incident", "2026-1", ledger="there")
refused('incident: "there": no incident', "incident", "there", ledger="here.ledger")  # whatever files there are
NOT_TAKEN = '"there" is not taken for the ledger, as COLDTALLY_LEDGER names it; --ledger names another'
refused(NOT_TAKEN, "incident", "there", ledger="here.ledger")
refused(NOT_TAKEN, "rules", "there", ledger="here.ledger")
refused(NOT_TAKEN, "import", "there", "a.csv", "--probe", "p1", ledger="here.ledger")
refused('incident: "here.ledger": no incident', "incident", "here.ledger", "--ledger", "there")

# Any number of files.
GIVEN = ["--probe", "p1", "--dry-run", "--format", "json"]


def files(words, expected, ledger=None):
    global tried
    tried += 1
    done = call("import", *words, *GIVEN, ledger=ledger)
    assert done.returncode == 0, (words, ledger, done)
    assert [f["name"] for f in json.loads(done.stdout)["files"]] == expected, done.stdout


files(["here.ledger", "a.csv"], ["a.csv"])
files(["there", "a.csv", "b.csv"], ["a.csv", "b.csv"])
files(["a.csv", "b.csv", "--ledger", "there"], ["a.csv", "b.csv"])
files(["a.csv", "b.csv"], ["a.csv", "b.csv"], ledger="there")
files(["a.csv"], ["a.csv"], ledger="there")
files(["here.ledger", "a.csv", "b.csv"], ["a.csv", "b.csv"], ledger="there")
files(["there", "a.csv"], ["a.csv"], ledger="there")
files(["--no-reading", "--", "here.ledger", "a.csv"], ["a.csv"], ledger="there")  # the dashes are an option's value
refused("FILE is required", "import", "here.ledger", "--probe", "p1")
refused("FILE is required", "import", "--probe", "p1", ledger="there")
refused("here.ledger", "import", "here.ledger", "--probe", "p1", ledger="there")  # no logger's file
refused("here.ledger", "import", "here.ledger", "a.csv", "--probe", "p1", "--ledger", "there")

# What makes a ledger takes its name the same ways.
ENTRIES = call("export", "here.ledger").stdout
pathlib.Path(folder.name, "out.jsonl").write_text(ENTRIES)
for number, (words, ledger) in enumerate(
    [(["NEW", "out.jsonl"], None), (["out.jsonl", "--ledger", "NEW"], "there"), (["out.jsonl"], "NEW")]
):
    new = f"new-{number}"
    done = call("replay", *[w.replace("NEW", new) for w in words], ledger=ledger and ledger.replace("NEW", new))
    assert done.returncode == 0, done
    assert call("export", "--ledger", new).stdout == ENTRIES
    copy = f"copy-{number}"
    back_up = [[new, copy], [copy, "--ledger", new], [copy]][number]
    done = call("backup", *back_up, ledger=new if number == 2 else None)
    assert done.returncode == 0, done
    restored = f"restored-{number}"
    back = [[copy, restored], [copy, "--ledger", restored], [copy]][number]
    done = call("restore", *back, ledger=restored if number == 2 else None)
    assert done.returncode == 0, done
    assert call("export", ledger=restored).stdout == ENTRIES
refused("NEW is required, unless --ledger or COLDTALLY_LEDGER names it", "restore", "copy-0")
refused("COPY is required", "restore", ledger="newer")
refused('"newer" is a word too many: --ledger names', "restore", "copy-0", "newer", "--ledger", "newest")
refused("there", "restore", "copy-0", ledger="there")  # nothing may be there

# The commands of everyday work: an option or the variable, and a word that was meant for it is named.
for command, words in (("hold", ["why", "--place", "main"]), ("check", ["main", "4.0"])):
    for ways, ledger in ((["--ledger", "there"], None), ([], "there"), (["--ledger", "there"], "here.ledger")):
        done = call(command, *words, *ways, "--dry-run", ledger=ledger)
        assert "main" in done.stdout or "main" in done.stderr, done
    refused("--ledger is required, unless COLDTALLY_LEDGER names it", command, *words)
    too_many = f'"here.ledger" is a word too many: {command} takes the ledger from --ledger or COLDTALLY_LEDGER'
    refused(too_many, command, "here.ledger", *words, ledger="there")
    refused(too_many, command, "here.ledger", *words, "--ledger", "there")

# Every command with LEDGER takes all three ways; every other one but those of no ledger takes --ledger.
overview = call("--help").stdout
commands = ", ".join(re.findall(r"^  ([a-z-]+(?:, [a-z-]+)*)  ", overview, re.M)).split(", ")
assert len(commands) > 60
for command in set(commands) - {"help", "template"}:
    page = call(command, "--help").stdout
    assert re.search(r"^  --ledger TEXT", page, re.M) and "COLDTALLY_LEDGER" in page, command
    usage = re.search(r"^Usage: .*", page, re.M)[0]
    for word in re.findall(r"\[OPTIONS\] (LEDGER)\b", usage):
        refused(
            f"{word} is required, unless --ledger or COLDTALLY_LEDGER names it",
            command,
            *(("--probe", "p1") if command == "import" else ()),
        )
print(f"{tried} passed, 0 failed")
