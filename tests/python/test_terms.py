"""Terms: the fixed words are those of the core, and every row that judges doses is typed by them."""
import re
import typing
from typing import Literal, get_args, get_origin

import pytest
from conftest import ROOT

import coldtally
from coldtally import terms
from coldtally.answered import Answered, hints_of


def refusal(ledger, form):
    """The words that the core says would be right."""
    with pytest.raises(coldtally.Error) as error:
        ledger.post(form)
    return tuple(re.findall(r'"([^"]+)"', str(error.value).partition("must be ")[2]))


AT = "2026-03-01T12:00:00Z"
PLACE = {"kind": "place", "by": "ab", "place": "x", "name": "X", "range": {"low": {"C": "2"}}}
RULES = {"kind": "rules", "by": "ab", "programme": "P", "source": "s", "dated": "2026-01-01"}
GUIDANCE = {"kind": "guidance", "at": AT, "by": "ab", "product": "elm", "lot": "E1", "through": AT, "issuer": "i"}
CONDITION = {"rule": "r", "form": "reading"}
WRONG = {
    "PlaceType": {**PLACE, "type": "?"},
    "Scale": {"kind": "probe", "by": "ab", "probe": "x", "scale": "?"},
    "Verdict": {**GUIDANCE, "reference": "r", "verdict": "?"},
    "IncidentStepName": {"kind": "incident", "at": AT, "by": "ab", "incident": "i", "step": "?", "text": "t"},
    "TripStep": {"kind": "trip", "at": AT, "by": "ab", "container": "c", "step": "?"},
    "TripReason": {"kind": "trip", "at": AT, "by": "ab", "container": "c", "step": "departure", "reason": "?"},
    "PatientStep": {"kind": "follow-up", "at": AT, "by": "ab", "give": 1, "step": "?"},
    "RuleForm": {**RULES, "report": [{**CONDITION, "form": "?"}]},
    "Comparison": {**RULES, "report": [{**CONDITION, "temperature": {"is": "?"}}]},
}


@pytest.mark.parametrize("name", WRONG)
def test_the_words_that_are_posted_are_those_the_core_takes(small, name):
    with coldtally.Ledger(small) as ledger:
        form = dict(WRONG[name])
        if name == "TripReason":
            form["destination"] = "d"
        assert set(refusal(ledger, form)) == set(get_args(getattr(terms, name)))


def words_of(path, pattern):
    """The texts in a piece of the core's source."""
    found = re.search(pattern, (ROOT / path).read_text(encoding="utf-8"), flags=re.S)
    assert found, (path, pattern)
    return re.findall(r'"([^"]+)"', re.sub(r"\n *///", "", found[1]))


SOURCES = {
    "ListName": ("lib/answers/names.cpp", r"list_name\(.*?\{(.*?)\};"),
    "ExcursionKind": ("lib/answers/names.cpp", r"excursion_kind_name\(.*?\{(.*?)\};"),
    "Side": ("lib/answers/names.cpp", r"side_name\(.*?\{(.*?)\}"),
    "ContainerFit": ("lib/answers/journeys.cpp", r"fit_name\(.*?\{(.*?)\};"),
    "RuleState": ("lib/answers/rule_times.cpp", r"rule_state_name\(.*?\{(.*?)\};"),
    "DutyState": ("lib/forms/incident_forms.cpp", r"duty_state_name\(.*?\{(.*?)\};"),
    "Standing": ("lib/answers/follow_up.cpp", r"follow_up_standings\(.*?\{(.*?)\};"),
    "Urgency": ("lib/answers/readiness.cpp", r"urgency_name\((.*?)\}"),
    "Finding": ("lib/forms/review_table.cpp", r"findings\[\] = \{(.*?)\};"),
    "ChangedPart": ("lib/forms/incident_forms.cpp", r"Json differs_json\((.*?)\n\}"),
    "DisagreementOf": ("lib/answers/unit.cpp", r"(return what == What::reading.*?;)"),
    "PlanGap": ("include/coldtally/upkeep.hpp", r"struct PlanFinding \{(.*?)std::string what"),
    "Recurring": ("lib/entries/programme.cpp", r"recurring\[\] = \{(.*?)\};"),
    "DutyStep": ("lib/entries/programme.cpp", r"duty_steps\[\] = \{(.*?)\};"),
    "Weekday": ("lib/entries/programme.cpp", r"weekdays\[\] = \{(.*?)\};"),
    "Reader": ("lib/entries/programme.cpp", r"readers\[\] = \{(.*?)\};"),
    "Unsuited": ("bindings/src/work.cpp", r'unsuited && (.*?)\)'),
    "Mode": ("bindings/src/ledger.cpp", r"mode_of\(.*?must be one of(.*?)\);"),
}


