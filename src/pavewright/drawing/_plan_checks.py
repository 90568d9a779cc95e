"""Plans of setting out and of the paving as laid."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.as_laid import Verdict
from pavewright.drawing._foot import Bold
from pavewright.drawing._grid import grid_of
from pavewright.drawing._scene import DASHED, HAIR, MEDIUM, THICK, THIN, Arrow, Path, Sign, Symbol
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
from pavewright.setting_out import PegRole, TapeKind
from pavewright.writing import length_mark, length_unit, off_mark, size_unit

if TYPE_CHECKING:
    from pavewright.drawing._foot import KeyItem
    from pavewright.drawing._scene import Scene
    from pavewright.geometry import XY
    from pavewright.pipeline import Plan
    from pavewright.setting_out import Peg, TapeCheck

_SYMBOLS = {
    PegRole.BASE: Sign.DOT,
    PegRole.CORNER: Sign.BLOCK,
    PegRole.FOLD: Sign.RING,
    PegRole.EDGE: Sign.SQUARE,
    PegRole.GRID: Sign.CROSS,
    PegRole.PROFILE: Sign.TRIANGLE,
}
_VERDICTS = {Verdict.PASSES: Sign.RING, Verdict.FAILS: Sign.BLOCK, Verdict.INCONCLUSIVE: Sign.TRIANGLE}
_LOUD = {Verdict.PASSES: "", Verdict.FAILS: " FAIL", Verdict.INCONCLUSIVE: " inconclusive"}


def setting_out_plan(plan: Plan, frame_mm: tuple[float, float] = A3_FRAME) -> Scene:
    """Return pegs, strings, the base line, and sides and diagonals with the tape that proves them."""
    out, site = plan.setting_out, plan.survey.site
    sheet = Sheet(
        [*site_points(plan.survey), *(peg.at for peg in out.pegs)],
        frame_mm,
        _key(plan),
        grid_of(plan),
        under=[caution_of(plan)],
    )
    draw_bands(sheet, plan)
    for area in site.areas:
        sheet.on("outline").add(*outlines(area, THIN))
    draw_site(sheet, site)
    draw_services(sheet, site)
    taped = [
        (check, check.start_at, check.end_at)
        for check in out.checks
        if check.kind in {TapeKind.BASE, TapeKind.SIDE, TapeKind.DIAGONAL}
    ]
    sheet.on("diagonals").add(
        *(Path((start, end), HAIR) for check, start, end in taped if check.kind is TapeKind.DIAGONAL)
    )
    places = {peg.name: peg.at for peg in out.pegs}
    sheet.on("strings").add(*(Path((places[each.start], places[each.end]), DASHED) for each in out.strings))
    sheet.on("base").add(*(Path((line.start_at, line.end_at), THICK) for line in out.base_lines))
    for peg in _stopped(plan):
        if peg.no_pin is not None and peg.no_pin.elsewhere is not None:
            sheet.on("pegs").add(Arrow(peg.at, peg.no_pin.elsewhere))
    sheet.lines_done()
    _pegs(sheet, plan, places)
    label_services(sheet, plan)
    _sizes(sheet, taped)
    sheet.tell_assumed(plan.survey.assumed)
    return sheet.scene(
        "setting-out-plan",
        "Setting out",
        "Pegs with numbers: pins of the base line as dots, pins for strings as triangles, corners as black blocks, "
        "edges as squares, crossings as crosses; strings dashed; base line thick; sides and diagonals to tape with "
        f"their lengths in {length_unit()}; buried services and the ground beside; a crossed ring: no pin there.",
        site.north_bearing_deg,
    )


def _sizes(sheet: Sheet, taped: list[tuple[TapeCheck, XY, XY]]) -> None:
    """Write the lengths that tapes are to show."""
    sheet.on("sizes")
    for check, start, end in taped:
        words = length_mark(check.expected_mm)
        if check.kind in {TapeKind.SIDE, TapeKind.BASE}:
            sheet.label_along((start, end), words, 2.0)
        else:
            sheet.write_along(start, end, words, 2.0)


def _key(plan: Plan) -> tuple[KeyItem, ...]:
    return (
        (Sign.DOT, "pin of the base line"),
        (Sign.TRIANGLE, "pin for a string"),
        (Sign.BLOCK, "corner"),
        (Sign.RING, "end of a fold"),
        (Sign.SQUARE, "on an edge"),
        (Sign.CROSS, "crossing inside"),
        (THICK, "base line"),
        (DASHED, "string"),
        (HAIR, f"to tape, {length_unit()}"),
        *(((Sign.STOP, "NO PIN HERE; the arrow leads to another place"),) if _stopped(plan) else ()),
        *band_key(plan),
        *site_key(plan.survey.site),
    )


def _stopped(plan: Plan) -> list[Peg]:
    """Return the pegs at which no pin is driven."""
    return [peg for peg in plan.setting_out.pegs if peg.no_pin is not None]


def _pegs(sheet: Sheet, plan: Plan, places: dict[str, XY]) -> None:
    """Draw pegs with their names, and name the strings."""
    sheet.on("pegs")
    for peg in plan.setting_out.pegs:
        size = 2.0 if peg.no_pin is None else 2.8
        sheet.add(Symbol(peg.at, _SYMBOLS[peg.role] if peg.no_pin is None else Sign.STOP, size))
        sheet.keep_clear(peg.at, size)
    for peg in sorted(plan.setting_out.pegs, key=lambda each: each.no_pin is None):
        words = str(peg.number)
        loud = peg.no_pin is not None
        sheet.label(peg.at, f"{words} NO PIN" if loud else words, 2.9, bold=loud or peg.role is PegRole.CORNER)
    sheet.on("strings")
    for string in plan.setting_out.strings:
        words = f"{string.name}{' to the fall' if string.carries_fall else ''}"
        sheet.label_along((places[string.start], places[string.end]), words, 2.0)


def as_laid_plan(plan: Plan, frame_mm: tuple[float, float] = A3_FRAME) -> Scene | None:
    """Return readings as laid with their deviation; None where there are none."""
    report, site = plan.as_laid, plan.survey.site
    if report is None:
        return None
    key: tuple[KeyItem, ...] = (
        (Sign.RING, "pass"),
        (Sign.TRIANGLE, "inconclusive: too near to the limit for the reading to decide"),
        (Sign.BLOCK, "FAIL"),
        (Bold("+2"), "mm over the plan (+) or under it (−)"),
        *site_key(site),
    )
    readings = [reading for area in report.areas for reading in area.readings]
    sheet = Sheet([*site_points(plan.survey), *(reading.at for reading in readings)], frame_mm, key, grid_of(plan))
    for area in site.areas:
        sheet.on("outline").add(*outlines(area, MEDIUM))
    draw_site(sheet, site)
    sheet.lines_done()
    sheet.on("readings")
    for reading in readings:
        sheet.add(Symbol(reading.at, _VERDICTS[reading.verdict], 2.0))
        sheet.keep_clear(reading.at, 2.0)
    for reading in sorted(readings, key=lambda each: each.verdict is Verdict.PASSES):
        off, loud = off_mark(reading.deviation_mm), _LOUD[reading.verdict]
        sheet.label(reading.at, f"{reading.label} {off}{loud}", 2.2, bold=reading.verdict is Verdict.FAILS)
    sheet.tell_assumed(plan.survey.assumed)
    return sheet.scene(
        "as-laid-plan",
        "As laid",
        f"Readings with their deviation from the plan in {size_unit()}: ring passes, triangle is inconclusive, "
        "black block fails.",
        site.north_bearing_deg,
    )
