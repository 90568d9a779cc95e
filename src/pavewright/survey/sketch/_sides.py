"""On which side of a line a taped point lies: what says so, and whether the other side would fit the tapes better."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.geometry import along_and_offset
from pavewright.survey._types_shape import SideBy, SideTaken
from pavewright.survey.networks import OnLine
from pavewright.survey.sketch._laid import scatter_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.geometry import XY
    from pavewright.survey.networks import Observation
    from pavewright.survey.sketch._known import Known

_LINE_SHARE = 0.05
"""Points within this part of their line stand on one line. [-]"""
_DOUBT_SHARE = 0.1
"""Nearer to the line than this part of the shorter tape a finger may have drawn a point on the other side. [-]"""
_SURE = 2.3
"""Half of the natural logarithm of 99: the sketch has to make one side so many times likelier than the other. [-]"""
_TWO = 2


@dataclass(frozen=True, slots=True)
class _Joined:
    """A point that waits, with what joins it to points that are ready."""

    name: str
    count: int
    line: tuple[str, str] | None
    off_line: bool
    on_line: bool


def sides_of(
    known: Known, measured: Sequence[str], places: Mapping[str, XY], sketch: Mapping[str, XY], min_share: float
) -> tuple[SideTaken, ...]:
    """Return what says on which side of its line each measured point lies; none for the base line and held points.

    Args:
        known: What was measured and stated.
        measured: The points whose places are measured.
        places: Where all points stand. [mm]
        sketch: Where they are drawn. [mm]
        min_share: How far lines of a sketch scatter about its scale at the least. [-]
    """
    scatter = scatter_of(sketch, [(each.start, each.end, each.length_mm) for each in known.tapes], min_share)
    fast = {*known.held, *((known.base.start, known.base.end) if known.base is not None else ())}
    stated = {side.point for side in known.sides}
    waiting = [name for name in measured if name not in fast]
    own = _by_point(known)
    taken: dict[str, SideTaken] = {}
    rows = {name: _joined(name, own, fast, places) for name in waiting}
    while rows:
        chosen = (
            next((each for each in rows.values() if each.count > _TWO and each.off_line), None)
            or next((each for each in rows.values() if each.count >= _TWO and each.name in stated), None)
            or next((each for each in rows.values() if each.count >= _TWO), None)
            or next(iter(rows.values()))
        )
        taken[chosen.name] = _taken(chosen, stated, (sketch, places), scatter)
        del rows[chosen.name]
        ready = fast | set(taken)
        for name in {name for each in own.get(chosen.name, ()) for name in each.points} & set(rows):
            rows[name] = _joined(name, own, ready, places)
    return tuple(taken.values())


def _by_point(known: Known) -> dict[str, list[Observation]]:
    """Return what was measured at every point."""
    own: dict[str, list[Observation]] = {}
    for each in known.observations:
        for name in each.points:
            own.setdefault(name, []).append(each)
    return own


def _joined(name: str, own: Mapping[str, list[Observation]], ready: set[str], places: Mapping[str, XY]) -> _Joined:
    joins = [each for each in own.get(name, ()) if all(point == name or point in ready for point in each.points)]
    others = list(dict.fromkeys(point for each in joins for point in each.points if point != name))
    line = _widest(others, places)
    on_line = any(isinstance(each, OnLine) for each in joins)
    return _Joined(name, len(joins), line, line is not None and _is_off_line(others, line, places), on_line)


def _taken(
    each: _Joined, stated: set[str], drawn_and_placed: tuple[Mapping[str, XY], Mapping[str, XY]], scatter: float
) -> SideTaken:
    if each.on_line:
        return SideTaken(each.name, SideBy.SKETCH, None)
    if each.name in stated:
        return SideTaken(each.name, SideBy.STATED, each.line)
    if each.count > _TWO and each.off_line:
        return SideTaken(each.name, SideBy.TAPES, None)
    plain = each.line is not None and _is_plain(each.name, each.line, drawn_and_placed, scatter)
    return SideTaken(each.name, SideBy.SKETCH if plain else SideBy.DOUBTFUL, each.line)


def _widest(names: Sequence[str], places: Mapping[str, XY]) -> tuple[str, str] | None:
    """Return the two that stand farthest apart."""
    best, far = None, 0.0
    for pair in itertools.combinations(names, 2):
        away = math.dist(places[pair[0]], places[pair[1]])
        if away > far:
            best, far = pair, away
    return best


def _is_off_line(names: Sequence[str], line: tuple[str, str], places: Mapping[str, XY]) -> bool:
    start, end = places[line[0]], places[line[1]]
    reach = _LINE_SHARE * math.dist(start, end)
    return any(abs(along_and_offset(start, end, places[name])[1]) > reach for name in names)


def _is_plain(
    name: str, line: tuple[str, str], drawn_and_placed: tuple[Mapping[str, XY], Mapping[str, XY]], scatter: float
) -> bool:
    """Return whether the sketch shows plainly on which side a point lies.

    With a scatter s a sketch that shows a point h off its line, of which tapes say that it stands m off it, makes this
    side e^(2 h m / s²) times likelier than the other.
    """
    off = 1.0
    for places in drawn_and_placed:
        if any(each not in places for each in (name, *line)):
            return False
        place, start, end = places[name], places[line[0]], places[line[1]]
        shorter = min(math.dist(place, start), math.dist(place, end))
        if start == end or shorter == 0.0:
            return False
        share = abs(along_and_offset(start, end, place)[1]) / shorter
        if places is drawn_and_placed[0] and share <= _DOUBT_SHARE:
            return False
        off *= share
    return off > _SURE * scatter * scatter
