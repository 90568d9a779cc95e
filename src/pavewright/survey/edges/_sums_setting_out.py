"""Sums for arcs and right angles."""

from __future__ import annotations

import math

from pavewright.geometry import arc_length_mm, radius_from_rise_mm
from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.survey.edges._arcs import offset_from_chord_mm, rise_from_radius_mm
from pavewright.survey.edges._one_arc import off_arc_mm, rise_by_offsets_mm
from pavewright.survey.edges._right_angles import angle_from_sides_deg, skew_from_diagonals_deg

_THREE, _FOUR, _FIVE = 3, 4, 5


def arc_by_chord(chord_mm: float, rise_mm: float, radius_mm: float, at_mm: tuple[float, ...]) -> dict[str, Value]:
    """Return an arc from its chord and either its rise or its radius.

    Source: definition
    """
    if chord_mm <= 0.0 or min(rise_mm, radius_mm) < 0.0 or (rise_mm > 0.0) == (radius_mm > 0.0):
        message = "Give a chord longer than zero, and either the rise at its middle or the radius."
        raise SumRefusedError(message)
    if radius_mm and radius_mm < chord_mm / 2.0:
        message = "The radius is less than half the chord: such an arc does not reach. Measure the chord again."
        raise SumRefusedError(message)
    rise = rise_mm or rise_from_radius_mm(chord_mm, radius_mm)
    radius = radius_mm or radius_from_rise_mm(chord_mm, rise_mm)
    if any(abs(along) > chord_mm / 2.0 for along in at_mm):
        message = "An offset is asked for past the end of the chord: at_mm counts from its middle, either way."
        raise SumRefusedError(message)
    if at_mm and rise > chord_mm / 2.0:
        message = "Offsets from the chord are for arcs up to a half circle: take two shorter chords."
        raise SumRefusedError(message)
    return {
        "radius_mm": radius,
        "rise_mm": rise,
        "arc_length_mm": arc_length_mm(chord_mm, rise),
        "angle_deg": math.degrees(4.0 * math.atan2(2.0 * rise, chord_mm)),
        "offsets_mm": tuple(offset_from_chord_mm(radius, rise, along) for along in at_mm),
    }


def arc_by_offsets(chord_mm: float, along_mm: tuple[float, ...], offsets_mm: tuple[float, ...]) -> dict[str, Value]:
    """Return the arc from end to end of a chord that fits offsets best, and how far each stands off it.

    Source: definition
    """
    if chord_mm <= 0.0 or not along_mm or len(along_mm) != len(offsets_mm):
        message = "Give a chord longer than zero, and for every offset its place along the chord."
        raise SumRefusedError(message)
    if any(not 0.0 < along < chord_mm for along in along_mm):
        message = "Every offset is measured between the ends of the chord: along_mm counts from its start."
        raise SumRefusedError(message)
    offsets = list(zip(along_mm, offsets_mm, strict=True))
    rise = rise_by_offsets_mm(chord_mm, offsets)
    off = off_arc_mm(chord_mm, rise, offsets)
    return {
        "rise_mm": rise,
        "radius_mm": radius_from_rise_mm(chord_mm, abs(rise)) if rise else math.inf,
        "off_mm": off,
        "max_off_mm": max(abs(each) for each in off),
    }


def three_four_five(room_a_mm: float, room_b_mm: float, step_mm: float) -> dict[str, Value]:
    """Return the largest 3-4-5 triangle that fits, its sides whole multiples of a step, and the marks on one long tape.

    Source: fao_r7021e, chapter 4.1
    """
    if min(room_a_mm, room_b_mm, step_mm) <= 0.0:
        message = "Room along the line, room square to it and the step are all longer than zero."
        raise SumRefusedError(message)
    shorter, longer = sorted((room_a_mm, room_b_mm))
    times = math.floor(min(shorter / (_THREE * step_mm), longer / (_FOUR * step_mm)) + 1e-9)
    if times < 1:
        message = "The room is too small for a 3-4-5 triangle of this step: take a shorter step."
        raise SumRefusedError(message)
    unit = times * step_mm
    return {
        "three_mm": _THREE * unit,
        "four_mm": _FOUR * unit,
        "five_mm": _FIVE * unit,
        "marks_mm": (0.0, _THREE * unit, (_THREE + _FIVE) * unit, (_THREE + _FOUR + _FIVE) * unit),
    }


def right_angle_from_tapes(side_a_mm: float, side_b_mm: float, across_mm: float) -> dict[str, Value]:
    """Return the angle at a corner from two sides and the tape across, and how far side B is out of square.

    Source: definition
    """
    shortest, middle, longest = sorted((side_a_mm, side_b_mm, across_mm))
    if shortest <= 0.0 or shortest + middle < longest:
        message = "The three tapes make no triangle: measure the longest of them again."
        raise SumRefusedError(message)
    angle = angle_from_sides_deg(side_a_mm, side_b_mm, across_mm)
    return {
        "angle_deg": angle,
        "square_across_mm": math.hypot(side_a_mm, side_b_mm),
        "out_of_square_mm": side_b_mm * math.sin(math.radians(angle - 90.0)),
    }


