"""Items kept apart: what topsoil of unknown depth takes in stone and in loads, and walls that an engineer designs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.buildup import Remedy
from pavewright.job import EdgeRestraint, MaterialKind
from pavewright.quantities._amounts import with_allowance
from pavewright.quantities._dimensions import Dimension, Drawn, counted, taken
from pavewright.quantities._keys import ItemGroup, ItemKey, ItemKind, Measure
from pavewright.quantities._order import packed
from pavewright.quantities._scope import ScopeKey, ScopeKind
from pavewright.quantities._sold_as import by_measure, taken_away
from pavewright.quantities._types import Item
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.buildup import BuildUps, RetainedEdge
    from pavewright.earthworks import Earthworks
    from pavewright.job import Job
    from pavewright.quantities._figures import QuantityFigures
    from pavewright.survey import Survey


def provisional_items(job: Job, earthworks: Earthworks, figures: QuantityFigures) -> list[Item]:
    """Return stone for the room that unknown topsoil leaves, and the loads that it makes; nothing where it is known."""
    if not earthworks.provisional:
        return []
    return [*_stone(job, earthworks, figures), *_spoil(job, earthworks)]


def _stone(job: Job, earthworks: Earthworks, figures: QuantityFigures) -> list[Item]:
    density = figures.density[MaterialKind.SUB_BASE]
    lost = figures.aggregate_percent
    ends = [
        sum(getattr(each.fill_m3, end) for each in earthworks.provisional) * density.value
        for end in ("low", "likely", "high")
    ]
    if ends[2] <= 0.0:
        return []
    low, net, high = ends
    gross, low, high = (with_allowance(each, lost.value) for each in (net, low, high))
    pack, sold = packed(MaterialKind.SUB_BASE, Measure.KG, job, figures)
    words = f"room under formation = {net / density.value:.3f} m³ × {density.value:g} kg/m³, with {lost.value:g} %"
    note = f"{low:.0f} to {high:.0f} kg, by the depth of topsoil that may be expected"
    return [
        Item(
            key=ItemKey(ItemKind.PROVISIONAL_STONE),
            group=ItemGroup.DIG,
            description="Provisional: stone in place of topsoil of unknown depth",
            unit=Measure.KG,
            net=net,
            allowance_percent=lost.value,
            gross=gross,
            ordered=gross / pack if pack is not None else gross,
            sold_as=sold,
            ordered_amount=gross,
            low=low,
            high=high,
            workings=(
                Working(words, gross, "kg", (density, lost), note),
                *(each.working for each in earthworks.provisional),
            ),
            kg=None,
            scope=_TOPSOIL,
            dimensions=taken(_room(earthworks), net, "kg"),
        )
    ]


def _room(earthworks: Earthworks) -> list[Dimension]:
    """Return the room that topsoil of unknown depth leaves, area by area."""
    return [
        Dimension(
            "topsoil of unknown depth: room under formation", Drawn.DIG, _TOPSOIL[0], volume_m3=each.fill_m3.likely
        )
        for each in earthworks.provisional
        if each.fill_m3.likely
    ]


_TOPSOIL = (ScopeKey(ScopeKind.TOPSOIL),)


def _spoil(job: Job, earthworks: Earthworks) -> list[Item]:
    more, disposal = earthworks.provisional_loads, job.rates.disposal
    if more is None or disposal is None or more.high <= 0.0:
        return []
    holds = disposal.volume_m3
    return [
        Item(
            key=ItemKey(ItemKind.PROVISIONAL_SPOIL),
            group=ItemGroup.DIG,
            description="Provisional: topsoil of unknown depth to leave the site",
            unit=Measure.LOADS,
            net=more.likely,
            allowance_percent=0.0,
            gross=more.likely,
            ordered=more.likely,
            sold_as=taken_away(disposal.kind, holds),
            ordered_amount=more.likely,
            low=more.low,
            high=more.high,
            workings=tuple(each.working for each in earthworks.provisional),
            kg=None,
            scope=_TOPSOIL,
            dimensions=(counted("loads over those of the dig", Drawn.DIG, _TOPSOIL[0], more.likely),),
        )
    ]


def engineered_walls(survey: Survey, build_ups: BuildUps) -> list[Item]:
    """Return the face of walls that an engineer designs, area by area: measured, and priced by nobody here."""
    found = []
    for number, area in enumerate(survey.site.areas):
        edges = [edge for edge in build_ups.retained if edge.area == area.name]
        edges = [edge for edge in edges if edge.remedy is Remedy.ENGINEER or edge.restraint is EdgeRestraint.ENGINEERED]
        if not edges:
            continue
        scope = ScopeKey(ScopeKind.LOW_WALL, number)
        lines = tuple(_face_line(area.name, scope, edge) for edge in edges)
        face = sum(line.amount for line in lines)
        found.append(
            Item(
                key=ItemKey(ItemKind.ENGINEERED_WALL, number=number),
                group=ItemGroup.EDGES,
                description=f"{area.name}: retaining wall that an engineer designs, face above ground",
                unit=Measure.M2,
                net=face,
                allowance_percent=0.0,
                gross=face,
                ordered=face,
                sold_as=by_measure(Measure.M2),
                ordered_amount=face,
                low=None,
                high=None,
                workings=tuple(_face_working(edge, line) for edge, line in zip(edges, lines, strict=True)),
                kg=None,
                scope=(scope,),
                dimensions=lines,
            )
        )
    return found


def _face_line(area: str, scope: ScopeKey, edge: RetainedEdge) -> Dimension:
    face = units.mm2_to_m2(edge.length_mm * edge.mean_drop_mm)
    length, high = units.mm_to_m(edge.length_mm), units.mm_to_m(edge.mean_drop_mm)
    words = f"{area}: face above the lower ground, mean height"
    return Dimension(words, Drawn.LEVELS, scope, edge.side, length_m=length, depth_m=high, amount=face)


def _face_working(edge: RetainedEdge, line: Dimension) -> Working:
    words = f"side {edge.side}: {line.length_m:.2f} m × {edge.mean_drop_mm:.0f} mm in the mean"
    return Working(words, line.amount, "m²", (), "face above the lower ground; its footing is the engineer's")
