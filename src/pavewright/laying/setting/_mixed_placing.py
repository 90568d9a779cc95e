"""Mixed sizes in an area: cells of the module that its outline takes, and the units that fill them."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
import shapely

from pavewright import units
from pavewright.job import Fault, Pattern, Wanted
from pavewright.laying.mixed import MixedRefusal, SoldSize, fill_bay, mix_rules, pack_of
from pavewright.laying.patterns import Placing
from pavewright.laying.pieces import laid_in_turn
from pavewright.laying.setting._mixed_units import Cells, MixedPlacing
from pavewright.laying.setting._setting import covered

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job import PavingUnit
    from pavewright.laying._figures import LayingFigures
    from pavewright.laying.mixed import MixedLayout, MixedUnit, MixRules, Pack
    from pavewright.laying.patterns import Layout
    from pavewright.laying.pieces import Clipped
    from pavewright.laying.setting._setting import Setting
    from pavewright.survey import PlanArea


@dataclass(frozen=True)
class Ready:
    """An area in mixed sizes before it is filled: its pack, its rules and its cells."""

    pack: Pack
    rules: MixRules
    cells: Cells


def with_mixed(setting: Setting, area: PlanArea, known: LayingFigures) -> Setting | MixedRefusal:
    """Return a setting with its units of mixed sizes placed; as it is where the pattern is another one."""
    laying = area.area.laying
    if laying.pattern is not Pattern.MIXED or laying.pack is None:
        return setting
    ready = made_ready(setting, area, known)
    if isinstance(ready, MixedRefusal):
        return ready
    found = fill_bay(ready.cells.bay, ready.pack, ready.rules, mix=laying.mix)
    lying = 0
    for number, stage in enumerate(laying.pack.laid, start=1):
        if isinstance(found, MixedRefusal):
            return found
        kept = covered(_placed(setting, ready, found, lying), known)
        down = _down(setting.layout, ready, found, kept, stage.numbers)
        if isinstance(down, MixedRefusal):
            return down
        lying = len(down)
        found = fill_bay(ready.cells.bay, ready.pack, ready.rules, mix=laying.mix, yard=stage.yard or None, down=down)
        if isinstance(found, MixedRefusal):
            return replace(found, words=f"planned again, time {number}, with {lying} units down: {found.words}")
    return found if isinstance(found, MixedRefusal) else _placed(setting, ready, found, lying)


def made_ready(setting: Setting, area: PlanArea, known: LayingFigures) -> Ready | MixedRefusal:
    """Return the pack, the rules and the cells of an area that is laid in mixed sizes."""
    laying = area.area.laying
    assert laying.pack is not None  # noqa: S101 - the job document was checked
    sold = setting.units[: len(laying.pack.counts)]
    sizes = tuple(
        SoldSize(unit.name, unit.length_mm, unit.width_mm, count)
        for unit, count in zip(sold, laying.pack.counts, strict=True)
    )
    pack = pack_of(sizes, laying.pack.module_mm, laying.joint_mm, laying.pack.covers_m2, known.mixed)
    if isinstance(pack, MixedRefusal):
        return pack
    cells = _cells(setting, pack.module_mm, known.mixed.mix_cell_min_part.value)
    return Ready(pack, mix_rules(pack, known.mixed), cells)


def _placed(setting: Setting, ready: Ready, found: MixedLayout, lying: int) -> Setting:
    """Return a setting with a layout put in."""
    sold = setting.units[: len(ready.pack.sizes)]
    placing = _placing(setting.layout, found, sold, ready.pack.module_mm, ready.cells.first)
    words = _words(found, ready, lying)
    return replace(setting, mixed=MixedPlacing(placing, words, found, ready.pack, ready.cells, lying))


def _down(
    layout: Layout, ready: Ready, found: MixedLayout, kept: Sequence[Clipped], numbers: tuple[int, ...]
) -> tuple[MixedUnit, ...] | MixedRefusal:
    """Return the units of pieces that lie already; pieces of a border lie where they do anyway."""
    in_turn = laid_in_turn(kept, from_right=layout.from_right, from_far=layout.from_far)
    if not numbers or numbers[0] < 1 or numbers[-1] > len(in_turn):
        words = f"the plan in hand has pieces 1 to {len(in_turn)}: read off again which ones lie."
        return MixedRefusal(words, None, proved=True)
    owner = {
        (row, column): unit
        for unit in found.placed
        for row in range(unit.row, unit.row + unit.deep_cells)
        for column in range(unit.column, unit.column + unit.wide_cells)
    }
    down = set()
    for number in numbers:
        piece = in_turn[number - 1]
        if not piece.border:
            at = piece.part.representative_point()
            along, across = _from_start(layout, (at.x, at.y))
            row, column = (math.floor(from_start / ready.pack.module_mm) for from_start in (across, along))
            down.add(owner[row - ready.cells.first[0], column - ready.cells.first[1]])
    return tuple(sorted(down))


def mixed_fault(path: str, name: str, refused: MixedRefusal) -> Fault:
    """Return the fault of an area whose pack cannot be laid."""
    wanted = Wanted.LAYOUT if refused.sound else None
    return Fault(f"{path}.pack", f"Area {name} in mixed sizes: {refused.words}", wanted, name)


def laid_of_each(found: MixedLayout, pack: Pack) -> tuple[int, ...]:
    """Return the units of each size in a layout, those that lay before among them."""
    counted = Counter(unit.size for unit in found.placed)
    return tuple(counted[size] for size in range(len(pack.sizes)))


def packs_of(found: MixedLayout, pack: Pack) -> int:
    """Return the whole packs that a layout takes."""
    return max(math.ceil(laid / count) for laid, count in zip(laid_of_each(found, pack), pack.counts, strict=True))


def bay_joints(layout: Layout, placing: MixedPlacing, field: shapely.Geometry) -> list[shapely.LineString]:
    """Return the straight movement joints between bays inside the field, in the frame."""
    module, half = placing.pack.module_mm, placing.pack.joint_mm / 2.0
    lines = []
    for row, column, last_row, last_column in placing.found.bay_joints:
        ends = [
            _least(
                layout,
                np.array((c + placing.cells.first[1]) * module - half),
                np.array((r + placing.cells.first[0]) * module - half),
                0.0,
                0.0,
            )
            for r, c in ((row, column), (last_row, last_column))
        ]
        line = shapely.LineString([(float(x), float(y)) for x, y in ends])
        parts = shapely.get_parts(shapely.intersection(line, field))
        lines += [part for part in parts if isinstance(part, shapely.LineString) and part.length > 0.0]
    return lines


def _words(found: MixedLayout, ready: Ready, lying: int) -> tuple[str, ...]:
    pack, limit = ready.pack, ready.rules.longest_joint_cells
    packs = packs_of(found, pack)
    left = ", ".join(
        f"{packs * size.per_pack - laid} {size.name}"
        for size, laid in zip(pack.sizes, laid_of_each(found, pack), strict=True)
    )
    taken = f"{packs} mixed {'pack' if packs == 1 else 'packs'}"
    words: tuple[str, ...] = (
        "Mixed sizes are laid on one module from the starting corner; other starts are not searched.",
        f"The layout takes {taken}, every cut from a unit of its own, and leaves {left}.",
    )
    if lying:
        words = (*words, f"{lying} units lay already and stay; the rest is laid from what is left in the yard.")
    if found.bays == 1:
        return words
    words = (*words, f"The area is laid in {found.bays} bays: a straight movement joint runs between two of them.")
    if not limit or found.longest_joint_cells <= limit:
        return words
    runs, wanted = (units.millimetres_text(cells * pack.module_mm) for cells in (found.longest_joint_cells, limit))
    return *words, f"A straight joint runs on through a movement joint: {runs} in all, where {wanted} is the limit."


def _cells(setting: Setting, module_mm: float, min_part: float) -> Cells:
    """Return which cells are to be covered; one of which no more than a least part lies inside is the joint's."""
    layout, field = setting.layout, shapely.union_all(setting.field)
    x1, y1, x2, y2 = field.bounds
    (ax, ay), (bx, by) = _from_start(layout, (x1, y1)), _from_start(layout, (x2, y2))
    first = math.floor(min(ay, by) / module_mm + _ROUNDING), math.floor(min(ax, bx) / module_mm + _ROUNDING)
    rows = max(math.ceil(max(ay, by) / module_mm - _ROUNDING) - first[0], 1)
    columns = max(math.ceil(max(ax, bx) / module_mm - _ROUNDING) - first[1], 1)
    row, column = np.meshgrid(np.arange(rows) + first[0], np.arange(columns) + first[1], indexing="ij")
    boxes = _boxes(layout, column * module_mm, row * module_mm, module_mm, module_mm)
    shapely.prepare(field)
    inside = shapely.contains(field, boxes)
    edge = shapely.intersects(field, boxes) & ~inside
    part = np.zeros(boxes.shape)
    part[edge] = shapely.area(shapely.intersection(boxes[edge], field))
    return Cells(inside | (part > min_part * module_mm**2), inside, first)


