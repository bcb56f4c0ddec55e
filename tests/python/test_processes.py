"""Threads, forks, closing: as the docstring of Ledger says."""
import gc
import os
import pickle
import threading
import time
from concurrent.futures import ThreadPoolExecutor

import pytest
from conftest import AT

import coldtally


def test_the_context_closes(demo):
    with coldtally.Ledger(demo, mode="read") as ledger:
        assert not ledger.closed
    assert ledger.closed
    ledger.close()
    with pytest.raises(coldtally.ClosedLedger):
        ledger.lists()
    assert issubclass(coldtally.ClosedLedger, ValueError)


def test_an_answer_keeps_its_ledger(demo):
    lists = coldtally.Ledger(demo, mode="read").lists(at=AT)
    gc.collect()
    assert "Heron Flats" in lists.to_table() and len(lists.holdings) == 13


def test_arrays_outlive_the_ledger(demo):
    with coldtally.Ledger(demo, mode="read") as ledger:
        out = ledger.readings("ml-101", "2026-02-10T00:00:00", "2026-02-11T00:00:00", at=AT)
    del ledger
    gc.collect()
    out.thousandths[0] += 1
    assert len(out.instants) == 288


def test_one_ledger_from_many_threads(demo):
    with coldtally.Ledger(demo, mode="read") as ledger, ThreadPoolExecutor(8) as pool:
        ask = (
            lambda i: ledger.lists(at=AT, known_on="2199-01-01T00:00:00Z").to_json()
            if i % 2
            else ledger.review(at=AT, known_on="2199-01-01T00:00:00Z").to_json()
        )
        assert len(set(pool.map(ask, range(32)))) == 2


def test_the_gil_is_free_while_the_core_works(small):
    """A thread that counts goes on counting while another process keeps a writer waiting."""
    import sqlite3

    lock = sqlite3.connect(small, isolation_level=None)
    lock.execute("BEGIN EXCLUSIVE")
    counted = 0
    failure = []

    def post():
        try:
            with coldtally.Ledger(small, wait_s=1) as ledger:
                ledger.post({"kind": "probe", "by": "ab", "probe": "p2", "scale": "C"})
        except coldtally.Error as error:
            failure.append(error)

    thread = threading.Thread(target=post)
    thread.start()
    while thread.is_alive():
        counted += 1
        time.sleep(0.001)
    lock.close()
    assert isinstance(failure[0], coldtally.Busy) and isinstance(failure[0], TimeoutError) and failure[0].machine_failed
    assert counted > 100


def test_a_forked_process_is_refused(demo):
    with coldtally.Ledger(demo, mode="read") as ledger:
        before = ledger.lists(at=AT, known_on="2199-01-01T00:00:00Z")
        child = os.fork()
        if child == 0:
            code = 1
            try:
                ledger.lists(at=AT)
            except coldtally.ForkedProcess as error:
                code = 0 if "open it again" in str(error) and isinstance(error, RuntimeError) else 2
            try:
                with coldtally.Ledger(demo, mode="read") as own:
                    code += 0 if own.lists(at=AT, known_on="2199-01-01T00:00:00Z").to_json() == before.to_json() else 4
                ledger = None  # what it shares with its parent is left alone
                gc.collect()
            finally:
                os._exit(code)
        assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0
        assert ledger.lists(at=AT, known_on="2199-01-01T00:00:00Z") == before


def test_a_ledger_is_not_pickled(demo):
    with coldtally.Ledger(demo, mode="read") as ledger:
        with pytest.raises(TypeError, match="pass its path"):
            pickle.dumps(ledger)
