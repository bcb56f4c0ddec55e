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
    return np.datetime64("2026-03-01T00:00:00", unit) + np.arange(count) * np.timedelta64(300, "s").astype(
        f"m8[{unit}]"
    )


VALUES = [4200, 4300, -1000, 12345]
WHOLE = [40, 41, -1, 12]


@pytest.mark.parametrize(
    "given",
    [
        {"thousandths": VALUES},
        {"thousandths": np.array(VALUES, "int32")},
        {"thousandths": np.array(VALUES, "int64")},
        {"thousandths": np.array(VALUES, "int16")},
        {"thousandths": np.array(VALUES, ">i4")},
        {"thousandths": np.array(VALUES, object)},
        {"thousandths": np.array(VALUES + [7], "int32")[:-1:1]},
        {"thousandths": tuple(VALUES)},
        {"degrees": ["4.2", "4.3", "-1", "12.345"]},
        {"degrees": [Decimal("4.20"), Decimal("4.3000"), Decimal(-1), Decimal("12.345")]},
        {"degrees": np.array(["4.2", "4.3", "-1", "12.345"])},
        {"degrees": ["4.2", Decimal("4.3"), -1, "12.3450"]},
        {"degrees": [4.2, 4.3, -1.0, 12.345], "resolution": "0.001"},
        {"degrees": np.array([4.2, 4.3, -1, 12.345], "float32"), "resolution": "0.001"},
        {"degrees": np.array([4.2, 4.3, -1, 12.345], ">f8"), "resolution": "0.001"},
        {"degrees": np.array([4.2, 4.3, -1, 12.345], "longdouble"), "resolution": "0.001"},
        {"degrees": [4.2, Decimal("4.3"), -1, "12.345"], "resolution": Decimal("0.001")},
    ],
    ids=str,
)
@pytest.mark.parametrize("unit", ["s", "ms", "ns"])
def test_in_and_out(small, given, unit):
    with coldtally.Ledger(small) as ledger:
        posted = ledger.post_readings("p1", "C", instants(4, unit), zone="UTC", by="ab", **given)
        assert (posted.entries, posted.rows, posted.scale, posted.dry_run, posted.remarks) == ((8,), 4, "C", False, ())
        assert (posted.lowest, posted.highest) == (Decimal(-1), Decimal("12.345"))
        assert (posted.from_, posted.until) == tuple(datetime.datetime(2026, 3, 1, 0, m, tzinfo=UTC) for m in (0, 15))
        if (
            given.get("degrees") is None or getattr(given["degrees"], "dtype", None) != np.longdouble
        ):  # which has other decimals than 4.2
            assert (posted.rounded, posted.largest_change) == (0, 0)
        out = ledger.readings("p1", *DAY)
        assert (
            out.scale == "C" and out.instants.dtype == np.dtype("M8[s]") and out.thousandths.dtype == np.dtype("int32")
        )
        assert out.thousandths.tolist() == VALUES and (out.instants == instants(4)).all()
        batch = list(ledger.entries())[-1]
        assert isinstance(batch, coldtally.Readings) and batch.rows[3] == (
            datetime.datetime(2026, 3, 1, 0, 15, tzinfo=UTC),
            Decimal("12.345"),
        )
        assert out.to_dict()["rows"][2] == ["2026-03-01T00:10:00Z", "-1"]


def every_way_to_hold(pandas):
    """The same whole numbers in every type that holds whole numbers."""
    types = ["int8", "int16", "int32", "int64", ">i2", ">i8", object]
    yield WHOLE
    yield tuple(WHOLE)
    yield iter(WHOLE)
    yield [np.int64(v) for v in WHOLE]
    yield [np.int16(WHOLE[0]), *WHOLE[1:]]
    yield np.ma.array(WHOLE)
    for dtype in types:
        yield np.array(WHOLE, dtype)
        yield pandas.Series(WHOLE, index=list("wxyz"), dtype=dtype)
    for dtype in ("Int8", "Int16", "Int32", "Int64", "category"):
        yield pandas.Series(WHOLE, dtype=dtype)
        yield pandas.Index(pandas.array(WHOLE, dtype=dtype)) if dtype != "category" else pandas.CategoricalIndex(WHOLE)
    yield pandas.array(WHOLE, dtype="Int64")


