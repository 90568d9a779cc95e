"""A find is entered on the command line: the job with it, or what it adds, or why not."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from pavewright.cli._dig_differs import dig_differs_command

DRIVE = str(Path(__file__).parents[3] / "examples" / "front_drive.json")
FIND = ["--kind", "soft_spot", "--name", "Clay", "--area", "Drive", "--depth-mm", "300", "--on", "2027-05-10"]


def test_a_find_is_printed_in_the_job_or_as_what_it_adds():
    done = CliRunner().invoke(dig_differs_command, [DRIVE, *FIND, "--area-m2", "6", "--quiet"])
    assert done.exit_code == 0
    assert json.loads(done.output)["dig_found"][0]["area_m2"] == 6.0
    added = CliRunner().invoke(dig_differs_command, [DRIVE, *FIND, "--area-m2", "6", "--quiet", "--compare"])
    measures = {each["kind"]: each for each in json.loads(added.output)["measures"]}
    assert measures["dig"]["after"] - measures["dig"]["before"] == pytest.approx(1.8, abs=0.11)


def test_half_a_find_is_refused_in_words():
    done = CliRunner().invoke(dig_differs_command, [DRIVE, *FIND, "--quiet"])
    assert done.exit_code == 2
    assert "How large is Clay?" in done.output
