"""make_region.py FOLDER [COUNT]: invented ledgers of a region, one a site; a depot ships a lot to the sites, which lend
to each other.

Everything is invented, and comes from whole numbers: the same files on every machine.
"""
from __future__ import annotations

import datetime
import pathlib
import sys
from decimal import Decimal
from typing import Any

import numpy
import numpy.typing

import coldtally
from coldtally import (
    Allowance,
    Assign,
    Band,
    Give,
    Guidance,
    Limit,
    Lot,
    Place,
    Probe,
    Product,
    Range,
    Receive,
    Site,
    Transfer,
)

START = datetime.datetime(2026, 4, 6, 12, tzinfo=datetime.timezone.utc)
HOUR = datetime.timedelta(hours=1)
AT = START + 48 * HOUR
FRIDGE = Range(Limit(Decimal(2), Decimal(36)), Limit(Decimal(8), Decimal(46)))
COUNT = 200


def definitions(name: str) -> list[coldtally.Entry]:
    """What every site of the region knows."""
    return [
        Site(by="rg", name=name, zone="America/Chicago"),
        Product(
            by="rg",
            product="elm",
            name="Elm (invented)",
            range=FRIDGE,
            allowances=(
                Allowance(Band(Limit(Decimal(8)), Limit(Decimal(25))), 2 * 3600, "invented: two hours up to 25 °C"),
            ),
        ),
        *(Lot(by="rg", product="elm", lot=lot, expiry="2027-03") for lot in ("EL-1", "EL-2")),
        Place(by="rg", place="fridge", name="Fridge", type="refrigerator", range=FRIDGE),
        Probe(by="rg", probe="p1", scale="C"),
        Assign(by="rg", at=START, probe="p1", place="fridge"),
    ]


def temperatures(site: int) -> numpy.typing.NDArray[numpy.int32]:
    """Two days of five-minute readings, in thousandths of a degree. Every seventh site was warm for a while; every 35th
    is still."""
    minute = numpy.arange(0, 48 * 60 + 1, 5)
    rows = 4500 + (minute * 7 + site * 131) % 900
    if site % 7 == 3:
        begin, end = (2500, 3000) if site % 35 == 3 else (600, 720 + 60 * (site % 4))
        rows = numpy.where((minute >= begin) & (minute < end), 9000 + (minute + site) % 700, rows)
    return rows.astype("int32")


def handover_of(ledger: coldtally.Ledger, lot: str, at: datetime.datetime, name: str) -> coldtally.History:
    """The history that a sender states of a lot: what its ledger says, its places as site/place."""
    history = next(h for h in ledger.lists(at=at) if h.lot == lot).history.to_dict()
    history["places"] = [p if "/" in p else f"{name}/{p}" for p in history["places"]]
    history["held_by"] = history["condemned_by"] = []
    return coldtally.History.from_dict(history)


def make(folder: pathlib.Path, count: int = COUNT) -> list[pathlib.Path]:
    """Makes the ledgers of a depot and of count - 1 clinics in a folder; returns their paths, the depot's first."""
    folder.mkdir(parents=True, exist_ok=True)
    instants = numpy.datetime64(START.replace(tzinfo=None), "s") + numpy.arange(0, 48 * 60 + 1, 5) * numpy.timedelta64(
        60, "s"
    )
    names = ["depot", *(f"clinic-{i:03d}" for i in range(1, count))]
    paths = [folder / f"{name}.ledger" for name in names]
    holding: Any = {"place": "fridge", "product": "elm"}
    with coldtally.Ledger(paths[0]) as depot:
        depot.post(
            [
                *definitions("depot"),
                *(Receive(by="rg", at=START, lot=lot, doses=20 * count, **holding) for lot in ("EL-1", "EL-2")),
            ],
            now=AT,
        )
        depot.post_readings("p1", "C", instants, thousandths=temperatures(0), zone="UTC", by="rg", now=AT)
        depot.post(
            [
                Transfer(
                    by="rg",
                    at=START + HOUR,
                    lot="EL-1" if i % 3 else "EL-2",
                    doses=20,
                    reason="order",
                    to=names[i],
                    **holding,
                )
                for i in range(1, count)
            ],
            now=AT,
        )
        shipped = {lot: handover_of(depot, lot, START + HOUR, "depot") for lot in ("EL-1", "EL-2")}
    for i in range(1, count):
        lot = "EL-1" if i % 3 else "EL-2"
        with coldtally.Ledger(paths[i]) as ledger:
            ledger.post(
                [
                    *definitions(names[i]),
                    Receive(by="rg", at=START + 2 * HOUR, lot=lot, doses=20, handover=shipped[lot], **holding),
                    *(
                        Give(by="rg", at=START + (20 + k) * HOUR, lot=lot, patient=f"t-{i}-{k}", **holding)
                        for k in range(i % 4)
                    ),
                ],
                now=AT,
            )
            ledger.post_readings("p1", "C", instants, thousandths=temperatures(i), zone="UTC", by="rg", now=AT)
            if i % 14 == 3:  # its maker has answered: the doses may be used
                ledger.post(
                    Guidance(
                        by="rg",
                        at=AT,
                        product="elm",
                        lot=lot,
                        through=START + 30 * HOUR,
                        verdict="use",
                        issuer="the maker",
                        reference=f"case {i}",
                    ),
                    now=AT,
                )
            if i % 10 == 0 and i + 1 < count:  # lends five doses to the next clinic
                when = START + 40 * HOUR
                stated = handover_of(ledger, lot, when, names[i])
                ledger.post(
                    Transfer(by="rg", at=when, lot=lot, doses=5, reason="loan", to=names[i + 1], **holding), now=AT
                )
                lent = (lot, when, stated)
            elif i % 10 == 1 and i > 1:
                lot_lent, when, stated = lent
                ledger.post(
                    Receive(by="rg", at=when + HOUR, lot=lot_lent, doses=5, mark="on loan", handover=stated, **holding),
                    now=AT,
                )
    return paths


if __name__ == "__main__":
    made = make(pathlib.Path(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else COUNT)
    print(f"{len(made)} ledgers in {sys.argv[1]}")