def test_a_number_means_the_same_whatever_its_type(tmp_path, small):
    """40 degrees are 40 degrees as int8, as Int64 and as an object, and 40 thousandths 0.040 degrees in all of them."""
    pandas = pytest.importorskip("pandas", reason="python3-pandas is not installed")
    with coldtally.Ledger(small, mode="write") as ledger:
        for name, lowest, highest in (
            ("degrees", Decimal(-1), Decimal(41)),
            ("thousandths", Decimal("-0.001"), Decimal("0.041")),
        ):
            ways = list(every_way_to_hold(pandas))
            assert len(ways) > 30
            for column in ways:
                posted = ledger.post_readings(
                    "p1", "C", instants(4), zone="UTC", by="ab", dry_run=True, **{name: column}
                )
                assert (posted.rows, posted.lowest, posted.highest, posted.rounded) == (4, lowest, highest, 0), (
                    name,
                    type(column),
                    getattr(column, "dtype", ""),
                )
        for dtype in ("uint8", "uint16", "uint32", "uint64", "UInt8", "UInt64"):
            for name, highest in (("degrees", Decimal(41)), ("thousandths", Decimal("0.041"))):
                posted = ledger.post_readings(
                    "p1",
                    "C",
                    instants(2),
                    zone="UTC",
                    by="ab",
                    dry_run=True,
                    **{name: pandas.Series([40, 41], dtype=dtype)},
                )
                assert posted.highest == highest, (name, dtype)
        # the same numbers as they come out of a file of text: pandas makes integers of one column, floats of the next
        import io

        frame = pandas.read_csv(
            io.StringIO("at,whole,parts,text\n2026-03-01 00:00:00,40,40.0,40\n2026-03-01 00:05:00,41,41.5,n/a\n"),
            dtype={"text": "string"},
            parse_dates=["at"],
        )
        assert (
            ledger.post_readings(
                "p1", "C", frame["at"], degrees=frame["whole"], zone="UTC", by="ab", dry_run=True
            ).highest
            == 41
        )
        posted = ledger.post_readings(
            "p1", "C", frame["at"], degrees=frame["parts"], resolution="0.1", zone="UTC", by="ab", dry_run=True
        )
        assert (posted.lowest, posted.highest, posted.rounded) == (40, Decimal("41.5"), 0)
        assert (
            ledger.post_readings(
                "p1", "C", frame["at"][:1], degrees=frame["text"][:1], zone="UTC", by="ab", dry_run=True
            ).highest
            == 40
        )
        with pytest.raises(coldtally.BadValue, match=r"rows\[1\]: degrees: nothing stands there"):
            ledger.post_readings("p1", "C", frame["at"], degrees=frame["text"], zone="UTC", by="ab")


def test_fahrenheit_in_degrees_freezes_nothing(small):
    """A day at 40 °F in whole degrees is in range, whatever holds it."""
    pandas = pytest.importorskip("pandas", reason="python3-pandas is not installed")
    limit = coldtally.Limit
    with coldtally.Ledger(small) as ledger:
        ledger.post(
            [
                coldtally.Probe(by="ab", probe="p2", scale="F"),
                coldtally.Place(
                    by="ab",
                    place="other",
                    name="Other",
                    type="refrigerator",
                    range=coldtally.Range(limit(F=36), limit(F=46)),
                ),
                coldtally.Assign(by="ab", at="2026-03-01T00:00:00Z", probe="p2", place="other"),
            ]
        )
        for start, dtype in enumerate(("int64", "Int64", object, "string")):
            at = pandas.date_range(f"2026-03-01 0{start}:00", periods=12, freq="5min", tz="UTC")
            ledger.post_readings("p2", "F", at, degrees=pandas.Series([40] * 12).astype(dtype), by="ab")
        out = ledger.readings("p2", *DAY)
        assert out.scale == "F" and set(out.thousandths.tolist()) == {40000} and out.instants.size == 48
        assert len(ledger.excursions("other", *DAY).excursions) == 0


@pytest.mark.parametrize("dtype", ["float64", "float32", "Float64", "Float32", object])
def test_floats_are_rounded_to_what_is_stated(small, dtype):
    """Halves away from zero, of the decimals that a float stands for: as the decimal module rounds their text."""
    pandas = pytest.importorskip("pandas", reason="python3-pandas is not installed")
    decimal = pytest.importorskip("decimal")
    values = [18.600000381, 2.25, -2.25, 2.35, 4.0, -0.05, -0.04, 7.96875, 99.95, 0.0005, 1e-7]
    column = pandas.Series(values, dtype=dtype)
    kept = column.to_numpy(dtype=None if dtype is object else dtype.lower())
    texts = [np.format_float_positional(v, trim="-") for v in kept]
    for resolution in ("1", "0.1", "0.01", "0.001"):
        wanted = [Decimal(t).quantize(Decimal(resolution), decimal.ROUND_HALF_UP) for t in texts]
        changes = [abs(w - Decimal(t)) for w, t in zip(wanted, texts)]
        with coldtally.Ledger(small) as ledger:
            posted = ledger.post_readings(
                "p1",
                "C",
                instants(len(values)),
                degrees=column,
                resolution=resolution,
                zone="UTC",
                by="ab",
                dry_run=True,
            )
            assert posted.lowest == min(wanted) and posted.highest == max(wanted)
            assert posted.rounded == sum(c != 0 for c in changes)
            # to the 18th decimal, and up
            assert posted.largest_change == max(changes).quantize(Decimal("1e-18"), decimal.ROUND_UP)
            of_text = ledger.post_readings(
                "p1",
                "C",
                instants(len(values)),
                degrees=texts,
                resolution=resolution,
                zone="UTC",
                by="ab",
                dry_run=True,
            )
            assert of_text == posted
    with coldtally.Ledger(small) as ledger:
        ledger.post_readings(
            "p1", "C", instants(len(values)), degrees=column, resolution="0.1", zone="UTC", by="ab", note="of the lab"
        )
        out = ledger.readings("p1", *DAY).thousandths.tolist()
        assert out == [int(Decimal(t).quantize(Decimal("0.1"), decimal.ROUND_HALF_UP) * 1000) for t in texts]
        # whoever reads the entry sees what became of its digits
        assert (
            list(ledger.entries())[-1].note == "of the lab; rounded to 0.1 C"
            and list(ledger.entries())[-1].source is None
        )
        ledger.post_readings(
            "p1",
            "C",
            instants(1) + np.timedelta64(6, "h"),
            degrees=column[:1],
            resolution="0.1",
            zone="UTC",
            by="ab",
            source=("lab.csv", "0" * 64),
        )
        batch = list(ledger.entries())[-1]
        assert batch.note is None and batch.source == coldtally.Source("lab.csv", "0" * 64, "0.1")


