"""Sums at the command line take numbers as people write them, and refuse what may be another unit."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from pavewright import catalogue
from pavewright.cli import main


def asked(*words):
    return CliRunner().invoke(main, ["sum", *words])


def test_every_length_of_a_sum_says_what_kind_it_is():
    left = {
        each.name
        for entry in catalogue.SUMS
        for each in (*entry.inputs, *entry.table_inputs)
        if catalogue.without_kind(each)
    }
    assert left == set()


@pytest.mark.parametrize("fall", ["one_in=60", "one_in=1:60", "one_in=1 in 60", "one_in=1/60"])
@pytest.mark.parametrize("run", ["run_mm=3000", "run_mm=3m", "run_mm=300cm", "run_mm=3.0 m"])
def test_a_run_and_its_fall_are_read_in_any_unit(run, fall):
    result = asked("fall", run, fall, "--json")
    assert result.exit_code == 0, result.output
    assert json.loads(result.output)["answers"]["drop_mm"] == pytest.approx(50.0)


def test_feet_and_inches_and_per_cent_are_read():
    result = asked("fall", "run_mm=19' 8 1/4\"", "one_in=2 %", "--json")
    assert json.loads(result.output)["answers"]["drop_mm"] == pytest.approx((19 * 12 + 8.25) * 25.4 / 50)


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("fall", "run_mm=3", "one_in=60"), "run_mm: 3 may be 3 mm or 3 m; write it with its unit."),
        (("fall", "run_mm=3000", "one_in=2"), "one_in: 2 may be 1 in 2 or 2 %; write it with its unit."),
        (("fall", "run_mm=three", "one_in=60"), "run_mm: 'three' is not a number; write the reading in figures."),
    ],
)
def test_what_may_be_another_unit_is_refused_with_a_sentence(words, sentence):
    result = asked(*words)
    assert result.exit_code == 2
    assert sentence in result.output


def test_a_fall_of_sixty_per_cent_is_asked():
    entry = catalogue.find("collector-channel")
    quantity = next(each for each in entry.inputs if each.name == "fall_percent")
    with pytest.raises(ValueError, match="60 may be 60 % or 1 in 60"):
        catalogue.read_input(quantity, "60")
    assert catalogue.read_input(quantity, "1:50") == pytest.approx(2.0)
