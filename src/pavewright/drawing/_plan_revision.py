"""The plan of a revision: a numbered cloud round every change, and the list of them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.drawing._changes import ChangeHow, ChangeOf, PlacedChange, changes_between, changes_by_variations
from pavewright.drawing._grid import grid_of
from pavewright.drawing._scene import DASHED, MEDIUM, Path, Sign, Stroke, Symbol, Words
from pavewright.drawing._sheet import A3_FRAME, Sheet
from pavewright.drawing._site_parts import (
    band_key,
    caution_of,
    draw_bands,
    draw_services,
    draw_site,
    label_services,
    outlines,
    site_key,
    site_points,
)
from pavewright.drawing._type import MIN_TYPE_MM
from pavewright.writing import level_mark, size_mark

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.drawing._foot import KeyItem
    from pavewright.drawing._labels import Box
    from pavewright.drawing._scene import Scene
    from pavewright.geometry import XY
    from pavewright.pipeline import Plan

_CLOUD = Stroke(0.45)
_ROUND_MM, _BUMP_MM, _RISE = 3.0, 7.0, 0.28
"""How far a cloud stands off what changed, the chord of its arcs on paper, and their rise as a part of it. [mm, -]"""
_LISTED = 24
"""So many changes are listed under the plan. [-]"""
_MARK_MM = 5.6
_RINGS = 6
"""So many times its own size a number may stand off its cloud where there are others. [-]"""
_LEVELS = frozenset(
    {ChangeOf.LEVELS, ChangeOf.WALL, ChangeOf.GULLY, ChangeOf.CHANNEL, ChangeOf.COVER, ChangeOf.SOAKAWAY}
)
_NAMES = {
    ChangeOf.OUTLINE: "outline",
    ChangeOf.LEVELS: "finished levels",
    ChangeOf.LAYERS: "layers in all",
    ChangeOf.UNITS: "units or pattern",
    ChangeOf.STEPS: "steps",
    ChangeOf.WALL: "damp-proof course",
    ChangeOf.GULLY: "gully",
    ChangeOf.CHANNEL: "channel",
    ChangeOf.COVER: "cover",
    ChangeOf.SERVICE: "buried service",
    ChangeOf.SOAKAWAY: "soakaway",
}
_HOW = {ChangeHow.NEW: "new", ChangeHow.GONE: "gone", ChangeHow.MOVED: "moved", ChangeHow.OTHER: "changed"}


def revision_plan(before: Plan, after: Plan, frame_mm: tuple[float, float] = A3_FRAME) -> Scene | None:
    """Return the plan of a job with a cloud round all that changed since another plan of it; None where nothing did."""
    found = changes_between(before, after)
    if not found:
        return None
    old = before.job.identity.revision
    title = f"Changes since revision {old}"
    ghosts = [path for area in before.survey.site.areas for path in outlines(area, DASHED)]
    return _drawn(after, found, title, ghosts, frame_mm)


def variations_plan(plan: Plan, frame_mm: tuple[float, float] = A3_FRAME) -> Scene | None:
    """Return the plan of a job with a cloud round all that its variations change; None where none changes a drawing."""
    found = changes_by_variations(plan)
    return _drawn(plan, found, "Changes by variations", [], frame_mm) if found else None


def _drawn(
    plan: Plan, changes: Sequence[PlacedChange], title: str, ghosts: list[Path], frame_mm: tuple[float, float]
) -> Scene:
    site = plan.survey.site
    points = [*site_points(plan.survey), *(at for each in changes for at in (each.box[:2], each.box[2:]))]
    key: tuple[KeyItem, ...] = (
        (_CLOUD, "cloud: changed, with its number in the list"),
        *(((DASHED, "outline before"),) if ghosts else ()),
        *band_key(plan),
        *site_key(site),
    )
    listed = [f"{number}: {words_of(each)}." for number, each in enumerate(changes[:_LISTED], start=1)]
    if len(changes) > _LISTED:
        listed.append(f"And {len(changes) - _LISTED} more, numbered on the plan: compare the revisions on the screen.")
    sheet = Sheet(points, frame_mm, key, grid_of(plan), under=[*listed, caution_of(plan)])
    draw_bands(sheet, plan)
    draw_site(sheet, site)
    draw_services(sheet, site)
    sheet.on("before").add(*ghosts)
    for area in site.areas:
        sheet.on("outline").add(*outlines(area, MEDIUM))
    for each in changes:
        sheet.on("clouds").add(_cloud(sheet, each.box))
    sheet.lines_done()
    _marks(sheet, changes)
    for area in site.areas:
        sheet.on("names").label(area.gross.centre_mm, area.name, MIN_TYPE_MM, bold=True)
    label_services(sheet, plan)
    sheet.notes += listed
    sheet.tell_assumed(plan.survey.assumed)
    about = "A numbered cloud round every change; the list under it says what each is."
    return sheet.scene("revision-plan", title, about, site.north_bearing_deg)


def _marks(sheet: Sheet, changes: Sequence[PlacedChange]) -> None:
    """Draw the number of each change in a triangle at its cloud."""
    sheet.on("clouds")
    for number, each in enumerate(changes, start=1):
        at = _free(sheet, each.box)
        sheet.add(Symbol(at, Sign.TRIANGLE, _MARK_MM))
        sheet.add(Words((at[0], at[1] - sheet.mm(_MARK_MM * 0.12)), str(number), MIN_TYPE_MM, bold=True))
        sheet.keep_clear(at, _MARK_MM)


def _free(sheet: Sheet, box: Box) -> XY:
    """Return a corner of a cloud at which no other number stands, or a place further along its side."""
    x1, y1, x2, y2 = _grown(sheet, box)
    places = [(x2, y2), (x1, y2), (x2, y1), (x1, y1)]
    places += [(x1 + (x2 - x1) * k / 8.0, y) for y in (y2, y1) for k in range(1, 8)]
    for ring in range(1, _RINGS):
        out = ring * sheet.mm(_MARK_MM + 0.4)
        places += [(x, y) for x in (x2 + out, x1 - out) for y in (y2, (y1 + y2) / 2.0, y1)]
        places += [(x, y) for y in (y2 + out, y1 - out) for x in (x2, (x1 + x2) / 2.0, x1)]
    half, taken = sheet.mm(_MARK_MM / 2.0 + 0.3), sheet.boxes()
    low_x, low_y, high_x, high_y = sheet.field
    kept = [(min(max(x, low_x + half), high_x - half), min(max(y, low_y + half), high_y - half)) for x, y in places]
    for x, y in kept:
        if not any(x - half < b2 and b1 < x + half and y - half < c2 and c1 < y + half for b1, c1, b2, c2 in taken):
            return x, y
    return kept[0]


def _grown(sheet: Sheet, box: Box) -> Box:
    """Return the box about which a cloud is drawn, kept on the sheet. [mm]."""
    off, rim = sheet.mm(_ROUND_MM), sheet.mm(_BUMP_MM * _RISE + 0.3)
    low_x, low_y, high_x, high_y = sheet.field
    return (
        max(box[0] - off, low_x + rim),
        max(box[1] - off, low_y + rim),
        min(box[2] + off, high_x - rim),
        min(box[3] + off, high_y - rim),
    )


def _cloud(sheet: Sheet, box: Box) -> Path:
    """Return a cloud: arcs that bulge outward along a box."""
    x1, y1, x2, y2 = _grown(sheet, box)
    points: list[XY] = []
    for (ax, ay), (bx, by) in (((x1, y1), (x2, y1)), ((x2, y1), (x2, y2)), ((x2, y2), (x1, y2)), ((x1, y2), (x1, y1))):
        count = max(1, round(math.dist((ax, ay), (bx, by)) / sheet.mm(_BUMP_MM)))
        points += [(ax + (bx - ax) * k / count, ay + (by - ay) * k / count) for k in range(count)]
    ends = [*points[1:], points[0]]
    rises = tuple(math.dist(a, b) * _RISE for a, b in zip(points, ends, strict=True))
    return Path(tuple(points), _CLOUD, closed=True, rises_mm=rises)


def words_of(change: PlacedChange) -> str:
    """Return a change in words, with its figure before and after where it has one."""
    said = f"{change.name}: {_NAMES[change.of]} {_HOW[change.kind]}"
    if change.before_mm is not None or change.after_mm is not None:
        mark = level_mark if change.of in _LEVELS else size_mark
        old, new = ("not known" if each is None else mark(each) for each in (change.before_mm, change.after_mm))
        where = " where most" if change.of is ChangeOf.LEVELS else ""
        said += f", {old} to {new}{where}"
    if change.variation is not None:
        said += f"; variation {change.variation}{'' if change.agreed else ', not approved'}"
    return said
