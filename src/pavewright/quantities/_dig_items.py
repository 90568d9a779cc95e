"""The dig and what leaves: of areas, of soakaways and of drain trenches."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.quantities._assemblies import built_inlets, built_pits
from pavewright.quantities._dimensions import Dimension, Drawn, taken, whole_less
from pavewright.quantities._keys import ItemGroup, ItemKey, ItemKind, Measure
from pavewright.quantities._scope import Gap, GapReason, ScopeKey, ScopeKind, in_reading_order
from pavewright.quantities._sold_as import by_measure, taken_away
from pavewright.quantities._types import Item

if TYPE_CHECKING:
    from pavewright.earthworks import Earthworks
    from pavewright.job import Job
    from pavewright.quantities._types import PitSpoil
    from pavewright.water import Water


def dig_items(job: Job, earthworks: Earthworks) -> list[Item]:
    """Return the dig and what leaves; nothing where the ground is not known."""
    if not earthworks.areas:
        return []
    dig = Item(
        key=ItemKey(ItemKind.DIG),
        group=ItemGroup.DIG,
        description="Dig to formation, measured in the ground",
        unit=Measure.M3,
        net=earthworks.cut_m3,
        allowance_percent=0.0,
        gross=earthworks.cut_m3,
        ordered=earthworks.cut_m3,
        sold_as=by_measure(Measure.M3),
        ordered_amount=earthworks.cut_m3,
        low=None,
        high=None,
        workings=tuple(working for area in earthworks.areas for working in area.workings),
        kg=None,
        scope=_DIG,
        dimensions=_dug(earthworks),
    )
    return [dig, _spoil(job, earthworks)]


def _spoil(job: Job, earthworks: Earthworks) -> Item:
    """Return what leaves."""
    loose, loads, disposal = earthworks.loose_m3, earthworks.loads, job.rates.disposal
    holds = disposal.volume_m3 if disposal is not None else 0.0
    return Item(
        key=ItemKey(ItemKind.SPOIL),
        group=ItemGroup.DIG,
        description="Spoil to leave the site, loose",
        unit=Measure.M3,
        net=loose.likely,
        allowance_percent=0.0,
        gross=loose.likely,
        ordered=loads.likely if loads is not None else loose.likely,
        sold_as=taken_away(disposal.kind, holds) if disposal is not None else by_measure(Measure.M3),
        ordered_amount=loads.likely * holds if loads is not None else loose.likely,
        low=loose.low,
        high=loose.high,
        workings=earthworks.workings,
        kg=earthworks.tonnes.likely * units.KG_PER_TONNE,
        scope=_DIG,
        dimensions=_leaving(earthworks),
    )


def _dug(earthworks: Earthworks) -> tuple[Dimension, ...]:
    """Return the dig area by area: what is dug times the mean depth of cut; what is dug beside them after that."""
    lines = [
        Dimension(
            f"{area.area}: dug area, mean depth of cut",
            Drawn.DIG,
            _DIG[0],
            area_m2=area.dig_m2,
            depth_m=area.volumes.cut_m3 / area.dig_m2,
        )
        for area in earthworks.areas
        if area.dig_m2 and area.volumes.cut_m3
    ]
    lines += [
        Dimension(each.working.expression, Drawn.DIG, _DIG[0], volume_m3=each.dig_m3)
        for each in earthworks.found
        if each.dig_m3
    ]
    lines = [replace(line, amount=line.squared) for line in lines]
    return whole_less(lines, earthworks.cut_m3, "beside the areas, or counted with another one", volume=True)


def _leaving(earthworks: Earthworks) -> tuple[Dimension, ...]:
    """Return what leaves: the dig, less what is used again, bulked."""
    dug = [Dimension("dug, in the ground", Drawn.DIG, _DIG[0], volume_m3=earthworks.cut_m3)]
    lines = whole_less(dug, earthworks.away_m3, "used again, or dug for walls", volume=True)
    return taken(lines, earthworks.loose_m3.likely, "m³ loose")


_DIG = (ScopeKey(ScopeKind.DIG),)


def pit_items(job: Job, pit: PitSpoil | None, water: Water) -> list[Item]:
    """Return what leaves of soakaways and drain trenches; nothing where there are none."""
    if pit is None:
        return []
    disposal, loads = job.rates.disposal, pit.loads
    scope = {ScopeKey(ScopeKind.SOAKAWAY, number) for number, _ in built_pits(job, water)}
    scope |= {key for key, parts in built_inlets(water) if parts.run.length_m}
    holds = disposal.volume_m3 if disposal is not None else 0.0
    return [
        Item(
            key=ItemKey(ItemKind.PIT_SPOIL),
            group=ItemGroup.DIG,
            description="Spoil of soakaways and drain trenches to leave the site, loose",
            unit=Measure.M3,
            net=pit.loose.likely,
            allowance_percent=0.0,
            gross=pit.loose.likely,
            ordered=loads.likely if loads is not None else pit.loose.likely,
            sold_as=taken_away(disposal.kind, holds) if disposal is not None else by_measure(Measure.M3),
            ordered_amount=loads.likely * holds if loads is not None else pit.loose.likely,
            low=pit.loose.low,
            high=pit.loose.high,
            workings=pit.workings,
            kg=pit.tonnes.likely * units.KG_PER_TONNE,
            scope=in_reading_order(frozenset(scope)),
            dimensions=taken(_out_of_pits(pit), pit.loose.likely, "m³ loose"),
        )
    ]


def _out_of_pits(pit: PitSpoil) -> tuple[Dimension, ...]:
    """Return what pits and trenches leave in the ground: holes, less what is put back over them, gravel of drains."""
    return tuple(
        Dimension(words, Drawn.WATER, scope, times=-1.0 if solid < 0.0 else 1.0, volume_m3=abs(solid))
        for words, scope, solid in pit.solid
        if solid
    )


def dig_gap(earthworks: Earthworks) -> tuple[Gap, ...]:
    """Return that the dig is not measured where the ground was not levelled."""
    if earthworks.areas:
        return ()
    words = "Digging out and taking spoil away: the ground was not levelled"
    return (Gap(_DIG, GapReason.NOT_MEASURED, words),)
