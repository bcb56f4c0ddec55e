#!/bin/bash
# power-failure.sh COLDTALLY LEDGER: the demo clinic's afternoon of 19 March, with the everyday commands alone.
# LEDGER is the clinic's as it was at one o'clock: run.sh leaves it behind as afternoon.ledger.  All data are invented.
set -euo pipefail

if [ $# -ne 2 ]; then
    echo "usage: power-failure.sh COLDTALLY LEDGER" >&2
    exit 2
fi
program=$1
export COLDTALLY_LEDGER=$2 COLDTALLY_BY=RS
coldtally() { "$program" "$@"; }

echo "== 1. Noticed: what is to be done, and which doses were given since"
coldtally notice --place main-fridge --at '2026-03-19 13:12' --text 'Power out, doors kept shut'

echo "== 2. What is in the refrigerator, and may the container take it?"
coldtally move-list main-fridge --into carrier --at '2026-03-19 15:35'

echo "== 3. Into the container; the list for its lid"
coldtally pack main-fridge carrier annex-fridge --at '2026-03-19 15:40' --temp 8.4C --container-temp 4.6C

echo "== On the way"
coldtally check carrier 5.0C --at '2026-03-19 16:00'

echo "== Out of the container, counted"
coldtally unpack carrier annex-fridge --at '2026-03-19 16:20' --as-listed --container-temp 5.1C \
    --temp 39.4F --received-by MQ

echo "== The whole journey, against the programme's limit"
coldtally trip carrier --at '2026-03-19 17:00'
