"""Sheets of the survey, the levels, the section and the water."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing import levels_plan, section_at_wall, site_plan, water_plan
from pavewright.papers._blocks import (
    PACK_FRAME,
    SheetOfPaper,
    drawing_sheet,
    facts,
    heading,
    paragraph,
    points,
    small,
    table,
)
from pavewright.papers._tape_blocks import doubt_blocks, level_blocks, shape_blocks
from pavewright.papers._words import day, level, money, one, source, sum_behind, two, whole
from pavewright.water import ends_at, runs_to

if TYPE_CHECKING:
    from pavewright.levels import FoldStudy
    from pavewright.papers._blocks import Block
    from pavewright.pipeline import Plan
    from pavewright.rules import Rulebook
    from pavewright.survey import ReducedLevelBook
    from pavewright.water import SoakawayCheck


def survey_sheets(plan: Plan) -> list[SheetOfPaper]:
    """Return the survey plan, points, tapes and level books."""
    survey = plan.survey
    sheet = SheetOfPaper("Survey: points, tapes and levels", follows=True)
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
        table((">point", ">x", ">y", ">level", "found by", ">± mm"), rows, type_size=8.0, pad=2.3),
    )
    if survey.tapes is not None:
        ratio = "" if survey.tapes.ratio is None else f"; fit {two(survey.tapes.ratio)} times what was expected"
        sheet.add(
            heading("Tapes"),
            paragraph(f"{survey.tapes.spare} spare tapes{ratio}."),
            table(
                ("tape", ">read", ">adjusted", ">change", ">checked by others"),
                [
                    (
                        f"{tape.start}–{tape.end}",
                        f"{tape.measured_mm:.0f}",
                        one(tape.adjusted_mm),
                        f"{tape.residual_mm:+.1f}",
                        f"{100.0 * tape.redundancy:.0f} %",
                    )
                    for tape in survey.tapes.residuals
                ],
                type_size=8.0,
                pad=2.3,
            ),
        )
        sheet.add(*shape_blocks(survey.tapes), *doubt_blocks(survey.tapes))
    together = survey.levels_together is not None
    for book in survey.level_books:
        sheet.add(*_book(book, together=together))
    if survey.levels_together is not None:
        sheet.add(*level_blocks(survey.levels_together))
    if survey.assumptions:
        sheet.add(heading("Assumed"), points(survey.assumptions))
    return [drawing_sheet(site_plan(plan, PACK_FRAME)), sheet]


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
        shared = "shared out over the set-ups" if book.shared_out else "not shared out"
        shared = "levels from all readings together" if together else shared
        closing = f"Closes {book.misclosure_mm:+.1f} mm off; limit {one(book.limit_mm)} mm; {shared}. "
    checks = "; ".join(
        f"{check.name}: {one(check.left_mm)} = {one(check.right_mm)}{'' if check.holds else ' DOES NOT HOLD'}"
        for check in book.checks
    )
    heads = (">point", ">back", ">inter", ">fore", ">rise", ">fall", ">level", ">share", ">adjusted")
    return [
        heading(f"Level book: {book.name}"),
        paragraph(f"{closing}{book.setups} set-up(s). Checks: {checks}."),
        table(heads, rows, type_size=8.0, pad=2.3),
    ]


def levels_sheets(plan: Plan, rules: Rulebook) -> list[SheetOfPaper]:
    """Return the levels plan, the table of levels and the section at the wall."""
    sheet = SheetOfPaper("Finished levels", follows=True)
    for compared in plan.levels.studies:
        sheet.add(heading(f"{compared.area}: ways to fold it"), *_ways(plan, compared))
    for area in plan.levels.areas:
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
                ("*place", ">finished level"),
                [(spot.label, level(spot.level_mm)) for spot in (*area.corners, *area.spots)],
            ),
        )
        if area.clearances:
            rows = [
                (clearance.wall, f"{clearance.at_start_mm:.0f}", f"{clearance.at_end_mm:.0f}")
                for clearance in area.clearances
            ]
            sheet.add(
                table(("*wall", ">below DPC at its start", ">at its end"), rows),
                small(source(rules.figure("levels.below_dpc_mm"), rules)),
            )
        if area.doors:
            sheet.add(
                table(
                    ("*door", ">step down at the left jamb", ">in the middle", ">at the right jamb"),
                    [
                        (door.opening, f"{door.left_mm:.0f}", f"{door.middle_mm:.0f}", f"{door.right_mm:.0f}")
                        for door in area.doors
                    ],
                )
            )
        sheet.add(points([sum_behind(working, rules) for working in area.workings]))
    for steps in plan.levels.steps:
        sheet.add(
            heading(steps.name),
            facts(
                [
                    ("Risers", f"{steps.risers} of {steps.riser_mm:.0f} mm, all equal"),
                    ("Going", f"{steps.going_mm:.0f} mm"),
                    ("Rise at the ends", f"{steps.rise_start_mm:.0f} and {steps.rise_end_mm:.0f} mm"),
                ]
            ),
        )
    found = [drawing_sheet(levels_plan(plan, PACK_FRAME)), sheet]
    section = section_at_wall(plan)
    if section is not None:
        found.append(drawing_sheet(section))
    return found


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
        table(("*way (→ taken)", ">earthwork", "*what becomes of water"), rows),
        small(
            "Earthwork at the prices of the job, or invented ones where it gives none; to put the ways in order only."
        ),
    ]


def water_sheets(plan: Plan, rules: Rulebook) -> list[SheetOfPaper]:
    """Return the water plan and the table of what drains where."""
    water = plan.water
    sheet = SheetOfPaper("Water", follows=True)
    rows = [
        (
            caught.area,
            runs_to(caught),
            two(caught.area_m2),
            two(caught.from_others_m2) if caught.from_others_m2 > 0.0 else "",
            two(caught.whole_l_s),
            ends_at(caught),
        )
        for caught in water.catchments
    ]
    sheet.add(
        paragraph(
            f"Peak flow at {water.rain.value:g} mm/h, runoff {water.runoff.value:g}: {two(water.total_l_s)} l/s in all."
        ),
        small(source(water.rain, rules)),
        table(("area", "*runs to", ">m²", ">and from others m²", ">l/s of both", "ends at"), rows),
    )
    if water.soakaways:
        soak = [
            (
                check.outfall,
                f"{whole(check.size.length_mm)} × {whole(check.size.width_mm)} × {whole(check.size.depth_mm)}"
                + (", proposed" if check.size.proposed else ""),
                two(check.area_m2),
                two(check.required_m3),
                two(check.available_m3),
                f"{check.governing_min:g}",
                one(check.half_empty_hours),
                check.verdict.value,
            )
            for check in water.soakaways
        ]
        sheet.add(
            heading("Soakaways"),
            table(
                (
                    "*soakaway",
                    "inside mm",
                    ">drains m²",
                    ">wants m³",
                    ">holds m³",
                    ">worst storm min",
                    ">half empty h",
                    "verdict",
                ),
                soak,
            ),
            points([sum_behind(check.working, rules) for check in water.soakaways]),
            *(block for check in water.soakaways if check.test is not None for block in _pit(check, rules)),
        )
    sheet.add(*_storm_blocks(plan), *_drain_blocks(plan, rules))
    sheet.add(heading("What this does not show"), points(water.limits))
    return [drawing_sheet(water_plan(plan, PACK_FRAME)), sheet]


def _pit(check: SoakawayCheck, rules: Rulebook) -> list[Block]:
    """Return the record of a trial pit as a table."""
    test = check.test
    if test is None:
        return []
    rows = [
        (f"fill {number}", f"{minutes:g}", f"{rate:.2e}")
        for number, (minutes, rate) in enumerate(zip(test.times_min, test.rates_m_per_s, strict=True), start=1)
    ]
    when = f", {day(test.date)}" if test.date is not None else ""
    return [
        heading(f"Trial pit at {check.outfall}: {test.size}{when}"),
        table(("*fill", ">min from 75 to 25 %", ">m/s"), rows),
        points([sum_behind(test.working, rules)]),
    ]


def _storm_blocks(plan: Plan) -> list[Block]:
    """Return the litres of the design storm before and after the job as a table."""
    storm = plan.water.storm
    if storm is None or not storm.shares:
        return []
    rows = [
        (
            runs_to(share),
            "not known" if share.before_l is None else f"{share.before_l:.0f}",
            f"{share.after_l:.0f}",
        )
        for share in storm.shares
    ]
    return [
        heading("A storm, before and after the job"),
        paragraph(f"{storm.depth_mm:.1f} mm in {storm.minutes:g} min: {storm.told}."),
        table(("*where it goes", ">litres before", ">litres after"), rows),
        small(
            "Before, the ground sheds the part of the rain that its cover does; the rest soaks in. After, all sheds."
        ),
    ]


def _drain_blocks(plan: Plan, rules: Rulebook) -> list[Block]:
    """Return what gullies and channels take against what reaches them."""
    if not plan.water.drains:
        return []
    rows = [(check.drain, two(check.flow_l_s), two(check.takes_l_s)) for check in plan.water.drains]
    return [
        heading("Drains"),
        table(("*drain", ">reaches it l/s", ">takes l/s"), rows),
        points([sum_behind(check.working, rules) for check in plan.water.drains]),
    ]
