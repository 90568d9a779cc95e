"""A watched folder: what is dropped is done once, what cannot be taken is told, nothing is deleted."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from pavewright.cli import main
from pavewright.cli._watch import until_settled
from pavewright.desk import demo_document

GEOJSON = {
    "type": "FeatureCollection",
    "features": [
        {
            "type": "Feature",
            "properties": {"name": "S1"},
            "geometry": {"type": "Point", "coordinates": [1.0, 2.0, 10.0]},
        }
    ],
}


def watch(folder, *words):
    return CliRunner().invoke(main, ["watch", str(folder), "--once", "--no-papers", *words])


@pytest.fixture
def box(tmp_path):
    folder = tmp_path / "box"
    folder.mkdir()
    return folder


def test_jobs_are_planned_once_and_again_when_they_change(box):
    (box / "terrace.json").write_bytes(demo_document())
    first = watch(box)
    assert first.exit_code == 0, first.output
    assert "terrace.json: planned" in first.output
    assert json.loads((box / "results" / "terrace.json" / "plan.json").read_bytes())["cost"]["total_minor"] > 0
    assert ": planned" not in watch(box).output
    (box / "terrace.json").write_bytes(demo_document() + b"\n")
    assert "terrace.json: planned" in watch(box).output


def test_what_cannot_be_taken_gets_a_sentence_and_stays(box):
    for name, content in (("bad.json", b"{"), ("list.json", b"[]"), ("points.csv", b"A,1,2\n"), ("cloud.las", b"LASF")):
        (box / name).write_bytes(content)
    done = watch(box)
    assert done.exit_code == 0, done.output
    for name in ("bad.json", "list.json", "points.csv", "cloud.las"):
        assert (box / name).exists()
        said = (box / "results" / name / "not-taken.txt").read_text()
        assert len(said.split()) > 3, name
    assert "--order" in (box / "results" / "points.csv" / "not-taken.txt").read_text()
    assert ": not taken" not in watch(box).output


def test_files_of_points_are_brought_in(box, tmp_path):
    (box / "survey.geojson").write_text(json.dumps(GEOJSON))
    done = watch(box, "-o", str(tmp_path / "out"))
    told = tmp_path / "out" / "survey.geojson"
    assert (told / "points.json").exists() or (told / "not-taken.txt").exists(), done.output
    assert not (box / "results").exists()


def test_a_file_that_is_still_written_is_waited_for(box):
    path, grown = box / "slow.json", []

    def sleep(_seconds):
        grown.append(1)
        if len(grown) < 4:
            path.write_bytes(path.read_bytes() + b" ")

    path.write_bytes(b"{")
    until_settled(box, lambda: (path,), sleep)
    assert len(grown) == 4
    until_settled(box, tuple, sleep)
    assert len(grown) == 4


def test_results_need_a_folder_of_their_own(box):
    assert watch(box, "-o", str(box)).exit_code == 2
    assert watch(box / "gone").exit_code == 2
