"""The book of the firm in the store: its revisions, two who edit at once, backups."""

from __future__ import annotations

import pytest

from pavewright.store import (
    DocumentRefusedError,
    KeyUsedError,
    StaleBookError,
    back_up,
    open_file,
    open_store,
    restore_open,
)


@pytest.fixture
def store(tmp_path):
    opened = open_store(f"sqlite:///{tmp_path / 'jobs.sqlite'}")
    yield opened
    opened.close()


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


def test_a_backup_carries_the_book_and_brings_it_back(store, tmp_path):
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
