"""Entries: the facts of a ledger, one frozen dataclass a kind.

Temperatures, limits, corrections and tolerances are :class:`decimal.Decimal` degrees (a whole number or text is turned into one; a
float is refused), instants are aware :class:`datetime.datetime` of whole seconds, dates are :class:`datetime.date`, doses and seconds
are whole numbers. ``to_dict()`` is the wire form, one JSON object: what ``coldtally post`` reads and ``coldtally export`` prints. The
rules of each kind (what must be there, what may be said of what is not defined) are the ledger's and are checked when an entry is
posted.
"""
from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, Any, ClassVar, Union

from . import wire
from .answers import History
from .errors import BadValue, WrongType

if TYPE_CHECKING:
    from typing_extensions import Self

__all__ = [
    "Allowance", "Assign", "Backup", "Band", "BeyondUse", "Certificate", "Check", "Count", "Entry", "Fact", "Give", "Guidance", "Hold",
    "Incident", "Limit", "Location", "Lot", "Move", "OtherEntry", "Person", "Place", "Plan", "Probe", "Product", "Range", "Readings",
    "Receive", "Return", "Service", "Site", "Source", "Told", "Transfer", "Void", "Waste", "entry_from_dict",
]


def _taken(name: str, hint: Any, value: Any) -> Any:
    """A value of the annotated type from what the caller gave; refuses what would have to be guessed."""
    arguments = getattr(hint, "__args__", ())
    if value is None and type(None) in arguments:
        return None
    choices = [a for a in arguments if a is not type(None)] if type(None) in arguments or _is_union(hint) else [hint]
    if set(choices) == {datetime.datetime, datetime.date}:
        whole = isinstance(value, datetime.datetime) or (isinstance(value, str) and len(value) > 10)
        return _taken(name, datetime.datetime if whole else datetime.date, value)
    one = choices[0]
    if one is Decimal:
        return Decimal(wire.degrees_text(name, value))
    if one is Fraction:
        wire.exact_text(name, value)
        return Fraction(value)
    if one is datetime.datetime:
        return _instant(name, value)
    if one is datetime.date:
        if isinstance(value, datetime.datetime) or not isinstance(value, (datetime.date, str)):
            raise WrongType(f"{name}: {value!r}: must be a datetime.date")
        try:
            return datetime.date.fromisoformat(value) if isinstance(value, str) else value
        except ValueError:
            raise BadValue(f"{name}: \"{value}\": must be a date, YYYY-MM-DD") from None
    if one is int:
        if isinstance(value, bool) or not isinstance(value, int):
            raise WrongType(f"{name}: {value!r}: must be a whole number")
        return value
    if one in (str, bool):
        if not isinstance(value, one):
            raise WrongType(f"{name}: {value!r}: must be {'text' if one is str else 'True or False'}")
        return value
    if getattr(one, "__origin__", None) is tuple:
        if isinstance(value, (str, bytes)) or not hasattr(value, "__iter__"):
            raise WrongType(f"{name}: {value!r}: must be a sequence")
        if one.__args__[-1] is ...:
            return tuple(_taken(f"{name}[{i}]", one.__args__[0], item) for i, item in enumerate(value))
        items = tuple(value)
        if len(items) != len(one.__args__):
            raise WrongType(f"{name}: {items!r}: must be {len(one.__args__)} values")
        return tuple(_taken(name, a, item) for a, item in zip(one.__args__, items))
    if isinstance(one, type) and hasattr(one, "from_dict") and isinstance(value, Mapping):
        return getattr(one, "from_dict")(value)
    if isinstance(one, type) and not isinstance(value, one):
        raise WrongType(f"{name}: {value!r}: must be a {one.__name__}")
    return value


def _is_union(hint: Any) -> bool:
    return getattr(hint, "__origin__", None) is Union


def _instant(name: str, value: Any) -> datetime.datetime:
    if isinstance(value, datetime.datetime):
        wire.instant_text(name, value)
        return value
    if not isinstance(value, str):
        raise WrongType(f"{name}: {value!r}: must be an aware datetime.datetime, or text such as \"2026-03-02T08:05:00Z\"")
    try:
        read = datetime.datetime.fromisoformat(value[:-1] + "+00:00" if value.endswith("Z") else value)
    except ValueError:
        raise BadValue(f"{name}: \"{value}\": must be an instant, YYYY-MM-DDTHH:MM:SS with Z or an offset") from None
    wire.instant_text(name, read)
    return read


