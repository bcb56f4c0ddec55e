"""Plots of what a ledger says, with Matplotlib, which is imported when one is drawn.

Each function draws into `ax`, or into a new figure, and returns the axes. Nothing is said by colour alone: lines,
hatches and marks differ, and a print in black and white shows the same. Times are the site's local times. Numbers are
rounded to be drawn; what is to be decided is asked of the ledger.
"""
from __future__ import annotations

import datetime
import textwrap
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from .answers import ExcursionsAnswer, ListedHolding, StaysAnswer, TraceAnswer, TraceCheck, TracePart
from .arguments import Instant, WindowEnd
from .as_of import AsOf
from .errors import Contradiction, NotKnown
from .ledger import Ledger

if TYPE_CHECKING:
    from matplotlib.axes import Axes  # type: ignore[import]

__all__ = ["exposure", "trace", "years"]

_HATCHES = {
    "unmonitored": ("xxx", "not known"),
    "awaiting": ("...", "no data yet"),
    "near": ("oo", "not known, near a reading in range"),
}
_DASHED = "Between checks (dashed) nothing is known: the line only joins them. "
_DAY = datetime.timedelta(days=1)


def _seen(ledger: Ledger | AsOf, at: Instant | None, known_on: Instant | None) -> AsOf:
    """What a picture is of: one state of knowledge for all its parts."""
    if isinstance(ledger, Ledger):
        return ledger.as_of(at=at, known_on=known_on)
    if at is not None or known_on is not None:
        raise Contradiction("at, known_on: the view states its own: leave them out")
    return ledger


def _axes(ax: Any, width: float, height: float) -> Any:
    if ax is not None:
        return ax
    import matplotlib.pyplot  # type: ignore[import]

    return matplotlib.pyplot.subplots(figsize=(width, height), layout="constrained")[1]


def _caution(ax: Any, text: str, characters: int) -> None:
    """The caution of what is drawn, below the axes: a picture is cut out and handed on."""
    below = ax.get_xlabel()
    ax.set_xlabel((below + "\n" if below else "") + textwrap.fill(text, characters), fontsize="x-small")


def _legend(ax: Any, **named: Any) -> None:
    """Each label once, in the order of drawing."""
    once = dict(zip(*reversed(ax.get_legend_handles_labels())))
    if once:
        ax.legend(once.values(), once.keys(), fontsize="small", **named)


def _draw_range(ax: Any, answer: TraceAnswer) -> None:
    bounds = [None if b is None else float(b.celsius()) for b in (answer.range.low, answer.range.high)]
    if None not in bounds:
        ax.axhspan(*bounds, facecolor="0.93", zorder=0, label="range of the place")
    for bound in bounds:
        if bound is not None:
            ax.axhline(bound, color="0.35", linewidth=0.8, linestyle=(0, (1, 2)), zorder=1)


def _draw_readings(ax: Any, answer: TraceAnswer) -> None:
    import numpy

    breaks = numpy.flatnonzero(~answer.joined) + 1  # nothing is drawn where nothing is known
    ax.plot(
        numpy.insert(answer.instants, breaks, numpy.datetime64("NaT")),
        numpy.insert(answer.celsius(), breaks, numpy.nan),
        color="black",
        linewidth=0.9,
        zorder=3,
        label="readings",
    )


def _degrees(check: TraceCheck, value: Decimal) -> float:
    """A temperature of a check, °C."""
    return float(value) if check.scale == "C" else (float(value) - 32) * 5 / 9


def _draw_parts(ax: Any, answer: TraceAnswer) -> bool:
    """What stands for time that no logger covers. Is any of it a dashed line?"""
    by_end = {c.at: c for c in answer.checks}
    dashed = False
    for part in answer.parts:
        if part.class_ in _HATCHES:
            hatch, label = _HATCHES[part.class_]
            style = {"facecolor": "none", "edgecolor": "0.6", "hatch": hatch, "linewidth": 0}
            ax.axvspan(part.from_, part.until, **style, zorder=1, label=label)
        elif part.class_ == "bounded":
            check = next((c for t, c in sorted(by_end.items()) if t >= part.until), None)
            if check is not None:
                _draw_bounded(ax, part, check)
        else:
            ends = [c for t, c in by_end.items() if t in (part.from_, part.until)]
            if len(ends) == 2:
                dashed = True
                _draw_between(ax, ends)
    return dashed


