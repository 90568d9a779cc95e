import pytest

from pavewright.rulebook import RulebookError, editions, load
from pavewright.rules import UnknownFigureError


@pytest.mark.parametrize("edition", editions())
def test_every_edition_loads_and_every_figure_names_a_described_source(edition):
    rulebook = load(edition)
    assert rulebook.figures
    for figure in rulebook.figures.values():
        assert figure.source in rulebook.sources
        assert figure.label
        assert figure.citation


def test_unknown_edition_is_named_with_those_that_exist():
    with pytest.raises(RulebookError, match="elsewhere, england, ireland, scotland, usa, wales"):
        load("nowhere")


def test_unknown_figure_is_a_bug():
    with pytest.raises(UnknownFigureError, match="no figure levels.none"):
        load("england").figure("levels.none")


def test_the_united_states_keep_the_fall_away_from_a_house_and_name_their_own_sources():
    book = load("usa")
    for key in ("levels.min_fall_one_in", "levels.min_fall_riven_one_in", "levels.main_fall_one_in"):
        assert (book.value(key), book.figure(key).source) == (50.0, "irc_r401_3")
    assert book.value("levels.steepest_one_in") == book.value("levels.steepest_ramp_cross_one_in") == 48.0
    assert book.figure("levels.steepest_walk_one_in").status.value == "M"
    assert book.value("water.ground_from_house_one_in") == 3048.0 / 152.4
    assert "check with your local building department" in book.title
    # what no source of theirs was read for is as in the common figures, with its source
    assert book.figure("levels.below_dpc_mm") == load("common").figure("levels.below_dpc_mm")


def test_soakaways_keep_their_distance_in_every_edition():
    apart = {edition: load(edition).value("water.soakaway_from_boundary_m") for edition in editions()}
    assert apart == dict.fromkeys(editions(), 2.5) | {"scotland": 5.0}
    for edition in editions():
        for thing in ("building", "road"):
            assert load(edition).value(f"water.soakaway_from_{thing}_m") == 5.0


def test_access_in_ireland_is_there():
    book = load("ireland")
    wanted = {"steepest_one_in": 40.0, "counts_as_level_one_in": 50.0, "access_width_mm": 1500.0}
    wanted |= {"passing_place_width_mm": 1800.0, "passing_place_length_mm": 2000.0, "passing_place_every_m": 25.0}
    assert {name: book.value(f"levels.{name}") for name in wanted} == wanted
