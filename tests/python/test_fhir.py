"""Doses given as FHIR records: the command line's bytes, annotated types, and records taken in. The records are
invented."""
import datetime
import json
import os
import subprocess

import pytest
from conftest import AT
from test_answers import every_record, held_against_its_annotations

import coldtally

UTC = datetime.timezone.utc


def test_resources_have_their_types_and_are_the_command_lines_bytes(demo):
    with coldtally.Ledger(demo, mode="read") as ledger:
        answer = ledger.immunizations(at=AT)
        assert len(answer) == len(ledger.review(all=True, at=AT).doses) > 100
        for record in every_record(answer):
            held_against_its_annotations(record)
        first = answer.immunizations[0]
        assert first.occurrenceDateTime.utcoffset() is not None and first.patient.identifier.value.startswith("demo-")
        assert answer.to_dict()["immunizations"] == [json.loads(line) for line in answer.to_ndjson().splitlines()]
        assert {n for one in answer for n in one.names()} & {"isSubpotent", "subpotentReason"} == set()
        token = first.patient.identifier.value
        assert [i.id for i in ledger.immunizations(patient=token, at=AT)] == [
            i.id for i in answer if i.patient.identifier.value == token
        ]
    command = os.environ.get("COLDTALLY_COMMAND")
    if command:
        assert (
            answer.to_ndjson()
            == subprocess.run(
                [command, "immunizations", demo, "--at", AT], capture_output=True, text=True, check=True
            ).stdout
        )


def record(**more):
    return {
        "resourceType": "Immunization",
        "id": "r-1",
        "status": "completed",
        "vaccineCode": {"text": "V"},
        "patient": {"identifier": {"value": "t-1"}},
        "occurrenceDateTime": "2026-03-02T09:00:00Z",
        "lotNumber": "E1",
        **more,
    }


@pytest.fixture
def ledger(tmp_path):
    limit = coldtally.Range(coldtally.Limit(C=2), coldtally.Limit(C=8))
    with coldtally.Ledger(tmp_path / "l") as made:
        made.post(
            [
                coldtally.Site(by="ab", name="Records (invented)", zone="UTC"),
                coldtally.Place(by="ab", place="main", name="Main", type="refrigerator", range=limit),
                coldtally.Product(by="ab", product="elm", name="Elm (invented)", range=limit, cvx="03"),
                coldtally.Lot(by="ab", product="elm", lot="E1", expiry="2027-05"),
                {
                    "kind": "receive",
                    "by": "ab",
                    "at": "2026-03-02T08:00:00Z",
                    "place": "main",
                    "product": "elm",
                    "lot": "E1",
                    "doses": 20,
                },
            ]
        )
        yield made


def test_records_of_another_system_are_noted_once(ledger):
    lines = "".join(json.dumps(r) + "\r\n" for r in (record(), record(id="r-2", status="not-done")))
    tried = ledger.give_records(lines, by="ab", dry_run=True)
    assert tried.dry_run and len(ledger.review(all=True)) == 0
    made = ledger.give_records(lines.encode(), by="ab", note="of March", certain=False)
    for one in every_record(made.left_out):
        held_against_its_annotations(one)
    assert [(e.patient, e.lot, e.doses, e.certain, e.note) for e in made.entries] == [
        ("t-1", "E1", 1, False, "FHIR Immunization/r-1; of March")
    ]
    assert [(left.where, left.id, left.reason) for left in made.left_out] == [("line 2", "r-2", "not-done")]
    assert "1 record noted, 1 record left out" in made.to_table()
    again = ledger.give_records(lines, by="ab")
    assert again.entries == () and again.left_out[0].reason == "already noted as entry 6"


def test_what_is_refused_writes_nothing(ledger):
    for error, text in (
        (coldtally.BadJson, '{"'),
        (coldtally.BadText, b"\xff"),
        (coldtally.BadText, ""),
        (coldtally.Contradiction, json.dumps(record(expirationDate="2027-06"))),
        (coldtally.MissingField, json.dumps({k: v for k, v in record().items() if k != "status"})),
        (coldtally.WrongType, 5),
    ):
        with pytest.raises(error):
            ledger.give_records(text, by="ab")
    assert len(ledger.review(all=True)) == 0
