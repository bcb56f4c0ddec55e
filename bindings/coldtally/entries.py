"""Entries: the facts of a ledger, one frozen dataclass a kind.

Temperatures, limits, corrections and tolerances are :class:`decimal.Decimal` degrees (a whole number or text is turned
into one; a float is refused), instants are aware :class:`datetime.datetime` of whole seconds, dates are
:class:`datetime.date`, doses and seconds are whole numbers. ``to_dict()`` is the wire form, one JSON object: what
``coldtally post`` reads and ``coldtally export`` prints. The rules of each kind (what must be there, what may be said
of what is not defined) are the ledger's and are checked when an entry is posted; they stand in lib/entries/README.md of
the sources. An object that cannot be made raises WrongType or BadValue.
"""
from __future__ import annotations

import datetime
from dataclasses import dataclass, field
from decimal import Decimal
from typing import ClassVar

from .answers import History
from .stated import Entry, Fact, OtherEntry, Stated, empty_label, entry_from_dict, false_unless_said
from .terms import IncidentStepName, PlaceType, Scale, TripReason, TripStep, Verdict

__all__ = [
    "Allowance",
    "Assign",
    "Backup",
    "Band",
    "BeyondUse",
    "Certificate",
    "Check",
    "ContingencyPlan",
    "Count",
    "Entry",
    "Fact",
    "Give",
    "Guidance",
    "Hold",
    "Incident",
    "Limit",
    "Location",
    "Lot",
    "Move",
    "OtherEntry",
    "Person",
    "Place",
    "Plan",
    "Probe",
    "Product",
    "Range",
    "Readings",
    "Receive",
    "Return",
    "Service",
    "Signature",
    "Site",
    "Source",
    "Told",
    "Transfer",
    "Trip",
    "Void",
    "Waste",
    "entry_from_dict",
]


# ---- parts of entries


@dataclass(frozen=True)
class Limit(Stated):
    """A bound of temperature: in C, in F, or in both, where each governs its own scale.

    Parameters
    ----------
    C : Decimal | None
        Degrees Celsius.
    F : Decimal | None
        Degrees Fahrenheit.
    """

    C: Decimal | None = None
    F: Decimal | None = None


@dataclass(frozen=True)
class Range(Stated):
    """A closed range of temperature.

    Parameters
    ----------
    low : Limit | None
        None: does not bound.
    high : Limit | None
        None: does not bound.
    """

    low: Limit | None = None
    high: Limit | None = None


@dataclass(frozen=True)
class Band(Stated):
    """A closed band of temperature.

    Parameters
    ----------
    low : Limit
        Its lower bound.
    high : Limit
        Its upper bound.
    """

    low: Limit
    high: Limit


@dataclass(frozen=True)
class Allowance(Stated):
    """Time out of range that the product's own documents permit.

    Parameters
    ----------
    band : Band
        Inside which.
    seconds : int
        Cumulative.
    source : str
        The document.
    """

    band: Band
    seconds: int
    source: str


@dataclass(frozen=True)
class Source(Stated):
    """The file that readings came from.

    Parameters
    ----------
    file : str
        Its name.
    sha256 : str
        The SHA-256 of its bytes in hexadecimal.
    resolution : str | None
        To what its temperatures were rounded, in degrees ("0.1"); None where they are as in the file.
    """

    file: str
    sha256: str
    resolution: str | None = None


@dataclass(frozen=True)
class Location(Stated):
    """A place and a mark in it: one end of a move."""

    place: str
    mark: str = empty_label()


@dataclass(frozen=True)
class Told(Stated):
    """What the issuer of guidance was told, or up to what the issuer says that the answer holds; at least one. What is
    not stated is not compared.

    Parameters
    ----------
    out_of_range_s : int | None
        Seconds out of range.
    unmonitored_s : int | None
        Seconds unmonitored.
    points : int | None
        Readings out of range.
    """

    out_of_range_s: int | None = None
    unmonitored_s: int | None = None
    points: int | None = None


@dataclass(frozen=True)
class Person(Stated):
    """Somebody to be called.

    Parameters
    ----------
    role : str
        What the person does.
    office, home, mobile : str | None
        A number.
    email : str | None
        An address.
    alternate : bool
        Stands in for the coordinator.
    """

    name: str
    role: str
    office: str | None = None
    home: str | None = None
    mobile: str | None = None
    email: str | None = None
    alternate: bool = false_unless_said()


