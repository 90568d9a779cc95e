"""The sheets of readings as laid."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.as_laid import Verdict
from pavewright.drawing import as_laid_plan
from pavewright.papers._blocks import (
    PACK_FRAME,
    SheetOfPaper,
    drawing_sheet,
    facts,
    heading,
    lines,
    paragraph,
    pencil,
    points,
    rest,
    right,
    small,
    table,
)
from pavewright.papers._site_words import AS_LAID as SAID
from pavewright.papers._words import day, level, one, source
from pavewright.setting_out import Stands

if TYPE_CHECKING:
    from pavewright.as_laid import AreaAsLaid
    from pavewright.papers._figures import PaperFigures
    from pavewright.pipeline import Plan


def _readings_to_take(plan: Plan) -> list[SheetOfPaper]:
    """Return a blank sheet for the levels of the finished paving."""
    sheet = SheetOfPaper(SAID.as_laid_readings_take)
    rows = [
        (peg.name, peg.area, level(peg.heights[0].level_mm), "", "")
        for peg in plan.setting_out.pegs
        if peg.stands is not Stands.PIN
    ]
    sheet.add(
        paragraph(SAID.read_staff_finished_paving),
        table(("at", rest("area"), right("planned", "level"), pencil("found"), pencil("off")), rows, pad=4.0),
        lines(("Date", "Read by", "Instrument")),
    )
    return [sheet]


def as_laid_sheets(plan: Plan, figures: PaperFigures) -> list[SheetOfPaper]:
    """Return readings as laid against the plan; a blank sheet for them where there are none."""
    report = plan.as_laid
    if report is None:
        return _readings_to_take(plan)
    taken = plan.job.as_laid
    read = "" if taken is None else day(taken.date)
    sheet = SheetOfPaper("As laid", follows=True, read_on=read)
    if taken is not None:
        sheet.add(paragraph(f"Read {day(taken.date)} by {taken.read_by or '–'} with {taken.instrument or '–'}."))
    for area in report.areas:
        _add_area(sheet, area, figures)
    sheet.add(heading(SAID.what_readings_cannot_show), points(report.limits))
    scene = as_laid_plan(plan, PACK_FRAME)
    if scene is None:
        return [sheet]
    drawn = drawing_sheet(scene)
    drawn.read_on = read
    return [drawn, sheet]


def _add_area(sheet: SheetOfPaper, area: AreaAsLaid, figures: PaperFigures) -> None:
    """Add what was found on one area."""
    rows = [
        (
            reading.label,
            level(reading.planned_mm),
            level(reading.found_mm),
            f"{reading.deviation_mm:+.1f}",
            reading.verdict.words.upper() if reading.verdict is Verdict.FAILS else reading.verdict.words,
        )
        for reading in area.readings
    ]
    sheet.add(
        heading(f"{area.area}: {area.verdict.words.upper()}"),
        facts(
            [
                ("Fall planned", units.fall_text(area.planned_fall)),
                ("Fall found", "not known" if area.fall is None else units.fall_text(area.fall)),
                (
                    SAID.greatest_departure_from_plane,
                    "–" if area.greatest_residual_mm is None else f"{one(area.greatest_residual_mm)} mm",
                ),
                (SAID.level_held, SAID.mm_either_way(level_limit=f"{area.level_limit.value:g}")),
            ]
        ),
        small(source(area.level_limit, figures)),
        table(
            (rest("reading"), right("planned", "level"), right("found", "level"), right("off mm", "mm"), "verdict"),
            rows,
            type_size=8.0,
            pad=2.0,
        ),
    )
    if area.walls:
        _add_walls(sheet, area, figures)


def _add_walls(sheet: SheetOfPaper, area: AreaAsLaid, figures: PaperFigures) -> None:
    """Add the clearance below the damp-proof course at each wall."""
    rows = [
        (
            wall.wall,
            f"{wall.min_mm:.0f}",
            f"{wall.wanted_mm:.0f}",
            f"{wall.tolerance_mm:g}",
            str(wall.readings),
            SAID.tolerance(verdict=wall.verdict.words) if wall.needs_tolerance else wall.verdict.words,
        )
        for wall in area.walls
    ]
    heads = (
        rest("wall"),
        right(SAID.min_found_below_dpc, "mm"),
        right("promised", "mm"),
        right("tolerance", "mm"),
        right("readings"),
        "verdict",
    )
    sheet.add(table(heads, rows), small(f"Tolerance: {source(area.level_limit, figures)}"))