class _Form:
    """A dataclass that has a wire form: its fields in their order, those that are None left out."""

    def __post_init__(self) -> None:
        for name, hint in wire.hints_of(type(self)).items():
            object.__setattr__(self, name, _taken(name.rstrip("_"), hint, getattr(self, name)))

    def to_dict(self) -> dict[str, Any]:
        """The wire form."""
        out: dict[str, Any] = {}
        for one in fields(self):
            value = getattr(self, one.name)
            if value is None or one.metadata.get("default_not_written") == value:
                continue
            out[one.name.rstrip("_")] = wire.to_wire(one.name.rstrip("_"), value)
        return out

    @classmethod
    def from_dict(cls, form: Mapping[str, Any]) -> Self:
        """From the wire form; fields that it does not have are refused."""
        hints = wire.hints_of(cls)
        names = {name.rstrip("_"): name for name in hints}
        unknown = next((key for key in form if key not in names and key != "kind"), None)
        if unknown is not None:
            raise BadValue(f"\"{unknown}\": is not a field of {cls.__name__}")
        return cls(**{names[key]: wire.reader(hints[names[key]])(value) if value is not None else None for key, value in form.items() if key != "kind"})


def _empty() -> Any:
    """A label that is empty where it is not given, and then not written."""
    return field(default="", metadata={"default_not_written": ""})


# ---- parts of entries


@dataclass(frozen=True)
class Limit(_Form):
    """A bound of temperature: degrees in C, in F, or in both, where each governs its own scale."""

    C: Decimal | None = None
    F: Decimal | None = None


@dataclass(frozen=True)
class Range(_Form):
    """A closed range of temperature; a side that is left out does not bound."""

    low: Limit | None = None
    high: Limit | None = None


@dataclass(frozen=True)
class Band(_Form):
    """A closed band of temperature."""

    low: Limit
    high: Limit


@dataclass(frozen=True)
class Allowance(_Form):
    """Time out of range that the product's own documents permit: `seconds`, cumulative, inside `band`; `source` names the document."""

    band: Band
    seconds: int
    source: str


@dataclass(frozen=True)
class Source(_Form):
    """The file that readings came from: its name, and the SHA-256 of its bytes in hexadecimal."""

    file: str
    sha256: str


@dataclass(frozen=True)
class Location(_Form):
    """A place and a mark in it: one end of a move."""

    place: str
    mark: str = _empty()


@dataclass(frozen=True)
class Told(_Form):
    """What the issuer of guidance was told: seconds out of range, seconds unmonitored, points."""

    out_of_range_s: int
    unmonitored_s: int
    points: int


@dataclass(frozen=True)
class Person(_Form):
    """Somebody to be called, with role and numbers."""

    name: str
    role: str
    office: str | None = None
    home: str | None = None
    mobile: str | None = None
    email: str | None = None


@dataclass(frozen=True)
class Backup(_Form):
    """A place to go to: contact, agreement and its date, power, distance, capacity."""

    name: str
    contact: str | None = None
    phone: str | None = None
    address: str | None = None
    agreement: str | None = None
    agreed: datetime.date | None = None
    power: str | None = None
    distance: str | None = None
    capacity: str | None = None


@dataclass(frozen=True)
class Service(_Form):
    """A number to be called: power company, repair, health department."""

    what: str
    phone: str
    name: str | None = None


# ---- kinds


@dataclass(frozen=True, kw_only=True)
class Entry(_Form):
    """One posted fact, or one to be posted."""

    kind: ClassVar[str] = ""
    by: str
    """Initials of who states it."""
    at: datetime.datetime | None = None
    """When it happened. Definitions need none, readings have none; every other kind needs it."""
    note: str | None = None
    entry: int | None = None
    """Its number in the ledger; None: not posted."""
    recorded: datetime.datetime | None = None
    """When it was posted."""

    def to_dict(self) -> dict[str, Any]:
        """The wire form, in the order of the command line's export."""
        form = super().to_dict()
        head = {name: form.pop(name) for name in ("entry", "recorded") if name in form}
        head["kind"] = type(self).kind
        head.update({name: form.pop(name) for name in ("at", "by") if name in form})
        note = {"note": form.pop("note")} if "note" in form else {}
        return {**head, **form, **note}


