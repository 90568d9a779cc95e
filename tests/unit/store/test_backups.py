"""A backup is whole, made while people work; bringing one back keeps what was there and never writes over a thing."""

from __future__ import annotations

import json
import shutil
import sqlite3
import subprocess
import sys
import threading
from contextlib import closing

import pytest
from click.testing import CliRunner

from pavewright.cli import main
from pavewright.store import StoreTroubleError, Trouble, back_up, open_file, restore, restore_open


def run(*words):
    return CliRunner().invoke(main, [str(word) for word in words])


def titles(path):
    store = open_file(path)
    found = sorted(row.title for row in store.jobs())
    store.close()
    return found


def test_a_copy_made_while_jobs_are_saved_holds_all_that_was_acknowledged(tmp_path):
    path, target = tmp_path / "jobs.sqlite", tmp_path / "copy.sqlite"
    store = open_file(path)
    kept = store.add('{"n": 1}')
    acknowledged, stop = [1], threading.Event()

    def write():
        while not stop.is_set():
            rev = acknowledged[-1]
            acknowledged.append(store.save(kept.id, rev, json.dumps({"n": rev + 1, "filler": "x" * 30_000})))

    writer = threading.Thread(target=write)
    writer.start()
    while len(acknowledged) < 10:
        pass
    before = acknowledged[-1]
    contents = back_up(path, target)
    stop.set()
    writer.join()
    # the very thing that a copy by hand does not hold: it stands in the log beside the file
    shutil.copy(path, tmp_path / "by-hand.sqlite")
    store.close()
    copied = open_file(target)
    rev = copied.job(kept.id).rev
    assert before <= rev <= acknowledged[-1]
    assert json.loads(copied.job(kept.id).document)["n"] == rev == contents.revisions
    assert [one.rev for one in copied.revisions(kept.id)] == list(range(rev, 0, -1))
    copied.close()
    assert sorted(each.name for each in tmp_path.iterdir()) == ["by-hand.sqlite", "copy.sqlite", "jobs.sqlite"]


def test_at_quiet_times_the_file_alone_is_whole(tmp_path):
    store = open_file(tmp_path / "jobs.sqlite")
    kept = store.add("{}")
    with pytest.raises((StoreTroubleError, AssertionError)):
        shutil.copy(tmp_path / "jobs.sqlite", tmp_path / "early.sqlite")
        assert titles(tmp_path / "early.sqlite") == [store.jobs()[0].title]
    assert store.tidy() is True
    shutil.copy(tmp_path / "jobs.sqlite", tmp_path / "late.sqlite")
    late = open_file(tmp_path / "late.sqlite")
    assert late.job(kept.id).rev == 1
    late.close()
    store.close()


def test_a_log_that_somebody_reads_is_left_for_later(tmp_path):
    path = tmp_path / "jobs.sqlite"
    store = open_file(path)
    kept = store.add("{}")
    with closing(sqlite3.connect(path, isolation_level=None)) as reader:
        reader.execute("BEGIN")
        reader.execute("SELECT * FROM job").fetchall()
        store.save(kept.id, 1, '{"a": 1}')
        assert store.tidy() is False
        reader.execute("COMMIT")
    assert store.tidy() is True
    store.close()


def test_backup_and_restore_by_command(filled, tmp_path):
    target = tmp_path / "away.sqlite"
    done = run("backup", target, "--data", filled)
    assert (done.exit_code, "1 job, 4 revisions and 1 photo" in done.output) == (0, True)
    store = open_file(filled)
    store.add('{"identity": {"title": "Later"}}')
    store.close()
    again = run("backup", target, "--data", filled)
    assert (again.exit_code, "not written over" in again.output) == (2, True)
    assert titles(target) == ["Terrace 2"]

    done = run("restore", target, "--data", filled)
    assert (done.exit_code, "brought back" in done.output) == (0, True)
    assert titles(filled) == ["Terrace 2"]
    (aside,) = tmp_path.glob("jobs.before-*.sqlite")
    assert str(aside) in done.output
    assert titles(aside) == ["Later", "Terrace 2"]
    kept = open_file(filled)
    job = kept.jobs()[0].id
    assert kept.photo(job, "p1") == b"image"
    assert kept.deliver("d1", job, "{}", lambda text: text, "").repeated is True
    kept.close()
    assert not list(tmp_path.glob("*.part*"))


