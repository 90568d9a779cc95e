"""The work of a job in person-hours."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright.buildup import LayerKey
from pavewright.cost._drain_tasks import drain_tasks
from pavewright.cost._figures import cost_figures
from pavewright.cost._ground_tasks import carry_in_tasks, concreting, dig_tasks, fill_tasks, wall_tasks
from pavewright.cost._keys import TaskKind
from pavewright.cost._own_outputs import with_own
from pavewright.cost._plant import has_mixer
from pavewright.cost._site import Site
from pavewright.cost._tasks import on_sand, task
from pavewright.cost._types import WorkLayer
from pavewright.earthworks import layers_in_words
from pavewright.job import EdgeRestraint, Pattern, UnitKind
from pavewright.quantities import edge_lengths, layer_volumes, of_steps

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from pavewright.buildup import BuildUps
    from pavewright.cost._types import LabourTask
    from pavewright.earthworks import Earthworks, LayerCompaction
    from pavewright.job import Job
    from pavewright.laying import LaidArea, LayingPlan
    from pavewright.quantities import Quantities
    from pavewright.rules import Figure, Rulebook
    from pavewright.survey import PlanArea, Survey
    from pavewright.water import Water

_BY_EDGE = {
    EdgeRestraint.KERB: TaskKind.EDGES_KERB,
    EdgeRestraint.EDGING: TaskKind.EDGES_EDGING,
    EdgeRestraint.HAUNCH: TaskKind.EDGES_HAUNCH,
}
_LAY_WORDS = {
    TaskKind.LAY_BORDER: "Bed and lay the border",
    TaskKind.LAY_ZONE: "Bed and lay what is laid otherwise",
    TaskKind.LAY: "Bed and lay",
}
"""Laying in its order: borders first, then zones laid otherwise, the field last."""


def labour(
    job: Job,
    survey: Survey,
    laying: LayingPlan,
    build_ups: BuildUps,
    earthworks: Earthworks,
    water: Water,
    quantities: Quantities,
    rules: Rulebook,
) -> tuple[LabourTask, ...]:
    """Return the work in the order in which it is done, area by area."""
    figures = with_own(cost_figures(rules), job.crew.outputs)
    site = Site(job, survey, laying, build_ups, earthworks, quantities, figures)
    found: list[LabourTask] = []
    for number, area in enumerate(survey.site.areas):
        found.append(
            task(site.job, site.key(TaskKind.SET_OUT, area.name), "Set out", 1.0, "area", site.figures.set_out_h)
        )
        found += dig_tasks(site, area.name)
        if number == 0:
            found += [*carry_in_tasks(site), *drain_tasks(job, survey, water, figures)]
        found += [*wall_tasks(site, area.name), *fill_tasks(site, area.name)]
        found += _layers(site, area)
        found += _edges(site, area)
        found += _laying(site, laying.area(area.name), area)
        found += _steps(site, area.name)
        found.append(
            task(
                site.job,
                site.key(TaskKind.CLEAR, area.name),
                "Clean down and clear away",
                1.0,
                "area",
                site.figures.clear_h,
            )
        )
    return tuple(each for each in found if each.person_hours > 0.0)


_STONE = frozenset({LayerKey.SUB_BASE, LayerKey.CAPPING})


def _layers(site: Site, area: PlanArea) -> list[LabourTask]:
    found = []
    volumes = layer_volumes(area, site.build_ups.area(area.name))
    stone = [each for each in volumes if each.layer.key in _STONE]
    if stone:
        capped = any(each.layer.key is LayerKey.CAPPING for each in stone)
        words = "Spread and compact capping and sub-base" if capped else "Spread and compact sub-base"
        volume, out = sum(each.volume_m3 for each in stone), site.figures.sub_base_h_per_m3
        made = task(site.job, site.key(TaskKind.SUB_BASE, area.name), words, volume, "m³", out)
        found.append(_in_layers(site, area.name, made, {each.layer.key: each.volume_m3 for each in stone}))
    for each in volumes:
        if each.layer.key is LayerKey.BASE:
            drum = has_mixer(site.job)
            words = "Mix and place concrete base" if drum else "Mix by hand and place concrete base"
            out = concreting(site)
            found.append(task(site.job, site.key(TaskKind.BASE, area.name), words, each.volume_m3, "m³", out))
    return found


def _in_layers(site: Site, area: str, made: LabourTask, volumes_m3: Mapping[LayerKey, float]) -> LabourTask:
    """Return the work on stone with the layers in which it goes in: how many in its words, the rest with its sum."""
    courses = site.earthworks.compacted(area)
    count = sum(each.layers.layers for each in courses)
    said = "; ".join(f"{each.layer.words}: {layers_in_words(each.layers)}" for each in courses)
    note = "; ".join(part for part in (made.working.note, said) if part)
    words = f"{made.description} in {count} layer{'s' if count != 1 else ''}"
    layers = tuple(_work_layers(courses, volumes_m3)) if count > 1 else ()
    return replace(made, description=words, working=replace(made.working, note=note), layers=layers)


def _work_layers(courses: Sequence[LayerCompaction], volumes_m3: Mapping[LayerKey, float]) -> Iterator[WorkLayer]:
    """Give the layers of all courses from the bottom, each with its part of the volume."""
    whole = sum(volumes_m3[each.layer] for each in courses)
    for course in reversed(courses):
        layers = course.layers
        each_m3 = volumes_m3[course.layer] / layers.layers
        for number in range(1, layers.layers + 1):
            yield WorkLayer(course.layer, number, layers.layers, layers.layer_mm, each_m3 / whole)


def _edges(site: Site, area: PlanArea) -> list[LabourTask]:
    outputs = {
        EdgeRestraint.KERB: site.figures.kerb_h_per_m,
        EdgeRestraint.EDGING: site.figures.edging_h_per_m,
        EdgeRestraint.HAUNCH: site.figures.haunch_h_per_m,
    }
    found = []
    for restraint, length in edge_lengths(area).items():
        if restraint in _BY_EDGE:
            key = site.key(_BY_EDGE[restraint], area.name)
            found.append(task(site.job, key, f"Set {restraint.value}", length, "m", outputs[restraint]))
    return found


def _laying(site: Site, laid: LaidArea, area: PlanArea) -> list[LabourTask]:
    """Return cutting, laying by what is laid and how, and pointing; a border is kept apart from the field."""
    sand = on_sand(area.area)
    paved = laid.paved_m2 + laid.joint_m2
    point = site.figures.joint_sand_h_per_m2 if sand else site.figures.point_h_per_m2
    return [
        task(
            site.job,
            site.key(TaskKind.CUT, area.name),
            "Mark and cut pieces",
            float(laid.cuts),
            "pieces",
            site.figures.cut_h_each,
        ),
        *_lay_tasks(site, laid, paved / laid.paved_m2 if laid.paved_m2 else 1.0),
        task(
            site.job,
            site.key(TaskKind.POINT, area.name),
            "Fill joints with sand" if sand else "Point",
            paved,
            "m²",
            point,
        ),
    ]


def _lay_tasks(site: Site, laid: LaidArea, with_joints: float) -> list[LabourTask]:
    """Return laying by place and output: borders first, then zones laid otherwise, the field last."""
    patterns = {zone.name: zone.pattern for zone in laid.zones}
    field = _lay_output(site, laid.unit, laid.pattern)
    slots: dict[tuple[TaskKind, Figure], int] = {}
    slot_of: dict[tuple[str, str, bool], int] = {}
    sums: list[float] = []
    for piece in laid.pieces:
        alike = piece.unit, piece.zone, piece.border
        if alike not in slot_of:
            pattern = patterns[piece.zone] if piece.zone else laid.pattern
            output = _lay_output(site, piece.unit, None if piece.border else pattern)
            kind = TaskKind.LAY_BORDER if piece.border else TaskKind.LAY if output == field else TaskKind.LAY_ZONE
            slot_of[alike] = slots.setdefault((kind, output), len(slots))
            sums += [0.0] * (len(slots) - len(sums))
        sums[slot_of[alike]] += piece.area_m2 * with_joints
    amounts = {lay_as: sums[slot] for lay_as, slot in slots.items()}
    found = []
    for kind, words in _LAY_WORDS.items():
        outputs = sorted((output for of, output in amounts if of is kind), key=lambda output: output.key)
        for number, output in enumerate(outputs):
            key = site.key(kind, laid.area, number)
            found.append(task(site.job, key, words, amounts[kind, output], "m²", output))
    return found


def _lay_output(site: Site, unit: str, pattern: str | None) -> Figure:
    """Return the output by which a unit is laid in a pattern; a border is laid in none."""
    if site.job.unit(unit).kind is UnitKind.FLAG:
        return site.figures.lay_flags_h_per_m2
    own = site.figures.lay_own.get(Pattern(pattern)) if pattern is not None else None
    return own if own is not None else site.figures.lay_blocks_h_per_m2


def _steps(site: Site, area: str) -> list[LabourTask]:
    found = []
    for number, entered in enumerate(site.job.steps):
        if entered.upper_area == area:
            amount = site.quantities.item(of_steps(number)).net
            key = site.key(TaskKind.STEPS, area, number)
            out = site.figures.riser_h_per_m
            found.append(task(site.job, key, f"Build {entered.name}", amount, "m of riser", out))
    return found
