"""Sheets for the site: dig, build-up, setting out, programme, as laid."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.as_laid import Verdict
from pavewright.drawing import as_laid_plan, dig_plan, setting_out_plan
from pavewright.papers._blocks import (
    PACK_FRAME,
    SheetOfPaper,
    boxes,
    drawing_sheet,
    facts,
    heading,
    lines,
    paragraph,
    points,
    small,
    table,
)
from pavewright.papers._words import amount, day, hour, level, one, source, sum_behind, two, whole, without_dig
from pavewright.setting_out import PegRole, Stands

if TYPE_CHECKING:
    from pavewright.cost import Hire
    from pavewright.earthworks import Earthworks
    from pavewright.papers._blocks import Block
    from pavewright.pipeline import Plan
    from pavewright.programme import Task
    from pavewright.rules import Rulebook
    from pavewright.setting_out import Peg
    from pavewright.sums import Working

_MAX_BOXES = 120


def dig_sheets(plan: Plan, rules: Rulebook) -> list[SheetOfPaper]:
    """Return the dig plan, the layers with what decided them, volumes and loads."""
    sheet = SheetOfPaper("Dig and build-up", follows=True)
    for up in plan.build_ups.areas:
        rows = [
            (
                layer.name,
                amount(layer.thickness_mm) if layer.thickness_mm else "–",
                whole(layer.extends_mm) if layer.extends_mm else "–",
                layer.why,
                "; ".join(source(figure, rules) for figure in layer.decided_by[:1]),
            )
            for layer in up.layers
        ]
        ratio = "" if up.cbr_percent is None else f" Bearing ratio taken: {up.cbr_percent:g} %."
        sheet.add(
            heading(f"{up.area}: {amount(up.total_mm)} mm"),
            paragraph(f"Formation lies {amount(up.total_mm)} mm below the finished surface everywhere.{ratio}"),
            table(("*layer", ">mm", ">past edge", "*why", "*source"), rows, type_size=8.0),
            points([sum_behind(working, rules) for working in up.workings]),
        )
    works = plan.earthworks
    if works.areas:
        volumes = [
            (
                one_dig.area,
                two(one_dig.dig_m2),
                two(one_dig.volumes.cut_m3),
                two(one_dig.volumes.fill_m3),
                whole(one_dig.volumes.shallowest_mm),
                whole(one_dig.mean_depth_mm),
                whole(one_dig.volumes.deepest_mm),
            )
            for one_dig in works.areas
        ]
        sheet.add(
            heading("Volumes"),
            table(("*area", ">dig m²", ">cut m³", ">fill m³", ">least deep", ">mean", ">deepest"), volumes),
            *_by_zone(works),
            points([sum_behind(working, rules) for working in (*_beside(works), *works.workings)]),
        )
        if works.loads is not None:
            words = f"Loads, {whole(works.loads.low)} to {whole(works.loads.high)} expected: tick each."
            sheet.add(boxes(words, min(int(works.loads.high) + 4, _MAX_BOXES)))
    else:
        sheet.add(paragraph("The ground was not levelled: the dig is not known."))
    return [drawing_sheet(dig_plan(plan, PACK_FRAME)), sheet]


def _by_zone(works: Earthworks) -> list[Block]:
    """Return cut and fill by zone; nothing where there are none."""
    rows = [
        (f"{each.area}, {zone.zone or 'rest'}", two(zone.dig_m2), two(zone.cut_m3), two(zone.fill_m3))
        for each in works.areas
        for zone in each.zones
    ]
    return [table(("*zone", ">dig m²", ">cut m³", ">fill m³"), rows)] if rows else []


def _beside(works: Earthworks) -> list[Working]:
    """Return the sums behind what is dug beside free edges."""
    return [each.workings[-1] for each in works.areas if each.sides_m3 > 0.0]


def setting_out_sheets(plan: Plan) -> list[SheetOfPaper]:
    """Return the plan of pegs and the sheet with heights below the string, with room to write what was found."""
    setting = plan.setting_out
    sheet = SheetOfPaper("Setting out", upright=False)
    high = f"{amount(setting.string_height_mm)}"
    sheet.add(paragraph(f"Every string runs {high} mm over the finished surface and carries its fall."))
    sheet.add(paragraph(setting.services_words), points([f"{band.words}." for band in setting.services]))
    sheet.add(
        paragraph(
            "A pin is driven outside the dig and stays. A mark is made on the wall, where no pin can be driven. A dip "
            "is a place under a string: measure down to it; no pin stays there."
        )
    )
    for line in setting.base_lines:
        pegs = [peg for peg in setting.pegs if peg.area == line.area]
        if not pegs:
            continue
        layers = [height.layer for height in pegs[0].heights]
        rows = [
            (
                str(peg.number),
                f"{peg.role}, {peg.stands.value if peg.no_pin is None else 'NO PIN'}",
                peg.from_corner if peg.no_pin is None else f"{peg.no_pin.words}. The place itself: {peg.from_corner}",
                *_peg_heights(peg),
                "",
            )
            for peg in pegs
        ]
        heads = (
            ">peg",
            "kind",
            "*where, from the base line",
            ">string",
            *(f">to {layer}" for layer in layers),
            ">formation",
            "_found",
        )
        sheet.add(
            heading(f"{line.area}: base line {line.words}; millimetres down from the string"),
            table(heads, rows, type_size=8.0, pad=3.2),
        )
    numbers = {peg.name: peg.number for peg in setting.pegs}
    strings = [
        (
            each.name,
            *(str(numbers[end]) for end in (each.start, each.end)),
            *(whole(each.length_mm), f"{each.fall_mm:+.0f}", "fall" if each.carries_fall else "across"),
        )
        for each in setting.strings
    ]
    sheet.add(heading("Strings"), table(("string", ">from peg", ">to peg", ">length", ">drop", "carries"), strings))
    checks = [(check.kind, check.words, whole(check.expected_mm), "") for check in setting.checks]
    sheet.add(
        heading("Tapes to check before digging"),
        table(("kind", "*what", ">expected", "_found"), checks, type_size=8.0, pad=3.2),
        points([each.words for each in setting.houses]),
    )
    return [drawing_sheet(setting_out_plan(plan, PACK_FRAME)), sheet]


def _hired(plan: Plan, hire: Hire) -> str:
    """Return a machine with its days on hire, the same as in the price."""
    name = plan.job.rates.plant[hire.key.number].name or hire.key.kind.value
    wanted = "" if hire.days == hire.wanted_days else f" (work needs it on {hire.wanted_days})"
    return f"{name} {hire.days:g} days{wanted}"


def _peg_heights(peg: Peg) -> tuple[str, ...]:
    """Return the string, what lies how far below it, and formation; a pin of the base line carries no string."""
    if peg.role is PegRole.BASE:
        return ("–",) * (len(peg.heights) + 2)
    downs = (whole(height.down_from_string_mm) for height in peg.heights)
    return level(peg.string_level_mm), *downs, level(peg.heights[-1].level_mm)


def programme_sheet(plan: Plan, rules: Rulebook) -> SheetOfPaper:
    """Return tasks and waits with their dates."""
    programme = plan.programme
    sheet = SheetOfPaper("Programme")
    ready = [("Walk on it from", day(programme.foot_ready))]
    if programme.car_ready is not None:
        ready.append(("Drive on it from", day(programme.car_ready)))
    hire = ", ".join(_hired(plan, each) for each in programme.hires)
    sheet.add(
        facts(
            [
                (
                    "On site",
                    f"{day(programme.start)} to {day(programme.finish)}: {programme.site_days} days{without_dig(plan)}",
                ),
                *ready,
                ("Plant on hire", hire or "none"),
            ]
        ),
        table(
            ("*task", "from", "to", ">hours", "", "bar"),
            [_task_row(task, plan) for task in programme.tasks],
            type_size=8.0,
        ),
        heading("Sums behind the lengths"),
        points([f"{task.description}: {sum_behind(task.working, rules)}" for task in programme.tasks]),
    )
    return sheet


def _task_row(task: Task, plan: Plan) -> tuple[str, str, str, str, str, str]:
    """Return a task with a bar of one sign for each half-day since the start."""
    hours = units.MINUTES_PER_HOUR
    length = (
        task.work_min / hours if not task.wait else (task.finish - task.start).total_seconds() / units.SECONDS_PER_HOUR
    )
    first = plan.programme.start
    offset = (task.start.date() - first).days
    span = (task.finish.date() - task.start.date()).days + 1
    bar = "·" * offset + ("~" if task.wait else "■") * span
    kind = "wait" if task.wait else "no rain" if task.weather else ""
    return task.description, hour(task.start), hour(task.finish), one(length), kind, bar


def _readings_to_take(plan: Plan) -> list[SheetOfPaper]:
    """Return a blank sheet for the levels of the finished paving."""
    sheet = SheetOfPaper("As laid: readings to take")
    rows = [
        (peg.name, peg.area, level(peg.heights[0].level_mm), "", "")
        for peg in plan.setting_out.pegs
        if peg.stands is not Stands.PIN
    ]
    sheet.add(
        paragraph("Read the staff on the finished paving at these places and write the levels down."),
        table(("at", "*area", ">planned", "_found", "_off"), rows, pad=4.0),
        lines(("Date", "Read by", "Instrument")),
    )
    return [sheet]


def as_laid_sheets(plan: Plan, rules: Rulebook) -> list[SheetOfPaper]:
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
        sheet.add(
            heading(f"{area.area}: {area.verdict.words.upper()}"),
            facts(
                [
                    ("Fall planned", units.fall_text(area.planned_fall)),
                    ("Fall found", "not known" if area.fall is None else units.fall_text(area.fall)),
                    (
                        "Greatest departure from a plane",
                        "–" if area.greatest_residual_mm is None else f"{one(area.greatest_residual_mm)} mm",
                    ),
                    ("Level held to", f"{area.level_limit.value:g} mm either way"),
                ]
            ),
            small(source(area.level_limit, rules)),
            table(
                ("*reading", ">planned", ">found", ">off mm", "verdict"),
                [
                    (
                        reading.label,
                        level(reading.planned_mm),
                        level(reading.found_mm),
                        f"{reading.deviation_mm:+.1f}",
                        reading.verdict.words.upper() if reading.verdict is Verdict.FAILS else reading.verdict.words,
                    )
                    for reading in area.readings
                ],
                type_size=8.0,
                pad=2.0,
            ),
        )
        if area.walls:
            rows = [
                (
                    wall.wall,
                    f"{wall.min_mm:.0f}",
                    f"{wall.wanted_mm:.0f}",
                    f"{wall.tolerance_mm:g}",
                    str(wall.readings),
                    f"{wall.verdict.words}, by the tolerance" if wall.needs_tolerance else wall.verdict.words,
                )
                for wall in area.walls
            ]
            heads = ("*wall", ">min found below DPC", ">promised", ">tolerance", ">readings", "verdict")
            sheet.add(table(heads, rows), small(f"Tolerance: {source(area.level_limit, rules)}"))
    sheet.add(heading("What the readings cannot show"), points(report.limits))
    scene = as_laid_plan(plan, PACK_FRAME)
    if scene is None:
        return [sheet]
    drawn = drawing_sheet(scene)
    drawn.read_on = read
    return [drawn, sheet]
