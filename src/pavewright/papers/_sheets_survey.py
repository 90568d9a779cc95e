"""Sheets of the survey, the levels, the section and the water."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing import edge_details, levels_plan, movement_details, site_plan, step_sections, wall_sections
from pavewright.papers._blocks import (
    PACK_FRAME,
    SheetOfPaper,
    drawing_sheet,
    facts,
    heading,
    paragraph,
    points,
    rest,
    right,
    small,
    table,
)
from pavewright.papers._site_words import SURVEY as SAID
from pavewright.papers._tape_blocks import doubt_blocks, level_blocks, shape_blocks
from pavewright.papers._words import level, money, one, source, sum_behind, two

if TYPE_CHECKING:
    from pavewright.levels import FinishedArea, FoldStudy
    from pavewright.papers._blocks import Block
    from pavewright.papers._figures import PaperFigures
    from pavewright.pipeline import Plan
    from pavewright.survey import AdjustedTapes, ReducedLevelBook


def survey_sheets(plan: Plan) -> list[SheetOfPaper]:
    """Return the survey plan, points, tapes and level books."""
    survey = plan.survey
    sheet = SheetOfPaper(SAID.survey_points_tapes_levels, follows=True)
    rows = [
        (
            point.name,
            f"{point.x_mm:.0f}",
            f"{point.y_mm:.0f}",
            "" if point.level_mm is None else level(point.level_mm),
            point.found_by,
            "" if point.sd_mm is None else one(point.sd_mm),
        )
        for point in survey.points
    ]
    sheet.add(
        heading("Points"),
        table(
            (
                right("point"),
                right("x", "mm"),
                right("y", "mm"),
                right("level", "level"),
                "found by",
                right("± mm", "mm"),
            ),
            rows,
            type_size=8.0,
            pad=2.3,
        ),
    )
    if survey.tapes is not None:
        _add_tapes(sheet, survey.tapes)
    together = survey.levels_together is not None
    for book in survey.level_books:
        sheet.add(*_book(book, together=together))
    if survey.levels_together is not None:
        sheet.add(*level_blocks(survey.levels_together))
    if survey.assumptions:
        sheet.add(heading("Assumed"), points(survey.assumptions))
    return [drawing_sheet(site_plan(plan, PACK_FRAME)), sheet]


def _add_tapes(sheet: SheetOfPaper, tapes: AdjustedTapes) -> None:
    """Add the tapes with how far each is off."""
    ratio = "" if tapes.ratio is None else SAID.fit_times_what_was(ratio=two(tapes.ratio))
    sheet.add(
        heading("Tapes"),
        paragraph(f"{tapes.spare} spare tapes{ratio}."),
        table(
            ("tape", right("read", "mm"), right("adjusted", "mm"), right("change", "mm"), right(SAID.checked_others)),
            [
                (
                    f"{tape.start}–{tape.end}",
                    f"{tape.measured_mm:.0f}",
                    one(tape.adjusted_mm),
                    f"{tape.residual_mm:+.1f}",
                    f"{100.0 * tape.redundancy:.0f} %",
                )
                for tape in tapes.residuals
            ],
            type_size=8.0,
            pad=2.3,
        ),
    )
    sheet.add(*shape_blocks(tapes), *doubt_blocks(tapes))


def _book(book: ReducedLevelBook, *, together: bool) -> list[Block]:
    def cell(value: float | None) -> str:
        return "" if value is None else f"{value:.0f}"

    rows = [
        (
            row.point,
            cell(row.backsight_mm),
            cell(row.intermediate_mm),
            cell(row.foresight_mm),
            cell(row.rise_mm),
            cell(row.fall_mm),
            level(row.level_mm),
            f"{row.correction_mm:+.1f}" if row.correction_mm else "",
            level(row.adjusted_mm),
        )
        for row in book.rows
    ]
    closing = ""
    if book.misclosure_mm is not None and book.limit_mm is not None:
        shared = SAID.distributed_over_set_ups if book.shared_out else SAID.misclosure_not_distributed
        shared = SAID.levels_from_all_readings if together else shared
        closing = f"Closes {book.misclosure_mm:+.1f} mm off; limit {one(book.limit_mm)} mm; {shared}. "
    checks = "; ".join(
        f"{check.name}: {one(check.left_mm)} = {one(check.right_mm)}{'' if check.holds else ' DOES NOT HOLD'}"
        for check in book.checks
    )
    heads = (
        right("point"),
        right("back", "mm"),
        right("inter", "mm"),
        right("fore", "mm"),
        right("rise", "mm"),
        right("fall", "mm"),
        right("level", "level"),
        right("share", "mm"),
        right("adjusted", "level"),
    )
    return [
        heading(f"Level book: {book.name}"),
        paragraph(f"{closing}{book.setups} set-up(s). Checks: {checks}."),
        table(heads, rows, type_size=8.0, pad=2.3),
    ]


def levels_sheets(plan: Plan, figures: PaperFigures) -> list[SheetOfPaper]:
    """Return the levels plan, the table of levels, the section at the wall and those at the edges."""
    sheet = SheetOfPaper("Finished levels", follows=True)
    for compared in plan.levels.studies:
        sheet.add(heading(SAID.options_fold(area=compared.area)), *_ways(plan, compared))
    for area in plan.levels.areas:
        _add_levels(sheet, area, figures)
    for name in plan.survey.dpc_not_read:
        sheet.add(paragraph(SAID.wall_its_damp_proof(name=name)))
    for steps in plan.levels.steps:
        sheet.add(
            heading(steps.name),
            facts(
                [
                    ("Risers", SAID.mm_all_equal(risers=steps.risers, riser=f"{steps.riser_mm:.0f}")),
                    ("Going", f"{steps.going_mm:.0f} mm"),
                    (SAID.rise_ends, f"{steps.rise_start_mm:.0f} and {steps.rise_end_mm:.0f} mm"),
                ]
            ),
        )
    found = [drawing_sheet(levels_plan(plan, PACK_FRAME)), sheet]
    sections = (*wall_sections(plan), *edge_details(plan), *step_sections(plan), *movement_details(plan))
    return [*found, *(drawing_sheet(scene) for scene in sections)]


def _add_levels(sheet: SheetOfPaper, area: FinishedArea, figures: PaperFigures) -> None:
    """Add the levels of one area, with what it meets."""
    sheet.add(
        heading(area.area),
        facts(
            [
                ("Laid as", area.folding),
                ("Falls", area.falls_text),
                (
                    "Steepest",
                    area.steepest_text,
                ),
                ("Held by", area.fixed_by),
            ]
        ),
        table(
            (rest("place"), right("finished level", "level")),
            [(spot.label, level(spot.level_mm)) for spot in (*area.corners, *area.spots)],
        ),
    )
    if area.clearances:
        rows = [
            (clearance.wall, f"{clearance.at_start_mm:.0f}", f"{clearance.at_end_mm:.0f}")
            for clearance in area.clearances
        ]
        sheet.add(
            table((rest("wall"), right(SAID.below_dpc_its_start, "mm"), right(SAID.its_end, "mm")), rows),
            small(source(figures.below_dpc_mm, figures)),
        )
    if area.doors:
        sheet.add(
            table(
                (
                    rest("door"),
                    right(SAID.step_down_left_jamb, "mm"),
                    right(SAID.middle, "mm"),
                    right(SAID.right_jamb, "mm"),
                ),
                [
                    (door.opening, f"{door.left_mm:.0f}", f"{door.middle_mm:.0f}", f"{door.right_mm:.0f}")
                    for door in area.doors
                ],
            )
        )
    sheet.add(points([sum_behind(working, figures) for working in area.workings]))


def _ways(plan: Plan, compared: FoldStudy) -> list[Block]:
    """Return the ways to fold an area as a table, the chosen one marked."""
    currency = plan.job.identity.currency
    rows = []
    for number, option in enumerate(compared.options):
        cost = option.cost_minor
        price = "" if cost is None else money(round(cost), currency)
        mark = "→ " if number == compared.chosen else ""
        rows.append((f"{mark}{option.words}", price, option.verdict))
    return [
        table((rest("option (→ taken)"), right("earthwork"), rest(SAID.what_becomes_water)), rows),
        small(SAID.earthwork_prices_job_or),
    ]