def _draw_bounded(ax: Any, part: TracePart, check: TraceCheck) -> None:
    if check.min is None or check.max is None:
        return
    ax.fill_between(
        [part.from_, part.until],
        _degrees(check, check.min),
        _degrees(check, check.max),
        facecolor="none",
        edgecolor="0.4",
        hatch="---",
        linewidth=0.6,
        zorder=2,
        label="between a check's minimum and maximum",
    )


def _draw_between(ax: Any, ends: list[TraceCheck]) -> None:
    """The line between two plain checks."""
    ax.plot(
        [c.at for c in ends],
        [_degrees(c, c.temperature) for c in ends],
        color="black",
        linestyle="--",
        linewidth=0.8,
        zorder=3,
        label="between checks",
    )


def _draw_excursions(ax: Any, excursions: ExcursionsAnswer) -> None:
    for e in excursions.excursions:
        if e.kind == "point":
            style = {"color": "black", "markersize": 7, "zorder": 5}
            ax.plot([e.from_], [float(e.peak_C)], "x", **style, label="out of range")
        else:
            style = {"facecolor": "0.75", "edgecolor": "0.2", "hatch": "//", "linewidth": 0.8, "alpha": 0.6}
            ax.axvspan(e.from_, e.until, **style, zorder=2, label="out of range")


def _draw_checks(ax: Any, answer: TraceAnswer) -> None:
    if not answer.checks:
        return
    ax.plot(
        [c.at for c in answer.checks],
        [_degrees(c, c.temperature) for c in answer.checks],
        "o",
        markerfacecolor="white",
        markeredgecolor="black",
        markersize=4,
        linestyle="none",
        zorder=4,
        label="checks",
    )


def _draw_stays(ax: Any, answer: TraceAnswer, stays: StaysAnswer) -> None:
    """When doses of a lot were in the place."""
    import matplotlib.dates  # type: ignore[import]

    number = matplotlib.dates.date2num
    here = [s for s in stays.stays if s.place == answer.place]
    spans = [(max(s.from_, answer.from_), min(s.until or answer.at, answer.until, answer.at)) for s in here]
    ax.broken_barh(
        [(number(a), number(b) - number(a)) for a, b in spans if a < b],
        (0.01, 0.035),
        transform=ax.get_xaxis_transform(),
        facecolor="black",
        zorder=6,
        label=f"lot {stays.lot} is there",
    )


def _set_trace_axes(ax: Any, answer: TraceAnswer, zone: datetime.tzinfo) -> None:
    import matplotlib.dates

    ax.set_xlim(answer.from_, answer.until)
    locator = matplotlib.dates.AutoDateLocator(tz=zone)
    ax.xaxis.set_major_locator(locator)
    ax.xaxis.set_major_formatter(matplotlib.dates.ConciseDateFormatter(locator, tz=zone))
    ax.set_ylabel("°C")
    ax.set_title(f"{answer.ledger}: {answer.place}", fontsize="medium")


def trace(
    ledger: Ledger | AsOf,
    place: str,
    from_: WindowEnd,
    until: WindowEnd,
    *,
    product: str | None = None,
    lot: str | None = None,
    at: Instant | None = None,
    known_on: Instant | None = None,
    ax: Axes | None = None,
) -> Axes:
    """The temperature of a place in [from_, until), °C: readings, its range, excursions, checks with minimum and
    maximum, time of which nothing is known, and when doses of a lot were there.

    Parameters
    ----------
    ledger : Ledger | AsOf
        An open ledger, or a view of one (:meth:`Ledger.as_of`). All that is drawn is of one state of knowledge.
    place : str
        The id of the place.
    from_ : WindowEnd
        The beginning of the window; a date: the first instant of that day.
    until : WindowEnd
        Its end, which is not in it; a date: the end of that day.
    product, lot : str, optional
        Mark when doses of this lot were there.
    at : Instant, optional
        The instant asked about; None: now.
    known_on : Instant, optional
        Only entries recorded up to then are seen; None: all.
    ax : Axes, optional
        To be drawn into; None: a new figure's.

    Returns
    -------
    Axes
        What was drawn into.

    Raises
    ------
    NotKnown, Contradiction, BadValue
        What :meth:`Ledger.trace` raises.
    """
    seen = _seen(ledger, at, known_on)
    answer = seen.trace(place, from_, until)
    excursions = seen.excursions(place, from_, until)
    ax = _axes(ax, 10, 4)
    _draw_range(ax, answer)
    _draw_readings(ax, answer)
    dashed = _draw_parts(ax, answer)
    _draw_excursions(ax, excursions)
    _draw_checks(ax, answer)
    if product is not None and lot is not None:
        _draw_stays(ax, answer, seen.stays(product, lot))
    _set_trace_axes(ax, answer, seen.zone())
    _caution(ax, (_DASHED if dashed else "") + answer.caution, 150)
    _legend(ax, loc="upper left", ncols=2)
    return ax


