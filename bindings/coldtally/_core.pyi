# The compiled module. What the package hands out stands in its other files; this says what they may call.
from typing import Sequence

import numpy
import numpy.typing

from .terms import IncidentStepName, Mode, Reader, Scale, TripReason, Unsuited, Verdict

__version__: str
caution: str
review_caution: str

_Instants = numpy.typing.NDArray[numpy.int64]
_Thousandths = numpy.typing.NDArray[numpy.int32]
_Truths = numpy.typing.NDArray[numpy.bool_]

def code_names() -> list[str]: ...
def machine_failures() -> list[str]: ...
def entry_kinds() -> list[str]: ...
def check_degrees(text: str) -> None: ...
def check_layout(json: str) -> str: ...

class Asked:
    def __init__(self, at: str | None, known_on: str | None, now: int) -> None: ...

class Answer:
    def json(self) -> str: ...
    def last_entry(self) -> int | None: ...

class Ledger:
    def __init__(self, path: str, mode: Mode, wait_s: int) -> None: ...
    def close(self) -> None: ...
    def closed(self) -> bool: ...
    def post(self, lines: str, now: int, dry_run: bool) -> tuple[list[int], list[str]]: ...
    def post_rows(
        self,
        at: _Instants,
        zone: str | None,
        values: numpy.typing.NDArray[numpy.generic] | Sequence[str],
        degrees: bool,
        resolution: str | None,
        probe: str,
        scale: Scale,
        by: str,
        note: str | None,
        source: tuple[str, str] | None,
        now: int,
        dry_run: bool,
    ) -> tuple[list[int], int, int, int, int, int, str, list[str], list[str]]: ...
    def replay(self, lines: str) -> list[int]: ...
    def entries(self) -> list[str]: ...
    def import_files(
        self,
        probe: str,
        by: str,
        files: Sequence[tuple[str, bytes | str]],
        layout: str | None,
        accept_guesses: bool,
        loosen: bool,
        note: str | None,
        now: int,
        dry_run: bool,
    ) -> Answer: ...
    def table(
        self, answer: Answer, columns: int, color: bool, zone: str | None, scale: Scale | None, why: bool
    ) -> str: ...
    def zone(self, known_on: str | None, now: int) -> str: ...
    def sheet_scale(self) -> Scale: ...
    def verify(self, against: str | None) -> Answer: ...
    def backup(self, copy: str) -> Answer: ...
    @staticmethod
    def restore(copy: str, ledger: str, wait_s: int) -> Answer: ...
    def head(self, asked: Asked) -> tuple[int, int, int]: ...
    def stock(self, asked: Asked) -> Answer: ...
    def lists(self, asked: Asked) -> Answer: ...
    def scan(self, asked: Asked, code: str) -> Answer: ...
    def review(self, asked: Asked, all: bool) -> Answer: ...
    def immunizations(self, asked: Asked, patient: str | None) -> Answer: ...
    def stays(self, asked: Asked, product: str, lot: str) -> Answer: ...
    def explain(self, asked: Asked, place: str, product: str, lot: str, fund: str, mark: str) -> Answer: ...
    def excursions(self, asked: Asked, place: str, from_: str, until: str) -> Answer: ...
    def conditions(self, asked: Asked, place: str, from_: str, until: str, activation_K: int) -> Answer: ...
    def rules(self, asked: Asked, place: str | None, from_: str | None, until: str | None) -> Answer: ...
    def incident(self, asked: Asked, incident: str, maker: str | None, patients: bool) -> Answer: ...
    def incidents(
        self, asked: Asked, place: str | None, probe: str | None, from_: str | None, until: str | None
    ) -> Answer: ...
    def readings(self, asked: Asked, probe: str, from_: str, until: str) -> tuple[str, _Instants, _Thousandths]: ...
    def trace(
        self, asked: Asked, place: str, from_: str, until: str
    ) -> tuple[str, _Instants, _Thousandths, _Truths, _Thousandths, _Truths]: ...
    def dates(self, asked: Asked) -> Answer: ...
    def loans(self, asked: Asked, all: bool, patients: bool) -> Answer: ...
    def accountability(self, asked: Asked, from_: str, until: str) -> Answer: ...
    def move_list(self, asked: Asked, place: str, container: str | None) -> Answer: ...
    def trip(self, asked: Asked, container: str, limit_s: int | None) -> Answer: ...
    def handover(self, asked: Asked, entry: int, file: str | None) -> Answer: ...
    def post_transfer(self, fields: str, file: str | None, yes: bool, now: int, dry_run: bool) -> Answer: ...
    def post_draft(self, fields: str, yes: bool, now: int, dry_run: bool) -> Answer: ...
    def post_definition(self, fields: str, yes: bool, now: int, dry_run: bool) -> Answer: ...
    def post_with_changes(self, fields: str, now: int, dry_run: bool) -> Answer: ...
    def changes(self, drafts: Sequence[str], now: int) -> Answer: ...
    def start(
        self, file: str | bytes, name: str, by: str, at: str | None, yes: bool, now: int, dry_run: bool
    ) -> Answer: ...
    @staticmethod
    def template(what: str) -> str: ...
    def pack(
        self,
        place: str,
        container: str,
        destination: str,
        by: str,
        at: str | None,
        lots: Sequence[str],
        reason: TripReason,
        unsuited: Unsuited | None,
        temperature: str | None,
        container_temperature: str | None,
        packed_by: str | None,
        approval: str | None,
        coolant: str | None,
        conditioning: str | None,
        note: str | None,
        yes: bool,
        now: int,
        dry_run: bool,
    ) -> Answer: ...
    def unpack(
        self,
        container: str,
        place: str,
        by: str,
        at: str | None,
        counts: Sequence[tuple[str, int]],
        as_listed: bool,
        mark: str | None,
        temperature: str | None,
        container_temperature: str | None,
        received_by: str | None,
        note: str | None,
        yes: bool,
        now: int,
        dry_run: bool,
    ) -> Answer: ...
    def give_records(
        self,
        records: str,
        by: str,
        place: str | None,
        product: str | None,
        fund: str | None,
        mark: str | None,
        certain: bool,
        note: str | None,
        yes: bool,
        now: int,
        dry_run: bool,
    ) -> Answer: ...
    def step(
        self,
        incident: str | None,
        what: IncidentStepName,
        text: str,
        by: str,
        place: str | None,
        at: str | None,
        no_hold: str | None,
        release: bool,
        despite: str | None,
        told: list[int],
        since: str | None,
        note: str | None,
        now: int,
        dry_run: bool,
    ) -> Answer: ...
    def report(
        self,
        incident: str,
        to: Reader,
        recipient: str,
        by: str,
        reference: str | None,
        text: str | None,
        uncounted: bool,
        at: str | None,
        now: int,
        dry_run: bool,
    ) -> Answer: ...
    def answer(
        self,
        report: int,
        product: str,
        lot: str,
        verdict: Verdict,
        issuer: str,
        reference: str,
        by: str,
        use_by: str | None,
        place: str | None,
        mark: str | None,
        since: str | None,
        at: str | None,
        despite: str | None,
        wanted: bool,
        now: int,
    ) -> Answer: ...
    def plan(self, asked: Asked) -> Answer: ...
    def follow_up(self, asked: Asked, lot: str | None, product: str | None) -> Answer: ...
    def training(self, asked: Asked) -> Answer: ...
    def entered(
        self,
        asked: Asked,
        from_: str | None,
        until: str | None,
        place: str | None,
        product: str | None,
        lot: str | None,
        patient: str | None,
        kind: str | None,
        by: str | None,
        text: str | None,
        most: int,
        patients: bool,
    ) -> Answer: ...
    def show(self, asked: Asked, name: str | None, kind: str | None) -> Answer: ...
    def unit(self, asked: Asked, place: str, from_: str | None, until: str | None, activation_K: int) -> Answer: ...
    def today(self, asked: Asked) -> Answer: ...
    def readiness(self, asked: Asked, from_: str | None) -> Answer: ...
