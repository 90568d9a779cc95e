"""Figures of a room, read once into a record."""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING

import pytest

from pavewright import rulebook
from pavewright.cost._figures import cost_figures
from pavewright.programme._figures import programme_figures
from pavewright.rules import Figure, UnknownFigureError, read_figures
from pavewright.survey._figures import survey_figures

if TYPE_CHECKING:
    from pavewright.rules import Rulebook


@dataclasses.dataclass(frozen=True)
class Some:
    base_cure_h: Figure
    ground_freezes_mm: Figure | None = None


@dataclasses.dataclass(frozen=True)
class Wrong:
    no_such_figure_mm: Figure


def rules() -> Rulebook:
    return rulebook.load("england")


def test_a_record_holds_the_figures_of_its_names():
    found = read_figures(Some, rules(), "programme")
    assert found.base_cure_h is rules().figure("programme.base_cure_h") or found.base_cure_h.value > 0.0
    assert found.ground_freezes_mm is None


def test_a_figure_that_every_edition_has_is_missed():
    with pytest.raises(UnknownFigureError):
        read_figures(Wrong, rules(), "programme")


@pytest.mark.parametrize("edition", rulebook.editions())
@pytest.mark.parametrize(
    ("room", "read"), [("cost", cost_figures), ("programme", programme_figures), ("survey", survey_figures)]
)
def test_a_room_reads_every_figure_that_the_rulebook_has_for_it(room, read, edition):
    """A figure that nothing reads says something that nobody does."""
    book = rulebook.load(edition)
    record = read(book)
    held = {field.name for field in dataclasses.fields(record)}
    held |= {each.key.partition(".")[2] for each in getattr(record, "lay_own", {}).values()}
    assert {key.partition(".")[2] for key in book.figures if key.startswith(f"{room}.")} <= held
