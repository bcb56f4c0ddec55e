"""Journeys: doses that leave in a container: in which order, what it may take, what became of them. Doses and seconds
that the clock counts are whole numbers, exposure is exact. The page is lib/answers/README.md.
"""
from __future__ import annotations

import datetime

from .answers import LISTS, Answer, Exposure, HoldingName, StockHolding
from .wire import Record

__all__ = ["MoveListAnswer", "MovedHolding", "TripAnswer", "TripEvent", "TripHolding"]


class MovedHolding(StockHolding):
    """Doses to be moved. `unusable_from`: that of `last_use`. `frozen`: its product is stored frozen. `must_go`: the
    last that was read in the place is out of its product's range, it is not to be discarded, and no allowance covers a
    place that is itself in range. `notes`: what the list alone does not say of their use. `container_fit`: what the
    container's range means for it: suited, allowance (time there counts against one) or unsuited; None: no container
    named."""

    unusable_from: datetime.datetime
    reasons: tuple[str, ...]
    frozen: bool
    must_go: bool
    notes: tuple[str, ...]
    container_fit: str | None


class MoveListAnswer(Answer):
    """What is in a place, in the order in which to move it: what must go, then frozen products, then by the first
    instant of no more use; what is to be discarded last. `out_of_range`: the last that was read in the place, where
    that is out of its range: "16 °C at 2026-03-02 08:05"; None: it is in range, or nothing was read."""

    _rows = "holdings"
    _categories = {"list": LISTS, "container_fit": ("unsuited", "allowance", "suited")}
    place: str
    container: str | None
    out_of_range: str | None
    holdings: tuple[MovedHolding, ...]
    caution: str


class TripEvent(Record):
    """Something that happened on the way, in words."""

    at: datetime.datetime
    what: str


class TripHolding(HoldingName):
    """Doses in the container during its journey. `sent`: returned or transferred; `missing` may be below 0: found.
    `exposure`: in the container, from `from_` to `until`."""

    loaded: int
    given: int
    wasted: int
    sent: int
    unloaded: int
    missing: int
    aboard: int
    from_: datetime.datetime
    until: datetime.datetime
    exposure: Exposure


class TripAnswer(Answer):
    """The last journey of a container. `departure_entry`: the number of its entry. `arrived`: None while it is on the
    way. `lasted_s`: seconds to the arrival or the instant asked about. `limit_s`: as asked, else the programme's; None:
    neither, and `over_limit` too."""

    _rows = "holdings"
    container: str
    destination: str
    reason: str
    packed_by: str | None
    approval: str | None
    coolant: str | None
    conditioning: str | None
    received_by: str | None
    departure_entry: int
    departed: datetime.datetime
    arrived: datetime.datetime | None
    lasted_s: int
    limit_s: int | None
    over_limit: bool | None
    events: tuple[TripEvent, ...]
    holdings: tuple[TripHolding, ...]
    caution: str
