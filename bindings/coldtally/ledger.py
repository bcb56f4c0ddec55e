"""Ledger: one site's file; posts entries and answers questions."""
from __future__ import annotations

import datetime
import json
import os
import time
import zoneinfo
from collections.abc import Iterable, Iterator, Mapping, Sequence
from types import TracebackType
from typing import TYPE_CHECKING, Any, Union

from . import _core, answers, wire
from .entries import Entry, Fact, OtherEntry, entry_from_dict
from .errors import BadText, BadValue, Error, Machine, WrongType

if TYPE_CHECKING:
    import numpy
    import numpy.typing

__all__ = ["Instant", "Ledger", "Postable"]

Instant = Union[datetime.datetime, str]
"""An aware datetime of whole seconds, or text: RFC 3339, or the site's local time as ``YYYY-MM-DDTHH:MM:SS``."""
Postable = Union[Entry, OtherEntry, Mapping[str, Any]]
"""An entry to be posted: an object of its kind, or a mapping in the wire form, in which Decimal, datetime and date may stand."""


def _text(name: str, value: object) -> str:
    if not isinstance(value, str):
        raise WrongType(f"{name}: {value!r}: must be text")
    try:
        value.encode()
    except UnicodeEncodeError:
        raise BadText(f"{name}: {value!r}: not valid UTF-8, or a NUL") from None
    return value


def _maybe_text(name: str, value: object) -> str | None:
    return None if value is None else _text(name, value)


def _now(now: datetime.datetime | None) -> int:
    """Seconds since 1970 of the instant that stands for now."""
    if now is None:
        return int(time.time())
    return int(datetime.datetime.fromisoformat(wire.instant_text("now", now)[:-1] + "+00:00").timestamp())


def _line(entry: Postable) -> str:
    form = entry.to_dict() if isinstance(entry, (Entry, OtherEntry)) else entry
    if not isinstance(form, Mapping):
        raise WrongType(f"entry: {form!r}: must be an entry of coldtally.entries, or a mapping in the wire form")
    plain = {key: wire.to_wire(str(key), value) for key, value in form.items()}
    if isinstance(entry, Entry):  # one that was read from a ledger may be posted again
        plain.pop("entry", None)
        plain.pop("recorded", None)
    return json.dumps(plain)


