"""Sheets for the site: dig, build-up, setting out, programme, as laid."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.drawing import dig_plan, programme_bars
from pavewright.earthworks import Compactor
from pavewright.papers._blocks import (
    PACK_FRAME,
    SheetOfPaper,
    boxes,
    drawing,
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
from pavewright.papers._sheets_supply import supply_blocks
from pavewright.papers._sheets_weather import weather_blocks
from pavewright.papers._site_words import WORK as SAID
from pavewright.papers._words import amount, day, hour, one, source, sum_behind, two, whole, without_dig

if TYPE_CHECKING:
    from pavewright.buildup import AreaBuildUp
    from pavewright.cost import Hire
    from pavewright.earthworks import Earthworks, LayerCompaction
    from pavewright.papers._blocks import Block
    from pavewright.papers._figures import PaperFigures
    from pavewright.pipeline import Plan
    from pavewright.programme import Task
    from pavewright.sums import Working

_MAX_BOXES = 120


def dig_sheets(plan: Plan, figures: PaperFigures) -> list[SheetOfPaper]:
    """Return the dig plan, the layers with what decided them, volumes and loads."""
    sheet = SheetOfPaper(SAID.dig_build_up, follows=True)
    for up in plan.build_ups.areas:
        _add_layers(sheet, up, plan.earthworks.compacted(up.area), figures)
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
            table(
                (
                    rest("area"),
                    right("dig m²", "m²"),
                    right("cut m³", "m³"),
                    right("fill m³", "m³"),
                    right("min deep", "mm"),
                    right("mean", "mm"),
                    right("deepest", "mm"),
                ),
                volumes,
            ),
            *_by_zone(works),
            points([sum_behind(working, figures) for working in (*_beside(works), *works.workings)]),
        )
        if works.loads is not None:
            words = SAID.loads_expected_tick_each(low=whole(works.loads.low), high=whole(works.loads.high))
            sheet.add(boxes(words, min(int(works.loads.high) + 4, _MAX_BOXES)))
    else:
        sheet.add(paragraph(SAID.ground_was_not_levelled))
    return [drawing_sheet(dig_plan(plan, PACK_FRAME)), sheet]


def _add_layers(
    sheet: SheetOfPaper, up: AreaBuildUp, courses: tuple[LayerCompaction, ...], figures: PaperFigures
) -> None:
    """Add the layers of one area with what decided them, and how its stone is compacted."""
    rows = [
        (
            layer.name,
            amount(layer.thickness_mm) if layer.thickness_mm else "–",
            whole(layer.extends_mm) if layer.extends_mm else "–",
            layer.why,
            "; ".join(source(figure, figures) for figure in layer.decided_by[:1]),
        )
        for layer in up.layers
    ]
    ratio = "" if up.cbr_percent is None else SAID.bearing_ratio_taken(cbr=f"{up.cbr_percent:g}")
    sheet.add(
        heading(f"{up.area}: {amount(up.total_mm)} mm"),
        paragraph(SAID.formation_lies_mm_below(total=amount(up.total_mm), ratio=ratio)),
        table(
            (rest("layer"), right("mm", "mm"), right("past edge", "mm"), rest("why"), rest("source")),
            rows,
            type_size=8.0,
        ),
        points([sum_behind(working, figures) for working in up.workings]),
    )
    _add_compaction(sheet, courses, figures)


def _add_compaction(sheet: SheetOfPaper, courses: tuple[LayerCompaction, ...], figures: PaperFigures) -> None:
    """Add in which layers stone goes in, and how often the plate goes over each; nothing where there is none."""
    if not courses:
        return
    rows = [
        (
            each.layer.words,
            str(each.layers.layers),
            whole(each.layers.layer_mm),
            "which plate?" if each.layers.passes is None else str(each.layers.passes),
            _PLATES[each.layers.plate],
            source(each.layers.decided_by, figures),
        )
        for each in courses
    ]
    sheet.add(
        table(
            (
                rest("compacted"),
                right("layers"),
                right("each mm", "mm"),
                right("passes"),
                rest("plate"),
                rest("source"),
            ),
            rows,
            type_size=8.0,
        )
    )


_PLATES = {
    Compactor.PLATE_HEAVY: "a heavy one",
    Compactor.PLATE_LIGHT: "a lighter one",
    Compactor.BELOW_TABLE: SAID.lighter_than_any_with,
    Compactor.UNKNOWN: SAID.not_entered_passes_are,
}


def _by_zone(works: Earthworks) -> list[Block]:
    """Return cut and fill by zone; nothing where there are none."""
    rows = [
        (f"{each.area}, {zone.zone or 'rest'}", two(zone.dig_m2), two(zone.cut_m3), two(zone.fill_m3))
        for each in works.areas
        for zone in each.zones
    ]
    return (
        [table((rest("zone"), right("dig m²", "m²"), right("cut m³", "m³"), right("fill m³", "m³")), rows)]
        if rows
        else []
    )


def _beside(works: Earthworks) -> list[Working]:
    """Return the sums behind what is dug beside free edges."""
    return [each.workings[-1] for each in works.areas if each.sides_m3 > 0.0]


def _hired(plan: Plan, hire: Hire) -> str:
    """Return a machine with its days, the same as in the price."""
    name = plan.job.rates.plant[hire.key.number].name or hire.key.kind.value
    wanted = "" if hire.days == hire.wanted_days else SAID.work_needs(wanted_days=hire.wanted_days)
    return f"{name} {hire.days:g} days{wanted}"


def programme_sheet(plan: Plan, figures: PaperFigures) -> SheetOfPaper:
    """Return tasks and waits with their dates."""
    programme = plan.programme
    sheet = SheetOfPaper("Programme")
    ready = [(SAID.walk_from, day(programme.foot_ready))]
    if programme.car_ready is not None:
        ready.append((SAID.drive_from, day(programme.car_ready)))
    plant = plan.job.rates.plant
    hire = ", ".join(_hired(plan, each) for each in programme.hires if not plant[each.key.number].owned)
    own = ", ".join(_hired(plan, each) for each in programme.hires if plant[each.key.number].owned)
    sheet.add(
        facts(
            [
                (
                    "On site",
                    f"{day(programme.start)} to {day(programme.finish)}: {programme.site_days} days{without_dig(plan)}",
                ),
                *ready,
                (SAID.plant_hire, hire or "none"),
                *([("Own plant", own)] if own else []),
            ]
        ),
        *(drawing(scene) for scene in programme_bars(plan)),
        small(_BARS),
        *([small(programme.uncounted_words)] if programme.uncounted else []),
        heading("Every task"),
        table(
            (rest("task"), "from", "to", right("hours"), ""),
            [_task_row(task) for task in programme.tasks],
            type_size=8.0,
        ),
        *supply_blocks(plan),
        *weather_blocks(plan, figures),
        heading(SAID.sums_behind_lengths),
        points([f"{task.description}: {sum_behind(task.working, figures)}" for task in programme.tasks]),
    )
    return sheet


_BARS = SAID.black_bar_bold_name


def _task_row(task: Task) -> tuple[str, str, str, str, str]:
    """Return a task with its dates and what it is."""
    hours = units.MINUTES_PER_HOUR
    length = (task.working.result if task.wait else task.work_min) / hours
    kinds = (
        "hold point" if task.hold else "wait" if task.wait else "no rain" if task.weather else "",
        "critical" if task.critical else "",
        "pinned" if task.pinned_on is not None else "",
        f"{task.done_percent:.0f} % done" if task.done_percent else "",
    )
    kind = ", ".join(each for each in kinds if each)
    return task.description, hour(task.start), hour(task.finish), one(length), kind
