"""What is sent twice is kept once; what is kept can be read again; a store of the version before goes on."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing
from importlib.resources import files

import pytest

from pavewright.store import (
    DocumentRefusedError,
    KeyUsedError,
    StaleRevision,
    UnknownJob,
    open_file,
    read_back,
)


def test_a_save_that_is_sent_again_is_kept_once(store):
    kept = store.add("{}")
    assert store.save(kept.id, 1, '{"a": 1}', "mine", "k1") == 2
    assert store.save(kept.id, 1, '{"a": 1}', "mine", "k1") == 2
    assert store.save(kept.id, 2, '{"a": 2}', "theirs", "k2") == 3
    # also after somebody else has changed the job
    assert store.save(kept.id, 1, '{"a": 1}', "mine", "k1") == 2
    assert json.loads(store.job(kept.id).document) == {"a": 2}
    assert [one.rev for one in store.revisions(kept.id)] == [3, 2, 1]


def test_a_refused_save_leaves_its_key_free(store):
    kept = store.add("{}")
    store.save(kept.id, 1, '{"a": 1}', key="k1")
    with pytest.raises(StaleRevision):
        store.save(kept.id, 1, '{"a": 2}', key="k2")
    assert store.save(kept.id, 2, '{"a": 2}', key="k2") == 3


def test_a_key_of_another_version_acknowledges_nothing(store):
    kept = store.add("{}")
    store.save(kept.id, 1, '{"a": 1}', key="k1")
    with pytest.raises(KeyUsedError, match="new key"):
        store.save(kept.id, 2, '{"a": 2}', key="k1")
    assert store.job(kept.id).rev == 2


def test_the_same_names_on_another_job_are_other_things(store):
    one, other = store.add("{}"), store.add("{}")
    assert store.save(one.id, 1, '{"a": 1}', key="k") == store.save(other.id, 1, '{"a": 2}', key="k") == 2
    assert store.deliver("d", one.id, "{}", lambda _: '{"b": 1}', "").repeated is False
    assert store.deliver("d", other.id, "{}", lambda _: '{"b": 2}', "").repeated is False
    assert store.add_photo("p", one.id, b"one", "", None) is False
    assert store.add_photo("p", other.id, b"other", "", None) is False
    assert (store.photo(one.id, "p"), store.photo(other.id, "p")) == (b"one", b"other")
    assert store.add_photo("p", other.id, b"other", "", None) is True
    store.remove_photo(one.id, "p")
    assert store.photo(other.id, "p") == b"other"
    with pytest.raises(UnknownJob):
        store.photo(one.id, "p")


@pytest.mark.parametrize(
    "document",
    [
        "",
        "{",
        "[]",
        '{"a": 1e999}',
        '{"a": NaN}',
        '{"a": "\\ud83d"}',
        '{"a": "\ud83d"}',
        '{"a": 1, "a": 2}',
        '{"a": ' + "[" * 900,
    ],
)
def test_what_could_not_be_read_again_is_not_kept(store, document):
    kept = store.add("{}")
    for keep in (
        lambda: store.add(document),
        lambda: store.save(kept.id, 1, document),
        lambda: store.deliver("d", kept.id, "{}", lambda _: document, ""),
    ):
        with pytest.raises(DocumentRefusedError):
            keep()
    assert store.job(kept.id).rev == 1
    assert len(store.jobs()) == 1


def test_the_mark_before_a_text_is_left_out(store):
    kept = store.add('\ufeff{"a": 1}')
    assert json.loads(store.job(kept.id).document) == {"a": 1}


@pytest.mark.parametrize(
    ("text", "document"),
    [
        ('{"a": 1}', {"a": 1}),
        (
            '{"areas": [{"name": "A \\ud83d", "x": 1e999, "y": NaN}]}',
            {"areas": [{"name": "A \ufffd", "x": None, "y": None}]},
        ),
        ('{"a": 1, "a": 2}', {"a": 2}),
        ('\ufeff{"a": -Infinity}', {"a": None}),
        ('{"a": ' + "1" * 5000 + "}", {"a": None}),
        ('{"a": 1', None),
        ("[1, 2]", None),
        ("", None),
        ("[" * 100_000, None),
    ],
)
def test_a_kept_text_is_read_as_far_as_it_goes(text, document):
    read = read_back(text)
    assert read.document == document
    assert bool(read.fault) == (text != '{"a": 1}')
    if document is not None:
        assert read_back(json.dumps(document)).fault == ""


def test_bytes_that_are_no_text_are_read_too(tmp_path, store_file):
    store = store_file
    kept = store.add("{}")
    with closing(sqlite3.connect(tmp_path / "jobs.sqlite")) as raw:
        raw.execute("UPDATE job SET document = CAST(x'7b2261223a2022ff227d' AS TEXT), title = CAST(x'ff' AS TEXT)")
        raw.commit()
    assert store.jobs()[0].title == "\ufffd"
    assert read_back(store.job(kept.id).document).document == {"a": "\ufffd"}


def test_a_filled_store_of_the_version_before_goes_on(version_1):
    store = open_file(version_1)
    first, second = "a" * 16, "b" * 16
    assert [one.rev for one in store.revisions(first)] == [2, 1]
    assert store.deliver("d1", first, "{}", lambda text: text, "").repeated is True
    assert store.deliver("d1", second, "{}", lambda text: text, "").repeated is False
    assert store.photo(first, "p1") == b"image"
    (photo,) = store.photos(first)
    assert (photo.x_mm, photo.y_mm, photo.note) == (1.5, 2.5, "n")
    assert store.add_photo("p1", second, b"other", "", None) is False
    assert store.save(first, 2, '{"a": 1}', key="k") == store.save(first, 2, '{"a": 1}', key="k") == 3
    store.close()
    open_file(version_1).close()
    with closing(sqlite3.connect(version_1)) as raw:
        newest = max(
            path.stem.rpartition("_")[2] for path in (files("pavewright.store.migrations") / "versions").glob("*_0*.py")
        )
        assert raw.execute("SELECT version_num FROM alembic_version").fetchall() == [(newest,)]
        assert raw.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert raw.execute("PRAGMA foreign_key_check").fetchall() == []
        for table in ("delivery", "photo"):
            keys = {row[1] for row in raw.execute(f"PRAGMA table_info({table})") if row[5]}
            assert keys == {"id", "job_id"}
