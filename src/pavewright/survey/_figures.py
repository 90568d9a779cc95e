"""The figures of the survey, read from the rulebook once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, assert_never

from pavewright.job import HeightMeans
from pavewright.rules import read_figures

if TYPE_CHECKING:
    from pavewright.rules import Figure, Rulebook, Table


@dataclass(frozen=True, slots=True)
class SurveyFigures:
    """How far readings may be off; each field is the figure or table of its name in the rulebook, in its unit."""

    misclosure_per_setup_mm: Figure
    booked_level_tolerance_mm: Figure
    tape_sd_fixed_mm: Figure
    tape_sd_growing_mm_per_m: Figure
    square_corner_sd_mm_per_m: Figure
    on_line_sd_mm: Figure
    sketch_direction_mm_per_m: Figure
    sketch_length_mm_per_m: Figure
    sketch_finger_mm: Figure
    sketch_scale_share: Figure
    look_again_sds: Figure
    arc_offset_mm: Figure
    weak_point_mm: Figure
    min_tape_angle_deg: Figure
    confidence_percent: Figure
    greatest_standardised_residual: Figure
    min_redundancy: Figure
    opening_past_wall_mm: Figure
    misclosure_per_root_km_mm: Figure
    misclosure_third_order_mm: Figure
    staff_reading_sd_mm: Figure
    two_peg_believed_mm: Figure
    heights_differ_sds: Figure
    assumed_level_off_mm: Figure
    height_by_string_sd_mm: Figure
    height_by_water_level_sd_mm: Figure
    height_by_spirit_level_sd_mm: Figure
    height_by_laser_sd_mm: Figure
    height_by_photo_sd_mm: Figure
    matters_within_mm: Figure
    sill_below_dpc_mm: Figure
    sill_below_dpc_stop_mm: Figure
    sill_over_dpc_mm: Figure
    course_mm: Figure
    course_slack_mm: Figure
    dpc_steps_at_corner: Figure
    air_brick_from_dpc_mm: Figure
    dpc_over_ground_mm: Figure
    dpc_under_ground_mm: Figure
    same_point_mm: Figure
    same_point_stop_mm: Figure
    thing_from_ground_mm: Figure
    levels_reach_mm: Figure
    spot_chance_percent: Figure
    spot_min_mm: Figure
    spot_stop_mm: Figure
    staff_length_mm: Figure
    staff_short_mm: Figure
    job_min_area_m2: Figure
    job_small_area_m2: Figure
    job_max_area_m2: Figure
    beside_mm: Figure
    start_within_days: Figure
    plausible_prices: Table
    unit_sizes: Table

    def height_by(self, means: HeightMeans) -> Figure:
        """Return how far a height over another point is trusted, by what it was read with."""
        match means:
            case HeightMeans.STRING:
                return self.height_by_string_sd_mm
            case HeightMeans.WATER_LEVEL:
                return self.height_by_water_level_sd_mm
            case HeightMeans.SPIRIT_LEVEL:
                return self.height_by_spirit_level_sd_mm
            case HeightMeans.LASER:
                return self.height_by_laser_sd_mm
            case HeightMeans.PHOTO:
                return self.height_by_photo_sd_mm
            case _:
                assert_never(means)


def survey_figures(rules: Rulebook) -> SurveyFigures:
    """Return the figures of the survey."""
    tables = {name: rules.table(f"survey.{name}") for name in ("plausible_prices", "unit_sizes")}
    return read_figures(SurveyFigures, rules, "survey", **tables)
