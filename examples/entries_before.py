"""Prints the demo clinic's entries from before an instant (the clinic's local time), in the order in which run.sh posts
them.

Usage: entries_before.py 2026-03-19T13:00:00 ROUTINE    (ROUTINE: the folder that make_entries.py has filled)
All data are invented."""
import json
import pathlib
import sys

before, routine = sys.argv[1], pathlib.Path(sys.argv[2])
story = pathlib.Path(__file__).resolve().parent / "entries"
# A void names the number of an entry of the story, which stands as long as none before it is left out: the story is in
# the order of time, but for the definitions, which have none.
for chapter in sorted(story.glob("*.jsonl")) + sorted(routine.glob("*.jsonl")):
    for line in chapter.read_text().splitlines():
        if json.loads(line).get("at", "") < before:
            print(line)
