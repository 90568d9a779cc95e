"""Sheets of the water: what drains where, soakaways, a storm before and after, drains."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing import drain_sections, pit_sections, water_plan
from pavewright.papers._blocks import (
    PACK_FRAME,
    SheetOfPaper,
    drawing_sheet,
    heading,
    paragraph,
    points,
    rest,
    right,
    small,
    table,
)
from pavewright.papers._site_words import WATER as SAID
from pavewright.papers._words import day, one, source, sum_behind, two, whole
from pavewright.water import ends_at, runs_to

if TYPE_CHECKING:
    from pavewright.papers._blocks import Block
    from pavewright.papers._figures import PaperFigures
    from pavewright.pipeline import Plan
    from pavewright.water import SoakawayCheck, Water


def water_sheets(plan: Plan, figures: PaperFigures) -> list[SheetOfPaper]:
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
            SAID.peak_flow_mm_h(
                rain=f"{water.rain.value:g}", runoff=f"{water.runoff.value:g}", total=two(water.total_l_s)
            )
        ),
        small(source(water.rain, figures)),
        table(
            (
                "area",
                rest("runs to"),
                right("m²", "m²"),
                right(SAID.from_others_m, "m²"),
                right("l/s of both", "l/s"),
                "ends at",
            ),
            rows,
        ),
    )
    if water.soakaways:
        _add_soakaways(sheet, water, figures)
    sheet.add(*_storm_blocks(plan), *_drain_blocks(plan, figures))
    sheet.add(heading(SAID.what_this_does_not), points(water.limits))
    sections = (drawing_sheet(scene) for scene in (*drain_sections(plan), *pit_sections(plan)))
    return [drawing_sheet(water_plan(plan, PACK_FRAME)), sheet, *sections]


def _add_soakaways(sheet: SheetOfPaper, water: Water, figures: PaperFigures) -> None:
    """Add what soakaways hold."""
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
                rest("soakaway"),
                "inside mm",
                right("drains m²", "m²"),
                right("needs m³", "m³"),
                right("holds m³", "m³"),
                right(SAID.worst_storm_min),
                right("half empty h"),
                "verdict",
            ),
            soak,
        ),
        points([sum_behind(check.working, figures) for check in water.soakaways]),
        *(block for check in water.soakaways if check.test is not None for block in _pit(check, figures)),
    )


def _pit(check: SoakawayCheck, figures: PaperFigures) -> list[Block]:
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
        heading(SAID.trial_pit(outfall=check.outfall, size=test.size, when=when)),
        table((rest("fill"), right("min from 75 to 25 %"), right("m/s")), rows),
        points([sum_behind(test.working, figures)]),
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
        heading(SAID.storm_before_after_job),
        paragraph(f"{storm.depth_mm:.1f} mm in {storm.minutes:g} min: {storm.reported}."),
        table((rest(SAID.where_goes), right("litres before", "litres"), right("litres after", "litres")), rows),
        small(SAID.before_ground_sheds_part),
    ]


def _drain_blocks(plan: Plan, figures: PaperFigures) -> list[Block]:
    """Return what gullies and channels take against what reaches them."""
    if not plan.water.drains:
        return []
    rows = [(check.drain, two(check.flow_l_s), two(check.takes_l_s)) for check in plan.water.drains]
    return [
        heading("Drains"),
        table((rest("drain"), right("reaches it l/s", "l/s"), right("takes l/s", "l/s")), rows),
        points([sum_behind(check.working, figures) for check in plan.water.drains]),
    ]
