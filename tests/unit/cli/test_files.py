"""The commands for photos and papers outside the database."""

from __future__ import annotations

import asyncio
import contextlib
from contextlib import closing

import pytest
from click.testing import CliRunner

from pavewright.cli import main
from pavewright.store import open_installation
from pavewright.web._sweeping import sweep_now_and_then


def run(*words):
    return CliRunner().invoke(main, list(map(str, words)))


@pytest.fixture
def data(tmp_path):
    path = tmp_path / "jobs.sqlite"
    with closing(open_installation(path)) as kept:
        job = kept.first.add("{}").id
        kept.first.add_photo("p1", job, b"a photo", "", None)
    return path


def test_files_move_out_are_checked_copied_mended_and_moved_back(data, tmp_path):
    files, copy = tmp_path / "files", tmp_path / "whole.zip"
    place = ("--data", data, "--files", files)
    assert "1 files moved out" in run("files", "move", *place).output
    done = run("files", "check", *place)
    assert (done.exit_code, "1 files outside read and whole" in done.output) == (0, True)
    assert run("files", "check", "--data", data).exit_code == 2, "nobody said where they are"
    assert run("backup", "--whole", copy, *place).exit_code == 0
    assert run("drill", copy).exit_code == 0
    assert run("backup", tmp_path / "plain.sqlite", *place).exit_code == 0
    [kept] = [path for path in (files).rglob("*") if path.is_file()]
    kept.write_bytes(b"A photo")
    done = run("files", "check", *place)
    assert (done.exit_code, f"DAMAGED  {kept.name}" in done.output) == (1, True)
    assert "1 of 1 files brought back" in run("files", "mend", copy, *place).output
    assert run("files", "check", *place).exit_code == 0
    kept.unlink()
    assert run("files", "check", *place).exit_code == 1
    done = run("restore", copy, *place)
    assert (done.exit_code, "1 photos and papers of it were moved" in done.output) == (0, True)
    assert run("files", "check", *place).exit_code == 0
    assert "1 files moved back" in run("files", "move", "--back", *place).output
    assert run("files", "check", "--data", data).exit_code == 0
    assert "1 deleted" not in run("files", "sweep", *place, "--after-hours", "0").output, "put aside, and still named"


def test_a_server_sweeps_by_itself(data, tmp_path):
    with closing(open_installation(data, str(tmp_path / "files"))) as kept:
        kept.files.put(kept.first_id, b"nobody names me")

        async def a_moment():
            await asyncio.wait_for(sweep_now_and_then(kept, 0, 0.05), 3)

        with contextlib.suppress(TimeoutError):
            asyncio.run(a_moment())
        assert len(kept.files.marked(kept.first_id)) == 1
        assert len(list(kept.files.held(kept.first_id))) == 1
