"""The figures that paving as laid is held to, read from the rulebook once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.job import ToleranceRegime
    from pavewright.rules import Figure, Rulebook


@dataclass(frozen=True, slots=True)
class AsLaidFigures:
    """Every figure of the check.

    Attributes:
        level: Level against the plan, either way.
        straightedge: Gap under a 3 m straight edge.
        step: Step between neighbouring units.
        per_reading: Area that one reading speaks for.
        near_wall_mm: A reading this near to a wall counts for the clearance there. [mm]
        meets_mm: Paving this near to a wall meets it. [mm]
        below_dpc: Finished paving below the damp-proof course.
        min_fall: Flattest fall.
        beside_row_mm: Readings this near to a row belong to it. [mm]
        wedge_sd_mm: Standard deviation of a gap read with a wedge. [mm]
        eye_sd_mm: Standard deviation of a gap judged by eye. [mm]
        gauge_sd_mm: Standard deviation of a lip read with a gauge. [mm]
        rule_sd_mm: Standard deviation of a joint read with a rule. [mm]
    """

    level: Figure
    straightedge: Figure
    step: Figure
    per_reading: Figure
    near_wall_mm: float
    meets_mm: float
    below_dpc: Figure
    min_fall: Figure
    beside_row_mm: float
    wedge_sd_mm: float
    eye_sd_mm: float
    gauge_sd_mm: float
    rule_sd_mm: float


def figures(tolerance: ToleranceRegime, rules: Rulebook) -> AsLaidFigures:
    """Return the figures of one edition for a regime of tolerances."""
    return AsLaidFigures(
        level=rules.figure(f"as_laid.level_{tolerance.value}_mm"),
        straightedge=rules.figure(f"as_laid.straightedge_{tolerance.value}_mm"),
        step=rules.figure("as_laid.step_between_units_mm"),
        per_reading=rules.figure("as_laid.area_per_reading_m2"),
        near_wall_mm=rules.value("as_laid.near_wall_mm"),
        meets_mm=rules.value("levels.meets_within_mm"),
        below_dpc=rules.figure("levels.below_dpc_mm"),
        min_fall=rules.figure("levels.min_fall_one_in"),
        beside_row_mm=rules.value("as_laid.beside_row_mm"),
        wedge_sd_mm=rules.value("as_laid.wedge_sd_mm"),
        eye_sd_mm=rules.value("as_laid.eye_sd_mm"),
        gauge_sd_mm=rules.value("as_laid.gauge_sd_mm"),
        rule_sd_mm=rules.value("as_laid.rule_sd_mm"),
    )
