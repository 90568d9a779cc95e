"""The plan of a delivery: where lorries set down, the road, the way in, and what nothing is set down on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing._scene import MEDIUM, THICK, Path, Sign, Symbol
from pavewright.drawing._sheet import Sheet
from pavewright.drawing._site_parts import SERVICE, draw_services, draw_site, outlines, site_key, site_points
from pavewright.drawing._type import MIN_TYPE_MM
from pavewright.job import Beyond, Neighbour

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.drawing._foot import KeyItem
    from pavewright.drawing._scene import Scene
    from pavewright.geometry import XY
    from pavewright.pipeline import Plan
    from pavewright.programme import DropPlace

DROP_FRAME = (140.1, 98.0)
"""Room for the plan on an order list. [mm]"""


def drop_plan(plan: Plan, place: DropPlace | None, frame_mm: tuple[float, float] = DROP_FRAME) -> Scene:
    """Return where lorries set down; without a place, a plan on which somebody marks it by hand."""
    site, roads = plan.survey.site, list(_roads(plan))
    shown = [*site_points(plan.survey), *(end for road in roads for end in road[1:])]
    shown += [] if place is None else [place.at_mm]
    sheet = Sheet(shown, frame_mm, _key(plan, roads=bool(roads), placed=place is not None))
    for area in site.areas:
        sheet.on("paving").add(*outlines(area, MEDIUM))
    draw_site(sheet, site)
    draw_services(sheet, site)
    sheet.on("roads").add(*(Path((start, end), THICK) for _, start, end in roads))
    if place is not None:
        sheet.on("drop").add(Symbol(place.at_mm, Sign.BLOCK, 3.4))
        sheet.keep_clear(place.at_mm, 3.4)
    sheet.lines_done()
    if place is not None:
        sheet.on("drop").label(place.at_mm, "SET DOWN HERE", bold=True, led=True)
    _names(sheet, plan, roads)
    if place is None:
        sheet.notes.append("Where to set down is not known: mark it here with a cross, and ask before the lorry comes.")
    sheet.notes.append("Nothing is set down on covers, on services, over roots or against a wall.")
    about = "The paving, walls, covers, services and trees, the road, and the place where lorries set down."
    return sheet.scene("drop-plan", "Where to set down", about, site.north_bearing_deg)


def _roads(plan: Plan) -> Iterator[tuple[str, XY, XY]]:
    """Give footways and roads on the plan."""
    for each in plan.survey.site.boundaries:
        if each.neighbour is Neighbour.HIGHWAY:
            yield each.name, each.start, each.end
    for tie in plan.survey.site.tie_ins:
        if tie.beyond is Beyond.HIGHWAY:
            yield tie.name, tie.start, tie.end


def _key(plan: Plan, *, roads: bool, placed: bool) -> tuple[KeyItem, ...]:
    found: list[KeyItem] = [(MEDIUM, "edge of the paving to come")]
    if placed:
        found.append((Sign.BLOCK, "set down here"))
    if roads:
        found.append((THICK, "footway or road"))
    if plan.survey.site.services:
        found.append((SERVICE, "buried service"))
    return (*found, *site_key(plan.survey.site))


def _names(sheet: Sheet, plan: Plan, roads: list[tuple[str, XY, XY]]) -> None:
    """Write the names of roads, covers and trees."""
    sheet.on("names")
    for name, start, end in roads:
        sheet.label_along((start, end), name, bold=True)
    for placed in plan.survey.site.covers:
        sheet.label(placed.at, placed.cover.name, MIN_TYPE_MM)
    for tree in plan.survey.site.trees:
        sheet.label(tree.at, tree.tree.name, MIN_TYPE_MM)
