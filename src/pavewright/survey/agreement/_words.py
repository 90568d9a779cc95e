"""Sentences of what does not agree about heights of the site, made from what was found."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.survey._remarks import metres

if TYPE_CHECKING:
    from pavewright.survey._types import SurveyedPoint


def spot_against_neighbours(spot: SurveyedPoint, level_mm: float, foretold_mm: float, sd_mm: float) -> str:
    """Say that the spots about one do not bear it out.

    Args:
        spot: The spot.
        level_mm: Its level. [mm]
        foretold_mm: What the spots about it say. [mm]
        sd_mm: How well they say it. [mm]
    """
    off = level_mm - foretold_mm
    return (
        f"{spot.name} is {metres(level_mm)} by {spot.levelled_words}, and the spots about it say "
        f"{metres(foretold_mm)}, give or take {2.0 * sd_mm:.0f} mm: it looks {abs(off):.0f} mm too "
        f"{'high' if off > 0.0 else 'low'}. Read the staff on {spot.name} again; if the ground does break "
        f"there, give "
        f"a break line along it."
    )


def thing_against_ground(what: str, level_mm: float, ground_mm: float) -> str:
    """Say that a thing lies far from the ground beside it.

    Args:
        what: The thing.
        level_mm: Its level. [mm]
        ground_mm: Level of the ground there. [mm]
    """
    return (
        f"The level of {what} is {metres(level_mm)} and the ground there is {metres(ground_mm)}, "
        f"{abs(level_mm - ground_mm):.0f} mm "
        f"apart. Read the staff on it and beside it again."
    )


def level_far_off(what: str, level_mm: float, middle_mm: float, fits: str) -> str:
    """Say that a level lies far from all others.

    Args:
        what: The level.
        level_mm: The level. [mm]
        middle_mm: What the others lie about. [mm]
        fits: In which unit it makes sense; empty where in none.
    """
    return (
        f"{what} is {metres(level_mm)}, and the levels of this job lie about {metres(middle_mm)}: "
        f"{metres(abs(level_mm - middle_mm))} "
        f"m apart.{fits or ' Read it again.'}"
    )


def level_against_reading(what: str, written_mm: float, point: SurveyedPoint, read_mm: float) -> str:
    """Say that a written level is not the one that was read.

    Args:
        what: The thing.
        written_mm: Its level as written. [mm]
        point: The point where it is.
        read_mm: The level that was read there. [mm]
    """
    return (
        f"The level of {what} is written as {metres(written_mm)}, and {point.name}, the point where it is, is "
        f"{metres(read_mm)} by {point.levelled_words}: {abs(written_mm - read_mm):.0f} mm apart. Read the staff on "
        f"{point.name} "
        f"again; to take the level from there, write the name {point.name} instead of a number."
    )


def sill_against_dpc(
    wall: str, door: str, levels_mm: tuple[float, float], band_mm: tuple[float, float], courses: float
) -> str:
    """Say that a sill does not lie near its damp-proof course.

    Args:
        wall: The wall.
        door: The door.
        levels_mm: Level of the damp-proof course and of the threshold. [mm]
        band_mm: How far a sill lies below it and above it. [mm]
        courses: Courses of brick between them. [-]
    """
    dpc_mm, sill_mm = levels_mm
    up = sill_mm - dpc_mm
    return (
        f"The damp-proof course of wall {wall} is given as {metres(dpc_mm)} and the threshold of {door} as "
        f"{metres(sill_mm)}: {abs(up):.0f} mm {'below' if up < 0.0 else 'above'} it. A sill lies "
        f"between {band_mm[0]:.0f} mm below and {band_mm[1]:.0f} mm above its damp-proof course. Read both "
        f"again, and count the courses of brick between them ({courses:.1f} by these levels)."
    )


def air_brick_against_dpc(wall: str, dpc_mm: float, brick: str, underside_mm: float, within_mm: float) -> str:
    """Say that an air brick does not lie near the damp-proof course.

    Args:
        wall: The wall.
        dpc_mm: Level of its damp-proof course. [mm]
        brick: The air brick.
        underside_mm: Level of its underside. [mm]
        within_mm: How far apart they lie at most. [mm]
    """
    return (
        f"The underside of air brick {brick} is given as {metres(underside_mm)} and the damp-proof "
        f"course of wall {wall} as {metres(dpc_mm)}, {abs(underside_mm - dpc_mm):.0f} mm apart; they lie within "
        f"{within_mm:.0f} mm of each other. Read both again."
    )


def dpc_between_walls(walls: tuple[str, str], levels_mm: tuple[float, float], course_mm: float) -> str:
    """Say that the damp-proof courses of two walls that meet differ.

    Args:
        walls: The walls.
        levels_mm: Level of the damp-proof course of each. [mm]
        course_mm: Height of a course of brick. [mm]
    """
    return (
        f"The damp-proof courses of walls {walls[0]} and {walls[1]}, which meet, are given as "
        f"{metres(levels_mm[0])} and {metres(levels_mm[1])}: {abs(levels_mm[0] - levels_mm[1]):.0f} mm apart. At a "
        f"corner one runs on in the other, or steps by whole courses of {course_mm:.0f} mm. Read both again."
    )


def dpc_alone(wall: str, dpc_mm: float) -> str:
    """Say that nothing confirms a damp-proof course.

    Args:
        wall: The wall.
        dpc_mm: Its level. [mm]
    """
    return (
        f"Nothing confirms the damp-proof course of wall {wall}, {metres(dpc_mm)}: no sill, no air "
        f"brick and no level of the ground beside it was read. Read the sill of a door too."
    )


def dpc_against_ground(wall: str, dpc_mm: float, off_mm: float, seldom_mm: float, *, over: bool) -> str:
    """Say that a damp-proof course lies far from the ground all along its wall.

    Args:
        wall: The wall.
        dpc_mm: Its level. [mm]
        off_mm: How far above the ground where they are nearest. [mm]
        seldom_mm: More than this is seldom met. [mm]
        over: Whether it lies above the ground.
    """
    return (
        f"The damp-proof course of wall {wall} is given as {metres(dpc_mm)}, {abs(off_mm):.0f} mm "
        f"{'above' if over else 'below'} the ground beside it even where they are nearest; more than "
        f"{seldom_mm:.0f} mm is seldom met. Read the staff on it and on the ground below it again."
    )
