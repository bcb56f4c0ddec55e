"""Logger: how the text files of temperature loggers are laid out, and what became of their rows. Temperatures are
degrees. The page is lib/logger/README.md."""
from __future__ import annotations

import datetime
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from .answers import Printed, Rows
from .incidents import IncidentExcursion, IncidentsAnswer
from .answered import Answered, hints_of
from .remarks import Remark
from .stated import Stated
from .terms import Scale

__all__ = ["ExcursionsInShort", "ImportReport", "ImportedFile", "Layout", "LayoutClock", "LayoutColumns"]


@dataclass(frozen=True)
class LayoutColumns(Stated):
    """Which column holds what, from 1.

    Parameters
    ----------
    date, time : int | None
        Date and time, apart.
    instant : int | None
        Or both in one.
    temperature : int | None
        The temperature.
    scale : int | None
        Where each row says "C" or "F".
    """

    date: int | None = None
    time: int | None = None
    instant: int | None = None
    temperature: int | None = None
    scale: int | None = None


@dataclass(frozen=True, kw_only=True)
class LayoutClock(Stated):
    """From a line of the file on, the clock was another. One of the three is stated.

    Parameters
    ----------
    line : int
        The number of the line.
    zone : str | None
        In an IANA zone.
    offset : str | None
        At an offset from UTC: "-06:00", "-06:00:30".
    at : str | None
        Off by one length of time: the right time of the row in that line, "2026-03-02T08:30:00" of the site's zone or
        with an offset.
    """

    line: int
    zone: str | None = None
    offset: str | None = None
    at: str | None = None


@dataclass(frozen=True, kw_only=True)
class Layout(Stated):
    """How a logger writes its files. What is None is guessed from the file. Patterns are of %Y %y %m %d %b %H %I %M %S
    %p (and %z in `instant_pattern`).

    Parameters
    ----------
    delimiter : str | None
        What stands between columns, one character.
    decimal : Literal[".", ","] | None
        "." or ",".
    skip_lines : int | None
        How many lines stand before the rows.
    columns : LayoutColumns | None
        Which column holds what.
    date_pattern, time_pattern, instant_pattern : str | None
        How these are written.
    zone : str | None
        The IANA zone of its clock.
    offset : str | None
        Or its fixed offset from UTC, "-06:00"; neither: the site's zone.
    scale : Scale | None
        "C" or "F", of all rows.
    resolution : str | None
        "0.1", "0.01" or "0.001" degrees, to which readings are rounded, halves away from zero.
    clocks : tuple[LayoutClock, ...] | None
        Lines of the one file from which on its clock was another.
    no_reading : tuple[str, ...] | None
        Texts that mean that nothing was measured.
    ignore_rows : tuple[str, ...] | None
        Regular expressions of lines that are no rows.
    """

    delimiter: str | None = None
    decimal: Literal[".", ","] | None = None
    skip_lines: int | None = None
    columns: LayoutColumns | None = None
    date_pattern: str | None = None
    time_pattern: str | None = None
    instant_pattern: str | None = None
    zone: str | None = None
    offset: str | None = None
    scale: Scale | None = None
    resolution: str | None = None
    clocks: tuple[LayoutClock, ...] | None = None
    no_reading: tuple[str, ...] | None = None
    ignore_rows: tuple[str, ...] | None = None

    def stated(self) -> str:
        """What it states, as Python would say it.

        Returns
        -------
        str
            An expression.
        """

        def said(form: Stated) -> str:
            parts = ((name, getattr(form, name)) for name in hints_of(type(form)))
            words = ", ".join(f"{name}={text(value)}" for name, value in parts if value is not None)
            return f"{type(form).__name__}({words})"

        def text(value: object) -> str:
            if isinstance(value, Stated):
                return said(value)
            if isinstance(value, tuple):
                return f"({', '.join(text(v) for v in value)}{',' if len(value) == 1 else ''})"
            return repr(value)

        return said(self)


class ExcursionsInShort(Answered):
    """How many excursions, and two of them.

    Attributes
    ----------
    count : int
        How many.
    longest : IncidentExcursion | None
        The longest; None: there are none.
    latest : IncidentExcursion | None
        The latest; None: there are none.
    """

    count: int
    longest: IncidentExcursion | None
    latest: IncidentExcursion | None


class ImportedFile(Answered):
    """What became of one logger file's rows.

    Attributes
    ----------
    name : str
        The file's.
    sha256 : str
        The SHA-256 of its bytes in hexadecimal.
    known_already : bool
        The ledger has it.
    layout : Layout
        How it was read.
    guesses : tuple[str, ...]
        What was guessed of the layout.
    ambiguous : tuple[str, ...]
        Which of it could be otherwise.
    rows_read : int
        How many rows there are.
    rows_kept : int
        How many readings are new.
    rows_repeated : int
        How many the ledger had.
    rows_refused : int
        0: a file with a refused row is refused whole.
    rows_without_reading : int
        How many say that nothing was measured.
    rows_ignored : int
        How many the layout ignores.
    rows_rounded : int
        How many the layout's resolution changed.
    largest_change : Decimal | None
        By how many degrees at most; None: none was.
    remarks : tuple[str, ...]
        What was settled or is to be known.
    from_ : datetime.datetime | None
        The first instant; None: no rows.
    until : datetime.datetime | None
        The last instant; None: no rows.
    longest_step_s : int | None
        Seconds between two rows at most.
    entries : tuple[int, ...]
        The numbers of its entries.
    """

    name: str
    sha256: str
    known_already: bool
    layout: Layout
    guesses: tuple[str, ...]
    guesses_codes: tuple[Remark, ...]
    ambiguous: tuple[str, ...]
    ambiguous_codes: tuple[Remark, ...]
    rows_read: int
    rows_kept: int
    rows_repeated: int
    rows_refused: int
    rows_without_reading: int
    rows_ignored: int
    rows_rounded: int
    largest_change: Decimal | None
    remarks: tuple[str, ...]
    remarks_codes: tuple[Remark, ...]
    from_: datetime.datetime | None
    until: datetime.datetime | None
    longest_step_s: int | None
    entries: tuple[int, ...]


class ImportReport(Printed, Rows[ImportedFile]):
    """What an import did, file by file; with `dry_run` what it would do. A sequence of the files.

    Attributes
    ----------
    dry_run : bool
        Nothing was written.
    files : tuple[ImportedFile, ...]
        The files, in the order they were given.
    warnings : tuple[str, ...]
        What the readings loosen, and which devices disagree.
    found : IncidentsAnswer | None
        The excursions in what was read and the incidents they belong to, or that nobody has opened one; None where
        there are none, or with `dry_run`.
    found_in_short : ExcursionsInShort | None
        How many excursions, the longest and the latest.
    """

    _rows = "files"
    dry_run: bool
    files: tuple[ImportedFile, ...]
    warnings: tuple[str, ...]
    warnings_codes: tuple[Remark, ...]
    found: IncidentsAnswer | None
    found_in_short: ExcursionsInShort | None
    caution: str
