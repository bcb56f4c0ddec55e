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

from . import _core, columns, logger
from .answers import (
    ConditionsAnswer,
    ExcursionsAnswer,
    Explanation,
    LedgerCopy,
    ListsAnswer,
    ReadingsAnswer,
    ReviewAnswer,
    ScanAnswer,
    StaysAnswer,
    StockAnswer,
    TraceAnswer,
    Verification,
    degrees as degrees_of,
)
from .arguments import Instant, Postable, WindowEnd, asked, maybe_instant, maybe_text, now_s, several, text, utc
from .as_of import RAISES, AsOf, Questions
from .columns import Column, PostedReadings
from .docstrings import complete_methods
from .entered import EnteredAnswer, ShownAnswer
from .errors import Contradiction, EntryWarning, Error, Machine, WrongType
from .exact import degrees_text, json_value
from .fhir import ImmunizationsAnswer
from .handovers import HandoverAnswer
from .incidents import IncidentAnswer, IncidentsAnswer, RulesAnswer
from .journeys import MoveListAnswer, TripAnswer
from .remarks import Remark, with_text
from .stated import Fact, entry_from_dict
from .stewardship import AccountabilityAnswer, DatesAnswer, LoansAnswer
from .terms import Mode, Scale
from .today import TodayAnswer
from .upkeep import FollowUpAnswer, PlanAnswer, ReadinessAnswer, TrainingAnswer, UnitAnswer
from .work import Work

__all__ = ["WindowEnd", "Instant", "Ledger", "Postable"]