@pytest.mark.parametrize(
    "given, cls, says",
    [
        (
            {"degrees": [4.2], "resolution": "0.2"},
            ValueError,
            r'resolution: "0.2": must be "1", "0.1", "0.01" or "0.001"',
        ),
        ({"degrees": [4.2], "resolution": 0.1}, TypeError, "resolution: 0.1: must be a decimal.Decimal"),
        ({"thousandths": [4200], "resolution": "0.1"}, coldtally.Contradiction, "thousandths are never rounded"),
        ({"thousandths": [4200], "degrees": [4]}, TypeError, "exactly one of them"),
        ({}, TypeError, "exactly one of them"),
        (
            {"degrees": ["4.2001"]},
            ValueError,
            r'^rows\[0\]: "4.2001": has more than three fractional digits.*resolution',
        ),
        ({"degrees": [Decimal("4.2001")]}, ValueError, r"^rows\[0\]: .*more than three fractional digits"),
        ({"degrees": [float("nan")], "resolution": "0.1"}, ValueError, r"^rows\[0\]: NaN: is no temperature"),
        (
            {"degrees": np.array([np.inf], "float32"), "resolution": "0.1"},
            ValueError,
            r"^rows\[0\]: inf: is no temperature",
        ),
        ({"degrees": [Decimal("NaN")]}, ValueError, r"^rows\[0\]: Decimal\('NaN'\): nothing stands there"),
        ({"degrees": [None]}, ValueError, r"^rows\[0\]: None: nothing stands there"),
        ({"degrees": np.ma.array([4], mask=[True])}, ValueError, r"^rows\[0\]: degrees: nothing stands there"),
        ({"degrees": [1e300], "resolution": "0.1"}, ValueError, r"^rows\[0\]: .*no temperature is that far from 0"),
        ({"degrees": [4200]}, ValueError, r"4200.*must be from -273.15 to 1000"),
        (
            {"degrees": [10**7]},
            ValueError,
            r"^rows\[0\]: 10000000 degrees: no temperature is that far from 0; thousandths",
        ),
        ({"degrees": [10**30]}, ValueError, r"^rows\[0\]: .*no temperature is that far from 0"),
        ({"thousandths": [10**30]}, ValueError, r"^rows\[0\]: .*no temperature is that far from 0"),
        (
            {"degrees": np.array([2**64 - 1], "uint64")},
            ValueError,
            r"^rows\[0\]: 18446744073709551615: no temperature",
        ),
        ({"thousandths": ["4200"]}, TypeError, r"^rows\[0\]: '4200': must be a whole number of thousandths"),
        ({"thousandths": np.array(["4200"])}, TypeError, "must be integers"),
        ({"thousandths": [4200.0]}, TypeError, "must be integers"),
        ({"thousandths": [Decimal(4200)]}, TypeError, "must be a whole number of thousandths"),
        ({"thousandths": [True]}, TypeError, "whole number"),
        ({"degrees": [True]}, TypeError, r"rows\[0\]: True: must be a decimal.Decimal"),
        ({"degrees": np.array([True])}, TypeError, "degrees: bool"),
        ({"degrees": [b"4.2"]}, TypeError, r"rows\[0\]: b'4.2'"),
        ({"degrees": np.array([4 + 0j])}, TypeError, "degrees: complex128"),
        ({"degrees": "4.2"}, TypeError, "must be an array, a pandas column or a sequence"),
        ({"degrees": [[4]]}, TypeError, r"rows\[0\]: \[4\]"),
    ],
)
def test_numbers_that_are_not_taken(small, given, cls, says):
    with coldtally.Ledger(small) as ledger:
        with pytest.raises(cls, match=says) as caught:
            ledger.post_readings("p1", "C", instants(1), zone="UTC", by="ab", **given)
        assert isinstance(caught.value, coldtally.Error)
        assert len(list(ledger.entries())) == 7


def test_missing_rows_of_pandas_are_named(small):
    pandas = pytest.importorskip("pandas", reason="python3-pandas is not installed")
    at = pandas.date_range("2026-03-01", periods=3, freq="5min", tz="UTC")
    with coldtally.Ledger(small) as ledger:
        for column in (
            pandas.Series([4, 4, None], dtype="Int64"),
            pandas.Series([4.0, 4.0, None]),
            pandas.Series([4, 4, pandas.NA], dtype=object),
            pandas.Series(["4", "4", None], dtype="string"),
            pandas.Series([4, 4, None], dtype="Float64"),
            [4, 4, pandas.NA],
            np.array([4, 4, pandas.NaT], object),
            pandas.Series([4, 4, None]).astype("category"),
        ):
            for name in ("degrees", "thousandths"):
                with pytest.raises(
                    coldtally.BadValue,
                    match=r"rows\[2\]: .*(nothing stands there|is no temperature)|thousandths: float64",
                ):
                    ledger.post_readings(
                        "p1", "C", at, by="ab", resolution="0.1" if name == "degrees" else None, **{name: column}
                    )
        for missing in (
            at.to_series().where(np.array([True, True, False])),
            at.tz_localize(None).to_series().where(np.array([True, True, False])),
            [*at[:2], pandas.NaT],
            [*at[:2], None],
            np.array([*at[:2], pandas.NA], object),
        ):
            with pytest.raises(coldtally.BadValue, match=r"rows\[2\]: "):
                ledger.post_readings(
                    "p1",
                    "C",
                    missing,
                    degrees=[4, 4, 4],
                    by="ab",
                    zone="UTC" if getattr(missing, "dt", missing) is not missing and missing.dt.tz is None else None,
                )
        assert len(list(ledger.entries())) == 7


