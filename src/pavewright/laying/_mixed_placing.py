"""Mixed sizes in an area: cells of the module that its outline takes, and the units that fill them."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
import shapely

from pavewright.job import Fault, Pattern
from pavewright.laying.mixed import MixedLayout, MixedRefusal, SoldSize, fill_bay, mix_rules, pack_of
from pavewright.laying.patterns import Placing

if TYPE_CHECKING:
    from pavewright.job import PavingUnit
    from pavewright.laying._setting import Setting
    from pavewright.laying.mixed import Pack
    from pavewright.laying.patterns import Layout
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea

_LEAST_PART = 0.02
"""A cell of which no more than this part lies inside takes no unit: the joint at the edge takes it up."""


@dataclass(frozen=True)
class MixedPlacing:
    """Units of mixed sizes over an area.

    Attributes:
        placed: The units with their places.
        words: What the layout does not hold, for the reader of the plan.
    """

    placed: Placing
    words: tuple[str, ...]


def with_mixed(setting: Setting, area: PlanArea, rules: Rulebook) -> Setting | MixedRefusal:
    """Return a setting with its units of mixed sizes placed; as it is where the pattern is another one."""
    laying = area.area.laying
    if laying.pattern is not Pattern.MIXED or laying.pack is None:
        return setting
    sold = setting.units[: len(laying.pack.counts)]
    sizes = tuple(
        SoldSize(unit.name, unit.length_mm, unit.width_mm, count)
        for unit, count in zip(sold, laying.pack.counts, strict=True)
    )
    pack = pack_of(sizes, laying.pack.module_mm, laying.joint_mm, laying.pack.covers_m2, rules)
    if isinstance(pack, MixedRefusal):
        return pack
    bay, first = _cells(setting, pack.module_mm)
    found = fill_bay(bay, pack, mix_rules(pack, rules), mix=laying.mix)
    if isinstance(found, MixedRefusal):
        return found
    placing = _placing(setting.layout, found, sold, pack.module_mm, first)
    return replace(setting, mixed=MixedPlacing(placing, _words(found, pack)))


def mixed_fault(number: int, name: str, refused: MixedRefusal) -> Fault:
    """Return the fault of an area whose pack cannot be laid."""
    return Fault(f"areas.{number}.laying.pack", f"Area {name} in mixed sizes: {refused.words}")


def _words(found: MixedLayout, pack: Pack) -> tuple[str, ...]:
    packs = max(math.ceil(used / count) for used, count in zip(found.used, pack.counts, strict=True))
    left = ", ".join(
        f"{packs * size.per_pack - used} {size.name}" for size, used in zip(pack.sizes, found.used, strict=True)
    )
    taken = f"{packs} mixed {'pack' if packs == 1 else 'packs'}"
    ordered = "units are ordered and priced each by itself"
    words = (
        "Mixed sizes are laid on one module from the starting corner; other starts are not searched.",
        f"The layout takes {taken}, every cut from a unit of its own, and leaves {left}; {ordered}.",
    )
    if found.bays == 1:
        return words
    return *words, f"The area is laid in {found.bays} bays: a straight movement joint runs between two of them."


def _cells(setting: Setting, module_mm: float) -> tuple[np.ndarray, tuple[int, int]]:
    """Return which cells are to be covered, and the row and column of the first, counted from the starting corner."""
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
    found: np.ndarray = inside | (part > _LEAST_PART * module_mm**2)
    return found, first


_ROUNDING = 1e-6
"""Rounding of coordinates that were turned into the frame, as a part of a module."""


def _from_start(layout: Layout, point: tuple[float, float]) -> tuple[float, float]:
    """Return a point as it lies from the starting corner, the way laying runs. [mm]."""
    along, across = point[0] - layout.start[0], point[1] - layout.start[1]
    return (-along if layout.from_right else along), (-across if layout.from_far else across)


def _least(
    layout: Layout, along: np.ndarray, across: np.ndarray, wide: np.ndarray | float, deep: np.ndarray | float
) -> tuple[np.ndarray, np.ndarray]:
    """Return the least corners in the frame of boxes that are told from the starting corner. [mm]."""
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
