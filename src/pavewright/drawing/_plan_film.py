"""The plan of a storm: lines of equal depth of water on the paving."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from contourpy import contour_generator

from pavewright.drawing._scene import HAIR, MEDIUM, THICK, Path
from pavewright.drawing._sheet import A3_FRAME, Sheet
from pavewright.drawing._site_parts import draw_site, outlines, site_key, site_points
from pavewright.drawing._type import MIN_TYPE_MM

if TYPE_CHECKING:
    from pavewright.drawing._foot import KeyItem
    from pavewright.drawing._scene import Scene
    from pavewright.geometry import XY
    from pavewright.pipeline import Plan
    from pavewright.water import AreaStorm

_DEPTHS_MM = (0.5, 1.0, 1.5, 2.0, 3.0, 5.0, 8.0, 12.0, 20.0, 30.0)
_HEAVY_MM = 5.0
"""Lines from this depth on are drawn heavier: water in which a shoe gets wet. [mm]"""
_PLACES = (0.5, 0.25, 0.75)


def film_plan(plan: Plan, storms: tuple[AreaStorm, ...], frame_mm: tuple[float, float] = A3_FRAME) -> Scene:
    """Return lines of equal depth in a storm, at the greater roughness of paving."""
    site = plan.survey.site
    key: tuple[KeyItem, ...] = ((HAIR, "depth of water, mm"), (MEDIUM, "5 mm and deeper"), *site_key(site))
    sheet = Sheet(site_points(plan.survey), frame_mm, key)
    lines = [line for one in storms for line in _lines(one)]
    sheet.on("contours").add(*(Path(points, MEDIUM if depth >= _HEAVY_MM else HAIR) for points, depth in lines))
    draw_site(sheet, site)
    for area in site.areas:
        sheet.on("outline").add(*outlines(area, THICK))
    sheet.lines_done()
    sheet.on("contours")
    for points, depth in lines:
        places = [points[min(int(len(points) * share), len(points) - 1)] for share in _PLACES]
        sheet.write_if_free(places, f"{depth:g}", MIN_TYPE_MM)
    sheet.on("outline")
    for one in storms:
        words = f"{one.area}: {one.deepest_mm.low:.0f} to {one.deepest_mm.high:.0f} mm at the deepest"
        after = f"nine tenths gone {one.clears_s.low:.0f} to {one.clears_s.high:.0f} s after the rain"
        sheet.label(site.area(one.area).gross.centre_mm, words, MIN_TYPE_MM, bold=True, under=after)
    rain = storms[0].rain_mm_per_h if storms else 0.0
    about = (
        f"Greatest depth of water in a storm of {rain:g} mm/h, at the greater roughness of paving; depths under a "
        f"millimetre are a film."
    )
    sheet.tell_assumed(plan.survey.assumed)
    return sheet.scene("film-plan", "Film of a storm", about, site.north_bearing_deg)


def _lines(one: AreaStorm) -> list[tuple[tuple[XY, ...], float]]:
    """Return the lines of equal depth of an area, each with its depth. [mm]."""
    depth = np.ma.masked_invalid(one.depth_mm)
    if min(depth.shape) < 2:  # noqa: PLR2004 - a single row of cells has no lines
        return []
    x, y = one.grid.centres()
    made = contour_generator(x=x[0], y=y[:, 0], z=depth)
    found = []
    for level in _DEPTHS_MM:
        for line in made.lines(level):
            points = tuple((float(px), float(py)) for px, py in np.asarray(line))
            if len(points) > 1:
                found.append((points, level))
    return found
