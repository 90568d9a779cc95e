"""The ground as it lies: triangles between spot levels."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from pavewright.findings import Finding, Severity
from pavewright.geometry import CrossingLinesError, TriangulatedSurface, triangulate
from pavewright.survey._codes import Code
from pavewright.survey.ground import _words as words

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.job import Measurements
    from pavewright.survey._remarks import Remarks
    from pavewright.survey._types import SurveyedPoint

_LEAST = 3


def ground_surface(
    measured: Measurements, points: Mapping[str, SurveyedPoint], remarks: Remarks
) -> TriangulatedSurface | None:
    """Return the triangles between the spot levels of the ground, or None where there are too few.

    Points of break lines and round gaps are spot levels too.

    Args:
        measured: What was measured: spots, break lines, gaps.
        points: All surveyed points by name.
        remarks: Where spot levels without a level, two on one place, or crossing lines are reported.
    """
    lines = [each.points for each in measured.break_lines]
    gaps = [each.points for each in measured.ground_gaps]
    names = (*measured.ground_spots, *(name for each in (*lines, *gaps) for name in each))
    _tell_unplaced(measured, points, remarks)
    spots = _spots(names, points, remarks)
    if len(spots) < _LEAST:
        _tell(
            remarks,
            Code.NO_GROUND,
            "ground",
            words.few_spots(len(spots)),
        )
        return None
    ground = [(x, y, level) for (x, y), (_, level) in spots.items()]
    index = {xy: number for number, xy in enumerate(spots)}
    at = {name: index[points[name].xy] for name in names if name in points and points[name].xy in index}
    placed = [tuple(at[name] for name in line if name in at) for line in lines]
    breaks = [leg for line in placed for leg in itertools.pairwise(line) if leg[0] != leg[1]]
    rings = [ring for ring in (tuple(at[name] for name in gap if name in at) for gap in gaps) if len(ring) >= _LEAST]
    try:
        return triangulate(ground, breaks, rings)
    except CrossingLinesError as crossing:
        reported = [" to ".join(_name_at(spots, number) for number in line) for line in crossing.lines]
        remarks.fault(
            "measurements.break_lines",
            f"The break lines {reported[0]} and {reported[1]} cross where nothing was measured: read the staff where "
            f"they cross, and lead both over that point.",
        )
        return None
    except ValueError:
        _tell(
            remarks,
            Code.NO_GROUND,
            "ground",
            words.SPOTS_ON_A_LINE,
        )
        return None


def _tell_unplaced(measured: Measurements, points: Mapping[str, SurveyedPoint], remarks: Remarks) -> None:
    """Report readings of the staff on the ground at points that have no place: they cannot take part in the ground."""
    for name in measured.ground_spots:
        if name not in points and name not in measured.ground_points:
            _tell(remarks, Code.SPOT_UNPLACED, f"point {name}", words.spot_unplaced(name))


def _name_at(spots: Mapping[tuple[float, float], tuple[str, float]], number: int) -> str:
    return list(spots.values())[number][0]


def _spots(
    names: Sequence[str], points: Mapping[str, SurveyedPoint], remarks: Remarks
) -> dict[tuple[float, float], tuple[str, float]]:
    """Return name and level of each spot by its place; those without a level are reported and left out."""
    spots: dict[tuple[float, float], tuple[str, float]] = {}
    for name in dict.fromkeys(names):
        point = points.get(name)
        if point is None:
            continue
        if point.level_mm is None:
            _tell(
                remarks,
                Code.SPOT_WITHOUT_LEVEL,
                f"point {name}",
                words.spot_without_level(name),
            )
            continue
        before = spots.setdefault(point.xy, (name, point.level_mm))
        if before[0] != name and before[1] != point.level_mm:
            _tell(
                remarks,
                Code.SPOT_TWICE,
                f"point {name}",
                words.spot_twice(before[0], name),
            )
    return spots


def _tell(remarks: Remarks, code: Code, place: str, message: str) -> None:
    remarks.finding(Finding(code, Severity.CHECK, place, message))
