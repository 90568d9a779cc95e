"""Sentences of the findings on sketched points, made from what was found."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.survey._remarks import metres, millimetres

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job import TapeSide
    from pavewright.survey._types_shape import SideTaken, UnplacedPoint
    from pavewright.survey._types_tapes import ErrorEllipse
    from pavewright.survey.networks import Distance


def sketched(names: Sequence[str], missing: int) -> str:
    """Say which points stand by the sketch only.

    Args:
        names: The points.
        missing: How many conditions they lack together.
    """
    are = "is" if len(names) == 1 else "are"
    tapes = "one more tape" if missing == 1 else f"{missing} more tapes"
    return (
        f"{', '.join(names)} {are} placed by the sketch, not measured: lengths and areas there are by eye. "
        f"{tapes.capitalize()} would fix the shape."
    )


def tapped(names: Sequence[str]) -> str:
    """Say which spots stand where a finger put them."""
    return f"{', '.join(names)}: placed by eye on the sketch, not measured."


def side_by_sketch(sides: Sequence[SideTaken]) -> str:
    """Say which points lie left or right by the sketch."""
    names = ", ".join(each.name for each in sides)
    return f"On which side of its line {names} {'lies' if len(sides) == 1 else 'lie'} is taken from the sketch."


def side_doubtful(side: SideTaken) -> str:
    """Say that the sketch does not show plainly on which side a point lies."""
    line = f"the line {side.line[0]}–{side.line[1]}" if side.line is not None else "its line"
    return (
        f"{side.name} is drawn close to {line}: the tapes fit either side, and the sketch may be wrong. Say on which "
        f"side it lies, or tape it from one more point."
    )


def point_weak(name: str, axes: ErrorEllipse) -> str:
    """Say that a point is measured, and badly."""
    return (
        f"{name} is measured, but known only to {millimetres(round(axes.major_mm))} in direction "
        f"{axes.bearing_deg:.0f}°: what reaches it runs nearly along one line. Tape it from well to the side."
    )


def unplaced(point: UnplacedPoint) -> str:
    """Say why a taped point has no place."""
    if point.missing == 0:
        return (
            f"{point.name} has two places by its tapes: say on which side of a line it lies, tap it on the sketch, or "
            f"tape it from one more point."
        )
    tapes = "one more tape" if point.missing == 1 else "two tapes to placed points"
    return f"{point.name} is not on the sketch and needs {tapes}: tap it on the sketch, or measure it."


def no_meeting(three: Sequence[Distance]) -> str:
    """Say that three tapes make no triangle."""
    reported = [f"{each.start}–{each.end} {metres(each.length_mm)}" for each in three]
    return f"Tapes {reported[0]}, {reported[1]} and {reported[2]} do not meet: measure them again."


def wrong_side(side: TapeSide) -> str:
    """Say that a stated side is not the one that the tapes fit."""
    return (
        f"{side.point} is said to lie {side.side} of {side.line_from}–{side.line_to}, but the tapes fit the other side "
        f"only: look at the sketch, or measure the tapes to {side.point} again."
    )
