"""Work: everyday work in a few words, as at the command line: what is not stated and has one meaning only is filled in,
and said.

Doses and seconds are whole numbers, temperatures :class:`decimal.Decimal` degrees. ``at`` is when it happened: an aware
datetime, or text of the site's clock, "08:05" (today) or "2026-03-02 08:05"; None: now. How drafts are made whole
stands in cli/README.md of the sources."""
from __future__ import annotations

import datetime
import json
import os
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from typing import Any, Union

from . import _core, arguments, wire
from .answers import History
from .arguments import Instant, Postable
from .drafts import AnswerDraft, Changes, Posted, PostedDefinition, PostedWithChanges
from .entries import ContingencyPlan, Told
from .errors import BadJson, BadText, Machine, UnknownField, WrongType
from .fhir import PostedRecords
from .handovers import HandoverAnswer, PostedTransfer

_DEFINITIONS = frozenset(("site", "product", "lot", "place", "probe", "certificate", "assign", "maker"))

Degrees = Union[Decimal, int, str]
"""Degrees: a Decimal, a whole number, or text such as "4.2"; never a float."""


def _degrees(name: str, value: Degrees | None) -> str | None:
    """Degrees as text."""
    return None if value is None else wire.degrees_text(name, value)


def _degrees_with_scale(name: str, value: Degrees | None, scale: str | None) -> str | None:
    """Degrees as text, with the letter of their scale where it is stated; a text may state its own."""
    if isinstance(value, str) and value[-1:] in ("C", "F"):
        value, scale = value[:-1], value[-1]
    return (
        None
        if value is None
        else wire.degrees_text(name, value) + (arguments.text("scale", scale) if scale is not None else "")
    )


def _opening(opened: Instant | None, vial: str | None, vial_doses: int | None) -> dict[str, Any]:
    """What is said of a vial that was opened."""
    return {
        "opened": None if opened is None else wire.instant_text("opened", opened),
        "vial": vial,
        "vial_doses": None if vial_doses is None else arguments.whole("vial_doses", vial_doses),
    }


def _history(path: str | os.PathLike[str]) -> Mapping[str, Any]:
    """The handover in a file that another site wrote."""
    try:
        with open(path, "rb") as file:
            form = json.loads(file.read())
    except OSError as error:
        raise Machine(f"handover: {os.fspath(path)}: {error.strerror}") from None
    except ValueError:
        raise BadJson(f"handover: {os.fspath(path)}: is not JSON") from None
    if not isinstance(form, dict):
        raise BadJson(f"handover: {os.fspath(path)}: must be an object")
    return form


