"""The book of the firm in the store: its revisions, two who edit at once, backups."""

from __future__ import annotations

import datetime as dt
import json

import pytest

from pavewright.store import (
    _firm,
    DocumentRefusedError,
    KeyUsedError,
    StaleBookError,
    back_up,
    open_file,
    restore_open,
)


def test_a_store_starts_without_a_book(store):
    assert (store.firm.book().rev, store.firm.book().document) == (0, "")
    assert store.firm.revisions() == ()
    assert store.firm.revision(1) is None


def test_every_revision_is_kept(store):
    assert store.firm.save(0, '{"currency": "GBP"}', "begun") == 1
    assert store.firm.save(1, '{"currency": "EUR"}', "money") == 2
    assert store.firm.book().document == '{"currency": "EUR"}'
    assert [(each.rev, each.note) for each in store.firm.revisions()] == [(2, "money"), (1, "begun")]
    assert store.firm.revision(1).document == '{"currency": "GBP"}'


@pytest.mark.parametrize("rev", [0, 2, 7])
def test_a_change_of_another_state_is_refused_with_the_present_one(store, rev):
    store.firm.save(0, '{"currency": "GBP"}')
    with pytest.raises(StaleBookError) as refused:
        store.firm.save(rev, '{"currency": "USD"}')
    assert (refused.value.kept.rev, refused.value.kept.document) == (1, '{"currency": "GBP"}')
    assert store.firm.book().rev == 1


def test_what_is_sent_twice_is_kept_once(store):
    assert store.firm.save(0, "{}", key="k") == 1
    assert store.firm.save(0, "{}", key="k") == 1
    with pytest.raises(KeyUsedError):
        store.firm.save(1, '{"a": 1}', key="k")


def test_what_cannot_be_read_again_is_refused(store):
    with pytest.raises(DocumentRefusedError):
        store.firm.save(0, '{"a": NaN}')
    assert store.firm.book().rev == 0


def test_a_backup_carries_the_book_and_brings_it_back(store_file, tmp_path):
    store = store_file
    store.firm.save(0, '{"currency": "GBP"}')
    back_up(tmp_path / "jobs.sqlite", tmp_path / "copy.sqlite")
    store.firm.save(1, '{"currency": "EUR"}')
    restore_open(tmp_path / "copy.sqlite", tmp_path / "jobs.sqlite")
    assert store.firm.book().document == '{"currency": "GBP"}'


def test_a_store_of_an_older_version_has_room_for_a_book(version_1):
    store = open_file(version_1)
    try:
        assert store.jobs()
        assert store.firm.save(0, "{}") == 1
    finally:
        store.close()


def test_old_revisions_are_thinned_to_the_last_of_each_day_and_later_of_each_month(store, monkeypatch):
    """Four changes a day for thirty days two years ago, four a day for thirty days this spring, sixty today."""
    begins = dt.datetime(2025, 3, 1, 8, tzinfo=dt.UTC), dt.datetime(2027, 3, 1, 8, tzinfo=dt.UTC)
    times = [begin + dt.timedelta(days=day, hours=hour) for begin in begins for day in range(30) for hour in range(4)]
    times += [dt.datetime(2027, 5, 1, 8, minute, tzinfo=dt.UTC) for minute in range(60)]
    clock = iter(times)
    monkeypatch.setattr(_firm, "now", lambda: next(clock).isoformat(timespec="milliseconds"))
    for number in range(len(times)):
        store.firm.save(number, json.dumps({"change": number}))
    kept = store.firm.revisions()
    assert [each.rev for each in kept[:50]] == list(range(300, 250, -1))
    older = [each.at for each in kept[50:]]
    assert len([at for at in older if at.startswith("2027-03")]) == 30
    assert all(at[11:13] == "11" for at in older if at.startswith("2027-03"))
    assert [at[:10] for at in older if at.startswith("2025")] == ["2025-03-30"]
    assert store.firm.book().rev == 300
    assert store.firm.revision(1) is None