@dataclass(frozen=True)
class Backup(Stated):
    """A place to go to.

    Parameters
    ----------
    contact : str | None
        Who answers there.
    phone : str | None
        A number.
    address : str | None
        Where it is.
    agreement : str | None
        What was agreed, or where it is kept.
    agreed : datetime.date | None
        The date of the agreement.
    agreed_until : datetime.date | None
        Its last day.
    power : str | None
        What it runs on when the power fails.
    distance : str | None
        How far it is.
    capacity : str | None
        How much it takes.
    """

    name: str
    contact: str | None = None
    phone: str | None = None
    address: str | None = None
    agreement: str | None = None
    agreed: datetime.date | None = None
    agreed_until: datetime.date | None = None
    power: str | None = None
    distance: str | None = None
    capacity: str | None = None


@dataclass(frozen=True)
class Service(Stated):
    """A number to be called.

    Parameters
    ----------
    what : str
        power company, repair, health department.
    phone : str
        The number.
    """

    what: str
    phone: str
    name: str | None = None


@dataclass(frozen=True)
class Signature(Stated):
    """Somebody who has read the plan.

    Parameters
    ----------
    signed : datetime.date
        The date.
    """

    name: str
    signed: datetime.date


@dataclass(frozen=True, kw_only=True)
class ContingencyPlan(Stated):
    """The parts of a contingency plan.

    Parameters
    ----------
    people : tuple[Person, ...] | None
        In the order of calling.
    backups : tuple[Backup, ...] | None
        In the order of choice.
    services : tuple[Service, ...] | None
        Who repairs, and who keeps the power.
    notify : tuple[Service, ...] | None
        Who must be told.
    containers : str | None
        Which, and where they are.
    packing : str | None
        How.
    steps : str | None
        What to do, in words.
    reviewed : datetime.date | None
        The date of the last review.
    reviewed_by : str | None
        By whom.
    review_due : datetime.date | None
        The last day by which to review it again.
    signatures : tuple[Signature, ...] | None
        Who has read it.
    """

    people: tuple[Person, ...] | None = None
    backups: tuple[Backup, ...] | None = None
    services: tuple[Service, ...] | None = None
    notify: tuple[Service, ...] | None = None
    containers: str | None = None
    packing: str | None = None
    steps: str | None = None
    reviewed: datetime.date | None = None
    reviewed_by: str | None = None
    review_due: datetime.date | None = None
    signatures: tuple[Signature, ...] | None = None


# ---- kinds


@dataclass(frozen=True, kw_only=True)
class Site(Entry):
    """The site whose ledger it is: always the first entry.

    Parameters
    ----------
    zone : str
        IANA.
    unmonitored_limit_s : int | None
        Seconds of which nothing is known that quarantine doses; not given: 0.
    stale_after_s : int | None
        Seconds after which data are late; not given: 24 hours.
    """

    kind: ClassVar[str] = "site"
    name: str
    zone: str
    unmonitored_limit_s: int | None = None
    stale_after_s: int | None = None


@dataclass(frozen=True, kw_only=True)
class Product(Entry):
    """A vaccine as its manufacturer's document describes it.

    Parameters
    ----------
    range : Range
        In which it is kept.
    freeze_limit : Limit | None
        Below which it is harmed by freezing.
    allowances : tuple[Allowance, ...] | None
        Time out of range that is permitted.
    beyond_use : dict[str, int] | None
        Seconds by event (first puncture, thaw).
    cvx : str | None
        Its CVX code, with leading zeros.
    gtin : tuple[str, ...] | None
        The numbers of its boxes.
    doses_per_vial : int | None
        How many doses a vial has.
    """

    kind: ClassVar[str] = "product"
    product: str
    name: str
    range: Range
    freeze_limit: Limit | None = None
    allowances: tuple[Allowance, ...] | None = None
    beyond_use: dict[str, int] | None = None
    cvx: str | None = None
    gtin: tuple[str, ...] | None = None
    doses_per_vial: int | None = None


@dataclass(frozen=True, kw_only=True)
class Lot(Entry):
    """A lot and its expiry.

    Parameters
    ----------
    expiry : str
        As printed: "2027-05-31", or "2027-05", which means that month's last day.
    """

    kind: ClassVar[str] = "lot"
    product: str
    lot: str
    expiry: str


