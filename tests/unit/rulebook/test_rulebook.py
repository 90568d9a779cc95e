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
    with pytest.raises(RulebookError, match="elsewhere, england, ireland, scotland, wales"):
        load("nowhere")


def test_unknown_figure_is_a_bug():
    with pytest.raises(UnknownFigureError, match="no figure levels.none"):
        load("england").figure("levels.none")
