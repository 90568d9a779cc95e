"""What is reported of a shape that is sketched: points by eye, sides by eye, points without a place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import Finding, Severity
from pavewright.survey._codes import Code
from pavewright.survey._types_shape import SideBy
from pavewright.survey.sketch import _words as words

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.geometry import XY
    from pavewright.rules import Figure
    from pavewright.survey._remarks import Remarks
    from pavewright.survey._types_shape import ShapeSoFar
    from pavewright.survey._types_tapes import ErrorEllipse

_PLACE = "sketch"


def tell_weak(ellipses: Mapping[str, ErrorEllipse], places: Mapping[str, XY], figure: Figure, remarks: Remarks) -> None:
    """Report measured points whose tapes run so nearly along one line that they hold them badly."""
    for name, axes in ellipses.items():
        if axes.major_mm > _FLAT * figure.value:
            message = words.point_weak(name, axes)
            place = f"point {name}"
            at = places.get(name)
            remarks.finding(
                Finding(Code.POINT_WEAK, Severity.CHECK, place, message, axes.major_mm, None, "mm", figure, at_mm=at)
            )


_FLAT = 3.0
"""Beyond so many times the deviation from which on one more tape is advised a point is held badly. [-]"""


def tell_shape(shape: ShapeSoFar, places: Mapping[str, XY], remarks: Remarks) -> None:
    """Report what the sketch gives, and what it leaves open."""
    wanted = [each for each in shape.sketched if each.is_wanted]
    if wanted:
        message = words.sketched([each.name for each in wanted], sum(each.missing for each in wanted))
        remarks.finding(Finding(Code.POINT_SKETCHED, Severity.CHECK, _PLACE, message))
    spots = [each.name for each in shape.sketched if not each.is_wanted]
    if spots:
        remarks.finding(Finding(Code.POINT_SKETCHED, Severity.NOTE, _PLACE, words.tapped(spots)))
    plain = [each for each in shape.sides if each.by is SideBy.SKETCH and each.line is not None]
    if plain:
        remarks.finding(Finding(Code.SIDE_BY_SKETCH, Severity.NOTE, _PLACE, words.side_by_sketch(plain)))
    for side in shape.sides:
        if side.by is SideBy.DOUBTFUL:
            message = words.side_doubtful(side)
            at = places.get(side.name)
            remarks.finding(Finding(Code.SIDE_BY_SKETCH, Severity.CHECK, f"point {side.name}", message, at_mm=at))
    for point in shape.unplaced:
        message = words.unplaced(point)
        remarks.finding(Finding(Code.POINT_UNPLACED, Severity.CHECK, f"point {point.name}", message))
