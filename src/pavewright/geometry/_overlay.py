"""Overlays of plan shapes on a fine grid: what shapes share, what one leaves of another, and what they make together.

With floating coordinates an overlay of two shapes whose sides almost coincide may answer with a shape that neither
holds. Snapped to a grid a millionth of a millimetre wide, the answer is always right to that grid.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import shapely

if TYPE_CHECKING:
    from collections.abc import Sequence

GRID_MM = 1e-6
"""Width of the grid to which overlays snap. [mm]"""


def shared(first: Any, second: shapely.Geometry) -> Any:  # noqa: ANN401 - one shape or an array of them
    """Return what two shapes share; an array of shapes for an array of first shapes, of the same length.

    Source: definition, set intersection with coordinates rounded to a grid
    """
    return shapely.intersection(first, second, grid_size=GRID_MM)


def without(first: Any, second: Any) -> Any:  # noqa: ANN401 - one shape or an array of them
    """Return what the second shape leaves of the first; an array for arrays of shapes, of the same length.

    Source: definition, set difference with coordinates rounded to a grid
    """
    return shapely.difference(first, second, grid_size=GRID_MM)


def joined(shapes: Sequence[shapely.Geometry]) -> shapely.Geometry:
    """Return all shapes made one.

    Source: definition, set union with coordinates rounded to a grid
    """
    return shapely.union_all([shapely.make_valid(shape) for shape in shapes], grid_size=GRID_MM)