def local(*texts):
    return np.array(texts, "M8[s]")


def test_instants_of_every_kind(small):
    """Half an hour of Chicago's clock in winter; its instants are those of Python's zoneinfo."""
    pandas = pytest.importorskip("pandas", reason="python3-pandas is not installed")
    import zoneinfo

    here = zoneinfo.ZoneInfo("America/Chicago")
    shown = [datetime.datetime(2026, 2, 27, 8, m) for m in (0, 10, 20)]
    wanted = [t.replace(tzinfo=here).astimezone(UTC) for t in shown]
    frame = pandas.DataFrame({"at": shown})
    with coldtally.Ledger(small) as ledger:
        for at, zone in (
            (shown, "site"),
            (shown, "America/Chicago"),
            (shown, here),
            (np.array(shown, "M8[s]"), "site"),
            (np.array(shown, "M8[m]"), "site"),
            (frame["at"], "site"),
            (pandas.DatetimeIndex(shown), here),
            (np.array(shown, object), "site"),
            ([np.datetime64(t, "s") for t in shown], "site"),
            ([np.datetime64(t, "s") for t in shown][:1] + shown[1:], "site"),
            (np.array(wanted, object), None),
            (wanted, None),
            ([t.replace(tzinfo=here) for t in shown], None),
            (frame["at"].dt.tz_localize(here), None),
            (pandas.DatetimeIndex(shown, tz=here), None),
            ([wanted[0], *(t.replace(tzinfo=here) for t in shown[1:])], None),
            ([t.replace(tzinfo=None) for t in wanted], "UTC"),
            (np.array([t.replace(tzinfo=None) for t in wanted], "M8[ns]"), "UTC"),
            (frame["at"][::-1], "site"),
        ):
            posted = ledger.post_readings("p1", "C", at, degrees=[4, 4, 4], zone=zone, by="ab", dry_run=True)
            assert (posted.from_, posted.until, posted.rows) == (wanted[0], wanted[-1], 3), (at, zone)
            if zone is not None:  # without its zone the same column names no instant
                with pytest.raises(
                    coldtally.BadValue, match=r"rows\[0\]: .*has no time zone and so names no instant; say whose clock"
                ):
                    ledger.post_readings("p1", "C", at, degrees=[4, 4, 4], by="ab")
            else:
                with pytest.raises(coldtally.Contradiction, match="state their own offsets"):
                    ledger.post_readings("p1", "C", at, degrees=[4, 4, 4], zone="site", by="ab")


@pytest.mark.parametrize(
    "at, zone, says",
    [
        (
            [datetime.datetime(2026, 2, 27, 8), datetime.datetime(2026, 2, 27, 8, tzinfo=UTC)],
            None,
            r"rows\[1\]: .*states its offset from UTC",
        ),
        (
            [datetime.datetime(2026, 2, 27, 8, tzinfo=UTC), datetime.datetime(2026, 2, 27, 8)],
            None,
            r"rows\[1\]: .*has no time zone",
        ),
        (["2026-02-27T08:00:00Z", "2026-02-27T08:05:00Z"], None, r"rows\[0\]: .*text are not taken for instants"),
        (
            np.array(["2026-02-27T08:00:00", "2026-02-27T08:05:00"], object),
            "UTC",
            r"rows\[0\]: .*text are not taken for instants",
        ),
        (np.array(["2026-02-27T08:00:00", "2026-02-27T08:05:00"]), "UTC", "at: <U19: must be datetime64"),
        ([datetime.date(2026, 2, 27)] * 2, "UTC", r"rows\[0\]: .*dates"),
        (
            np.array(["2026-02-26", "2026-02-27"], "M8[D]"),
            "UTC",
            r"rows\[0\]: 2026-02-26: must be an instant with its time of day",
        ),
        ([1772179200, 1772179500], "UTC", "must be datetime64"),
        (
            [datetime.datetime(2026, 2, 27, 8, 0, 0, 5), datetime.datetime(2026, 2, 27, 9)],
            "UTC",
            r"rows\[0\]: .*must be a whole second",
        ),
        (np.array(["2026-02-27T08:00", "NaT"], "M8[m]"), "UTC", r"rows\[1\]: NaT"),
        ([np.datetime64("2026-02-27T08:00"), np.datetime64("NaT")], "UTC", r"rows\[1\]: NaT"),
        (np.array([2**62, 0], "M8[h]"), "UTC", r"rows\[0\]: .*1970 to 2199"),
        (instants(2), "Mars/Olympus", "Mars/Olympus"),
        (instants(2), 5, "zone: 5: must be"),
        (instants(2), datetime.timezone.utc, "zone: .*must be"),
    ],
)
def test_instants_that_are_not_taken(small, at, zone, says):
    with coldtally.Ledger(small) as ledger:
        with pytest.raises(coldtally.Error, match=says):
            ledger.post_readings("p1", "C", at, degrees=[4, 4], zone=zone, by="ab")
        assert len(list(ledger.entries())) == 7


