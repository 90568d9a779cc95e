"""The figures of the programme, read from the rulebook once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.rules import read_figures

if TYPE_CHECKING:
    from pavewright.rules import Figure, Rulebook


@dataclass(frozen=True, slots=True)
class ProgrammeFigures:
    """Times that work waits; each field is the figure of its name in the rulebook, with its unit there."""

    base_cure_h: Figure
    bed_cure_h: Figure
    walk_on_h: Figure
    drive_on_mortar_h: Figure
    edge_cure_h: Figure
    min_temperature_c: Figure
    cure_reference_c: Figure
    cure_freezing_c: Figure
    cure_longest_days: Figure
    en_slope_k: Figure
    en_constant: Figure
    weather_correlation: Figure
    wet_day_mm: Figure
    drop_kg_per_m2: Figure


def programme_figures(rules: Rulebook) -> ProgrammeFigures:
    """Return the figures of the programme."""
    return read_figures(ProgrammeFigures, rules, "programme")
