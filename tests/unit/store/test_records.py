"""Records: what is kept is recorded in the same step, nobody can change an entry, and a record goes on after a backup."""

from __future__ import annotations

import base64
import datetime as dt
import hashlib
import json
import sqlite3

import pytest
from sqlalchemy.exc import DBAPIError

from pavewright.job import Job
from pavewright.record import EVIDENCE, NOT_EVIDENCE, EntryKind, check_record
from pavewright.store import (
    Accepted,
    Batch,
    Made,
    NotDeletedError,
    StaleRevision,
    UnknownJob,
    back_up,
    open_file,
    restore,
    restore_open,
)

JOB = {
    "identity": {"title": "Terrace"},
    "as_laid": {"date": "2027-06-01", "read_by": "R", "instrument": "rotating laser", "reading_sd_mm": 1.5},
    "rates": {"labour": [{"skill": "paver", "hour_minor": 3000}]},
}
READING = {"x_mm": 1.0, "y_mm": 2.0, "level_mm": 100_012.0, "area": "terrace", "label": "L1"}
WHAT = Accepted("Ada Example", "2027-04-12", (1,), ("One",), 120_000, "GBP", "M1 1L90 90", "")


def _entries(store, job):
    checked = check_record(store.records.content(job))
    assert checked.faults == ()
    assert checked.seal.job == job
    return checked.entries


def _kinds(store, job):
    return [each.kind for each in _entries(store, job)]


def _batch(key, *operations, rev=1):
    return Batch(key, rev, "phone-1", tuple(operations), "levels")


def _add(value=READING):
    return {"op": "add", "at": ["as_laid", "readings"], "item": value}


def test_every_part_of_a_job_is_evidence_or_known_to_be_none():
    assert EVIDENCE.isdisjoint(NOT_EVIDENCE)
    new = set(Job.model_fields) - EVIDENCE - NOT_EVIDENCE
    assert new == set(), "say in record/_evidence.py whether these are evidence"


def test_a_record_begins_with_a_job_and_says_what_stood_in_it(store):
    text = json.dumps(JOB)
    job = store.add(text).id
    begun, stood = _entries(store, job)
    assert (begun.kind, stood.kind) == (EntryKind.BEGUN, EntryKind.STOOD)
    assert begun.facts["document_sha256"] == hashlib.sha256(text.encode()).hexdigest()
    assert (stood.facts["part"], stood.facts["value"]) == ("as_laid", JOB["as_laid"])


def test_a_reading_is_recorded_with_who_read_it_with_what_and_how_well(store):
    job = store.add(json.dumps(JOB)).id
    store.operations.take(job, _batch("k1", _add()))
    *_, revision, entered = _entries(store, job)
    assert revision.kind is EntryKind.REVISION
    assert revision.facts["document_sha256"] == hashlib.sha256(store.job(job).document.encode()).hexdigest()
    assert (entered.kind, entered.who) == (EntryKind.ENTERED, "phone-1")
    assert entered.facts["op"]["item"] == READING
    assert entered.facts["with"] == {
        "date": "2027-06-01",
        "read_by": "R",
        "instrument": "rotating laser",
        "reading_sd_mm": 1.5,
    }


def test_a_correction_is_a_new_entry_with_what_stood_before(store):
    job = store.add(json.dumps(JOB)).id
    store.operations.take(job, _batch("k1", _add()))
    before = _entries(store, job)
    changed = JOB | {"as_laid": JOB["as_laid"] | {"readings": [READING | {"level_mm": 100_010.0}]}}
    store.save(job, 2, json.dumps(changed), "corrected")
    after = _entries(store, job)
    assert after[: len(before)] == before
    assert (after[-1].facts["op"]["was"], after[-1].facts["op"]["to"]) == (100_012.0, 100_010.0)


def test_prices_of_the_firm_are_not_written_into_a_record(store):
    job = store.add(json.dumps(JOB)).id
    changed = JOB | {"rates": {"labour": [{"skill": "paver", "hour_minor": 4321}]}}
    store.save(job, 1, json.dumps(changed), "rates")
    assert _kinds(store, job)[-1] is EntryKind.REVISION
    assert b"4321" not in store.records.content(job)
    assert b"3000" not in store.records.content(job)


