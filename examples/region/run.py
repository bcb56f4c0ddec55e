"""run.py FOLDER [COUNT]: makes the region's ledgers and prints its view, first with Dask distributed, then with a local
pool."""
import pathlib
import sys

import distributed
import make_region
import region


def main(folder: str, count: int) -> None:
    paths = make_region.make(pathlib.Path(folder), count)
    asked = {"at": make_region.AT.strftime("%Y-%m-%dT%H:%M:%SZ"), "product": "elm", "lot": "EL-2"}
    with distributed.LocalCluster(  # type: ignore[no-untyped-call]
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None
    ) as cluster:
        with distributed.Client(cluster) as client:  # type: ignore[no-untyped-call]
            by_dask = region.view(paths, region.dask(client), **asked)
    by_pool = region.view(paths, region.pool, **asked)
    print(f"{len(paths)} ledgers at {asked['at']}; all invented")
    print("\nexcursions that have not ended:")
    print(by_dask.excursions.to_string(index=False))
    print("\ndoses waiting for guidance, by lot:")
    print(
        by_dask.quarantined.groupby(["lot", "reasons"])
        .agg(sites=("site", "nunique"), doses=("doses", "sum"))
        .to_string()
    )
    recall = by_dask.recall
    print(
        f"\nrecall of lot {asked['lot']}: {len(recall)} sites; {recall.on_hand.sum()} doses on hand, "
        f"{recall.given.sum()} given"
    )
    print(recall[recall["from"] != "depot"].to_string(index=False))
    print("\nthe local pool says the same:", all(a.equals(b) for a, b in zip(by_dask, by_pool)))


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else make_region.COUNT)
