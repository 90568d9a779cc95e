"""What is built, from the top down, as a picture without levels, for who does not read sections."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing._scene import MEDIUM, Hatch, Path, Region, Scene, Stroke, Words
from pavewright.drawing._section_parts import Sketch, hatch_of, scale_bar
from pavewright.writing import thick

if TYPE_CHECKING:
    from pavewright.buildup import AreaBuildUp, Layer
    from pavewright.pipeline import Plan

_SCALE = 10
"""The pictures are drawn 1 to 10. [-]"""
_WIDE_MM, _GROUND_MM = 620.0, 60.0
"""How much paving is shown, and how much ground under it. [mm]"""
_FOOT_MM, _SIDE_MM = 10.0, 2.0
"""Room under the picture for its bar, and round it, on paper. [mm]"""
_TYPE_MM = 2.9
"""Room over the highest words, on paper. [mm]"""
_SHEET_MM = 0.9
"""How far the line of a sheet lies under the layer above it, on paper. [mm]"""
_SHEETING = Stroke(0.5, (1.2, 0.8))
"""The pen of a sheet."""


def layer_pictures(plan: Plan) -> tuple[tuple[Scene, tuple[str, ...]], ...]:
    """Return a picture for each build-up, with the names of the areas that are built so."""
    areas: dict[tuple[tuple[str, float], ...], list[AreaBuildUp]] = {}
    for area in plan.survey.site.areas:
        up = plan.build_ups.area(area.name)
        areas.setdefault(tuple((layer.name, layer.thickness_mm) for layer in up.layers), []).append(up)
    return tuple(
        (_picture(same[0], number), tuple(up.area for up in same))
        for number, same in enumerate(areas.values(), start=1)
    )


def _picture(up: AreaBuildUp, number: int) -> Scene:
    sketch = Sketch(_SCALE)
    depth = 0.0
    for layer in up.layers:
        _layer(sketch, layer, depth)
        depth += layer.thickness_mm
    sketch.add("ground", Region((_band(depth, depth + _GROUND_MM),), Hatch.GROUND))
    sketch.waiting.append((-depth - _GROUND_MM / 2.0, "ground"))
    reach = sketch.notes(_WIDE_MM)
    top = max((each.at[1] for each in sketch.elements if isinstance(each, Words)), default=0.0)
    side, foot = sketch.mm(_SIDE_MM), -depth - _GROUND_MM - sketch.mm(_FOOT_MM)
    scale_bar(sketch, (0.0, foot + sketch.mm(3.0)))
    bounds = (-side, foot, reach + side, max(top, 0.0) + sketch.mm(_TYPE_MM))
    named = "; ".join(f"{layer.name} {thick(layer.thickness_mm)}".strip() for layer in up.layers if layer.thickness_mm)
    about = f"What is built, from the top down: {named}; then the ground."
    return Scene(f"layers-{number}", "What is built", tuple(sketch.elements), bounds, _SCALE, about)


def _layer(sketch: Sketch, layer: Layer, top: float) -> None:
    """Draw one layer and leave its words for the right; a sheet without thickness is a line."""
    if layer.thickness_mm > 0.0:
        below = top + layer.thickness_mm
        sketch.add("layers", Region((_band(top, below),), hatch_of(layer), MEDIUM))
        sketch.waiting.append((-(top + below) / 2.0, f"{thick(layer.thickness_mm)}  {layer.name}"))
        return
    under = -top - sketch.mm(_SHEET_MM)
    sketch.add("layers", Path(((0.0, under), (_WIDE_MM, under)), _SHEETING))
    sketch.waiting.append((under, layer.name))


def _band(top: float, foot: float) -> tuple[tuple[float, float], ...]:
    return ((0.0, -top), (_WIDE_MM, -top), (_WIDE_MM, -foot), (0.0, -foot))