def test_what_is_refused_leaves_no_entry(store):
    job = store.add(json.dumps(JOB)).id
    before = store.records.content(job)
    with pytest.raises(StaleRevision):
        store.save(job, 7, json.dumps(JOB))
    assert store.records.content(job) == before


def test_what_is_sent_twice_is_recorded_once(store):
    job = store.add(json.dumps(JOB)).id
    for _ in range(2):
        store.deliver("d1", job, '{"kind": "operations"}', _batch("d1", _add()), "from site")
        store.add_photo("p1", job, b"image", "drain", (1.0, 2.0))
    kinds = _kinds(store, job)
    assert kinds[2:] == [EntryKind.REVISION, EntryKind.ENTERED, EntryKind.DELIVERY, EntryKind.PHOTO]
    delivery, photo = _entries(store, job)[-2:]
    assert delivery.facts["sha256"] == hashlib.sha256(b'{"kind": "operations"}').hexdigest()
    assert (photo.facts["sha256"], photo.facts["bytes"]) == (hashlib.sha256(b"image").hexdigest(), 5)


def test_the_hash_of_a_deleted_photo_stays(store):
    job = store.add("{}").id
    store.add_photo("p1", job, b"image", "drain", None)
    store.remove_photo(job, "p1")
    store.remove_photo(job, "p1")
    *_, photo, deleted = _entries(store, job)
    assert deleted.kind is EntryKind.PHOTO_DELETED
    assert deleted.facts == {"id": "p1", "sha256": photo.facts["sha256"]}


def test_what_passes_between_firm_and_customer_is_recorded(store):
    job = store.add("{}").id
    today, last = dt.date(2027, 4, 12), dt.date(2027, 4, 30)
    link, token = store.quotations.make(Made(job, 1, last, "{}", b"%PDF"), withdraw_others=True)
    asked = store.quotations.ask(token, "When?", today)
    store.quotations.answer(job, asked.id, "In May.")
    store.quotations.accept(token, WHAT, today)
    assert _kinds(store, job)[1:] == [
        EntryKind.QUOTATION_SHOWN,
        EntryKind.QUESTION,
        EntryKind.ANSWER,
        EntryKind.ACCEPTED,
    ]
    accepted = _entries(store, job)[-1].facts
    assert accepted["pdf_sha256"] == link.pdf_sha256 == hashlib.sha256(b"%PDF").hexdigest()
    assert (accepted["accepted"]["name"], accepted["accepted"]["drawn"]) == ("Ada Example", "M1 1L90 90")


def test_of_a_removed_job_the_last_hash_stays(store):
    job = store.add(json.dumps(JOB)).id
    with pytest.raises(NotDeletedError):
        store.deleted.remove(job)
    store.deleted.put(job)
    store.deleted.bring_back(job)
    store.deleted.put(job)
    entries = _entries(store, job)
    assert [each.kind for each in entries[-3:]] == [
        EntryKind.JOB_DELETED,
        EntryKind.JOB_BROUGHT_BACK,
        EntryKind.JOB_DELETED,
    ]
    store.deleted.remove(job)
    (left,) = store.records.removed()
    assert (left.job, left.entries, left.head) == (job, len(entries), entries[-1].digest)
    with pytest.raises(UnknownJob):
        store.records.content(job)


def test_a_record_of_an_unknown_job_is_refused(store):
    with pytest.raises(UnknownJob):
        store.records.content("nobody")
    with pytest.raises(UnknownJob):
        store.add_photo("p1", "nobody", b"image", "", None)


