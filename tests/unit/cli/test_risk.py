"""The command that works out the risk of a price."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from pavewright.cli import main
from pavewright.desk import DEMO


def run(*words):
    return CliRunner().invoke(main, ["risk", *map(str, words), "--quiet"])


def test_it_says_how_the_price_falls_what_moves_it_and_what_to_order():
    done = run(DEMO, "--losing", 10)
    assert done.exit_code == 0, done.output
    said = done.output
    for words in ("price of the plan", "P10", "P50", "P90", "chance of losing money", "10 in 100 such jobs"):
        assert words in said
    assert "Output: bedding and laying" in said
    assert "cheapest in the mean" in said
    assert "Access 0.7 m, not 0.9" in said


def test_json_holds_the_whole_of_it():
    found = json.loads(run(DEMO, "--json").output)
    assert len(found["break_even"]) == 99
    assert {"drivers", "orders", "facts", "quantiles", "losing"} <= set(found)


@pytest.mark.parametrize("losing", [0, 51])
def test_a_chance_that_is_none_is_refused(losing):
    assert run(DEMO, "--losing", losing).exit_code == 2


def test_a_job_without_a_price_says_what_to_enter(tmp_path):
    document = json.loads(DEMO.read_text("utf-8"))
    document["rates"] = {}
    for unit in document["units"]:
        unit.pop("pack_price_minor", None)
    path = tmp_path / "bare.json"
    path.write_text(json.dumps(document), "utf-8")
    done = run(path)
    assert done.exit_code == 2
    assert "Enter prices" in done.output
