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
from .fields import Entry, Fact, Form, OtherEntry, empty_label, entry_from_dict, false_unless_said

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
class Limit(Form):
    """A bound of temperature: degrees in C, in F, or in both, where each governs its own scale."""

    C: Decimal | None = None
    F: Decimal | None = None


@dataclass(frozen=True)
class Range(Form):
    """A closed range of temperature; a side that is left out does not bound."""

    low: Limit | None = None
    high: Limit | None = None


@dataclass(frozen=True)
class Band(Form):
    """A closed band of temperature."""

    low: Limit
    high: Limit


@dataclass(frozen=True)
class Allowance(Form):
    """Time out of range that the product's own documents permit: `seconds`, cumulative, inside `band`; `source` names
    the document."""

    band: Band
    seconds: int
    source: str


@dataclass(frozen=True)
class Source(Form):
    """The file that readings came from: its name, and the SHA-256 of its bytes in hexadecimal. `resolution`: to what
    its temperatures were rounded, in degrees ("0.1"); None where they are as in the file."""

    file: str
    sha256: str
    resolution: str | None = None


@dataclass(frozen=True)
class Location(Form):
    """A place and a mark in it: one end of a move."""

    place: str
    mark: str = empty_label()


@dataclass(frozen=True)
class Told(Form):
    """What the issuer of guidance was told, or up to what the issuer says that the answer holds: seconds out of range,
    seconds unmonitored, points; at least one. What is not stated is not compared."""

    out_of_range_s: int | None = None
    unmonitored_s: int | None = None
    points: int | None = None


@dataclass(frozen=True)
class Person(Form):
    """Somebody to be called, with role and numbers. `alternate`: stands in for the coordinator."""

    name: str
    role: str
    office: str | None = None
    home: str | None = None
    mobile: str | None = None
    email: str | None = None
    alternate: bool = false_unless_said()


@dataclass(frozen=True)
class Backup(Form):
    """A place to go to: contact, agreement with its date and last day, power, distance, capacity."""

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
class Service(Form):
    """A number to be called: power company, repair, health department."""

    what: str
    phone: str
    name: str | None = None


@dataclass(frozen=True)
class Signature(Form):
    """Somebody who has read the plan, and on which date."""

    name: str
    signed: datetime.date


@dataclass(frozen=True, kw_only=True)
class ContingencyPlan(Form):
    """The parts of a contingency plan: people in the order of calling, backup places in the order of choice, who
    repairs and who must be told. `review_due`: the last day by which to review it again."""

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
    """The site whose ledger it is: always the first entry. `zone`: IANA. Both limits in seconds; not given: 0, and 24
    hours."""

    kind: ClassVar[str] = "site"
    name: str
    zone: str
    unmonitored_limit_s: int | None = None
    stale_after_s: int | None = None


@dataclass(frozen=True, kw_only=True)
class Product(Entry):
    """A vaccine as its manufacturer's document describes it. `beyond_use`: seconds by event (first puncture, thaw)."""

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
    """A lot and its expiry as printed: "2027-05-31", or "2027-05", which means that month's last day."""

    kind: ClassVar[str] = "lot"
    product: str
    lot: str
    expiry: str


@dataclass(frozen=True, kw_only=True)
class Place(Entry):
    """Somewhere doses can be. `type`: refrigerator, freezer, ultra-cold freezer, transport container or room. Gaps in
    seconds. `near_s`: how far a reading or check in range speaks for the time around it; 1800 where it is not stated,
    at most 7200."""

    kind: ClassVar[str] = "place"
    place: str
    name: str
    type: str
    range: Range
    max_gap_s: int | None = None
    max_check_gap_s: int | None = None
    near_s: int | None = None


@dataclass(frozen=True, kw_only=True)
class Probe(Entry):
    """A probe or thermometer. `scale`: "C" or "F"; it never changes."""

    kind: ClassVar[str] = "probe"
    probe: str
    scale: str
    serial: str | None = None


@dataclass(frozen=True, kw_only=True)
class Certificate(Entry):
    """A certificate of calibration. `tolerance` and `correction` ((indicated, correction), …) in degrees of the probe's
    scale."""

    kind: ClassVar[str] = "certificate"
    probe: str
    expires: datetime.date
    number: str | None = None
    tolerance: Decimal | None = None
    correction: tuple[tuple[Decimal, Decimal], ...] | None = None


