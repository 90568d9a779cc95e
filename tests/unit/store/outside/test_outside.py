"""Photos and papers outside the database: whole, apart, counted, swept, moved, copied and brought back."""

from __future__ import annotations

import datetime as dt
import hashlib
import json
import shutil
import signal
import subprocess
import sys
import threading
import zipfile
from contextlib import closing
from pathlib import Path

import pytest
import sqlalchemy as sa

from pavewright.store import Made, StoreTroubleError, Trouble, back_up, open_installation, restore, restore_open
from pavewright.store.handed_out import hand_out_firm
from pavewright.store.outside import check_files, move_files, open_place, sweep_files
from pavewright.store.whole import back_up_whole, drill, mend_files, restore_whole

NOW = dt.timedelta(0)
FIRM, OTHER = "a" * 32, "b" * 32


def digest(content):
    return hashlib.sha256(content).hexdigest()


def filled(store, title="Terrace"):
    """Keep a job with two photos and a quotation with both of its papers."""
    job = store.add(json.dumps({"identity": {"title": title}})).id
    for name in ("p1", "p2"):
        store.add_photo(name, job, f"{title} {name}".encode() * 500, "gully", None)
    made = Made(job, 1, dt.date(2027, 6, 1), "{}", b"%PDF " + title.encode(), b"%PDF notice")
    return job, store.quotations.make(made, withdraw_others=False)[0].id


def contents(store, job, link):
    photos = [store.photo(job, name) for name in ("p1", "p2")]
    return [*photos, store.quotations.pdf(link), store.quotations.notice(link)]


@pytest.fixture
def kept(url, where):
    opened = open_installation(url, where)
    yield opened
    opened.close()


@pytest.fixture
def in_file(empty_file, tmp_path, where):
    """An installation in a file, with its files outside."""
    opened = open_installation(Path(shutil.copy(empty_file, tmp_path / "jobs.sqlite")), where)
    yield opened
    opened.close()


def test_a_place_keeps_finds_lists_and_deletes_and_firms_are_apart(where):
    place = open_place(where)
    name = place.put(FIRM, b"content")
    assert name == digest(b"content") == place.put(FIRM, b"content")
    assert place.get(FIRM, name) == b"content"
    assert [(one.digest, one.size_bytes) for one in place.held(FIRM)] == [(name, 7)]
    assert (place.has(FIRM, name), place.has(OTHER, name), list(place.held(OTHER))) == (True, False, [])
    with pytest.raises(StoreTroubleError) as missing:
        place.get(OTHER, name)
    assert missing.value.trouble is Trouble.FILE_MISSING
    place.mark(FIRM, name)
    assert list(place.marked(FIRM)) == [name]
    place.put(FIRM, b"content")
    assert place.marked(FIRM) == {}
    place.delete(FIRM, name)
    place.delete(FIRM, name)
    assert list(place.held(FIRM)) == []
    for firm, asked in (("../x", name), (FIRM, "../" + name), (FIRM, "x")):
        with pytest.raises(ValueError):
            place.get(firm, asked)


def test_a_file_whose_bytes_are_others_is_refused_and_mended_by_the_next_put(tmp_path):
    place = open_place(tmp_path / "files")
    name = place.put(FIRM, b"content")
    path = tmp_path / "files" / FIRM / "files" / name[:2] / name
    path.write_bytes(b"contemt")
    with pytest.raises(StoreTroubleError, match="damaged") as damaged:
        place.get(FIRM, name)
    assert damaged.value.trouble is Trouble.FILE_DAMAGED
    place.put(FIRM, b"content")
    assert place.get(FIRM, name) == b"content"


