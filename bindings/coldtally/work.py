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
from typing import Any, Union, cast

from . import _core, arguments
from .answers import History
from .arguments import Instant, Postable
from .docstrings import complete_methods
from .drafts import AnswerDraft, Changes, Posted, PostedDefinition, PostedWithChanges, Started
from .entries import ContingencyPlan, Told
from .errors import BadJson, BadText, LedgerExists, Machine, UnknownField, WrongType
from .exact import degrees_text, instant_text, json_value
from .fhir import PostedRecords
from .handovers import HandoverAnswer, PostedTransfer
from .terms import IncidentStepName, PatientStep, Reader, Scale, TripReason, Unsuited, Verdict

_DEFINITIONS = frozenset(("site", "product", "lot", "place", "probe", "certificate", "assign", "maker"))

Degrees = Union[Decimal, int, str]
"""Degrees: a Decimal, a whole number, or text such as "4.2"; never a float."""


def _degrees(name: str, value: Degrees | None) -> str | None:
    """Degrees as text."""
    return None if value is None else degrees_text(name, value)


def _degrees_with_scale(name: str, value: Degrees | None, scale: Scale | None) -> str | None:
    """Degrees as text, with the letter of their scale where it is stated; a text may state its own."""
    if value is None:
        return None
    if isinstance(value, str) and value[-1:] in ("C", "F"):
        return degrees_text(name, value[:-1]) + value[-1]
    return degrees_text(name, value) + (arguments.text("scale", scale) if scale is not None else "")


