"""Readings as arrays, in and out, and frames."""
import datetime
import subprocess
import sys
from decimal import Decimal

import pytest
from conftest import AT

import coldtally

np = pytest.importorskip("numpy", reason="python3-numpy is not installed")
UTC = datetime.timezone.utc
DAY = ("2026-03-01T00:00:00Z", "2026-03-02T00:00:00Z")


def instants(count, unit="s"):
    return np.datetime64("2026-03-01T00:00:00", unit) + np.arange(count) * np.timedelta64(300, "s").astype(f"m8[{unit}]")


VALUES = [4200, 4300, -1000, 12345]


@pytest.mark.parametrize("temperatures", [
    VALUES, np.array(VALUES, "int32"), np.array(VALUES, "int64"), np.array(VALUES, "int16"), ["4.2", "4.3", "-1", "12.345"],
    [Decimal("4.20"), Decimal("4.3"), Decimal(-1), Decimal("12.345")], np.array(["4.2", "4.3", "-1", "12.345"]),
])
@pytest.mark.parametrize("unit", ["s", "ms", "ns"])
def test_in_and_out(small, temperatures, unit):
    with coldtally.Ledger(small) as ledger:
        assert ledger.post_readings("p1", "C", instants(4, unit), temperatures, by="ab") == [8]
        out = ledger.readings("p1", *DAY)
        assert out.scale == "C" and out.instants.dtype == np.dtype("M8[s]") and out.thousandths.dtype == np.dtype("int32")
        assert out.thousandths.tolist() == VALUES and (out.instants == instants(4)).all()
        batch = list(ledger.entries())[-1]
        assert isinstance(batch, coldtally.Readings) and batch.rows[3] == (datetime.datetime(2026, 3, 1, 0, 15, tzinfo=UTC), Decimal("12.345"))
        assert out.to_dict()["rows"][2] == ["2026-03-01T00:10:00Z", "-1"]


def test_the_fast_way_and_the_wire_form_are_one(small, tmp_path):
    """Rows from arrays and the same rows as an entry's JSON make ledgers with the same chain."""
    other = tmp_path / "other.ledger"
    now = datetime.datetime(2026, 3, 1, 18, tzinfo=UTC)
    with coldtally.Ledger(small) as a, coldtally.Ledger(other) as b:
        b.replay("".join(a.export()))
        a.post_readings("p1", "C", instants(4)[::-1], VALUES[::-1], by="ab", note="n", source=("f.csv", "0" * 64), now=now)
        b.post(coldtally.Readings(by="ab", probe="p1", scale="C", note="n", source=coldtally.Source("f.csv", "0" * 64),
                                  rows=[(t.item().replace(tzinfo=UTC), Decimal(v) / 1000) for t, v in zip(instants(4), VALUES)]), now=now)
        assert a.verify() == b.verify() and a.verify().findings == ()


@pytest.mark.parametrize("at, temperatures, cls, says", [
    (instants(2), np.array([4.2, 4.3]), TypeError, "floats are not the numbers that were read"),
    (instants(2), [4.2, 4.3], TypeError, "floats"),
    (instants(2), [True, False], TypeError, "bool"),
    (instants(2), ["4.2", "4,3"], ValueError, r'^rows\[1\]: "4,3": must be degrees'),
    (instants(2), [Decimal("4.2"), 4.3], TypeError, r"rows\[1\]: 4.3: must be a decimal.Decimal"),
    (instants(2), [4200], ValueError, "must be as many as the instants, 2"),
    (np.array(["2026-03-01", "NaT"], "M8[s]"), [1, 2], ValueError, r"rows\[1\]: NaT"),
    (np.array([0, 300]), [1, 2], TypeError, "must be datetime64"),
    (np.array(["2026-03-01T00:00:00.5"], "M8[ms]"), [1], ValueError, r"rows\[0\]: .*must be a whole second"),
    ([datetime.datetime(2026, 3, 1)], [1], ValueError, r"rows\[0\]: .*has no time zone"),
    (instants(2), [0, 10**9], ValueError, r'entry 1 of 1: rows\[1\]: "1000000": must be from -273.15 to 1000'),
    (instants(2), [0, 2**40], ValueError, r"rows\[1\]: "),
    (np.array(["1969-12-31"], "M8[s]"), [1], ValueError, r"rows\[0\]: .*1970 to 2199"),
    (np.array(["2027-01-01"], "M8[s]"), [1], coldtally.TooLate, r"rows\[0\]: 2027-01-01T00:00:00Z: must not be later"),
    (instants(0), np.array([], "int32"), ValueError, "0 rows: must be 1 to 100000"),
    (instants(4).reshape(2, 2), [1, 2], TypeError, "must have one"),
])
def test_what_is_not_taken(small, at, temperatures, cls, says):
    with coldtally.Ledger(small) as ledger:
        with pytest.raises(cls, match=says) as caught:
            ledger.post_readings("p1", "C", at, temperatures, by="ab", now=datetime.datetime(2026, 3, 2, tzinfo=UTC))
        assert isinstance(caught.value, coldtally.Error)
        assert len(list(ledger.entries())) == 7