def test_a_place_that_is_none_or_does_not_answer_is_a_sentence_without_its_keys(tmp_path, monkeypatch):
    for address in ("http://files.example", "", "s3://", "s3://name:secret@bucket/x"):
        with pytest.raises(StoreTroubleError) as none:
            open_place(address)
        assert none.value.trouble is Trouble.NO_PLACE and "secret" not in none.value.message
    (tmp_path / "a file").write_bytes(b"")
    with pytest.raises(StoreTroubleError):
        open_place(tmp_path / "a file" / "files")
    (tmp_path / "key").write_text("made up secret\n")
    monkeypatch.setenv("AWS_ACCESS_KEY_ID", "made up")
    monkeypatch.setenv("AWS_SECRET_ACCESS_KEY_FILE", str(tmp_path / "key"))
    monkeypatch.setenv("AWS_ENDPOINT_URL", "http://127.0.0.1:9")
    monkeypatch.setattr("pavewright.store.outside._s3._TRIES", {"max_retries": 0})
    with pytest.raises(StoreTroubleError) as away:
        open_place("s3://paving").put(FIRM, b"content")
    assert away.value.trouble is Trouble.FILES_AWAY and "made up" not in away.value.message
    monkeypatch.setenv("AWS_SECRET_ACCESS_KEY_FILE", str(tmp_path / "no key"))
    with pytest.raises(StoreTroubleError, match="AWS_SECRET_ACCESS_KEY_FILE"):
        open_place("s3://paving")


def test_rows_name_what_stands_outside_and_each_firm_has_its_own(kept):
    other = kept.store_of(kept.accounts.add_firm("Other").id)
    for store in (kept.first, other):
        job, link = filled(store)
        assert contents(store, job, link)[2:] == [b"%PDF Terrace", b"%PDF notice"]
        with store.reading() as connection:
            assert connection.execute(sa.text("SELECT max(length(image)) FROM photo")).scalar() == 0
            assert connection.execute(sa.text("SELECT max(length(pdf)) FROM quotation_link")).scalar() == 0
        assert check_files(store).outside == 4
    mine = {one.digest for one in kept.files.held(kept.first_id)}
    kept.files.delete(other.outside.firm, next(iter(mine)))
    assert (check_files(kept.first).whole, check_files(other).whole, len(check_files(other).missing)) == (
        True,
        False,
        1,
    )


def test_without_its_place_a_store_says_so_and_a_place_that_refuses_keeps_no_row(url, tmp_path, monkeypatch):
    opened = open_installation(url, tmp_path / "files")
    job, _ = filled(opened.first)
    monkeypatch.setattr(opened.files._keys, "write", refuse)
    with pytest.raises(StoreTroubleError):
        opened.first.add_photo("p3", job, b"third", "", None)
    assert [one.id for one in opened.first.photos(job)] == ["p1", "p2"]
    opened.close()
    plain = open_installation(url)
    with pytest.raises(StoreTroubleError, match="--files") as unset:
        plain.first.photo(job, "p1")
    assert unset.value.trouble is Trouble.FILES_UNSET
    plain.close()


def refuse(*_):
    raise StoreTroubleError(Trouble.FULL, "files")


def test_a_sweep_deletes_after_a_day_what_nothing_names_and_nothing_else(kept):
    store, place = kept.first, kept.files
    job, link = filled(store)
    before = contents(store, job, link)
    place.put(kept.first_id, b"nobody names me")
    assert sweep_files(store).deleted == 0
    swept = sweep_files(store)
    assert (swept.held, swept.waiting, swept.deleted) == (5, 1, 0), "it was seen so a moment ago only"
    swept = sweep_files(store, NOW)
    assert (swept.deleted, swept.deleted_bytes) == (1, 15)
    assert contents(store, job, link) == before
    store.remove_photo(job, "p1")
    assert (sweep_files(store).waiting, sweep_files(store, NOW).deleted) == (1, 1)
    store.deleted.put(job)
    store.deleted.remove(job)
    sweep_files(store)
    assert sweep_files(store, NOW).deleted == 3
    assert list(place.held(kept.first_id)) == []


def test_a_file_that_is_named_again_stays_and_one_deleted_under_a_writer_is_put_again(kept, monkeypatch):
    store = kept.first
    job = store.add("{}").id
    store.add_photo("p1", job, b"the same", "", None)
    store.remove_photo(job, "p1")
    sweep_files(store)
    put = store.outside.put

    def put_and_lose(content):
        done = put(content)
        sweep_files(store)
        assert sweep_files(store, NOW).deleted == 1, "in the moment between the file and its row"
        return done

    monkeypatch.setattr(store.outside, "put", put_and_lose)
    store.add_photo("p2", job, b"the same", "", None)
    assert sweep_files(store, NOW).deleted == 0
    assert store.photo(job, "p2") == b"the same"