class Work:
    """Everyday work with a ledger.

    Each call makes one entry or a batch of them whole, posts it, and returns what was posted, what was filled in,
    warnings and next steps. `by`: initials. `note` is kept with the entry. `now`: the instant of recording (None: the
    clock's). `dry_run`: checks and says everything, writes nothing. What names a holding beside its lot, `place`,
    `product`, `fund` and `mark` ("": the empty one), may be left out where only one has doses of it.

    Each call raises Ambiguous, with what it may be, where something left out has several meanings; MissingField where
    it has none, or where something must not pass without a note (a temperature at or below freezing); NotDefined for
    what no entry defines; NotEnough where there are not so many doses; TooLate for an instant to come; WrongType for a
    float; BadValue for anything else that is not as it should be.
    """

    _core: _core.Ledger

    def _post(
        self,
        kind: str,
        by: str,
        at: Instant | None,
        note: str | None,
        now: datetime.datetime | None,
        dry_run: bool,
        fields: Mapping[str, Any],
        yes: bool = False,
    ) -> Posted:
        core = self._core.post_draft(_fields(kind, by, at, note, fields), yes, arguments.now_s(now), dry_run)
        return Posted._of(core, self._core)

    # ---- any entry

    def post_draft(
        self,
        draft: Postable,
        *,
        without: Sequence[str] = (),
        yes: bool = False,
        now: datetime.datetime | None = None,
        dry_run: bool = False,
    ) -> Posted:
        """Makes one entry whole and posts it: an object of its kind, or a mapping of which all may be left out that has
        one meaning only. What the commands site, product, lot, place, probe, certificate, assign and maker do: a
        definition (its answer is a PostedDefinition) of a thing that is known changes what it states and keeps the
        rest, but for what `without` names ("high", "allowance 1"). `yes`: also where the definition is looser than the
        one that holds, whatever the lists show now, where doses come off a list or lose any reason not to be used, or
        where a give gets a better finding or loses a reason; a void is posted as takeback does. Raises MissingField,
        which names each, where it is so without `yes`, and where limits that may have been typed wrong have no note,
        and what each call of Work raises."""
        fields = arguments.entry_json(draft)
        kind = json.loads(fields).get("kind")
        if without:
            names = [arguments.text("without", name) for name in ([without] if isinstance(without, str) else without)]
            fields = json.dumps({**json.loads(fields), "without": names})
        if kind == "void":
            return PostedWithChanges._of(
                self._core.post_definition(fields, yes, arguments.now_s(now), dry_run), self._core
            )
        if kind not in _DEFINITIONS:
            return Posted._of(self._core.post_draft(fields, yes, arguments.now_s(now), dry_run), self._core)
        return PostedDefinition._of(self._core.post_definition(fields, yes, arguments.now_s(now), dry_run), self._core)

    def changes(self, entries: Postable | Iterable[Postable], *, now: datetime.datetime | None = None) -> Changes:
        """What entries, each made whole as a draft, would change on stock, lists and review. Writes nothing. Raises
        what post_draft raises."""
        return Changes._of(self._core.changes(arguments.several(entries), arguments.now_s(now)), self._core)

    # ---- doses

    def receive(
        self,
        lot: str,
        doses: int,
        *,
        by: str,
        place: str | None = None,
        product: str | None = None,
        fund: str | None = None,
        mark: str | None = None,
        expiry: datetime.date | str | None = None,
        handover: HandoverAnswer | History | Mapping[str, Any] | str | os.PathLike[str] | None = None,
        no_hold: str | None = None,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        yes: bool = False,
        dry_run: bool = False,
    ) -> Posted:
        """Takes in doses of a delivery. `expiry`: on the box, a date, or "2027-05" for the month's last day: defines a
        new lot, must agree with a known one. `handover`: what the sending site states, or the path of the file that it
        wrote: of this product and lot, and of as many doses at least; a history alone is taken, too, and warned of.
        Doses that the sending site has on hold or in doubt are put on hold; `no_hold` says why not, and is kept as a
        note. Raises Contradiction where the expiry is another than the known one, for doses that the sender's guidance
        condemned, and for `no_hold` with nothing to hold; HandoverDiffers; BadJson or Machine for a file that cannot be
        read, and what each call of Work raises."""
        if isinstance(handover, (str, os.PathLike)):
            handover = _history(handover)
        return self._post(
            "receive",
            by,
            at,
            note,
            now,
            dry_run,
            {
                "place": place,
                "product": product,
                "fund": fund,
                "mark": mark,
                "lot": lot,
                "doses": doses,
                "expiry": expiry,
                "handover": handover,
                "no_hold": arguments.maybe_text("no_hold", no_hold),
            },
            yes,
        )

    def move(
        self,
        lot: str,
        to: str | None = None,
        *,
        by: str,
        from_: str | None = None,
        product: str | None = None,
        fund: str | None = None,
        mark: str | None = None,
        to_mark: str | None = None,
        doses: int | None = None,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        yes: bool = False,
        dry_run: bool = False,
    ) -> Posted:
        """Moves doses (None: all) from the place `from_` to the place `to` (None: they stay there, and get `to_mark`).
        They keep their mark unless `to_mark` is given. Raises what each call of Work raises."""
        ends = {"from": {"place": from_, "mark": mark}, "to": {"place": to, "mark": to_mark}}
        return self._post(
            "move",
            by,
            at,
            note,
            now,
            dry_run,
            {
                "product": product,
                "fund": fund,
                "lot": lot,
                **{k: {n: v for n, v in end.items() if v is not None} for k, end in ends.items()},
                "doses": doses,
            },
            yes,
        )

    def give(
        self,
        lot: str,
        patient: str,
        *,
        by: str,
        doses: int | None = None,
        certain: bool = True,
        place: str | None = None,
        product: str | None = None,
        fund: str | None = None,
        mark: str | None = None,
        opened: Instant | None = None,
        vial: str | None = None,
        vial_doses: int | None = None,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        yes: bool = False,
        dry_run: bool = False,
    ) -> Posted:
        """Notes doses given (None: 1) to a patient: an opaque token, never a name. `certain`: False where the chart
        names the lot and not the box. `opened`: a vial was opened for it, and when (None with `vial`: at that instant);
        `vial`: a mark for it (None: one by the time); `vial_doses`: the doses in it then (None: a whole vial's). Raises
        what each call of Work raises."""
        return self._post(
            "give",
            by,
            at,
            note,
            now,
            dry_run,
            {
                "place": place,
                "product": product,
                "fund": fund,
                "mark": mark,
                "lot": lot,
                "patient": patient,
                "doses": doses,
                "certain": None if certain else False,
                **_opening(opened, vial, vial_doses),
            },
            yes,
        )

    def give_records(
        self,
        records: str | bytes,
        *,
        by: str,
        certain: bool = True,
        place: str | None = None,
        product: str | None = None,
        fund: str | None = None,
        mark: str | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        yes: bool = False,
        dry_run: bool = False,
    ) -> PostedRecords:
        """Notes doses given that another system has recorded: FHIR R4 Immunization resources as text, one a line
        (NDJSON), one alone or a Bundle. Each states when it happened. What makes no entry is listed with its reason;
        what is noted already is not noted twice. `place`, `product`, `fund` and `mark` hold where a record and the
        ledger leave them open. `certain`: False where the records name the lot and not the box. Raises BadJson and
        BadText for what is no such text, Contradiction where a record says another vaccine or expiry than the lot's,
        and what each call of Work raises; nothing is written then."""
        if isinstance(records, bytes):
            try:
                records = records.decode()
            except UnicodeDecodeError:
                raise BadText("records: not valid UTF-8") from None
        core = self._core.give_records(
            arguments.text("records", records),
            arguments.text("by", by),
            arguments.maybe_text("place", place),
            arguments.maybe_text("product", product),
            arguments.maybe_text("fund", fund),
            arguments.maybe_text("mark", mark),
            certain,
            arguments.maybe_text("note", note),
            yes,
            arguments.now_s(now),
            dry_run,
        )
        return PostedRecords._of(core, self._core)

    def waste(
        self,
        lot: str,
        doses: int,
        reason: str,
        *,
        by: str,
        place: str | None = None,
        product: str | None = None,
        fund: str | None = None,
        mark: str | None = None,
        opened: Instant | None = None,
        vial: str | None = None,
        vial_doses: int | None = None,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        yes: bool = False,
        dry_run: bool = False,
    ) -> Posted:
        """Notes doses wasted, and why. `opened`, `vial` and `vial_doses`: a vial that was opened for it, as in give.
        Raises what each call of Work raises."""
        return self._post(
            "waste",
            by,
            at,
            note,
            now,
            dry_run,
            {
                "place": place,
                "product": product,
                "fund": fund,
                "mark": mark,
                "lot": lot,
                "doses": doses,
                "reason": reason,
                **_opening(opened, vial, vial_doses),
            },
            yes,
        )

    def return_(
        self,
        lot: str,
        doses: int,
        reason: str,
        *,
        by: str,
        place: str | None = None,
        product: str | None = None,
        fund: str | None = None,
        mark: str | None = None,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        yes: bool = False,
        dry_run: bool = False,
    ) -> Posted:
        """Notes doses sent back, and why. Raises what each call of Work raises."""
        return self._post(
            "return",
            by,
            at,
            note,
            now,
            dry_run,
            {
                "place": place,
                "product": product,
                "fund": fund,
                "mark": mark,
                "lot": lot,
                "doses": doses,
                "reason": reason,
            },
            yes,
        )

    def transfer(
        self,
        lot: str,
        doses: int,
        to: str,
        reason: str,
        *,
        by: str,
        place: str | None = None,
        product: str | None = None,
        fund: str | None = None,
        mark: str | None = None,
        handover: str | os.PathLike[str] | None = None,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        yes: bool = False,
        dry_run: bool = False,
    ) -> PostedTransfer:
        """Notes doses sent to another site, `to`, and why. Their history goes with them: `handover`, the path of a new
        file for it, which the other site's receive takes; the sheet for people is written beside it. None: nothing is
        written, and `warnings` say so where their history must go with them (`handover.needed`), and what writes it.
        Raises Contradiction where there is a file already, or guidance condemned the doses, and what each call of Work
        raises."""
        fields = _fields(
            "transfer",
            by,
            at,
            note,
            {
                "place": place,
                "product": product,
                "fund": fund,
                "mark": mark,
                "lot": lot,
                "doses": doses,
                "to": to,
                "reason": reason,
            },
        )
        path = None if handover is None else arguments.text("handover", os.fspath(handover))
        return PostedTransfer._of(
            self._core.post_transfer(fields, path, yes, arguments.now_s(now), dry_run), self._core
        )

    def count(
        self,
        lot: str,
        doses: int,
        *,
        by: str,
        place: str | None = None,
        product: str | None = None,
        fund: str | None = None,
        mark: str | None = None,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        yes: bool = False,
        dry_run: bool = False,
    ) -> Posted:
        """Notes doses as counted, from 0. Raises NotThere where the ledger knows of none, and what each call of Work
        raises."""
        return self._post(
            "count",
            by,
            at,
            note,
            now,
            dry_run,
            {"place": place, "product": product, "fund": fund, "mark": mark, "lot": lot, "doses": doses},
            yes,
        )

    def beyond_use(
        self,
        lot: str,
        *,
        by: str,
        event: str | None = None,
        use_by: datetime.datetime | datetime.date | str | None = None,
        place: str | None = None,
        product: str | None = None,
        fund: str | None = None,
        mark: str | None = None,
        vial: str | None = None,
        vial_doses: int | None = None,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        yes: bool = False,
        dry_run: bool = False,
    ) -> Posted:
        """Shortens the use of doses: by one of the product's events, or until an instant or through a date. `vial`: one
        vial of them was opened, and a mark for it; `vial_doses`: the doses in it then (None: a whole vial's); its event
        need not be given. Raises NotThere where there are no such doses, Contradiction or MissingField unless one of
        the two is given, and what each call of Work raises."""
        return self._post(
            "beyond-use",
            by,
            at,
            note,
            now,
            dry_run,
            {
                "place": place,
                "product": product,
                "fund": fund,
                "mark": mark,
                "lot": lot,
                "event": event,
                "use_by": use_by,
                **_opening(None, vial, vial_doses),
            },
            yes,
        )

    def hold(
        self,
        reason: str,
        *,
        by: str,
        lot: str | None = None,
        place: str | None = None,
        product: str | None = None,
        mark: str | None = None,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        dry_run: bool = False,
    ) -> Posted:
        """Keeps doses from use until guidance has come; `lot` None: every lot of the product, in the place if one is
        stated, also of what is received later where neither place nor mark is; `lot` and `product` None: all that is in
        the place at that instant, one entry a lot. Raises NotThere where nothing is, and what each call of Work
        raises."""
        return self._post(
            "hold",
            by,
            at,
            note,
            now,
            dry_run,
            {"place": place, "product": product, "mark": mark, "lot": lot, "reason": reason},
        )

    def guidance(
        self,
        lot: str,
        verdict: str,
        *,
        by: str,
        through: Instant,
        issuer: str,
        reference: str,
        since: Instant | None = None,
        use_by: datetime.date | str | None = None,
        told: Told | None = None,
        place: str | None = None,
        product: str | None = None,
        mark: str | None = None,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        dry_run: bool = False,
    ) -> PostedWithChanges:
        """Notes what a manufacturer or health department answered, and says what that changes. `verdict`: use, use-by
        (then `use_by`, the last day) or discard. `through`: the instant up to which it judges; `since`: from which on
        (no dose given before is covered). `told`: what the issuer was told, or up to what the answer holds, seconds and
        points. For the answer to a report that was sent, take answer. Raises what each call of Work raises."""
        fields = _fields(
            "guidance",
            by,
            at,
            note,
            {
                "place": place,
                "product": product,
                "mark": mark,
                "lot": lot,
                "verdict": verdict,
                "since": None if since is None else wire.instant_text("since", since),
                "through": wire.instant_text("through", through),
                "use_by": use_by,
                "issuer": issuer,
                "reference": reference,
                "told": told,
            },
        )
        return PostedWithChanges._of(self._core.post_with_changes(fields, arguments.now_s(now), dry_run), self._core)

    def loan(
        self,
        give: int,
        fund: str,
        reason: str,
        *,
        by: str,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        dry_run: bool = False,
    ) -> Posted:
        """Notes that the doses of a give, by the number of its entry, came out of a fund that should not have paid:
        `fund` should have ("": the empty one), and owes them. Raises what each call of Work raises."""
        return self._post(
            "loan",
            by,
            at,
            note,
            now,
            dry_run,
            {"give": arguments.whole("give", give), "eligible": fund, "reason": reason},
        )

    def repayment(
        self,
        loan: int,
        doses: int,
        *,
        by: str,
        with_: int | None = None,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        dry_run: bool = False,
    ) -> Posted:
        """Notes doses of a loan, by the number of its entry, repaid to the fund that lent them. `with_`: the number of
        the receive or give by which they came back. Raises Contradiction where fewer are open, and what each call of
        Work raises."""
        return self._post(
            "repayment",
            by,
            at,
            note,
            now,
            dry_run,
            {
                "loan": arguments.whole("loan", loan),
                "doses": doses,
                "with": None if with_ is None else arguments.whole("with", with_),
            },
        )

    def takeback(
        self,
        entry: int,
        reason: str,
        *,
        by: str,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        yes: bool = False,
        dry_run: bool = False,
    ) -> PostedWithChanges:
        """Takes back an entry that was a mistake, by its number, and says what that changes. `yes`: also where doses
        come off a list or lose any reason not to be used, or a give comes off the review list, gets a better finding or
        loses a reason. Raises MissingField, which names each, where it is so without `yes`, NotVoidable, InUse (a
        definition that entries still name), NotEnough, and what each call of Work raises."""
        fields = _fields("void", by, at, note, {"voids": arguments.whole("entry", entry), "reason": reason})
        return PostedWithChanges._of(self._core.post_definition(fields, yes, arguments.now_s(now), dry_run), self._core)

    # ---- people

    def new_plan(
        self,
        plan: ContingencyPlan | Mapping[str, Any],
        *,
        by: str,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        dry_run: bool = False,
    ) -> Posted:
        """Posts the contingency plan, which replaces the one before as a whole, and warns of what is missing in it. A
        PlanAnswer's `plan` is one to begin with. Raises UnknownField for a part that no plan has, and what each call of
        Work raises."""
        parts = plan.to_dict() if isinstance(plan, ContingencyPlan) else plan
        for name in ("kind", "by", "at", "note"):
            if name in parts:
                raise UnknownField(f"{name}: is not a part of a plan")
        return self._post("plan", by, at, note, now, dry_run, parts)

    def patient_step(
        self,
        patient: str | int,
        step: str,
        *,
        by: str,
        text: str | None = None,
        give: int | None = None,
        lot: str | None = None,
        product: str | None = None,
        every: bool = False,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        dry_run: bool = False,
    ) -> Posted:
        """Notes what was done about a dose under review or recalled: decided, told, answered, repeated, tested, no
        answer or not needed. `patient`: the token, or the number of the give's entry; `give`, `lot` and `product` say
        which of several doses, `every`: each of them. `text`: in words, without names. Raises Ambiguous where it may be
        of several, and what each call of Work raises."""
        return self._post(
            "follow-up",
            by,
            at,
            note,
            now,
            dry_run,
            {
                "patient": str(patient)
                if isinstance(patient, int) and not isinstance(patient, bool)
                else arguments.text("patient", patient),
                "step": step,
                "text": text,
                "lot": lot,
                "product": product,
                "give": None if give is None else arguments.whole("give", give),
                "every": every or None,
            },
        )

    def trained(
        self,
        person: str,
        topic: str,
        *,
        by: str,
        due: datetime.date | str | None = None,
        reference: str | None = None,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        dry_run: bool = False,
    ) -> Posted:
        """Notes that somebody was trained. `due`: the last day by which to be trained again; `reference`: where the
        proof is kept. Raises what each call of Work raises."""
        return self._post(
            "training",
            by,
            at,
            note,
            now,
            dry_run,
            {"person": person, "topic": topic, "due": due, "reference": reference},
        )

    # ---- temperatures

    def check(
        self,
        place: str,
        temperature: Degrees,
        *,
        by: str,
        min: Degrees | None = None,
        max: Degrees | None = None,
        scale: str | None = None,
        probe: str | None = None,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        yes: bool = False,
        dry_run: bool = False,
    ) -> Posted:
        """Notes a temperature read from a place, degrees in `scale` ("C" or "F"; None: in which it is always read),
        with the lowest and highest since the check before. Raises WrongScale where the probe has another, and what each
        call of Work raises."""
        return self._post(
            "check",
            by,
            at,
            note,
            now,
            dry_run,
            {
                "place": place,
                "probe": probe,
                "scale": scale,
                "temperature": _degrees("temperature", temperature),
                "min": _degrees("min", min),
                "max": _degrees("max", max),
            },
            yes,
        )

    # ---- journeys

    def pack(
        self,
        place: str,
        container: str,
        destination: str,
        *,
        by: str,
        lots: Sequence[str] = (),
        reason: str = "emergency",
        temperature: Degrees | None = None,
        container_temperature: Degrees | None = None,
        scale: str | None = None,
        packed_by: str | None = None,
        approval: str | None = None,
        coolant: str | None = None,
        conditioning: str | None = None,
        unsuited: str | None = None,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        yes: bool = False,
        dry_run: bool = False,
    ) -> Posted:
        """Moves all of a place, or chosen lots, into a container that goes to `destination`: checks of both, the moves
        and the departure in one batch. `temperature` of the place and `container_temperature`: degrees in `scale`
        (None: the usual one), or text with its own, "39.4F". `reason`: emergency, relocation, avoid waste or off-site
        clinic. `unsuited`: "take" or "leave" doses that the container does not suit. move_list says what is in it then.
        Raises Contradiction where there are such doses and `unsuited` is not given, and what each call of Work
        raises."""
        if isinstance(lots, str):
            raise WrongType(f"lots: {lots!r}: must be a sequence of texts")
        core = self._core.pack(
            arguments.text("place", place),
            arguments.text("container", container),
            arguments.text("destination", destination),
            arguments.text("by", by),
            arguments.maybe_instant("at", at),
            [arguments.text("lots", lot) for lot in lots],
            arguments.text("reason", reason),
            arguments.maybe_text("unsuited", unsuited),
            _degrees_with_scale("temperature", temperature, scale),
            _degrees_with_scale("container_temperature", container_temperature, scale),
            arguments.maybe_text("packed_by", packed_by),
            arguments.maybe_text("approval", approval),
            arguments.maybe_text("coolant", coolant),
            arguments.maybe_text("conditioning", conditioning),
            arguments.maybe_text("note", note),
            yes,
            arguments.now_s(now),
            dry_run,
        )
        return Posted._of(core, self._core)

    def unpack(
        self,
        container: str,
        place: str,
        *,
        by: str,
        counts: Mapping[str | tuple[str, str, str], int] | None = None,
        as_listed: bool = False,
        mark: str | None = None,
        temperature: Degrees | None = None,
        container_temperature: Degrees | None = None,
        scale: str | None = None,
        received_by: str | None = None,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        yes: bool = False,
        dry_run: bool = False,
    ) -> Posted:
        """Counts what is in a container and moves it into a place: checks of both, counts, moves and the arrival in one
        batch. `counts`: doses by lot, or by (lot, fund, mark) where a lot is there more than once; `as_listed`: the
        others were counted and are as in the book. `mark`: the one they get; None: their own, or one of the trip where
        they must be kept apart. Temperatures: degrees in `scale` (None: the usual one), or text with its own, "39.4F".
        Raises MissingField where a lot is not counted, and what each call of Work raises."""
        named = [
            (arguments.text("counts", key if isinstance(key, str) else ",".join(key)), arguments.whole("counts", doses))
            for key, doses in (counts or {}).items()
        ]
        core = self._core.unpack(
            arguments.text("container", container),
            arguments.text("place", place),
            arguments.text("by", by),
            arguments.maybe_instant("at", at),
            named,
            as_listed,
            arguments.maybe_text("mark", mark),
            _degrees_with_scale("temperature", temperature, scale),
            _degrees_with_scale("container_temperature", container_temperature, scale),
            arguments.maybe_text("received_by", received_by),
            arguments.maybe_text("note", note),
            yes,
            arguments.now_s(now),
            dry_run,
        )
        return Posted._of(core, self._core)

    # ---- incidents

    def notice(
        self,
        place: str,
        text: str,
        *,
        by: str,
        incident: str | None = None,
        no_hold: str | None = None,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        dry_run: bool = False,
    ) -> Posted:
        """Opens an incident in a place, with what was found; `incident`: its name (None: the next number of the year).
        Every lot that has doses in the place then is put on hold, an entry each; `no_hold`: why it is not, kept in the
        note. Excursions of the place that lasted then, or ended not long before, belong to it; incident tells at once
        what is to be done and which doses were given since. Raises what each call of Work raises."""
        return self._step(incident, "noticed", text, by, place, at, no_hold, False, None, [], note, now, dry_run)

    def step(
        self,
        incident: str,
        step: str,
        text: str,
        *,
        by: str,
        place: str | None = None,
        no_hold: str | None = None,
        release: bool = False,
        despite: str | None = None,
        told: Iterable[int] = (),
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        dry_run: bool = False,
    ) -> Posted:
        """Writes down a step of an incident, in words: supervisor told, health department told, manufacturer told,
        cause, action or closed. `place`: a further place that it is of: its doses are put on hold, unless `no_hold`
        says why not. `release`, with closed: takes back the holds that came with its notice. `despite`, with closed:
        why, though doses that stood in its time in doubt are on no hold and no answer covers them; kept in the note.
        `told`, with action or a step of telling: the entries of transfers or returns; who has those doses was told by
        this, and without it nobody counts as told, whatever the text says. `warnings` say what is still open, and which
        holds stand. Raises NotKnown where there is no incident of this name, or nothing left by an entry of `told`,
        Contradiction for `told` with another step, and for a release where any of the time in doubt was out of range or
        is not known, and what each call of Work raises."""
        name = arguments.text("incident", incident)
        those = [arguments.whole("told", entry) for entry in told]
        return self._step(name, step, text, by, place, at, no_hold, release, despite, those, note, now, dry_run)

    def _step(
        self,
        incident: str | None,
        step: str,
        text: str,
        by: str,
        place: str | None,
        at: Instant | None,
        no_hold: str | None,
        release: bool,
        despite: str | None,
        told: list[int],
        note: str | None,
        now: datetime.datetime | None,
        dry_run: bool,
    ) -> Posted:
        core = self._core.step(
            arguments.maybe_text("incident", incident),
            arguments.text("step", step),
            arguments.text("text", text),
            arguments.text("by", by),
            arguments.maybe_text("place", place),
            arguments.maybe_instant("at", at),
            arguments.maybe_text("no_hold", no_hold),
            release,
            arguments.maybe_text("despite", despite),
            told,
            arguments.maybe_text("note", note),
            arguments.now_s(now),
            dry_run,
        )
        return Posted._of(core, self._core)

    def report(
        self,
        incident: str,
        to: str,
        recipient: str,
        *,
        by: str,
        reference: str | None = None,
        text: str | None = None,
        uncounted: bool = False,
        at: Instant | None = None,
        now: datetime.datetime | None = None,
        dry_run: bool = False,
    ) -> Posted:
        """Writes down that an incident was reported, with the figures that were told: doses, seconds rounded up. `to`:
        supervisor, health department or manufacturer; `recipient`: their name, a manufacturer's as its maker entries
        state it. `at`: when it was sent, and the instant of the figures. `uncounted`: the doses were not counted first,
        and the report says so. Raises MissingField where they were not and it is not said, NotKnown where there is no
        such incident, and what each call of Work raises."""
        core = self._core.report(
            arguments.text("incident", incident),
            arguments.text("to", to),
            arguments.text("recipient", recipient),
            arguments.text("by", by),
            arguments.maybe_text("reference", reference),
            arguments.maybe_text("text", text),
            uncounted,
            arguments.maybe_instant("at", at),
            arguments.now_s(now),
            dry_run,
        )
        return Posted._of(core, self._core)

    def answer(
        self,
        report: int,
        product: str,
        lot: str,
        verdict: str,
        *,
        by: str,
        issuer: str,
        reference: str,
        since: Instant | None = None,
        use_by: datetime.date | str | None = None,
        place: str | None = None,
        mark: str | None = None,
        at: Instant | None = None,
        despite: str | None = None,
        post: bool = False,
        now: datetime.datetime | None = None,
    ) -> AnswerDraft:
        """Takes the guidance that answers a report, by the number of its entry: shows what it changes and does not
        cover. `verdict`: use, use-by (then `use_by`, the last day) or discard. `since`: the instant from which on it
        judges exposures; no dose given before is covered by it. `post`: posts it, unless there are concerns; `despite`:
        why it is posted in spite of them, kept as a note. Nothing was posted where `posted` of the answer is empty.
        Raises NotKnown where there is no such report or it told nothing of the lot, Contradiction where use_by and
        verdict do not fit, and what each call of Work raises."""
        day = use_by.isoformat() if isinstance(use_by, datetime.date) else use_by
        core = self._core.answer(
            arguments.whole("report", report),
            arguments.text("product", product),
            arguments.text("lot", lot),
            arguments.text("verdict", verdict),
            arguments.text("issuer", issuer),
            arguments.text("reference", reference),
            arguments.text("by", by),
            arguments.maybe_text("use_by", day),
            arguments.maybe_text("place", place),
            arguments.maybe_text("mark", mark),
            arguments.maybe_instant("since", since),
            arguments.maybe_instant("at", at),
            arguments.maybe_text("despite", despite),
            post,
            arguments.now_s(now),
        )
        return AnswerDraft._of(core, self._core)


def _fields(kind: str, by: str, at: Instant | None, note: str | None, fields: Mapping[str, Any]) -> str:
    """A draft as JSON; what is None is left out."""
    given = {"kind": kind, "by": by, "at": None if at is None else wire.instant_text("at", at), "note": note, **fields}
    return json.dumps({name: wire.to_wire(name, value) for name, value in given.items() if value is not None})
