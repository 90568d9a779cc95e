"""Operations in a store: what was done in revisions of any age is known, and a batch is kept whole or not at all."""

from __future__ import annotations

import json

import pytest
import sqlalchemy as sa
from sqlalchemy import event

from pavewright.job.operations import checked_operations
from pavewright.store import Batch, DocumentRefusedError, open_file
from pavewright.store._tables import OPERATIONS

JOB = {"identity": {"client": ""}, "site": {"walls": [{"name": "W", "dpc_level_mm": 1.0}]}, "areas": [{"name": "P"}]}


def batch(key, rev, *operations, sender="s"):
    return Batch(key, rev, sender, operations, "note")


def level(name, was, to):
    return {"op": "set", "at": ["site", "walls", {"name": name}, "dpc_level_mm"], "was": was, "to": to}


def renamed(document):
    after = json.loads(json.dumps(document))
    after["site"]["walls"][0]["name"] = "North"
    return json.dumps(after)


def test_a_rename_is_followed_whether_it_came_as_a_document_or_before_there_were_operations(store):
    job = store.add(json.dumps(JOB)).id
    store.save(job, 1, renamed(JOB))
    for forget in (False, True):
        if forget:
            with store._engine.execution_options(write=True).begin() as connection:
                connection.execute(OPERATIONS.delete().where(OPERATIONS.c.rev == 2))
        rev = store.job(job).rev
        was = json.loads(store.job(job).document)["site"]["walls"][0]["dpc_level_mm"]
        done = store.operations.take(job, batch(f"k{rev}", 1, level("W", was, float(rev))))
        wall = json.loads(done.document)["site"]["walls"][0]
        assert wall == {"name": "North", "dpc_level_mm": float(rev)}
    assert store.operations.clashes(job) == ()


def test_a_store_of_the_first_version_takes_operations(version_1):
    store = open_file(version_1)
    job = "a" * 16
    sent = {"op": "set", "at": ["identity", "client"], "to": "A"}
    assert store.operations.take(job, batch("k", 1, sent)).rev == 3
    assert json.loads(store.job(job).document) == {"identity": {"client": "A"}}
    assert store.operations.take(job, batch("k2", 1, sent | {"to": "B"})).rev == 4
    (clash,) = store.operations.clashes(job)
    assert (clash.body["ours"], clash.body["theirs"], clash.body["ours_from"]["rev"]) == ("A", "B", 3)
    store.close()
    again = open_file(version_1)
    assert again.operations.clashes(job) == (clash,)
    again.close()


def test_a_batch_that_fails_in_its_midst_leaves_nothing_and_its_key_free(store):
    job = store.add(json.dumps(JOB)).id
    store.operations.take(job, batch("k1", 1, level("W", 1.0, 2.0)))
    left = {"statements": 0}

    def fail(*_):
        left["statements"] -= 1
        if left["statements"] == 0:
            raise RuntimeError

    event.listen(store._engine, "before_cursor_execute", fail)
    for statements in range(1, 8):
        left["statements"] = statements
        with pytest.raises(RuntimeError):
            store.operations.take(job, batch("k2", 1, level("W", 1.0, 3.0), sender="t"))
        left["statements"] = 0
        assert store.job(job).rev == 2
        assert store.operations.clashes(job) == ()
    assert store.operations.take(job, batch("k2", 1, level("W", 1.0, 3.0), sender="t")).rev == 3
    assert len(store.operations.clashes(job)) == 1


def test_a_job_that_would_grow_beyond_any_is_refused_and_stays(store):
    job = store.add(json.dumps(JOB)).id
    long = {"op": "set", "at": ["identity", "client"], "was": "", "to": "x" * 5_000_000}
    with pytest.raises(DocumentRefusedError, match="longer than any job"):
        store.operations.take(job, batch("k", 1, long))
    assert store.job(job).rev == 1


def test_a_job_that_cannot_be_read_takes_no_operations(store):
    job = store.add(json.dumps(JOB)).id
    with store._engine.execution_options(write=True).begin() as connection:
        connection.execute(sa.text("UPDATE job SET document = '{'"))
    with pytest.raises(DocumentRefusedError, match="go back to a revision"):
        store.operations.take(job, batch("k", 1, level("W", 1.0, 2.0)))


def test_a_job_that_is_removed_for_good_takes_its_operations_along(store):
    job = store.add(json.dumps(JOB)).id
    store.operations.take(job, batch("k1", 1, level("W", 1.0, 2.0)))
    store.operations.take(job, batch("k2", 1, level("W", 1.0, 3.0), sender="t"))
    store.deleted.put(job)
    store.deleted.remove(job)
    assert store.operations.clashes(job) == ()


def test_what_one_sender_called_by_a_name_of_his_own_is_found_though_another_took_it_first(store):
    """Both add a wall of one name; each goes on to speak of his own by that name, without an answer in between."""
    job = store.add(json.dumps(JOB)).id

    def wall(start):
        return {"op": "add", "at": ["site", "walls"], "item": {"name": "New", "start": start}}

    def door(name):
        return {"op": "set", "at": ["site", "walls", {"name": "New"}, "openings"], "to": [{"name": name}]}

    for key, one in (("a1", wall("A")), ("b1", wall("B")), ("a2", door("of A")), ("b2", door("of B"))):
        store.operations.take(job, batch(key, 1, one, sender=key[0]))
    walls = {each["start"]: each for each in json.loads(store.job(job).document)["site"]["walls"][1:]}
    assert {start: each["openings"][0]["name"] for start, each in walls.items()} == {"A": "of A", "B": "of B"}
    assert store.operations.clashes(job) == ()


def test_what_was_renamed_since_is_not_deleted_unseen_and_what_names_it_is_found_under_either_name(store):
    document = json.loads(json.dumps(JOB))
    document["areas"][0]["fall"] = {"away_from": "W"}
    document["areas"].append({"name": "Q", "fall": {"away_from": "W"}})
    job = store.add(json.dumps(document)).id
    after = json.loads(renamed(document))
    after["areas"][0]["fall"]["away_from"] = "North"  # the other area names the wall as it was
    store.save(job, 1, json.dumps(after))
    wall = document["site"]["walls"][0]
    gone = [
        {"op": "set", "at": ["areas", {"name": name}, "fall", "away_from"], "was": "W", "to": None} for name in "PQ"
    ]
    store.operations.take(job, batch("k1", 1, *gone))
    assert [each["fall"]["away_from"] for each in json.loads(store.job(job).document)["areas"]] == [None, None]
    assert store.operations.clashes(job) == ()
    store.operations.take(job, batch("k2", 1, {"op": "remove", "at": ["site", "walls"], "item": wall}))
    (clash,) = store.operations.clashes(job)
    assert (clash.body["kind"], clash.body["ours"]["name"]) == ("changed", "North")
    store.operations.settle(job, clash.id, theirs=True, deliver=lambda text, _: text)
    assert json.loads(store.job(job).document)["site"]["walls"] == []
    # what a page has followed itself is taken as it sends it
    checked_operations([{"op": "remove", "at": ["site", "walls"], "item": wall, "known_as": {"name": "North"}}])
    checked_operations([gone[0] | {"was_now": "North"}])
