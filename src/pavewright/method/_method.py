"""The method of a job, out of what the other rooms know."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shapely.geometry import LineString

from pavewright.cost import HireKey
from pavewright.job import Beyond, MaterialKind, Neighbour, PlantKind
from pavewright.method._dust import dust
from pavewright.method._figures import method_figures
from pavewright.method._lifting import lift_way, two_kg
from pavewright.method._rate import lift_rate
from pavewright.method._tools import tools
from pavewright.method._types import Lifted, LiftPlan, Method, PublicEdge
from pavewright.quantities import Holder, ItemKind, Measure, of_unit

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from pavewright.buildup import BuildUps
    from pavewright.cost import LabourTask
    from pavewright.job import Job
    from pavewright.laying import LayingPlan
    from pavewright.method._figures import MethodFigures
    from pavewright.programme import Programme
    from pavewright.quantities import Item, Quantities
    from pavewright.rules import Rulebook
    from pavewright.survey import SitePlan


def method(
    job: Job,
    site: SitePlan,
    laying: LayingPlan,
    build_ups: BuildUps,
    quantities: Quantities,
    labour: Iterable[LabourTask],
    programme: Programme,
    rules: Rulebook,
) -> Method:
    """Return what the work does to people, and how near it comes to what hurts them.

    Args:
        job: The job, with its plant.
        site: The site in plan.
        laying: Every piece with its mass.
        build_ups: What is dug, in plan.
        quantities: What is ordered.
        labour: Work with the plant that it needs.
        programme: Tasks with their dates.
        rules: The rulebook.
    """
    figures = method_figures(rules)
    found = dust(job, laying, programme, figures)
    public = _public(site, build_ups, figures)
    items = quantities.items
    return Method(
        lifts=_lift_plan(job, quantities, figures),
        rate=lift_rate(job, laying, programme, figures),
        dust=found,
        tools=tools(job, labour, programme, found, figures),
        public=public,
        public_known=bool(site.boundaries) or any(tie.beyond is not Beyond.NOT_KNOWN for tie in site.tie_ins),
        cement_kg=sum(item.kg or 0.0 for item in items if item.key.material in _CEMENT),
        wet_mixes=any(item.key.kind in _WET or item.key.material in _CEMENT for item in items),
        figures=figures,
    )


_CEMENT = frozenset({MaterialKind.CEMENT, MaterialKind.BOND_COAT})
_WET = frozenset({
    *(ItemKind.MORTAR_BED, ItemKind.POINTING, ItemKind.CONCRETE_BASE, ItemKind.EDGE_CONCRETE),
    *(ItemKind.STEP_CONCRETE, ItemKind.WALL_FOOTING),
})  # fmt: skip


def lift_plan(job: Job, quantities: Quantities, rules: Rulebook) -> LiftPlan:
    """Return what is lifted on a job, and the guideline weights by which it is sorted."""
    return _lift_plan(job, quantities, method_figures(rules))


def _lift_plan(job: Job, quantities: Quantities, figures: MethodFigures) -> LiftPlan:
    things = [*_items(job, quantities, figures), *_plant(job, figures)]
    things.sort(key=lambda each: (each.kg is None, -(each.kg or 0.0)))
    return LiftPlan(tuple(things), figures.one_person_kg, two_kg(figures))


def _items(job: Job, quantities: Quantities, figures: MethodFigures) -> Iterator[Lifted]:
    numbers = {unit.name: number for number, unit in enumerate(job.units)}
    for item in quantities.items:
        if not item.key.bought or item.key.apart or item.key.kind in _LEAVES or item.ordered <= 0.0:
            continue
        if item.key.kind is ItemKind.UNITS:
            kg = job.units[item.key.number].kg_each
            yield Lifted(item.key, item.description, "unit", kg, item.ordered_amount, lift_way(kg, figures))
        elif item.key.kind is ItemKind.MIXED_PACK:
            for each in item.holds:
                unit = job.unit(each.unit)
                way = lift_way(unit.kg_each, figures)
                yield Lifted(of_unit(numbers[each.unit]), each.unit, "unit", unit.kg_each, float(each.ordered), way)
        elif item.sold_as.holder not in _TIPPED:
            yield _packed(item, figures)


_LEAVES = frozenset({ItemKind.SPOIL, ItemKind.PIT_SPOIL})
_TIPPED = frozenset({Holder.LOAD, Holder.LOOSE})
"""What is tipped or runs out of a roll is not lifted in one piece."""
_BY_THE_PIECE = frozenset({Measure.EACH, Measure.METRE, Measure.M2})
"""Packs that hold several pieces: what one piece weighs does not follow from the pack."""


def _packed(item: Item, figures: MethodFigures) -> Lifted:
    """Return what of an item is lifted in one piece: a bag, a pack, or a single piece whose weight nobody entered."""
    several = item.sold_as.holder is Holder.PACK and item.unit in _BY_THE_PIECE
    kg = None if item.kg is None or several else item.kg / item.ordered
    if several:
        return Lifted(item.key, item.description, f"out of a {item.sold_as.one}", None, None, lift_way(None, figures))
    return Lifted(item.key, item.description, item.sold_as.one, kg, item.ordered, lift_way(kg, figures))


_CARRIED = frozenset({PlantKind.PLATE, PlantKind.MIXER, PlantKind.SAW, PlantKind.SPLITTER, PlantKind.BREAKER})


def _plant(job: Job, figures: MethodFigures) -> Iterator[Lifted]:
    for number, hire in enumerate(job.rates.plant):
        if hire.key in _CARRIED:
            name = hire.name or hire.key.value.capitalize()
            key = HireKey(hire.key, number)
            yield Lifted(key, name, "machine", hire.kg_each, 1.0, lift_way(hire.kg_each, figures))


def _public(site: SitePlan, build_ups: BuildUps, figures: MethodFigures) -> tuple[PublicEdge, ...]:
    """Return the footways and roads on the plan, nearest first."""
    edges = [(each.name, each.start, each.end) for each in site.boundaries if each.neighbour is Neighbour.HIGHWAY]
    edges += [(each.name, each.start, each.end) for each in site.tie_ins if each.beyond is Beyond.HIGHWAY]
    found = []
    for name, start, end in edges:
        line = LineString([start, end])
        away = min((up.dig_shape.polygon.distance(line) for up in build_ups.areas), default=None)
        if away is not None:
            found.append(PublicEdge(name, float(away), away < figures.public_near_mm.value))
    return tuple(sorted(found, key=lambda each: each.away_mm))
