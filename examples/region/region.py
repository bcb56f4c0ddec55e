"""A health department's view of a region: one function for one ledger, run over all of them by whatever runs functions.

`look(path)` opens one site's ledger, asks, and returns plain rows. `view` maps it over the paths, by a pool of this
machine or by Dask distributed, and puts the rows together as DataFrames. A ledger is only read, so that a look that was
lost with its worker is simply taken again: nothing is lost, and nothing is counted twice.
"""
from __future__ import annotations

import concurrent.futures
import concurrent.futures.process
import multiprocessing
from collections.abc import Callable, Iterable, Sequence
from typing import Any, NamedTuple

import pandas  # type: ignore[import]

import coldtally

Rows = dict[str, list[dict[str, Any]]]
Look = Callable[[str, str, str, str], Rows]


class View(NamedTuple):
    """What the region looks like at one instant."""

    excursions: pandas.DataFrame
    """Excursions that had not ended by then."""
    quarantined: pandas.DataFrame
    """Doses that wait for guidance, by lot and reason."""
    recall: pandas.DataFrame
    """Where doses of the lot came, from where, and what became of them."""


def look(path: str, at: str, product: str, lot: str) -> Rows:
    """One site's part of the view. `lot` of `product` is recalled."""
    rows: Rows = {"excursions": [], "quarantined": [], "recall": [], "caution": []}
    with coldtally.Ledger(path, mode="read") as ledger:
        seen = ledger.as_of(at=at)  # all that follows is of one state of knowledge
        lists = seen.lists()
        site = lists.ledger
        rows["caution"].append({"text": lists.caution})
        entries = [e for e in ledger.entries() if e.entry is not None and e.entry <= seen.last_entry]
        first = min(e.at for e in entries if e.at is not None)
        for place in sorted({e.place for e in entries if isinstance(e, coldtally.Place)}):
            for e in seen.excursions(place, first, at):
                if e.open:
                    rows["excursions"].append(
                        {
                            "site": site,
                            "place": place,
                            "side": e.side,
                            "since": e.from_,
                            "hours": float(e.duration_s) / 3600,
                            "doses": sum(h.doses for h in e.holdings),
                        }
                    )
        for h in lists.on("quarantine-pending-guidance"):
            rows["quarantined"].append(
                {"site": site, "product": h.product, "lot": h.lot, "doses": h.doses, "reasons": ", ".join(h.reasons)}
            )
        came: dict[str, int] = {}
        left = {"given": 0, "sent": 0}
        for entry in entries:
            if getattr(entry, "product", None) != product or getattr(entry, "lot", None) != lot:
                continue
            if isinstance(entry, coldtally.Receive):
                # the last site on the way is the one that sent them: its places are in the history it handed over
                places = entry.handover.places if entry.handover else ()
                sites = sorted({p.rpartition("/")[0] for p in places}) or ["maker"]
                came[" + ".join(sites)] = came.get(" + ".join(sites), 0) + entry.doses
            elif isinstance(entry, coldtally.Give):
                left["given"] += entry.doses
            elif isinstance(entry, coldtally.Transfer):
                left["sent"] += entry.doses
        if came:
            here = sum(h.doses for h in lists if (h.product, h.lot) == (product, lot))
            rows["recall"].append(
                {"site": site, "from": "; ".join(sorted(came)), "received": sum(came.values()), **left, "on_hand": here}
            )
    return rows


def pool(function: Look, paths: Sequence[str], *asked: str, workers: int = 2) -> list[Rows]:
    """Runs the function over the paths in processes of this machine. What was lost with a worker that died is run
    again."""
    done: dict[str, Rows] = {}
    for _ in range(5):
        left = [p for p in paths if p not in done]
        if not left:
            break
        with concurrent.futures.ProcessPoolExecutor(
            workers, mp_context=multiprocessing.get_context("spawn")
        ) as executor:
            futures = {executor.submit(function, p, *asked): p for p in left}
            for future in concurrent.futures.as_completed(futures):
                try:
                    done[futures[future]] = future.result()
                except concurrent.futures.process.BrokenProcessPool:
                    pass  # in the next round
    missing = [p for p in paths if p not in done]
    if missing:
        raise RuntimeError(f"workers died again and again; {len(missing)} ledgers were not looked at: {missing[:3]}")
    return [done[p] for p in paths]


def dask(client: Any) -> Callable[..., list[Rows]]:
    """Runs the function on the workers of a Dask client, which gives a dead worker's ledgers to another."""

    def run(function: Look, paths: Sequence[str], *asked: str) -> list[Rows]:
        futures = client.map(function, list(paths), *[[a] * len(paths) for a in asked], retries=3)
        rows: list[Rows] = client.gather(futures)
        return rows

    return run


def view(paths: Iterable[Any], run: Callable[..., list[Rows]], *, at: str, product: str, lot: str) -> View:
    """The region's DataFrames, in the order of the sites' names."""
    looked = run(look, [str(p) for p in paths], at, product, lot)

    def frame(name: str, columns: list[str]) -> pandas.DataFrame:
        rows = [row for one in looked for row in one[name]]
        out = pandas.DataFrame(rows, columns=columns).sort_values("site", kind="stable").reset_index(drop=True)
        # what is computed from an answer carries its caution
        out.attrs["caution"] = looked[0]["caution"][0]["text"] if looked else ""
        return out

    return View(
        frame("excursions", ["site", "place", "side", "since", "hours", "doses"]),
        frame("quarantined", ["site", "product", "lot", "doses", "reasons"]),
        frame("recall", ["site", "from", "received", "given", "sent", "on_hand"]),
    )