@pytest.mark.parametrize("name", SOURCES)
def test_the_words_of_answers_are_those_of_the_core(name):
    text = (ROOT / SOURCES[name][0]).read_text(encoding="utf-8")
    if name == "Mode":
        assert all(f'name == "{word}"' in text for word in get_args(terms.Mode))
        assert text.count('if (name == "') == len(get_args(terms.Mode))
        return
    assert set(words_of(*SOURCES[name])) == set(get_args(getattr(terms, name)))


def test_reasons_are_those_of_the_core():
    pushed = []
    for path in ("lib/answers/reasons.cpp", "lib/answers/lists.cpp"):
        text = (ROOT / path).read_text(encoding="utf-8")
        pushed += re.findall(r'(?:out|row\.reasons)\.emplace_back\("([\w-]+)"\)', text)
    assert set(pushed) == set(get_args(terms.Reason)) and len(pushed) == len(get_args(terms.Reason))


def test_every_term_is_checked_and_says_what_it_is():
    source = (ROOT / "bindings" / "coldtally" / "terms.py").read_text(encoding="utf-8")
    checked = {*WRONG, *SOURCES, "Reason"}
    elsewhere = {
        "FollowedFinding",  # Finding, and two more: met in test_answers
        "ImmunizationStatus",  # met in test_answers
        "TraceClass",  # met in test_answers
        "UseLimit",  # met in test_answers
    }
    assert checked | elsewhere == set(terms.__all__) and not checked & elsewhere
    assert source.count("= Literal[") == len(terms.__all__)
    for name in terms.__all__:
        words = get_args(getattr(terms, name))
        assert get_origin(getattr(terms, name)) is Literal and len(set(words)) == len(words)


JUDGING = {
    "list": terms.ListName,
    "do_not_use": bool,
    "in_doubt": tuple[str, ...],
    "reasons": tuple[terms.Reason, ...],
    "finding": terms.Finding,
    "certain": bool,
    "must_go": bool,
    "container_fit": typing.Optional[terms.ContainerFit],
    "differs": tuple[terms.ChangedPart, ...],
}


def rows_that_judge():
    for name in coldtally.__all__:
        cls = getattr(coldtally, name)
        if isinstance(cls, type) and issubclass(cls, Answered):
            yield cls, hints_of(cls)


def test_whatever_judges_a_row_is_typed():
    seen = set()
    for cls, hints in rows_that_judge():
        for field in JUDGING.keys() & hints.keys():
            kind = terms.FollowedFinding if cls is coldtally.FollowedDose and field == "finding" else JUDGING[field]
            assert hints[field] == kind, (cls, field, hints[field])
            seen.add(field)
    assert seen == JUDGING.keys()


def test_a_row_on_a_list_says_whether_it_may_be_used():
    """With its list stands what forbids use though the list does not: `do_not_use`, or what it is made of."""
    seen = 0
    for cls, hints in rows_that_judge():
        if "list" in hints and "last_use" not in hints or "do_not_use" in hints:
            assert {"in_doubt"} <= hints.keys(), cls
            assert "do_not_use" in hints or "reasons" in hints, cls
            seen += 1
    assert seen >= 6


def test_the_answers_agree_with_what_they_are_made_of(demo, wren):
    seen = 0
    for path in (demo, wren):
        with coldtally.Ledger(path, mode="read") as ledger:
            view = ledger.as_of(at="2026-05-29T17:00:00")
            for h in (
                *view.stock(),
                *view.lists(),
                *view.dates(),
                *view.move_list("main-fridge" if path is demo else "main"),
            ):
                assert h.do_not_use == (h.list != "keep" or bool(h.in_doubt))
                seen += h.do_not_use
    assert seen > 20
