"""The commands of records: handed out from a store, checked as a PDF, a zip file or lines, changed ones found."""

from __future__ import annotations

import hashlib
import io
import json
import random
import shutil
import subprocess
import zipfile

import pytest
from click.testing import CliRunner

from pavewright.cli import main
from pavewright.store import Batch, open_file

READING = {"x_mm": 1.0, "y_mm": 2.0, "level_mm": 100_012.0, "area": "terrace", "label": "L1"}
JOB = {"identity": {"title": "Terrace of old bricks"}, "as_laid": {"date": "2027-06-01", "readings": []}}


def asked(*words):
    return CliRunner().invoke(main, [str(each) for each in words])


@pytest.fixture
def kept(tmp_path):
    data = tmp_path / "jobs.sqlite"
    store = open_file(data)
    job = store.add(json.dumps(JOB)).id
    operation = {"op": "add", "at": ["as_laid", "readings"], "item": READING}
    store.operations.take(job, Batch("k1", 1, "phone", (operation,), "levels"))
    store.add_photo("p1", job, b"image", "drain", None)
    store.add_photo("p2", job, b"other", "bed", None)
    store.remove_photo(job, "p2")
    store.close()
    return data, job


def _out(kept, name, *more):
    data, job = kept
    target = data.parent / name
    done = asked("record", job, "--to", target, "--data", data, *more)
    assert done.exit_code == 0, done.output
    return target, done.output.split("Hash of the last entry: ")[1].split()[0]


@pytest.mark.parametrize("name", ["record.pdf", "record.zip", "record.jsonl"])
def test_a_record_that_was_handed_out_is_checked(kept, name):
    target, head = _out(kept, name)
    done = asked("verify-record", target, "--hash", f"{head[:8]} {head[8:]}")
    assert done.exit_code == 0, done.output
    assert "The entries hang together." in done.output
    assert f"Hash of the last entry: {head}" in done.output
    assert "nothing up to it was changed since" in done.output
    right = 1 if name == "record.zip" else 0
    assert f"Photos: {right} beside the record" in done.output
    without = asked("verify-record", target).output
    assert "No hash that was given out was compared" in without


def test_a_hash_that_was_given_out_earlier_is_found_and_a_foreign_one_is_not(kept):
    _, early = _out(kept, "early.jsonl")
    store = open_file(kept[0])
    store.add_photo("p3", kept[1], b"third", "", None)
    store.close()
    later, _ = _out(kept, "later.pdf")
    assert asked("verify-record", later, "--hash", early).exit_code == 0
    done = asked("verify-record", later, "--hash", hashlib.sha256(b"x").hexdigest())
    assert done.exit_code == 1
    assert "FAILS: The hash that was given out is that of no entry" in done.output


def test_changed_lines_and_photos_are_found(kept):
    target, _ = _out(kept, "record.zip")
    with zipfile.ZipFile(target) as archive:
        files = {name: archive.read(name) for name in archive.namelist()}
    assert set(files) == {"record.pdf", "record.jsonl", "photos.sha256", "instructions.txt", "photos/p1.jpg"}
    edited = files["record.jsonl"].replace(b"100012.0", b"100002.0")
    for name, content, said in (
        ("record.jsonl", edited, "An entry does not follow the one before it"),
        ("photos/p1.jpg", b"another", "A file is not the one that was recorded. Line 5. File photos/p1.jpg."),
        ("photos/p2.jpg", b"other", "A file was never recorded, or was deleted. File photos/p2.jpg."),
        ("record.pdf", _out(kept, "other.pdf")[0].read_bytes(), ""),
    ):
        made = io.BytesIO()
        with zipfile.ZipFile(made, "w") as archive:
            for each, what in (files | {name: content}).items():
                archive.writestr(each, what)
        target.write_bytes(made.getvalue())
        done = asked("verify-record", target)
        assert (done.exit_code, said in done.output) == (1 if said else 0, True), done.output


def test_lines_beside_a_pdf_of_another_record_are_found(kept):
    early, _ = _out(kept, "early.pdf")
    store = open_file(kept[0])
    store.add_photo("p3", kept[1], b"third", "", None)
    store.close()
    target, _ = _out(kept, "record.zip")
    with zipfile.ZipFile(target) as archive:
        files = {name: archive.read(name) for name in archive.namelist()} | {"record.pdf": early.read_bytes()}
    with zipfile.ZipFile(target, "w") as archive:
        for name, what in files.items():
            archive.writestr(name, what)
    done = asked("verify-record", target)
    assert (done.exit_code, "File record.pdf." in done.output) == (1, True)


def test_what_is_no_record_is_refused_with_a_sentence(tmp_path, kept):
    target, _ = _out(kept, "record.pdf")
    whole = target.read_bytes()
    chance = random.Random(3)
    hostile = [
        b"",
        b"%PDF-1.7 nothing",
        b"PK\x03\x04 nothing",
        *(whole[: chance.randrange(len(whole))] for _ in range(20)),
    ]
    for content in hostile:
        (tmp_path / "x").write_bytes(content)
        done = asked("verify-record", tmp_path / "x")
        assert done.exit_code in {1, 2}, done.output
        assert "fault of the program" not in done.output
    assert asked("verify-record", target, "--timestamp", target).exit_code == 2


@pytest.mark.slow
def test_a_bomb_is_refused(tmp_path):
    with zipfile.ZipFile(tmp_path / "bomb.zip", "w", zipfile.ZIP_DEFLATED) as archive:
        for number in range(5):
            archive.writestr(f"photos/{number}.jpg", bytes(90_000_000))
    done = asked("verify-record", tmp_path / "bomb.zip")
    assert (done.exit_code, "more than a record" in done.output) == (2, True)


def test_a_job_is_found_by_words_of_its_title(kept, tmp_path):
    data, _ = kept
    assert asked("record", "old bricks", "--to", tmp_path / "x.pdf", "--data", data).exit_code == 0
    done = asked("record", "nobody knows", "--data", data)
    assert (done.exit_code, "0 jobs are found" in done.output) == (2, True)
    assert asked("record", "x", "--data", tmp_path / "none.sqlite").exit_code == 2
    (tmp_path / "no.tsr").write_bytes(b"no token")
    done = asked("record", "old bricks", "--timestamp", tmp_path / "no.tsr", "--data", data)
    assert (done.exit_code, "cannot be read" in done.output) == (2, True)


@pytest.mark.skipif(
    shutil.which("pdfdetach") is None, reason="pdfdetach is not here; pypdf takes the files out beside it"
)
def test_a_stranger_gets_the_files_out_of_the_pdf_with_common_tools(kept):
    target, head = _out(kept, "record.pdf")
    folder = target.parent / "out"
    folder.mkdir()
    subprocess.run(["pdfdetach", "-saveall", "-o", str(folder), str(target)], check=True, capture_output=True)
    lines, _ = _out(kept, "record.jsonl")
    assert (folder / "record.jsonl").read_bytes() == lines.read_bytes()
    assert head in (folder / "record.jsonl").read_text("ascii")


def test_of_a_removed_job_the_last_hash_is_told(kept):
    _, head = _out(kept, "record.jsonl")
    store = open_file(kept[0])
    store.deleted.put(kept[1])
    store.deleted.remove(kept[1])
    (left,) = store.records.removed()
    store.close()
    done = asked("record", kept[1], "--data", kept[0])
    assert (done.exit_code, left.head in done.output, left.head != head) == (2, True, True)