def test_a_timestamp_of_pandas_is_not_cut(small):
    pandas = pytest.importorskip("pandas", reason="python3-pandas is not installed")
    late = pandas.Timestamp("2026-02-27T08:00:00.000000005Z")
    with coldtally.Ledger(small) as ledger:
        for at in ([late], pandas.DatetimeIndex([late]), np.array([late], object)):
            with pytest.raises(coldtally.BadValue, match=r"rows\[0\]: .*must be a whole second"):
                ledger.post_readings("p1", "C", at, degrees=[4], by="ab")
        for given in (late, pandas.NaT):
            with pytest.raises(coldtally.BadValue, match="at: "):
                coldtally.Check(by="ab", at=given, place="fridge", scale="C", temperature=4)
            with pytest.raises(coldtally.BadValue, match="at: "):
                ledger.check("fridge", 4, by="ab", at=given)
            with pytest.raises(coldtally.BadValue, match="at: "):
                ledger.lists(at=given)


# America/Chicago skips 02:00 to 03:00 on 9 March 2025, and shows 01:00 to 02:00 twice on 2 November 2025 (15 U.S.C.
# 260a, from memory: second Sunday of March to first Sunday of November); the instants are those of Python's zoneinfo.


def passes(texts, second):
    """What Python's zoneinfo makes of times of Chicago, those from the index `second` on of the second pass."""
    import zoneinfo

    here = zoneinfo.ZoneInfo("America/Chicago")
    return [
        datetime.datetime.fromisoformat(t).replace(tzinfo=here, fold=int(i >= second)).astimezone(UTC)
        for i, t in enumerate(texts)
    ]


@pytest.mark.parametrize(
    "texts, second",
    [
        (
            [
                "2025-11-02T00:55:00",
                "2025-11-02T01:25:00",
                "2025-11-02T01:55:00",
                "2025-11-02T01:25:00",
                "2025-11-02T01:55:00",
                "2025-11-02T02:25:00",
            ],
            3,
        ),
        (["2025-11-02T00:30:00", "2025-11-02T01:30:00", "2025-11-02T01:30:00", "2025-11-02T02:30:00"], 2),
    ],
)
@pytest.mark.parametrize("newest_first", [False, True])
def test_an_hour_that_is_shown_twice_is_settled_by_the_order_of_the_rows(small, texts, second, newest_first):
    wanted = passes(texts, second)
    at = local(*texts)
    with coldtally.Ledger(small) as ledger:
        posted = ledger.post_readings(
            "p1",
            "C",
            at[::-1] if newest_first else at,
            thousandths=list(range(len(texts)))[:: -1 if newest_first else 1],
            zone="site",
            by="ab",
        )
        out = ledger.readings("p1", "2025-11-01T00:00:00Z", "2025-11-03T00:00:00Z")
        assert [t.item().replace(tzinfo=UTC) for t in out.instants] == wanted and out.thousandths.tolist() == list(
            range(len(texts))
        )
        assert len(posted.remarks) == 1
        assert (
            f"rows[{len(texts) - 1 - second if newest_first else second}] is the first row of its second pass"
            in posted.remarks[0]
        )
        (code,) = posted.remarks_codes
        assert code.code == "second-pass-from" and code.text == posted.remarks[0] and code.fields["row"] in code.text


@pytest.mark.parametrize(
    "texts, cls, says",
    [
        (
            ["2025-03-09T01:55:00", "2025-03-09T02:00:00"],
            coldtally.BadValue,
            r'rows\[1\]: "2025-03-09 02:00": does not exist in America/Chicago',
        ),
        (
            ["2025-11-02T01:25:00"],
            coldtally.Ambiguous,
            r'rows\[0\]: "2025-11-02 01:25": occurs twice in America/Chicago, and the order of the rows',
        ),
        # the newest first, or the second pass behind the first?
        (["2025-11-02T01:55:00", "2025-11-02T01:00:00"], coldtally.Ambiguous, r"rows\[1\]: .*occurs twice"),
        # every quarter of an hour but for one hour: which is missing, the first pass or the second?
        (
            [
                "2025-11-02T00:45:00",
                "2025-11-02T01:00:00",
                "2025-11-02T01:15:00",
                "2025-11-02T01:30:00",
                "2025-11-02T01:45:00",
                "2025-11-02T02:00:00",
            ],
            coldtally.Ambiguous,
            r"rows\[1\]: .*occurs twice",
        ),
        # one row stands there twice: it is no second pass
        (
            [
                "2025-11-02T00:45:00",
                "2025-11-02T01:00:00",
                "2025-11-02T01:15:00",
                "2025-11-02T01:15:00",
                "2025-11-02T01:30:00",
                "2025-11-02T02:00:00",
            ],
            coldtally.Ambiguous,
            r"rows\[1\]: .*occurs twice",
        ),
        (
            [
                "2025-11-02T01:25:00",
                "2025-11-02T01:20:00",
                "2025-11-02T01:25:00",
                "2025-11-02T01:20:00",
                "2025-11-02T03:25:00",
                "2025-11-02T04:25:00",
            ],
            coldtally.Ambiguous,
            r"rows\[3\]: .*the rows go back more than once",
        ),
        (
            ["2025-11-03T01:25:00", "2025-11-03T01:20:00", "2025-11-03T01:30:00"],
            coldtally.Ambiguous,
            r'rows\[1\]: "2025-11-03 01:20": goes back from',
        ),
    ],
)
def test_local_times_that_are_not_settled(small, texts, cls, says):
    with coldtally.Ledger(small) as ledger:
        with pytest.raises(cls, match=says):
            ledger.post_readings("p1", "C", local(*texts), degrees=[4] * len(texts), zone="site", by="ab")
        assert len(list(ledger.entries())) == 7
        # on a clock that does not change, the same rows are what they are
        if "go" not in says:
            assert (
                ledger.post_readings(
                    "p1", "C", local(*texts), degrees=[4] * len(texts), zone="Etc/GMT+6", by="ab", dry_run=True
                ).remarks
                == ()
            )


