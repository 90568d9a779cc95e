"""Geometry: plan shapes with straight and curved sides, planes and triangles, all in millimetres.

A paved area is an outline whose sides are straight or arcs given by their rise at mid-chord, with holes for what stands
in it. A finished surface is a plane; the ground is a sheet of triangles between spot levels. Everything here is exact
arithmetic on those three things and knows nothing of paving.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.geometry._arcs import arc_length_mm, radius_from_rise_mm
    from pavewright.geometry._beside import side_beside
    from pavewright.geometry._break_lines import CrossingLinesError
    from pavewright.geometry._folded import Facet, Fold, FoldedSurface, one_plane, split
    from pavewright.geometry._outline import (
        Corner,
        Ring,
        Shape,
        Side,
        outline_faults,
        shape_from_polygon,
        shapes_from_polygons,
    )
    from pavewright.geometry._overlay import joined, shared, without
    from pavewright.geometry._plane import Plane, fit_plane, plane_through
    from pavewright.geometry._prisms import PrismVolumes, prism_volumes
    from pavewright.geometry._surface import TriangulatedSurface, contour_lines, triangulate
    from pavewright.geometry._vectors import (
        XY,
        XYZ,
        along_and_offset,
        bearing_of,
        distance,
        point_along,
        unit_vector,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "XY",
    "XYZ",
    "Corner",
    "CrossingLinesError",
    "Facet",
    "Fold",
    "FoldedSurface",
    "Plane",
    "PrismVolumes",
    "Ring",
    "Shape",
    "Side",
    "TriangulatedSurface",
    "along_and_offset",
    "arc_length_mm",
    "bearing_of",
    "contour_lines",
    "distance",
    "fit_plane",
    "joined",
    "one_plane",
    "outline_faults",
    "plane_through",
    "point_along",
    "prism_volumes",
    "radius_from_rise_mm",
    "shape_from_polygon",
    "shapes_from_polygons",
    "shared",
    "side_beside",
    "split",
    "triangulate",
    "unit_vector",
    "without",
]
