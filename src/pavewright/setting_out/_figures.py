"""The figures of setting out, read from the rulebook once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.rules import Figure, Rulebook


@dataclass(frozen=True, slots=True)
class SetOutFigures:
    """Every figure of setting out.

    Attributes:
        meets_mm: A side or a corner this near to a wall or a boundary stands at it. [mm]
        peg_spacing_mm: Greatest distance between pegs. [mm]
        arc_spacing_mm: Greatest distance between offsets of an arc. [mm]
        profile_out: Profile pegs outside the dig.
        string_height_mm: String over the finished surface. [mm]
        longest_string: A longer string sags.
        behind_wall: Ground so deep behind the wall of a house is taken for house.
        boundary_on_mm: A boundary is taken to run on so far past where it was measured. [mm]
        off_wall_mm: A pin stands so far off a wall. [mm]
        tape_angle_deg: Two tapes that cross flatter do not fix a place. [deg]
        base_share: A base line is so long against the area, or longer. [-]
        grid_over_mm: A wider area, both ways, gets strings across both ways. [mm]
        check_percent: Share of checks without a slip that lie within the limit of a check. [%]
        cut_best_deg: Two tapes that cross steeper cross well. [deg]
        hand_dig: Ground beside a service in which no pin is driven and digging is by hand.
    """

    meets_mm: float
    peg_spacing_mm: float
    arc_spacing_mm: float
    profile_out: Figure
    string_height_mm: float
    longest_string: Figure
    behind_wall: Figure
    boundary_on_mm: float
    off_wall_mm: float
    tape_angle_deg: float
    base_share: float
    grid_over_mm: float
    check_percent: float
    cut_best_deg: float
    hand_dig: Figure


def figures(rules: Rulebook) -> SetOutFigures:
    """Return the figures of setting out of one edition."""
    return SetOutFigures(
        meets_mm=rules.value("levels.meets_within_mm"),
        peg_spacing_mm=rules.value("setting_out.peg_spacing_mm"),
        arc_spacing_mm=rules.value("setting_out.arc_spacing_mm"),
        profile_out=rules.figure("setting_out.profile_out_mm"),
        string_height_mm=rules.value("setting_out.string_height_mm"),
        longest_string=rules.figure("setting_out.longest_string_mm"),
        behind_wall=rules.figure("setting_out.behind_wall_mm"),
        boundary_on_mm=rules.value("setting_out.boundary_on_mm"),
        off_wall_mm=rules.value("setting_out.off_wall_mm"),
        tape_angle_deg=rules.value("setting_out.tape_angle_deg"),
        base_share=rules.value("setting_out.base_share"),
        grid_over_mm=rules.value("setting_out.grid_over_mm"),
        check_percent=rules.value("setting_out.check_percent"),
        cut_best_deg=rules.value("setting_out.cut_best_deg"),
        hand_dig=rules.figure("earthworks.hand_dig_mm"),
    )