def test_numbers_of_numpy_elsewhere_mean_what_they_say(small):
    """Entries and everyday work take whole numbers of any type for what they are, and refuse floats of any type."""
    at = "2026-03-01T08:00:00Z"
    with coldtally.Ledger(small) as ledger:
        for number in (4, np.int8(4), np.int64(4), np.uint16(4)):
            check = coldtally.Check(by="ab", at=at, place="fridge", scale="C", temperature=number)
            assert check.temperature == Decimal(4) and check.to_dict()["temperature"] == "4"
            assert ledger.check("fridge", number, by="ab", at=at, dry_run=True).entries[0].temperature == Decimal(4)
            assert ledger.post(
                {"kind": "check", "at": at, "by": "ab", "place": "fridge", "scale": "C", "temperature": number},
                dry_run=True,
            ) == [8]
            assert coldtally.Receive(by="ab", at=at, place="fridge", product="elm", lot="E1", doses=number).doses == 4
            assert ledger.give("E1", "t-1", doses=number, by="ab", at=at, dry_run=True).entries[0].doses == 4
            assert coldtally.Told(out_of_range_s=number, unmonitored_s=0, points=0).out_of_range_s == 4
        for number in (4.0, np.float64(4), np.float32(4), np.bool_(True), True):
            with pytest.raises(coldtally.WrongType):
                coldtally.Check(by="ab", at=at, place="fridge", scale="C", temperature=number)
            with pytest.raises(coldtally.WrongType):
                ledger.check("fridge", number, by="ab", at=at)
            with pytest.raises(coldtally.BadValue):
                ledger.post(
                    {"kind": "check", "at": at, "by": "ab", "place": "fridge", "scale": "C", "temperature": number}
                )
            with pytest.raises(coldtally.BadValue):
                ledger.give("E1", "t-1", doses=number, by="ab", at=at)
        assert len(list(ledger.entries())) == 7


def test_the_fast_way_and_the_wire_form_are_one(small, tmp_path):
    """Rows from arrays and the same rows as an entry's JSON make ledgers with the same chain."""
    other = tmp_path / "other.ledger"
    now = datetime.datetime(2026, 3, 1, 18, tzinfo=UTC)
    with coldtally.Ledger(small) as a, coldtally.Ledger(other) as b:
        b.replay("".join(a.export()))
        a.post_readings(
            "p1",
            "C",
            instants(4)[::-1],
            thousandths=VALUES[::-1],
            zone="UTC",
            by="ab",
            note="n",
            source=("f.csv", "0" * 64),
            now=now,
        )
        b.post(
            coldtally.Readings(
                by="ab",
                probe="p1",
                scale="C",
                note="n",
                source=coldtally.Source("f.csv", "0" * 64),
                rows=[(t.item().replace(tzinfo=UTC), Decimal(v) / 1000) for t, v in zip(instants(4), VALUES)],
            ),
            now=now,
        )
        assert a.verify() == b.verify() and a.verify().findings == ()


@pytest.mark.parametrize(
    "at, given, cls, says",
    [
        (instants(2), {"degrees": np.array([4.2, 4.3])}, TypeError, "floats are not the numbers that were read"),
        (instants(2), {"degrees": [4.2, 4.3]}, TypeError, "floats"),
        (instants(2), {"degrees": ["4.2", "4,3"]}, ValueError, r'^rows\[1\]: "4,3": must be degrees'),
        (instants(2), {"degrees": [Decimal("4.2"), 4.3]}, TypeError, r"rows\[1\]: 4.3: must be a decimal.Decimal"),
        (
            instants(2),
            {"thousandths": [4200]},
            ValueError,
            "thousandths: 1 of them: must be as many as the instants, 2",
        ),
        (instants(2), {"degrees": ["4"]}, ValueError, "degrees: 1 of them: must be as many as the instants, 2"),
        (np.array(["2026-03-01", "NaT"], "M8[s]"), {"thousandths": [1, 2]}, ValueError, r"rows\[1\]: NaT"),
        (np.array([0, 300]), {"thousandths": [1, 2]}, TypeError, "must be datetime64"),
        (
            np.array(["2026-03-01T00:00:00.5"], "M8[ms]"),
            {"thousandths": [1]},
            ValueError,
            r"rows\[0\]: .*must be a whole second",
        ),
        (
            instants(2),
            {"thousandths": [0, 10**9]},
            ValueError,
            r'entry 1 of 1: rows\[1\]: "1000000": must be from -273.15 to 1000',
        ),
        (instants(2), {"thousandths": [0, 2**40]}, ValueError, r"rows\[1\]: "),
        (np.array(["1969-12-31"], "M8[s]"), {"thousandths": [1]}, ValueError, r"rows\[0\]: .*1970 to 2199"),
        (
            np.array(["2027-01-01"], "M8[s]"),
            {"thousandths": [1]},
            coldtally.TooLate,
            r"rows\[0\]: 2027-01-01T00:00:00Z: must not be later",
        ),
        (instants(0), {"thousandths": np.array([], "int32")}, ValueError, "0 rows: must be 1 to 100000"),
        (instants(0), {"degrees": []}, ValueError, "0 rows: must be 1 to 100000"),
        (instants(4).reshape(2, 2), {"thousandths": [1, 2]}, TypeError, "must have one"),
        (instants(2), {"degrees": np.array([[1, 2]])}, TypeError, "must have one"),
    ],
)
def test_what_is_not_taken(small, at, given, cls, says):
    with coldtally.Ledger(small) as ledger:
        with pytest.raises(cls, match=says) as caught:
            ledger.post_readings(
                "p1", "C", at, zone="UTC", by="ab", now=datetime.datetime(2026, 3, 2, tzinfo=UTC), **given
            )
        assert isinstance(caught.value, coldtally.Error)
        assert len(list(ledger.entries())) == 7