_ROUNDING = 1e-6
"""Rounding of coordinates that were turned into the frame, as a part of a module."""


def _from_start(layout: Layout, point: tuple[float, float]) -> tuple[float, float]:
    """Return a point as it lies from the starting corner, the way laying runs. [mm]."""
    along, across = point[0] - layout.start[0], point[1] - layout.start[1]
    return (-along if layout.from_right else along), (-across if layout.from_far else across)


def _least(
    layout: Layout, along: np.ndarray, across: np.ndarray, wide: np.ndarray | float, deep: np.ndarray | float
) -> tuple[np.ndarray, np.ndarray]:
    """Return the least corners in the frame of boxes that are given from the starting corner. [mm]."""
    x = layout.start[0] - along - wide if layout.from_right else layout.start[0] + along
    y = layout.start[1] - across - deep if layout.from_far else layout.start[1] + across
    return x, y


def _boxes(layout: Layout, along: np.ndarray, across: np.ndarray, wide: float, deep: float) -> np.ndarray:
    x, y = _least(layout, along, across, wide, deep)
    return np.asarray(shapely.box(x, y, x + wide, y + deep))


def _placing(
    layout: Layout, found: MixedLayout, sold: tuple[PavingUnit, ...], module_mm: float, first: tuple[int, int]
) -> Placing:
    """Return the units of a layout with their places in the frame."""
    row, column, size, deep, wide = (
        np.array([getattr(unit, name) for unit in found.placed], dtype=np.int64)
        for name in ("row", "column", "size", "deep_cells", "wide_cells")
    )
    length = np.array([unit.length_mm for unit in sold])[size]
    width = np.array([unit.width_mm for unit in sold])[size]
    upright = (deep > wide) == (length > width)
    upright &= deep != wide
    along, across = (column + first[1]) * module_mm, (row + first[0]) * module_mm
    wide_mm, deep_mm = np.where(upright, width, length), np.where(upright, length, width)
    x, y = _least(layout, along, across, wide_mm, deep_mm)
    return Placing(
        x_mm=np.where(upright, x + wide_mm, x),
        y_mm=y,
        turn_deg=np.where(upright, 90.0, 0.0),
        along_mm=length,
        across_mm=width,
        course=row + first[0],
        order=along,
        size=size,
    )
