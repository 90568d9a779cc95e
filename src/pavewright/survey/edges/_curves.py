"""Curves that are measured by offsets from a chord: whether they are the one arc that somebody takes them for."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.findings import Finding, Severity
from pavewright.survey._codes import Code
from pavewright.survey._remarks import metres, millimetres
from pavewright.survey.edges._one_arc import off_arc_mm, rise_by_offsets_mm

if TYPE_CHECKING:
    from pavewright.job import MeasuredCurve
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey.edges._features import Places


def tell_curves(where: Places, figures: SurveyFigures) -> None:
    """Report offsets that stand off the arc that is fitted to them, and those past the ends of their chord.

    Args:
        where: Where points stand, and the curves.
        figures: Figures of the survey.
    """
    for number, curve in enumerate(where.curves):
        ends = where.find(f"measurements.curves.{number}", f"Curve {curve.name}", (curve.line_from, curve.line_to))
        if ends is None or not curve.one_arc:
            continue
        chord = math.dist(*ends)
        past = [each for each in curve.offsets if not 0.0 < each.along_mm < chord]
        if past:
            words = (
                f"Curve {curve.name}: the offset at {metres(past[0].along_mm)} is not between {curve.line_from} and "
                f"{curve.line_to}, which are {metres(chord)} apart: measure it again."
            )
            where.remarks.fault(f"measurements.curves.{number}.offsets", words)
            continue
        _tell_off(curve, chord, where, figures)


def _tell_off(curve: MeasuredCurve, chord: float, where: Places, figures: SurveyFigures) -> None:
    figure = figures.arc_offset_mm
    offsets = [(each.along_mm, each.offset_mm) for each in curve.offsets]
    found = off_arc_mm(chord, rise_by_offsets_mm(chord, offsets), offsets)
    worst = max(range(len(found)), key=lambda number: abs(found[number]))
    if abs(found[worst]) <= figure.value:
        return
    side = "left" if found[worst] > 0.0 else "right"
    message = (
        f"Curve {curve.name} is taken for one arc, and its offset at {metres(offsets[worst][0])} stands "
        f"{millimetres(round(abs(found[worst])))} {side} of it: measure that offset again, or draw the edge through "
        f"its offsets."
    )
    place = f"curve {curve.name}"
    where.remarks.finding(
        Finding(Code.CURVE_OFF, Severity.CHECK, place, message, found[worst], figure.value, "mm", figure)
    )
