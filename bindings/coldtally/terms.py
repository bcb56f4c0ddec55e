"""Terms: the fixed words of the trade that entries and answers are written in, as types.

Each is text with a few values: a type checker refuses a word that is none of them, and ``typing.get_args`` lists them.
At run time the ledger itself judges a word that is posted, and says what would be right; an answer of a later version
may hold a word that this one does not list."""
from __future__ import annotations

from typing import Literal

__all__ = [
    "ChangedPart",
    "CheckState",
    "Comparison",
    "ContainerFit",
    "DefinedKind",
    "DisagreementOf",
    "DutyState",
    "DutyStep",
    "ExcursionKind",
    "Finding",
    "FollowedFinding",
    "ImmunizationStatus",
    "IncidentStepName",
    "ListName",
    "Matter",
    "Mode",
    "PatientStep",
    "PlaceType",
    "PlanGap",
    "Reader",
    "Reason",
    "Recurring",
    "RuleForm",
    "RuleState",
    "Scale",
    "Side",
    "Standing",
    "TraceClass",
    "TripReason",
    "TripStep",
    "Unsuited",
    "Urgency",
    "UseLimit",
    "Verdict",
    "Weekday",
]

# ---- the ledger

Mode = Literal["create", "write", "read"]
"""How a ledger is opened."""
Scale = Literal["C", "F"]
"""Degrees Celsius or Fahrenheit."""

# ---- doses

ListName = Literal["discard", "quarantine-pending-guidance", "keep"]
"""The list that doses are on: the first that has a reason for it."""
Reason = Literal["expired", "condemned", "warm", "cold", "frozen", "over-allowance", "point", "unmonitored", "held"]
"""Why doses are not on keep."""
Finding = Literal["expired", "not viable", "pending guidance", "condemned later", "cleared", "clear"]
"""What the history of doses given means. None says to vaccinate again: a clinician decides."""
FollowedFinding = Literal[
    "expired", "not viable", "pending guidance", "condemned later", "cleared", "clear", "void", "given later"
]
"""The same, and of doses that are followed apart from the review list: void or given later."""
Verdict = Literal["use", "use-by", "discard"]
"""What guidance says."""
UseLimit = Literal["expiry", "beyond-use", "guidance", "handover"]
"""What sets an end to the use of doses."""
ChangedPart = Literal["doses", "list", "reasons", "in_doubt", "history"]
"""What of a holding differs before and after."""

# ---- temperatures

PlaceType = Literal["refrigerator", "freezer", "ultra-cold freezer", "transport container", "room"]
"""What a place is."""
Side = Literal["cold", "warm"]
"""On which side out of range."""
ExcursionKind = Literal["bounded", "line", "point"]
"""How an excursion is known: between two checks by the minimum or maximum of the later; by a line of readings; by one
reading or check alone."""
TraceClass = Literal["bounded", "checked", "near", "awaiting", "unmonitored"]
"""What stands for time that no logger covers."""
DisagreementOf = Literal["reading", "minimum", "maximum"]
"""In what two devices disagree."""

# ---- programmes and incidents

RuleForm = Literal["run", "sum", "reading", "pattern"]
"""How a condition of a programme counts."""
Comparison = Literal["above", "at or above", "below", "at or below"]
"""Which temperatures a condition counts."""
RuleState = Literal["met", "met by the estimate", "perhaps met", "cannot be said", "not met"]
"""Whether a condition was met."""
Reader = Literal["supervisor", "health department", "manufacturer"]
"""Who is told of an incident."""
IncidentStepName = Literal[
    "noticed", "supervisor told", "health department told", "manufacturer told", "cause", "action", "closed"
]
"""A step of an incident."""
DutyStep = Literal[
    "supervisor told", "health department told", "manufacturer told", "answer", "cause", "action", "closed"
]
"""A step that a programme's rules set a time for."""
DutyState = Literal["overdue", "due", "no limit", "done late", "done"]
"""How a duty stands."""
Recurring = Literal[
    "plan review",
    "backup agreement",
    "training",
    "count",
    "logger reading",
    "log review",
    "certificate",
    "service",
    "self-audit",
]
"""What is to be done again and again."""
CheckState = Literal["made", "missed", "to make"]
"""How a check stands that is asked for today."""
DefinedKind = Literal[
    "site", "product", "lot", "place", "probe", "certificate", "assign", "maker", "rules", "person"
]
"""What is defined, or stated like a definition."""
Weekday = Literal["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"]

# ---- journeys

TripStep = Literal["departure", "arrival"]
"""The two ends of a journey."""
TripReason = Literal["emergency", "relocation", "avoid waste", "off-site clinic"]
"""Why doses go on a journey."""
ContainerFit = Literal["unsuited", "allowance", "suited"]
"""What a container's range means for doses."""
Unsuited = Literal["take", "leave"]
"""What becomes of doses that a container does not suit."""

# ---- people

PatientStep = Literal["decided", "told", "answered", "repeated", "tested", "no answer", "not needed"]
"""What was done about doses given that are under review."""
Standing = Literal["none yet", "decided", "told", "no answer", "answered", "repeated", "tested", "not needed"]
"""The last of it."""
PlanGap = Literal[
    "plan",
    "people",
    "number",
    "number at night",
    "alternate",
    "backup",
    "contact",
    "agreement",
    "date of agreement",
    "power",
    "distance",
    "capacity",
    "services",
    "notify",
    "containers",
    "packing",
    "steps",
    "review",
    "reviewer",
    "signature",
]
"""What a contingency plan lacks."""
Matter = Literal[
    "doses to discard",
    "guidance",
    "opened vials",
    "incidents",
    "excursions",
    "temperature record",
    "checks",
    "certificates",
    "logger readings",
    "counts",
    "plan",
    "training",
    "doses followed up",
    "doses that left",
    "loans",
    "log review",
    "service",
    "self-audit",
    "retention",
]
"""What an inspection looks at."""
Urgency = Literal["act now", "overdue", "due soon"]
"""How much haste a finding of an inspection has."""
ImmunizationStatus = Literal["completed"]
"""The status of a FHIR resource: doses given."""
