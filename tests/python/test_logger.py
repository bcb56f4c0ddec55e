"""Logger files: what is refused is told with its rows and with arguments that let the rest through, and these do."""
import dataclasses
import pickle
from decimal import Decimal

import pytest
from conftest import wren_street

import coldtally

HEAD = "Time,Temp (C)\n2026-03-01 08:05,4.1\n2026-03-01 08:15,4.2\n2026-03-01 08:25,4.3\n"


@pytest.fixture
def ledger(tmp_path):
    wren_street(tmp_path / "wren.ledger")
    with coldtally.Ledger(tmp_path / "wren.ledger") as ledger:
        yield ledger


def refused(ledger, cls, content, **more):
    before = list(ledger.export())
    with pytest.raises(cls) as caught:
        ledger.import_readings("p", [("download.csv", content.encode())], by="qa", **more)
    assert list(ledger.export()) == before
    return caught.value


def readings(ledger):
    return [e for e in ledger.entries() if isinstance(e, coldtally.Readings)][-1]


def test_unreadable_rows_are_told_together(ledger):
    content = HEAD + "2026-03-01 08:35,N/A\nEnd of data\n2026-03-01 08:45,4.2505\n"
    content += "".join(f"2026-03-01 09:{i},off\n" for i in range(10, 40))
    content += "".join(f"2026-03-01 10:{i},4.2\n" for i in range(10, 50))
    error = refused(ledger, coldtally.BadRow, content)
    assert error.unreadable == 33 and len(error.rows) == 20
    assert error.rows[0] == ("download.csv", 5, 'temperature: "N/A": must be degrees such as 4.2')
    assert error.without_remedy == 0 and not error.can_accept
    (remedy,) = error.remedies
    assert remedy.when == "" and set(remedy.layout.no_reading) == {"N/A", "off"}
    assert remedy.layout.ignore_rows == ("^End of data$",) and remedy.layout.resolution == "0.001"
    assert "layout=Layout(resolution='0.001', no_reading=(" in str(error) and "--" not in str(error)
    assert eval(remedy.layout.stated(), dict(vars(coldtally))) == remedy.layout  # what is printed is Python
    again = pickle.loads(pickle.dumps(error))
    assert again.rows == error.rows and again.remedies == error.remedies
    report = ledger.import_readings("p", [("download.csv", content.encode())], by="qa", layout=remedy.layout)
    (file,) = report.files
    assert (file.rows_kept, file.rows_without_reading) == (44, 31)
    assert (file.rows_rounded, file.largest_change) == (1, Decimal("0.0005"))


def test_a_resolution_is_asked_for_and_kept(ledger):
    content = "Time,Temp (C)\n2026-03-01 08:05,4.599999905\n2026-03-01 08:15,4.699999809\n"
    error = refused(ledger, coldtally.Ambiguous, content)
    assert error.can_accept and "accept_guesses=True" in str(error) and error.remedies[0].layout.resolution == "0.1"
    assert refused(ledger, coldtally.BadValue, content, layout=coldtally.Layout(resolution="0.5")).remedies == ()
    stated = coldtally.Layout(resolution="0.1")
    (file,) = ledger.import_readings("p", [("download.csv", content.encode())], by="qa", layout=stated).files
    assert file.layout.resolution == "0.1" and file.rows_rounded == 2 and file.largest_change == Decimal("0.000000191")
    entry = readings(ledger)
    assert entry.source.resolution == "0.1" and [t for _, t in entry.rows] == [Decimal("4.6"), Decimal("4.7")]


@pytest.mark.parametrize("codec, mark", [("utf-16-le", b"\xff\xfe"), ("utf-16-be", b"\xfe\xff")])
def test_utf16_is_read(ledger, codec, mark):
    content = mark + HEAD.replace("(C)", "(°C)").encode(codec)
    (file,) = ledger.import_readings("p", [("download.csv", content)], by="qa").files
    assert file.rows_kept == 3


def test_a_clock_that_was_set_back(ledger):
    content = HEAD + "2026-03-01 08:08,4.4\n2026-03-01 08:18,4.5\n"
    error = refused(ledger, coldtally.Ambiguous, content)
    assert error.unreadable == 0 and len(error.remedies) == 2
    first = error.remedies[0]
    assert first.when == "the clock was right up to line 4"
    assert first.layout.clocks == (coldtally.LayoutClock(line=5, at="2026-03-01T08:35:00"),)
    assert "layout=Layout(clocks=(LayoutClock(line=5, at='2026-03-01T08:35:00'),))" in str(error)
    layout = dataclasses.replace(coldtally.Layout(offset="+00:00"), clocks=[{"line": 5, "offset": "-00:27"}])
    report = ledger.import_readings("p", [("download.csv", content.encode())], by="qa", layout=layout)
    assert [at.strftime("%H:%M") for at, _ in readings(ledger).rows] == ["08:05", "08:15", "08:25", "08:35", "08:45"]
    assert report.files[0].layout.clocks == (coldtally.LayoutClock(line=5, offset="-00:27"),)


def test_many_excursions_in_short(ledger):
    rows = [f"2026-03-01 {i // 60:02d}:{i % 60:02d},{'12.0' if i // 30 % 2 else '5.0'}" for i in range(0, 1440, 10)]
    report = ledger.import_readings("p", [("warm.csv", ("Time,Temp (C)\n" + "\n".join(rows) + "\n").encode())], by="qa")
    short = report.found_in_short
    every = report.found.without_incident
    assert short.count == len(every) == 24
    assert short.longest.duration_s == max(e.duration_s for e in every)
    assert short.latest.until_s == max(e.until_s for e in every)
    assert report.to_table().count("too warm") == 2 and "24 excursions" in report.to_table()
