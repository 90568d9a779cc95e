"""From what is needed to what is ordered: whole packs, bags, loads."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job import MaterialKind, PackUnit
from pavewright.quantities._amounts import packs_ordered, whole, with_allowance
from pavewright.quantities._dimensions import Drawn, counted
from pavewright.quantities._keys import ItemGroup, Measure, of_material, of_unit
from pavewright.quantities._loose_sand import delivered_kg_per_m3
from pavewright.quantities._scope import in_reading_order
from pavewright.quantities._sold_as import Holder, SoldAs, by_measure, holding
from pavewright.quantities._spares import spares_for
from pavewright.quantities._types import Item
from pavewright.sums import Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job import Job, Material, Mixes, PavingUnit
    from pavewright.laying import UnitCount
    from pavewright.quantities._dimensions import Dimension
    from pavewright.quantities._figures import QuantityFigures
    from pavewright.quantities._need import Need
    from pavewright.quantities._scope import ScopeKey

MEASURES = {
    PackUnit.KG: Measure.KG,
    PackUnit.M2: Measure.M2,
    PackUnit.M: Measure.METRE,
    PackUnit.M3: Measure.M3,
    PackUnit.LITRE: Measure.LITRE,
    PackUnit.EACH: Measure.EACH,
}
"""What an amount is measured in, by the unit of a pack."""
_WORDS: dict[MaterialKind, tuple[ItemGroup, str]] = {
    MaterialKind.CEMENT: (ItemGroup.BASE, "Cement"),
    MaterialKind.SHARP_SAND: (ItemGroup.BED, "Sharp sand"),
    MaterialKind.SOFT_SAND: (ItemGroup.JOINTS, "Soft sand"),
    MaterialKind.BALLAST: (ItemGroup.BASE, "All-in ballast"),
    MaterialKind.SUB_BASE: (ItemGroup.BASE, "Graded stone for sub-base"),
    MaterialKind.CAPPING: (ItemGroup.BASE, "Capping"),
    MaterialKind.OPEN_STONE: (ItemGroup.BASE, "Open stone, 4 to 20 mm without fines"),
    MaterialKind.GRIT: (ItemGroup.BED, "Clean grit, 2 to 6.3 mm"),
    MaterialKind.BLINDING_SAND: (ItemGroup.BASE, "Blinding sand"),
    MaterialKind.JOINT_SAND: (ItemGroup.JOINTS, "Dry jointing sand"),
    MaterialKind.GEOTEXTILE: (ItemGroup.BASE, "Geotextile"),
    MaterialKind.EDGING: (ItemGroup.EDGES, "Edging"),
    MaterialKind.KERB: (ItemGroup.EDGES, "Kerb"),
    MaterialKind.PLASTICISER: (ItemGroup.JOINTS, "Plasticiser"),
    MaterialKind.BOND_COAT: (ItemGroup.BED, "Bond coat"),
    MaterialKind.TOPSOIL: (ItemGroup.SUNDRIES, "Topsoil"),
    MaterialKind.CHANNEL: (ItemGroup.DRAINAGE, "Channel"),
    MaterialKind.CHANNEL_END: (ItemGroup.DRAINAGE, "Closed end of a channel"),
    MaterialKind.CHANNEL_OUTLET: (ItemGroup.DRAINAGE, "Outlet of a channel"),
    MaterialKind.GULLY: (ItemGroup.DRAINAGE, "Trapped gully pot"),
    MaterialKind.GRATING: (ItemGroup.DRAINAGE, "Grating with frame"),
    MaterialKind.PIPE: (ItemGroup.DRAINAGE, "Solid drain pipe"),
    MaterialKind.PIPE_BEND: (ItemGroup.DRAINAGE, "Bend of drain pipe"),
    MaterialKind.PIPE_GRAVEL: (ItemGroup.DRAINAGE, "Gravel round drain pipe"),
    MaterialKind.PERFORATED_PIPE: (ItemGroup.DRAINAGE, "Perforated pipe"),
    MaterialKind.SILT_TRAP: (ItemGroup.DRAINAGE, "Silt trap"),
    MaterialKind.SOAKAWAY_STONE: (ItemGroup.DRAINAGE, "Clean stone for the soakaway"),
    MaterialKind.SOAKAWAY_CRATES: (ItemGroup.DRAINAGE, "Crates for the soakaway"),
    MaterialKind.STEP_UNIT: (ItemGroup.EDGES, "Units of riser and tread"),
    MaterialKind.MEMBRANE: (ItemGroup.BASE, "Membrane"),
    MaterialKind.MOVEMENT_JOINT: (ItemGroup.JOINTS, "Movement joint"),
    MaterialKind.WALLING: (ItemGroup.EDGES, "Blocks or bricks for low retaining walls, by the face"),
    MaterialKind.DRAIN_STONE: (ItemGroup.EDGES, "Clean stone behind low retaining walls"),
    MaterialKind.GUARD: (ItemGroup.EDGES, "Guard at a drop"),
}
"""Group and name of every material."""


def material_item(material: MaterialKind, need: Need, job: Job, figures: QuantityFigures) -> Item:
    """Return a material as an item, ordered as the job prices it."""
    priced = next((each for each in job.rates.materials if each.key is material), None)
    pack, sold = _pack(material, need.unit, priced, figures, job.mixes)
    group, words = _WORDS[material]
    fewest = priced.min_packs if priced is not None else None
    ordered = packs_ordered(need.gross, pack, fewest) if pack is not None else need.gross
    amount = ordered * pack if pack is not None else need.gross
    return Item(
        key=of_material(material),
        group=group,
        description=(priced.name if priced is not None and priced.name else words),
        unit=need.unit,
        net=need.net,
        allowance_percent=need.allowance_percent,
        gross=need.gross,
        ordered=float(ordered),
        sold_as=sold,
        ordered_amount=amount,
        low=need.low if need.low != need.high else None,
        high=need.high if need.low != need.high else None,
        workings=tuple(need.workings),
        kg=amount if need.unit is Measure.KG else None,
        scope=in_reading_order(frozenset(need.scope)),
        dimensions=tuple(need.lines),
    )


def packed(material: MaterialKind, unit: Measure, job: Job, figures: QuantityFigures) -> tuple[float | None, SoldAs]:
    """Return what one pack of a material holds, as the job prices it, and how it is called; None where it is loose."""
    priced = next((each for each in job.rates.materials if each.key is material), None)
    return _pack(material, unit, priced, figures, job.mixes)


def pack_fits(priced: Material, unit: Measure) -> bool:
    """Return whether a pack says how much of a need it holds: the length of a piece, say, where metres are needed.

    Args:
        priced: The material as it is bought.
        unit: Unit in which it is needed.
    """
    if MEASURES[priced.pack_unit] is unit:
        return True
    if priced.pack_unit is PackUnit.M3:
        return unit is Measure.KG
    return priced.pack_unit is PackUnit.EACH and unit is Measure.METRE and priced.length_mm is not None


def _pack(
    material: MaterialKind, unit: Measure, priced: Material | None, figures: QuantityFigures, mixes: Mixes
) -> tuple[float | None, SoldAs]:
    """Return what one pack holds in the unit of the need, and how it is called; None where that is not known."""
    if priced is None:
        bag = figures.cement_bag_kg
        return (
            (bag.value, SoldAs(Holder.BAG, f"{bag.value:g} kg"))
            if material is MaterialKind.CEMENT
            else (None, by_measure(unit))
        )
    if not pack_fits(priced, unit):
        return None, by_measure(unit)
    holds = holding(priced.pack_amount, MEASURES[priced.pack_unit])
    if priced.pack_unit is PackUnit.M3 and unit is Measure.KG:
        density = delivered_kg_per_m3(material, priced, figures.bulk_kg_per_m3(material), mixes)
        return priced.pack_amount * density, SoldAs(Holder.LOAD, holds)
    if priced.pack_unit is PackUnit.EACH and unit is Measure.EACH:
        return priced.pack_amount, _pieces(priced.pack_amount)
    if priced.pack_unit is PackUnit.EACH and priced.length_mm is not None:
        length = units.mm_to_m(priced.length_mm)
        return priced.pack_amount * length, _pieces(priced.pack_amount)
    in_bags = priced.pack_unit is PackUnit.KG and priced.pack_amount < figures.bag_max_kg.value
    return priced.pack_amount, SoldAs(Holder.BAG if in_bags else Holder.PACK, holds)


def _pieces(many: float) -> SoldAs:
    """Return that pieces are sold in packs of so many, or one by one."""
    return SoldAs(Holder.PACK, f"{many:g}") if many > 1.0 else SoldAs(Holder.PIECE)


def unit_item(
    number: int,
    unit: PavingUnit,
    by_area: Sequence[tuple[ScopeKey, str, UnitCount]],
    figures: QuantityFigures,
) -> Item | None:
    """Return the paving units at a place in the job over several areas, in whole packs unless single units are sold."""
    if not by_area:
        return None
    counts = [count for _, _, count in by_area]
    net = sum(count.units_with_offcuts for count in counts)
    gross, allowance_percent, behind = with_spares(unit, net, figures)
    if unit.part_packs:
        amount = float(max(gross, (unit.min_packs or 0) * unit.per_pack))
        ordered, sold = amount, SoldAs(Holder.PIECE)
    else:
        ordered = float(packs_ordered(gross, unit.per_pack, unit.min_packs))
        sold, amount = SoldAs(Holder.PACK, str(unit.per_pack)), ordered * unit.per_pack
    return Item(
        key=of_unit(number),
        group=ItemGroup.UNITS,
        description=f"{unit.name}, {unit.length_mm:g} × {unit.width_mm:g} × {unit.thickness_mm:g} mm",
        unit=Measure.UNITS,
        net=float(net),
        allowance_percent=allowance_percent,
        gross=float(gross),
        ordered=ordered,
        sold_as=sold,
        ordered_amount=amount,
        low=float(sum(count.min_units for count in counts)),
        high=float(sum(count.units_each_cut_new for count in counts)),
        workings=(*(working for count in counts for working in count.workings), behind),
        kg=amount * unit.kg_each,
        scope=in_reading_order(frozenset(scope for scope, _, _ in by_area)),
        dimensions=tuple(line for each in by_area for line in unit_lines(*each)),
    )


def unit_lines(scope: ScopeKey, area: str, count: UnitCount) -> tuple[Dimension, ...]:
    """Return the units of an area: those laid whole, and those that are sawn for its cut pieces."""
    sawn = count.units_with_offcuts - count.whole
    lines = [counted(f"{area}: {count.unit} laid whole", Drawn.LAYING, scope, float(count.whole))]
    words = f"{area}: {count.unit} sawn for {count.cut} cut pieces, offcuts used again"
    lines += [counted(words, Drawn.LAYING, scope, float(sawn))] if sawn else []
    return tuple(line for line in lines if line.times)


def with_spares(unit: PavingUnit, net: int, figures: QuantityFigures) -> tuple[int, float, Working]:
    """Return units with spares, the spares in per cent, and the sum: from the chance that one breaks, if given."""
    if unit.breakage_percent is None:
        spare = figures.spare_percent
        gross = whole(with_allowance(net, spare.value))
        words = f"with spares = {net} × (1 + {spare.value:g} %), rounded up"
        return gross, spare.value, Working(words, float(gross), "units", (spare,), spare.label)
    taken = figures.max_short_percent
    found = spares_for(net, unit.breakage_percent, taken.value)
    note = (
        f"one in {100.0 / unit.breakage_percent:.0f} breaks: the chance of running short is "
        f"{found.short_percent:.1f} %, with one spare less it would be {found.short_one_less_percent:.1f} %"
        if unit.breakage_percent
        else "none breaks, by the job document"
    )
    working = Working(
        f"with spares = {net} + {found.spares} for breakages", float(net + found.spares), "units", (taken,), note
    )
    return net + found.spares, 100.0 * found.spares / net, working
