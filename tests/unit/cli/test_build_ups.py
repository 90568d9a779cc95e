"""The command that compares the build-ups that a job could have."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from pavewright.cli import main

DRIVE = Path(__file__).resolve().parents[3] / "examples" / "front_drive.json"


def run(*words):
    return CliRunner().invoke(main, ["build-ups", *map(str, words), "--quiet"])


@pytest.fixture(scope="module")
def said():
    done = run(DRIVE)
    assert done.exit_code == 0, done.output
    return done.output


def test_it_says_the_ground_each_build_up_and_which_rule_it_goes_by(said):
    assert said.startswith("ground  silty clay, bearing ratio 3 % by the soil, not measured")
    assert "Drive: unbound: laying course of sand on a sub-base (planned)" in said
    assert "goes by the rulebook's own: Sub-base 250 mm" in said
    assert "beside it base under blocks by use: Sub-base 150 mm" in said
    assert "takes areas.0.base_rule = road_1984" in said


def test_what_is_not_known_has_no_figure(said):
    assert "price at least" in said
    assert "not to be compared" in said
    permeable = said.split("Drive: permeable, not planned here")[1].split("\n\n")[0]
    assert "£" not in permeable
    assert "days of work" not in permeable
    assert "How fast water goes into this ground below the paving is not known" in permeable
    assert "The ground is clay" in permeable
    assert "from memory, not verified" in permeable


def test_a_refused_one_stands_with_its_stop(said):
    refused = said.split("Drive: mortar bed on a sub-base: refused")[1]
    assert "in mortar over loose stone and vehicles run on it" in refused


def test_json_holds_the_whole_of_it():
    found = json.loads(run(DRIVE, "--json").output)["build_ups"]
    assert {"ground", "alternatives", "refused", "why_not"} == set(found)
    keys = [each["key"] for each in (*found["alternatives"], *found["refused"])]
    assert keys[0] == "0.sand_on_sub_base"
    assert "0.sand_on_sub_base.shared_surface" in keys
    assert len(keys) == len(set(keys))


def test_where_nothing_is_known_of_the_ground_it_says_what_to_do_first(tmp_path):
    document = json.loads(DRIVE.read_text("utf-8"))
    document["site"]["ground"] = {}
    path = tmp_path / "bare.json"
    path.write_text(json.dumps(document), "utf-8")
    done = run(path)
    assert done.exit_code == 2
    assert "no build-up is compared yet" in done.output
