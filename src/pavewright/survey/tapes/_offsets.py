"""Points measured along a line and square off it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.geometry import distance, point_along

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.geometry import XY
    from pavewright.job import OffsetPoint
    from pavewright.survey._remarks import Remarks


def place_offset_points(offsets: Sequence[OffsetPoint], known: Mapping[str, XY]) -> dict[str, XY]:
    """Return every offset point whose line can be placed from the known points, in whatever order they are written."""
    found: dict[str, XY] = {}
    waiting = list(offsets)
    while True:
        places = {**known, **found}
        ready = [
            point
            for point in waiting
            if point.line_from in places
            and point.line_to in places
            and distance(places[point.line_from], places[point.line_to]) > 0.0
        ]
        for point in ready:
            found[point.name] = point_along(
                places[point.line_from], places[point.line_to], point.along_mm, point.offset_mm
            )
        waiting = [point for point in waiting if point not in ready]
        if not ready:
            return found


def tell_unplaced_offsets(
    offsets: Sequence[OffsetPoint], places: Mapping[str, XY], named: frozenset[str], remarks: Remarks
) -> None:
    """Report why offset points could not be placed: an unknown end, a line of no length, lines that wait on each other.

    Args:
        offsets: All offset points.
        places: All points that were placed.
        named: Names that some measurement gives, placed or not.
        remarks: Where it is reported.
    """
    own = {point.name for point in offsets}
    for number, point in enumerate(offsets):
        if point.name in places:
            continue
        path = f"measurements.offsets.{number}"
        ends = (point.line_from, point.line_to)
        stray = [name for name in ends if name not in named]
        missing = [name for name in ends if name not in places]
        if stray:
            remarks.fault(path, f"{point.name} is measured off a line to {stray[0]}, which is not measured itself.")
        elif not missing:
            remarks.fault(
                path,
                f"{point.name} is measured off {ends[0]}–{ends[1]}, but both ends stand on one place: measure them.",
            )
        elif all(name in own for name in missing):
            remarks.fault(
                path,
                f"{point.name} is measured off {ends[0]}–{ends[1]}, and {missing[0]} waits for {point.name} or for a "
                f"point that is not placed: measure one of them from a known line.",
            )