@dataclass(frozen=True, kw_only=True)
class Site(Entry):
    """The site whose ledger it is: always the first entry. `zone`: IANA. Both limits in seconds; not given: 0, and 24 hours."""

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
    """Somewhere doses can be. `type`: refrigerator, freezer, ultra-cold freezer, transport container or room. Gaps in seconds."""

    kind: ClassVar[str] = "place"
    place: str
    name: str
    type: str
    range: Range
    max_gap_s: int | None = None
    max_check_gap_s: int | None = None


@dataclass(frozen=True, kw_only=True)
class Probe(Entry):
    """A probe or thermometer. `scale`: "C" or "F"; it never changes."""

    kind: ClassVar[str] = "probe"
    probe: str
    scale: str
    serial: str | None = None


@dataclass(frozen=True, kw_only=True)
class Certificate(Entry):
    """A certificate of calibration. `tolerance` and `correction` ((indicated, correction), …) in degrees of the probe's scale."""

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
    """A batch of one probe's readings, (instant, degrees as indicated) each. For many rows use :meth:`Ledger.post_readings`."""

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
    fund: str = _empty()
    mark: str = _empty()


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
    fund: str = _empty()
    from_: Location
    to: Location
    doses: int


@dataclass(frozen=True, kw_only=True)
class Give(_OfHolding):
    """Doses given to a patient. `patient`: an opaque token, never a name. `certain`: False where only the lot is on the chart."""

    kind: ClassVar[str] = "give"
    doses: int = 1
    patient: str
    certain: bool = field(default=True, metadata={"default_not_written": True})


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
    """The answer of a manufacturer or health department. `verdict`: use, use-by or discard."""

    kind: ClassVar[str] = "guidance"
    product: str
    lot: str
    place: str | None = None
    mark: str | None = None
    through: datetime.datetime
    verdict: str
    use_by: datetime.date | None = None
    issuer: str
    reference: str
    told: Told | None = None


@dataclass(frozen=True, kw_only=True)
class Incident(Entry):
    """A step of an incident: noticed, supervisor told, health department told, manufacturer told, cause, action or closed."""

    kind: ClassVar[str] = "incident"
    incident: str
    step: str
    text: str
    place: str | None = None


@dataclass(frozen=True, kw_only=True)
class Plan(Entry):
    """The contingency plan: people in the order of calling, backup places in the order of choice."""

    kind: ClassVar[str] = "plan"
    people: tuple[Person, ...] | None = None
    backups: tuple[Backup, ...] | None = None
    services: tuple[Service, ...] | None = None
    notify: tuple[Service, ...] | None = None
    containers: str | None = None
    packing: str | None = None
    steps: str | None = None
    reviewed: datetime.date | None = None
    reviewed_by: str | None = None


@dataclass(frozen=True, kw_only=True)
class Void(Entry):
    """Removes an entry, by number, from every answer. Both stay in the ledger."""

    kind: ClassVar[str] = "void"
    voids: int
    reason: str


class OtherEntry(wire.Record):
    """An entry of a kind, or with fields, that this package has no class for."""

    kind: str
    entry: int | None
    recorded: datetime.datetime | None
    at: datetime.datetime | None
    by: str
    note: str | None


Fact = Union[Entry, OtherEntry]
"""What a ledger hands out: an entry of a known kind, or :class:`OtherEntry`."""

_kinds: dict[str, type[Entry]] = {
    cls.kind: cls for cls in list(globals().values()) if isinstance(cls, type) and issubclass(cls, Entry) and cls.kind
}


def entry_from_dict(form: Mapping[str, Any]) -> Fact:
    """The entry of a wire form: of the class of its kind where there is one that knows all its fields, else an OtherEntry."""
    cls = _kinds.get(form.get("kind", ""))
    if cls is None or not form.keys() <= {name.rstrip("_") for name in wire.hints_of(cls)} | {"kind"}:
        return OtherEntry.from_dict(form)
    return cls.from_dict(form)
