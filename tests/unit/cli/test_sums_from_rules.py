"""Sums at the command line: what the rulebook has is taken and said, what is not known is not shown as a number."""

from __future__ import annotations

import json

from click.testing import CliRunner

from pavewright.cli import main

BOOK = ("backsights_mm=1500,-", "intermediates_mm=-,-", "foresights_mm=-,1492", "first_level_mm=10000")


def shown(*words):
    result = CliRunner().invoke(main, ["sum", *words])
    assert result.exit_code == 0, result.output
    return result.output


def test_a_level_book_without_a_limit_takes_the_rulebooks_and_says_so():
    reported = shown("level-book", *BOOK, "closing_level_mm=10000")
    assert (
        "misclosure_per_setup_mm = 5 mm    not given: the rulebook's (elsewhere of 2026-11-28), surveying_for_engineers"
        in reported
    )
    assert "verdict = observe again" in reported
    assert "no limit given" in shown("level-book", *BOOK, "closing_level_mm=10000", "misclosure_per_setup_mm=0")


def test_what_is_not_given_comes_from_the_edition_that_is_named():
    reported = json.loads(shown("level-book", *BOOK, "closing_level_mm=10000", "--edition", "england", "--json"))
    assert reported["edition"].startswith("england of ")
    assert reported["taken"]["misclosure_per_setup_mm"]["value"] == 5.0
    refused = CliRunner().invoke(main, ["sum", "level-book", *BOOK, "closing_level_mm=10000", "--edition", "atlantis"])
    assert refused.exit_code == 2
    assert "no rulebook edition 'atlantis'" in refused.output


def test_nothing_is_said_of_an_edition_where_all_was_given():
    reported = json.loads(shown("level-book", *BOOK, "closing_level_mm=10000", "misclosure_per_setup_mm=0", "--json"))
    assert "edition" not in reported


def test_a_dig_without_a_level_of_the_ground_has_no_depth_below_it():
    reported = shown("dig-depth", "dpc_mm=10150", "thicknesses_mm=40,35,100")
    assert "formation_mm = 9825 mm" in reported
    assert "below_ground_mm = –    " in reported
    answers = json.loads(shown("dig-depth", "dpc_mm=10150", "thicknesses_mm=40,35,100", "ground_mm=10000", "--json"))
    assert answers["answers"]["below_ground_mm"] == [175.0]


def volume(*areas):
    given = ",".join(str(area) for area in areas)
    return json.loads(shown("end-area-volume", f"areas_m2={given}", "spacing_mm=1000", "--json"))["answers"]


def test_volumes_say_where_a_rule_does_not_hold():
    smooth = volume(*(1.0 + 0.5 * x * x for x in range(7)))
    assert smooth["simpson_m3"] == [6.0 + 36.0]
    assert smooth["caution"] == "none"
    kinked = volume(2, 12, 2, 12, 2)
    assert "kink" in kinked["caution"]
    even = volume(2, 3, 4, 6)
    assert even["simpson_m3"] == []
    assert "even number of sections" in even["caution"]
    means = volume(4.0, 5.0, 6.0)
    assert "measure the middle section" in means["caution"]
