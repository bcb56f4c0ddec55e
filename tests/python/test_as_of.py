"""As of: one view of a ledger is one state of knowledge, whatever is posted meanwhile."""
import datetime
import inspect
import pickle
import time

import pytest
from conftest import AT
from test_answers import WINDOW, transfer_of

import coldtally
from coldtally import plot

UTC = datetime.timezone.utc
T = datetime.datetime(2026, 3, 1, 18, tzinfo=UTC)  # when the small clinic's entries were recorded
SECOND = datetime.timedelta(seconds=1)


def check(ledger, at, now, degrees=5):
    return ledger.post(coldtally.Check(by="ab", at=at, place="fridge", scale="C", temperature=degrees), now=now)


def test_every_question_is_a_method_of_a_view_without_the_instants():
    own = {n for n, f in vars(coldtally.Questions).items() if inspect.isfunction(f) and not n.startswith("_")}
    asked = {
        n
        for n, f in vars(coldtally.Ledger).items()
        if n[0] != "_" and inspect.isfunction(f) and {"at", "known_on", "now"} <= set(inspect.signature(f).parameters)
    }
    assert asked - {"as_of"} == own and len(own) >= 25
    for name in own:
        short = inspect.signature(getattr(coldtally.Ledger, name))
        of_view = inspect.signature(getattr(coldtally.AsOf, name))
        left = [p for n, p in short.parameters.items() if n not in ("at", "known_on", "now")]
        assert left == list(of_view.parameters.values()), name
        assert short.return_annotation == of_view.return_annotation, name


def asked_of(view, path):
    """Every question."""
    demo = path.name == "heron-flats.ledger"
    place, probe, container = ("main-fridge", "ml-101", "carrier") if demo else ("main", "p", "box")
    lots = [(h.place, h.product, h.lot, h.fund, h.mark) for h in view.lists()]
    where, product, lot, fund, mark = lots[0]
    yield view.stock()
    yield view.lists()
    yield view.scan("(01)09521234543213(17)270531(10)CE-44")
    yield view.review(all=True)
    yield view.immunizations()
    yield view.explain(where, product, lot, fund=fund, mark=mark)
    yield view.stays(product, lot)
    yield view.dates()
    yield view.loans(all=True, patients=True)
    yield view.accountability(*WINDOW)
    yield view.readings(probe, *WINDOW)
    yield view.trace(place, *WINDOW)
    yield view.excursions(place, *WINDOW)
    yield view.conditions(place, *WINDOW)
    yield view.unit(place)
    yield view.rules(place, *WINDOW)
    yield from [view.incident(i.incident) for i in view.incidents()]
    yield view.incidents()
    yield view.move_list(place, container)
    if not demo:
        yield view.trip(container)
    yield view.plan()
    yield view.follow_up()
    yield view.training()
    yield view.today()
    yield view.readiness()
    yield view.entered(place=place, last=200, patients=True)
    yield view.show(product)
    yield view.show()


@pytest.mark.parametrize("which", ["demo", "wren"])
def test_the_answers_are_those_of_the_questions_asked_alone(request, which):
    path = request.getfixturevalue(which)
    with coldtally.Ledger(path, mode="read") as ledger:
        view = ledger.as_of(at=AT)
        known = {"at": view.at, "known_on": view.known_on}
        assert ledger.handover(transfer_of(ledger), **known) == view.handover(transfer_of(ledger))

        class Alone:
            """The short form of each question."""

            def __getattr__(self, name):
                return lambda *positional, **named: getattr(ledger, name)(*positional, **named, **known)

        seen = 0
        for one, other in zip(asked_of(view, path), asked_of(Alone(), path), strict=True):
            assert type(one) is type(other) and one.to_json() == other.to_json()
            assert (one.at, one.known_on, one.last_entry) == (view.at, view.known_on, view.last_entry)
            seen += 1
        assert seen >= 24


def test_what_is_posted_later_is_not_seen(small):
    with coldtally.Ledger(small) as ledger, coldtally.Ledger(small) as other:
        view = ledger.as_of(now=T + 10 * SECOND)
        assert (view.at, view.known_on, view.last_entry) == (T + 10 * SECOND, T + 9 * SECOND, 7)
        before = [view.stock(), view.lists(), view.excursions("fridge", "2026-03-01", "2026-03-02")]
        # the instant of the view itself, and its very second of recording
        check(other, T, T + 10 * SECOND, 12)
        other.post(coldtally.Void(by="ab", at=T, voids=7, reason="another clinic's"), now=T + 10 * SECOND)
        after = [view.stock(), view.lists(), view.excursions("fridge", "2026-03-01", "2026-03-02")]
        assert [a.to_json() for a in after] == [a.to_json() for a in before]
        assert len(before[1]) == 1 and len(ledger.lists(now=T + 10 * SECOND)) == 0
        # a view that is made now sees them
        assert ledger.as_of(now=T + 20 * SECOND).last_entry == 9


