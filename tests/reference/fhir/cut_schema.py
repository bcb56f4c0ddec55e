"""cut_schema.py SCHEMA: prints what HL7's JSON Schema for FHIR R4 (fhir.schema.json) says of Immunization resources:
the definitions that can be reached from there, without their descriptions. Contained resources could be of any kind,
which would be all of it: none is allowed."""
import json
import sys

WHOLE = json.load(open(sys.argv[1], encoding="utf-8"))


def without_descriptions(value):
    if isinstance(value, list):
        return [without_descriptions(v) for v in value]
    if not isinstance(value, dict):
        return value
    # a property may itself be called description: it is an object
    return {k: without_descriptions(v) for k, v in value.items() if not (k == "description" and isinstance(v, str))}


def names(value):
    if isinstance(value, list):
        return [n for v in value for n in names(v)]
    if not isinstance(value, dict):
        return []
    return [n for k, v in value.items() for n in ([v.rsplit("/", 1)[1]] if k == "$ref" else names(v))]


definitions, left = {"ResourceList": False}, ["Immunization"]
while left:
    name = left.pop()
    if name not in definitions:
        definitions[name] = without_descriptions(WHOLE["definitions"][name])
        left += names(definitions[name])
cut = {
    "$schema": WHOLE["$schema"],
    "id": WHOLE["id"],
    "$ref": "#/definitions/Immunization",
    "definitions": dict(sorted(definitions.items())),
}
print(json.dumps(cut, indent=1))
