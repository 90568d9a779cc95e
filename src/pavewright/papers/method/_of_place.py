"""Hazards of the place: services, the dig, vehicles, the public, trees, waste, weather."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.earthworks import Code, Dug, ServiceState
from pavewright.job import AnswerKind, PlantKind, Soil, WalkTopic
from pavewright.papers._words import day, one, source, whole
from pavewright.papers.look import CalloutKind, callout, paragraph, points, rest, right, table
from pavewright.papers.method._section import Section, sources
from pavewright.papers.method._words import STATES, WORDS
from pavewright.survey import WALK_QUESTIONS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job import Tree, WalkRoundAnswer
    from pavewright.method import Method
    from pavewright.papers._figures import PaperFigures
    from pavewright.papers.look import Block
    from pavewright.pipeline import Plan


def services(plan: Plan, found: Method, figures: PaperFigures) -> Section:
    """Return which services the dig comes near, and how deep both lie."""
    placed, near = plan.survey.site.services, plan.earthworks.services_near
    by_hand = found.figures.hand_dig_mm
    asks = [WORDS.ask_records]
    if plan.job.arrangements.clear_height_mm is None:
        asks.append(WORDS.ask_overhead)
    caution = WORDS.by_hand(near=f"{by_hand.value:g}")
    if not placed:
        warned = (callout(CalloutKind.CHECK, WORDS.services_none), points([caution]), sources(figures, by_hand))
        return Section(WORDS.services, WORDS.services_none, warned, tuple(asks))
    rows = []
    for each in near:
        service = placed[each.number].service
        depths = (service.depth_mm, each.dig_mm)
        lies = [WORDS.ask if deep is None else whole(deep) for deep in depths]
        rows.append((service.name, service.kind.value, *lies, STATES[each.state]))
    heads = (rest(WORDS.service), WORDS.what_it_is, right(WORDS.said_deep), right(WORDS.dig_deep), rest(WORDS.state))
    apart = {number: each.service.name for number, each in enumerate(placed)}
    for each in near:
        apart.pop(each.number)
    said = [WORDS.apart(near=f"{by_hand.value:g}", names=", ".join(apart.values()))] if apart else []
    deepless = [each.service.name for each in placed if each.service.depth_mm is None]
    asks += [WORDS.ask_depth(names=", ".join(deepless))] if deepless else []
    states = [each.state for each in near]
    here = WORDS.services_here(
        known=str(len(placed)),
        near=str(len(near)),
        met=str(states.count(ServiceState.MET)),
        unknown=str(states.count(ServiceState.NOT_KNOWN)),
    )
    blocks: tuple[Block, ...] = (
        *([table(heads, rows, type_size=8.5)] if rows else []),
        points([*said, WORDS.other_digs, caution]),
        sources(figures, by_hand),
    )
    return Section(WORDS.services, here, blocks, tuple(asks))


def dig(plan: Plan, found: Method, figures: PaperFigures) -> Section:
    """Return how deep is dug, area by area, and what beside."""
    deep, works = found.figures.deep_dig_mm, plan.earthworks
    rows = []
    for each in works.areas:
        over = each.volumes.deepest_mm > deep.value
        depths = (whole(each.volumes.deepest_mm), whole(each.mean_depth_mm))
        rows.append((each.area, *depths, WORDS.deep if over else WORDS.shallow))
    sizes = [each.size for each in plan.water.pits if each.size is not None]
    pits = [size.depth_mm + size.cover_mm for size in sizes]
    walls = sum(each.code is Code.NEAR_WALL for each in works.findings)
    said = [
        *([WORDS.pits(pits=", ".join(whole(each) for each in pits))] if pits else []),
        *([WORDS.walls(count=str(walls))] if walls else []),
        WORDS.dig_caution,
    ]
    deepest = max([*(each.volumes.deepest_mm for each in works.areas), *pits], default=0.0)
    asks = ([] if works.areas else [WORDS.ask_ground]) + ([WORDS.ask_shoring] if deepest > deep.value else [])
    heads = (rest(WORDS.area), right(WORDS.deepest), right(WORDS.mean), rest(WORDS.sides))
    blocks: list[Block] = [table(heads, rows, type_size=8.5)] if rows else [paragraph(WORDS.dig_unknown)]
    blocks += [points(said), sources(figures, deep)]
    here = WORDS.dig_here(deepest=whole(deepest)) if works.areas else WORDS.dig_unknown
    return Section(WORDS.dig, here, tuple(blocks), tuple(asks))


_DRIVEN = (PlantKind.EXCAVATOR, PlantKind.DUMPER)


def vehicles(plan: Plan, _found: Method, _figures: PaperFigures) -> Section:
    """Return the machines and lorries of the job."""
    machines = [hire.name or hire.key.value.capitalize() for hire in plan.job.rates.plant if hire.key in _DRIVEN]
    days = {each.on for each in plan.programme.deliveries} | {each.on for each in plan.programme.loads}
    lorries = WORDS.one_day if len(days) == 1 else WORDS.days(count=str(len(days)))
    here = WORDS.vehicles_here(machines=", ".join(machines) or WORDS.no_machine, lorries=lorries)
    ready = plan.programme.car_ready
    said = [WORDS.vehicles_caution, *([] if ready is None else [WORDS.car_ready(day=day(ready))])]
    return Section(WORDS.vehicles, here, (points(said),))


def public(_plan: Plan, found: Method, figures: PaperFigures) -> Section:
    """Return what footways and roads lie beside the work."""
    limit = found.figures.public_near_mm
    said = []
    for each in found.public:
        away = one(units.mm_to_m(each.away_mm))
        if each.near:
            near_m = one(units.mm_to_m(limit.value))
            said.append(WORDS.near(name=each.name, away=away, limit=near_m, source=source(limit, figures)))
        else:
            said.append(WORDS.not_near(name=each.name, away=away))
    asks = [WORDS.ask_children]
    if found.public:
        nearest = found.public[0]
        here = WORDS.public_here(name=nearest.name, away=one(units.mm_to_m(nearest.away_mm)))
    else:
        here = WORDS.public_far if found.public_known else WORDS.public_unknown
        asks.append(WORDS.ask_public)
    return Section(WORDS.public, here, (points([*said, WORDS.public_caution]),), tuple(asks))


def trees(plan: Plan, found: Method, figures: PaperFigures) -> Section:
    """Return into whose roots the dig goes."""
    placed, near = plan.survey.site.trees, plan.earthworks.roots_near
    said = [
        WORDS.root(
            name=placed[each.number].tree.name,
            away=units.metres_text(each.away_mm),
            reach=units.metres_text(each.reach_mm),
            law=_law(placed[each.number].tree),
        )
        for each in near
    ]
    unasked = [each.tree.name for each in placed if each.tree.protected is None]
    looked = _no_trees_said(plan.job.site.walk_round)
    here = WORDS.trees_none if looked else WORDS.trees_not_asked
    if placed:
        here = WORDS.trees_here(near=str(len(near)), known=str(len(placed)))
    asks = [
        *([WORDS.ask_trees(names=", ".join(unasked))] if unasked else []),
        *([] if placed or looked else [WORDS.ask_any_trees]),
    ]
    blocks = (points([*said, WORDS.trees_caution]), sources(figures, found.figures.root_times_stem))
    return Section(WORDS.trees, here, blocks, tuple(asks))


def _no_trees_said(answers: Sequence[WalkRoundAnswer]) -> bool:
    """Return whether somebody looked for trees and found none: every answer to that question says so."""
    asked = {each.words for each in WALK_QUESTIONS if each.topic is WalkTopic.TREES}
    said = {
        each.answer
        for each in answers
        if each.topic is WalkTopic.TREES or (each.topic is None and each.question in asked)
    }
    return said == {AnswerKind.NONE}


def _law(tree: Tree) -> str:
    return {True: WORDS.protected, False: WORDS.unprotected, None: WORDS.law_unknown}[tree.protected]


def waste(plan: Plan, _found: Method, _figures: PaperFigures) -> Section:
    """Return what leaves, and what may lie in it."""
    works = plan.earthworks
    if works.areas:
        loads = works.loads
        often = WORDS.no_loads if loads is None else WORDS.loads(low=whole(loads.low), high=whole(loads.high))
        here = WORDS.waste_here(loads=often, tonnes=f"{one(works.tonnes.low)} to {one(works.tonnes.high)}")
    else:
        here = WORDS.waste_unknown
    made = any(each.soil is Dug.MADE_GROUND for each in works.soils)
    unknown = plan.job.site.ground.soil in {None, Soil.UNKNOWN}
    said = [
        *([WORDS.made_ground] if made else []),
        *([WORDS.soil_unknown] if unknown else []),
        WORDS.waste_caution,
    ]
    asks = [*([WORDS.ask_soil] if unknown else []), *([WORDS.ask_leaves] if works.loads is None else [])]
    return Section(WORDS.waste, here, (points(said),), tuple(asks))


def weather(plan: Plan, found: Method, figures: PaperFigures) -> Section:
    """Return when the work is done, and what cold, rain and heat stop."""
    stopped, coldest = sum(task.weather for task in plan.programme.tasks), found.figures.min_temperature_c
    here = WORDS.weather_here(
        start=day(plan.programme.start),
        finish=day(plan.programme.finish),
        tasks=WORDS.task_one if stopped == 1 else WORDS.tasks(count=str(stopped)),
    )
    blocks = (points([WORDS.weather_caution(coldest=f"{coldest.value:g}")]), sources(figures, coldest))
    return Section(WORDS.weather, here, blocks)
