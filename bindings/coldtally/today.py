"""Today: one screen to begin and to end the day with. Times are exact seconds, temperatures degrees Celsius, doses
whole numbers. It judges no dose: what it does not look at it names. The page is lib/upkeep/README.md.
"""
from __future__ import annotations

import datetime
from fractions import Fraction

from .answered import Answered
from .answers import Answer, HoldingName, LastUse
from .incidents import DutyClock, IncidentExcursion
from .remarks import Remark
from .terms import CheckState, ListName, Matter, Side
from .upkeep import ReadinessFinding, ReadinessTopic

__all__ = [
    "TodayAnswer",
    "TodayAsked",
    "TodayCheck",
    "TodayChecks",
    "TodayDoses",
    "TodayIncident",
    "TodayUnit",
    "TodayUse",
    "TodayVial",
]


class TodayDoses(Answered):
    """Doses in a place, each counted once.

    Attributes
    ----------
    place : str
        The place.
    discard : int
        Doses to discard.
    quarantine : int
        Doses that wait for guidance for what they have been through, or for what is not known.
    held : int
        Doses on that list for a hold alone.
    in_doubt : int
        Doses on keep that stood in the time in doubt of an open incident.
    warned : int
        Doses on keep of which something must be known before they are used.
    nothing_found : int
        Doses on keep without such a warning: no promise.
    """

    place: str
    discard: int
    quarantine: int
    held: int
    in_doubt: int
    warned: int
    nothing_found: int


class TodayUnit(Answered):
    """A place in use: it holds doses, or is a storage unit that never held any.

    Attributes
    ----------
    place : str
        The place.
    last : datetime.datetime | None
        The last reading or check; None: nothing was ever read there.
    last_C : Fraction | None
        What it showed, corrected.
    out : Side | None
        On which side that was out of range; None: in range, or nothing was read.
    silent : bool
        Nothing was read for longer than `silent_after_s`: how it is, is not known.
    silent_after_s : int
        The longest time between two checks that the place may have; between two readings where no check was ever made.
    doses : int
        Doses in it.
    """

    place: str
    last: datetime.datetime | None
    last_C: Fraction | None
    out: Side | None
    silent: bool
    silent_after_s: int
    doses: int


class TodayIncident(Answered):
    """An incident that is open.

    Attributes
    ----------
    incident : str
        Its name.
    since : datetime.datetime
        When it was noticed; where nobody wrote that down, its first step.
    places : tuple[str, ...]
        The places that it is of; empty: all.
    duties : tuple[DutyClock, ...]
        What is not done, overdue first.
    untold : int
        Departures of its doses of which who has them was not told.
    counted : bool
        The doses of its places were counted since it was noticed.
    """

    incident: str
    since: datetime.datetime
    places: tuple[str, ...]
    duties: tuple[DutyClock, ...]
    untold: int
    counted: bool


class TodayUse(HoldingName):
    """Doses whose last day comes soon.

    Attributes
    ----------
    list : ListName
        The list they are on, never discard.
    do_not_use : bool
        True for all that are not on keep or are in doubt; False is no promise.
    in_doubt : tuple[str, ...]
        Open incidents in whose time in doubt doses of this lot stood where these have been.
    opened : bool
        They are of a vial that was opened.
    warned : bool
        They are on keep, and something must be known before they are used.
    """

    doses: int
    last_use: LastUse
    list: ListName
    do_not_use: bool
    in_doubt: tuple[str, ...]
    opened: bool
    warned: bool


class TodayVial(HoldingName):
    """Doses of which a vial must be open and no entry says when: their last day is not known."""

    text: str
    text_code: Remark


class TodayCheck(Answered):
    """A check that was made today.

    Attributes
    ----------
    at : datetime.datetime
        When.
    min_max : bool
        With minimum and maximum.
    """

    at: datetime.datetime
    min_max: bool


class TodayAsked(Answered):
    """A check that the programme's rules ask for today.

    Attributes
    ----------
    by : datetime.datetime
        The rule's time, or the end of the day.
    state : CheckState
        made, missed or to make.
    min_max : bool
        With minimum and maximum.
    unfinished : bool
        One is there in its time, but without minimum and maximum.
    """

    by: datetime.datetime
    state: CheckState
    min_max: bool
    unfinished: bool


class TodayChecks(Answered):
    """The checks of a place in use.

    Attributes
    ----------
    place : str
        The place.
    judged : bool
        False: no rule is known that is for it.
    made : tuple[TodayCheck, ...]
        Today, all of them.
    asked : tuple[TodayAsked, ...]
        What the rules ask for today; empty: nothing, or it is not judged.
    """

    place: str
    judged: bool
    made: tuple[TodayCheck, ...]
    asked: tuple[TodayAsked, ...]


class TodayAnswer(Answer):
    """What a site must know and do on the day of the instant.

    Attributes
    ----------
    day : datetime.date
        The day, of the site's calendar.
    doses : tuple[TodayDoses, ...]
        By place.
    units : tuple[TodayUnit, ...]
        Out of range first, then silent, then what was read longest ago.
    incidents : tuple[TodayIncident, ...]
        Those that are open.
    excursions_from : datetime.datetime
        Since when excursions are looked at.
    without_incident : tuple[IncidentExcursion, ...]
        Those that belong to no incident.
    use_until : datetime.datetime
        Up to when last days are told.
    use : tuple[TodayUse, ...]
        Doses whose last day comes by then, the soonest first; those to discard left out.
    vials : tuple[TodayVial, ...]
        Doses whose last day is not known.
    checks : tuple[TodayChecks, ...]
        By place.
    due : tuple[ReadinessFinding, ...]
        Certificates, logger readings, counts, plan, training and loans: what is overdue or due soon.
    topics : tuple[ReadinessTopic, ...]
        What of those was looked at.
    not_judged : tuple[Matter, ...]
        Names of the topics that could not be judged.
    not_looked_at : tuple[str, ...]
        What this answer does not look at.
    """

    day: datetime.date
    doses: tuple[TodayDoses, ...]
    units: tuple[TodayUnit, ...]
    incidents: tuple[TodayIncident, ...]
    excursions_from: datetime.datetime
    without_incident: tuple[IncidentExcursion, ...]
    use_until: datetime.datetime
    use: tuple[TodayUse, ...]
    vials: tuple[TodayVial, ...]
    checks: tuple[TodayChecks, ...]
    due: tuple[ReadinessFinding, ...]
    topics: tuple[ReadinessTopic, ...]
    not_judged: tuple[Matter, ...]
    not_looked_at: tuple[str, ...]
    not_looked_at_codes: tuple[Remark, ...]
    caution: str
