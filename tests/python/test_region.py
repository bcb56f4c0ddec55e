"""The region: a worker that dies loses nothing, with Dask and in a local pool."""
import os
import pathlib
import signal
import sys

import pytest
from conftest import ROOT

sys.path.insert(0, str(ROOT / "examples" / "region"))
distributed = pytest.importorskip("distributed", reason="python3-distributed is not installed")
import make_region  # noqa: E402
import region  # noqa: E402

ASKED = {"at": "2026-04-08T12:00:00Z", "product": "elm", "lot": "EL-2"}


def dies_once(path, *asked):
    """look, but the process that first comes to clinic-005 dies there."""
    marker = pathlib.Path(path).with_name("died")
    if path.endswith("clinic-005.ledger") and not marker.exists():
        marker.write_text("")
        os.kill(os.getpid(), signal.SIGKILL)
    return region.look(path, *asked)


@pytest.fixture(scope="module")
def paths(tmp_path_factory):
    return make_region.make(tmp_path_factory.mktemp("region"), 40)


@pytest.fixture
def right(paths):
    here = lambda function, these, *asked: [function(p, *asked) for p in these]
    pathlib.Path(paths[0]).with_name("died").unlink(missing_ok=True)
    return region.view(paths, here, **ASKED)


def with_deaths(run):
    return lambda function, these, *asked: run(dies_once, these, *asked)


def same(a, b):
    return all(x.equals(y) for x, y in zip(a, b))


def test_the_view(right):
    assert list(right.excursions.site) == ["clinic-003", "clinic-038"] and (right.excursions.side == "warm").all()
    assert (right.quarantined.reasons == "over-allowance").all() and len(right.quarantined) > 1
    recall = right.recall.set_index("site")
    assert recall.loc["clinic-031", "from"] == "clinic-030 + depot"  # traced through two handovers
    assert (recall.received == recall.given + recall.sent + recall.on_hand).all()
    assert recall.loc["depot", "sent"] == recall[recall["from"] == "depot"].received.sum()


def test_local_pool(paths, right):
    assert same(region.view(paths, with_deaths(region.pool), **ASKED), right)
    assert pathlib.Path(paths[0]).with_name("died").exists()


def test_dask(paths, right):
    with distributed.LocalCluster(n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None) as cluster:
        with distributed.Client(cluster) as client:
            assert same(region.view(paths, with_deaths(region.dask(client)), **ASKED), right)
    assert pathlib.Path(paths[0]).with_name("died").exists()
