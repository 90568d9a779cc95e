"""Work in the ground: digging, carrying, filling, low walls."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.cost._haul import Carrier, carried_kg, haul
from pavewright.cost._keys import TaskKind
from pavewright.cost._plant import has_mixer
from pavewright.cost._tasks import task

if TYPE_CHECKING:
    from pavewright.cost._site import Site
    from pavewright.cost._types import LabourTask
    from pavewright.earthworks import FoundDig, Spread
    from pavewright.rules import Figure


def dig_tasks(site: Site, area: str) -> list[LabourTask]:
    """Return digging, and getting what was dug to the skip or lorry."""
    if not site.earthworks.areas:
        return []
    mine = site.earthworks.area(area)
    by = "machine" if site.job.crew.machine_dig else "hand"
    output = _dig_output(site)
    extra = site.earthworks.found_in(area)
    dug = sum(each.dig_m3 for each in extra)
    soil = mine.volumes.cut_m3 + sum(each.dig_m3 for each in extra if not each.by_hand)
    found = [_per_m3(site, TaskKind.DIG, area, f"Dig by {by}", soil, output), *_found_tasks(site, extra)]
    both = 2.0 * (mine.sides_m3 + mine.margin_m3)
    found.append(_per_m3(site, TaskKind.SIDES, area, "Dig beside edges and fill again", both, output))
    edges = [edge.wall for edge in site.build_ups.retained if edge.area == area]
    trench = sum(wall.trench_m3 for wall in edges if wall is not None) + site.build_ups.area(area).edge_trench_m3
    found += _away(site, area, mine.volumes.cut_m3 + dug + trench)
    if mine.topsoil is not None:
        found.append(_provisional(site, area, mine.topsoil.dig_m3, mine.topsoil.fill_m3))
    return found


def _found_tasks(site: Site, extra: tuple[FoundDig, ...]) -> list[LabourTask]:
    """Return breaking out what was found, digging drains free by hand, and laying them anew where that is asked for."""
    figures, made = site.figures, []
    for each in extra:
        name = site.job.dig_found[each.number].name
        laid_m = each.length_m if each.new_pipe else 0.0
        for kind, words, amount, unit, output in (
            (TaskKind.BREAK_OUT, f"Break out {name}", each.broken_m3, "m³", figures.break_out_h_per_m3),
            (TaskKind.DIG_FREE, f"Dig {name} free by hand", each.dig_m3 if each.by_hand else 0.0, "m³", _by_hand(site)),
            (TaskKind.FOUND_PIPE, f"Lay {name} anew", laid_m, "m", figures.pipe_h_per_m),
        ):
            if amount > 0.0:
                made.append(task(site.job, site.key(kind, each.area, each.number), words, amount, unit, output))
    return made


def _dig_output(site: Site) -> Figure:
    figures = site.figures
    return figures.dig_by_machine_h_per_m3 if site.job.crew.machine_dig else figures.dig_by_hand_h_per_m3


def _per_m3(site: Site, kind: TaskKind, area: str, words: str, amount_m3: float, output: Figure) -> LabourTask:
    return task(site.job, site.key(kind, area), words, amount_m3, "m³", output)


def _away(site: Site, area: str, cut_m3: float) -> list[LabourTask]:
    """Return loading and carrying what was dug."""
    found = []
    if not site.job.crew.machine_dig:
        load = site.figures.load_by_hand_h_per_m3
        found.append(_per_m3(site, TaskKind.LOAD, area, "Load barrows", cut_m3, load))
    way = haul(site.job, site.figures)
    if way.length_mm:
        key = site.key(TaskKind.CART, area)
        words = f"{_moves(way.carrier)} {units.mm_to_m(way.length_mm):.0f} m to the load"
        found.append(task(site.job, key, words, cut_m3, "m³", way.output, way.times))
    return found


def _moves(carrier: Carrier) -> str:
    return "Wheel" if carrier is Carrier.BARROW else "Drive by dumper"


def _provisional(site: Site, area: str, dug: Spread, filled: Spread) -> LabourTask:
    """Return what topsoil of unknown depth takes in labour: dug, loaded, carried and filled; its ends by its depth."""
    way = haul(site.job, site.figures)
    outputs = [(_dig_output(site), 1.0)]
    if not site.job.crew.machine_dig:
        outputs.append((site.figures.load_by_hand_h_per_m3, 1.0))
    if way.length_mm:
        outputs.append((way.output, way.times))
    fill = site.figures.fill_h_per_m3
    each = sum(output.value * times for output, times in outputs)
    key = site.key(TaskKind.TOPSOIL_PROVISIONAL, area)
    words = "Provisional: strip topsoil of unknown depth and fill"
    hours = [
        (cut * each + fill_m3 * fill.value) / site.job.crew.pace
        for cut, fill_m3 in ((dug.likely, filled.likely), (dug.low, filled.low), (dug.high, filled.high))
    ]
    made = task(site.job, key, words, dug.likely, "m³", _dig_output(site))
    said = (
        f"{dug.likely:.2f} m³ × {each:.2f} h/m³ dug, loaded and carried + {filled.likely:.2f} m³ × {fill.value:g} h/m³ "
        f"filled"
    )
    note = f"{hours[1]:.1f} to {hours[2]:.1f} h by the depth that may be expected"
    figures = (*(output for output, _ in outputs), fill)
    working = replace(made.working, expression=said, result=hours[0], figures=figures, note=note)
    return replace(made, person_hours=hours[0], low_hours=hours[1], high_hours=hours[2], working=working)


def carry_in_tasks(site: Site) -> list[LabourTask]:
    """Return loading and carrying in all that is bought, by mass; nothing where the lorry sets down at the work."""
    way = haul(site.job, site.figures)
    kg = carried_kg(site.quantities, site.figures)
    if not way.length_mm or kg <= 0.0:
        return []
    loose = site.figures.loose_stone_kg_per_m3
    barrow = site.figures.barrow_kg
    loose_m3 = kg / loose.value
    runs = "" if way.carrier is Carrier.DUMPER else f", about {kg / barrow.value:.0f} barrows"
    said = f"{kg / units.KG_PER_TONNE:.1f} t"
    load = task(
        site.job,
        site.key(TaskKind.CARRY_IN),
        f"Load {said} to carry in",
        loose_m3,
        "m³",
        site.figures.carry_load_h_per_m3,
    )
    words = f"{_moves(way.carrier)} {said} in over {units.mm_to_m(way.length_mm):.0f} m"
    move = task(site.job, site.key(TaskKind.CARRY_IN, number=1), words, loose_m3, "m³", way.output, way.times)
    note = f"{kg:.0f} kg / {loose.value:g} kg/m³ = {loose_m3:.2f} m³{runs}"
    return [
        replace(each, working=replace(each.working, note=f"{note}; {each.working.note}", figures=(*figures, loose)))
        for each, figures in ((load, load.working.figures), (move, move.working.figures))
    ]


def wall_tasks(site: Site, area: str) -> list[LabourTask]:
    """Return low retaining walls, before what they hold is filled, guards, and trenches for the beds of edges."""
    edges = [edge for edge in site.build_ups.retained if edge.area == area]
    walls = [edge.wall for edge in edges if edge.wall is not None]
    guard = units.mm_to_m(sum(edge.guarded_mm for edge in edges))
    trench, footing = sum(wall.trench_m3 for wall in walls), sum(wall.footing_m3 for wall in walls)
    face = sum(wall.face_m2 for wall in walls)
    return [
        _per_m3(site, TaskKind.WALL_TRENCH, area, "Dig footings of low walls by hand", trench, _by_hand(site)),
        _per_m3(
            site,
            TaskKind.EDGE_TRENCH,
            area,
            "Dig trenches for the beds of edges by hand",
            site.build_ups.area(area).edge_trench_m3,
            _by_hand(site),
        ),
        _per_m3(
            site,
            TaskKind.WALL_FOOTING,
            area,
            "Concrete footings of low walls",
            footing,
            concreting(site),
        ),
        task(site.job, site.key(TaskKind.WALL, area), "Build low walls", face, "m²", site.figures.wall_h_per_m2),
        task(site.job, site.key(TaskKind.GUARD, area), "Set guards at drops", guard, "m", site.figures.guard_h_per_m),
    ]


def _by_hand(site: Site) -> Figure:
    return site.figures.dig_by_hand_h_per_m3


def concreting(site: Site) -> Figure:
    """Return the output of mixing and placing concrete, by a drum or by hand."""
    return site.figures.concrete_h_per_m3 if has_mixer(site.job) else site.figures.concrete_by_hand_h_per_m3


def fill_tasks(site: Site, area: str) -> list[LabourTask]:
    """Return filling under formation in layers."""
    if not site.earthworks.areas:
        return []
    mine = site.earthworks.area(area)
    layers = mine.fill_layers
    soft = sum(each.fill_m3 for each in site.earthworks.found_in(area))
    if layers is None and soft <= 0.0:
        return []
    filled = soft + (mine.volumes.fill_m3 if layers is not None else 0.0)
    count = 0 if layers is None else layers.layers
    among = f" in {count} layer{'s' if count != 1 else ''}" if count else ""
    words = f"Fill under formation{among} and compact each{' layer' if not count else ''}"
    return [_per_m3(site, TaskKind.FILL, area, words, filled, site.figures.fill_h_per_m3)]