def test_files_move_out_and_back_while_frozen_papers_stay_what_they_were(url, where):
    opened = open_installation(url)
    job, link = filled(opened.first)
    before = contents(opened.first, job, link)
    opened.close()
    opened = open_installation(url, where)
    store = opened.first
    assert contents(store, job, link) == before
    assert (move_files(store).files, move_files(store).files) == (4, 0)
    assert contents(store, job, link) == before and check_files(store).inside == 0
    # the database still refuses another paper in the place of one
    with pytest.raises((sa.exc.DBAPIError, StoreTroubleError)), store.writing() as connection:
        connection.execute(sa.text("UPDATE quotation_link SET pdf_sha256 = '0'"))
    assert move_files(store, back=True).files == 4
    with pytest.raises((sa.exc.DBAPIError, StoreTroubleError)), store.writing() as connection:
        connection.execute(sa.text("UPDATE quotation_link SET pdf = :pdf"), {"pdf": b"%PDF another"})
    assert contents(store, job, link) == before and check_files(store).inside == 4
    opened.close()


def test_a_whole_copy_made_while_people_write_holds_every_file_it_names(in_file, tmp_path, url):
    store, stop, written = in_file.first, threading.Event(), []
    job, link = filled(store)

    def write():
        while not stop.is_set():
            name = f"w{len(written)}"
            store.add_photo(name, job, name.encode() * 100, "", None)
            written.append(name)

    writer = threading.Thread(target=write)
    writer.start()
    try:
        while len(written) < 3:
            stop.wait(0.01)
        back_up_whole(in_file, tmp_path / "whole.zip")
    finally:
        stop.set()
        writer.join()
    found = drill(tmp_path / "whole.zip")
    photos = next(each for each in found.tables if each.copied.table == "photo")
    assert found.same and photos.files == photos.copied.rows >= 5
    before = contents(store, job, link)
    # brought back into the other kind of place: all stands in the database, and moves out where that is wanted
    if url.startswith("postgresql"):
        restore_whole(tmp_path / "whole.zip", url)
        again = open_installation(url, tmp_path / "other files")
    else:
        restore_whole(tmp_path / "whole.zip", tmp_path / "again.sqlite")
        again = open_installation(tmp_path / "again.sqlite", tmp_path / "other files")
    assert contents(again.first, job, link) == before
    moved = move_files(again.first)
    checked = check_files(again.first)
    assert (checked.whole, checked.outside, checked.inside) == (True, moved.files, 0)
    assert contents(again.first, job, link) == before
    again.close()


def test_a_copy_of_a_file_holds_its_photos_itself_and_what_was_put_aside_keeps_its_own(in_file, tmp_path):
    store = in_file.first
    job, link = filled(store)
    before = contents(store, job, link)
    back_up(Path(store.name), tmp_path / "copy.sqlite", store.outside)
    with pytest.raises(StoreTroubleError, match="--files"):
        back_up(Path(store.name), tmp_path / "no place.sqlite")
    store.add_photo("later", job, b"later", "", None)
    in_file.close()
    restored = restore(tmp_path / "copy.sqlite", tmp_path / "jobs.sqlite")
    again = open_installation(tmp_path / "jobs.sqlite", None)
    assert contents(again.first, job, link) == before
    again.close()
    placed = open_installation(tmp_path / "jobs.sqlite")
    placed.first.outside.use(in_file.files, in_file.first_id)
    sweep_files(placed.first)
    assert sweep_files(placed.first, NOW).deleted == 0, "the store beside it still names the later photo"
    restored.aside.unlink()
    sweep_files(placed.first)
    assert sweep_files(placed.first, NOW).deleted == 1
    placed.close()