class Ledger(Work):
    """One ledger file: one site, every entry ever posted, never altered.

    ``with coldtally.Ledger(path) as ledger:`` closes it at the end. How each answer is computed stands in
    lib/conditions/README.md and lib/stock/README.md of the sources.

    Parameters
    ----------
    path : str | os.PathLike[str]
        The file.
    mode : Mode, default "create"
        ``"create"`` makes the file with the first post, which must begin with a site entry, and uses it if it is there;
        ``"write"`` needs it to be there; ``"read"`` asks questions only.
    wait_s : int, default 10
        Seconds to wait for another process.

    Raises
    ------
    LedgerMissing, NotALedger, NewerFormat, OlderFormat, Damaged, Busy, Machine
        The file is not there, is none, is of another format, is damaged, is held by another process, or the machine
        failed.

    Notes
    -----
    Questions take `at`, the instant asked about, and `known_on`: only entries recorded up to then are seen. Both are
    now where they are not given, and `now` stands for the clock. An end of a window may be a date by the site's clock:
    it begins with the first instant of that day, and ends with its last. Several questions that must agree are asked of
    one view, :meth:`as_of`.

    Besides what it names, every call raises ClosedLedger, ForkedProcess, Busy (another process held the file for longer
    than `wait_s`), Damaged and Machine; every question BadValue (an instant without zone, or none), NotKnown
    (`known_on` before the first entry) and LedgerMissing (nothing has been posted yet). A call that raised has written
    nothing.

    Threads: one object may be used from any thread; its calls run one at a time, without the GIL. For questions at the
    same time open one object a thread. Processes: any number may have one file open. After a fork the child must open
    its own; using the parent's raises ForkedProcess.
    """

    def __init__(self, path: str | os.PathLike[str], mode: Mode = "create", *, wait_s: int = 10) -> None:
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
        """Posts one entry or several, all or nothing. When it returns they are on the disk.

        Parameters
        ----------
        entries : Postable | Iterable[Postable]
            Objects of :mod:`coldtally.entries` and its like, or mappings in the wire form.
        dry_run : bool, default False
            Check everything and write nothing.

        Returns
        -------
        list[int]
            The numbers of the entries.

        Raises
        ------
        MissingField, BadValue, NotDefined, NotEnough, TooLate
            The class of the rule that an entry breaks, with its line; there are more of them in
            :mod:`coldtally.errors`.
        WrongType
            A float, which is not the number that was read.
        NoSite
            A new ledger does not begin with its site.

        Notes
        -----
        What a careful person wants to know of them (limits that may have been typed wrong, a token that looks like a
        name, …) comes as ``warnings.warn`` of EntryWarning.
        """
        return self._posted("\n".join(several(entries)), now, dry_run)

    def post_json(self, lines: str, *, now: datetime.datetime | None = None, dry_run: bool = False) -> list[int]:
        """Posts the entries of a JSON Lines text, as ``coldtally post`` does.

        Parameters
        ----------
        lines : str
            An entry a line.
        dry_run : bool, default False
            Check everything and write nothing.

        Returns
        -------
        list[int]
            The numbers of the entries.

        Raises
        ------
        BadText, BadJson
            It is no such text; and what :meth:`post` raises.
        """
        return self._posted(lines, now, dry_run)

    def _posted(self, lines: str, now: datetime.datetime | None, dry_run: bool) -> list[int]:
        numbers, said = self._core.post(text("lines", lines), now_s(now), dry_run)
        for words in said:
            warnings.warn(words, EntryWarning, stacklevel=3)
        return numbers

    def post_readings(
        self,
        probe: str,
        scale: Scale,
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

        Parameters
        ----------
        probe : str
            The id of the probe.
        scale : str
            "C" or "F", that of the probe; temperatures are as indicated.
        at : Column
            Aware datetimes, or, on a clock of `zone`, naive ones or ``datetime64``.
        by : str
            Initials of who states it.
        degrees : Column, optional
            Integers of any type, Decimals or text; floats only with a `resolution`: a float stands for the shortest
            decimal that means it. One of `degrees` and `thousandths` is given.
        thousandths : Column, optional
            Thousandths of a degree, integers.
        resolution : Decimal | str, optional
            That of the logger: "1", "0.1", "0.01" or "0.001" degrees, to which whatever is finer is rounded, halves
            away from zero. It is kept with the source, or without one in the note.
        zone : str | zoneinfo.ZoneInfo, optional
            Whose clock showed naive instants: "site" is the site's zone, any other an IANA name ("UTC"). Their rows are
            in the order in which they were logged.
        source : tuple[str, str], optional
            Name and SHA-256 of the file they came from.
        dry_run : bool, default False
            Check everything and write nothing.

        Returns
        -------
        PostedReadings
            What was understood and posted, to be compared with what was meant.

        Raises
        ------
        WrongType
            Floats without a resolution, text or numbers as instants.
        BadValue
            An instant without zone, a time that the zone's clock skips, a row where nothing stands (NaN, NaT, NA). The
            row is counted from 0.
        Ambiguous
            A time that the clock shows twice and that the order of the rows does not settle, and rows of a zone that go
            back in time.
        Error
            What :meth:`post` raises, with the row.
        """
        if (degrees is None) == (thousandths is None):
            raise WrongType(
                'degrees, thousandths: exactly one of them says what the temperatures are: '
                'degrees (4.2 as Decimal("4.2") or "4.2", 40), or '
                "thousandths of a degree (4200, 40000)"
            )
        if resolution is not None and degrees is None:
            raise Contradiction("resolution: thousandths are never rounded: it is for degrees")
        step = None if resolution is None else degrees_text("resolution", resolution)
        seconds, clock = columns.instants(at, zone)
        values = (
            columns.numbers("thousandths", thousandths, False)
            if degrees is None
            else columns.numbers("degrees", degrees, step is not None)
        )
        note = maybe_text("note", note)
        if step is not None and source is None:  # else it stands beside the source
            note = (f"{note}; " if note else "") + f"rounded to {step} {text('scale', scale)}"
        entries, first, last, lowest, highest, rounded, largest_change, remarks, codes = self._core.post_rows(
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
            lowest=Decimal(degrees_of(lowest)),
            highest=Decimal(degrees_of(highest)),
            rounded=rounded,
            largest_change=Decimal(int(change * 10**18)).scaleb(-18).normalize(),
            remarks=tuple(remarks),
            remarks_codes=with_text(tuple(Remark.from_dict(json.loads(code)) for code in codes), remarks),
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
        """Reads the text files of a temperature logger as readings of a probe, all files or none.

        Parameters
        ----------
        probe : str
            The id of the probe.
        files : str | os.PathLike[str] | Sequence[str | os.PathLike[str] | tuple[str, bytes]]
            Paths, or (name, bytes).
        by : str
            Initials of who states it.
        layout : logger.Layout | Mapping[str, Any] | str | os.PathLike[str], optional
            A Layout, a mapping as in a layout file, or the path of one. What it leaves open is guessed.
        accept_guesses : bool, default False
            Take also what could be otherwise; else that is refused.
        loosen : bool, default False
            Post it also where doses lose a reason not to be used, a give comes off the review list, an excursion gets
            less, or a display or check disagrees with the readings out of range; the report's `warnings` say all of it,
            and what is known now that was not.
        note : str, optional
            Kept with the entries.
        dry_run : bool, default False
            Check everything and write nothing.

        Returns
        -------
        logger.ImportReport
            Of each file how many rows were kept, and which excursions in it belong to which incident or to none.

        Raises
        ------
        MissingField
            It loosens something and `loosen` was not said; the message names each.
        Ambiguous
            The layout has more than one meaning.
        BadRow
            A line that cannot be read, by its number.
        UnknownField, BadValue
            A layout that is none.
        NotDefined
            There is no such probe.
        ReadingsDiffer
            The ledger has another reading at an instant.
        Machine
            A file cannot be read.
        """
        if isinstance(files, (str, os.PathLike)):
            files = [files]
        contents = [
            (text("files", f[0]), bytes(f[1])) if isinstance(f, tuple) else (os.path.basename(os.fspath(f)), _source(f))
            for f in files
        ]
        stated: str | None = None
        if isinstance(layout, (logger.Layout, Mapping)):
            stated = json.dumps(json_value("layout", layout))
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
        """Fills a new ledger from exported entries, JSON Lines that carry `entry` and `recorded`.

        Parameters
        ----------
        lines : str | Iterable[str]
            The text, or its lines.

        Returns
        -------
        list[int]
            The numbers of the entries.

        Raises
        ------
        LedgerExists
            It is not new.
        OutOfOrder
            Numbers or instants do not follow on; and what :meth:`post` raises.
        """
        return self._core.replay(text("lines", lines if isinstance(lines, str) else "\n".join(lines)))

    # ---- reading back

    def export(self) -> Iterator[str]:
        """Every entry as a line of JSON with its line end, in the order of posting, as ``coldtally export`` prints
        them.

        Yields
        ------
        str
            A line.

        Raises
        ------
        ClosedLedger, ForkedProcess, Busy, Damaged, Machine
            As every call.
        """
        for line in self._core.entries():
            yield line + "\n"

    def entries(self) -> Iterator[Fact]:
        """Every entry as an object of its kind, in the order of posting, as the ledger is now.

        Yields
        ------
        Fact
            An entry.

        Raises
        ------
        ClosedLedger, ForkedProcess, Busy, Damaged, Machine
            As every call.
        """
        for line in self._core.entries():
            yield entry_from_dict(json.loads(line))

    # ---- questions

    def _asked(self, at: Instant | None, known_on: Instant | None, now: datetime.datetime | None) -> Questions:
        return Questions(self._core, asked(at, known_on, now))

    def as_of(
        self, *, at: Instant | None = None, known_on: Instant | None = None, now: datetime.datetime | None = None
    ) -> AsOf:
        """The ledger as of one instant: every question is a method of what comes back, and all are answered of the same
        state of knowledge.

        Parameters
        ----------
        known_on : Instant, optional
            Only entries recorded up to then are seen; None, or an instant to come: all that there are now.

        Returns
        -------
        AsOf
            A view of the ledger, which must stay open.
        """
        return AsOf(self._core, at, known_on, now)

    def stock(
        self, *, at: Instant | None = None, known_on: Instant | None = None, now: datetime.datetime | None = None
    ) -> StockAnswer:
        """Short for :meth:`AsOf.stock` where one question is asked."""
        return self._asked(at, known_on, now).stock()

    def lists(
        self, *, at: Instant | None = None, known_on: Instant | None = None, now: datetime.datetime | None = None
    ) -> ListsAnswer:
        """Short for :meth:`AsOf.lists` where one question is asked."""
        return self._asked(at, known_on, now).lists()

    def scan(
        self,
        code: str,
        *,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> ScanAnswer:
        """Short for :meth:`AsOf.scan` where one question is asked."""
        return self._asked(at, known_on, now).scan(code)

    def review(
        self,
        *,
        all: bool = False,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> ReviewAnswer:
        """Short for :meth:`AsOf.review` where one question is asked."""
        return self._asked(at, known_on, now).review(all=all)

    def immunizations(
        self,
        *,
        patient: str | None = None,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> ImmunizationsAnswer:
        """Short for :meth:`AsOf.immunizations` where one question is asked."""
        return self._asked(at, known_on, now).immunizations(patient=patient)

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
    ) -> Explanation:
        """Short for :meth:`AsOf.explain` where one question is asked."""
        return self._asked(at, known_on, now).explain(place, product, lot, fund=fund, mark=mark)

    def stays(
        self,
        product: str,
        lot: str,
        *,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> StaysAnswer:
        """Short for :meth:`AsOf.stays` where one question is asked."""
        return self._asked(at, known_on, now).stays(product, lot)

    def dates(
        self, *, at: Instant | None = None, known_on: Instant | None = None, now: datetime.datetime | None = None
    ) -> DatesAnswer:
        """Short for :meth:`AsOf.dates` where one question is asked."""
        return self._asked(at, known_on, now).dates()

    def handover(
        self,
        entry: int,
        *,
        file: str | os.PathLike[str] | None = None,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> HandoverAnswer:
        """Short for :meth:`AsOf.handover` where one question is asked."""
        return self._asked(at, known_on, now).handover(entry, file=file)

    def loans(
        self,
        *,
        all: bool = False,
        patients: bool = False,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> LoansAnswer:
        """Short for :meth:`AsOf.loans` where one question is asked."""
        return self._asked(at, known_on, now).loans(all=all, patients=patients)

    def accountability(
        self,
        from_: WindowEnd,
        until: WindowEnd,
        *,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> AccountabilityAnswer:
        """Short for :meth:`AsOf.accountability` where one question is asked."""
        return self._asked(at, known_on, now).accountability(from_, until)

    def readings(
        self,
        probe: str,
        from_: WindowEnd,
        until: WindowEnd,
        *,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> ReadingsAnswer:
        """Short for :meth:`AsOf.readings` where one question is asked."""
        return self._asked(at, known_on, now).readings(probe, from_, until)

    def trace(
        self,
        place: str,
        from_: WindowEnd,
        until: WindowEnd,
        *,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> TraceAnswer:
        """Short for :meth:`AsOf.trace` where one question is asked."""
        return self._asked(at, known_on, now).trace(place, from_, until)

    def excursions(
        self,
        place: str,
        from_: WindowEnd,
        until: WindowEnd,
        *,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> ExcursionsAnswer:
        """Short for :meth:`AsOf.excursions` where one question is asked."""
        return self._asked(at, known_on, now).excursions(place, from_, until)

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
    ) -> ConditionsAnswer:
        """Short for :meth:`AsOf.conditions` where one question is asked."""
        return self._asked(at, known_on, now).conditions(place, from_, until, activation_K=activation_K)

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
        """Short for :meth:`AsOf.unit` where one question is asked."""
        return self._asked(at, known_on, now).unit(place, from_, until, activation_K=activation_K)

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
        """Short for :meth:`AsOf.rules` where one question is asked."""
        return self._asked(at, known_on, now).rules(place, from_, until)

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
        """Short for :meth:`AsOf.incident` where one question is asked."""
        return self._asked(at, known_on, now).incident(incident, maker=maker, patients=patients)

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
        """Short for :meth:`AsOf.incidents` where one question is asked."""
        return self._asked(at, known_on, now).incidents(place, from_, until, probe=probe)

    def move_list(
        self,
        place: str,
        container: str | None = None,
        *,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> MoveListAnswer:
        """Short for :meth:`AsOf.move_list` where one question is asked."""
        return self._asked(at, known_on, now).move_list(place, container)

    def trip(
        self,
        container: str,
        *,
        limit_s: int | None = None,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> TripAnswer:
        """Short for :meth:`AsOf.trip` where one question is asked."""
        return self._asked(at, known_on, now).trip(container, limit_s=limit_s)

    def plan(
        self, *, at: Instant | None = None, known_on: Instant | None = None, now: datetime.datetime | None = None
    ) -> PlanAnswer:
        """Short for :meth:`AsOf.plan` where one question is asked."""
        return self._asked(at, known_on, now).plan()

    def follow_up(
        self,
        lot: str | None = None,
        product: str | None = None,
        *,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> FollowUpAnswer:
        """Short for :meth:`AsOf.follow_up` where one question is asked."""
        return self._asked(at, known_on, now).follow_up(lot, product)

    def training(
        self, *, at: Instant | None = None, known_on: Instant | None = None, now: datetime.datetime | None = None
    ) -> TrainingAnswer:
        """Short for :meth:`AsOf.training` where one question is asked."""
        return self._asked(at, known_on, now).training()

    def today(
        self, *, at: Instant | None = None, known_on: Instant | None = None, now: datetime.datetime | None = None
    ) -> TodayAnswer:
        """Short for :meth:`AsOf.today` where one question is asked."""
        return self._asked(at, known_on, now).today()

    def readiness(
        self,
        from_: WindowEnd | None = None,
        *,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> ReadinessAnswer:
        """Short for :meth:`AsOf.readiness` where one question is asked."""
        return self._asked(at, known_on, now).readiness(from_)

    def entered(
        self,
        *,
        from_: WindowEnd | None = None,
        until: WindowEnd | None = None,
        place: str | None = None,
        product: str | None = None,
        lot: str | None = None,
        patient: str | None = None,
        kind: str | None = None,
        by: str | None = None,
        text: str | None = None,
        last: int | None = None,
        all: bool = False,
        patients: bool = False,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> EnteredAnswer:
        """Short for :meth:`AsOf.entered` where one question is asked."""
        return self._asked(at, known_on, now).entered(
            from_=from_,
            until=until,
            place=place,
            product=product,
            lot=lot,
            patient=patient,
            kind=kind,
            by=by,
            text=text,
            last=last,
            all=all,
            patients=patients,
        )

    def show(
        self,
        name: str | None = None,
        kind: str | None = None,
        *,
        at: Instant | None = None,
        known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> ShownAnswer:
        """Short for :meth:`AsOf.show` where one question is asked."""
        return self._asked(at, known_on, now).show(name, kind)

    def verify(self, *, against: str | None = None) -> Verification:
        """Recomputes the chain, every derived row and the balances from the entries, and says what does not agree.

        Parameters
        ----------
        against : str, optional
            The `to_note` of an earlier verification, from paper, which the chain must still have.

        Returns
        -------
        Verification
            What was found; no findings: the ledger is as it was posted.

        Raises
        ------
        Damaged
            The file cannot be read that far.
        BadValue
            `against` is no such link.
        """
        return Verification._of(self._core.verify(maybe_text("against", against)), self._core)

    def backup(self, copy: str | os.PathLike[str]) -> LedgerCopy:
        """Copies the ledger as it is at one instant into a new file, and verifies the copy.

        Parameters
        ----------
        copy : str | os.PathLike[str]
            The path of the copy.

        Returns
        -------
        LedgerCopy
            What was copied.

        Raises
        ------
        LedgerExists
            `copy` is there.
        Damaged
            What was copied does not verify.
        """
        return LedgerCopy._of(self._core.backup(text("copy", os.fspath(copy))), self._core)

    @staticmethod
    def restore(copy: str | os.PathLike[str], new: str | os.PathLike[str], *, wait_s: int = 10) -> LedgerCopy:
        """Makes a ledger from a copy that verifies, also from one of an older format: the same entries and the same
        chain.

        Parameters
        ----------
        copy : str | os.PathLike[str]
            The path of the copy.
        new : str | os.PathLike[str]
            The path of the new ledger.
        wait_s : int, default 10
            Seconds to wait for another process.

        Returns
        -------
        LedgerCopy
            What was copied.

        Raises
        ------
        LedgerExists, LedgerMissing, NotALedger, NewerFormat, OlderFormat, Damaged, Busy, Machine
            `new` is there, `copy` is not or is none, does not verify, or the machine failed.
        """
        made = _core.Ledger.restore(text("copy", os.fspath(copy)), text("new", os.fspath(new)), wait_s)
        return LedgerCopy._of(made, _core.Ledger(os.fspath(new), "read", wait_s))

    def zone(self, *, known_on: Instant | None = None) -> zoneinfo.ZoneInfo:
        """The site's time zone.

        Parameters
        ----------
        known_on : Instant, optional
            Only entries recorded up to then are seen; None: all.

        Returns
        -------
        zoneinfo.ZoneInfo
            The zone.

        Raises
        ------
        LedgerMissing
            Nothing has been posted yet; and what every question raises.
        """
        return zoneinfo.ZoneInfo(self._core.zone(maybe_instant("known_on", known_on), now_s(None)))

    def sheet_scale(self) -> Scale:
        """The scale in which the site keeps its sheets.

        Returns
        -------
        str
            "C" or "F".

        Raises
        ------
        LedgerMissing
            Nothing has been posted yet; and what every question raises.
        """
        return self._core.sheet_scale()


_OWN = {"now": "The instant of recording; None: the clock's.", "note": "Kept with the entry."}
_QUESTION = {
    "at": "The instant asked about, an aware datetime or text of the site's clock; None: now.",
    "known_on": "Only entries recorded up to then are seen; None: all.",
    "now": "What stands for the clock; None: the clock.",
}
_ASKS = frozenset(name for name in vars(Questions) if not name.startswith("_"))
complete_methods(Ledger, _QUESTION, RAISES, only={*_ASKS, "as_of"}, like=Questions)
complete_methods(Ledger, _OWN, {}, only=set(vars(Ledger)) - _ASKS - {"as_of", "close"})


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