@pytest.mark.parametrize("changed, says", [
    ({"by": ""}, "by: .*must be 1 to 64 characters"), ({"probe": " p1"}, "probe: .*blank"), ({"scale": "K"}, "scale"),
    ({"source": ("f", "xyz")}, "sha256: .*64 digits"), ({"note": "n" * 4001}, "note: .*4000 characters"), ({"note": "\ud800"}, "UTF-8"),
])
def test_the_batch_is_judged_as_its_wire_form_is(small, changed, says):
    with coldtally.Ledger(small) as ledger:
        given = {"probe": "p1", "scale": "C", "by": "ab", **changed}
        with pytest.raises(coldtally.Error, match=says) as fast:
            ledger.post_readings(given.pop("probe"), given.pop("scale"), instants(1), [4000], **given)
        form = {"kind": "readings", "probe": "p1", "scale": "C", "by": "ab", "rows": [["2026-03-01T00:00:00Z", 4]], **changed}
        if "source" in changed:
            form["source"] = {"file": "f", "sha256": "xyz"}
        if changed.get("note") != "\ud800" and "scale" not in changed:
            with pytest.raises(coldtally.Error) as slow:
                ledger.post(form)
            assert type(slow.value) is type(fast.value)
            assert str(slow.value).removeprefix("line 1") == str(fast.value).removeprefix("entry 1 of 1")


def test_wrong_scale_and_unequal_readings(small):
    with coldtally.Ledger(small) as ledger:
        with pytest.raises(coldtally.WrongScale):
            ledger.post_readings("p1", "F", instants(1), [40000], by="ab")
        ledger.post_readings("p1", "C", instants(2), [4000, 4100], by="ab")
        with pytest.raises(coldtally.ReadingsDiffer, match="4.2 at 2026-03-01T00:05:00Z: entry 8 says 4.1"):
            ledger.post_readings("p1", "C", instants(2), [4000, 4200], by="ab")


def test_many_rows_are_several_entries_all_or_nothing(small):
    many = np.datetime64("2025-01-01", "s") + np.arange(250_001) * np.timedelta64(60, "s")
    values = (np.arange(250_001) % 5000).astype("int32")
    with coldtally.Ledger(small) as ledger:
        bad = values.copy()
        bad[200_007] = 2_000_000
        with pytest.raises(coldtally.BadValue, match=r"entry 3 of 3: rows\[7\]"):
            ledger.post_readings("p1", "C", many, bad, by="ab")
        assert ledger.post_readings("p1", "C", many, values, by="ab", dry_run=True) == [8, 9, 10]
        assert len(list(ledger.entries())) == 7
        assert ledger.post_readings("p1", "C", many, values, by="ab") == [8, 9, 10]
        out = ledger.readings("p1", "2025-01-01T00:00:00Z", "2026-01-01T00:00:00Z")
        assert (out.thousandths == values).all() and (out.instants == many).all()


def test_known_on_and_at_cut_the_readings(small):
    with coldtally.Ledger(small) as ledger:
        ledger.post_readings("p1", "C", instants(4), VALUES, by="ab", now=datetime.datetime(2026, 3, 1, 20, tzinfo=UTC))
        assert len(ledger.readings("p1", *DAY, known_on="2026-03-01T19:00:00Z")) == 0
        assert len(ledger.readings("p1", *DAY, at="2026-03-01T00:10:00Z")) == 3  # the instant asked about is seen
        assert len(ledger.readings("p1", "2026-03-01T00:05:00Z", "2026-03-01T00:15:00Z")) == 2
        with pytest.raises(coldtally.NotKnown):
            ledger.readings("p9", *DAY)
        with pytest.raises(coldtally.Contradiction):
            ledger.readings("p1", *reversed(DAY))


def test_trace(small):
    with coldtally.Ledger(small) as ledger:
        gap = np.concatenate([instants(3), instants(3) + np.timedelta64(7200, "s")])
        ledger.post_readings("p1", "C", gap, [4000] * 6, by="ab")
        ledger.post([coldtally.Check(by="ab", at=f"2026-03-01T0{h}:00:00Z", place="fridge", scale="C", temperature=4, min=3, max=5) for h in (5, 9)],
                    now=datetime.datetime(2026, 3, 1, 18, tzinfo=UTC))
        trace = ledger.trace("fridge", *DAY, at="2026-03-01T18:00:00Z")
        assert trace.joined.tolist() == [True, True, False, True, True, False]
        assert [(p.class_, p.from_.hour, p.until.hour) for p in trace.parts] == [
            ("near", 0, 0), ("unmonitored", 0, 1), ("near", 1, 2), ("near", 2, 2), ("unmonitored", 2, 4), ("near", 4, 5), ("bounded", 5, 9),
            ("near", 9, 9), ("awaiting", 9, 18)]
        assert [c.max for c in trace.checks] == [Decimal(5)] * 2
        assert trace.range.high.celsius() == 8 and trace.range.high.C == Decimal(8)
        assert trace.celsius().tolist() == [4.0] * 6 and len(trace.to_dict()["readings"]) == 6


