"""Points from a file on the command line."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from pavewright.cli import main
from pavewright.desk import demo_document
from pavewright.files import read_csv_points, read_dxf, write_csv_points, write_dxf_points

FILE = "Pt,E,N,Z\nS1,0,0,10.0\nS2,4.5,0.1,\n"
GIVEN = ("--order", "name,east,north,level", "--unit", "m")


def run(*words):
    return CliRunner().invoke(main, ["points", *map(str, words)])


def test_without_an_order_the_first_lines_are_shown(tmp_path):
    (tmp_path / "p.csv").write_text(FILE)
    done = run(tmp_path / "p.csv")
    assert done.exit_code == 2
    assert "S1,0,0,10.0" in done.output
    assert "--order" in done.output


def test_points_are_added_to_a_job(tmp_path):
    (tmp_path / "p.csv").write_text(FILE)
    (tmp_path / "job.json").write_bytes(demo_document())
    done = run(tmp_path / "p.csv", *GIVEN, "--into", tmp_path / "job.json")
    assert done.exit_code == 0
    added = json.loads(done.stdout)["measurements"]["points"][-2:]
    assert [(one["name"], one["x_mm"], one.get("level_mm")) for one in added] == [
        ("S1", 0.0, 10000.0),
        ("S2", 4500.0, None),
    ]


def test_a_name_that_is_taken_is_refused(tmp_path):
    name = json.loads(demo_document())["measurements"]["points"][0]["name"]
    (tmp_path / "p.csv").write_text(f"{name},0,0,10\n")
    (tmp_path / "job.json").write_bytes(demo_document())
    done = run(tmp_path / "p.csv", *GIVEN, "--into", tmp_path / "job.json")
    assert done.exit_code == 2
    assert f"a point {name} already" in done.output


@pytest.mark.parametrize("ending", ["csv", "dxf"])
def test_the_survey_of_a_job_is_written_and_read_back_unchanged(tmp_path, ending):
    job, out = tmp_path / "job.json", tmp_path / f"survey.{ending}"
    job.write_bytes(demo_document())
    done = CliRunner().invoke(main, ["survey-out", str(job), "-o", str(out)])
    assert done.exit_code == 0, done.output
    if ending == "csv":
        read = read_csv_points(out.read_bytes(), "name,east,north,level", "mm")
        assert write_csv_points(read) == out.read_bytes()
    else:
        read = read_dxf(out.read_bytes(), ["SURVEY_POINTS"], "mm").points
        assert read_dxf(write_dxf_points(read), ["SURVEY_POINTS"], "mm").points == read
    names = {each["name"] for each in json.loads(demo_document())["measurements"]["offsets"]}
    assert names <= {point.name for point in read}
    assert any(point.level_mm is not None for point in read)


def test_another_kind_of_file_is_not_written(tmp_path):
    job = tmp_path / "job.json"
    job.write_bytes(demo_document())
    done = CliRunner().invoke(main, ["survey-out", str(job), "-o", str(tmp_path / "survey.txt")])
    assert done.exit_code == 2
    assert "as .csv or .dxf" in done.output
