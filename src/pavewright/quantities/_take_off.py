"""Taking-off: everything measured and ordered, in the order of the work."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import Finding, Severity, in_order
from pavewright.geometry import distance
from pavewright.job import MaterialKind
from pavewright.quantities import _words as words
from pavewright.quantities._assemblies import (
    deep_pits,
    drain_gaps,
    gather_drains,
    gather_steps,
    pit_spoil,
    taken_as_new,
)
from pavewright.quantities._beside import beside_drawn
from pavewright.quantities._codes import Code
from pavewright.quantities._counted_by import counts
from pavewright.quantities._dig_items import dig_gap, dig_items, pit_items
from pavewright.quantities._dimensions import Dimension, Drawn
from pavewright.quantities._figures import quantity_figures
from pavewright.quantities._fills import gather_fill
from pavewright.quantities._flights import flight_parts
from pavewright.quantities._ground_gaps import ground_gaps
from pavewright.quantities._keys import ItemGroup, ItemKey, ItemKind, Measure, of_steps
from pavewright.quantities._materials import Materials
from pavewright.quantities._mixed_packs import pack_item, sold_packs
from pavewright.quantities._need import Need
from pavewright.quantities._order import material_item, unit_item
from pavewright.quantities._provisional import engineered_walls, provisional_items
from pavewright.quantities._scope import Gap, GapReason, ScopeKey, ScopeKind, in_reading_order
from pavewright.quantities._sold_as import by_measure
from pavewright.quantities._types import Item, Quantities
from pavewright.sums import Working
from pavewright.water import pipe_bed_m3_per_m, water_figures

if TYPE_CHECKING:
    from pavewright.buildup import BuildUps
    from pavewright.earthworks import Earthworks
    from pavewright.job import Job
    from pavewright.laying import LaidArea, LayingPlan
    from pavewright.levels import Levels, Steps
    from pavewright.quantities._figures import QuantityFigures
    from pavewright.rules import Rulebook
    from pavewright.survey import Survey
    from pavewright.water import Water

_MEASURED = {
    ItemKind.FILL: (ItemGroup.DIG, "Fill under formation in layers, compacted"),
    ItemKind.WALL_TRENCH: (ItemGroup.EDGES, "Trench for footings of low retaining walls"),
    ItemKind.WALL_FOOTING: (ItemGroup.EDGES, "Concrete footings of low retaining walls, 6 ballast to 1 cement"),
    ItemKind.EDGE_TRENCH: (ItemGroup.EDGES, "Trench for the beds of kerbs and edgings, below formation"),
    ItemKind.CONCRETE_BASE: (ItemGroup.BASE, "Concrete base, 6 ballast to 1 cement, damp"),
    ItemKind.MORTAR_BED: (ItemGroup.BED, "Mortar bed, 6 sharp sand to 1 cement"),
    ItemKind.EDGE_CONCRETE: (ItemGroup.EDGES, "Concrete to edges, channels and gullies, 6 ballast to 1 cement"),
    ItemKind.STEP_CONCRETE: (ItemGroup.EDGES, "Concrete under steps, 6 ballast to 1 cement"),
    ItemKind.POINTING: (ItemGroup.JOINTS, "Pointing mortar, 3 soft sand to 1 cement with plasticiser"),
}
_GROUP_ORDER = tuple(ItemGroup)


def take_off(
    job: Job,
    survey: Survey,
    levels: Levels,
    laying: LayingPlan,
    build_ups: BuildUps,
    earthworks: Earthworks,
    water: Water,
    rules: Rulebook,
) -> Quantities:
    """Return every measured item: net, allowance, with allowance, and what is ordered."""
    figures = quantity_figures(rules)
    materials = Materials(job, figures)
    materials.gather_layers(survey, laying, build_ups)
    gather_fill(materials, earthworks)
    materials.gather_edges(survey, laying, build_ups)
    gather_drains(materials, job, survey, water, pipe_bed_m3_per_m(water_figures(rules)))
    flights = flight_parts(levels, laying, build_ups, figures)
    gather_steps(materials, job, flights, levels)
    pit = pit_spoil(job, earthworks, water, rules)
    mixing = materials.needs.get(ItemKey(ItemKind.WATER))
    counted = counts(job, survey, laying, flights, earthworks, water, pit, mixing)
    beside, asked = beside_drawn(job, rules, counted, materials)
    items = [*dig_items(job, earthworks), *pit_items(job, pit, water)]
    items += [*provisional_items(job, earthworks, figures), *engineered_walls(survey, build_ups)]
    items += [_measured(kind, need) for kind, need in materials.volumes.items()]
    numbers = {entered.name: number for number, entered in enumerate(job.steps)}
    items += [_risers(numbers[steps.name], steps) for steps in levels.steps]
    items += [
        _water(need) if key.material is None else material_item(key.material, need, job, figures)
        for key, need in materials.needs.items()
    ]
    items += _movement_joints(job, laying, figures)
    items += [*_units(job, laying, figures), *beside]
    items.sort(key=lambda item: _GROUP_ORDER.index(item.group))
    drains = tuple(drain_gaps(job, water))
    gaps = (*dig_gap(earthworks), *drains, *ground_gaps(survey, build_ups), *asked)
    return Quantities(
        tuple(items),
        in_order([*_findings(earthworks, drains), *deep_pits(job, water, figures), *taken_as_new(water)]),
        gaps,
        pit,
        flights,
    )


def take_off_units(job: Job, laying: LayingPlan, rules: Rulebook) -> Quantities:
    """Return the paving units and movement joints alone, where nothing is known of what lies under them."""
    figures = quantity_figures(rules)
    items = [*_units(job, laying, figures), *_movement_joints(job, laying, figures)]
    items.sort(key=lambda item: _GROUP_ORDER.index(item.group))
    scope = tuple(ScopeKey(ScopeKind.PAVING, number) for number, _ in enumerate(job.areas))
    gap = Gap(scope, GapReason.NOT_MEASURED, words.units_alone())
    return Quantities(tuple(items), (), (gap,))


def _measured(kind: ItemKind, need: Need) -> Item:
    group, name = _MEASURED[kind]
    return _as_needed(ItemKey(kind), group, name, need)


def _water(need: Need) -> Item:
    return _as_needed(ItemKey(ItemKind.WATER), ItemGroup.SUNDRIES, "Water for mixing", need)


def _as_needed(key: ItemKey, group: ItemGroup, description: str, need: Need) -> Item:
    """Return what is needed as an item that is bought in no pack."""
    return Item(
        key=key,
        group=group,
        description=description,
        unit=need.unit,
        net=need.net,
        allowance_percent=need.allowance_percent,
        gross=need.gross,
        ordered=need.gross,
        sold_as=by_measure(need.unit),
        ordered_amount=need.gross,
        low=need.low if need.low != need.high else None,
        high=need.high if need.low != need.high else None,
        workings=tuple(need.workings),
        kg=None,
        scope=in_reading_order(frozenset(need.scope)),
        dimensions=tuple(need.lines),
    )


def _risers(number: int, steps: Steps) -> Item:
    """Return a flight of steps, measured by the metre of riser."""
    width = units.mm_to_m(distance(steps.start, steps.end))
    amount = steps.risers * width
    scope = ScopeKey(ScopeKind.STEPS, number)
    return Item(
        key=of_steps(number),
        group=ItemGroup.EDGES,
        description=f"{steps.name}: {steps.risers} risers of {steps.riser_mm:.0f} mm, {width:.2f} m wide",
        unit=Measure.RISER,
        net=amount,
        allowance_percent=0.0,
        gross=amount,
        ordered=amount,
        sold_as=by_measure(Measure.RISER),
        ordered_amount=amount,
        low=None,
        high=None,
        workings=(Working(f"risers = {steps.risers} × {width:.3f} m", amount, "m of riser"), steps.working),
        kg=None,
        scope=(scope,),
        dimensions=(
            Dimension(steps.name, Drawn.STEPS, scope, times=float(steps.risers), length_m=width, amount=amount),
        ),
    )


def _units(job: Job, laying: LayingPlan, figures: QuantityFigures) -> list[Item]:
    """Return mixed packs and paving units; a size that comes in a mixed pack is not counted again by itself."""
    packs = sold_packs(job, laying)
    items = [pack_item(pack, job, figures) for pack in packs]
    packed = {
        (laid.area, name)
        for pack in packs
        for laid in pack.areas
        if laid.mixed is not None
        for name in laid.mixed.units
    }
    for number, unit in enumerate(job.units):
        by_itself = [
            (ScopeKey(ScopeKind.PAVING, place), laid.area, count)
            for place, laid in enumerate(laying.areas)
            if (laid.area, unit.name) not in packed
            for count in laid.by_unit
            if count.unit == unit.name
        ]
        item = unit_item(number, unit, by_itself, figures)
        if item is not None:
            items.append(item)
    return items


def _movement_joints(job: Job, laying: LayingPlan, figures: QuantityFigures) -> list[Item]:
    """Return the movement joints, by the metre, those that the plan could not place among them; nothing where none."""
    jointed = [(place, laid) for place, laid in enumerate(laying.areas) if laid.movement.total_m]
    if not jointed:
        return []
    amount = sum(laid.movement.total_m for _, laid in jointed)
    workings = [
        Working(f"{laid.area}: {which}", metres, "m") for _, laid in jointed for which, metres in _joint_lengths(laid)
    ]
    scope = {ScopeKey(ScopeKind.PAVING, place) for place, _ in jointed}
    need = Need(Measure.METRE, amount, amount, amount, amount, workings, scope)
    need.lines += [
        Dimension(f"{laid.area}: {which}", Drawn.LAYING, ScopeKey(ScopeKind.PAVING, place), length_m=m, amount=m)
        for place, laid in jointed
        for which, m in _joint_lengths(laid)
    ]
    return [material_item(MaterialKind.MOVEMENT_JOINT, need, job, figures)]


def _joint_lengths(laid: LaidArea) -> list[tuple[str, float]]:
    """Return the lengths of movement joint in an area, by where they run. [m]."""
    lengths = (
        ("drawn on the laying plan", laid.movement.placed_m),
        ("not drawn, no straight joint", laid.movement.unplaced_m),
        ("along walls and round what is fixed", laid.movement.edge_m),
    )
    return [each for each in lengths if each[1]]


def _findings(earthworks: Earthworks, gaps: tuple[Gap, ...]) -> list[Finding]:
    found = []
    if not earthworks.areas:
        found.append(Finding(Code.DIG_NOT_MEASURED, Severity.CHECK, "whole site", words.dig_not_measured()))
    for gap in gaps:
        if gap.reason is GapReason.NOT_KNOWN:
            said, options = words.not_in_price(gap.words)
            found.append(Finding(Code.NOT_IN_PRICE, Severity.CHECK, "price", said, options=options))
    return found