@dataclass(frozen=True, kw_only=True)
class Assign(Entry):
    """Puts a probe into a place; no place: takes it out."""

    kind: ClassVar[str] = "assign"
    probe: str
    place: str | None = None


@dataclass(frozen=True, kw_only=True)
class Readings(Entry):
    """A batch of one probe's readings, (instant, degrees as indicated) each. For many rows use
    :meth:`Ledger.post_readings`."""

    kind: ClassVar[str] = "readings"
    probe: str
    scale: str
    source: Source | None = None
    rows: tuple[tuple[datetime.datetime, Decimal], ...]


@dataclass(frozen=True, kw_only=True)
class Check(Entry):
    """A temperature read by hand; `min` and `max` since the check before, both or none."""

    kind: ClassVar[str] = "check"
    place: str
    scale: str
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
    """Doses come in. `handover`: the history that the sender states."""

    kind: ClassVar[str] = "receive"
    doses: int
    handover: History | None = None


@dataclass(frozen=True, kw_only=True)
class Move(Entry):
    """Doses go from one place or mark to another."""

    kind: ClassVar[str] = "move"
    product: str
    lot: str
    fund: str = empty_label()
    from_: Location
    to: Location
    doses: int


@dataclass(frozen=True, kw_only=True)
class Give(_OfHolding):
    """Doses given to a patient. `patient`: an opaque token, never a name. `certain`: False where only the lot is on the
    chart."""

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
    """Doses that go to another site, `to`."""

    kind: ClassVar[str] = "transfer"
    doses: int
    reason: str
    to: str


@dataclass(frozen=True, kw_only=True)
class Count(_OfHolding):
    """Doses as counted, from 0."""

    kind: ClassVar[str] = "count"
    doses: int


@dataclass(frozen=True, kw_only=True)
class BeyondUse(_OfHolding):
    """Shortens the use-by of a holding: by one of the product's events, or to an instant or date."""

    kind: ClassVar[str] = "beyond-use"
    event: str | None = None
    use_by: datetime.datetime | datetime.date | None = None


@dataclass(frozen=True, kw_only=True)
class Hold(Entry):
    """Keeps doses from use. One that names neither place nor mark is a recall and stands for doses to come."""

    kind: ClassVar[str] = "hold"
    reason: str
    product: str
    lot: str | None = None
    place: str | None = None
    mark: str | None = None


@dataclass(frozen=True, kw_only=True)
class Guidance(Entry):
    """The answer of a manufacturer or health department. `verdict`: use, use-by or discard. `since`: from when on the
    exposures count that it judged; it covers no dose given before."""

    kind: ClassVar[str] = "guidance"
    product: str
    lot: str
    place: str | None = None
    mark: str | None = None
    since: datetime.datetime | None = None
    through: datetime.datetime
    verdict: str
    use_by: datetime.date | None = None
    issuer: str
    reference: str
    told: Told | None = None


@dataclass(frozen=True, kw_only=True)
class Incident(Entry):
    """A step of an incident: noticed, supervisor told, health department told, manufacturer told, cause, action or
    closed."""

    kind: ClassVar[str] = "incident"
    incident: str
    step: str
    text: str
    place: str | None = None


@dataclass(frozen=True, kw_only=True)
class Plan(Entry, ContingencyPlan):
    """A contingency plan. It replaces the one before as a whole."""

    kind: ClassVar[str] = "plan"


@dataclass(frozen=True, kw_only=True)
class Trip(Entry):
    """What movements cannot say of a journey of a `container`. `step`: departure, with `destination`, `reason`
    (emergency, relocation, avoid waste, off-site clinic) and how it was packed; or arrival, with `received_by`. It
    changes no stock."""

    kind: ClassVar[str] = "trip"
    container: str
    step: str
    destination: str | None = None
    reason: str | None = None
    packed_by: str | None = None
    approval: str | None = None
    coolant: str | None = None
    conditioning: str | None = None
    received_by: str | None = None


@dataclass(frozen=True, kw_only=True)
class Void(Entry):
    """Removes an entry, by number, from every answer. Both stay in the ledger."""

    kind: ClassVar[str] = "void"
    voids: int
    reason: str
