"""Taking-off: everything measured and ordered, in the order of the work."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import Finding, Severity, in_order
from pavewright.geometry import distance
from pavewright.job import MaterialKind
from pavewright.quantities._keys import ItemGroup, ItemKey, ItemKind, of_steps
from pavewright.quantities._materials import Materials
from pavewright.quantities._mixed_packs import pack_item, sold_packs
from pavewright.quantities._need import Need
from pavewright.quantities._order import material_item, unit_item
from pavewright.quantities._types import Item, Quantities
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.buildup import BuildUps
    from pavewright.earthworks import Earthworks
    from pavewright.job import Job
    from pavewright.laying import LayingPlan
    from pavewright.levels import Levels, Steps
    from pavewright.rules import Rulebook
    from pavewright.survey import Survey
    from pavewright.water import Water

_MEASURED = {
    ItemKind.CONCRETE_BASE: (ItemGroup.BASE, "Concrete base, 6 ballast to 1 cement, damp"),
    ItemKind.MORTAR_BED: (ItemGroup.BED, "Mortar bed, 6 sharp sand to 1 cement"),
    ItemKind.EDGE_CONCRETE: (ItemGroup.EDGES, "Concrete to edges and channels, 6 ballast to 1 cement"),
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
    del water
    materials = Materials(job, rules)
    materials.gather(survey, laying, build_ups, earthworks)
    items = _dig_items(job, earthworks)
    items += [_measured(kind, need) for kind, need in materials.volumes.items()]
    numbers = {entered.name: number for number, entered in enumerate(job.steps)}
    items += [_risers(numbers[steps.name], steps) for steps in levels.steps]
    items += [
        _water(need) if key.material is None else material_item(key.material, need, job, rules)
        for key, need in materials.needs.items()
    ]
    items += _movement_joints(job, laying, rules)
    items += _units(job, laying, rules)
    items.sort(key=lambda item: _GROUP_ORDER.index(item.group))
    return Quantities(tuple(items), in_order(_findings(levels, earthworks)))


def _measured(kind: ItemKind, need: Need) -> Item:
    group, words = _MEASURED[kind]
    return _as_needed(ItemKey(kind), group, words, need)


def _water(need: Need) -> Item:
    return _as_needed(ItemKey(ItemKind.WATER), ItemGroup.SUNDRIES, "Water for mixing", need)


def _as_needed(key: ItemKey, group: ItemGroup, words: str, need: Need) -> Item:
    """Return what is needed as an item that is bought in no pack."""
    return Item(
        key=key,
        group=group,
        description=words,
        unit=need.unit,
        net=need.net,
        allowance_percent=need.allowance_percent,
        gross=need.gross,
        ordered=need.gross,
        order_unit=need.unit,
        ordered_amount=need.gross,
        low=need.low if need.low != need.high else None,
        high=need.high if need.low != need.high else None,
        workings=tuple(need.workings),
        kg=None,
    )


def _risers(number: int, steps: Steps) -> Item:
    """Return a flight of steps, measured by the metre of riser."""
    width = units.mm_to_m(distance(steps.start, steps.end))
    amount = steps.risers * width
    return Item(
        key=of_steps(number),
        group=ItemGroup.EDGES,
        description=f"{steps.name}: {steps.risers} risers of {steps.riser_mm:.0f} mm, {width:.2f} m wide",
        unit="m of riser",
        net=amount,
        allowance_percent=0.0,
        gross=amount,
        ordered=amount,
        order_unit="m of riser",
        ordered_amount=amount,
        low=None,
        high=None,
        workings=(Working(f"risers = {steps.risers} × {width:.3f} m", amount, "m of riser"), steps.working),
        kg=None,
    )


def _dig_items(job: Job, earthworks: Earthworks) -> list[Item]:
    """Return the dig and what leaves; nothing where the ground is not known."""
    if not earthworks.areas:
        return []
    dig = Item(
        key=ItemKey(ItemKind.DIG),
        group=ItemGroup.DIG,
        description="Dig to formation, measured in the ground",
        unit="m³",
        net=earthworks.cut_m3,
        allowance_percent=0.0,
        gross=earthworks.cut_m3,
        ordered=earthworks.cut_m3,
        order_unit="m³",
        ordered_amount=earthworks.cut_m3,
        low=None,
        high=None,
        workings=tuple(working for area in earthworks.areas for working in area.workings),
        kg=None,
    )
    loose, disposal = earthworks.loose_m3, job.rates.disposal
    loads = earthworks.loads
    holds = disposal.volume_m3 if disposal is not None else 0.0
    spoil = Item(
        key=ItemKey(ItemKind.SPOIL),
        group=ItemGroup.DIG,
        description="Spoil to leave the site, loose",
        unit="m³",
        net=loose.likely,
        allowance_percent=0.0,
        gross=loose.likely,
        ordered=loads.likely if loads is not None else loose.likely,
        order_unit=f"{disposal.kind} of {holds:g} m³" if disposal is not None else "m³",
        ordered_amount=loads.likely * holds if loads is not None else loose.likely,
        low=loose.low,
        high=loose.high,
        workings=earthworks.workings,
        kg=earthworks.tonnes.likely * units.KG_PER_TONNE,
    )
    return [dig, spoil]


def _units(job: Job, laying: LayingPlan, rules: Rulebook) -> list[Item]:
    """Return mixed packs and paving units; a size that comes in a mixed pack is not counted again by itself."""
    packs = sold_packs(job, laying)
    items = [pack_item(pack, job, rules) for pack in packs]
    packed = {
        (laid.area, name)
        for pack in packs
        for laid in pack.areas
        if laid.mixed is not None
        for name in laid.mixed.units
    }
    for number, unit in enumerate(job.units):
        by_itself = [laid for laid in laying.areas if (laid.area, unit.name) not in packed]
        counts = [count for laid in by_itself for count in laid.by_unit if count.unit == unit.name]
        item = unit_item(number, unit, counts, rules)
        if item is not None:
            items.append(item)
    return items


def _movement_joints(job: Job, laying: LayingPlan, rules: Rulebook) -> list[Item]:
    """Return the movement joints between bays, by the metre; nothing where every area is one bay."""
    jointed = [(laid.area, laid.mixed) for laid in laying.areas if laid.mixed is not None and laid.mixed.bay_joint_m]
    if not jointed:
        return []
    amount = sum(mixed.bay_joint_m for _, mixed in jointed)
    workings = [Working(f"{name}: joints between {mixed.bays} bays", mixed.bay_joint_m, "m") for name, mixed in jointed]
    need = Need("m", amount, amount, amount, amount, workings)
    return [material_item(MaterialKind.MOVEMENT_JOINT, need, job, rules)]


def _findings(levels: Levels, earthworks: Earthworks) -> list[Finding]:
    found = []
    if not earthworks.areas:
        words = (
            "Without spot levels of the ground neither the dig nor what leaves is measured: they are not in the price."
        )
        found.append(Finding("quantities.dig_not_measured", Severity.CHECK, "whole site", words))
    found += [
        Finding(
            "quantities.steps_not_measured",
            Severity.CHECK,
            f"steps {steps.name}",
            f"What the {steps.risers} risers of {steps.name} are built of is not measured: add it to the order.",
        )
        for steps in levels.steps
    ]
    return found
