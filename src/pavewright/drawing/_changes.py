"""What changed on the drawings from one plan of a job to another, or by its variations, each with its place."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

import shapely

from pavewright.geometry import without
from pavewright.job.agreed import VariationState

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from pavewright.drawing._labels import Box
    from pavewright.geometry import XY
    from pavewright.job.agreed import DrawnArea
    from pavewright.pipeline import Plan, PlanSoFar

_MOVED_MM = 1.0
"""What moved by less stayed. [mm]"""
_LEVEL_MM = 0.5
"""Levels that differ by less are the same. [mm]"""
_MIN_MM2 = 1e4
"""Less of an area is no change of its outline. [mm²]"""


class ChangeOf(StrEnum):
    """What changed."""

    OUTLINE = "outline"
    LEVELS = "levels"
    LAYERS = "layers"
    UNITS = "units"
    STEPS = "steps"
    WALL = "wall"
    GULLY = "gully"
    CHANNEL = "channel"
    COVER = "cover"
    SERVICE = "service"
    SOAKAWAY = "soakaway"


class ChangeHow(StrEnum):
    """How it changed."""

    NEW = "new"
    GONE = "gone"
    MOVED = "moved"
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class PlacedChange:
    """One change with its place.

    Attributes:
        of: What changed.
        kind: How.
        name: Its name.
        box: What the cloud goes round: lowest and highest x and y. [mm]
        before_mm: A level, a thickness or a height before; None where it has none. [mm]
        after_mm: The same after. [mm]
        variation: Number of the variation that brings it; None where it comes of comparing two plans.
        agreed: Whether that variation is approved.
    """

    of: ChangeOf
    kind: ChangeHow
    name: str
    box: Box
    before_mm: float | None = None
    after_mm: float | None = None
    variation: int | None = None
    agreed: bool = True


def changes_between(before: Plan | PlanSoFar, after: Plan | PlanSoFar) -> tuple[PlacedChange, ...]:
    """Return what differs between two plans of one job, as far as both are known; what has another name is another."""
    return (*_areas(before, after), *_steps(before, after), *_walls(before, after), *_things(before, after))


def changes_by_variations(plan: Plan | PlanSoFar) -> tuple[PlacedChange, ...]:
    """Return what the variations of a job change on its drawings, those that were refused left out."""
    found = []
    for variation in plan.job.variations:
        if variation.state is VariationState.REFUSED:
            continue
        for old, new in zip(variation.before, variation.after, strict=True):
            found += [
                _of_variation(each, variation.number, agreed=variation.state is VariationState.APPROVED)
                for each in _drawn(old, new)
            ]
    return tuple(found)


def _of_variation(change: PlacedChange, number: int, *, agreed: bool) -> PlacedChange:
    return PlacedChange(
        change.of, change.kind, change.name, change.box, change.before_mm, change.after_mm, number, agreed
    )


def _drawn(old: DrawnArea, new: DrawnArea) -> Iterator[PlacedChange]:
    """Give what differs between an area as drawn before and after a variation."""
    one, other = (tuple((each.x_mm, each.y_mm) for each in area.corners) for area in (old, new))
    name = new.name or old.name
    yield from _outlines(name, one, other)
    whole = other or one
    if one and one == other:
        pairs = [
            (place, a.finished_mm, b.finished_mm)
            for place, a, b in zip(one, old.corners, new.corners, strict=True)
            if a.finished_mm is not None and b.finished_mm is not None
        ]
        yield from _levels(name, pairs)
    if old.layers != new.layers and whole:
        deep = [sum(layer.thickness_mm for layer in area.layers) for area in (old, new)]
        yield PlacedChange(ChangeOf.LAYERS, ChangeHow.OTHER, name, _about(whole), deep[0], deep[1])


def _outlines(name: str, one: tuple[XY, ...], other: tuple[XY, ...]) -> Iterator[PlacedChange]:
    if not one and not other:
        return
    if not one or not other:
        how = ChangeHow.NEW if other else ChangeHow.GONE
        yield PlacedChange(ChangeOf.OUTLINE, how, name, _about(other or one))
        return
    shapes = shapely.make_valid(shapely.Polygon(one)), shapely.make_valid(shapely.Polygon(other))
    for a, b in (shapes, shapes[::-1]):
        for part in shapely.get_parts(without(a, b)):
            if part.area > _MIN_MM2:
                yield PlacedChange(ChangeOf.OUTLINE, ChangeHow.MOVED, name, _box(part))


def _levels(name: str, pairs: list[tuple[XY, float, float]]) -> Iterator[PlacedChange]:
    """Give one change of levels, with that of the place where it is greatest."""
    moved = [(place, old, new) for place, old, new in pairs if abs(new - old) >= _LEVEL_MM]
    if moved:
        _, old, new = max(moved, key=lambda each: abs(each[2] - each[1]))
        yield PlacedChange(ChangeOf.LEVELS, ChangeHow.OTHER, name, _about([place for place, *_ in moved]), old, new)


def _areas(before: Plan | PlanSoFar, after: Plan | PlanSoFar) -> Iterator[PlacedChange]:
    was = {area.name: area for area in before.survey.site.areas}
    now = {area.name: area for area in after.survey.site.areas}
    for name in dict.fromkeys((*was, *now)):
        old, new = was.get(name), now.get(name)
        yield from _outlines(name, () if old is None else old.gross.outer, () if new is None else new.gross.outer)
        if old is None or new is None:
            continue
        ring = new.gross.outer
        if before.levels is not None and after.levels is not None:
            surfaces = [made.levels.area(name).surface for made in (before, after) if made.levels is not None]
            yield from _levels(name, [(at, surfaces[0].level_at(at), surfaces[1].level_at(at)) for at in ring])
        if before.build_ups is not None and after.build_ups is not None:
            layers = [made.build_ups.area(name) for made in (before, after) if made.build_ups is not None]
            if layers[0].layers != layers[1].layers:
                deep = [each.total_mm for each in layers]
                yield PlacedChange(ChangeOf.LAYERS, ChangeHow.OTHER, name, _about(ring), deep[0], deep[1])
        if old.area.laying != new.area.laying:
            yield PlacedChange(ChangeOf.UNITS, ChangeHow.OTHER, name, _about(ring))


def _steps(before: Plan | PlanSoFar, after: Plan | PlanSoFar) -> Iterator[PlacedChange]:
    if before.levels is None or after.levels is None:
        return
    was = {each.name: each for each in before.levels.steps}
    now = {each.name: each for each in after.levels.steps}
    for name in dict.fromkeys((*was, *now)):
        old, new = was.get(name), now.get(name)
        here = new or old
        if here is None:
            continue
        box = _about((here.start, here.end))
        if old is None or new is None:
            yield PlacedChange(ChangeOf.STEPS, ChangeHow.NEW if old is None else ChangeHow.GONE, name, box)
        elif old.risers != new.risers or abs(old.riser_mm - new.riser_mm) >= _LEVEL_MM:
            yield PlacedChange(ChangeOf.STEPS, ChangeHow.OTHER, name, box, old.riser_mm, new.riser_mm)
        elif max(math.dist(old.start, new.start), math.dist(old.end, new.end)) > _MOVED_MM:
            yield PlacedChange(ChangeOf.STEPS, ChangeHow.MOVED, name, box)


def _walls(before: Plan | PlanSoFar, after: Plan | PlanSoFar) -> Iterator[PlacedChange]:
    """Give walls whose damp-proof course was read anew."""
    was = {each.name: each for each in before.survey.site.walls}
    for wall in after.survey.site.walls:
        old = was.get(wall.name)
        if old is not None and old.dpc_level_mm != wall.dpc_level_mm:
            box = _middle((wall.start, wall.end))
            yield PlacedChange(ChangeOf.WALL, ChangeHow.OTHER, wall.name, box, old.dpc_level_mm, wall.dpc_level_mm)


_Thing = tuple[tuple["XY", ...], float | None]
"""Where something stands, and its level or invert where it has one."""


def _things(before: Plan | PlanSoFar, after: Plan | PlanSoFar) -> Iterator[PlacedChange]:
    for of in (ChangeOf.GULLY, ChangeOf.CHANNEL, ChangeOf.COVER, ChangeOf.SERVICE, ChangeOf.SOAKAWAY):
        was, now = _standing(before, of), _standing(after, of)
        for name in dict.fromkeys((*was, *now)):
            old, new = was.get(name), now.get(name)
            points, level = new or old or ((), None)
            if not points:
                continue
            box = _about(points)
            if old is None or new is None:
                yield PlacedChange(of, ChangeHow.NEW if old is None else ChangeHow.GONE, name, box)
            elif len(old[0]) != len(points) or any(
                math.dist(a, b) > _MOVED_MM for a, b in zip(old[0], points, strict=False)
            ):
                yield PlacedChange(of, ChangeHow.MOVED, name, box)
            elif old[1] != level:
                yield PlacedChange(of, ChangeHow.OTHER, name, _middle(points), old[1], level)


def _standing(made: Plan | PlanSoFar, of: ChangeOf) -> Mapping[str, _Thing]:
    site = made.survey.site
    if of is ChangeOf.GULLY:
        return {each.gully.name: ((each.at,), each.gully.invert_level_mm) for each in site.gullies}
    if of is ChangeOf.CHANNEL:
        return {each.name: ((each.start, each.end), each.invert_level_mm) for each in site.channels}
    if of is ChangeOf.COVER:
        return {each.cover.name: ((each.at,), each.level_mm) for each in site.covers}
    if of is ChangeOf.SERVICE:
        return {each.service.name: (each.points, each.service.depth_mm) for each in site.services}
    places = {point.name: point.xy for point in made.survey.points}
    return {
        each.name: ((places[each.soakaway.point],), each.invert_level_mm)
        for each in site.outfalls
        if each.soakaway is not None and each.soakaway.point in places
    }


def _about(points: tuple[XY, ...] | list[XY]) -> Box:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def _middle(points: tuple[XY, ...]) -> Box:
    """Return the middle of a line: what changed along all of it has its cloud there."""
    if len(points) == 1:
        return _about(points)
    middle = shapely.line_interpolate_point(shapely.LineString(points), 0.5, normalized=True)
    return _about([(float(middle.x), float(middle.y))])


def _box(shape: shapely.Geometry) -> Box:
    x1, y1, x2, y2 = shapely.bounds(shape)
    return float(x1), float(y1), float(x2), float(y2)
