"""Sums and words are found by what people of the trade call them, misspelt or not."""

from __future__ import annotations

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from pavewright import catalogue
from pavewright.cli import main
from pavewright.desk import find_sums, search
from pavewright.desk._search import _trade_words


@pytest.mark.parametrize(
    ("looked_for", "among_the_first"),
    [
        ("slope", "fall"),
        ("gradiant", "gradient"),
        ("1 in 60", "fall"),
        ("1:80", "fall"),
        ("2 %", "gradient"),
        ("soakaway", "soakaway-size"),
        ("soakway", "soakaway-size"),
        ("dry well", "soakaway-size"),
        ("steps", "risers"),
        ("stairs", "risers"),
        ("sand", "mortar-mix"),
        ("How much sand?", "layer-mass"),
        ("skip", "bulking-and-loads"),
        ("muck away", "bulking-and-loads"),
        ("hardcore", "layer-mass"),
        ("3-4-5", "three-four-five"),
        ("square", "three-four-five"),
        ("excavtion", "dig-depth"),
        ("curb", "kerb-channel"),
        ("puddel", "puddle-in-dish"),
        ("quote", "price-from-cost"),
        ("how many slabs", "slabs-by-area"),
        ("straight edge", "flatness-along-a-line"),
    ],
)
def test_the_words_of_the_trade_find_their_sum(looked_for, among_the_first):
    assert among_the_first in find_sums(looked_for)[:3]


def test_every_sum_is_found_by_its_name_and_by_its_title():
    for entry in catalogue.SUMS:
        assert entry.name in find_sums(entry.name)[:3], entry.name
        assert entry.name in find_sums(entry.title), entry.title


def test_what_nobody_says_finds_nothing():
    assert find_sums("qqqzzz") == find_sums("") == find_sums("the of a") == ()


def test_the_list_of_likes_names_sums_that_there_are():
    assert set(_trade_words()["also"]) <= {entry.name for entry in catalogue.SUMS}


@given(st.text(max_size=200))
def test_no_question_is_too_strange(words):
    found = search(words)
    assert set(found) == {"sums", "words"}


def test_a_word_of_the_trade_comes_with_its_meaning():
    found = {each["word"]: each["meaning"] for each in search("haunch")["words"]}
    assert "haunch" in found
    assert found["haunch"]


def test_the_command_finds_and_suggests():
    runner = CliRunner()
    found = runner.invoke(main, ["sum", "--find", "skip"])
    assert found.exit_code == 0
    assert found.output.startswith("bulking-and-loads\n")
    missed = runner.invoke(main, ["sum", "soakway"])
    assert missed.exit_code == 2
    assert "soakaway-size" in missed.output
