"""Figures of a room, read once into a record."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import TYPE_CHECKING

import pytest

from pavewright import rulebook
from pavewright.catalogue import SUMS
from pavewright.cost._figures import cost_figures
from pavewright.pipeline._risk_draws import chance_figures
from pavewright.programme._figures import programme_figures
from pavewright.quantities._figures import quantity_figures
from pavewright.rules import Figure, UnknownFigureError, read_figures
from pavewright.survey._figures import survey_figures
from pavewright.water import water_figures

if TYPE_CHECKING:
    from pavewright.rules import Rulebook


@dataclasses.dataclass(frozen=True)
class Some:
    base_cure_h: Figure
    ground_freezes_mm: Figure | None = None


@dataclasses.dataclass(frozen=True)
class Wrong:
    no_such_figure_mm: Figure


READ = [
    ("chance", chance_figures),
    ("cost", cost_figures),
    ("programme", programme_figures),
    ("quantities", quantity_figures),
    ("survey", survey_figures),
    ("water", water_figures),
]
ELSEWHERE = {
    "loose_stone_kg_per_m3",
    "kerb_kg_per_m",
    "edging_kg_per_m",
    "walling_kg_per_m2",  # what is carried, in cost
    "packs_at_once",  # the order sheet
    "tax_standard_percent",
    "tax_reduced_percent",  # rates of the place, where a regime of tax is chosen
    "job_scatter_percent",
    "crew_scatter_percent",  # outputs learnt from past jobs, in the firm's book
}
"""Figures of these rooms that other rooms read."""


def rules() -> Rulebook:
    return rulebook.load("england")


def test_a_record_holds_the_figures_of_its_names():
    found = read_figures(Some, rules(), "programme")
    assert found.base_cure_h == rules().figure("programme.base_cure_h")
    assert found.ground_freezes_mm is None


def test_a_figure_that_every_edition_has_is_missed():
    with pytest.raises(UnknownFigureError):
        read_figures(Wrong, rules(), "programme")


@pytest.mark.parametrize("edition", rulebook.editions())
@pytest.mark.parametrize(("room", "read"), READ)
def test_a_room_reads_every_figure_that_the_rulebook_has_for_it(room, read, edition):
    """A figure that nothing reads says something that nobody does."""
    book = rulebook.load(edition)
    record = read(book)
    held = {field.name for field in dataclasses.fields(record)}
    for field in dataclasses.fields(record):
        value = getattr(record, field.name)
        grouped = value.values() if isinstance(value, Mapping) else ()
        held |= {each.key.partition(".")[2] for each in grouped if isinstance(each, Figure)}
    held |= {quantity.figure.partition(".")[2] for each in SUMS for quantity in each.inputs}
    held |= ELSEWHERE
    assert {key.partition(".")[2] for key in book.figures if key.startswith(f"{room}.")} <= held
