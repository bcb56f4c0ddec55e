"""Logger: how the text files of temperature loggers are laid out, and what became of their rows. Temperatures are
degrees. The page is lib/logger/README.md."""
from __future__ import annotations

import datetime
from dataclasses import dataclass
from decimal import Decimal

from .answers import Printed
from .fields import Form
from .incidents import IncidentExcursion, IncidentsAnswer
from .wire import Record, hints_of

__all__ = ["ExcursionsInShort", "ImportReport", "ImportedFile", "Layout", "LayoutClock", "LayoutColumns"]


@dataclass(frozen=True)
class LayoutColumns(Form):
    """Which column holds what, from 1: date and time, or instant; temperature; scale, where each row says "C" or
    "F"."""

    date: int | None = None
    time: int | None = None
    instant: int | None = None
    temperature: int | None = None
    scale: int | None = None


@dataclass(frozen=True, kw_only=True)
class LayoutClock(Form):
    """From `line` of the file on, the clock was another: in a `zone`, at an `offset` ("-06:00", "-06:00:30"), or off by
    one length of time: `at` is then the right time of the row in that line, "2026-03-02T08:30:00" of the site's zone or
    with an offset. One of the three is stated."""

    line: int
    zone: str | None = None
    offset: str | None = None
    at: str | None = None


@dataclass(frozen=True, kw_only=True)
class Layout(Form):
    """How a logger writes its files. What is None is guessed from the file. Patterns are of %Y %y %m %d %b %H %I %M %S
    %p (and %z in `instant_pattern`). `zone` is the IANA zone of its clock, or `offset` the fixed one from UTC,
    "-06:00"; None: the site's zone. `resolution`: "0.1", "0.01" or "0.001" degrees, to which readings are rounded,
    halves away from zero. `clocks`: lines of the one file from which on its clock was another. `no_reading`: texts that
    mean that nothing was measured; `ignore_rows`: regular expressions of lines that are no rows."""

    delimiter: str | None = None
    decimal: str | None = None
    skip_lines: int | None = None
    columns: LayoutColumns | None = None
    date_pattern: str | None = None
    time_pattern: str | None = None
    instant_pattern: str | None = None
    zone: str | None = None
    offset: str | None = None
    scale: str | None = None
    resolution: str | None = None
    clocks: tuple[LayoutClock, ...] | None = None
    no_reading: tuple[str, ...] | None = None
    ignore_rows: tuple[str, ...] | None = None

    def stated(self) -> str:
        """What it states, as Python would say it. Raises nothing."""

        def said(form: Form) -> str:
            parts = ((name, getattr(form, name)) for name in hints_of(type(form)))
            words = ", ".join(f"{name}={text(value)}" for name, value in parts if value is not None)
            return f"{type(form).__name__}({words})"

        def text(value: object) -> str:
            if isinstance(value, Form):
                return said(value)
            if isinstance(value, tuple):
                return f"({', '.join(text(v) for v in value)}{',' if len(value) == 1 else ''})"
            return repr(value)

        return said(self)


class ExcursionsInShort(Record):
    """How many excursions, the longest and the latest of them."""

    count: int
    longest: IncidentExcursion | None
    latest: IncidentExcursion | None


class ImportedFile(Record):
    """What became of one logger file's rows. `longest_step_s`: seconds. `rows_rounded`: readings that the layout's
    resolution changed, by `largest_change` degrees at most. `rows_refused` is 0: a file with a refused row is refused
    whole. `guesses`: what was guessed of the layout; `ambiguous`: which of it could be otherwise."""

    name: str
    sha256: str
    known_already: bool
    layout: Layout
    guesses: tuple[str, ...]
    ambiguous: tuple[str, ...]
    rows_read: int
    rows_kept: int
    rows_repeated: int
    rows_refused: int
    rows_without_reading: int
    rows_ignored: int
    rows_rounded: int
    largest_change: Decimal | None
    remarks: tuple[str, ...]
    from_: datetime.datetime | None
    until: datetime.datetime | None
    longest_step_s: int | None
    entries: tuple[int, ...]


class ImportReport(Printed):
    """What an import did, file by file; with `dry_run` what it would do. `found`: the excursions in what was read and
    the incidents they belong to, or that nobody has opened one; None where there are none, or with `dry_run`.
    `found_in_short`: how many, the longest and the latest. `warnings`: what the readings loosen, and which devices
    disagree."""

    _rows = "files"
    dry_run: bool
    files: tuple[ImportedFile, ...]
    warnings: tuple[str, ...]
    found: IncidentsAnswer | None
    found_in_short: ExcursionsInShort | None
    caution: str
