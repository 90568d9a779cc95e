"""Caps: how much one job may ask for, from what it was measured to cost, and what in a job weighs most.

Every cap lies far beyond a garden or a yard. Time grows with the square or the cube of some counts, so that a document
of a few hundred kilobytes could otherwise hold the machine for hours.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pavewright.job._faults import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from pavewright.job._document import Job

MAX_CORNERS = 4000
"""Most corners of all outlines and holes together. One outline of 2000 takes about half a minute, and the time grows
with the square of the corners of an outline. Measured on one core of a small server."""
MAX_TAPED = 800
"""Most tapes, square corners and points on lines of a tape plan. 600 take 5 s, 2000 take over 90 s: the time grows with
the cube. Measured on one core of a small server."""


@dataclass(frozen=True, slots=True)
class _Count:
    """How much of one thing a job holds: words with the count, and the count at which it alone is heavy."""

    words: str
    count: int
    heavy: int


MAX_TAPED_ON_SKETCH = 300
"""Most of them in a job with a sketch: every point is then settled with every other, five times over."""


def too_much(job: Job) -> Iterator[Fault]:
    """Give what a job asks for beyond the caps."""
    corners = {area.name: len(area.outline) + sum(map(len, area.holes)) for area in job.areas}
    whole = sum(corners.values())
    if whole > MAX_CORNERS:
        most = max(corners, key=lambda name: corners[name])
        words = (
            f"The outlines and holes of this job have {whole:,} corners together, {corners[most]:,} of them in area "
            f"{most}; at most {MAX_CORNERS:,} are taken. Leave out points on straight lines, or tell curves as arcs."
        )
        yield Fault("areas", words)
    plan = job.measurements.tape_plan
    most_taped = MAX_TAPED_ON_SKETCH if job.measurements.sketch else MAX_TAPED
    if plan is not None:
        taped = len(plan.tapes) + len(plan.square_corners) + len(plan.points_on_lines)
        if taped > most_taped:
            words = (
                f"The tape plan holds {taped:,} tapes, square corners and points on lines; at most {most_taped:,} are "
                f"taken. Split the site into two jobs, or give the points by coordinates or offsets."
            )
            yield Fault("measurements.tape_plan.tapes", words)


def heaviest(document: Mapping[str, Any]) -> str:
    """Return a sentence on what in a document makes it slow to work out; empty where nothing in it is large.

    Args:
        document: As it was sent, of any shape.
    """
    large = sorted((each for each in _counts(document) if 4 * each.count > each.heavy), key=_share, reverse=True)
    if not large:
        return ""
    return f"What makes it slow: {' and '.join(each.words for each in large[:2])}."


def _share(each: _Count) -> float:
    return each.count / each.heavy


def _counts(document: Mapping[str, Any]) -> Iterator[_Count]:
    for area in _list(document, "areas"):
        corners = len(_list(area, "outline")) + sum(
            len(hole) for hole in _list(area, "holes") if isinstance(hole, list)
        )
        name = area.get("name") if isinstance(area, dict) else None
        yield _Count(f"the outline of area {str(name)[:60]} has {corners:,} corners", corners, 1000)
    measured = document.get("measurements")
    if not isinstance(measured, dict):
        return
    taped = _list(measured.get("tape_plan"), "tapes")
    yield _Count(f"the tape plan has {len(taped):,} tapes", len(taped), 400)
    ground = _list(measured, "ground_points")
    yield _Count(f"there are {len(ground):,} points of the ground", len(ground), 10_000)
    rows = sum(len(_list(book, "rows")) for book in _list(measured, "level_books"))
    yield _Count(f"the level books have {rows:,} rows", rows, 10_000)
    readings = _list(document.get("as_laid"), "readings")
    yield _Count(f"there are {len(readings):,} readings as laid", len(readings), 10_000)
    again = sum(len(_list(visit, "read_again")) for visit in _list(document.get("as_laid"), "later_visits"))
    yield _Count(f"there are {again:,} readings of later visits", again, 40_000)


def _list(value: Any, name: str) -> list[Any]:  # noqa: ANN401 - a document of any shape
    found = value.get(name) if isinstance(value, dict) else None
    return found if isinstance(found, list) else []
