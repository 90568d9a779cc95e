"""The figures that hold points are held to, read from the rulebook once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.job.on_site import HoldLayer
from pavewright.setting_out import HeightOf, layer_tolerances

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.job import ToleranceRegime
    from pavewright.rules import Figure, Rulebook

HEIGHTS: Mapping[HoldLayer, HeightOf] = {
    HoldLayer.CAPPING: HeightOf.CAPPING,
    HoldLayer.SUB_BASE: HeightOf.SUB_BASE,
    HoldLayer.BASE: HeightOf.BASE,
}
"""The surface that is read on each layer."""


@dataclass(frozen=True, slots=True)
class DrainFigures:
    """How drains are tested before they are covered.

    Attributes:
        air_start_mm: Water gauge at which an air test begins.
        air_drop_mm: How far the gauge may fall.
        air_minutes: How long it is watched.
        water_minutes: How long a water test is watched.
        loss_by_bore: What may be lost in a water test, by the bore of the pipe. [l/m]
    """

    air_start_mm: Figure
    air_drop_mm: Figure
    air_minutes: Figure
    water_minutes: Figure
    loss_by_bore: tuple[tuple[float, Figure], ...]


@dataclass(frozen=True, slots=True)
class HoldFigures:
    """Every figure of hold points.

    Attributes:
        layers: How far the top of a layer may be off, above and below, of those for which there is a figure.
        row_line: How far the first row may lie off its string, either way.
        row_level: How far its finished level may be off, either way.
        bed: How far the top of the bed may be off, either way.
        same_place: How near to a planned place a reading is one of that place.
        drains: How drains are tested.
    """

    layers: Mapping[HeightOf, tuple[Figure, Figure]]
    row_line: Figure
    row_level: Figure
    bed: Figure
    same_place: Figure
    drains: DrainFigures


def hold_figures(tolerance: ToleranceRegime, rules: Rulebook) -> HoldFigures:
    """Return the figures of one edition for a regime of tolerances."""
    table = rules.table("hold_points.water_loss")
    return HoldFigures(
        layers={layer: (held.above, held.below) for layer, held in layer_tolerances(rules).items()},
        row_line=rules.figure("hold_points.row_off_line_mm"),
        row_level=rules.figure(f"as_laid.level_{tolerance.value}_mm"),
        bed=rules.figure("hold_points.bed_off_mm"),
        same_place=rules.figure("hold_points.same_place_mm"),
        drains=DrainFigures(
            rules.figure("hold_points.air_start_mm"),
            rules.figure("hold_points.air_drop_mm"),
            rules.figure("hold_points.air_minutes"),
            rules.figure("hold_points.water_minutes"),
            tuple((table.figure(row.key, "bore_mm").value, table.figure(row.key, "litre_per_m")) for row in table.rows),
        ),
    )