def test_stays(demo):
    with coldtally.Ledger(demo, mode="read") as ledger:
        stays = ledger.stays("demo-birch", "B-0203", at=AT)
        assert [(s.place, s.doses, s.until is None) for s in stays] == [("main-fridge", 30, False), ("annex-fridge", 29, True)]
        with pytest.raises(coldtally.NotKnown):
            ledger.stays("demo-birch", "none")


def test_frames(demo):
    pandas = pytest.importorskip("pandas", reason="python3-pandas is not installed")
    with coldtally.Ledger(demo, mode="read") as ledger:
        frame = ledger.lists(at=AT).to_frame()
        assert frame.groupby("list", observed=False).doses.sum().to_dict() == {"discard": 25, "quarantine-pending-guidance": 36, "keep": 197}
        kinds = frame.dtypes.astype(str)
        assert (kinds["place"], kinds["doses"], kinds["expiry"], kinds["list"], kinds["warm_estimate_s"], kinds["use_by"]) == (
            "string", "int64", "datetime64[ns]", "category", "float64", "datetime64[ns, UTC]")
        assert ledger.stock(at=AT).to_frame().doses.sum() == 258
        assert str(ledger.review(at=AT).to_frame().guidance.dtype) == "Int64"
        assert len(ledger.excursions("main-fridge", "2026-01-05T07:00:00", AT, at=AT).to_frame()) == 2
        empty = ledger.excursions("carrier", "2026-01-05T07:00:00", AT, at=AT).to_frame()
        assert len(empty) == 0 and "duration_s" in empty
        assert ledger.stays("demo-birch", "B-0117", at=AT).to_frame()["from"].dtype == "datetime64[ns, UTC]"
        readings = ledger.readings("ml-101", "2026-02-10T00:00:00", "2026-02-11T00:00:00", at=AT).to_frame()
        assert len(readings) == 288 and readings.index.tz is not None
        assert ledger.trace("main-fridge", "2026-02-10T00:00:00", "2026-02-11T00:00:00", at=AT).to_frame().celsius.max() > 8
        with pytest.raises(coldtally.BadValue, match="no rows"):
            ledger.verify().to_frame()


def test_frames_of_duties_journeys_and_incidents(wren):
    pytest.importorskip("pandas", reason="python3-pandas is not installed")
    window = ("2026-03-01T00:00:00Z", "2026-03-03T00:00:00Z")
    with coldtally.Ledger(wren, mode="read") as ledger:
        dated = ledger.dates(at=AT).to_frame()
        assert (str(dated.usable_until.dtype), str(dated.order.dtype), str(dated.out_of_range_s.dtype)) in (
            ("datetime64[ns, UTC]", kind, "float64") for kind in ("int64", "Int64", "object"))
        loans = ledger.loans(all=True, at=AT).to_frame()
        assert loans.lent.tolist() == [1, 1] and str(loans.overdue.dtype) == "bool" and str(loans.given.dtype) == "datetime64[ns, UTC]"
        lots = ledger.accountability(*window, at=AT).to_frame()
        assert (lots.start + lots.received + lots.transferred_in + lots.found == lots.given + lots.wasted + lots.returned + lots.transferred_out + lots.lost + lots.end).all()
        assert ledger.accountability(*window, at=AT).total.adds_up()
        moved = ledger.move_list("main", "box", at=AT).to_frame()
        assert str(moved.container_fit.dtype) == "category" and str(moved.frozen.dtype) == "bool"
        trip = ledger.trip("box", at=AT).to_frame()
        assert trip.loaded.sum() == trip.unloaded.sum() > 0 and str(trip.exposure_warm_estimate_s.dtype) == "float64"
        assert ledger.rules("main", *window, at=AT).to_frame().estimate_met.tolist() == [True]
        assert len(ledger.incidents(at=AT).to_frame()) == 1 and ledger.incident("2026-1", at=AT).to_frame().doses.tolist() == [24]
        months = ledger.unit("main", at=AT).to_frame()
        assert months.excursions.sum() == ledger.unit("main", at=AT).whole.excursions > 0 and str(months.out_of_range_s.dtype) == "float64"
        assert str(ledger.readiness(at=AT).to_frame().urgency.dtype) == "category"
        assert str(ledger.follow_up("K1", at=AT).to_frame().standing.dtype) == "category"
        assert str(ledger.training(at=AT).to_frame().lapsed.dtype) == "bool" and str(ledger.plan(at=AT).to_frame().state.dtype) == "category"
        for answer in (ledger.dates, ledger.loans):
            assert len(answer(at="2026-03-01T00:30:00Z").to_frame()) == 0


def test_heavy_imports_wait_until_they_are_asked_for(demo):
    code = (f"import sys, coldtally; l = coldtally.Ledger({str(demo)!r}, mode='read'); l.lists(at={AT!r}).holdings; l.review().to_json();"
            "print(sorted({'numpy', 'pandas', 'matplotlib'} & set(sys.modules)))")
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout == "[]\n"