@dataclass(frozen=True, kw_only=True)
class Place(Entry):
    """Somewhere doses can be.

    Parameters
    ----------
    type : PlaceType
        refrigerator, freezer, ultra-cold freezer, transport container or room.
    range : Range
        In which it is kept.
    max_gap_s : int | None
        Seconds between readings over which a line joins them.
    max_check_gap_s : int | None
        Seconds between checks over which a line joins them.
    near_s : int | None
        Seconds for which a reading or check in range speaks for the time around it; 1800 where it is not stated, at
        most 7200.
    """

    kind: ClassVar[str] = "place"
    place: str
    name: str
    type: PlaceType
    range: Range
    max_gap_s: int | None = None
    max_check_gap_s: int | None = None
    near_s: int | None = None


@dataclass(frozen=True, kw_only=True)
class Probe(Entry):
    """A probe or thermometer.

    Parameters
    ----------
    scale : Scale
        "C" or "F"; it never changes.
    serial : str | None
        Its number.
    """

    kind: ClassVar[str] = "probe"
    probe: str
    scale: Scale
    serial: str | None = None


@dataclass(frozen=True, kw_only=True)
class Certificate(Entry):
    """A certificate of calibration.

    Parameters
    ----------
    expires : datetime.date
        Its last day.
    number : str | None
        Its number.
    tolerance : Decimal | None
        Degrees of the probe's scale.
    correction : tuple[tuple[Decimal, Decimal], ...] | None
        (indicated, correction) each, degrees of the probe's scale.
    """

    kind: ClassVar[str] = "certificate"
    probe: str
    expires: datetime.date
    number: str | None = None
    tolerance: Decimal | None = None
    correction: tuple[tuple[Decimal, Decimal], ...] | None = None


@dataclass(frozen=True, kw_only=True)
class Assign(Entry):
    """Puts a probe into a place.

    Parameters
    ----------
    place : str | None
        The id of the place; None: takes it out.
    """

    kind: ClassVar[str] = "assign"
    probe: str
    place: str | None = None


@dataclass(frozen=True, kw_only=True)
class Readings(Entry):
    """A batch of one probe's readings. For many rows use :meth:`Ledger.post_readings`.

    Parameters
    ----------
    source : Source | None
        The file they came from.
    rows : tuple[tuple[datetime.datetime, Decimal], ...]
        (instant, degrees as indicated) each.
    """

    kind: ClassVar[str] = "readings"
    probe: str
    scale: Scale
    source: Source | None = None
    rows: tuple[tuple[datetime.datetime, Decimal], ...]


@dataclass(frozen=True, kw_only=True)
class Check(Entry):
    """A temperature read by hand.

    Parameters
    ----------
    temperature : Decimal
        Degrees as indicated.
    min : Decimal | None
        The lowest since the check before, degrees; both or none.
    max : Decimal | None
        The highest since then, degrees.
    probe : str | None
        The id of the thermometer; None: it names none.
    """

    kind: ClassVar[str] = "check"
    place: str
    scale: Scale
    temperature: Decimal
    min: Decimal | None = None
    max: Decimal | None = None
    probe: str | None = None


@dataclass(frozen=True, kw_only=True)
class _OfHolding(Entry):
    place: str
    product: str
    lot: str
    fund: str = empty_label()
    mark: str = empty_label()


@dataclass(frozen=True, kw_only=True)
class Receive(_OfHolding):
    """Doses come in.

    Parameters
    ----------
    handover : History | None
        The history that the sender states.
    """

    kind: ClassVar[str] = "receive"
    doses: int
    handover: History | None = None


@dataclass(frozen=True, kw_only=True)
class Move(Entry):
    """Doses go from one place or mark to another.

    Parameters
    ----------
    from_ : Location
        From where.
    to : Location
        To where.
    """

    kind: ClassVar[str] = "move"
    product: str
    lot: str
    fund: str = empty_label()
    from_: Location
    to: Location
    doses: int


@dataclass(frozen=True, kw_only=True)
class Give(_OfHolding):
    """Doses given to a patient.

    Parameters
    ----------
    patient : str
        An opaque token, never a name.
    certain : bool
        False where only the lot is on the chart.
    """

    kind: ClassVar[str] = "give"
    doses: int = 1
    patient: str
    certain: bool = field(default=True, metadata={"not_written": True})


@dataclass(frozen=True, kw_only=True)
class Waste(_OfHolding):
    """Doses wasted."""

    kind: ClassVar[str] = "waste"
    doses: int
    reason: str


