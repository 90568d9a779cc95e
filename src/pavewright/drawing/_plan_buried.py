"""The plan of what lies buried: services as recorded, drains and soakaways as planned, covers with their names."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing._scene import DASHED, MEDIUM, Path, Sign, Stroke, Symbol
from pavewright.drawing._sheet import A3_FRAME, Sheet
from pavewright.drawing._site_parts import (
    SERVICE,
    draw_services,
    draw_site,
    middle_of,
    outlines,
    service_in_short,
    site_key,
    site_points,
)
from pavewright.drawing._type import MIN_TYPE_MM
from pavewright.job import OutfallKind
from pavewright.writing import size_mark

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.drawing._foot import KeyItem
    from pavewright.drawing._scene import Scene
    from pavewright.geometry import XY
    from pavewright.pipeline import Plan

_RUN = Stroke(0.5, (2.6, 1.6))
"""The pen of a drain that is planned."""


def buried_plan(plan: Plan, frame_mm: tuple[float, float] = A3_FRAME) -> Scene:
    """Return where services, drains, soakaways and covers lie, as far as anybody knows."""
    survey, pits = plan.survey, dict(_pits(plan))
    runs = list(_runs(plan, pits))
    key = _key(plan, drawn=bool(runs), pits=bool(pits))
    notes = [
        *(
            f"Where {outfall.name} lies was not entered."
            for outfall in plan.job.site.outfalls
            if outfall.kind is OutfallKind.SOAKAWAY and outfall.name not in pits
        ),
        "Lines and depths of records are often wrong, and there may be more than is drawn here.",
    ]
    sheet = Sheet([*site_points(survey), *pits.values()], frame_mm, key, under=notes)
    for area in survey.site.areas:
        sheet.on("outline").add(*outlines(area, MEDIUM))
    draw_site(sheet, survey.site)
    draw_services(sheet, survey.site)
    sheet.on("drains").add(*(Path(run, _RUN) for run in runs))
    for name, at in pits.items():
        _pit(sheet, plan, name, at)
    sheet.lines_done()
    _services(sheet, plan)
    _names(sheet, plan, pits)
    sheet.notes += notes
    sheet.tell_assumed(survey.assumed)
    about = (
        "Known services, drains from their inlets straight to the soakaway, soakaways, channels, gullies and covers "
        "with their names."
    )
    return sheet.scene("buried-plan", "What lies buried", about, survey.site.north_bearing_deg)


def _key(plan: Plan, *, drawn: bool, pits: bool) -> tuple[KeyItem, ...]:
    found: list[KeyItem] = []
    if plan.survey.site.services:
        found.append((SERVICE, "buried service, as recorded"))
    if drawn:
        found.append((_RUN, "drain as planned, drawn straight: bends are not known"))
    if pits:
        found.append((DASHED, "soakaway"))
    return (*found, *site_key(plan.survey.site))


def _pits(plan: Plan) -> Iterator[tuple[str, XY]]:
    """Give the soakaways that have a place on the plan."""
    places = {point.name: point.xy for point in plan.survey.points}
    for outfall in plan.job.site.outfalls:
        pit = outfall.soakaway
        if outfall.kind is OutfallKind.SOAKAWAY and pit is not None and pit.point in places:
            yield outfall.name, places[pit.point]


def _runs(plan: Plan, pits: dict[str, XY]) -> Iterator[tuple[XY, XY]]:
    """Give the way of each drain whose two ends have a place."""
    site = plan.survey.site
    inlets = {each.gully.name: each.at for each in site.gullies}
    inlets |= {each.name: middle_of(each.start, each.end) for each in site.channels}
    for each in plan.water.inlets:
        if each.run.outfall in pits and each.name in inlets:
            yield inlets[each.name], pits[each.run.outfall]


def _pit(sheet: Sheet, plan: Plan, name: str, at: XY) -> None:
    """Draw a soakaway: its outline where its size is known, a sign where it is not."""
    size = next((pit.size for pit in plan.water.pits if pit.outfall == name), None)
    if size is None:
        sheet.add(Symbol(at, Sign.RING, 3.0))
        sheet.keep_clear(at, 3.0)
        return
    x, y, long, wide = *at, size.length_mm / 2.0, size.width_mm / 2.0
    ring = ((x - long, y - wide), (x + long, y - wide), (x + long, y + wide), (x - long, y + wide))
    sheet.add(Path(ring, DASHED, closed=True))
    sheet.keep_clear_of(ring)


def _services(sheet: Sheet, plan: Plan) -> None:
    """Write at each service what it is and how deep it is said to lie; below the plan where there is no room."""
    sheet.on("services")
    for placed in plan.survey.site.services:
        name, words = placed.service.name, service_in_short(placed.service)
        places = placed.points if len(placed.points) > 1 else (placed.points[0], placed.points[0])
        if not sheet.label_along(places, name, bold=True, under=words):
            sheet.notes.append(f"{name}: {words}.")


def _names(sheet: Sheet, plan: Plan, pits: dict[str, XY]) -> None:
    """Write the names of covers, gullies, channels and soakaways."""
    site = plan.survey.site
    sheet.on("names")
    for placed in site.covers:
        sheet.label(placed.at, placed.cover.name, MIN_TYPE_MM, bold=True)
    for gully in site.gullies:
        sheet.label(gully.at, gully.gully.name, MIN_TYPE_MM)
    for channel in site.channels:
        sheet.label_along((channel.start, channel.end), channel.name, MIN_TYPE_MM)
    for name, at in pits.items():
        size = next((pit.size for pit in plan.water.pits if pit.outfall == name), None)
        under = "" if size is None else f"{size_mark(size.cover_mm)} down to its inlet"
        sheet.label(at, name, MIN_TYPE_MM, bold=True, under=under)
