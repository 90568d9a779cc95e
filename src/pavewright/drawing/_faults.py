"""What is wrong with a sheet: words on words, leaders over words or each other, words past the edge, small type."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

import numpy as np
import shapely

from pavewright.drawing._scene import Dimension, Path, ScaleWords, Words
from pavewright.drawing._sizes import size_words
from pavewright.drawing._type import MIN_TYPE_MM, corners_of
from pavewright.writing import told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.drawing._scene import Scene

_INK_MM = 0.15
"""Air in the box of words: so much of it bears no ink. [mm]"""
_END_MM = 1.6
"""Leaders to one sign meet within it. [mm]"""
_SAME = 1e-9


class FaultKind(StrEnum):
    """What can be wrong with a sheet."""

    WORDS_ON_WORDS = "words on words"
    LEADER_ON_WORDS = "leader over words"
    LEADER_ON_LEADER = "leader over leader"
    OFF_SHEET = "past the edge of the sheet"
    SMALL_TYPE = "type under eight points"


@dataclass(frozen=True, slots=True)
class SheetFault:
    """Something wrong with a sheet.

    Attributes:
        kind: What it is.
        words: The words that it concerns, those of both where there are two.
    """

    kind: FaultKind
    words: tuple[str, ...]


def sheet_faults(scene: Scene) -> tuple[SheetFault, ...]:
    """Return what is wrong with a sheet; nothing where every word and leader is clear of all others."""
    words = list(_words_of(scene))
    leaders = [each for each in scene.elements if isinstance(each, Path) and each.leads]
    return (*_of_words(scene, words), *_of_leaders(scene, words, leaders))


def _words_of(scene: Scene) -> Iterator[Words]:
    for each in scene.elements:
        if isinstance(each, Words):
            yield Words(
                each.at, told(each.text), max(each.height_mm, MIN_TYPE_MM), each.anchor, each.bold, each.turn_deg
            )
        elif isinstance(each, ScaleWords):
            yield Words(each.at, each.text or scene.scale_said, max(each.height_mm, MIN_TYPE_MM), "start")
        elif isinstance(each, Dimension) and (written := size_words(each, scene.scale)) is not None:
            yield written


def _of_words(scene: Scene, words: list[Words]) -> Iterator[SheetFault]:
    boxes = _boxes(words, scene.scale)
    sheet = shapely.box(*scene.bounds_mm)
    for each, box in zip(words, boxes, strict=True):
        if not sheet.contains(box):
            yield SheetFault(FaultKind.OFF_SHEET, (each.text,))
        if each.height_mm < MIN_TYPE_MM - _SAME:
            yield SheetFault(FaultKind.SMALL_TYPE, (each.text,))
    tree = shapely.STRtree(boxes)
    for one, other in tree.query(boxes, predicate="intersects").T.tolist():
        if one < other:
            yield SheetFault(FaultKind.WORDS_ON_WORDS, (words[one].text, words[other].text))


def _of_leaders(scene: Scene, words: list[Words], leaders: list[Path]) -> Iterator[SheetFault]:
    boxes = _boxes(words, scene.scale)
    lines = np.array([shapely.LineString(each.points) for each in leaders], dtype=object)
    if not len(lines):
        return
    for line, box in shapely.STRtree(boxes).query(lines, predicate="intersects").T.tolist():
        yield SheetFault(FaultKind.LEADER_ON_WORDS, (_at(scene, leaders[line]), words[box].text))
    for one, other in shapely.STRtree(lines).query(lines, predicate="intersects").T.tolist():
        if one < other and not _meet(scene, leaders[one], leaders[other]):
            yield SheetFault(FaultKind.LEADER_ON_LEADER, (_at(scene, leaders[one]), _at(scene, leaders[other])))


def _meet(scene: Scene, one: Path, other: Path) -> bool:
    """Return whether two leaders only meet where both begin or end, at one sign."""
    near = _END_MM * scene.scale
    ends = [(a, b) for a in (one.points[0], one.points[-1]) for b in (other.points[0], other.points[-1])]
    close = [a for a, b in ends if math.dist(a, b) <= near]
    crossing = shapely.intersection(shapely.LineString(one.points), shapely.LineString(other.points))
    return any(shapely.distance(shapely.Point(a), crossing) <= near for a in close)


def _at(scene: Scene, leader: Path) -> str:
    x1, _, _, y2 = scene.bounds_mm
    x, y = leader.points[-1]
    return f"leader at {(x - x1) / scene.scale:.0f}, {(y2 - y) / scene.scale:.0f}"


def _boxes(words: list[Words], scale: float) -> np.ndarray:
    found = [shapely.Polygon(corners_of(each, scale)).buffer(-_INK_MM * scale) for each in words]
    return np.array(found, dtype=object)
