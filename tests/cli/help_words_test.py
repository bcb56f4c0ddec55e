"""Help: the page of all commands fits a screen, everyday words lead to the command, and slips are offered what is near.
The words are those a person at the refrigerator would use; which command they lead to is our choice, no source.

Usage: help_words_test.py COLDTALLY"""
import os
import re
import subprocess
import sys

COLDTALLY = os.path.abspath(sys.argv[1])
tried = 0


def call(*words):
    global tried
    tried += 1
    return subprocess.run([COLDTALLY, *words], capture_output=True, text=True, env={"PATH": "/usr/bin:/bin"})


def page(*words):
    done = call(*words)
    assert done.returncode == 0 and done.stderr == "", (words, done)
    return done.stdout


def refused(*words):
    done = call(*words)
    assert done.returncode == 2 and done.stdout == "" and done.stderr.count("\n") == 1, (words, done)
    return done.stderr


# ---- the page of all
overview = page("--help")
lines = overview.splitlines()
assert len(lines) <= 50 and max(map(len, lines)) <= 80, (len(lines), max(map(len, lines)))
assert page("help") == page("-h") == overview
headings = [line for line in lines if line in ("Every day:", "Something is wrong:", "What must be known:")]
headings += [line for line in lines if line in ("Setting up:", "The file:")]
assert len(headings) == 5 and [line for line in lines if line in headings] == headings
rows = re.findall(r"^  ([a-z-]+(?:, [a-z-]+)*)  +(\S.*)$", overview, re.M)
commands = [name for names, _ in rows for name in names.split(", ")]
assert len(commands) == len(set(commands)) > 60
under = {}
for line in lines:
    if line in headings:
        group = under[line] = []
    elif line.startswith("  "):
        group += re.match(r"  ([a-z-]+(?:, [a-z-]+)*)  ", line)[1].split(", ")
assert {"lists", "check", "receive", "give", "takeback"} <= set(under["Every day:"])
assert {"notice", "hold", "review"} <= set(under["Something is wrong:"])
assert {"readiness", "accountability"} <= set(under["What must be known:"])
assert {"site", "place"} <= set(under["Setting up:"]) and {"verify", "backup"} <= set(under["The file:"])
assert sum(map(len, under.values())) == len(commands)

# ---- the page of one
for command in commands:
    own = page(command, "--help")
    assert page("help", command) == own == page("--help", command), command
    assert own.split("\n")[0] and "Usage: coldtally " + command in own, command

# ---- everyday words
FIRST = {  # the command that comes first
    "undo": "takeback",
    "a mistake": "takeback",
    "Mistakes": "takeback",
    "delete": "takeback",
    "borrow": "loans",
    "open vial": "beyond-use",
    "Opening a vial": "beyond-use",
    "deliver": "receive",
    "delivery": "receive",
    "DELIVERIES": "receive",
    "throw out": "waste",
    "thermometers": "check",
    "power failure": "notice",
    "the power is out": "notice",
    "fridge broken": "notice",
    "alarm": "notice",
    "stocktake": "count",
    "vaccinate": "give",
    "barcode": "scan",
    "why": "explain",
    "inspector": "readiness",
    "calibration": "certificate",
    "new fridge": "place",
    "wrong dose given": "review",
    "who was trained": "training",
    "someone left the door open": "notice",
    "pay back": "repayment",
    "emergency plan": "plan",
    "cooler": "pack",
    "undo the delivery I entered twice": "receive",
    "move list": "move-list",
    "fhir": "immunizations",
    "tampered": "verify",
}
AMONG = {  # several do; these must be there
    "log": {"check", "import", "entries"},
    "quarantine": {"hold", "guidance", "lists"},
    "temperature": {"check", "import", "excursions", "conditions"},
    "fridge": {"check", "notice", "place"},
    "expired": {"dates", "lists", "waste"},
    "expiry": {"dates", "lot"},
    "throw away": {"lists", "waste"},
    "recall": {"hold", "follow-up", "review", "guidance"},
    "borrowed": {"loans", "loan", "repayment"},
    "patient": {"give", "review", "follow-up", "patient-step"},
    "Patients'": {"give", "review", "follow-up", "patient-step"},
    "power failures": {"notice", "plan", "move-list"},
    "inventory": {"stock", "count"},
    "manufacturer": {"report", "answer", "maker"},
    "backup fridge": {"plan"},
}
for words, want in {**{w: {c} for w, c in FIRST.items()}, **AMONG}.items():
    for said in (words.split(" "), [words]):  # as the shell splits them, or in quotes
        found = page("help", *said)
        named = re.findall(r"^([a-z-]+): ", found, re.M)
        assert want <= set(named), (words, named)
        if words in FIRST:
            assert words == "undo the delivery I entered twice" or named[0] == FIRST[words], (words, named)
        assert len(named) <= 6 and max(map(len, found.splitlines())) <= 140, found
# each with its line and its example, as its page has them
found = page("help", "undo")
own = page("takeback", "--help")
assert own.splitlines()[0] in " ".join(found.split()), found
assert "\n    coldtally takeback 812 'entered twice' --dry-run\n" in found and "entered twice' --dry-run" in own
# every word of the tables leads to its command: each command has some by which it is found
assert all(f"{c}: " in page("help", c.replace("-", " ")) or f"coldtally {c} " in page("help", c) for c in commands)

# ---- words that lead nowhere
said = refused("help", "quarentine")
assert 'did you mean "quarantine" (' in said and "hold" in said, said
assert '"expired" (' in refused("help", "exipred")
said = refused("help", "zzzzzzzz")
assert "no command is known by these words (coldtally --help names all commands)" in said, said
assert "no command" in refused("help", "the") and "no command" in refused("help", "")
assert "no command" in refused("help", "?!")

# ---- slips
for slip, meant in (
    ("stok", "stock"),
    ("recieve", "receive"),
    ("Stock", "stock"),
    ("list", "lists"),
    ("takebak", "takeback"),
    ("account", "accountability"),
    ("undo", "takeback"),
    ("bororw", '"borrow" ('),
):
    said = refused(slip)
    assert f'"{slip}" is not a command; did you mean ' in said and meant in said, said
assert '"xyzzyx" is not a command (coldtally --help says what is right)' in refused("xyzzyx")
assert "did you mean --help?" in refused("--hlep") and "no option of coldtally" in refused("--quiet")
assert "no command is given" in refused()
for words, meant in (
    (["stock", "x", "--fromat", "json"], '"--fromat" is no option of stock; did you mean --format?'),
    (["lists", "x", "--know=2026-01-01"], '"--know" is no option of lists; did you mean --known-on?'),
    (["check", "main", "4", "--mni", "3"], '"--mni" is no option of check; did you mean --min?'),
    (["import", "x", "--columms", "a"], "did you mean --columns?"),
    (["stock", "x", "--zzz"], '"--zzz" is no option of stock (coldtally stock --help says what is right)'),
):
    assert meant in refused(*words), (words, refused(*words))
# where words may be a patient's, none is repeated
said = refused("give", "K1", "t-1", "--t-4711")
assert "t-4711" not in said and "there is an option that give does not take (" in said, said
assert "did you mean --vial?" in refused("give", "K1", "t-1", "--vail", "3")
print(f"{tried} passed, 0 failed")
