from __future__ import annotations

import json
import subprocess
import sys
import threading

import pytest
import sqlalchemy as sa

from pavewright.store import NotDeletedError, StaleRevision, UnknownJob
from pavewright.store._all_tables import METADATA


def document(title="Terrace", client="A. Person"):
    return json.dumps({"identity": {"title": title, "client": client}})


def test_a_job_is_kept_letter_for_letter_with_every_revision(store):
    first = '{"identity": {"title": "One"},  "x": 1e2}'
    kept = store.add(first)
    assert store.job(kept.id).document == first
    assert store.save(kept.id, 1, document("Two"), "renamed") == 2
    assert [(one.rev, one.note) for one in store.revisions(kept.id)] == [(2, "renamed"), (1, "new job")]
    assert store.revision(kept.id, 1).document == first


def test_a_change_on_an_old_revision_is_refused_with_the_job_as_it_stands(store):
    kept = store.add(document())
    store.save(kept.id, 1, document("First window"))
    with pytest.raises(StaleRevision) as reported:
        store.save(kept.id, 1, document("Second window"))
    assert reported.value.kept.rev == 2
    assert "First window" in reported.value.kept.document
    assert len(store.revisions(kept.id)) == 2


def test_of_writers_at_the_same_time_each_revision_has_one(store):
    kept = store.add(document())
    outcomes = []

    def write(name):
        for _ in range(10):
            try:
                outcomes.append(("kept", store.save(kept.id, store.job(kept.id).rev, document(name))))
            except StaleRevision:
                outcomes.append(("refused", 0))

    threads = [threading.Thread(target=write, args=(f"T{number}",)) for number in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    revs = [rev for word, rev in outcomes if word == "kept"]
    assert len(outcomes) == 40
    assert sorted(revs) == list(range(2, len(revs) + 2))
    assert store.job(kept.id).rev == len(revs) + 1


def test_search_finds_all_words_in_any_case_and_takes_signs_as_they_are(store):
    store.add(document("Front drive", "B. Other"))
    store.add(document("Terrace 100%", "A. Person"))
    assert [row.title for row in store.jobs("TERRACE person")] == ["Terrace 100%"]
    assert [row.title for row in store.jobs("100%")] == ["Terrace 100%"]
    assert store.jobs("10_%") == ()
    assert len(store.jobs()) == 2


def test_archived_jobs_are_out_of_the_list_and_come_back(store):
    kept = store.add(document())
    store.put_away(kept.id, archived=True)
    assert store.jobs() == ()
    assert [row.id for row in store.jobs(archived=True)] == [kept.id]
    store.put_away(kept.id, archived=False)
    assert [row.id for row in store.jobs()] == [kept.id]


def test_a_delivery_changes_a_job_once_however_often_it_comes(store):
    kept = store.add(document())
    change = lambda text: text.replace("Terrace", "Terrace and more")  # noqa: E731
    first = store.deliver("d1", kept.id, "{}", change, "reading")
    again = store.deliver("d1", kept.id, "{}", change, "reading")
    assert (first.rev, first.repeated, again.rev, again.repeated) == (2, False, 2, True)
    assert store.job(kept.id).document.count("and more") == 1


def test_a_delivery_that_makes_no_sense_leaves_nothing(store):
    kept = store.add(document())

    def refuse(_text):
        raise ValueError("no")

    with pytest.raises(ValueError, match="no"):
        store.deliver("d1", kept.id, "{}", refuse, "reading")
    assert store.job(kept.id).rev == 1
    assert store.deliver("d1", kept.id, "{}", lambda text: text + " ", "reading").repeated is False


def test_a_later_summary_is_not_written_over_by_an_earlier_one(store):
    kept = store.add(document())
    store.save(kept.id, 1, document("Two"))
    store.keep_summary(kept.id, 2, "new")
    store.keep_summary(kept.id, 1, "old")
    (row,) = store.jobs()
    assert (row.summary, row.summary_rev) == ("new", 2)


def test_photos_are_kept_once_and_only_with_their_job(store):
    kept = store.add(document())
    assert store.add_photo("p1", kept.id, b"image", "gully", (100.0, 200.0)) is False
    assert store.add_photo("p1", kept.id, b"image", "gully", (100.0, 200.0)) is True
    (photo,) = store.photos(kept.id)
    assert (photo.note, photo.x_mm, photo.y_mm) == ("gully", 100.0, 200.0)
    assert store.photo(kept.id, "p1") == b"image"
    with pytest.raises(UnknownJob):
        store.photo("another", "p1")
    with pytest.raises(UnknownJob):
        store.add_photo("p2", "another", b"image", "", None)
    store.remove_photo(kept.id, "p1")
    assert store.photos(kept.id) == ()


def test_what_is_not_there_is_said(store):
    for ask in (
        lambda: store.job("x"),
        lambda: store.save("x", 1, "{}"),
        lambda: store.put_away("x", archived=True),
        lambda: store.revision("x", 1),
    ):
        with pytest.raises(UnknownJob):
            ask()


def test_a_change_is_written_through_before_it_is_acknowledged(store_file):
    with store_file.reading() as connection:
        assert connection.exec_driver_sql("PRAGMA journal_mode").scalar() == "wal"
        assert connection.exec_driver_sql("PRAGMA synchronous").scalar() == 2
        assert connection.exec_driver_sql("PRAGMA foreign_keys").scalar() == 1


def test_a_reader_is_not_held_up_by_a_writer(store):
    kept = store.add(document())
    with store.writing() as writing:
        writing.execute(sa.text("update job set title = 'half done'"))
        assert store.job(kept.id).rev == 1
        assert store.jobs()[0].title == "Terrace"
        writing.rollback()


KILLED = """
import json, sys, threading
from pavewright.store import StaleRevision, open_store
store, lock = open_store(sys.argv[1]), threading.Lock()
jobs = [row.id for row in store.jobs()]

def say(*words):
    with lock:
        print(*words, flush=True)

def write(number):
    job, count = jobs[number % 2], 0
    while True:
        count += 1
        key, rev = f"{sys.argv[2]}-{number}-{count}", store.job(job).rev
        if number == 2:
            say("delivery", job, key, store.deliver(key, job, "{}", lambda text: text, "reading").rev)
            continue
        text = json.dumps({"identity": {"title": "T"}, "key": key, "filler": "x" * 60000})
        try:
            say("save", job, key, store.save(job, rev, text, key=key))
        except StaleRevision:
            continue

for number in range(4):
    threading.Thread(target=write, args=(number,), daemon=True).start()
threading.Event().wait()
"""


def test_killed_writers_lose_no_acknowledged_change(url, store):
    jobs = [store.add(document()).id, store.add(document()).id]
    for rounds in range(5 if store.is_file else 2):
        words = [sys.executable, "-c", KILLED, url, str(rounds)]
        with subprocess.Popen(words, stdout=subprocess.PIPE, text=True) as writer:
            reported = [writer.stdout.readline() for _ in range(12 + rounds)]
            writer.kill()
            reported += writer.stdout.read().splitlines(keepends=True)
        acknowledged = [line.split() for line in reported if line.endswith("\n")]
        assert len(acknowledged) >= 12
        for what, job, key, rev in acknowledged:
            # sent again it is known, by the very revision that was answered
            if what == "delivery":
                done = store.deliver(key, job, "{}", lambda text: text, "reading")
                assert (done.repeated, done.rev) == (True, int(rev))
            else:
                kept = store.revision(job, int(rev)).document
                assert json.loads(kept)["key"] == key
                assert store.save(job, 1, kept, key=key) == int(rev)
        for job in jobs:
            now = store.job(job)
            assert [one.rev for one in store.revisions(job)] == list(range(now.rev, 0, -1))
            assert store.revision(job, now.rev).document == now.document
    if store.is_file:
        with store.reading() as connection:
            assert connection.exec_driver_sql("PRAGMA integrity_check").scalar() == "ok"


def test_a_deleted_job_is_off_every_list_and_comes_back(store):
    kept, other = store.add('{"identity": {"title": "Terrace"}}'), store.add('{"identity": {"title": "Path"}}')
    store.put_away(other.id, archived=True)
    for one in (kept, other):
        store.deleted.put(one.id)
    assert store.jobs() == store.jobs(archived=True) == ()
    assert {one.id for one in store.jobs(deleted=True)} == {kept.id, other.id}
    for one in (kept, other):
        store.deleted.bring_back(one.id)
    assert [one.id for one in store.jobs()] == [kept.id]
    assert [one.id for one in store.jobs(archived=True)] == [other.id]
    with pytest.raises(UnknownJob):
        store.deleted.put("none")


def test_only_a_deleted_job_is_removed_and_then_nothing_is_left_of_it(store):
    kept, other = store.add('{"identity": {"title": "Terrace"}}'), store.add('{"identity": {"title": "Path"}}')
    for one in (kept, other):
        store.save(one.id, 1, '{"identity": {"title": "Changed"}}')
        store.deliver("d1", one.id, "{}", lambda text: text, "")
        store.add_photo("p1", one.id, b"image", "", None)
    with pytest.raises(NotDeletedError):
        store.deleted.remove(kept.id)
    store.deleted.put(kept.id)
    store.deleted.remove(kept.id)
    with pytest.raises(UnknownJob):
        store.job(kept.id)
    with pytest.raises(UnknownJob):
        store.deleted.remove(kept.id)
    with store.reading() as connection:
        holding = [table for table in METADATA.sorted_tables if "job_id" in table.c]
        assert {"revision", "delivery", "photo"} <= {table.name for table in holding}
        for table in holding:
            assert set(connection.execute(sa.select(table.c.job_id)).scalars()) <= {other.id}
    assert store.photo(other.id, "p1") == b"image"