CHANGES = (
    "UPDATE record_entry SET line = 'x' WHERE number = 1",
    "UPDATE record_entry SET digest = 'x'",
    "UPDATE record_entry SET number = 9 WHERE number = 2",
    "DELETE FROM record_entry WHERE number = 2",
    "DELETE FROM record_entry",
    "INSERT OR REPLACE INTO record_entry (job_id, number, line, digest) SELECT job_id, number, 'x', digest FROM record_entry WHERE number = 1",
    "INSERT INTO record_entry (job_id, number, line, digest) SELECT job_id, 9, line, digest FROM record_entry WHERE number = 1",
    "INSERT INTO record_entry (job_id, number, line, digest) SELECT job_id, 0, line, digest FROM record_entry WHERE number = 1",
)


@pytest.mark.parametrize("change", CHANGES)
def test_the_database_refuses_to_change_an_entry(store, change):
    store.add(json.dumps(JOB))
    with pytest.raises(DBAPIError, match="stays as it was|unique"), store.writing() as connection:
        connection.exec_driver_sql(change if store.is_file else change.replace("OR REPLACE ", ""))


@pytest.mark.parametrize("change", ["UPDATE removed_record SET head = 'x'", "DELETE FROM removed_record"])
def test_the_database_refuses_to_change_what_is_left_of_a_removed_record(store, change):
    job = store.add("{}").id
    store.deleted.put(job)
    store.deleted.remove(job)
    with pytest.raises(DBAPIError, match="stays as it was|unique"), store.writing() as connection:
        connection.exec_driver_sql(change if store.is_file else change.replace("OR REPLACE ", ""))


def test_who_takes_the_triggers_away_and_edits_the_file_is_found(tmp_path):
    path = tmp_path / "jobs.sqlite"
    store = open_file(path)
    job = store.add(json.dumps(JOB)).id
    store.operations.take(job, _batch("k1", _add()))
    store.close()
    raw = sqlite3.connect(path)
    raw.execute("DROP TRIGGER record_entry_stays")
    raw.execute("UPDATE record_entry SET line = replace(line, '100012.0', '100002.0')")
    raw.commit()
    raw.close()
    store = open_file(path)
    assert check_record(store.records.content(job)).faults
    store.close()


def test_a_job_that_is_older_than_records_begins_one_with_what_stands_in_it(version_1):
    store = open_file(version_1)
    (begun,) = _entries(store, "a" * 16)
    assert begun.facts["rev"] == 2
    (photo,) = begun.facts["photos"]
    assert (photo["id"], photo["sha256"]) == ("p1", hashlib.sha256(b"image").hexdigest())
    store.add_photo("p2", "b" * 16, b"other", "", None)
    assert _kinds(store, "b" * 16) == [EntryKind.BEGUN, EntryKind.PHOTO]
    store.close()


@pytest.mark.parametrize("while_open", [False, True])
def test_a_record_goes_on_after_a_backup_was_brought_back(tmp_path, while_open):
    path, backup = tmp_path / "jobs.sqlite", tmp_path / "backup.sqlite"
    store = open_file(path)
    job = store.add(json.dumps(JOB)).id
    store.close()
    back_up(path, backup)
    store = open_file(path)
    store.operations.take(job, _batch("k1", _add()))
    gone = store.add("{}").id
    store.deleted.put(gone)
    store.deleted.remove(gone)
    before = _entries(store, job)
    if while_open:
        restore_open(backup, path)
    else:
        store.close()
        restore(backup, path)
        store = open_file(path)
    after = _entries(store, job)
    assert after[: len(before)] == before
    assert [each.kind for each in after[len(before) :]] == [EntryKind.RESTORED]
    assert after[-1].facts["document_sha256"] == hashlib.sha256(store.job(job).document.encode()).hexdigest()
    assert [each.job for each in store.records.removed()] == [gone]
    store.operations.take(job, _batch("k2", _add()))
    assert _kinds(store, job)[-1] is EntryKind.ENTERED
    store.close()


def test_a_token_that_cannot_be_read_is_refused(store):
    job = store.add("{}").id
    for content in (b"", b"\x30\x80", base64.b64encode(b"token"), b"\x30" * 70_000):
        with pytest.raises(ValueError):
            store.records.add_token(job, content)
    assert _kinds(store, job) == [EntryKind.BEGUN]
