"""The sheet of standing water: its chance, where to read next, what a hose test showed, and gratings."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import rulebook, units
from pavewright.as_laid import Verdict
from pavewright.as_laid.standing import (
    OUTCOMES,
    STATES,
    area_in_words,
    cautions,
    drains_found,
    grating_figures,
    hose_found,
    next_in_words,
    percent,
    span_in_words,
)
from pavewright.drawing import standing_plan
from pavewright.papers._blocks import (
    PACK_FRAME,
    SheetOfPaper,
    drawing_sheet,
    heading,
    paragraph,
    pencil,
    points,
    rest,
    right,
    small,
    table,
)
from pavewright.papers._laid_judged import read_on, standing_of
from pavewright.papers._laid_words import WORDS
from pavewright.papers._words import amount, day, level, one, source

if TYPE_CHECKING:
    from pavewright.as_laid.standing import AreaStanding, HoseFound
    from pavewright.job import Job
    from pavewright.papers._figures import PaperFigures
    from pavewright.pipeline import Plan


def standing_sheets(plan: Plan, figures: PaperFigures) -> list[SheetOfPaper]:
    """Return the drawing and the sheet of standing water; nothing where nothing was read."""
    taken = plan.job.as_laid
    if plan.as_laid is None:
        return []
    rules = rulebook.load(plan.edition)
    areas = standing_of(plan)
    sheet = SheetOfPaper(WORDS.standing, follows=True, read_on=read_on(plan))
    for area in areas:
        _add_area(sheet, area)
    if taken is not None and areas:
        sheet.add(heading(WORDS.what_rests), points(cautions(areas[0], taken.reading_sd_mm)))
    if plan.job.hose_tests:
        _add_hose(sheet, plan.job, hose_found(plan.job, areas))
    if plan.job.drain_marks:
        held = grating_figures(rules)
        sheet.add(heading(WORDS.drains), paragraph(_held(held.min_above.value, held.max_above.value)))
        sheet.add(small(source(held.max_above, figures)))
        rows = [
            (each.mark, each.drain, each.place, f"{each.above_mm:+.1f}", _loud(each.verdict))
            for each in drains_found(plan.job, rules)
        ]
        sheet.add(table(("mark", "drain", rest("where"), right("above mm", "mm"), "verdict"), rows))
    scene = standing_plan(plan, areas, PACK_FRAME)
    if scene is None:
        return [sheet]
    drawn = drawing_sheet(scene)
    drawn.read_on = read_on(plan)
    return [drawn, sheet]


def _held(low_mm: float, high_mm: float) -> str:
    return WORDS.drains_held(low=amount(low_mm), high=amount(high_mm))


def _loud(verdict: Verdict) -> str:
    return verdict.words.upper() if verdict is Verdict.FAILS else verdict.words


def _add_area(sheet: SheetOfPaper, area: AreaStanding) -> None:
    """Add what is known of one area."""
    sheet.add(heading(WORDS.area_is(area=area.area, state=STATES[area.state].upper())), paragraph(area_in_words(area)))
    if area.ponds:
        rows = [
            (
                str(pond.number),
                percent(pond.chance),
                STATES[pond.state],
                span_in_words(pond.depth_mm),
                span_in_words(pond.area_m2, 2),
                span_in_words(pond.volume_l, 1),
            )
            for pond in area.ponds
        ]
        heads = ("pond", "chance", rest("it"), right("depth mm", "mm"), right("area m²"), right("litres"))
        sheet.add(table(heads, rows))
    if area.why is None:
        sheet.add(paragraph(next_in_words(area)))
    if area.next_places:
        places = [
            (
                each.label,
                WORDS.east_north(x=one(units.mm_to_m(each.at[0])), y=one(units.mm_to_m(each.at[1]))),
                level(each.planned_mm),
                percent(each.decides),
                "",
            )
            for each in area.next_places
        ]
        columns = ("at", rest("east, north"), right("planned", "level"), right(WORDS.decides), pencil("found"))
        sheet.add(table(columns, places, pad=4.0))


def _add_hose(sheet: SheetOfPaper, job: Job, found: tuple[HoseFound, ...]) -> None:
    """Add every hose test beside what the readings foretell."""
    sheet.add(heading(WORDS.hose))
    for test in job.hose_tests:
        whole = test.all_wet and test.all_seen
        about = WORDS.hose_about(
            test=test.name,
            area=test.area,
            day=day(test.date),
            seen=WORDS.seen_by(who=test.seen_by) if test.seen_by else "",
            minutes=amount(test.after_min),
            how=WORDS.whole_seen if whole else WORDS.part_seen,
        )
        rows = [
            (
                each.mark or WORDS.at_pond(number=str(each.pond)),
                "–" if each.depth_mm is None else amount(each.depth_mm),
                "–" if each.chance is None else percent(each.chance),
                OUTCOMES[each.outcome],
            )
            for each in found
            if each.test == test.name
        ]
        heads = ("at", right("depth mm", "mm"), right("chance"), rest(WORDS.beside))
        sheet.add(paragraph(about), table(heads, rows))
