"""FHIR: doses given as HL7 FHIR R4 Immunization resources, with the names of the standard; and what came of those of
another system. Doses are whole numbers. What each field is made of stands in lib/standards/README.md of the sources.

isSubpotent is never written: whether a dose counts is a clinical decision of people.
"""
from __future__ import annotations

import datetime
import json
from typing import Literal

from .answers import Answer, Rows
from .drafts import Posted
from .remarks import Remark
from .terms import ImmunizationStatus
from .answered import Answered

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


class Coding(Answered):
    """A code of a system.

    Attributes
    ----------
    system : str
        The system's address.
    code : str
        As text; CVX codes keep their leading zeros.
    """

    system: str
    code: str


class CodeableConcept(Answered):
    """Codes for one thing, and words.

    Attributes
    ----------
    coding : tuple[Coding, ...] | None
        None: it has none.
    """

    coding: tuple[Coding, ...] | None
    text: str


class FhirIdentifier(Answered):
    """A patient's token.

    Attributes
    ----------
    value : str
        The token.
    """

    value: str


class FhirReference(Answered):
    """Who or what is meant.

    Attributes
    ----------
    identifier : FhirIdentifier | None
        A patient, by the token.
    display : str | None
        A place or a maker, by words.
    """

    identifier: FhirIdentifier | None
    display: str | None


class Quantity(Answered):
    """A number of doses.

    Attributes
    ----------
    value : int
        How many doses.
    unit : str
        In words.
    system : str
        The system of the unit.
    code : str
        The unit's code.
    """

    value: int
    unit: str
    system: str
    code: str


class Annotation(Answered):
    """A note in words."""

    text: str


class Immunization(Answered):
    """One dose given, or several at once.

    Attributes
    ----------
    resourceType : Literal["Immunization"]
        "Immunization".
    id : str
        Of this site.
    status : ImmunizationStatus
        "completed".
    vaccineCode : CodeableConcept
        The vaccine.
    patient : FhirReference
        By the token.
    occurrenceDateTime : datetime.datetime
        When, on the site's clock.
    primarySource : bool
        Who recorded it gave it.
    location : FhirReference
        The place, in words.
    manufacturer : FhirReference | None
        In words; None: not known.
    lotNumber : str
        The number of the lot.
    expirationDate : str
        "2027-05-31", or "2027-05" where that is all that is known.
    doseQuantity : Quantity | None
        The number of doses; None: one.
    note : tuple[Annotation, ...]
        What the review says of it, in words.
    """

    resourceType: Literal["Immunization"]
    id: str
    status: ImmunizationStatus
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


class ImmunizationsAnswer(Answer, Rows[Immunization]):
    """Every give that stands, as a resource; a sequence of them.

    Attributes
    ----------
    immunizations : tuple[Immunization, ...]
        In the order of entry.
    """

    _rows = "immunizations"
    immunizations: tuple[Immunization, ...]

    def to_ndjson(self) -> str:
        """A resource a line (application/fhir+ndjson): the bytes that the command immunizations prints.

        Returns
        -------
        str
            The lines.
        """
        return "".join(
            json.dumps(one, ensure_ascii=False, separators=(",", ":")) + "\n" for one in self._json["immunizations"]
        )


class LeftOutRecord(Answered):
    """A record that made no entry.

    Attributes
    ----------
    where : str
        Where it stands in the text.
    id : str | None
        Its id; None: it has none.
    reason : str
        Why.
    """

    where: str
    id: str | None
    reason: str
    reason_code: Remark


class PostedRecords(Posted):
    """The gives that records made.

    Attributes
    ----------
    left_out : tuple[LeftOutRecord, ...]
        The records that made none.
    """

    left_out: tuple[LeftOutRecord, ...]
