"""FHIR: doses given as HL7 FHIR R4 Immunization resources, with the names of the standard; and what came of those of
another system. Doses are whole numbers. What each field is made of stands in lib/standards/README.md of the sources.

isSubpotent is never written: whether a dose counts is a clinical decision of people.
"""
from __future__ import annotations

import datetime
import json

from .answers import Answer
from .drafts import Posted
from .wire import Record

__all__ = [
    "Annotation",
    "CodeableConcept",
    "Coding",
    "FhirIdentifier",
    "FhirReference",
    "Immunization",
    "ImmunizationsAnswer",
    "LeftOutRecord",
    "PostedRecords",
    "Quantity",
]


class Coding(Record):
    """A code of a system; CVX codes keep their leading zeros."""

    system: str
    code: str


class CodeableConcept(Record):
    """Codes for one thing (None: it has none), and words."""

    coding: tuple[Coding, ...] | None
    text: str


class FhirIdentifier(Record):
    """A patient's token."""

    value: str


class FhirReference(Record):
    """Who or what is meant: a patient by the token, a place or a maker by words."""

    identifier: FhirIdentifier | None
    display: str | None


class Quantity(Record):
    """A number of doses."""

    value: int
    unit: str
    system: str
    code: str


class Annotation(Record):
    """A note in words."""

    text: str


class Immunization(Record):
    """One dose given, or several at once. `occurrenceDateTime`: on the site's clock. `expirationDate`: "2027-05-31", or
    "2027-05" where that is all that is known. `doseQuantity`: the number of doses; None: one."""

    resourceType: str
    id: str
    status: str
    vaccineCode: CodeableConcept
    patient: FhirReference
    occurrenceDateTime: datetime.datetime
    primarySource: bool
    location: FhirReference
    manufacturer: FhirReference | None
    lotNumber: str
    expirationDate: str
    doseQuantity: Quantity | None
    note: tuple[Annotation, ...]


class ImmunizationsAnswer(Answer):
    """Every give that stands, as a resource, in the order of entry."""

    _rows = "immunizations"
    immunizations: tuple[Immunization, ...]

    def to_ndjson(self) -> str:
        """A resource a line (application/fhir+ndjson): the bytes that the command immunizations prints. Raises nothing
        of its own."""
        return "".join(
            json.dumps(one, ensure_ascii=False, separators=(",", ":")) + "\n" for one in self._wire["immunizations"]
        )


class LeftOutRecord(Record):
    """A record that made no entry: where it stands in the text, its id (None: it has none), and why."""

    where: str
    id: str | None
    reason: str


class PostedRecords(Posted):
    """The gives that records made, and the records that made none."""

    left_out: tuple[LeftOutRecord, ...]
