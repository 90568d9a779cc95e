"""Points from a file on the command line."""

from __future__ import annotations

import json

from click.testing import CliRunner

from pavewright.cli import main
from pavewright.desk import demo_document

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
    added = json.loads(done.output)["measurements"]["points"][-2:]
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
