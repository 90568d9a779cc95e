"""A variation before and after: the outline with its levels, and the layers, as they stand on its slip."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.buildup import LayerMaterial
from pavewright.drawing._scene import (
    DASHED,
    HAIR,
    MEDIUM,
    THICK,
    Dimension,
    Element,
    Hatch,
    Path,
    Region,
    ScaleWords,
    Scene,
    Words,
    choose_scale,
)
from pavewright.drawing._section_parts import LAYER_HATCHES
from pavewright.drawing._type import wrapped
from pavewright.writing import level_mark, size_mark, thick, worded

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.geometry import XY
    from pavewright.job.agreed import DrawnArea, Variation

_PANEL_MM = (76.0, 52.0)
"""Room for a plan of before, and as much for after, on paper. [mm]"""
_TYPE_MM, _HEAD_MM = 2.6, 3.2
_GAP_MM, _OVER_MM, _UNDER_MM = 12.0, 12.0, 8.0
"""Between the two, over them for their heads and under them for the scale, on paper. [mm]"""
_LINE_MM = 3.5
"""From line to line of the words beside a layer, on paper. [mm]"""
_MAX_LEVELS = 12
"""With more corners than this their levels are left out: they would not be read. [-]"""
_WIDE_MM, _NOTES_MM = 16.0, 62.0
"""Of a column of layers, and of its words, on paper. [mm]"""
_HEADS = ("as accepted", "with the variation")


def variation_plan(variation: Variation) -> Scene | None:
    """Return the outlines that a variation changes, before and after; None where it changes none.

    Args:
        variation: The variation, with the areas as they were drawn when it was written.
    """
    pairs = [
        (one, other)
        for one, other in zip(variation.before, variation.after, strict=True)
        if one.corners != other.corners and (one.corners or other.corners)
    ]
    if not pairs:
        return None
    places = [(each.x_mm, each.y_mm) for pair in pairs for area in pair for each in area.corners]
    low = min(x for x, _ in places), min(y for _, y in places)
    high = max(x for x, _ in places), max(y for _, y in places)
    extent = high[0] - low[0], high[1] - low[1]
    scale = choose_scale(extent, _PANEL_MM)
    shift = extent[0] + (_GAP_MM + 2.0 * _GAP_MM) * scale
    elements: list[Element] = []
    for number, head in enumerate(_HEADS):
        off = number * shift
        for before, after in pairs:
            elements += _outline((before, after)[number], off, scale)
            if number:
                elements += _ghost(before, off)
        at = (low[0] + extent[0] / 2.0 + off, high[1] + (_OVER_MM - 4.0) * scale)
        elements.append(Words(at, worded(head), _HEAD_MM, bold=True))
    elements.append(ScaleWords((low[0], low[1] - (_UNDER_MM - 2.0) * scale), _TYPE_MM))
    bounds = (
        low[0] - _GAP_MM * scale,
        low[1] - _UNDER_MM * scale,
        high[0] + shift + _GAP_MM * scale,
        high[1] + _OVER_MM * scale,
    )
    names = ", ".join(after.name or before.name for before, after in pairs)
    about = f"Outline and levels of {names} as accepted and with variation {variation.number}."
    return Scene(f"variation-{variation.number}-plan", "Before and after", tuple(elements), bounds, scale, about)


def _outline(area: DrawnArea, off: float, scale: int) -> list[Element]:
    """Return an outline with the levels of its corners and its name. [mm]."""
    ring = _ring(area, off)
    if not ring:
        return []
    middle = sum(x for x, _ in ring) / len(ring), sum(y for _, y in ring) / len(ring)
    found: list[Element] = [Region((ring,), Hatch.NONE, THICK), Words(middle, area.name, _TYPE_MM, white=True)]
    if len(ring) > _MAX_LEVELS:
        return found
    for place, corner in zip(ring, area.corners, strict=True):
        if corner.finished_mm is not None:
            found.append(Words(_past(place, middle, 4.0 * scale), level_mark(corner.finished_mm), _TYPE_MM, white=True))
    return found


def _past(place: XY, middle: XY, by: float) -> XY:
    """Return a place a little outward of a corner. [mm]."""
    return place[0] + (by if place[0] >= middle[0] else -by), place[1] + (by if place[1] >= middle[1] else -by) * 0.7


def _ghost(area: DrawnArea, off: float) -> list[Element]:
    """Return the outline as it was, dashed. [mm]."""
    ring = _ring(area, off)
    return [Path(ring, DASHED, closed=True)] if ring else []


def _ring(area: DrawnArea, off: float) -> tuple[XY, ...]:
    return tuple((each.x_mm + off, each.y_mm) for each in area.corners)


def variation_layers(variation: Variation) -> Scene | None:
    """Return the layers that a variation changes, before and after, from the surface down; None where it changes none.

    Args:
        variation: The variation, with the areas as they were drawn when it was written.
    """
    pairs = [
        (one, other)
        for one, other in zip(variation.before, variation.after, strict=True)
        if one.layers != other.layers and (one.layers or other.layers)
    ]
    if not pairs:
        return None
    deepest = max(_depth(area) for pair in pairs for area in pair)
    scale = choose_scale((1.0, deepest), (1.0, 40.0))
    elements: list[Element] = []
    top, wide = 0.0, (_WIDE_MM + _NOTES_MM + _GAP_MM) * scale
    for before, after in pairs:
        for number, area in enumerate((before, after)):
            elements += _column(area, _HEADS[number], (number * wide, top), scale)
        top -= max(_depth(before), _depth(after)) + (_OVER_MM + 2.0) * scale
    elements.append(ScaleWords((0.0, top + (_OVER_MM - 5.0) * scale), _TYPE_MM))
    bounds = (-_GAP_MM * scale, top + (_OVER_MM - 8.0) * scale, 2.0 * wide - _GAP_MM * scale, _OVER_MM * scale)
    names = ", ".join(after.name or before.name for before, after in pairs)
    about = f"Layers under {names} as accepted and with variation {variation.number}."
    return Scene(f"variation-{variation.number}-layers", "Layers", tuple(elements), bounds, scale, about)


def _depth(area: DrawnArea) -> float:
    """Return the depth of all layers together. [mm]."""
    return sum(layer.thickness_mm for layer in area.layers)


def _column(area: DrawnArea, head: str, at: XY, scale: int) -> list[Element]:
    """Return the layers of an area, one under another, each with its words. [mm]."""
    x, y = at
    wide = _WIDE_MM * scale
    title = Words((x, y + (_OVER_MM - 5.0) * scale), worded(f"{area.name}, {head}"), _HEAD_MM, "start", bold=True)
    found: list[Element] = [title, Path(((x - 4.0 * scale, y), (x + wide + 4.0 * scale, y)), MEDIUM)]
    told = [
        wrapped(worded(f"{layer.name}, {thick(layer.thickness_mm)}"), _NOTES_MM - 8.0, _TYPE_MM)
        for layer in area.layers
    ]
    gap = (max(map(len, told), default=1) * _LINE_MM + 0.8) * scale
    places = _spread([layer.thickness_mm for layer in area.layers], y, gap)
    for layer, place, lines in zip(area.layers, places, told, strict=True):
        low = y - layer.thickness_mm
        ring = ((x, y), (x + wide, y), (x + wide, low), (x, low))
        found.append(Region((ring,), _hatch(layer.material), MEDIUM))
        middle = (y + low) / 2.0
        found.append(Path(((x + wide - 2.0 * scale, middle), (x + wide + 5.0 * scale, place)), HAIR))
        for number, line in enumerate(lines):
            at_line = x + wide + 6.0 * scale, place - number * _LINE_MM * scale
            found.append(Words(at_line, line, _TYPE_MM, "start"))
        y = low
    if area.layers:
        found.append(Dimension((x, at[1]), (x, y), -5.0, size_mark(_depth(area))))
    else:
        found.append(Words((x, y - 4.0 * scale), worded("not known"), _TYPE_MM, "start"))
    return found


def _hatch(key: str) -> Hatch:
    """Return the hatch of a material; none where this program knows no such material."""
    return next((LAYER_HATCHES[each] for each in LayerMaterial if each.value == key), Hatch.NONE)


def _spread(thick_mm: Sequence[float], top: float, gap: float) -> list[float]:
    """Return places for the words of layers, from the top down, at least a gap apart. [mm]."""
    found: list[float] = []
    for each in thick_mm:
        place = top - each / 2.0
        found.append(min(place, found[-1] - gap) if found else place)
        top -= each
    return found
