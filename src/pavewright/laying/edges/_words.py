"""The sentences on folds, steps and movement joints, in one place: each takes facts and gives what is said."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.laying._types_parts import FoldCuts, MovementJoints, UnderSteps


def lay_fold_as_course() -> str:
    """Say that the fold may be a course of its own."""
    return "Lay the fold as a course of its own, so that a joint lies in it."


def fold_elsewhere() -> str:
    """Say that the area may be folded otherwise."""
    return "Fold the area elsewhere, or with less change of fall across the fold."


def units_cross_fold(area: str, cuts: FoldCuts) -> str:
    """Say how many units are cut along a fold."""
    least = f" The narrowest part is {cuts.narrowest_mm:.0f} mm wide." if cuts.narrowest_mm else ""
    return (
        f"{len(cuts.pieces)} units of {area} lie across a fold: cut each along it and lay both parts, "
        f"{cuts.saw_m:.1f} m of cut.{least} Time for these cuts is in the price; the cut list names the units."
    )


def joint_in_fold() -> tuple[str, ...]:
    """Say how a joint comes to lie in a fold."""
    return "Shift the pattern so that a joint lies in the fold.", "Lay the fold as a course of its own."


def uncut_at_fold(area: str, cuts: FoldCuts, allowed_mm: float) -> str:
    """Say how many units are laid whole across a fold, and how far their edges stand out. [mm]."""
    many = f"{len(cuts.uncut)} units lie" if len(cuts.uncut) > 1 else "1 unit lies"
    return (
        f"{many} across a fold of {area} with too narrow a part beyond it to be cut off: lay "
        f"{'each' if len(cuts.uncut) > 1 else 'it'} with that part left on the larger one. An edge then stands "
        f"{cuts.uncut_lip_mm:.1f} mm out of the surface at most; units may differ by {allowed_mm:g} mm."
    )


def too_narrow_at_fold(area: str, cuts: FoldCuts, allowed_mm: float) -> str:
    """Say how many units can neither be cut at a fold nor laid whole. [mm]."""
    many = f"{len(cuts.too_narrow)} units" if len(cuts.too_narrow) > 1 else "1 unit"
    return (
        f"A fold of {area} leaves a part too narrow to be cut and laid of {many}, {cuts.neck_mm:.0f} mm at the "
        f"worst; laid whole, an edge would stand {cuts.lip_mm:.1f} mm out of the surface, and {allowed_mm:g} mm is "
        "the maximum between units."
    )


def move_start(along_mm: float, across_mm: float, cut: int) -> str:
    """Say how far the start moves for no part at the fold to be too narrow, and how many pieces are cut then. [mm]."""
    return (
        f"Move the start {along_mm:g} mm along and {across_mm:g} mm across the courses: no part at the fold is too "
        f"narrow then; {cut} cut piece{'' if cut == 1 else 's'}."
    )


def under_steps(area: str, under: UnderSteps) -> str:
    """Say what lies under a flight."""
    return (
        f"No unit and no bed of {area} is laid under {under.steps}, {under.shape.area_m2:.2f} m²: its base runs "
        "through beneath the flight, and the units begin at the face of the lowest riser."
    )


def units_under_steps(steps: str, area: str) -> str:
    """Say that a flight parts an area in two."""
    return (
        f"{steps} parts {area} in two: units under the flight are drawn and counted. Enter each "
        "part as an area of its own."
    )


def movement_joints(area: str, joints: MovementJoints, apart_m: float) -> str:
    """Say where movement joints lie, and which of them the plan cannot place. [m]."""
    words = f"{area} runs {joints.longest_m:.1f} m in mortar: movement joints go right through bed and joints."
    if joints.placed_m:
        words += f" {joints.placed_m:.1f} m are drawn on the laying plan, in joints between units."
    if joints.unplaced_m:
        words += (
            f" {joints.unplaced_m:.1f} m about every {apart_m:g} m are not drawn, because this pattern has no "
            "straight joint there: choose their lines on site and saw the units along them."
        )
    if joints.edge_m:
        words += f" {joints.edge_m:.1f} m run along walls and round what is fixed."
    return f"{words} All {joints.total_m:.1f} m are ordered."