@pytest.mark.parametrize(
    "changed, says",
    [
        ({"by": ""}, "by: .*must be 1 to 64 characters"),
        ({"probe": " p1"}, "probe: .*blank"),
        ({"scale": "K"}, "scale"),
        ({"source": ("f", "xyz")}, "sha256: .*64 digits"),
        ({"note": "n" * 4001}, "note: .*4000 characters"),
        ({"note": "\ud800"}, "UTF-8"),
    ],
)
def test_the_batch_is_judged_as_its_wire_form_is(small, changed, says):
    with coldtally.Ledger(small) as ledger:
        given = {"probe": "p1", "scale": "C", "by": "ab", **changed}
        with pytest.raises(coldtally.Error, match=says) as fast:
            named = given.pop("probe"), given.pop("scale")
            ledger.post_readings(*named, instants(1), thousandths=[4000], zone="UTC", **given)
        form = {
            "kind": "readings",
            "probe": "p1",
            "scale": "C",
            "by": "ab",
            "rows": [["2026-03-01T00:00:00Z", 4]],
            **changed,
        }
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
            ledger.post_readings("p1", "F", instants(1), thousandths=[40000], zone="UTC", by="ab")
        ledger.post_readings("p1", "C", instants(2), thousandths=[4000, 4100], zone="UTC", by="ab")
        with pytest.raises(coldtally.ReadingsDiffer, match="4.2 at 2026-03-01T00:05:00Z: entry 8 says 4.1"):
            ledger.post_readings("p1", "C", instants(2), thousandths=[4000, 4200], zone="UTC", by="ab")


def test_many_rows_are_several_entries_all_or_nothing(small):
    many = np.datetime64("2025-01-01", "s") + np.arange(250_001) * np.timedelta64(60, "s")
    values = (np.arange(250_001) % 5000).astype("int32")
    with coldtally.Ledger(small) as ledger:
        bad = values.copy()
        bad[200_007] = 2_000_000
        with pytest.raises(coldtally.BadValue, match=r"entry 3 of 3: rows\[7\]"):
            ledger.post_readings("p1", "C", many, thousandths=bad, zone="UTC", by="ab")
        rows = {"thousandths": values, "zone": "UTC", "by": "ab"}
        assert ledger.post_readings("p1", "C", many, **rows, dry_run=True).entries == (8, 9, 10)
        assert len(list(ledger.entries())) == 7
        assert ledger.post_readings("p1", "C", many, thousandths=values, zone="UTC", by="ab").entries == (8, 9, 10)
        out = ledger.readings("p1", "2025-01-01T00:00:00Z", "2026-01-01T00:00:00Z")
        assert (out.thousandths == values).all() and (out.instants == many).all()


def test_known_on_and_at_cut_the_readings(small):
    with coldtally.Ledger(small) as ledger:
        ledger.post_readings(
            "p1",
            "C",
            instants(4),
            thousandths=VALUES,
            zone="UTC",
            by="ab",
            now=datetime.datetime(2026, 3, 1, 20, tzinfo=UTC),
        )
        assert ledger.readings("p1", *DAY, known_on="2026-03-01T19:00:00Z").instants.size == 0
        assert (
            ledger.readings("p1", *DAY, at="2026-03-01T00:10:00Z").instants.size == 3
        )  # the instant asked about is seen
        assert ledger.readings("p1", "2026-03-01T00:05:00Z", "2026-03-01T00:15:00Z").instants.size == 2
        with pytest.raises(coldtally.NotKnown):
            ledger.readings("p9", *DAY)
        with pytest.raises(coldtally.Contradiction):
            ledger.readings("p1", *reversed(DAY))


def test_trace(small):
    with coldtally.Ledger(small) as ledger:
        gap = np.concatenate([instants(3), instants(3) + np.timedelta64(7200, "s")])
        ledger.post_readings("p1", "C", gap, thousandths=[4000] * 6, zone="UTC", by="ab")
        ledger.post(
            [
                coldtally.Check(
                    by="ab", at=f"2026-03-01T0{h}:00:00Z", place="fridge", scale="C", temperature=4, min=3, max=5
                )
                for h in (5, 9)
            ],
            now=datetime.datetime(2026, 3, 1, 18, tzinfo=UTC),
        )
        trace = ledger.trace("fridge", *DAY, at="2026-03-01T18:00:00Z")
        assert trace.joined.tolist() == [True, True, False, True, True, False]
        assert [(p.class_, p.from_.hour, p.until.hour) for p in trace.parts] == [
            ("near", 0, 0),
            ("unmonitored", 0, 1),
            ("near", 1, 2),
            ("near", 2, 2),
            ("unmonitored", 2, 4),
            ("near", 4, 5),
            ("bounded", 5, 9),
            ("near", 9, 9),
            ("awaiting", 9, 18),
        ]
        assert [c.max for c in trace.checks] == [Decimal(5)] * 2
        assert trace.range.high.celsius() == 8 and trace.range.high.C == Decimal(8)
        assert trace.celsius().tolist() == [4.0] * 6 and len(trace.to_dict()["readings"]) == 6


