#!/bin/bash
# run.sh COLDTALLY WORKDIR: the demo clinic's ledger from nothing to its lists.  All data are invented.
set -euo pipefail

if [ $# -ne 2 ]; then
    echo "usage: run.sh COLDTALLY WORKDIR" >&2
    exit 2
fi
here=$(cd "$(dirname "$0")" && pwd)
coldtally=$1
work=$2
ledger=$work/heron-flats.ledger
# Every question is asked for one fixed instant: the answers are the same on any day.
at=2026-05-29T17:00:00
since=2026-01-05T07:00:00

if [ -e "$ledger" ]; then
    echo "run.sh: $ledger is there already; give an empty folder" >&2
    exit 2
fi
mkdir -p "$work"
/usr/bin/python3 "$here/make_logger_files.py" "$work/logger"
/usr/bin/python3 "$here/make_entries.py" "$work/entries"

# Story first, then the routine: an entry may be posted late, but doses must have come before they can leave.
for chapter in "$here"/entries/*.jsonl "$work"/entries/*.jsonl; do
    "$coldtally" post "$ledger" "$chapter" >"$work/posted.txt"
    echo "posted $(wc -l <"$work/posted.txt") entries of $(basename "$chapter")"
done

# The same clinic at one o'clock on 19 March, with its programme's rules, for the walk of power-failure.sh.
/usr/bin/python3 "$here/entries_before.py" 2026-03-19T13:00:00 "$work/entries" |
    cat - "$here/programme/rules.jsonl" >"$work/afternoon.jsonl"
"$coldtally" post "$work/afternoon.ledger" "$work/afternoon.jsonl" >"$work/posted.txt"

# Months at once: that the loggers make less of what the checks alone could not tell is known here, and meant
# (--loosen).
read_logger() {    # PROBE UNIT
    "$coldtally" import "$ledger" --loosen --by MQ --probe "$1" --layout "$here/layouts/$2.json" "$work/logger/$2"-*.csv
}
read_logger ml-101 main-fridge
read_logger ml-102 annex-fridge
read_logger ml-103 freezer
read_logger ml-104 carrier

echo
"$coldtally" lists "$ledger" --at "$at"
# What the programme asks for and who makes what, learned last; it holds for all that was before, as a definition does.
"$coldtally" post "$ledger" "$here/programme/rules.jsonl" >"$work/posted.txt"
echo "posted $(wc -l <"$work/posted.txt") entries of rules.jsonl"

for unit in main-fridge annex-fridge freezer carrier; do
    echo
    "$coldtally" excursions "$ledger" "$unit" --from "$since" --until "$at" --at "$at"
done
echo
"$coldtally" review "$ledger" --at "$at"