def test_an_entry_of_the_very_second_is_refused_and_not_mixed_in(small):
    with coldtally.Ledger(small) as ledger, coldtally.Ledger(small) as other:
        view = ledger.as_of(now=T)  # the last entry was recorded in this second
        assert (view.at, view.known_on, view.last_entry) == (T, T, 7)
        assert view.lists().last_entry == 7
        check(other, T, T)
        for ask in (
            view.lists,
            lambda: view.trace("fridge", "2026-03-01", "2026-03-02"),
            lambda: view.readings("p1", "2026-03-01", "2026-03-02"),
        ):
            with pytest.raises(coldtally.Overtaken, match="entry 8 was posted .* after entry 7"):
                ask()
        assert ledger.as_of(now=T).last_entry == 8


def test_an_instant_to_come_is_not_known_on(small):
    """What is yet to be posted cannot be fixed: the view knows what is known now."""
    with coldtally.Ledger(small) as ledger, coldtally.Ledger(small) as other:
        view = ledger.as_of(known_on=T.replace(year=2199), now=T + 10 * SECOND)
        assert (view.known_on, view.last_entry) == (T + 9 * SECOND, 7)
        check(other, T, T + 30 * SECOND)
        assert view.lists().last_entry == 7


def test_an_earlier_state_of_knowledge(small):
    with coldtally.Ledger(small) as ledger:
        check(ledger, T, T + 10 * SECOND)
        view = ledger.as_of(at="2026-03-01T18:00:00Z", known_on=T + 9 * SECOND, now=T + 60 * SECOND)
        assert (view.at, view.known_on, view.last_entry) == (T, T + 9 * SECOND, 7)
        assert "known up to entry 7" in repr(view)
        with pytest.raises(coldtally.WrongType, match="cannot be pickled"):
            pickle.dumps(view)
        with pytest.raises(coldtally.NotKnown):
            ledger.as_of(known_on=T - SECOND)


def test_times_of_the_clock_are_read_once(small):
    """ "12:05" is that of the day on which the view was made, in the zone that it knows."""
    with coldtally.Ledger(small) as ledger:
        view = ledger.as_of(at="12:00", now=T + 60 * SECOND)  # 12:01 in Chicago
        assert view.at == T and view.zone().key == "America/Chicago"
        ledger.post(coldtally.Site(by="ab", name="Small Clinic", zone="America/Denver"), now=T + 120 * SECOND)
        assert view.zone().key == "America/Chicago" and ledger.zone().key == "America/Denver"
        window = view.excursions("fridge", "00:00", "12:00")
        assert (window.from_, window.until) == (T - 12 * 3600 * SECOND, T)


def test_a_view_by_the_real_clock(small):
    with coldtally.Ledger(small) as ledger:
        begun = datetime.datetime.now(UTC).replace(microsecond=0)
        view = ledger.as_of()
        assert begun <= view.at <= datetime.datetime.now(UTC) and view.known_on == view.at - SECOND
        time.sleep(1.1)
        assert view.stock().at == view.at
    with pytest.raises(coldtally.ClosedLedger):
        view.stock()


def test_a_picture_is_of_one_state(small, monkeypatch):
    """Whoever posts between its questions changes nothing in it."""
    pytest.importorskip("matplotlib", reason="python3-matplotlib is not installed").use("Agg")
    import matplotlib.pyplot as plt

    narrow = coldtally.Range(coldtally.Limit(C=2), coldtally.Limit(C=4))
    place = coldtally.Place(by="ab", place="fridge", name="Fridge", type="refrigerator", range=narrow)
    with coldtally.Ledger(small) as ledger, coldtally.Ledger(small) as other:
        other.post([coldtally.Check(by="ab", at=T, place="fridge", scale="C", temperature=5)], now=T)
        trace = coldtally.AsOf.trace

        def overtaken(self, *asked):
            answer = trace(self, *asked)
            other.post(place)  # 5 °C is out of its range from now on
            return answer

        def labels(axes):
            plt.close("all")
            return set(axes.get_legend_handles_labels()[1])

        monkeypatch.setattr(coldtally.AsOf, "trace", overtaken)
        assert "out of range" not in labels(plot.trace(ledger, "fridge", "2026-03-01", "2026-03-02"))
        monkeypatch.undo()
        assert "out of range" in labels(plot.trace(ledger, "fridge", "2026-03-01", "2026-03-02"))


def test_a_picture_of_a_view(demo):
    pytest.importorskip("matplotlib", reason="python3-matplotlib is not installed").use("Agg")
    import matplotlib.pyplot as plt

    with coldtally.Ledger(demo, mode="read") as ledger:
        view = ledger.as_of(at=AT)
        assert "hours" in plot.exposure(view, "demo-cedar", "CE-44").get_xlabel()
        with pytest.raises(coldtally.Contradiction, match="the view states its own"):
            plot.exposure(view, "demo-cedar", "CE-44", at=AT)
    plt.close("all")
