"""Mixed packs: one sold item that holds several sizes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.quantities._amounts import whole
from pavewright.quantities._dimensions import taken
from pavewright.quantities._keys import ItemGroup, Measure, of_pack
from pavewright.quantities._order import unit_lines, with_spares
from pavewright.quantities._scope import ScopeKey, ScopeKind
from pavewright.quantities._sold_as import Holder, SoldAs
from pavewright.quantities._types import Item, PackHolding, SoldPack
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.job import Job, MixedPack
    from pavewright.laying import LayingPlan
    from pavewright.quantities._dimensions import Dimension
    from pavewright.quantities._figures import QuantityFigures
    from pavewright.quantities._keys import ItemKey


def _packs_of(job: Job) -> list[tuple[MixedPack, tuple[int, ...]]]:
    """Return the mixed packs that are bought as packs, each with the places of its areas in the job."""
    found: list[tuple[tuple[str, ...], MixedPack, list[int]]] = []
    for number, area in enumerate(job.areas):
        pack = area.laying.pack
        if pack is None or pack.pack_price_minor is None:
            continue
        names = area.laying.laid_units
        sold = pack.model_copy(update={"laid": ()})
        same = next((places for units, other, places in found if (units, other) == (names, sold)), None)
        if same is None:
            found.append((names, sold, [number]))
        else:
            same.append(number)
    return [(pack, tuple(places)) for _, pack, places in found]


def sold_packs(job: Job, laying: LayingPlan) -> tuple[SoldPack, ...]:
    """Return the mixed packs that are bought as packs, each with the areas that it is for."""
    return tuple(
        SoldPack(of_pack(number), pack, tuple(laying.area(job.areas[place].name) for place in places), places)
        for number, (pack, places) in enumerate(_packs_of(job))
    )


def sold_pack(key: ItemKey, job: Job) -> MixedPack | None:
    """Return the mixed pack that an item is; None where it is none."""
    return next((pack for number, (pack, _) in enumerate(_packs_of(job)) if of_pack(number) == key), None)


def _scarce_lines(sold: SoldPack, name: str, per_pack: int) -> tuple[Dimension, ...]:
    """Return the units of the size that runs out first, area by area, as packs."""
    return taken(
        [
            line
            for number, laid in zip(sold.numbers, sold.areas, strict=True)
            for count in laid.by_unit
            if count.unit == name
            for line in unit_lines(ScopeKey(ScopeKind.PAVING, number), laid.area, count)
        ],
        sum(c.units_with_offcuts for laid in sold.areas for c in laid.by_unit if c.unit == name) / per_pack,
        "packs",
    )


def pack_item(sold: SoldPack, job: Job, figures: QuantityFigures) -> Item:
    """Return mixed packs as one item: as many as the size that runs out first needs, spares counted."""
    pack, areas = sold.pack, sold.areas
    mixed = areas[0].mixed
    assert mixed is not None  # noqa: S101 - areas with a pack are laid in mixed sizes
    counted, workings = [], []
    for name, per_pack in zip(mixed.units, pack.counts, strict=True):
        mine = [count for laid in areas for count in laid.by_unit if count.unit == name]
        needed = sum(count.units_with_offcuts for count in mine)
        gross, percent, behind = with_spares(job.unit(name), needed, figures) if needed else (0, 0.0, None)
        counted.append((name, per_pack, needed, gross, percent))
        if behind is not None:
            words = f"{name}: {behind.expression}; {gross} / {per_pack} to a pack"
            workings.append(Working(words, gross / per_pack, "packs", behind.figures, behind.note))
    most = max(units / per_pack for _, per_pack, _, units, _ in counted)
    ordered = max(whole(most * pack.parts) / pack.parts, float(pack.min_packs or 0))
    scarce = max(counted, key=lambda each: each[3] / each[1])
    split = "whole packs" if pack.parts == 1 else f"packs in {pack.parts} parts"
    workings.append(Working(f"packs = {most:.3f} rounded up to {split}", ordered, "packs", (), f"{scarce[0]} sets it"))
    holds = tuple(
        PackHolding(name, per_pack, needed, units, round(ordered * per_pack), round(ordered * per_pack) - needed)
        for name, per_pack, needed, units, _ in counted
    )
    return Item(
        key=sold.key,
        group=ItemGroup.UNITS,
        description="Mixed pack: " + ", ".join(f"{each.per_pack} {each.unit}" for each in holds),
        unit=Measure.PACKS,
        net=max(each.needed / each.per_pack for each in holds),
        allowance_percent=scarce[4],
        gross=most,
        ordered=ordered,
        sold_as=SoldAs(Holder.MIXED_PACK, str(sum(pack.counts))),
        ordered_amount=ordered,
        low=None,
        high=None,
        workings=tuple(workings),
        kg=sum(each.ordered * job.unit(each.unit).kg_each for each in holds),
        holds=holds,
        scope=tuple(ScopeKey(ScopeKind.PAVING, number) for number in sold.numbers),
        dimensions=_scarce_lines(sold, scarce[0], scarce[1]),
    )
