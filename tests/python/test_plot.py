"""Plots: pictures held against those that were looked at and found right; `--write` as the only argument makes them
anew."""
import pathlib
import sys

import pytest

import coldtally

matplotlib = pytest.importorskip("matplotlib", reason="python3-matplotlib is not installed")
matplotlib.use("Agg")
import matplotlib.pyplot as plt  # noqa: E402
from matplotlib.testing.compare import compare_images  # noqa: E402

from coldtally import plot  # noqa: E402

IMAGES = pathlib.Path(__file__).parent / "images"
AT = "2026-05-29T17:00:00"
KNOWN = {"at": AT, "known_on": "2199-01-01T00:00:00Z"}


def pictures(ledger):
    return {
        "trace": lambda: plot.trace(
            ledger,
            "main-fridge",
            "2026-02-09T00:00:00",
            "2026-02-13T00:00:00",
            product="demo-birch",
            lot="B-0203",
            **KNOWN,
        ),
        "trace-gaps": lambda: plot.trace(ledger, "annex-fridge", "2026-04-22T00:00:00", "2026-04-30T00:00:00", **KNOWN),
        "exposure": lambda: plot.exposure(ledger, "demo-cedar", "CE-44", **KNOWN),
        "years": lambda: plot.years(ledger, "main-fridge", 2025, 2026, **KNOWN),
    }


@pytest.mark.parametrize("name", ["trace", "trace-gaps", "exposure", "years"])
def test_picture(demo, tmp_path, name):
    with coldtally.Ledger(demo, mode="read") as ledger:
        axes = pictures(ledger)[name]()
    assert isinstance(axes, matplotlib.axes.Axes)
    made = tmp_path / f"{name}.png"
    axes.figure.savefig(made, dpi=60)
    plt.close("all")
    difference = compare_images(str(IMAGES / f"{name}.png"), str(made), tol=8)
    assert difference is None, difference


def test_dashes_are_spoken_of_where_there_are_any(demo, tmp_path):
    def spoken_and_drawn(axes):
        plt.close("all")
        return "dashed" in axes.get_xlabel(), "between checks" in [line.get_label() for line in axes.lines]

    with coldtally.Ledger(demo, mode="read") as ledger:
        assert spoken_and_drawn(pictures(ledger)["trace"]()) == (False, False)
    leaflet = coldtally.Range(coldtally.Limit(C=2), coldtally.Limit(C=8))
    with coldtally.Ledger(tmp_path / "by-hand.ledger") as ledger:
        ledger.post(
            [
                coldtally.Site(by="qa", name="Invented", zone="UTC"),
                coldtally.Place(by="qa", place="main", name="Refrigerator", type="refrigerator", range=leaflet),
            ]
            + [
                coldtally.Check(by="qa", at=at, place="main", scale="C", temperature="5")
                for at in ("2026-03-01T08:00:00Z", "2026-03-01T16:00:00Z")
            ]
        )
        axes = plot.trace(ledger, "main", "2026-03-01T00:00:00", "2026-03-02T00:00:00")
        assert spoken_and_drawn(axes) == (True, True)


def test_given_axes_are_drawn_into(demo):
    figure, axes = plt.subplots()
    with coldtally.Ledger(demo, mode="read") as ledger:
        assert plot.exposure(ledger, "demo-cedar", "CE-44", ax=axes, **KNOWN) is axes
        with pytest.raises(coldtally.NotKnown):
            plot.exposure(ledger, "demo-cedar", "no such lot", **KNOWN)
        with pytest.raises(coldtally.NotKnown):
            plot.trace(ledger, "nowhere", "2026-02-09T00:00:00", "2026-02-13T00:00:00", **KNOWN)
    plt.close("all")


def test_nothing_is_said_by_colour_alone(demo, tmp_path):
    """Every pixel is a grey."""
    import numpy as np

    with coldtally.Ledger(demo, mode="read") as ledger:
        for name, draw in pictures(ledger).items():
            draw().figure.savefig(tmp_path / "p.png", dpi=60)
            rgb = plt.imread(tmp_path / "p.png")[..., :3]
            assert np.ptp(rgb, axis=2).max() < 0.02, name
    plt.close("all")


if __name__ == "__main__":
    import tempfile

    sys.path.insert(0, str(pathlib.Path(__file__).parents[2] / "examples" / "python"))
    import heron_flats

    IMAGES.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as work, coldtally.Ledger(
        heron_flats.make(pathlib.Path(work)), mode="read"
    ) as ledger:
        for name, draw in pictures(ledger).items():
            draw().figure.savefig(IMAGES / f"{name}.png", dpi=60)