def test_stays(demo):
    with coldtally.Ledger(demo, mode="read") as ledger:
        stays = ledger.stays("demo-birch", "B-0203", at=AT)
        assert [(s.place, s.doses, s.until is None) for s in stays] == [
            ("main-fridge", 30, False),
            ("annex-fridge", 29, True),
        ]
        with pytest.raises(coldtally.NotKnown):
            ledger.stays("demo-birch", "none")


def test_frames(demo):
    pandas = pytest.importorskip("pandas", reason="python3-pandas is not installed")
    with coldtally.Ledger(demo, mode="read") as ledger:
        frame = ledger.lists(at=AT).to_frame()
        assert frame.groupby("list", observed=False).doses.sum().to_dict() == {
            "discard": 25,
            "quarantine-pending-guidance": 36,
            "keep": 197,
        }
        kinds = frame.dtypes.astype(str)
        assert (
            kinds["place"],
            kinds["doses"],
            kinds["expiry"],
            kinds["list"],
            kinds["warm_estimate_s"],
            kinds["use_by"],
        ) == ("string", "int64", "datetime64[ns]", "category", "float64", "datetime64[ns, UTC]")
        assert ledger.stock(at=AT).to_frame().doses.sum() == 258
        assert str(ledger.review(at=AT).to_frame().guidance.dtype) == "Int64"
        assert len(ledger.excursions("main-fridge", "2026-01-05T07:00:00", AT, at=AT).to_frame()) == 2
        empty = ledger.excursions("carrier", "2026-01-05T07:00:00", AT, at=AT).to_frame()
        assert len(empty) == 0 and "duration_s" in empty
        assert ledger.stays("demo-birch", "B-0117", at=AT).to_frame()["from"].dtype == "datetime64[ns, UTC]"
        readings = ledger.readings("ml-101", "2026-02-10T00:00:00", "2026-02-11T00:00:00", at=AT).to_frame()
        assert len(readings) == 288 and readings.index.tz is not None
        assert (
            ledger.trace("main-fridge", "2026-02-10T00:00:00", "2026-02-11T00:00:00", at=AT).to_frame().celsius.max()
            > 8
        )
        with pytest.raises(coldtally.BadValue, match="no rows"):
            ledger.verify().to_frame()


def test_frames_of_duties_journeys_and_incidents(wren):
    pytest.importorskip("pandas", reason="python3-pandas is not installed")
    window = ("2026-03-01T00:00:00Z", "2026-03-03T00:00:00Z")
    with coldtally.Ledger(wren, mode="read") as ledger:
        dated = ledger.dates(at=AT).to_frame()
        assert (str(dated.usable_until.dtype), str(dated.order.dtype), str(dated.out_of_range_s.dtype)) in (
            ("datetime64[ns, UTC]", kind, "float64") for kind in ("int64", "Int64", "object")
        )
        loans = ledger.loans(all=True, at=AT).to_frame()
        assert (
            loans.lent.tolist() == [1, 1]
            and str(loans.overdue.dtype) == "bool"
            and str(loans.given.dtype) == "datetime64[ns, UTC]"
        )
        lots = ledger.accountability(*window, at=AT).to_frame()
        assert (
            lots.start + lots.received + lots.transferred_in + lots.found
            == lots.given + lots.wasted + lots.returned + lots.transferred_out + lots.lost + lots.end
        ).all()
        assert ledger.accountability(*window, at=AT).total.adds_up()
        moved = ledger.move_list("main", "box", at=AT).to_frame()
        assert str(moved.container_fit.dtype) == "category" and str(moved.frozen.dtype) == "bool"
        trip = ledger.trip("box", at=AT).to_frame()
        assert trip.loaded.sum() == trip.unloaded.sum() > 0 and str(trip.exposure_warm_estimate_s.dtype) == "float64"
        assert ledger.rules("main", *window, at=AT).to_frame().estimate_met.tolist() == [True]
        assert len(ledger.incidents(at=AT).to_frame()) == 1 and ledger.incident(
            "2026-1", at=AT
        ).to_frame().doses.tolist() == [24]
        months = ledger.unit("main", at=AT).to_frame()
        assert (
            months.excursions.sum() == ledger.unit("main", at=AT).whole.excursions > 0
            and str(months.out_of_range_s.dtype) == "float64"
        )
        assert str(ledger.readiness(at=AT).to_frame().urgency.dtype) == "category"
        assert str(ledger.follow_up("K1", at=AT).to_frame().standing.dtype) == "category"
        assert (
            str(ledger.training(at=AT).to_frame().lapsed.dtype) == "bool"
            and str(ledger.plan(at=AT).to_frame().state.dtype) == "category"
        )
        for answer in (ledger.dates, ledger.loans):
            assert len(answer(at="2026-03-01T00:30:00Z").to_frame()) == 0


def test_heavy_imports_wait_until_they_are_asked_for(demo):
    code = (
        f"import sys, coldtally; l = coldtally.Ledger({str(demo)!r}, mode='read'); l.lists(at={AT!r}).holdings; "
        "l.review().to_json();"
        "print(sorted({'numpy', 'pandas', 'matplotlib'} & set(sys.modules)))"
    )
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout == "[]\n"