def test_a_backup_is_brought_back_where_the_jobs_are_damaged_or_gone(filled, tmp_path):
    back_up(filled, tmp_path / "away.sqlite")
    filled.write_bytes(b"\x00" * 100 + filled.read_bytes()[100:])
    spoilt = filled.read_bytes()
    restored = restore(tmp_path / "away.sqlite", filled)
    assert restored.aside.read_bytes() == spoilt
    assert titles(filled) == ["Terrace 2"]
    filled.unlink()
    assert restore(tmp_path / "away.sqlite", filled).aside is None
    assert titles(filled) == ["Terrace 2"]
    elsewhere = tmp_path / "new folder" / "jobs.sqlite"
    assert restore(tmp_path / "away.sqlite", elsewhere).contents.jobs == 1


def test_what_is_no_backup_is_not_brought_back(filled, tmp_path):
    before = filled.read_bytes()
    (tmp_path / "notes.txt").write_text("notes")
    with closing(sqlite3.connect(tmp_path / "empty.sqlite")) as raw:
        raw.execute("CREATE TABLE song (name TEXT)")
        raw.execute("DROP TABLE song")
    for backup, words in (
        ("notes.txt", "no store of jobs"),
        ("empty.sqlite", "no store of jobs"),
        ("none", "There is no"),
        ("jobs.sqlite", "in one"),
    ):
        done = run("restore", tmp_path / backup, "--data", filled)
        assert (done.exit_code, words in done.output) == (2, True), done.output
    assert filled.read_bytes() == before
    assert not list(tmp_path.glob("jobs.before*"))


def test_a_newer_backup_is_not_brought_back(filled, tmp_path):
    back_up(filled, tmp_path / "away.sqlite")
    with closing(sqlite3.connect(tmp_path / "away.sqlite")) as raw:
        raw.execute("UPDATE alembic_version SET version_num = '0999'")
        raw.commit()
    with pytest.raises(StoreTroubleError) as reported:
        restore(tmp_path / "away.sqlite", filled)
    assert reported.value.trouble is Trouble.NEWER
    assert titles(filled) == ["Terrace 2"]


HOLDING = """
import sys
from pathlib import Path
from pavewright.store import open_file
store = open_file(Path(sys.argv[1]))
store.jobs()
print("open", flush=True)
sys.stdin.read()
"""