def rectangle_by_diagonals(
    side_a_mm: float, side_b_mm: float, diagonal_1_mm: float, diagonal_2_mm: float
) -> dict[str, Value]:
    """Return how far a figure with equal opposite sides is out of square.

    Source: definition
    """
    if min(side_a_mm, side_b_mm, diagonal_1_mm, diagonal_2_mm) <= 0.0:
        message = "Sides and diagonals are all longer than zero."
        raise SumRefusedError(message)
    shorter, longer = sorted((diagonal_1_mm, diagonal_2_mm))
    if longer > side_a_mm + side_b_mm or shorter < abs(side_a_mm - side_b_mm):
        message = "These diagonals belong to no figure with these sides: measure sides and diagonals again."
        raise SumRefusedError(message)
    sine = (longer - shorter) * (longer + shorter) / (4.0 * side_a_mm * side_b_mm)
    if sine > 1.0:
        message = "These diagonals belong to no figure with these sides: measure sides and diagonals again."
        raise SumRefusedError(message)
    skew = skew_from_diagonals_deg(side_a_mm, side_b_mm, longer, shorter)
    squares = diagonal_1_mm**2 + diagonal_2_mm**2 - 2.0 * (side_a_mm**2 + side_b_mm**2)
    return {
        "square_diagonal_mm": math.hypot(side_a_mm, side_b_mm),
        "skew_deg": skew,
        "skew_rad": math.radians(skew),
        "out_of_square_mm": side_b_mm * math.sin(math.radians(skew)),
        "tapes_apart_mm": squares / (2.0 * (diagonal_1_mm + diagonal_2_mm)),
    }


SETTING_OUT_SUMS: tuple[Sum, ...] = (
    Sum(
        "arc-by-chord",
        "Find an arc from its chord and its rise or radius",
        (
            Quantity("chord_mm", "mm", "straight distance between the ends"),
            Quantity("rise_mm", "mm", "rise at the middle of the chord; 0 if the radius is given", default=0.0),
            Quantity("radius_mm", "mm", "radius; 0 if the rise is given", default=0.0),
            Quantity(
                "at_mm", "mm", "places along the chord, from its middle, at which offsets are wanted", "numbers", ()
            ),
        ),
        (
            Quantity("radius_mm", "mm", "radius"),
            Quantity("rise_mm", "mm", "rise at the middle of the chord"),
            Quantity("arc_length_mm", "mm", "length along the arc"),
            Quantity("angle_deg", "deg", "angle of the arc at its centre"),
            Quantity("offsets_mm", "mm", "offsets from the chord at the places asked for", "numbers"),
        ),
        "R = (c² + V²) / 2V with half chord c; y = √(R² − x²) − (R − V)",
        "definition",
        arc_by_chord,
    ),
    Sum(
        "arc-by-offsets",
        "Fit one arc to offsets from its chord",
        (
            Quantity("chord_mm", "mm", "straight distance between the ends"),
            Quantity("along_mm", "mm", "place of each offset along the chord, from its start", "numbers"),
            Quantity("offsets_mm", "mm", "offsets in order, positive to the left", "numbers"),
        ),
        (
            Quantity("rise_mm", "mm", "rise at the middle of the chord, positive to the left"),
            Quantity("radius_mm", "mm", "radius"),
            Quantity("off_mm", "mm", "how far each offset stands off the arc, positive to the left", "numbers"),
            Quantity("max_off_mm", "mm", "how far the farthest stands off"),
        ),
        "least squares of the distances from the arc through both ends",
        "definition",
        arc_by_offsets,
    ),
    Sum(
        "three-four-five",
        "Set out a right angle with one tape",
        (
            Quantity("room_a_mm", "mm", "room along the line"),
            Quantity("room_b_mm", "mm", "room square to the line"),
            Quantity("step_mm", "mm", "what three, four and five are whole multiples of"),
        ),
        (
            Quantity("three_mm", "mm", "short side"),
            Quantity("four_mm", "mm", "long side"),
            Quantity("five_mm", "mm", "side across"),
            Quantity(
                "marks_mm",
                "mm",
                "marks on one tape laid round the triangle; first and last meet at the corner",
                "numbers",
            ),
        ),
        "3² + 4² = 5²",
        "fao_r7021e, chapter 4.1",
        three_four_five,
    ),
    Sum(
        "right-angle-from-tapes",
        "Find how far a corner is out of square from three tapes",
        (
            Quantity("side_a_mm", "mm", "one side from the corner"),
            Quantity("side_b_mm", "mm", "the other side from the corner"),
            Quantity("across_mm", "mm", "between their far ends"),
        ),
        (
            Quantity("angle_deg", "deg", "angle at the corner"),
            Quantity("square_across_mm", "mm", "what the tape across would be at a right angle"),
            Quantity("out_of_square_mm", "mm", "how far the end of side B leans outward (inward if negative)"),
        ),
        "cos C = (a² + b² − c²) / 2ab",
        "definition",
        right_angle_from_tapes,
    ),
    Sum(
        "rectangle-diagonal-check",
        "Find how far a rectangle is out of square from its diagonals",
        (
            Quantity("side_a_mm", "mm", "length"),
            Quantity("side_b_mm", "mm", "width"),
            Quantity("diagonal_1_mm", "mm", "one diagonal"),
            Quantity("diagonal_2_mm", "mm", "the other diagonal"),
        ),
        (
            Quantity("square_diagonal_mm", "mm", "what both diagonals are in a true rectangle"),
            Quantity("skew_deg", "deg", "how far a corner is from a right angle"),
            Quantity("skew_rad", "rad", "the same in radians"),
            Quantity("out_of_square_mm", "mm", "how far the far end leans over the width"),
            Quantity(
                "tapes_apart_mm",
                "mm",
                "by how much the mean diagonal misses what the sides call for: sides and diagonals disagree by this",
            ),
        ),
        "d1² − d2² = 4ab·sin ε",
        "definition",
        rectangle_by_diagonals,
    ),
)