@dataclass(frozen=True, kw_only=True)
class Return(_OfHolding):
    """Doses sent back."""

    kind: ClassVar[str] = "return"
    doses: int
    reason: str


@dataclass(frozen=True, kw_only=True)
class Transfer(_OfHolding):
    """Doses that go to another site.

    Parameters
    ----------
    to : str
        The other site.
    """

    kind: ClassVar[str] = "transfer"
    doses: int
    reason: str
    to: str


@dataclass(frozen=True, kw_only=True)
class Count(_OfHolding):
    """Doses as counted.

    Parameters
    ----------
    doses : int
        How many doses are there, from 0.
    """

    kind: ClassVar[str] = "count"
    doses: int


@dataclass(frozen=True, kw_only=True)
class BeyondUse(_OfHolding):
    """Shortens the use-by of a holding: by one of the product's events, or to an instant or date.

    Parameters
    ----------
    event : str | None
        The event.
    use_by : datetime.datetime | datetime.date | None
        An instant, or the last day.
    """

    kind: ClassVar[str] = "beyond-use"
    event: str | None = None
    use_by: datetime.datetime | datetime.date | None = None


@dataclass(frozen=True, kw_only=True)
class Hold(Entry):
    """Keeps doses from use. One that names neither place nor mark is a recall and stands for doses to come.

    Parameters
    ----------
    lot : str | None
        The number of the lot; None: every lot of the product.
    place : str | None
        The id of the place; None: everywhere.
    mark : str | None
        What keeps them apart; None: whatever it is.
    """

    kind: ClassVar[str] = "hold"
    reason: str
    product: str
    lot: str | None = None
    place: str | None = None
    mark: str | None = None


@dataclass(frozen=True, kw_only=True)
class Guidance(Entry):
    """The answer of a manufacturer or health department.

    Parameters
    ----------
    place : str | None
        The id of the place; None: wherever they have been.
    mark : str | None
        What keeps them apart; None: whatever it is.
    since : datetime.datetime | None
        From when on the exposures count that it judged; it covers no dose given before.
    through : datetime.datetime
        Up to when.
    verdict : Verdict
        use, use-by or discard.
    use_by : datetime.date | None
        The last day, with the verdict use-by.
    issuer : str
        Who answered.
    told : Told | None
        What the issuer was told.
    """

    kind: ClassVar[str] = "guidance"
    product: str
    lot: str
    place: str | None = None
    mark: str | None = None
    since: datetime.datetime | None = None
    through: datetime.datetime
    verdict: Verdict
    use_by: datetime.date | None = None
    issuer: str
    reference: str
    told: Told | None = None


@dataclass(frozen=True, kw_only=True)
class Incident(Entry):
    """A step of an incident.

    Parameters
    ----------
    step : IncidentStepName
        noticed, supervisor told, health department told, manufacturer told, cause, action or closed.
    place : str | None
        The id of a place that it is of; None: none is named.
    """

    kind: ClassVar[str] = "incident"
    incident: str
    step: IncidentStepName
    text: str
    place: str | None = None


@dataclass(frozen=True, kw_only=True)
class Plan(Entry, ContingencyPlan):
    """A contingency plan. It replaces the one before as a whole."""

    kind: ClassVar[str] = "plan"


@dataclass(frozen=True, kw_only=True)
class Trip(Entry):
    """What movements cannot say of a journey of a container. It changes no stock.

    Parameters
    ----------
    container : str
        The id of the container.
    step : TripStep
        departure, with `destination`, `reason` and how it was packed; or arrival, with `received_by`.
    destination : str | None
        Where it goes.
    reason : TripReason | None
        emergency, relocation, avoid waste or off-site clinic.
    packed_by : str | None
        Who packed it.
    approval : str | None
        Who approved it.
    coolant : str | None
        What keeps it cold.
    conditioning : str | None
        How that was made ready.
    received_by : str | None
        Who took it in.
    """

    kind: ClassVar[str] = "trip"
    container: str
    step: TripStep
    destination: str | None = None
    reason: TripReason | None = None
    packed_by: str | None = None
    approval: str | None = None
    coolant: str | None = None
    conditioning: str | None = None
    received_by: str | None = None


@dataclass(frozen=True, kw_only=True)
class Void(Entry):
    """Removes an entry from every answer. Both stay in the ledger.

    Parameters
    ----------
    voids : int
        The number of the entry.
    """

    kind: ClassVar[str] = "void"
    voids: int
    reason: str
