"""Journeys: doses that leave in a container: in which order, what it may take, what became of them. Doses and seconds
that the clock counts are whole numbers, exposure is exact. The page is lib/stock/README.md.
"""
from __future__ import annotations

import datetime
from typing import get_args

from .answers import LISTS, Answer, Exposure, HoldingName, Rows, StockHolding
from .remarks import Remark
from .terms import ContainerFit, Reason, TripReason
from .answered import Answered

__all__ = ["MoveListAnswer", "MovedHolding", "TripAnswer", "TripEvent", "TripHolding"]


class MovedHolding(StockHolding):
    """Doses to be moved.

    Attributes
    ----------
    unusable_from : datetime.datetime
        The first instant at which they may no longer be used, that of `last_use`.
    reasons : tuple[Reason, ...]
        Why they are not on keep, those of discard first.
    frozen : bool
        Their product is stored frozen.
    must_go : bool
        The last that was read in the place is out of its product's range, it is not to be discarded, and no allowance
        covers a place that is itself in range.
    notes : tuple[str, ...]
        What the list alone does not say of their use.
    container_fit : ContainerFit | None
        What the container's range means for it: suited, allowance (time there counts against one) or unsuited; None: no
        container named.
    """

    unusable_from: datetime.datetime
    reasons: tuple[Reason, ...]
    frozen: bool
    must_go: bool
    notes: tuple[str, ...]
    notes_codes: tuple[Remark, ...]
    container_fit: ContainerFit | None


class MoveListAnswer(Answer, Rows[MovedHolding]):
    """What is in a place, in the order in which to move it; a sequence of the holdings.

    Attributes
    ----------
    container : str | None
        The id of the container; None: none was named.
    out_of_range : str | None
        The last that was read in the place, where that is out of its range: "16 °C at 2026-03-02 08:05"; None: it is in
        range, or nothing was read.
    holdings : tuple[MovedHolding, ...]
        What must go, then frozen products, then by the first instant of no more use; what is to be discarded last.
    """

    _rows = "holdings"
    _categories = {"list": LISTS, "container_fit": get_args(ContainerFit)}
    place: str
    container: str | None
    out_of_range: str | None
    out_of_range_code: Remark | None
    holdings: tuple[MovedHolding, ...]
    caution: str


class TripEvent(Answered):
    """Something that happened on the way.

    Attributes
    ----------
    what : str
        In words.
    """

    at: datetime.datetime
    what: str
    what_code: Remark


class TripHolding(HoldingName):
    """Doses in the container during its journey.

    Attributes
    ----------
    loaded : int
        Doses put in.
    given : int
        Doses given on the way.
    wasted : int
        Doses wasted on the way.
    sent : int
        Doses returned or transferred.
    unloaded : int
        Doses taken out.
    missing : int
        Doses that counts did not find; below 0: found.
    aboard : int
        Doses that are still in it.
    from_ : datetime.datetime
        Since when they were in the container.
    until : datetime.datetime
        Until when.
    exposure : Exposure
        In the container in that time.
    """

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


class TripAnswer(Answer, Rows[TripHolding]):
    """The last journey of a container; a sequence of what was in it.

    Attributes
    ----------
    container : str
        The id of the container.
    destination : str
        Where it went.
    reason : TripReason
        Why.
    packed_by : str | None
        Who packed it.
    approval : str | None
        Who approved it.
    coolant : str | None
        What kept it cold.
    conditioning : str | None
        How that was made ready.
    received_by : str | None
        Who took it in.
    departure_entry : int
        The number of the departure's entry.
    departed : datetime.datetime
        When.
    arrived : datetime.datetime | None
        When; None while it is on the way.
    lasted_s : int
        Seconds to the arrival or the instant asked about.
    limit_s : int | None
        Seconds as asked, else the programme's; None: neither, and `over_limit` too.
    over_limit : bool | None
        It lasted longer.
    events : tuple[TripEvent, ...]
        What happened on the way.
    holdings : tuple[TripHolding, ...]
        The doses in it.
    """

    _rows = "holdings"
    container: str
    destination: str
    reason: TripReason
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