def _rows_of(h: ListedHolding) -> list[tuple[str, float, float, float]]:
    """Of each allowance and of what none covers: a label, and hours used, open and permitted."""
    name = ", ".join(filter(None, (h.place, h.fund, h.mark)))
    rows = [
        (f"{name}\nallowance {i}", float(a.used_s) / 3600, float(a.open_s) / 3600, a.seconds / 3600)
        for i, a in enumerate(h.history.allowances, 1)
    ]
    beyond = h.history.beyond
    used, open_ = beyond.warm_s + beyond.cold_s, beyond.warm_open_s + beyond.cold_open_s
    return [*rows, (f"{name}\nin no allowance", float(used) / 3600, float(open_) / 3600, 0.0)]


def exposure(
    ledger: Ledger | AsOf,
    product: str,
    lot: str,
    *,
    at: Instant | None = None,
    known_on: Instant | None = None,
    ax: Axes | None = None,
) -> Axes:
    """The hours that each holding of a lot has been out of range against the product's allowances: what is used, what
    of it is open since guidance last cleared it, and what each allowance permits. Time in no allowance stands beside an
    allowance of nothing.

    Parameters
    ----------
    ledger : Ledger | AsOf
        An open ledger, or a view of one (:meth:`Ledger.as_of`).
    product : str
        The id of the product.
    lot : str
        The number of the lot.
    at : Instant, optional
        The instant asked about; None: now.
    known_on : Instant, optional
        Only entries recorded up to then are seen; None: all.
    ax : Axes, optional
        To be drawn into; None: a new figure's.

    Returns
    -------
    Axes
        What was drawn into.

    Raises
    ------
    NotKnown
        The lot has no doses; and what :meth:`Ledger.lists` raises.
    """
    lists = _seen(ledger, at, known_on).lists()
    holdings = [h for h in lists if (h.product, h.lot) == (product, lot)]
    if not holdings:
        raise NotKnown(f'lot: "{lot}": no doses of it for product "{product}" are there then')
    rows = [row for h in holdings for row in _rows_of(h)]
    ax = _axes(ax, 8, 0.6 + 0.45 * len(rows))
    for y, (_, used, open_, permitted) in enumerate(rows):
        if permitted:
            ax.barh(y, permitted, height=0.7, facecolor="white", edgecolor="black", linewidth=0.8, label="permitted")
        ax.barh(y, used, height=0.4, facecolor="0.7", edgecolor="black", linewidth=0.8, label="used")
        style = {"facecolor": "none", "edgecolor": "black", "hatch": "////", "linewidth": 0.8}
        ax.barh(y, open_, height=0.4, **style, label="of it open")
    ax.set_yticks(range(len(rows)), [r[0] for r in rows], fontsize="small")
    ax.invert_yaxis()
    ax.set_xlim(left=0)
    ax.set_xlabel("hours out of range")
    ax.set_title(f"{holdings[0].product} {lot}", fontsize="medium")
    _caution(ax, lists.caution, 110)
    _legend(ax, loc="lower right")
    return ax


_HoursOfDays = dict[str, dict[datetime.date, float]]
"""Of warm, cold and unmonitored: hours by the day."""


def _hours_of_days(answer: TraceAnswer, excursions: ExcursionsAnswer, zone: datetime.tzinfo) -> _HoursOfDays:
    hours: _HoursOfDays = {"warm": {}, "cold": {}, "unmonitored": {}}

    def spread(kind: str, begin: float, end: float) -> None:
        """Adds [begin, end), seconds since 1970, to the days it touches."""
        day = datetime.datetime.fromtimestamp(begin, zone).date()
        while begin < end:
            next_day = datetime.datetime.combine(day + _DAY, datetime.time(), zone).timestamp()
            hours[kind][day] = hours[kind].get(day, 0) + (min(end, next_day) - begin) / 3600
            begin, day = max(begin, next_day), day + _DAY

    for e in excursions.excursions:
        spread(e.side, float(e.from_s), float(e.until_s))
        if e.kind == "point":
            hours[e.side].setdefault(e.from_.astimezone(zone).date(), 0.0)
    for part in answer.parts:
        if part.class_ == "unmonitored":
            spread("unmonitored", part.from_.timestamp(), part.until.timestamp())
    return hours


