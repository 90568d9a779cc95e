"""Where the disk takes nothing more, a save is refused in words, nothing is half kept, and it goes on when there is room."""

from __future__ import annotations

import json
import sqlite3
import subprocess
import sys
from contextlib import closing

import pytest
import sqlalchemy as sa

from pavewright.store import StoreTroubleError, Trouble, open_file
from pavewright.store import _open as opening


def document(number):
    return json.dumps({"n": number, "filler": "x" * 60_000})


def until_full(store, job):
    """Save until it is refused and return the last acknowledged revision and the trouble."""
    rev = store.job(job).rev
    while True:
        try:
            rev = store.save(job, rev, document(rev + 1), key=f"k{rev + 1}")
        except StoreTroubleError as problem:
            return rev, problem


def holds_what_was_acknowledged(store, job, rev):
    assert store.job(job).rev == rev
    assert json.loads(store.job(job).document)["n"] == rev
    assert [one.rev for one in store.revisions(job)] == list(range(rev, 0, -1))
    assert all(json.loads(store.revision(job, one).document)["n"] == one for one in (1, rev))


def test_rounds_on_a_full_disk_lose_no_acknowledged_save(small_disk):
    filler = small_disk / "filler"
    filler.write_bytes(b"x" * 1_000_000)
    store = open_file(small_disk / "jobs.sqlite")
    job = store.add(document(1)).id
    for size in (700_000, 350_000, 0):
        rev, problem = until_full(store, job)
        assert problem.trouble is Trouble.FULL
        assert "free some space" in problem.message
        holds_what_was_acknowledged(store, job, rev)
        with pytest.raises(StoreTroubleError):
            store.add_photo("p", job, b"x" * 1_900_000, "", None)
        assert store.photos(job) == ()
        filler.write_bytes(b"x" * size)  # somebody makes room
        assert store.save(job, rev, document(rev + 1), key=f"k{rev + 1}") == rev + 1
    store.close()
    with closing(sqlite3.connect(small_disk / "jobs.sqlite")) as raw:
        assert raw.execute("PRAGMA integrity_check").fetchone() == ("ok",)


LIMITED = """
import json, resource, sys
from pathlib import Path
from pavewright.store import StoreTroubleError, open_file
store = open_file(Path(sys.argv[1]))
job = store.add(json.dumps({"n": 1})).id
resource.setrlimit(resource.RLIMIT_FSIZE, (900_000, 900_000))
rev = 1
try:
    while True:
        rev = store.save(job, rev, json.dumps({"n": rev + 1, "filler": "x" * 60_000}))
except StoreTroubleError as problem:
    print(rev, store.job(job).rev, problem.trouble.value)
"""


def test_a_file_that_may_not_grow_is_a_full_disk(tmp_path):
    words = [sys.executable, "-c", LIMITED, tmp_path / "jobs.sqlite"]
    done = subprocess.run(words, capture_output=True, text=True, check=True)
    rev, kept, trouble = done.stdout.split()
    assert (rev, trouble) == (kept, "full")
    assert int(rev) > 1
    store = open_file(tmp_path / "jobs.sqlite")
    assert store.jobs()[0].rev == int(rev)
    store.close()


def test_a_database_that_may_hold_no_more_pages_is_a_full_disk(tmp_path):
    store = open_file(tmp_path / "jobs.sqlite")
    job = store.add(document(1)).id
    sa.event.listen(store._engine, "begin", lambda connection: connection.exec_driver_sql("PRAGMA max_page_count=60"))
    rev, problem = until_full(store, job)
    assert problem.trouble is Trouble.FULL
    holds_what_was_acknowledged(store, job, rev)
    store.close()


def test_a_save_that_waits_too_long_for_another_program_says_so(tmp_path, monkeypatch):
    monkeypatch.setattr(opening, "BUSY_MS", 50)
    store = open_file(tmp_path / "jobs.sqlite")
    job = store.add(document(1)).id
    with closing(sqlite3.connect(tmp_path / "jobs.sqlite", isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(StoreTroubleError) as reported:
            store.save(job, 1, document(2), key="k")
        assert reported.value.trouble is Trouble.LOCKED
        assert store.job(job).rev == 1
        other.execute("ROLLBACK")
    assert store.save(job, 1, document(2), key="k") == 2
    store.close()
