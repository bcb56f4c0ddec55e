#!/bin/bash
# power-failure.sh COLDTALLY LEDGER: the demo clinic's afternoon of 19 March, with the everyday commands alone.
# LEDGER holds the chapters 01 to 03, and the routine up to 19 March at noon.  All data are invented.
set -euo pipefail

if [ $# -ne 2 ]; then
    echo "usage: power-failure.sh COLDTALLY LEDGER" >&2
    exit 2
fi
coldtally=$1
export COLDTALLY_LEDGER=$2 COLDTALLY_BY=RS
day=2026-03-19

echo "== 1. Noticed: what is to be done, and which doses were given since"
"$coldtally" notice "$COLDTALLY_LEDGER" --place main-fridge --at ${day}T13:12:00 \
    --text "Power out in the main building. Doors of refrigerator and freezer kept shut."
echo "== 2. What is in the refrigerator, and may the container take it?"
"$coldtally" move-list "$COLDTALLY_LEDGER" main-fridge --into carrier --at ${day}T15:35:00
echo "== 3. Into the container; the list for its lid"
"$coldtally" pack main-fridge carrier annex-fridge --at "$day 15:40" --temp 8.4C --container-temp 4.6C \
    --coolant "conditioned water bottles" --packed-by RS
echo "== On the way"
"$coldtally" check carrier 5.0C --at "$day 16:00"
echo "== Out of the container, counted"
"$coldtally" unpack carrier annex-fridge --at "$day 16:20" --as-listed --container-temp 5.1C --temp 39.4F --received-by MQ
echo "== The whole journey, against a limit of 8 hours"
"$coldtally" trip "$COLDTALLY_LEDGER" carrier --limit-s 28800 --at ${day}T17:00:00
