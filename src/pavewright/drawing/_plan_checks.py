"""Plans of setting out and of the paving as laid."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.drawing._scene import DASHED, HAIR, MEDIUM, THICK, THIN, Path, Symbol
from pavewright.drawing._sheet import A3_FRAME, Sheet
from pavewright.drawing._site_parts import draw_site, outlines, site_key, site_points

if TYPE_CHECKING:
    from pavewright.drawing._foot import KeyItem
    from pavewright.drawing._scene import Scene
    from pavewright.geometry import XY
    from pavewright.pipeline import Plan

_SYMBOLS = {"corner": "block", "fold": "ring", "edge": "square", "grid": "cross", "profile": "triangle"}
_VERDICTS = {"pass": "ring", "fail": "block", "unsure": "triangle"}
_LOUD = {"fail": " FAIL", "unsure": " unsure"}


def setting_out_plan(plan: Plan, frame_mm: tuple[float, float] = A3_FRAME) -> Scene:
    """Return pegs, strings, the base line, and sides and diagonals with the tape that proves them."""
    out, site = plan.setting_out, plan.survey.site
    key: tuple[KeyItem, ...] = (
        ("sign:block", "corner"),
        ("sign:ring", "end of a fold"),
        ("sign:square", "peg on an edge"),
        ("sign:cross", "crossing inside"),
        ("sign:triangle", "peg outside, for a string"),
        (THICK, "base line"),
        (DASHED, "string"),
        (HAIR, "diagonal to tape, m"),
        *site_key(site),
    )
    sheet = Sheet([*site_points(plan.survey), *(peg.at for peg in out.pegs)], frame_mm, key)
    for area in site.areas:
        sheet.on("outline").add(*outlines(area, THIN))
    draw_site(sheet, site)
    corners = {(area.name, corner.name): corner.xy for area in site.areas for corner in area.ring.corners}
    taped = [
        (check, corners[check.area, check.start], corners[check.area, check.end])
        for check in out.checks
        if check.kind in {"side", "diagonal"}
    ]
    sheet.on("diagonals").add(*(Path((start, end), HAIR) for check, start, end in taped if check.kind == "diagonal"))
    places = {peg.name: peg.at for peg in out.pegs}
    sheet.on("strings").add(*(Path((places[each.start], places[each.end]), DASHED) for each in out.strings))
    sheet.on("base").add(
        *(Path((corners[name, start], corners[name, end]), THICK) for name, start, end in out.base_lines)
    )
    sheet.lines_done()
    _pegs(sheet, plan, places)
    sheet.on("sizes")
    for check, start, end in taped:
        words = units.metres_text(check.expected_mm)
        if check.kind == "side":
            sheet.label_along((start, end), words, 2.0)
        else:
            sheet.write_along(start, end, words, 2.0)
    return sheet.scene(
        "setting-out-plan",
        "Setting out",
        "Pegs with numbers: corners as black blocks, edges as squares, crossings as crosses, profiles as triangles; "
        "strings dashed; base line thick; sides and diagonals to tape with their lengths in metres.",
        site.north_bearing_deg,
    )


def _pegs(sheet: Sheet, plan: Plan, places: dict[str, XY]) -> None:
    """Draw pegs with their names, and name the strings."""
    sheet.on("pegs")
    for peg in plan.setting_out.pegs:
        sheet.add(Symbol(peg.at, _SYMBOLS[peg.role], 2.0))
        sheet.keep_clear(peg.at, 2.0)
    for peg in plan.setting_out.pegs:
        sheet.label(peg.at, peg.name.removeprefix("Peg "), 2.6, bold=peg.role == "corner")
    sheet.on("strings")
    for string in plan.setting_out.strings:
        words = f"{string.name}{' to the fall' if string.carries_fall else ''}"
        sheet.label_along((places[string.start], places[string.end]), words, 2.0)


def as_laid_plan(plan: Plan, frame_mm: tuple[float, float] = A3_FRAME) -> Scene | None:
    """Return readings as laid with their deviation; None where there are none."""
    report, site = plan.as_laid, plan.survey.site
    if report is None:
        return None
    key = (
        ("sign:ring", "pass"),
        ("sign:triangle", "unsure: as near to the limit as the reading is sure"),
        ("sign:block", "FAIL"),
        ("words:+2", "mm over the plan (+) or under it (−)"),
        *site_key(site),
    )
    readings = [reading for area in report.areas for reading in area.readings]
    sheet = Sheet([*site_points(plan.survey), *(reading.at for reading in readings)], frame_mm, key)
    for area in site.areas:
        sheet.on("outline").add(*outlines(area, MEDIUM))
    draw_site(sheet, site)
    sheet.lines_done()
    sheet.on("readings")
    for reading in readings:
        sheet.add(Symbol(reading.at, _VERDICTS[reading.verdict], 2.0))
        sheet.keep_clear(reading.at, 2.0)
    for reading in sorted(readings, key=lambda each: each.verdict == "pass"):
        off = units.millimetres_text(reading.deviation_mm, sign=True).removesuffix(" mm")
        loud = _LOUD.get(reading.verdict, "")
        sheet.label(reading.at, f"{reading.label} {off}{loud}", 2.2, bold=reading.verdict == "fail")
    return sheet.scene(
        "as-laid-plan",
        "As laid",
        "Readings with their deviation from the plan in millimetres: ring passes, triangle is unsure, black block "
        "fails.",
        site.north_bearing_deg,
    )