class Ledger:
    """One ledger file: one site, every entry ever posted, never altered.

    ``with coldtally.Ledger(path) as ledger:`` closes it at the end. `mode`: ``"create"`` makes the file with the first post, which must
    begin with a site entry, and uses it if it is there; ``"write"`` needs it to be there; ``"read"`` asks questions only. `wait_s`:
    seconds to wait for another process, then Busy. Raises LedgerMissing, NotALedger, NewerFormat, Damaged, Busy or Machine.

    Questions take `at`, the instant asked about, and `known_on`: only entries recorded up to then are seen. Both are now where they are
    not given, and `now` stands for the clock.

    Threads: one object may be used from any thread; its calls run one at a time, without the GIL. For questions at the same time open
    one object a thread. Processes: any number may have one file open. After a fork the child must open its own; using the parent's
    raises ForkedProcess.
    """

    def __init__(self, path: str | os.PathLike[str], mode: str = "create", *, wait_s: int = 10) -> None:
        name = os.fspath(path)
        if not isinstance(name, str):
            raise WrongType(f"path: {path!r}: must be text or a pathlib.Path")
        self._path = name
        self._core = _core.Ledger(_text("path", name), _text("mode", mode), wait_s)

    @property
    def path(self) -> str:
        """The file, as it was given."""
        return self._path

    def __enter__(self) -> Ledger:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        self.close()

    def close(self) -> None:
        """Closes the file. Every later call raises ClosedLedger; answers stay."""
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

    def post(self, entries: Postable | Iterable[Postable], *, now: datetime.datetime | None = None, dry_run: bool = False) -> list[int]:
        """Posts one entry or several, all or nothing, and returns their numbers. When it returns they are on the disk. `dry_run`:
        checks everything and writes nothing. `now`: the instant of recording (None: the clock's)."""
        if isinstance(entries, (str, bytes)):
            raise WrongType("entries: text: must be entries or mappings; post_json takes JSON Lines")
        several = [entries] if isinstance(entries, (Entry, OtherEntry, Mapping)) else entries
        return self.post_json("\n".join(_line(entry) for entry in several), now=now, dry_run=dry_run)

    def post_json(self, lines: str, *, now: datetime.datetime | None = None, dry_run: bool = False) -> list[int]:
        """Posts the entries of a JSON Lines text, as ``coldtally post`` does."""
        return self._core.post(_text("lines", lines), _now(now), dry_run)

    def post_readings(
        self,
        probe: str,
        scale: str,
        at: numpy.typing.ArrayLike,
        temperatures: numpy.typing.ArrayLike,
        *,
        by: str,
        note: str | None = None,
        source: tuple[str, str] | None = None,
        now: datetime.datetime | None = None,
        dry_run: bool = False,
    ) -> list[int]:
        """Posts rows of a probe's memory from arrays, all or nothing, an entry for each 100,000.

        `at`: ``datetime64`` in UTC, of whole seconds, or aware datetimes. `temperatures`: as indicated, in `scale` ("C" or "F", the
        probe's), as integers, which are thousandths of a degree, or as text or Decimals, which are degrees. Floats are refused. `source`:
        name and SHA-256 of the file they came from. Raises what post raises; the message names the row, counted from 0.
        """
        import numpy

        instants = _instants(numpy, at)
        values = numpy.asarray(temperatures)
        if values.ndim != 1:
            raise WrongType(f"temperatures: an array of {values.ndim} dimensions: must have one")
        if values.dtype.kind in "iu":
            if values.dtype not in (numpy.dtype("int32"), numpy.dtype("int64")):
                if values.dtype == numpy.dtype("uint64") and values.size and values.max() > numpy.iinfo("int64").max:
                    raise BadValue("temperatures: no temperature is that far from 0")
                values = values.astype("int64")
        elif values.dtype.kind in "USO":
            texts = [wire.degrees_text(f"rows[{i}]", v) for i, v in enumerate(values.tolist())]
            values = _core.thousandths_of(texts, _text("scale", scale))
        else:
            what = "floats are not the numbers that were read" if values.dtype.kind == "f" else f"{values.dtype} is neither"
            raise WrongType(
                f"temperatures: {what}: must be integers (thousandths of a degree), or text or Decimals (degrees); "
                "where only floats are left, numpy.rint(degrees * 1000).astype('int32') says that you decide how they are rounded"
            )
        return self._core.post_rows(
            instants, values, _text("probe", probe), _text("scale", scale), _text("by", by), _maybe_text("note", note),
            None if source is None else (_text("source", source[0]), _text("source", source[1])), _now(now), dry_run,
        )

    def import_readings(
        self,
        probe: str,
        files: str | os.PathLike[str] | Sequence[str | os.PathLike[str] | tuple[str, bytes]],
        *,
        by: str,
        layout: Mapping[str, Any] | str | os.PathLike[str] | None = None,
        accept_guesses: bool = False,
        note: str | None = None,
        now: datetime.datetime | None = None,
        dry_run: bool = False,
    ) -> answers.ImportReport:
        """Reads the text files of a temperature logger as readings of `probe`, all files or none.

        `files`: paths, or (name, bytes). `layout`: a mapping as in a layout file, or the path of one; what it leaves open is guessed,
        and what could be otherwise is refused (Ambiguous) unless `accept_guesses`. Raises BadRow with the line that cannot be read.
        """
        if isinstance(files, (str, os.PathLike)):
            files = [files]
        contents = [(_text("files", f[0]), bytes(f[1])) if isinstance(f, tuple) else (os.path.basename(os.fspath(f)), _content(f)) for f in files]
        stated: str | None = None
        if isinstance(layout, Mapping):
            stated = json.dumps(layout)
        elif layout is not None:
            try:
                stated = _core.check_layout(_content(layout).decode())
            except Error as error:
                raise type(error)(f"{os.path.basename(os.fspath(layout))}: {error}") from None
        core = self._core.import_files(_text("probe", probe), _text("by", by), contents, stated, accept_guesses, _maybe_text("note", note), _now(now), dry_run)
        report: answers.ImportReport = answers.ImportReport._of(core, self._core)
        return report

    def replay(self, lines: str | Iterable[str]) -> list[int]:
        """Fills a new ledger from exported entries, JSON Lines that carry `entry` and `recorded`. LedgerExists where it is not new."""
        return self._core.replay(_text("lines", lines if isinstance(lines, str) else "\n".join(lines)))

    # ---- reading back

    def export(self) -> Iterator[str]:
        """Every entry as a line of JSON with its line end, in the order of posting, as ``coldtally export`` prints them."""
        for line in self._core.entries():
            yield line + "\n"

    def entries(self) -> Iterator[Fact]:
        """Every entry as an object of its kind, in the order of posting, as the ledger is now."""
        for line in self._core.entries():
            yield entry_from_dict(json.loads(line))

    def readings(
        self, probe: str, from_: Instant, until: Instant, *, at: Instant | None = None, known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> answers.ReadingsAnswer:
        """The readings of a probe in [from_, until), as indicated, as NumPy arrays. NotKnown where there is no such probe."""
        head, instants, thousandths = self._core.readings(_asked(at, known_on, now), _text("probe", probe), *_window(from_, until))
        form = json.loads(head)
        del form["rows"]
        out: answers.ReadingsAnswer = answers.ReadingsAnswer._with(form, {"instants": instants.view("M8[s]"), "thousandths": thousandths})
        return out

    def trace(
        self, place: str, from_: Instant, until: Instant, *, at: Instant | None = None, known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> answers.TraceAnswer:
        """What is known of a place's temperature in [from_, until): corrected readings as NumPy arrays, checks, and what stands for
        the time that is not logged. NotKnown where there is no such place."""
        head, *arrays = self._core.trace(_asked(at, known_on, now), _text("place", place), *_window(from_, until))
        form = json.loads(head)
        del form["readings"]
        named: dict[str, Any] = dict(zip(("instants", "thousandths", "fahrenheit", "tolerance", "joined"), arrays))
        named["instants"] = named["instants"].view("M8[s]")
        out: answers.TraceAnswer = answers.TraceAnswer._with(form, named)
        return out

    # ---- questions

    def stock(self, *, at: Instant | None = None, known_on: Instant | None = None, now: datetime.datetime | None = None) -> answers.StockAnswer:
        """Which doses are where, and the accounts."""
        out: answers.StockAnswer = answers.StockAnswer._of(self._core.stock(_asked(at, known_on, now)), self._core)
        return out

    def lists(self, *, at: Instant | None = None, known_on: Instant | None = None, now: datetime.datetime | None = None) -> answers.ListsAnswer:
        """All doses sorted into discard, quarantine-pending-guidance and keep, with reasons, notes and exact histories."""
        out: answers.ListsAnswer = answers.ListsAnswer._of(self._core.lists(_asked(at, known_on, now)), self._core)
        return out

    def review(
        self, *, all: bool = False, at: Instant | None = None, known_on: Instant | None = None, now: datetime.datetime | None = None
    ) -> answers.ReviewAnswer:
        """Doses given that may need review; `all`: also those that are clear. It never says to revaccinate: a clinician decides."""
        out: answers.ReviewAnswer = answers.ReviewAnswer._of(self._core.review(_asked(at, known_on, now), all), self._core)
        return out

    def excursions(
        self, place: str, from_: Instant, until: Instant, *, at: Instant | None = None, known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> answers.ExcursionsAnswer:
        """The excursions of a place in [from_, until) with the doses inside. NotKnown where there is no such place."""
        core = self._core.excursions(_asked(at, known_on, now), _text("place", place), *_window(from_, until))
        out: answers.ExcursionsAnswer = answers.ExcursionsAnswer._of(core, self._core)
        return out

    def conditions(
        self, place: str, from_: Instant, until: Instant, *, activation_K: int = 10000, at: Instant | None = None,
        known_on: Instant | None = None, now: datetime.datetime | None = None,
    ) -> answers.ConditionsAnswer:
        """Coverage, extremes, mean and mean kinetic temperature of a place in [from_, until). `activation_K`: activation energy over
        the gas constant, kelvin. NotKnown where there is no such place."""
        core = self._core.conditions(_asked(at, known_on, now), _text("place", place), *_window(from_, until), activation_K)
        out: answers.ConditionsAnswer = answers.ConditionsAnswer._of(core, self._core)
        return out

    def explain(
        self, place: str, product: str, lot: str, *, fund: str = "", mark: str = "", at: Instant | None = None,
        known_on: Instant | None = None, now: datetime.datetime | None = None,
    ) -> answers.Explanation:
        """Why a holding is on its list, in the order of time. NotKnown where there is no such holding."""
        names = [_text(n, v) for n, v in (("place", place), ("product", product), ("lot", lot), ("fund", fund), ("mark", mark))]
        out: answers.Explanation = answers.Explanation._of(self._core.explain(_asked(at, known_on, now), *names), self._core)
        return out

    def rules(
        self, place: str | None = None, from_: Instant | None = None, until: Instant | None = None, *, at: Instant | None = None,
        known_on: Instant | None = None, now: datetime.datetime | None = None,
    ) -> answers.RulesAnswer:
        """What the programme asks for, and which of its conditions were met in a place (None: in each) in [from_, until); not given:
        the 30 days before the instant asked about. NotKnown where there is no such place."""
        window = [None if t is None else _text(n, wire.instant_text(n, t)) for n, t in (("from", from_), ("until", until))]
        core = self._core.rules(_asked(at, known_on, now), _maybe_text("place", place), *window)
        out: answers.RulesAnswer = answers.RulesAnswer._of(core, self._core)
        return out

    def incident(
        self, incident: str, *, maker: str | None = None, at: Instant | None = None, known_on: Instant | None = None,
        now: datetime.datetime | None = None,
    ) -> answers.IncidentAnswer:
        """The whole of an incident for who must be told, or what concerns the products of one `maker`. NotKnown where there is none."""
        core = self._core.incident(_asked(at, known_on, now), _text("incident", incident), _maybe_text("maker", maker))
        out: answers.IncidentAnswer = answers.IncidentAnswer._of(core, self._core)
        return out

    def incidents(
        self, place: str | None = None, from_: Instant | None = None, until: Instant | None = None, *, probe: str | None = None,
        at: Instant | None = None, known_on: Instant | None = None, now: datetime.datetime | None = None,
    ) -> answers.IncidentsAnswer:
        """Which excursions in [from_, until) belong to which incident: of a place, of the places a probe was in then, or of all. Not
        given: from the beginning to the instant asked about."""
        window = [None if t is None else _text(n, wire.instant_text(n, t)) for n, t in (("from", from_), ("until", until))]
        core = self._core.incidents(_asked(at, known_on, now), _maybe_text("place", place), _maybe_text("probe", probe), *window)
        out: answers.IncidentsAnswer = answers.IncidentsAnswer._of(core, self._core)
        return out

    def stays(
        self, product: str, lot: str, *, at: Instant | None = None, known_on: Instant | None = None, now: datetime.datetime | None = None
    ) -> answers.StaysAnswer:
        """When the doses of a lot were where. NotKnown where there is no such lot."""
        core = self._core.stays(_asked(at, known_on, now), _text("product", product), _text("lot", lot))
        out: answers.StaysAnswer = answers.StaysAnswer._of(core, self._core)
        return out

    def verify(self) -> answers.Verification:
        """Recomputes the chain, every derived row and the balances from the entries, and says what does not agree."""
        out: answers.Verification = answers.Verification._of(self._core.verify(), self._core)
        return out

    def zone(self, *, known_on: Instant | None = None) -> zoneinfo.ZoneInfo:
        """The site's time zone."""
        return zoneinfo.ZoneInfo(self._core.zone(None if known_on is None else wire.instant_text("known_on", known_on)))

    def sheet_scale(self) -> str:
        """The scale in which the site keeps its sheets: "C" or "F"."""
        return self._core.sheet_scale()


def _asked(at: Instant | None, known_on: Instant | None, now: datetime.datetime | None) -> _core.Asked:
    return _core.Asked(
        None if at is None else _text("at", wire.instant_text("at", at)),
        None if known_on is None else _text("known_on", wire.instant_text("known_on", known_on)),
        _now(now),
    )


def _window(from_: Instant, until: Instant) -> tuple[str, str]:
    return _text("from", wire.instant_text("from", from_)), _text("until", wire.instant_text("until", until))


def _content(path: str | os.PathLike[str]) -> bytes:
    try:
        with open(path, "rb") as file:
            return file.read()
    except OSError as error:
        raise Machine(f"{os.fspath(path)}: cannot be read: {error.strerror}") from None


def _instants(numpy: Any, at: Any) -> Any:
    """Seconds since 1970 as int64, without a copy where `at` is datetime64[s] already."""
    values = numpy.asarray(at) if not (isinstance(at, (list, tuple)) and at and isinstance(at[0], datetime.datetime)) else None
    if values is None or values.dtype.kind == "O":
        texts = [wire.instant_text(f"rows[{i}]", v) for i, v in enumerate(at)]
        return numpy.array([t.rstrip("Z") for t in texts], dtype="M8[s]").view("int64")
    if values.ndim != 1:
        raise WrongType(f"at: an array of {values.ndim} dimensions: must have one")
    if values.dtype.kind != "M":
        raise WrongType(f"at: {values.dtype}: must be datetime64 in UTC, or aware datetimes; numbers and text are not taken for instants")
    seconds = values.astype("M8[s]", copy=False)
    if seconds is not values and not (seconds == values)[~numpy.isnat(values)].all():
        i = int(numpy.flatnonzero((seconds != values) & ~numpy.isnat(values))[0])
        raise BadValue(f"rows[{i}]: {values[i]}: must be a whole second")
    return seconds.view("int64")