def _opening(opened: Instant | None, vial: str | None, vial_doses: int | None) -> dict[str, Any]:
    """What is said of a vial that was opened."""
    return {
        "opened": None if opened is None else instant_text("opened", opened),
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


_PARAMETERS = {
    "by": "Initials of who states it.",
    "lot": "The number of the lot.",
    "doses": "How many doses.",
    "place": "The id of the place; None: the only one that has such doses.",
    "product": "The id of the product; None: the only one that has such doses.",
    "fund": "Who paid for the doses (\"\": the empty one); None: the only one that has such doses.",
    "mark": "What keeps the doses apart in their place (\"\": the empty one); None: the only one that has such doses.",
    "at": "When it happened, an aware datetime or text of the site's clock; None: now.",
    "note": "Kept with the entry.",
    "now": "The instant of recording; None: the clock's.",
    "yes": "Also where doses come off a list or lose a reason not to be used; else that is refused.",
    "dry_run": "Check and say everything, write nothing.",
}
"""What these parameters mean in every call, unless it says more."""
_RAISES = {
    "Ambiguous": "Something left out has several meanings; the message says which.",
    "MissingField": "It has none, or something must not pass without a note or `yes`.",
    "NotDefined": "What no entry defines.",
    "NotEnough": "There are not so many doses.",
    "TooLate": "An instant to come.",
    "WrongType": "A float.",
    "BadValue": "Anything else that is not as it should be.",
}
"""What each call raises."""


class Work:
    """Everyday work with a ledger.

    Each call makes one entry or a batch of them whole, posts it, and returns what was posted, what was filled in,
    warnings and next steps. What names a holding beside its lot may be left out where only one has doses of it.
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
        """Makes one entry whole and posts it. It does what the commands site, product, lot, place, probe, certificate,
        assign and maker do: a definition of a thing that is known changes what it states and keeps the rest.

        Parameters
        ----------
        draft : Postable
            An object of its kind, or a mapping of which all may be left out that has one meaning only. A void is posted
            as :meth:`takeback` does.
        without : Sequence[str], default ()
            What a definition does not keep: "high", "allowance 1".
        yes : bool, default False
            Also where the definition is looser than the one that holds, whatever the lists show now, where doses come
            off a list or lose any reason not to be used, or where a give gets a better finding or loses a reason.

        Returns
        -------
        Posted
            What was posted; of a definition a PostedDefinition.

        Raises
        ------
        MissingField
            It loosens something and `yes` was not said; the message names each. Also where limits that may have been
            typed wrong have no note.
        """
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
        """What entries, each made whole as a draft, would change on stock, lists and review. Writes nothing.

        Parameters
        ----------
        entries : Postable | Iterable[Postable]
            As :meth:`post_draft` takes them, one or several.

        Returns
        -------
        Changes
            Only what differs, in doses.
        """
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
        """Takes in doses of a delivery.

        Parameters
        ----------
        doses : int
            How many doses came.
        expiry : datetime.date | str, optional
            On the box, a date, or "2027-05" for the month's last day: defines a new lot, must agree with a known one.
        handover : HandoverAnswer | History | Mapping[str, Any] | str | os.PathLike[str], optional
            What the sending site states, or the path of the file that it wrote: of this product and lot, and of as many
            doses at least; a history alone is taken, too, and warned of. Doses that the sending site has on hold or in
            doubt are put on hold.
        no_hold : str, optional
            Why they are not put on hold; kept as a note.

        Returns
        -------
        Posted
            What was posted.

        Raises
        ------
        Contradiction
            The expiry is another than the known one, the sender's guidance condemned the doses, or there is nothing to
            hold and `no_hold` says why not.
        HandoverDiffers
            The handover is of other doses, or not consistent in itself.
        BadJson, Machine
            A file that cannot be read.
        """
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
        """Moves doses from one place or mark to another.

        Parameters
        ----------
        to : str, optional
            The place; None: they stay there, and get `to_mark`.
        from_ : str, optional
            The place they are in.
        to_mark : str, optional
            The mark they get; None: they keep theirs.
        doses : int, optional
            How many doses; None: all.

        Returns
        -------
        Posted
            What was posted.
        """
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
        """Notes doses given to a patient.

        Parameters
        ----------
        patient : str
            An opaque token, never a name.
        doses : int, optional
            How many doses; None: 1.
        certain : bool, default True
            False where the chart names the lot and not the box.
        opened : Instant, optional
            A vial was opened for it, and when; None with `vial`: at that instant.
        vial : str, optional
            A mark for it; None: one by the time.
        vial_doses : int, optional
            The doses in it then; None: a whole vial's.

        Returns
        -------
        Posted
            What was posted.
        """
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
        """Notes doses given that another system has recorded. Each record states when it happened. What makes no entry
        is listed with its reason; what is noted already is not noted twice.

        Parameters
        ----------
        records : str | bytes
            FHIR R4 Immunization resources as text, one a line (NDJSON), one alone or a Bundle.
        certain : bool, default True
            False where the records name the lot and not the box.
        place, product, fund, mark : str, optional
            These hold where a record and the ledger leave them open.

        Returns
        -------
        PostedRecords
            The gives, and the records that made none.

        Raises
        ------
        BadJson, BadText
            It is no such text.
        Contradiction
            A record says another vaccine or expiry than the lot's.
        """
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
        """Notes doses wasted, and why.

        Parameters
        ----------
        reason : str
            Why.
        opened, vial, vial_doses : Instant, optional
            A vial that was opened for it, as in :meth:`give`.

        Returns
        -------
        Posted
            What was posted.
        """
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
        """Notes doses sent back, and why.

        Parameters
        ----------
        reason : str
            Why.

        Returns
        -------
        Posted
            What was posted.
        """
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
        """Notes doses sent to another site, and why. Their history goes with them.

        Parameters
        ----------
        to : str
            The other site.
        reason : str
            Why.
        handover : str | os.PathLike[str], optional
            The path of a new file for their history, which the other site's receive takes; the sheet for people is
            written beside it. None: nothing is written, and `warnings` say so where their history must go with them
            (`handover.needed`), and what writes it.

        Returns
        -------
        PostedTransfer
            What was posted, with the handover.

        Raises
        ------
        Contradiction
            There is a file already, or guidance condemned the doses.
        """
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
        """Notes doses as counted, from 0.

        Parameters
        ----------
        doses : int
            How many doses are there.

        Returns
        -------
        Posted
            What was posted.

        Raises
        ------
        NotThere
            The ledger knows of none.
        """
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
        """Shortens the use of doses: by one of the product's events, or until an instant or through a date.

        Parameters
        ----------
        event : str, optional
            The event ("first puncture"); with `vial` it need not be given.
        use_by : datetime.datetime | datetime.date | str, optional
            An instant, or the last day.
        vial : str, optional
            One vial of them was opened, and a mark for it.
        vial_doses : int, optional
            The doses in it then; None: a whole vial's.

        Returns
        -------
        Posted
            What was posted.

        Raises
        ------
        NotThere
            There are no such doses.
        Contradiction, MissingField
            Not one of `event` and `use_by` is given.
        """
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
        """Keeps doses from use until guidance has come.

        Parameters
        ----------
        reason : str
            Why.
        lot : str, optional
            The number of the lot; None: every lot of the product, in the place if one is stated, also of what is
            received later where neither place nor mark is. `lot` and `product` None: all that is in the place at that
            instant, one entry a lot.
        place, product, mark : str, optional
            Which doses; what is not given does not limit.

        Returns
        -------
        Posted
            What was posted.

        Raises
        ------
        NotThere
            Nothing is there.
        """
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
        verdict: Verdict,
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
        """Notes what a manufacturer or health department answered, and says what that changes. For the answer to a
        report that was sent, take :meth:`answer`.

        Parameters
        ----------
        verdict : str
            use, use-by (then `use_by`) or discard.
        through : Instant
            The instant up to which it judges.
        issuer : str
            Who answered.
        reference : str
            Their case number.
        since : Instant, optional
            From which instant on it judges; no dose given before is covered.
        use_by : datetime.date | str, optional
            The last day.
        told : Told, optional
            What the issuer was told, or up to what the answer holds, seconds and points.

        Returns
        -------
        PostedWithChanges
            What was posted, and what it changes.
        """
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
                "since": None if since is None else instant_text("since", since),
                "through": instant_text("through", through),
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
        """Notes that the doses of a give came out of a fund that should not have paid.

        Parameters
        ----------
        give : int
            The number of the give's entry.
        fund : str
            That which should have paid ("": the empty one), and owes them.
        reason : str
            Why.

        Returns
        -------
        Posted
            What was posted.
        """
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
        """Notes doses of a loan repaid to the fund that lent them.

        Parameters
        ----------
        loan : int
            The number of the loan's entry.
        with_ : int, optional
            The number of the receive or give by which they came back.

        Returns
        -------
        Posted
            What was posted.

        Raises
        ------
        Contradiction
            Fewer doses are open.
        """
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
        """Takes back an entry that was a mistake, and says what that changes.

        Parameters
        ----------
        entry : int
            Its number.
        reason : str
            Why.
        yes : bool, default False
            Also where doses come off a list or lose any reason not to be used, or a give comes off the review list,
            gets a better finding or loses a reason.

        Returns
        -------
        PostedWithChanges
            What was posted, and what it changes.

        Raises
        ------
        MissingField
            It loosens something and `yes` was not said; the message names each.
        NotVoidable
            Such an entry cannot be taken back.
        InUse
            A definition that entries still name.
        """
        fields = _fields("void", by, at, note, {"voids": arguments.whole("entry", entry), "reason": reason})
        return PostedWithChanges._of(self._core.post_definition(fields, yes, arguments.now_s(now), dry_run), self._core)

    # ---- a clinic's file

    def start(
        self,
        file: str | bytes | os.PathLike[str],
        *,
        by: str,
        at: Instant | None = None,
        now: datetime.datetime | None = None,
        yes: bool = False,
        dry_run: bool = False,
    ) -> Started:
        """Takes in a file in which a clinic describes itself, all of it or nothing: site, places, probes, products,
        lots with their doses, people, plan, rules. It begins a ledger, or adds to one; a file of lots alone is opening
        stock. :meth:`template` makes one to fill in.

        Parameters
        ----------
        file : str | bytes | os.PathLike[str]
            The path of the file; text that has a line end, or bytes, is its content.
        at : Instant, optional
            Of what states no time of its own in the file.

        Returns
        -------
        Started
            What was understood and posted, and what is still missing.

        Raises
        ------
        BadText
            It is no plain text, or states nothing.
        BadValue, MissingField, UnknownField, ...
            By the first of its mistakes; the message has all of them, a line each.
        """
        name = "text"
        if isinstance(file, os.PathLike) or (isinstance(file, str) and "\n" not in file):
            path = os.fspath(file)
            name = os.path.basename(path)
            try:
                with open(path, "rb") as content:
                    file = content.read()
            except OSError as error:
                raise Machine(f"file: {path}: {error.strerror}") from None
        core = self._core.start(
            file if isinstance(file, bytes) else arguments.text("file", file),
            arguments.text("file", name),
            arguments.text("by", by),
            arguments.maybe_instant("at", at),
            yes,
            arguments.now_s(now),
            dry_run,
        )
        return Started._of(core, self._core)

    @staticmethod
    def template(what: str, file: str | os.PathLike[str] | None = None) -> str:
        """A file to fill in for :meth:`start`, every line explained: text with commas, which a spreadsheet opens.

        Parameters
        ----------
        what : str
            "clinic" (all that a new ledger begins with), "lots" (opening stock), "plan" (the contingency plan) or
            "rules" (what the programme asks).
        file : str | os.PathLike[str], optional
            A new file to write it to.

        Returns
        -------
        str
            The text.

        Raises
        ------
        BadValue
            There is no such template.
        LedgerExists
            The file is there already, and stays as it is.
        Machine
            The file cannot be written.
        """
        text = _core.Ledger.template(arguments.text("what", what))
        if file is not None:
            path = os.fspath(file)
            try:
                with open(path, "x", encoding="utf-8", newline="") as new:
                    new.write(text)
            except FileExistsError:
                raise LedgerExists(f"{path}: is there already, and stays as it is; name another file") from None
            except OSError as error:
                raise Machine(f"{path}: cannot be written: {error.strerror}") from None
        return text

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
        """Posts the contingency plan, which replaces the one before as a whole, and warns of what is missing in it.

        Parameters
        ----------
        plan : ContingencyPlan | Mapping[str, Any]
            Its parts. A PlanAnswer's `plan` is one to begin with.

        Returns
        -------
        Posted
            What was posted.

        Raises
        ------
        UnknownField
            A part that no plan has.
        """
        parts = plan.to_dict() if isinstance(plan, ContingencyPlan) else plan
        for name in ("kind", "by", "at", "note"):
            if name in parts:
                raise UnknownField(f"{name}: is not a part of a plan")
        return self._post("plan", by, at, note, now, dry_run, parts)

    def patient_step(
        self,
        patient: str | int,
        step: PatientStep,
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
        """Notes what was done about a dose under review or recalled.

        Parameters
        ----------
        patient : str | int
            The token, or the number of the give's entry.
        step : str
            decided, told, answered, repeated, tested, no answer or not needed.
        text : str, optional
            In words, without names.
        give, lot, product : int, optional
            Which of several doses.
        every : bool, default False
            Each of several doses.

        Returns
        -------
        Posted
            What was posted.

        Raises
        ------
        Ambiguous
            It may be of several.
        """
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
                else arguments.text("patient", cast(str, patient)),
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
        """Notes that somebody was trained.

        Parameters
        ----------
        person : str
            Who.
        topic : str
            In what.
        due : datetime.date | str, optional
            The last day by which to be trained again.
        reference : str, optional
            Where the proof is kept.

        Returns
        -------
        Posted
            What was posted.
        """
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
        scale: Scale | None = None,
        probe: str | None = None,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        yes: bool = False,
        dry_run: bool = False,
    ) -> Posted:
        """Notes a temperature read from a place.

        Parameters
        ----------
        place : str
            The id of the place.
        temperature : Degrees
            Degrees as indicated.
        min : Degrees, optional
            The lowest since the check before, degrees.
        max : Degrees, optional
            The highest since then, degrees.
        scale : str, optional
            "C" or "F"; None: in which it is always read.
        probe : str, optional
            The id of the thermometer.

        Returns
        -------
        Posted
            What was posted.

        Raises
        ------
        WrongScale
            The probe has another scale.
        """
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
        reason: TripReason = "emergency",
        temperature: Degrees | None = None,
        container_temperature: Degrees | None = None,
        scale: Scale | None = None,
        packed_by: str | None = None,
        approval: str | None = None,
        coolant: str | None = None,
        conditioning: str | None = None,
        unsuited: Unsuited | None = None,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        yes: bool = False,
        dry_run: bool = False,
    ) -> Posted:
        """Moves all of a place, or chosen lots, into a container: checks of both, the moves and the departure in one
        batch. :meth:`Ledger.move_list` says what is in it then.

        Parameters
        ----------
        place : str
            The id of the place.
        container : str
            The id of the container.
        destination : str
            Where it goes.
        lots : Sequence[str], default ()
            The numbers of the lots; none: all.
        reason : str, default "emergency"
            emergency, relocation, avoid waste or off-site clinic.
        temperature : Degrees, optional
            That of the place, degrees in `scale`, or text with its own, "39.4F".
        container_temperature : Degrees, optional
            That of the container, degrees, likewise.
        scale : str, optional
            "C" or "F"; None: the usual one.
        packed_by : str, optional
            Who packed it.
        approval : str, optional
            Who approved it.
        coolant : str, optional
            What keeps it cold.
        conditioning : str, optional
            How that was made ready.
        unsuited : str, optional
            "take" or "leave" doses that the container does not suit.

        Returns
        -------
        Posted
            What was posted.

        Raises
        ------
        Contradiction
            There are such doses and `unsuited` is not given.
        """
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
        scale: Scale | None = None,
        received_by: str | None = None,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        yes: bool = False,
        dry_run: bool = False,
    ) -> Posted:
        """Counts what is in a container and moves it into a place: checks of both, counts, moves and the arrival in one
        batch.

        Parameters
        ----------
        container : str
            The id of the container.
        place : str
            The id of the place.
        counts : Mapping[str | tuple[str, str, str], int], optional
            Doses by lot, or by (lot, fund, mark) where a lot is there more than once.
        as_listed : bool, default False
            The others were counted and are as in the book.
        mark : str, optional
            The one they get; None: their own, or one of the trip where they must be kept apart.
        temperature : Degrees, optional
            That of the place, degrees in `scale`, or text with its own, "39.4F".
        container_temperature : Degrees, optional
            That of the container, degrees, likewise.
        scale : str, optional
            "C" or "F"; None: the usual one.
        received_by : str, optional
            Who took it in.

        Returns
        -------
        Posted
            What was posted.

        Raises
        ------
        MissingField
            A lot is not counted.
        """
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
        since: Instant | None = None,
        at: Instant | None = None,
        note: str | None = None,
        now: datetime.datetime | None = None,
        dry_run: bool = False,
    ) -> Posted:
        """Opens an incident in a place. Every lot that has doses in the place then is put on hold, an entry each.
        Excursions of the place that lasted then, or ended not long before, belong to it; :meth:`Ledger.incident` tells
        at once what is to be done and which doses were given since.

        Parameters
        ----------
        place : str
            The id of the place.
        text : str
            What was found.
        incident : str, optional
            Its name; None: the next number of the year.
        no_hold : str, optional
            Why the doses are not put on hold, kept in the note.
        since : Instant, optional
            Since when it was out of range, where that was read only now, and it ended long before.

        Returns
        -------
        Posted
            What was posted.
        """
        return self._step(incident, "noticed", text, by, place, at, no_hold, False, None, [], since, note, now, dry_run)

    def step(
        self,
        incident: str,
        step: IncidentStepName,
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
        """Writes down a step of an incident.

        Parameters
        ----------
        incident : str
            Its name.
        step : str
            supervisor told, health department told, manufacturer told, cause, action or closed.
        text : str
            In words.
        place : str, optional
            A further place that it is of: its doses are put on hold.
        no_hold : str, optional
            Why they are not.
        release : bool, default False
            With closed: takes back the holds that came with its notice.
        despite : str, optional
            With closed: why, though doses that stood in its time in doubt are on no hold and no answer covers them;
            kept in the note.
        told : sequence of int, optional
            With action or a step of telling: the entries of transfers or returns. Who has those doses was told by this;
            without it nobody counts as told, whatever the text says.

        Returns
        -------
        Posted
            What was posted; `warnings` say what is still open, and which holds stand.

        Raises
        ------
        NotKnown
            There is no incident of this name, or nothing left by an entry of `told`.
        Contradiction
            `told` with another step; a release where any of the time in doubt was out of range or is not known.
        """
        name = arguments.text("incident", incident)
        those = [arguments.whole("told", entry) for entry in told]
        return self._step(name, step, text, by, place, at, no_hold, release, despite, those, None, note, now, dry_run)

    def _step(
        self,
        incident: str | None,
        step: IncidentStepName,
        text: str,
        by: str,
        place: str | None,
        at: Instant | None,
        no_hold: str | None,
        release: bool,
        despite: str | None,
        told: list[int],
        since: Instant | None,
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
            arguments.maybe_instant("since", since),
            arguments.maybe_text("note", note),
            arguments.now_s(now),
            dry_run,
        )
        return Posted._of(core, self._core)

    def report(
        self,
        incident: str,
        to: Reader,
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
        """Writes down that an incident was reported, with the figures that were told: doses, seconds rounded up.

        Parameters
        ----------
        incident : str
            Its name.
        to : str
            supervisor, health department or manufacturer.
        recipient : str
            Their name, a manufacturer's as its maker entries state it.
        reference : str, optional
            Their case number.
        text : str, optional
            In words.
        uncounted : bool, default False
            The doses were not counted first, and the report says so.
        at : Instant, optional
            When it was sent, and the instant of the figures; None: now.

        Returns
        -------
        Posted
            What was posted.

        Raises
        ------
        MissingField
            The doses were not counted and it is not said.
        NotKnown
            There is no such incident.
        """
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
        verdict: Verdict,
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
        """Takes the guidance that answers a report: shows what it changes and does not cover.

        Parameters
        ----------
        report : int
            The number of the report's entry.
        product : str
            The id of the product.
        verdict : str
            use, use-by (then `use_by`) or discard.
        issuer : str
            Who answered.
        reference : str
            Their case number.
        since : Instant, optional
            The instant from which on it judges exposures; no dose given before is covered by it.
        use_by : datetime.date | str, optional
            The last day.
        place, mark : str, optional
            Which doses of the lot; what is not given does not limit.
        despite : str, optional
            Why it is posted in spite of concerns, kept as a note.
        post : bool, default False
            Post it, unless there are concerns.

        Returns
        -------
        AnswerDraft
            What it changes. Nothing was posted where `posted` is empty.

        Raises
        ------
        NotKnown
            There is no such report, or it told nothing of the lot.
        Contradiction
            `use_by` and the verdict do not fit.
        """
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


complete_methods(Work, _PARAMETERS, _RAISES)


def _fields(kind: str, by: str, at: Instant | None, note: str | None, fields: Mapping[str, Any]) -> str:
    """A draft as JSON; what is None is left out."""
    given = {"kind": kind, "by": by, "at": None if at is None else instant_text("at", at), "note": note, **fields}
    return json.dumps({name: json_value(name, value) for name, value in given.items() if value is not None})
