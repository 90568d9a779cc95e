"""How one area is laid: what is to be covered, the field and the border, the pattern and its units."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Protocol

import numpy as np
import shapely
from shapely.geometry import Polygon

from pavewright.geometry import without
from pavewright.laying.patterns import Bond, CurvedRow, Layout, Placing, Ring, Size, bordered
from pavewright.laying.pieces import clip, is_crumb, sizes
from pavewright.laying.search import Limits
from pavewright.laying.setting._rings import rings_of
from pavewright.laying.yard import Stones
from pavewright.survey import taken_of

if TYPE_CHECKING:
    from pavewright.job import PavingUnit
    from pavewright.laying._figures import LayingFigures
    from pavewright.laying.pieces import Clipped, Frame
    from pavewright.laying.setting._mixed_units import MixedPlacing
    from pavewright.laying.setting._rings import LaidRings
    from pavewright.survey import PlanArea


_LITTLE = 1e-4
"""Row by row, then along the row."""
_NOTHING = Polygon()


class Sold(Protocol):
    """What knows the paving units by their names, such as a job."""

    def unit(self, name: str) -> PavingUnit:
        """Return the paving unit with this name."""


@dataclass(frozen=True)
class Setting:
    """One area made ready for laying, in the frame of the courses.

    Attributes:
        units: Paving units by their size number: that of the field first, then of the courses, then of the border.
        region: What is to be covered.
        field: What the pattern covers, in one part or several.
        strips: Strips of a border with the units over each.
        layout: The pattern from its starting corner.
        mixed: Units of mixed sizes with their places, and the number of bays; none for every other pattern.
        rings: Rings with their units; none for every other pattern.
        stones: For each of the units, the sizes of its stone that its cut pieces may come from.
        border_joints_mm: Joint along each straight side of a border whose joints are stretched. [mm]
        edging: The border as it is asked for; None where there is none.
        curved: Joints of each course of a border along each curved side.
        channels: What channels take that run through it, with the gap at the edge; empty without one.
    """

    units: tuple[PavingUnit, ...]
    region: Polygon
    field: tuple[Polygon, ...]
    strips: tuple[tuple[Polygon, Placing], ...]
    layout: Layout
    stones: tuple[Stones, ...]
    mixed: MixedPlacing | None = None
    rings: LaidRings | None = None
    border_joints_mm: tuple[float, ...] = ()
    edging: Ring | None = None
    curved: tuple[CurvedRow, ...] = ()
    channels: shapely.Geometry = _NOTHING

    def beside_channels(self, polygon: shapely.Geometry) -> list[Polygon]:
        """Return what is left of a polygon beside the channels, in one part or several."""
        if shapely.is_empty(self.channels):
            return [polygon] if isinstance(polygon, Polygon) else []
        parts = shapely.get_parts(without(polygon, self.channels))
        return [part for part in parts if isinstance(part, Polygon) and part.area > 0.0]

    @property
    def clear(self) -> shapely.Geometry:
        """The region less the channels."""
        return self.region if shapely.is_empty(self.channels) else without(self.region, self.channels)

    def less_channels(self, channels: shapely.Geometry) -> Setting:
        """Return the setting with what channels take cut out of its field and its border; the pattern runs on."""
        cut = replace(self, channels=channels)
        strips = [(part, placing) for strip, placing in self.strips for part in cut.beside_channels(strip)]
        field = [part for each in self.field for part in cut.beside_channels(each)]
        return replace(cut, field=tuple(field), strips=tuple(strips))


def _stand_ins(sold: Sold, unit: PavingUnit) -> tuple[PavingUnit, ...]:
    """Return the units from which pieces of another may be cut too: what is cheaper is known where both have prices."""
    others = (sold.unit(name) for name in unit.also_cut_from)
    return tuple(other for other in others if unit.pack_price_minor and other.pack_price_minor)


def setting_of(sold: Sold, area: PlanArea, frame: Frame, region: Polygon) -> Setting:
    """Return how an area is laid, channels that run through it cut out."""
    setting = _whole_setting(sold, area, frame, region)
    if not area.channels:
        return setting
    gap = area.area.laying.wall_joint_mm
    return setting.less_channels(
        frame.into(shapely.buffer(taken_of(area.shape, area.channels), gap, join_style="mitre"))
    )


def _whole_setting(sold: Sold, area: PlanArea, frame: Frame, region: Polygon) -> Setting:
    laying = area.area.laying
    names = list(laying.laid_units)
    border = laying.border
    edging = None if border is None else (border.unit or laying.unit)
    if edging is not None and edging not in names:
        names.append(edging)
    units = tuple(sold.unit(name) for name in names)
    stones = tuple(Stones((unit, *_stand_ins(sold, unit))) for unit in units)
    stagger = laying.stagger if laying.pattern.traits.staggered else 0.0
    courses = tuple(_size(unit) for unit in units[: 1 + len(laying.course_units)])
    bond = Bond(courses, laying.joint_mm, stagger, laying.mix)
    layout = Layout(laying.pattern, bond, frame.start, frame.from_right, frame.from_far)
    if border is None or edging is None:
        return Setting(units, region, (region,), (), layout, stones, rings=rings_of(laying, units, region, frame.start))
    number = names.index(edging)
    edge = units[number]
    stretch = (edge.joint_min_mm, edge.joint_max_mm) if border.stretch_joints else None
    ring = Ring(
        border.kind, border.corner, border.courses, _size(edge), number, laying.joint_mm, stretch, border.tapered
    )
    if laying.origin is None:
        layout = layout.moved(
            -ring.depth_mm if frame.from_right else ring.depth_mm, -ring.depth_mm if frame.from_far else ring.depth_mm
        )
    found = bordered(region, ring, frame.start)
    rings = rings_of(laying, units, region, frame.start)
    joints = found.joints_mm if stretch is not None else ()
    return Setting(
        units,
        region,
        found.field,
        found.strips,
        layout,
        stones,
        rings=rings,
        border_joints_mm=joints,
        edging=ring,
        curved=found.curved,
    )


def region_of(area: PlanArea, frame: Frame) -> Polygon | None:
    """Return what is to be covered, in the frame; None where the gap at the edge leaves nothing in one piece."""
    gap = area.area.laying.wall_joint_mm
    polygon = area.shape.polygon if gap == 0.0 else area.shape.polygon.buffer(-gap, join_style="mitre")
    if not isinstance(polygon, Polygon) or polygon.is_empty:
        return None
    turned = frame.into(polygon)
    return turned if isinstance(turned, Polygon) else None


def limits_of(setting: Setting, known: LayingFigures) -> Limits:
    """Return what makes a crumb or a sliver of the units of a pattern, for the search of its start."""
    found = [sizes(unit, known) for unit in setting.units]
    least = tuple((each.sliver_along_mm, each.sliver_across_mm) for each in found)
    return Limits(found[0].absorbed_mm, least, tuple(each.min_width_mm for each in found))


def covered(setting: Setting, known: LayingFigures, *, whole_too: bool = True) -> list[Clipped]:
    """Return what is left of every unit inside its area, crumbs left out."""
    limits = [sizes(unit, known) for unit in setting.units]
    kept = [
        each for strip, placing in setting.strips for each in clip(strip, placing, whole_too=whole_too, border=True)
    ]
    kept += [each for part in setting.field for each in clip(part, _over(setting, part), whole_too=whole_too)]
    centre = [] if setting.rings is None else setting.beside_channels(setting.rings.centre)
    for core in centre:
        if core.is_empty:
            continue
        straight = setting.layout.over(core.bounds)
        # what lies straight inside the rings is one course, the first
        row_by_row = straight.y_mm + straight.x_mm * _LITTLE
        inner = replace(straight, course=np.zeros(len(straight), dtype=np.int64), order=row_by_row)
        kept += list(clip(core, inner, whole_too=whole_too))
    return [each for each in kept if not is_crumb(each, limits[each.size])]


def _over(setting: Setting, part: Polygon) -> Placing:
    if setting.rings is not None:
        return setting.rings.placed
    return setting.layout.over(part.bounds) if setting.mixed is None else setting.mixed.placed


def _size(unit: PavingUnit) -> Size:
    return Size(unit.length_mm, unit.width_mm)
