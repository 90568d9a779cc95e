"""Sums on the level itself: the two-peg test."""

from __future__ import annotations

from pavewright import units
from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.survey._remarks import millimetres
from pavewright.survey.levelling._two_peg import collimation_error, reading_with_level_sight


def two_peg_test(
    equal_a_mm: float,
    equal_b_mm: float,
    distance_a_mm: float,
    distance_b_mm: float,
    reading_a_mm: float,
    reading_b_mm: float,
    over_mm: float,
    greatest_error_mm: float,
) -> dict[str, Value]:
    """Return the error of the line of sight from an equal and an unequal set-up.

    Source: surveying_for_engineers, two-peg test
    """
    return _peg_answers(
        equal_a_mm - equal_b_mm,
        (distance_a_mm, distance_b_mm),
        (reading_a_mm, reading_b_mm),
        over_mm,
        greatest_error_mm,
    )


def two_peg_test_on_levels(
    level_a_mm: float,
    level_b_mm: float,
    distance_a_mm: float,
    distance_b_mm: float,
    reading_a_mm: float,
    reading_b_mm: float,
    over_mm: float,
    greatest_error_mm: float,
) -> dict[str, Value]:
    """Return the error of the line of sight from one unequal set-up between two pegs of known level.

    Source: surveying_for_engineers, two-peg test
    """
    return _peg_answers(
        level_b_mm - level_a_mm,
        (distance_a_mm, distance_b_mm),
        (reading_a_mm, reading_b_mm),
        over_mm,
        greatest_error_mm,
    )


def _peg_answers(
    true_mm: float,
    distances_mm: tuple[float, float],
    readings_mm: tuple[float, float],
    over_mm: float,
    greatest_mm: float,
) -> dict[str, Value]:
    if min(distances_mm) < 0.0 or distances_mm[0] == distances_mm[1] or over_mm <= 0.0:
        message = "The second set-up needs sights of different length, neither below nothing: set up near one peg."
        raise SumRefusedError(message)
    apparent = readings_mm[0] - readings_mm[1]
    error = collimation_error(apparent, true_mm, *distances_mm)
    per_m = error * units.MM_PER_M
    if abs(per_m) > greatest_mm:
        message = (
            f"The readings put B {millimetres(apparent, sign=True)} against A and the first set-up or the known levels "
            f"put it {millimetres(true_mm, sign=True)}: {millimetres(abs(per_m))} in a metre is no error of an "
            f"instrument. Look whether the pegs were swapped, and read both again."
        )
        raise SumRefusedError(message)
    return {
        "error_mm": error * over_mm,
        "correct_a_mm": reading_with_level_sight(readings_mm[0], error, distances_mm[0]),
        "correct_b_mm": reading_with_level_sight(readings_mm[1], error, distances_mm[1]),
        "b_above_a_mm": true_mm,
        "line_of_sight": "level" if error == 0.0 else "points up" if error > 0.0 else "points down",
    }


_PEG_INPUTS = (
    Quantity("distance_a_mm", "mm", "sight to A, unequal set-up"),
    Quantity("distance_b_mm", "mm", "sight to B, unequal set-up"),
    Quantity("reading_a_mm", "mm", "reading on A, unequal set-up"),
    Quantity("reading_b_mm", "mm", "reading on B, unequal set-up"),
    Quantity("over_mm", "mm", "length of sight for which the error is given", default=units.MM_PER_M),
    Quantity(
        "greatest_error_mm",
        "mm",
        "error in a metre above which the readings are not believed",
        figure="survey.two_peg_believed_mm",
    ),
)
_PEG_ANSWERS = (
    Quantity("error_mm", "mm", "rise of the line of sight over the length asked for; negative points down"),
    Quantity("correct_a_mm", "mm", "what a level sight would have read on A"),
    Quantity("correct_b_mm", "mm", "what a level sight would have read on B"),
    Quantity("b_above_a_mm", "mm", "how far B stands above A"),
    Quantity("line_of_sight", "", "level, up or down", "word"),
)

TWO_PEG_SUMS: tuple[Sum, ...] = (
    Sum(
        "two-peg-test",
        "Find whether the line of sight of a level points up or down",
        (
            Quantity("equal_a_mm", "mm", "reading on A, instrument half-way"),
            Quantity("equal_b_mm", "mm", "reading on B, instrument half-way"),
            *_PEG_INPUTS,
        ),
        _PEG_ANSWERS,
        "e = (difference with unequal sights − difference with equal sights) / (sight to A − sight to B)",
        "surveying_for_engineers, two-peg test",
        two_peg_test,
    ),
    Sum(
        "two-peg-test-on-levels",
        "Find the same from one set-up between two pegs of known level",
        (
            Quantity("level_a_mm", "mm", "known level of A"),
            Quantity("level_b_mm", "mm", "known level of B"),
            *_PEG_INPUTS,
        ),
        _PEG_ANSWERS,
        "e = (difference of readings − difference of levels) / (sight to A − sight to B)",
        "surveying_for_engineers, two-peg test",
        two_peg_test_on_levels,
    ),
)
