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
    return re.findall(r'"([^"]+)"', found[1])


SOURCES = {
    "ChangedPart": ("lib/forms/changes_form.cpp", r"Json differs_json\((.*?)\n\}"),
    "Recurring": ("lib/entries/programme.cpp", r"recurring\[\] = \{(.*?)\};"),
    "Weekday": ("lib/entries/programme.cpp", r"weekdays\[\] = \{(.*?)\};"),
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


# Enumerations of the core: the function that names what is in one, and the enumeration, in the struct that it is of.
ENUMERATIONS = {
    "CheckState": ("asked_state_name", "AskedCheck::State"),
    "ContainerFit": ("fit_name", "Fit"),
    "DefinedKind": ("defined_name", "Defined"),
    "DisagreementOf": ("disagreement_name", "Disagreement::What"),
    "DutyState": ("duty_state_name", "DutyClock::State"),
    "DutyStep": ("duty_step_name", "DutyStep"),
    "ExcursionKind": ("excursion_kind_name", "ExcursionKind"),
    "FollowedFinding": ("finding_name", "Finding"),
    "IncidentStepName": ("incident_step_name", "IncidentStep"),
    "ListName": ("list_name", "List"),
    "Matter": ("matter_name", "ReadinessAnswer::Matter"),
    "PlaceType": ("place_type_name", "PlaceType"),
    "PlanGap": ("plan_part_name", "PlanFinding::What"),
    "Reader": ("recipient_name", "Recipient"),
    "Reason": ("reason_name", "Reason"),
    "RuleState": ("rule_state_name", "RuleFinding::State"),
    "Side": ("side_name", "Side"),
    "Standing": ("standing_name", "Standing"),
    "TripStep": ("trip_step_name", "TripStep"),
    "Urgency": ("urgency_name", "ReadinessAnswer::Urgency"),
    "UseLimit": ("use_limit_name", "UseLimitKind"),
    "Verdict": ("verdict_name", "Verdict"),
}


@pytest.fixture(scope="module")
def sources():
    """The core's headers, and its sources, each as one text without comments."""

    def text(*patterns):
        paths = [p for pattern in patterns for p in sorted(ROOT.glob(pattern))]
        return re.sub(r"//[^\n]*", "", "\n".join(p.read_text(encoding="utf-8") for p in paths))

    return text("include/coldtally/*.hpp"), text("lib/**/*.[ch]pp")


def named_by(source, function):
    """The words that a function of an enumeration gives."""
    body = re.search(rf"^std::string_view {function}\(\w[\w:]* \w+\) noexcept \{{(.*?)\}}$", source, flags=re.S | re.M)
    assert body, function
    table = re.search(r"return entries::(\w+)\[", body[1])
    words = re.search(rf"{table[1]}\[\] = \{{(.*?)\}};", source, flags=re.S)[1] if table else body[1]
    return tuple(re.findall(r'"([^"]+)"', words))


def size_of(headers, enumeration):
    """How many enumerators it has."""
    owner, _, name = enumeration.rpartition("::")
    start = re.search(rf"struct {owner} \{{", headers).end() if owner else 0
    body = re.search(rf"enum class {name}\b[^{{;]*\{{(.*?)\}}", headers[start:], flags=re.S)
    return len([one for one in body[1].split(",") if one.strip()])


@pytest.mark.parametrize("name", ENUMERATIONS)
def test_the_words_of_enumerations_are_those_of_the_core(sources, name):
    headers, source = sources
    function, enumeration = ENUMERATIONS[name]
    words = named_by(source, function)
    assert set(words) == set(get_args(getattr(terms, name))) and len(words) == size_of(headers, enumeration)


def test_a_finding_of_the_review_list_is_one_of_those_followed():
    """Two are of doses apart from the list."""
    apart = {"void", "given later"}
    assert set(get_args(terms.Finding)) == set(get_args(terms.FollowedFinding)) - apart
    assert apart < set(get_args(terms.FollowedFinding))


def test_time_without_a_logger_is_in_any_class_but_logged(sources):
    assert set(get_args(terms.TraceClass)) == set(named_by(sources[1], "class_name")) - {"logged"}


def test_every_term_is_checked_and_says_what_it_is():
    source = (ROOT / "bindings" / "coldtally" / "terms.py").read_text(encoding="utf-8")
    checked = {*WRONG, *SOURCES, *ENUMERATIONS, "Finding", "TraceClass"}
    assert checked | {"ImmunizationStatus"} == set(terms.__all__)  # which is met in test_answers
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
            if cls is coldtally.TodayDoses:  # numbers of doses, no row
                continue
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
