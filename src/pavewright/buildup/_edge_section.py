"""Sections of what the job builds to hold a side, by the figures and by the layers beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.buildup._edge_types import EdgeSection, Haunch, edge_foot_mm
from pavewright.buildup._figures import BUILT, EdgePart
from pavewright.buildup._types import LayerKey
from pavewright.job import EdgeRestraint

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.buildup._figures import EdgeFigures, PartFigures
    from pavewright.buildup._types import Layer
    from pavewright.job import Area
    from pavewright.rules import Figure


def edge_sections(area: Area, own: tuple[Layer, ...], known: EdgeFigures) -> tuple[EdgeSection, ...]:
    """Return the section of each kind of edge that the area has built, in the order of the figures.

    Args:
        area: The area.
        own: Its layers from the top down.
        known: Figures of edges.
    """
    wanted = {edge.restraint for edge in area.edges}
    return tuple(_section(kind, known.sections[kind], own, known) for kind in BUILT if kind in wanted)


def _section(
    kind: EdgeRestraint, parts: Mapping[EdgePart, PartFigures], own: tuple[Layer, ...], known: EdgeFigures
) -> EdgeSection:
    unit, bed = parts.get(EdgePart.UNIT), parts.get(EdgePart.BED)
    upstand = (known.kerb_upstand,) if kind is EdgeRestraint.KERB else ()
    if kind is EdgeRestraint.KERB:
        top = known.kerb_upstand.value
    elif unit is None:
        paved = next(layer.thickness_mm for layer in own if layer.key is LayerKey.UNIT)
        top, upstand = -known.haunch_top_share.value * paved, (known.haunch_top_share,)
    else:
        top = 0.0
    back = _haunch(parts.get(EdgePart.BACK), None)
    high = _sizes(unit)[1] or (back.height_mm if back is not None else 0.0)
    foot = edge_foot_mm(high, top, _sizes(bed)[1])
    return EdgeSection(
        restraint=kind,
        unit_mm=_sizes(unit),
        top_mm=top,
        bed_mm=_sizes(bed),
        back=back,
        front=_haunch(parts.get(EdgePart.FRONT), _room_mm(_sizes(unit)[1] - top, own)),
        trench_mm=max(foot - sum(layer.thickness_mm for layer in own), 0.0) if bed is not None else 0.0,
        decided_by=(*_figures(unit), *_figures(bed), *upstand),
    )


def _room_mm(down_mm: float, own: tuple[Layer, ...]) -> float:
    """Return the room for a haunch between the bed of an edge and the units with theirs; a concrete base takes it.

    Args:
        down_mm: Top of the bed of the edge below the paving. [mm]
        own: Layers from the top down.
    """
    if any(layer.key is LayerKey.BASE for layer in own):
        return 0.0
    over = sum(layer.thickness_mm for layer in own if layer.key in {LayerKey.UNIT, LayerKey.BED})
    return max(down_mm - over, 0.0)


def _haunch(part: PartFigures | None, room_mm: float | None) -> Haunch | None:
    """Return a haunch no higher than there is room for; None where there is none."""
    if part is None or part.top is None:
        return None
    height = part.height.value if room_mm is None else min(part.height.value, room_mm)
    if height <= 0.0:
        return None
    return Haunch(part.width.value, part.top.value, height, (part.width, part.top, part.height))


def _sizes(part: PartFigures | None) -> tuple[float, float]:
    return (0.0, 0.0) if part is None else (part.width.value, part.height.value)


def _figures(part: PartFigures | None) -> tuple[Figure, ...]:
    return () if part is None else (part.width, part.height)
