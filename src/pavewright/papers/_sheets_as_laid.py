"""The sheets of readings as laid."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.as_laid import Verdict, reason_in_words, walls_unread
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
from pavewright.papers._laid_judged import judged_of, read_on
from pavewright.papers._laid_words import WORDS
from pavewright.papers._sheets_snags import again_sheet, snag_sheet
from pavewright.papers._sheets_standing import standing_sheets
from pavewright.papers._sheets_surface import surface_sheet
from pavewright.papers._site_words import AS_LAID as SAID
from pavewright.papers._words import day, level, one, source

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.as_laid import AreaAsLaid, ReadingPlace
    from pavewright.papers._figures import PaperFigures
    from pavewright.pipeline import Plan


def _readings_to_take(places: Sequence[ReadingPlace]) -> list[SheetOfPaper]:
    """Return a blank sheet for the levels of the finished paving."""
    sheet = SheetOfPaper(SAID.as_laid_readings_take)
    rows = [(place.label, place.area, level(place.planned_mm), "", "") for place in places]
    sheet.add(
        paragraph(SAID.read_staff_finished_paving),
        table(("at", rest("area"), right("planned", "level"), pencil("found"), pencil("off")), rows, pad=4.0),
        lines(("Date", "Read by", "Instrument")),
    )
    return [sheet]


def as_laid_sheets(plan: Plan, figures: PaperFigures, places: Sequence[ReadingPlace]) -> list[SheetOfPaper]:
    """Return readings as laid against the plan; a blank sheet for them where there are none.

    Args:
        plan: The plan.
        figures: What papers print of the rulebook.
        places: Where to read, by the names that the hold points and the phone have for them.
    """
    report = judged_of(plan)
    if report is None:
        return _readings_to_take(places)
    taken = plan.job.as_laid
    read = read_on(plan)
    sheet = SheetOfPaper("As laid", follows=True, read_on=read)
    if taken is not None:
        sheet.add(paragraph(f"Read {day(taken.date)} by {taken.read_by or '–'} with {taken.instrument or '–'}."))
    for area in report.areas:
        _add_area(sheet, area, plan, figures)
    read_areas = {area.area for area in report.areas}
    beside = [each for each in report.reasons if each.area not in read_areas]
    if beside:
        told = [WORDS.of_area(area=each.area, why=reason_in_words(each)) for each in beside]
        sheet.add(heading(WORDS.not_by_levels), points(told))
    sheet.add(heading(SAID.what_readings_cannot_show), points(report.limits))
    sheets = [sheet, surface_sheet(report, taken), *standing_sheets(plan, figures)]
    snags = snag_sheet(plan.job)
    if snags is not None:
        sheets.append(snags)
    if taken is not None:
        sheets.append(again_sheet(taken))
    for each in sheets:
        each.read_on = read
    scene = as_laid_plan(plan, PACK_FRAME)
    if scene is None:
        return sheets
    drawn = drawing_sheet(scene)
    drawn.read_on = read
    return [drawn, *sheets]


def _unread_rows(area: str, plan: Plan) -> list[tuple[str, ...]]:
    """Return the places of an area that are listed and that nobody read."""
    surface = plan.levels.area(area).surface
    taken = () if plan.job.as_laid is None else plan.job.as_laid.readings
    return [
        (each.label or "–", level(surface.level_at((each.x_mm, each.y_mm))), "–", "–", SAID.not_read)
        for each in taken
        if each.area == area and each.level_mm is None
    ]


def _add_area(sheet: SheetOfPaper, area: AreaAsLaid, plan: Plan, figures: PaperFigures) -> None:
    """Add what was found on one area."""
    rows: list[tuple[str, ...]] = [
        (
            reading.label,
            level(reading.planned_mm),
            level(reading.found_mm),
            f"{reading.deviation_mm:+.1f}",
            reading.verdict.words.upper() if reading.verdict is Verdict.FAILS else reading.verdict.words,
        )
        for reading in area.readings
    ]
    rows += _unread_rows(area.area, plan)
    sheet.add(
        heading(f"{area.area}: {area.verdict.words.upper()}"),
        points(_first_up(reason_in_words(each)) for each in area.reasons),
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
    unread = walls_unread(plan.levels.area(area.area), area.walls)
    if area.walls or unread:
        _add_walls(sheet, area, unread, figures)


def _first_up(words: str) -> str:
    return words[:1].upper() + words[1:] + "."


def _add_walls(sheet: SheetOfPaper, area: AreaAsLaid, unread: tuple[str, ...], figures: PaperFigures) -> None:
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
    rows += [(wall, "–", "–", "–", "0", SAID.not_read) for wall in unread]
    heads = (
        rest("wall"),
        right(SAID.min_found_below_dpc, "mm"),
        right("at least", "mm"),
        right("tolerance", "mm"),
        right("readings"),
        "verdict",
    )
    sheet.add(table(heads, rows), small(f"Tolerance: {source(area.level_limit, figures)}"))