def test_jobs_in_use_are_not_put_aside(filled, tmp_path):
    back_up(filled, tmp_path / "away.sqlite")
    words = [sys.executable, "-c", HOLDING, filled]
    with subprocess.Popen(words, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as server:
        assert server.stdout.readline() == "open\n"
        with pytest.raises(StoreTroubleError) as reported:
            restore(tmp_path / "away.sqlite", filled)
        assert reported.value.trouble is Trouble.LOCKED
        assert not list(tmp_path.glob("jobs.before*"))
        server.stdin.close()
    assert restore(tmp_path / "away.sqlite", filled).aside is not None


def test_a_copy_for_which_there_is_no_room_leaves_nothing(filled, small_disk):
    (small_disk / "filler").write_bytes(b"x" * 2_050_000)
    with pytest.raises(StoreTroubleError) as reported:
        back_up(filled, small_disk / "away.sqlite")
    assert reported.value.trouble is Trouble.FULL
    assert [each.name for each in small_disk.iterdir()] == ["filler"]
    shutil.copy(filled, small_disk.parent / "away.sqlite")
    with pytest.raises(StoreTroubleError):
        restore(small_disk.parent / "away.sqlite", small_disk / "jobs.sqlite")
    assert [each.name for each in small_disk.iterdir()] == ["filler"]


def test_a_copy_into_no_folder_says_so(filled, tmp_path):
    done = run("backup", tmp_path / "none" / "away.sqlite", "--data", filled)
    assert (done.exit_code, "There is no folder" in done.output) == (2, True)


def test_a_backup_is_brought_back_while_the_store_is_open(tmp_path):
    path, copy = tmp_path / "jobs.sqlite", tmp_path / "copy.sqlite"
    store = open_file(path)
    first = store.add('{"identity": {"title": "Terrace"}}')
    store.add_photo("p1", first.id, b"image", "", None)
    back_up(path, copy)
    store.save(first.id, 1, '{"identity": {"title": "Changed"}}')
    second = store.add('{"identity": {"title": "Path"}}')
    restored = restore_open(copy, path)
    assert [row.title for row in store.jobs()] == ["Terrace"]
    assert store.job(first.id).rev == 1
    assert store.photo(first.id, "p1") == b"image"
    assert store.save(first.id, 1, '{"identity": {"title": "Goes on"}}') == 2
    store.close()
    assert titles(path) == ["Goes on"]
    assert titles(restored.aside) == ["Changed", "Path"]
    assert second.id in {row.id for row in _jobs(restored.aside)}
    assert (restored.contents.jobs, restored.contents.photos) == (1, 1)
    assert not [each for each in tmp_path.iterdir() if each.name.endswith(".part")]


def _jobs(path):
    store = open_file(path)
    found = store.jobs()
    store.close()
    return found


@pytest.mark.parametrize("content", [b"", b"no store", b"SQLite format 3\x00" + bytes(4000)])
def test_what_is_no_backup_changes_nothing(tmp_path, content):
    path, wrong = tmp_path / "jobs.sqlite", tmp_path / "wrong"
    store = open_file(path)
    store.add('{"identity": {"title": "Terrace"}}')
    wrong.write_bytes(content)
    with pytest.raises(StoreTroubleError):
        restore_open(wrong, path)
    assert [row.title for row in store.jobs()] == ["Terrace"]
    store.close()
    assert {each.name for each in tmp_path.iterdir()} == {"jobs.sqlite", "wrong"}


def test_who_reads_while_a_backup_comes_back_sees_the_one_or_the_other_whole(tmp_path):
    path, copy = tmp_path / "jobs.sqlite", tmp_path / "copy.sqlite"
    store = open_file(path)
    for number in range(30):
        store.add(json.dumps({"identity": {"title": f"Old {number}"}, "filler": "x" * 30_000}))
    back_up(path, copy)
    for row in store.jobs():
        store.save(row.id, 1, json.dumps({"identity": {"title": row.title.replace("Old", "New")}}))
    seen, stop = [], threading.Event()

    def read():
        while not stop.is_set():
            seen.append({row.title.split()[0] for row in store.jobs()})

    reader = threading.Thread(target=read)
    reader.start()
    restore_open(copy, path)
    stop.set()
    reader.join()
    assert all(one in ({"Old"}, {"New"}) for one in seen)
    assert {row.title.split()[0] for row in store.jobs()} == {"Old"}
    store.close()


@pytest.mark.parametrize("way", [restore_open, restore])
def test_a_device_that_was_withdrawn_since_the_backup_stays_out(tmp_path, way):
    path, copy = tmp_path / "jobs.sqlite", tmp_path / "copy.sqlite"
    store = open_file(path)
    lost, lost_token = store.devices.pair("Lost phone")
    back_up(path, copy)
    store.devices.withdraw(lost.id)
    mine, token = store.devices.pair("Crew phone")
    if way is restore:
        store.close()
    way(copy, path)
    store.close()
    store = open_file(path)
    assert store.devices.of_token(lost_token) is None
    assert store.devices.of_token(token) == mine
    store.close()
