"""What the command line says when something is amiss: words, a true exit code, and output that every console takes."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from pavewright.cli import _asked, main

EXAMPLES = Path(__file__).parents[3] / "examples"
PATH_JOB = str(EXAMPLES / "curved_path.json")


def run(*words):
    return CliRunner().invoke(main, list(words))


def test_a_fault_of_the_program_is_one_line_to_report_and_exit_code_3(monkeypatch):
    def breaks(*_words, **_more):
        raise KeyError("lost")

    monkeypatch.setattr(_asked, "make_plan_so_far", breaks)
    answer = run("plan", PATH_JOB)
    assert answer.exit_code == 3
    assert (
        "fault of the program" in answer.output
        and "KeyError" in answer.output
        and "test_faults.py" not in answer.output
    )
    assert "Traceback" not in answer.output
    assert answer.output.count("\n") == 1


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"[]",
        b"{",
        b"3",
        b'{"measurements": 3}',
        b'{"measurements": {"points": [1]}}',
        "\ufeff{}".encode(),
        b'{"a": 1e999}',
        b'{"a": "\\ud83d"}',
    ],
)
def test_points_into_a_damaged_job_are_refused_in_words(content, tmp_path):
    points, job = tmp_path / "p.csv", tmp_path / "job.json"
    points.write_text("A,1,2,3\n")
    job.write_bytes(content)
    answer = run("points", str(points), "--order", "name,east,north,level", "--unit", "m", "--into", str(job))
    assert answer.exit_code == (0 if content == "\ufeff{}".encode() else 2), answer.output
    assert "fault of the program" not in answer.output


def test_a_survey_is_not_written_into_a_folder_that_is_missing(tmp_path):
    answer = run("survey-out", PATH_JOB, "-o", str(tmp_path / "none" / "survey.csv"))
    assert answer.exit_code == 2
    assert "choose another place with -o" in answer.output


@pytest.mark.parametrize("cell", ["nan", "inf", "1e9", "-1", "0"])
def test_a_storm_on_cells_that_are_none_is_refused(cell):
    answer = run("storm", PATH_JOB, "--cell", cell)
    assert answer.exit_code == 2
    assert "sides of 25 to 1000 mm" in answer.output


def test_output_into_a_pipe_of_another_encoding_is_utf_8(tmp_path):
    job = json.loads(Path(PATH_JOB).read_text("utf-8"))
    job["identity"]["title"] = "Weg – Süd ✓ 庭"
    file = tmp_path / "job.json"
    file.write_text(json.dumps(job), "utf-8")
    surroundings = os.environ | {"PYTHONIOENCODING": "cp1252", "PYTHONUTF8": "0"}
    words = [sys.executable, "-m", "pavewright.cli", "plan", str(file), "--quiet"]
    done = subprocess.run(words, capture_output=True, check=False, env=surroundings)
    assert done.returncode in {0, 1}, done.stderr
    assert "Weg – Süd ✓ 庭" in done.stdout.decode("utf-8")