def _cell(day: datetime.date, first: int) -> tuple[int, int]:
    """Its column and row."""
    return day.timetuple().tm_yday - 1, day.year - first


def _draw_cells(ax: Any, hours: _HoursOfDays, first: int, last: int) -> Any:
    """The cells, which are handed out for the bar that says what their greys mean."""
    import numpy

    table = numpy.zeros((last - first + 1, 366))
    for side in ("warm", "cold"):
        for day, h in hours[side].items():
            x, y = _cell(day, first)
            table[y, x] += h
    columns, rows = numpy.arange(367) - 0.5, numpy.arange(len(table) + 1) - 0.5
    return ax.pcolormesh(columns, rows, numpy.sqrt(table), cmap="gray_r", vmin=0, vmax=numpy.sqrt(24))


def _draw_marks(ax: Any, hours: _HoursOfDays, first: int) -> None:
    for side, marker in (("warm", "^"), ("cold", "v")):
        points = [_cell(day, first) for day in hours[side]]
        if points:
            style = {"color": "black", "markersize": 4, "linestyle": "none"}
            ax.plot(*zip(*[(x, y - 0.35) for x, y in points]), marker, **style, label=side)
    unknown = [_cell(day, first) for day, h in hours["unmonitored"].items() if h > 1]
    if unknown:
        style = {"color": "0.4", "markersize": 2, "linestyle": "none"}
        ax.plot(*zip(*[(x, y + 0.3) for x, y in unknown]), ".", **style, label="over 1 h not known")


def _set_year_axes(ax: Any, mesh: Any, first: int, last: int) -> None:
    ax.set_yticks(range(last - first + 1), [str(y) for y in range(first, last + 1)])
    months = [datetime.date(2024, m, 1) for m in range(1, 13)]
    ax.set_xticks([m.timetuple().tm_yday - 1 for m in months], list("JFMAMJJASOND"))
    ax.set_ylim(last - first + 0.5, -0.5)
    ticks = [0, 1, 4, 12, 24]
    bar = ax.figure.colorbar(mesh, ax=ax, ticks=[t**0.5 for t in ticks], pad=0.01)
    bar.ax.set_yticklabels([str(t) for t in ticks])
    bar.set_label("hours out of range", fontsize="small")


def years(
    ledger: Ledger | AsOf,
    place: str,
    first: int,
    last: int,
    *,
    at: Instant | None = None,
    known_on: Instant | None = None,
    ax: Axes | None = None,
) -> Axes:
    """The years of a unit at a glance, a row each, a cell a day of the site's clock: the darker, the longer out of
    range; a triangle up: warm, down: cold; a dot: more than an hour of which nothing is known.

    Parameters
    ----------
    ledger : Ledger | AsOf
        An open ledger, or a view of one (:meth:`Ledger.as_of`). All that is drawn is of one state of knowledge.
    place : str
        The id of the place.
    first : int
        The first year.
    last : int
        The last year, which is drawn, too.
    at : Instant, optional
        The instant asked about; None: now.
    known_on : Instant, optional
        Only entries recorded up to then are seen; None: all.
    ax : Axes, optional
        To be drawn into; None: a new figure's.

    Returns
    -------
    Axes
        What was drawn into.

    Raises
    ------
    NotKnown, BadValue
        What :meth:`Ledger.excursions` raises.
    """
    seen = _seen(ledger, at, known_on)
    zone = seen.zone()
    span = (datetime.datetime(first, 1, 1, tzinfo=zone), datetime.datetime(last + 1, 1, 1, tzinfo=zone))
    answer = seen.trace(place, *span)
    hours = _hours_of_days(answer, seen.excursions(place, *span), zone)
    ax = _axes(ax, 12, 1.2 + 0.4 * (last - first + 1))
    mesh = _draw_cells(ax, hours, first, last)
    _draw_marks(ax, hours, first)
    _set_year_axes(ax, mesh, first, last)
    ax.set_title(f"{answer.ledger}: {place}", fontsize="medium")
    _caution(ax, answer.caution, 170)
    _legend(ax, loc="lower right", bbox_to_anchor=(1, 1), ncols=3)
    return ax
