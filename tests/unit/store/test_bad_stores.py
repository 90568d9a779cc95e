"""A store that cannot be used ends in a sentence that says what to do, on the command line with exit code 2."""

from __future__ import annotations

import os
import shutil
import sqlite3
import subprocess
import sys
import tempfile
from contextlib import closing
from pathlib import Path

import pytest
from click.testing import CliRunner

from pavewright.cli import main
from pavewright.store import StoreTroubleError, Trouble, open_file
from pavewright.store import _open as opening


def sql(path, *commands):
    with closing(sqlite3.connect(path)) as raw:
        for one in commands:
            raw.execute(one)
        raw.commit()


def text(path):
    path.write_text("Not a database, but the notes of a site visit.\n" * 20, "utf-8")


def header(path):
    path.write_bytes(b"\x00" * 40 + path.read_bytes()[40:])


def page_size(path):
    path.write_bytes(path.read_bytes()[:16] + b"\x00\x03" + path.read_bytes()[18:])


def cut(path):
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])


def cut_to_nothing(path):
    path.write_bytes(b"")


def page_lost(path):
    content = path.read_bytes()
    middle = len(content) // 2 // 4096 * 4096
    path.write_bytes(content[:middle] + b"\xa5" * 4096 + content[middle + 4096 :])


def newer(path):
    sql(path, "UPDATE alembic_version SET version_num = '0999'")


def no_version(path):
    sql(path, "DROP TABLE alembic_version")


def version_gone(path):
    sql(path, "DELETE FROM alembic_version")


def foreign(path):
    path.unlink()
    sql(path, "CREATE TABLE song (name TEXT)")


def foreign_of_the_same_tool(path):
    path.unlink()
    sql(path, "CREATE TABLE song (name TEXT)", "CREATE TABLE alembic_version (version_num TEXT)")
    sql(path, "INSERT INTO alembic_version VALUES ('0001')")


def folder(path):
    path.unlink()
    path.mkdir()


BAD = [
    (text, Trouble.NOT_A_STORE, "Otherwise choose another file"),
    (header, Trouble.NOT_A_STORE, "pavewright restore BACKUP"),
    (page_size, Trouble.NOT_A_STORE, "pavewright restore BACKUP"),
    (cut, Trouble.DAMAGED, "pavewright restore BACKUP"),
    (cut_to_nothing, Trouble.EMPTY, "pavewright restore BACKUP"),
    (page_lost, Trouble.DAMAGED, "pavewright restore BACKUP"),
    (newer, Trouble.NEWER, "update the program"),
    (no_version, Trouble.NO_VERSION, "pavewright restore BACKUP"),
    (version_gone, Trouble.NO_VERSION, "pavewright restore BACKUP"),
    (foreign, Trouble.NOT_A_STORE, "choose another file"),
    (foreign_of_the_same_tool, Trouble.NOT_A_STORE, "choose another file"),
    (folder, Trouble.NOT_A_STORE, "choose another file"),
]


@pytest.mark.parametrize(("spoil", "trouble", "what_to_do"), BAD, ids=[one[0].__name__ for one in BAD])
def test_a_bad_store_says_what_to_do_and_is_left_as_it_is(filled, spoil, trouble, what_to_do):
    spoil(filled)
    before = None if filled.is_dir() else filled.read_bytes()
    with pytest.raises(StoreTroubleError) as reported:
        open_file(filled)
    assert reported.value.trouble is trouble
    for words in (["serve", "--no-browser"], ["backup", str(filled.with_name("copy.sqlite"))]):
        if words[0] == "backup" and trouble is Trouble.NEWER:
            continue
        done = CliRunner().invoke(main, [*words, "--data", str(filled)])
        assert done.exit_code == 2, done.output
        assert what_to_do in done.output
        assert str(filled) in done.output
        assert "Traceback" not in done.output
    assert before is None or filled.read_bytes() == before
    assert not filled.with_name("copy.sqlite").exists()


def test_a_locked_store_says_so(filled, monkeypatch):
    monkeypatch.setattr(opening, "BUSY_MS", 50)
    with closing(sqlite3.connect(filled, isolation_level=None)) as other:
        other.execute("PRAGMA locking_mode=EXCLUSIVE")
        other.execute("BEGIN EXCLUSIVE")
        done = CliRunner().invoke(main, ["serve", "--no-browser", "--data", str(filled)])
        assert (done.exit_code, "close it there" in done.output) == (2, True)
        other.execute("ROLLBACK")
    open_file(filled).close()


OPENED = """
import sys
from pathlib import Path
from pavewright.store import StoreTroubleError, open_file
try:
    open_file(Path(sys.argv[1]))
except StoreTroubleError as problem:
    print(problem.trouble.value, problem.message)
"""


@pytest.mark.parametrize(("of_file", "of_folder"), [(0o444, 0o777), (0o666, 0o555), (0o000, 0o777)])
def test_a_store_that_may_not_be_written_says_so(filled_file, of_file, of_folder):
    with tempfile.TemporaryDirectory() as place:
        path = Path(shutil.copy(filled_file, place))
        path.chmod(of_file)
        Path(place).chmod(of_folder)
        user = {"user": 65534, "group": 65534, "extra_groups": []} if os.geteuid() == 0 else {}
        done = subprocess.run([sys.executable, "-c", OPENED, path], capture_output=True, text=True, check=False, **user)
        Path(place).chmod(0o777)
        assert done.returncode == 0, done.stderr
        assert done.stdout.startswith("not_writable ")
        assert "allow writing to both" in done.stdout


def test_a_folder_that_cannot_be_made_says_so(tmp_path):
    (tmp_path / "file").write_text("x")
    done = CliRunner().invoke(main, ["serve", "--no-browser", "--data", str(tmp_path / "file" / "jobs.sqlite")])
    assert (done.exit_code, "choose another place" in done.output) == (2, True)


def test_a_new_store_on_a_full_disk_says_so(small_disk):
    (small_disk / "filler").write_bytes(b"x" * 2_088_000)
    done = CliRunner().invoke(main, ["serve", "--no-browser", "--data", str(small_disk / "jobs.sqlite")])
    assert (done.exit_code, "free some space" in done.output) == (2, True)


@pytest.mark.parametrize("name", ["a?b.sqlite", "a#b%20c.sqlite", "file:x.sqlite", ":memory:", "ü ß.sqlite"])
def test_jobs_are_kept_under_the_very_name_that_was_given(tmp_path, monkeypatch, name):
    monkeypatch.chdir(tmp_path)
    store = open_file(Path(name))
    store.add("{}")
    store.close()
    assert [each.name for each in tmp_path.iterdir()] == [name]
    again = open_file(Path(name))
    assert len(again.jobs()) == 1
    again.close()