def test_a_missing_or_damaged_file_stops_a_copy_and_is_mended_out_of_an_older_one(in_file, tmp_path):
    store, place = in_file.first, in_file.files
    job, link = filled(store)
    before = contents(store, job, link)
    back_up_whole(in_file, tmp_path / "whole.zip")
    lost, spoilt = sorted(one.digest for one in place.held(in_file.first_id))[:2]
    place.delete(in_file.first_id, lost)
    place._keys.write(f"{in_file.first_id}/files/{spoilt[:2]}/{spoilt}", b"spoilt")
    found = check_files(store)
    assert (found.missing, found.damaged, found.outside) == ((lost,), (spoilt,), 2)
    with pytest.raises(StoreTroubleError):
        back_up_whole(in_file, tmp_path / "second.zip")
    assert not (tmp_path / "second.zip").exists()
    assert mend_files(store, (lost, spoilt, "0" * 64), tmp_path / "whole.zip") == 2
    assert check_files(store).whole and contents(store, job, link) == before


def test_a_backup_comes_back_while_the_store_is_open_and_what_it_named_outside_stays(in_file, tmp_path):
    store = in_file.first
    job, link = filled(store)
    before = contents(store, job, link)
    back_up(Path(store.name), tmp_path / "copy.sqlite", store.outside)
    store.add_photo("later", job, b"later", "", None)
    restored = restore_open(tmp_path / "copy.sqlite", Path(store.name))
    assert contents(store, job, link) == before and len(store.photos(job)) == 2
    sweep_files(store)
    assert sweep_files(store, NOW).deleted == 0, "the store beside it still names the later photo"
    restore_open(restored.aside, Path(store.name))
    assert store.photo(job, "later") == b"later"


@pytest.mark.parametrize("outside", [True, False])
def test_what_is_damaged_in_the_database_itself_is_mended_too(in_file, tmp_path, outside):
    store, place = in_file.first, in_file.files
    store.outside.use(None, in_file.first_id)
    job, link = filled(store)
    before = contents(store, job, link)
    back_up_whole(in_file, tmp_path / "whole.zip")
    with store.writing() as connection:
        connection.execute(sa.text("UPDATE photo SET image = x'00' WHERE id = 'p1'"))
        for spoilt in ("x''", "x'00'"):
            connection.execute(sa.text(f"UPDATE quotation_link SET pdf = {spoilt}"))
    found = check_files(store)
    assert set(found.damaged) == {digest(before[0]), digest(before[2])}
    store.outside.use(place if outside else None, in_file.first_id)
    assert mend_files(store, found.damaged, tmp_path / "whole.zip") == 2
    found = check_files(store)
    assert found.whole and (found.outside, found.inside) == ((2, 2) if outside else (0, 4))
    assert contents(store, job, link) == before


def test_all_of_a_firm_is_handed_out_with_what_stands_outside(in_file, tmp_path):
    job, link = filled(in_file.first)
    hand_out_firm(in_file, in_file.first_id, tmp_path / "firm.zip")
    with zipfile.ZipFile(tmp_path / "firm.zip") as opened:
        held = {opened.read(name) for name in opened.namelist()}
    assert set(contents(in_file.first, job, link)) <= held


WRITER = """
import sys
from pathlib import Path
from pavewright.store import open_installation
kept = open_installation(Path(sys.argv[1]), sys.argv[2])
job = kept.first.add("{}").id
print(job, flush=True)
for number in range(10_000):
    kept.first.add_photo(f"p{number}", job, f"photo {number}".encode() * 1_000, "", None)
    print(f"p{number}", flush=True)
"""


@pytest.mark.parametrize("acknowledged", [1, 7, 20])
def test_killed_at_any_moment_what_was_acknowledged_is_there(tmp_path, acknowledged):
    at, files = tmp_path / "jobs.sqlite", tmp_path / "files"
    writer = subprocess.Popen(
        [sys.executable, "-c", WRITER, str(at), str(files)], stdout=subprocess.PIPE, text=True, stdin=subprocess.DEVNULL
    )
    try:
        job = writer.stdout.readline().strip()
        told = [writer.stdout.readline().strip() for _ in range(acknowledged)]
    finally:
        writer.send_signal(signal.SIGKILL)
        told += writer.stdout.read().split()
        writer.wait()
        writer.stdout.close()
    with closing(open_installation(at, files)) as kept:
        there = {one.id for one in kept.first.photos(job)}
        assert set(told) <= there and len(told) >= acknowledged
        for name in there:
            assert kept.first.photo(job, name) == f"photo {name[1:]}".encode() * 1_000
        assert check_files(kept.first).whole
