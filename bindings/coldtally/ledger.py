"""Ledger: one site's file; posts entries and answers questions."""
from __future__ import annotations

import datetime
import json
import os
import warnings
import zoneinfo
from collections.abc import Iterable, Iterator, Mapping, Sequence
from decimal import Decimal
from fractions import Fraction
from types import TracebackType
from typing import Any

from . import _core, answers, columns, journeys, logger, stewardship, wire
from .arguments import (
    WindowEnd,
    Instant,
    Postable,
    asked,
    maybe_bound,
    maybe_instant,
    maybe_text,
    now_s,
    several,
    text,
    utc,
    whole,
    window,
)
from .columns import Column, PostedReadings
from .errors import BadValue, Contradiction, EntryWarning, Error, Machine, WrongType
from .fields import Fact, entry_from_dict
from .fhir import ImmunizationsAnswer
from .handovers import HandoverAnswer
from .incidents import IncidentAnswer, IncidentsAnswer, RulesAnswer
from .upkeep import FollowUpAnswer, PlanAnswer, ReadinessAnswer, TrainingAnswer, UnitAnswer
from .work import Work

__all__ = ["WindowEnd", "Instant", "Ledger", "Postable"]


class Ledger(Work):
    """One ledger file: one site, every entry ever posted, never altered.

    ``with coldtally.Ledger(path) as ledger:`` closes it at the end. `mode`: ``"create"`` makes the file with the first
    post, which must begin with a site entry, and uses it if it is there; ``"write"`` needs it to be there; ``"read"``
    asks questions only. `wait_s`: seconds to wait for another process. Raises LedgerMissing, NotALedger, NewerFormat,
    OlderFormat, Damaged, Busy or Machine.

    Questions take `at`, the instant asked about, and `known_on`: only entries recorded up to then are seen. Both are
    now where they are not given, and `now` stands for the clock. An end of a window may be a date by the site's clock:
    it begins with the first instant of that day, and ends with its last. How each answer is computed stands in
    lib/answers/README.md of the sources.

    Besides what it names, every call raises ClosedLedger, ForkedProcess, Busy (another process held the file for longer
    than `wait_s`), Damaged and Machine; every question BadValue (an instant without zone, or none), NotKnown
    (`known_on` before the first entry) and LedgerMissing (nothing has been posted yet). A call that raised has written
    nothing.

    Threads: one object may be used from any thread; its calls run one at a time, without the GIL. For questions at the
    same time open one object a thread. Processes: any number may have one file open. After a fork the child must open
    its own; using the parent's raises ForkedProcess."""

    def __init__(self, path: str | os.PathLike[str], mode: str = "create", *, wait_s: int = 10) -> None:
        name = os.fspath(path)
        if not isinstance(name, str):
            raise WrongType(f"path: {path!r}: must be text or a pathlib.Path")
        self._path = name
        self._core = _core.Ledger(text("path", name), text("mode", mode), wait_s)

    @property
    def path(self) -> str:
        """The file, as it was given."""
        return self._path

    def __enter__(self) -> Ledger:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """Closes the file; again: nothing. Every later call raises ClosedLedger; answers stay."""
        self._core.close()

    @property
    def closed(self) -> bool:
        """Has it been closed?"""
        return self._core.closed()

    def __repr__(self) -> str:
        return f"coldtally.Ledger({self._path!r})"

    def __reduce__(self) -> Any:
        raise WrongType("a ledger is an open file and cannot be pickled: pass its path, and open it there")

    # ---- posting

    def post(
        self, entries: Postable | Iterable[Postable], *, now: datetime.datetime | None = None, dry_run: bool = False
    ) -> list[int]:
        """Posts one entry or several, all or nothing, and returns their numbers. When it returns they are on the disk.
        `dry_run`: checks everything and writes nothing. `now`: the instant of recording (None: the clock's). What a
        careful person wants to know of them (limits that may have been typed wrong, a token that looks like a name, …)
        comes as warnings.warn of EntryWarning.

        Raises the class of the rule that an entry breaks (MissingField, BadValue, NotDefined, NotEnough, TooLate, …),
        with its line; WrongType for a float; NoSite where a new ledger does not begin with its site."""
        return self._posted("\n".join(several(entries)), now, dry_run)

    def post_json(self, lines: str, *, now: datetime.datetime | None = None, dry_run: bool = False) -> list[int]:
        """Posts the entries of a JSON Lines text, as ``coldtally post`` does, and returns their numbers. Raises what
        post raises, and BadText or BadJson."""
        return self._posted(lines, now, dry_run)

    def _posted(self, lines: str, now: datetime.datetime | None, dry_run: bool) -> list[int]:
        numbers, said = self._core.post(text("lines", lines), now_s(now), dry_run)
        for words in said:
            warnings.warn(words, EntryWarning, stacklevel=3)
        return numbers

    def post_readings(
        self,
        probe: str,
        scale: str,
        at: Column,
        *,
        by: str,
        degrees: Column | None = None,
        thousandths: Column | None = None,
        resolution: Decimal | str | None = None,
        zone: str | zoneinfo.ZoneInfo | None = None,
        note: str | None = None,
        source: tuple[str, str] | None = None,
        now: datetime.datetime | None = None,
        dry_run: bool = False,
    ) -> PostedReadings:
        """Posts rows of a probe's memory from columns (arrays, pandas columns, sequences), all or nothing, an entry for
        each 100,000, and reads them back.

        Temperatures are as indicated, in `scale` ("C" or "F", the probe's), and given as one of two. `degrees`:
        integers of any type, Decimals or text; floats only with a `resolution`, that of the logger: "1", "0.1", "0.01"
        or "0.001" degrees, to which whatever is finer is rounded, halves away from zero; a float stands for the
        shortest decimal that means it. `thousandths` of a degree: integers.

        `at`: aware datetimes, or, on a clock of `zone`, naive ones or ``datetime64``: "site" is the site's zone, any
        other an IANA name ("UTC"). Their rows are in the order in which they were logged. `source`: name and SHA-256 of
        the file they came from. A resolution is kept with it, or without a source in the note.

        Raises what post raises, with the row, counted from 0; WrongType for floats without a resolution, text or
        numbers as instants; BadValue for an instant without zone, a time that the zone's clock skips, a row where
        nothing stands (NaN, NaT, NA); Ambiguous for a time that the clock shows twice and that the order of the rows
        does not settle, and for rows of a zone that go back in time.
        """
        if (degrees is None) == (thousandths is None):
            raise WrongType(
                'degrees, thousandths: exactly one of them says what the temperatures are: '
                'degrees (4.2 as Decimal("4.2") or "4.2", 40), or '
                "thousandths of a degree (4200, 40000)"
            )
        if resolution is not None and degrees is None:
            raise Contradiction("resolution: thousandths are never rounded: it is for degrees")
        step = None if resolution is None else wire.degrees_text("resolution", resolution)
        seconds, clock = columns.instants(at, zone)
        values = (
            columns.numbers("thousandths", thousandths, False)
            if degrees is None
            else columns.numbers("degrees", degrees, step is not None)
        )
        note = maybe_text("note", note)
        if step is not None and source is None:  # else it stands beside the source
            note = (f"{note}; " if note else "") + f"rounded to {step} {text('scale', scale)}"
        entries, first, last, lowest, highest, rounded, largest_change, remarks = self._core.post_rows(
            seconds,
            None if clock is None else text("zone", clock),
            values,
            degrees is not None,
            step,
            text("probe", probe),
            text("scale", scale),
            text("by", by),
            note,
            None if source is None else (text("source", source[0]), text("source", source[1])),
            now_s(now),
            dry_run,
        )
        change = Fraction(largest_change)
        return PostedReadings(
            dry_run=dry_run,
            entries=tuple(entries),
            rows=len(seconds),
            from_=utc(first),
            until=utc(last),
            scale=scale,
            lowest=Decimal(answers.degrees(lowest)),
            highest=Decimal(answers.degrees(highest)),
            rounded=rounded,
            largest_change=Decimal(int(change * 10**18)).scaleb(-18).normalize(),
            remarks=tuple(remarks),
        )

    def import_readings(
        self,
        probe: str,
        files: str | os.PathLike[str] | Sequence[str | os.PathLike[str] | tuple[str, bytes]],
        *,
        by: str,
        layout: logger.Layout | Mapping[str, Any] | str | os.PathLike[str] | None = None,
        accept_guesses: bool = False,
        loosen: bool = False,
        note: str | None = None,
        now: datetime.datetime | None = None,
        dry_run: bool = False,
    ) -> logger.ImportReport:
        """Reads the text files of a temperature logger as readings of `probe`, all files or none.

        `files`: paths, or (name, bytes). `layout`: a Layout, a mapping as in a layout file, or the path of one; what it
        leaves open is guessed, and what could be otherwise is refused unless `accept_guesses`. `note` is kept with the
        entries. The report says of each file how many rows were kept, and which excursions in it belong to which
        incident or to none.

        `loosen`: post it also where doses lose a reason not to be used, a give comes off the review list, an excursion
        gets less, or a display or check disagrees with the readings out of range; the report's `warnings` say all of
        it, and what is known now that was not.

        Raises MissingField, which names each, where it is so without `loosen`; Ambiguous; BadRow with the line that
        cannot be read; UnknownField or BadValue for a layout; NotDefined for a probe; ReadingsDiffer where the ledger
        has another reading at an instant; Machine where a file cannot be read.
        """
        if isinstance(files, (str, os.PathLike)):
            files = [files]
        contents = [
            (text("files", f[0]), bytes(f[1])) if isinstance(f, tuple) else (os.path.basename(os.fspath(f)), _source(f))
            for f in files
        ]
        stated: str | None = None
        if isinstance(layout, (logger.Layout, Mapping)):
            stated = json.dumps(wire.to_wire("layout", layout))
        elif layout is not None:
            try:
                stated = _core.check_layout(_content(layout).decode())
            except Error as error:
                raise type(error)(f"{os.path.basename(os.fspath(layout))}: {error}") from None
        core = self._core.import_files(
            text("probe", probe),
            text("by", by),
            contents,
            stated,
            accept_guesses,
            loosen,
            maybe_text("note", note),
            now_s(now),
            dry_run,
        )
        return logger.ImportReport._of(core, self._core)

    def replay(self, lines: str | Iterable[str]) -> list[int]:
        """Fills a new ledger from exported entries, JSON Lines that carry `entry` and `recorded`; their numbers. Raises
        LedgerExists where it is not new, OutOfOrder where numbers or instants do not follow on, and what post
        raises."""
        return self._core.replay(text("lines", lines if isinstance(lines, str) else "\n".join(lines)))

    # ---- reading back

    def export(self) -> Iterator[str]:
        """Every entry as a line of JSON with its line end, in the order of posting, as ``coldtally export`` prints
        them. Raises what every call raises."""
        for line in self._core.entries():
            yield line + "\n"

    def entries(self) -> Iterator[Fact]:
        """Every entry as an object of its kind, in the order of posting, as the ledger is now. Raises what every call
        raises."""
        for line in self._core.entries():
            yield entry_from_dict(json.loads(line))

    def readings(
        self,
        probe: str,
        from_: WindowEnd,
        until: WindowEnd,
        *,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> answers.ReadingsAnswer:
        """The readings of a probe in [from_, until), as indicated, as NumPy arrays: instants in UTC, thousandths of a
        degree of its scale. Raises NotKnown where there is no such probe, Contradiction where the window ends before it
        begins."""
        head, instants, thousandths = self._core.readings(
            asked(at, known_on, now), text("probe", probe), *window(from_, until)
        )
        form = json.loads(head)
        del form["rows"]
        return answers.ReadingsAnswer._with(form, {"instants": instants.view("M8[s]"), "thousandths": thousandths})

    def trace(
        self,
        place: str,
        from_: WindowEnd,
        until: WindowEnd,
        *,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> answers.TraceAnswer:
        """What is known of a place's temperature in [from_, until): corrected readings as NumPy arrays, checks, and
        what stands for the time that is not logged. Thousandths of a degree of each reading's scale. Raises NotKnown
        where there is no such place, Contradiction where the window ends before it begins."""
        head, *arrays = self._core.trace(asked(at, known_on, now), text("place", place), *window(from_, until))
        form = json.loads(head)
        del form["readings"]
        named: dict[str, Any] = dict(zip(("instants", "thousandths", "fahrenheit", "tolerance", "joined"), arrays))
        named["instants"] = named["instants"].view("M8[s]")
        return answers.TraceAnswer._with(form, named)

    # ---- questions

    def stock(
        self, *, at: Instant | None = None, known_on: Instant | None = None, now: datetime.datetime | None = None
    ) -> answers.StockAnswer:
        """Which doses are where, and the accounts, in doses. Raises what every question raises."""
        return answers.StockAnswer._of(self._core.stock(asked(at, known_on, now)), self._core)

    def lists(
        self, *, at: Instant | None = None, known_on: Instant | None = None, now: datetime.datetime | None = None
    ) -> answers.ListsAnswer:
        """All doses sorted into discard, quarantine-pending-guidance and keep, with reasons, notes and exact histories
        in seconds and degree-seconds. Raises what every question raises."""
        return answers.ListsAnswer._of(self._core.lists(asked(at, known_on, now)), self._core)

    def scan(
        self,
        code: str,
        *,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> answers.ScanAnswer:
        """What the text of a scanned GS1 code says, and the holdings of its lot on their lists. Raises BadValue where
        it is none, or its check digit, dates or lengths are wrong, Contradiction where it states one thing twice."""
        return answers.ScanAnswer._of(self._core.scan(asked(at, known_on, now), text("code", code)), self._core)

    def review(
        self,
        *,
        all: bool = False,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> answers.ReviewAnswer:
        """Doses given that may need review; `all`: also those that are clear. It never says to revaccinate: a clinician
        decides. NOT listed without `all`, and not thereby without doubt: doses given in the time in doubt of an
        incident that is open (:meth:`incident` lists them), and those that may have been out of range for longer by
        `at_most` alone. Raises what every question raises."""
        return answers.ReviewAnswer._of(self._core.review(asked(at, known_on, now), all), self._core)

    def immunizations(
        self,
        *,
        patient: str | None = None,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> ImmunizationsAnswer:
        """Doses given as FHIR R4 Immunization resources, with what the review says of each in its notes; `patient`:
        those of one token. It never says that a dose does not count: a clinician decides. Raises what every question
        raises."""
        return ImmunizationsAnswer._of(
            self._core.immunizations(asked(at, known_on, now), maybe_text("patient", patient)), self._core
        )

    def excursions(
        self,
        place: str,
        from_: WindowEnd,
        until: WindowEnd,
        *,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> answers.ExcursionsAnswer:
        """The excursions of a place in [from_, until), exact seconds and degrees Celsius, with the doses inside. Raises
        NotKnown where there is no such place, Contradiction where the window ends before it begins."""
        return answers.ExcursionsAnswer._of(
            self._core.excursions(asked(at, known_on, now), text("place", place), *window(from_, until)), self._core
        )

    def conditions(
        self,
        place: str,
        from_: WindowEnd,
        until: WindowEnd,
        *,
        activation_K: int = 10000,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> answers.ConditionsAnswer:
        """Coverage in seconds, extremes, mean and mean kinetic temperature in degrees Celsius of a place in [from_,
        until). `activation_K`: activation energy over the gas constant, kelvin. Raises NotKnown where there is no such
        place, BadValue for an activation that is not 1 to 1,000,000 K, Contradiction where the window ends before it
        begins."""
        core = self._core.conditions(
            asked(at, known_on, now), text("place", place), *window(from_, until), whole("activation_K", activation_K)
        )
        return answers.ConditionsAnswer._of(core, self._core)

    def explain(
        self,
        place: str,
        product: str,
        lot: str,
        *,
        fund: str = "",
        mark: str = "",
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> answers.Explanation:
        """Why a holding is on its list, in the order of time. Raises NotKnown where there is no such holding."""
        names = [
            text(n, v)
            for n, v in (("place", place), ("product", product), ("lot", lot), ("fund", fund), ("mark", mark))
        ]
        return answers.Explanation._of(self._core.explain(asked(at, known_on, now), *names), self._core)

    def stays(
        self,
        product: str,
        lot: str,
        *,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> answers.StaysAnswer:
        """When the doses of a lot were where. Raises NotKnown where there is no such lot."""
        return answers.StaysAnswer._of(
            self._core.stays(asked(at, known_on, now), text("product", product), text("lot", lot)), self._core
        )

    def rules(
        self,
        place: str | None = None,
        from_: WindowEnd | None = None,
        until: WindowEnd | None = None,
        *,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> RulesAnswer:
        """What the programme asks for, and which of its conditions were met in a place (None: in each) in [from_,
        until); not given: the 30 days before the instant asked about. Exact seconds. Raises NotKnown where there is no
        such place, Contradiction where the window ends before it begins."""
        core = self._core.rules(
            asked(at, known_on, now),
            maybe_text("place", place),
            maybe_bound("from", from_),
            maybe_bound("until", until),
        )
        return RulesAnswer._of(core, self._core)

    def incident(
        self,
        incident: str,
        *,
        maker: str | None = None,
        patients: bool = False,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> IncidentAnswer:
        """The whole of an incident for those who must be told, or what concerns the products of one `maker`. Others
        read it: patients are a number in it; `patients`: with their tokens. Raises NotKnown where there is none of this
        name, or none of its products."""
        core = self._core.incident(
            asked(at, known_on, now), text("incident", incident), maybe_text("maker", maker), patients
        )
        return IncidentAnswer._of(core, self._core)

    def incidents(
        self,
        place: str | None = None,
        from_: WindowEnd | None = None,
        until: WindowEnd | None = None,
        *,
        probe: str | None = None,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> IncidentsAnswer:
        """Which excursions in [from_, until) belong to which incident: of a place, of the places a probe was in then,
        or of all. Not given: from the beginning to the instant asked about. Raises NotKnown where there is no such
        place or probe."""
        ends = maybe_bound("from", from_), maybe_bound("until", until)
        core = self._core.incidents(
            asked(at, known_on, now), maybe_text("place", place), maybe_text("probe", probe), *ends
        )
        return IncidentsAnswer._of(core, self._core)

    def move_list(
        self,
        place: str,
        container: str | None = None,
        *,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> journeys.MoveListAnswer:
        """What is in a place, in the order in which to move it, and what the range of a `container` means for each.
        Raises NotKnown where there is no such place or container."""
        core = self._core.move_list(asked(at, known_on, now), text("place", place), maybe_text("container", container))
        return journeys.MoveListAnswer._of(core, self._core)

    def trip(
        self,
        container: str,
        *,
        limit_s: int | None = None,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> journeys.TripAnswer:
        """The last journey of a container and what became of its doses. `limit_s`: seconds that it may last; None: what
        the programme's rules say. Raises NotKnown where the container has not departed."""
        core = self._core.trip(
            asked(at, known_on, now),
            text("container", container),
            None if limit_s is None else whole("limit_s", limit_s),
        )
        return journeys.TripAnswer._of(core, self._core)

    def handover(
        self,
        entry: int,
        *,
        file: str | os.PathLike[str] | None = None,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> HandoverAnswer:
        """The history of doses as they left by a transfer, by the number of its entry: for the site that receives them,
        and to be stated anew where later readings tell more. `file`: the path of a new file for it; the sheet for
        people is written beside it. Raises NotKnown where no such transfer stands, Contradiction where there is a file
        already, or guidance condemned the doses."""
        path = None if file is None else text("file", os.fspath(file))
        return HandoverAnswer._of(
            self._core.handover(asked(at, known_on, now), whole("entry", entry), path), self._core
        )

    def dates(
        self, *, at: Instant | None = None, known_on: Instant | None = None, now: datetime.datetime | None = None
    ) -> stewardship.DatesAnswer:
        """Until when doses may be used, what sets that, which to use first, and how many will be left over at the rate
        of the last 90 days. Raises what every question raises."""
        return stewardship.DatesAnswer._of(self._core.dates(asked(at, known_on, now)), self._core)

    def loans(
        self,
        *,
        all: bool = False,
        patients: bool = False,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> stewardship.LoansAnswer:
        """Doses of one fund that another owes it; `all`: also those that are repaid; `patients`: with the tokens of the
        patients. Raises what every question raises."""
        return stewardship.LoansAnswer._of(self._core.loans(asked(at, known_on, now), all, patients), self._core)

    def accountability(
        self,
        from_: WindowEnd,
        until: WindowEnd,
        *,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> stewardship.AccountabilityAnswer:
        """Every dose of the period [from_, until) by product, lot and fund. Raises Contradiction where it ends before
        it begins."""
        core = self._core.accountability(asked(at, known_on, now), *window(from_, until))
        return stewardship.AccountabilityAnswer._of(core, self._core)

    def plan(
        self, *, at: Instant | None = None, known_on: Instant | None = None, now: datetime.datetime | None = None
    ) -> PlanAnswer:
        """The contingency plan that holds, and what is missing or old in it, each with since when. Raises what every
        question raises."""
        return PlanAnswer._of(self._core.plan(asked(at, known_on, now)), self._core)

    def follow_up(
        self,
        lot: str | None = None,
        product: str | None = None,
        *,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> FollowUpAnswer:
        """The doses of the review list, or all that were given of a recalled `lot`, and what was done about each.
        Raises NotDefined where no such lot is known, Ambiguous where it is one of several products, MissingField for a
        product without a lot."""
        core = self._core.follow_up(asked(at, known_on, now), maybe_text("lot", lot), maybe_text("product", product))
        return FollowUpAnswer._of(core, self._core)

    def training(
        self, *, at: Instant | None = None, known_on: Instant | None = None, now: datetime.datetime | None = None
    ) -> TrainingAnswer:
        """Who was trained in what, until when that is good, and what has lapsed. Raises what every question raises."""
        return TrainingAnswer._of(self._core.training(asked(at, known_on, now)), self._core)

    def unit(
        self,
        place: str,
        from_: WindowEnd | None = None,
        until: WindowEnd | None = None,
        *,
        activation_K: int = 10000,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> UnitAnswer:
        """The history of a storage unit by month in [from_, until); not given: all that is known of it. Exact seconds
        and degrees Celsius. `activation_K`: activation energy over the gas constant, kelvin. Raises NotKnown where
        there is no such place, BadValue for an activation that is not 1 to 1,000,000 K, Contradiction where the window
        ends before it begins."""
        ends = maybe_bound("from", from_), maybe_bound("until", until)
        core = self._core.unit(
            asked(at, known_on, now), text("place", place), *ends, whole("activation_K", activation_K)
        )
        return UnitAnswer._of(core, self._core)

    def readiness(
        self,
        from_: WindowEnd | None = None,
        *,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> ReadinessAnswer:
        """What an inspector would find missing, since when and by what rule, and all that was looked at. `from_`: how
        far back checks, temperatures and certificates are looked at; None: 365 days. Raises what every question
        raises."""
        return ReadinessAnswer._of(
            self._core.readiness(asked(at, known_on, now), maybe_bound("from", from_)), self._core
        )

    def verify(self, *, against: str | None = None) -> answers.Verification:
        """Recomputes the chain, every derived row and the balances from the entries, and says what does not agree.
        `against`: the `to_note` of an earlier verification, from paper, which the chain must still have. Raises
        Damaged where the file cannot be read that far, BadValue for what is no such link."""
        return answers.Verification._of(self._core.verify(maybe_text("against", against)), self._core)

    def backup(self, copy: str | os.PathLike[str]) -> answers.LedgerCopy:
        """Copies the ledger as it is at one instant into a new file, and verifies the copy. Raises LedgerExists where
        `copy` is there, Damaged where what was copied does not verify."""
        return answers.LedgerCopy._of(self._core.backup(text("copy", os.fspath(copy))), self._core)

    @staticmethod
    def restore(copy: str | os.PathLike[str], new: str | os.PathLike[str], *, wait_s: int = 10) -> answers.LedgerCopy:
        """Makes the ledger `new` from a copy that verifies, also from one of an older format: the same entries and the
        same chain. `wait_s`: seconds to wait for another process. Raises LedgerExists, LedgerMissing, NotALedger,
        NewerFormat, OlderFormat, Damaged, Busy or Machine."""
        made = _core.Ledger.restore(text("copy", os.fspath(copy)), text("new", os.fspath(new)), wait_s)
        return answers.LedgerCopy._of(made, _core.Ledger(os.fspath(new), "read", wait_s))

    def zone(self, *, known_on: Instant | None = None) -> zoneinfo.ZoneInfo:
        """The site's time zone. Raises what every question raises."""
        return zoneinfo.ZoneInfo(self._core.zone(maybe_instant("known_on", known_on), now_s(None)))

    def sheet_scale(self) -> str:
        """The scale in which the site keeps its sheets: "C" or "F". Raises what every question raises."""
        return self._core.sheet_scale()


def _source(path: str | os.PathLike[str]) -> bytes | str:
    """The path of a logger's file, which the core reads a part at a time; its bytes where the path cannot be handed
    over as it is."""
    where = os.fspath(path)
    try:
        where.encode()
    except (AttributeError, UnicodeEncodeError):
        return _content(path)
    return os.path.join(os.curdir, where) if where == "-" else where


def _content(path: str | os.PathLike[str]) -> bytes:
    try:
        with open(path, "rb") as file:
            return file.read()
    except OSError as error:
        raise Machine(f"{os.fspath(path)}: cannot be read: {error.strerror}") from None
