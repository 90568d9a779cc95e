"""The figures of water, read from the rulebook once."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.rules import read_figures
from pavewright.water.rain import StormTables, storm_tables

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.rules import Figure, Rulebook, Table


class FarFrom(StrEnum):
    """What a soakaway keeps away from."""

    BUILDING = "building"
    ROAD = "road"
    BOUNDARY = "boundary"


@dataclass(frozen=True, slots=True)
class WaterFigures:
    """What decides about water; a field is the figure of its name in the rulebook, with its unit there.

    Attributes:
        soakaway_from_m: How far a soakaway lies from a building, a road and a boundary. [m]
        meets_within_mm: What stands this near to an edge stands at it.
        valley_fall_one_in: Flatter than this a valley is slow to clear.
        channel_n: Manning's n of a channel.
        min_drain_one_in: Flatter than this a drain of the bore that is taken is too flat; None for a bore of which
            nothing is said.
        ground_runoff: Part of the rain that runs off ground, by surface.
        storms: Factors of storms.
        onto_highway_l_s: The law of the place on water that runs onto a road; None where none is known.
        order_of_discharge: The law of the place on where water may go; None where none is known.
        front_garden_m2: The law of the place on paving at the front; None where none is known.
        ground_from_house_one_in: The law of the place on the fall of ground from a house; None where none is known.
    """

    rain_mm_per_h: Figure
    runoff: Figure
    min_area_m2: Figure
    dry_drain_percent: Figure
    look_beyond_mm: Figure
    ground_over_edge_mm: Figure
    held_edge_mm: Figure
    grating_clogged_percent: Figure
    soakaways_apart_m: Figure
    soakaway_above_groundwater_m: Figure
    area_for_one_soakaway_m2: Figure
    half_empty_h: Figure
    min_infiltration_m_per_s: Figure
    sheet_storm_min: Figure
    grating_open_percent: Figure
    film_n: Figure
    pit_fills: Figure
    soakaway_cover_mm: Figure
    soakaway_pipe_mm: Figure
    soakaway_lap_mm: Figure
    soakaway_stone_t_per_m3: Figure
    silt_traps: Figure
    drain_trench_mm: Figure
    drain_bed_mm: Figure
    soakaway_width_mm: Figure
    soakaway_depth_mm: Figure
    soakaway_longest_mm: Figure
    soakaway_deepest_mm: Figure
    grating_water_mm: Figure
    crates_void_percent: Figure
    permeable_sealed_ratio: Figure
    permeable_steepest_percent: Figure
    permeable_void_percent: Figure
    puddle_at_drain_mm: Figure
    soakaway_from_m: Mapping[FarFrom, Figure]
    meets_within_mm: Figure
    valley_fall_one_in: Figure
    channel_n: Figure
    ground_runoff: Table
    storms: StormTables
    min_drain_one_in: Figure | None
    onto_highway_l_s: Figure | None = None
    order_of_discharge: Figure | None = None
    front_garden_m2: Figure | None = None
    ground_from_house_one_in: Figure | None = None


def water_figures(rules: Rulebook) -> WaterFigures:
    """Return the figures of water."""
    return read_figures(
        WaterFigures,
        rules,
        "water",
        soakaway_from_m={what: rules.figure(f"water.soakaway_from_{what.value}_m") for what in FarFrom},
        meets_within_mm=rules.figure("levels.meets_within_mm"),
        valley_fall_one_in=rules.figure("levels.valley_fall_one_in"),
        channel_n=rules.table("water.manning_n").figure("finished concrete channel", "n"),
        ground_runoff=rules.table("water.runoff_by_surface"),
        storms=storm_tables(rules),
        min_drain_one_in=_flattest(rules),
    )


def _flattest(rules: Rulebook) -> Figure | None:
    """Return the smallest gradient of a drain of the bore that is taken; None where nothing is said of it."""
    bore, table = rules.figure("water.soakaway_pipe_mm").value, rules.table("water.drain_gradient")
    row = next((row for row in table.rows if row.value("bore_mm") == bore), None)
    return None if row is None else table.figure(row.key, "one_in")
