"""Areas and sides as lines of the dimension book: outline, holes, covers, what lies under steps."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.geometry import Shape, distance
from pavewright.quantities._dimensions import Dimension, Drawn, whole_less, with_depth
from pavewright.quantities._scope import ScopeKey, ScopeKind

if TYPE_CHECKING:
    from pavewright.geometry import Ring
    from pavewright.laying import LaidArea
    from pavewright.quantities._measure import LayerVolume
    from pavewright.survey import PlanArea

_SQUARE = 1e-6
"""Sides of a rectangle differ by no more than this, as a part of them. [-]"""


def outline_lines(number: int, area: PlanArea, drawing: Drawn) -> tuple[Dimension, ...]:
    """Return an area as entered: its outline, and its holes as deductions."""
    scope = ScopeKey(ScopeKind.PAVING, number)
    holes = [
        Dimension(f"{area.name}: hole", drawing, scope, times=-1.0, area_m2=Shape(ring).area_m2)
        for ring in area.gross.holes
    ]
    outer = area.gross.area_m2 + sum(line.area_m2 or 0.0 for line in holes)
    sides = _rectangle_m(area.ring)
    if sides is not None and math.isclose(sides[0] * sides[1], outer, rel_tol=_SQUARE):
        first = Dimension(
            f"{area.name}: outline", drawing, scope, length_m=sides[0], width_m=outer / sides[0] if sides[0] else 0.0
        )
    else:
        corners = ", ".join(side.start.name for side in area.ring.sides)
        first = Dimension(f"{area.name}: outline {corners}, by its corners", drawing, scope, area_m2=outer)
    return (first, *holes)


def laid_lines(number: int, area: PlanArea, laid: LaidArea) -> tuple[Dimension, ...]:
    """Return what is laid of an area: outline less holes, less covers and posts, less what lies under steps."""
    scope = ScopeKey(ScopeKind.PAVING, number)
    lines = list(outline_lines(number, area, Drawn.LAYING))
    fixed = area.gross.area_m2 - area.shape.area_m2
    if fixed > 0.0:
        words = f"{area.name}: covers, gullies and posts in it"
        lines.append(Dimension(words, Drawn.SURVEY, scope, times=-1.0, area_m2=fixed))
    lines += [
        Dimension(f"{area.name}: channel {cut.name} in it", Drawn.SURVEY, scope, times=-1.0, area_m2=cut.shape.area_m2)
        for cut in area.channels
    ]
    lines += [
        Dimension(f"{area.name}: under {each.steps}", Drawn.LAYING, scope, times=-1.0, area_m2=each.shape.area_m2)
        for each in laid.under_steps
    ]
    return whole_less(lines, laid.paved_m2 + laid.joint_m2, f"{area.name}: overlaps of what is left out")


def layer_lines(number: int, area: PlanArea, layer: LayerVolume, laid: LaidArea) -> tuple[Dimension, ...]:
    """Return a layer: outline, holes, what runs past the edges, what steps stand on; each with its thickness."""
    lines = list(outline_lines(number, area, Drawn.DIG))
    scope = ScopeKey(ScopeKind.PAVING, number)
    if layer.bare_m2:
        lines += [
            Dimension(f"{area.name}: under {each.steps}", Drawn.LAYING, scope, times=-1.0, area_m2=each.shape.area_m2)
            for each in laid.under_steps
        ]
    found = whole_less(lines, layer.area_m2, f"{area.name}: {layer.layer.extends_mm:g} mm past free edges")
    return with_depth(found, layer.layer.thickness_mm)


def _rectangle_m(ring: Ring) -> tuple[float, float] | None:
    """Return the sides of a rectangle. [m]. None for every other outline."""
    sides = ring.sides
    if len(sides) != _CORNERS or any(math.isfinite(side.radius_mm) for side in sides):
        return None
    long, wide = sides[0].length_mm, sides[1].length_mm
    across = distance(sides[0].start.xy, sides[1].end.xy)
    opposite = math.isclose(sides[2].length_mm, long, rel_tol=_SQUARE) and math.isclose(
        sides[3].length_mm, wide, rel_tol=_SQUARE
    )
    if not opposite or not math.isclose(across, math.hypot(long, wide), rel_tol=_SQUARE):
        return None
    return units.mm_to_m(long), units.mm_to_m(wide)


_CORNERS = 4
