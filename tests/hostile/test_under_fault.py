"""The check of rounds under fault finds what was lost, what is there twice and a record that was changed."""

from __future__ import annotations

import datetime as dt
import json
import sys
from pathlib import Path

import pytest
import sqlalchemy as sa

from pavewright.store import Batch, open_file
from pavewright.store._tables import PHOTOS, RECORD_ENTRIES

sys.path.insert(0, str(Path(__file__).parents[2] / "tools"))
import chaos


@pytest.fixture
def kept(tmp_path):
    """A store with one operation and one photo that were acknowledged."""
    store = open_file(tmp_path / "jobs.sqlite")
    job = store.add(json.dumps(chaos.DOCUMENT)).id
    before = store.records.content(job)
    store.operations.take(job, Batch("w0-1", 1, "", (), "w0-1"))
    store.add_photo("w0-2", job, b"image", "w0-2", None)
    yield store, job, before
    store.close()


def looked(store, job, before):
    reported = chaos.Reported(acknowledged={"w0-1", "w0-2"})
    chaos.look(store, job, before, reported)
    return reported


def test_the_check_finds_nothing_wrong_in_a_whole_store(kept):
    assert looked(*kept).faults == []


def test_the_check_finds_a_row_that_was_lost(kept):
    with kept[0].writing() as connection:
        connection.execute(PHOTOS.delete())
    reported = looked(*kept)
    assert (reported.lost, reported.faults) == (1, ["w0-2 was acknowledged and is not there"])


def test_the_check_finds_what_is_there_twice(kept):
    store, job, _ = kept
    store.operations.take(job, Batch("another", 2, "", (), "w0-1"))
    reported = looked(*kept)
    assert (reported.doubled, reported.faults) == (1, ["w0-1 is there 2 times"])


def test_the_check_finds_an_entry_of_the_record_that_was_taken_out(kept):
    with kept[0].writing() as connection:
        for name in (
            connection.execute(
                sa.text("SELECT name FROM sqlite_master WHERE type = 'trigger' AND tbl_name = 'record_entry'")
            )
            .scalars()
            .all()
        ):
            connection.execute(sa.text(f"DROP TRIGGER {name}"))
        connection.execute(RECORD_ENTRIES.delete().where(RECORD_ENTRIES.c.number == 2))
    assert any("record" in each for each in looked(*kept).faults)


@pytest.fixture(scope="module")
def rounds(tmp_path_factory):
    """A server of its own over a file, and what breaks it."""
    opened = chaos.Rounds(tmp_path_factory.mktemp("faults"))
    yield opened
    opened.close()


@pytest.mark.slow
@pytest.mark.parametrize("kind", ["clock", "network", "disk"])
def test_nothing_that_was_acknowledged_is_lost_while_something_breaks(rounds, kind):
    reported = rounds.round(kind, 1)
    assert reported.faults == []
    assert len(reported.acknowledged) == chaos.PEOPLE * chaos.EACH


def test_a_server_under_test_goes_by_a_clock_that_can_be_set(rounds):
    before = open_file(rounds.file)
    rounds.running.set_clock(86_400)
    made = chaos.called(rounds.proxy.address, "POST", "/api/jobs", {"document": chaos.DOCUMENT, "key": "ahead"})
    rounds.running.set_clock(0)
    (first,) = before.revisions(made[1]["id"])
    before.close()
    assert dt.datetime.fromisoformat(first.at) > dt.datetime.now(dt.UTC) + dt.timedelta(hours=12)


def test_what_one_person_sent_in_an_order_is_looked_for_in_that_order(kept):
    store, job, _ = kept
    store.operations.take(job, Batch("w0-4", 2, "", (), "w0-4"))
    assert chaos.disordered(store, job) == []
    store.operations.take(job, Batch("w0-2", 3, "", (), "w0-2"))
    assert chaos.disordered(store, job) == [["w0-1", "w0-4", "w0-2"]]
