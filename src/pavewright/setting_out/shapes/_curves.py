"""Arcs set out: by a tape swung about their centre, and by offsets from a straight string."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.geometry import along_and_offset, distance, point_along

if TYPE_CHECKING:
    from pavewright.geometry import XY, Side
    from pavewright.setting_out._base_line import Base
    from pavewright.setting_out._sight import Surroundings
    from pavewright.setting_out._types import InTheWay


@dataclass(frozen=True, slots=True)
class StringOffsets:
    """Offsets of an arc from one straight string.

    Attributes:
        start_at: Where the string starts. [mm]
        end_at: Where it ends. [mm]
        along_mm: Places along it, from its start. [mm]
        off_mm: How far the arc stands off it at each, away from the centre. [mm]
    """

    start_at: XY
    end_at: XY
    along_mm: tuple[float, ...]
    off_mm: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class CurveSetOut:
    """An arc of an outline, as it is set out.

    Attributes:
        area: Name of the area.
        side: Name of the side.
        radius_mm: Its radius. [mm]
        rise_mm: Its rise over the straight line between its ends, outward positive. [mm]
        length_mm: Its length. [mm]
        centre_at: Its centre. [mm]
        centre_along_mm: The centre along the base line from its start. [mm]
        centre_off_mm: The centre square off the base line, positive to the left. [mm]
        is_swung: Whether a tape can be swung about the centre along the whole arc.
        hindrance: What stands in the way of the tape; None where nothing does, or where the tape is too short.
        tape_short: Whether the tape is too short for the radius.
        offsets: Offsets from one string, or from two where the arc is more than half a circle.
    """

    area: str
    side: str
    radius_mm: float
    rise_mm: float
    length_mm: float
    centre_at: XY
    centre_along_mm: float
    centre_off_mm: float
    is_swung: bool
    hindrance: InTheWay | None
    tape_short: bool
    offsets: tuple[StringOffsets, ...]


_SWUNG = 8
"""A swung tape is looked at in so many places along an arc."""


def curve_of(area: str, side: Side, base: Base, around: Surroundings, spacing_mm: float, tape_mm: float) -> CurveSetOut:
    """Return how an arc is set out.

    Args:
        area: Name of the area.
        side: The side, an arc.
        base: The base line of the area.
        around: What stands in the way.
        spacing_mm: Greatest distance between offsets. [mm]
        tape_mm: Length of the tape. [mm]

    Source: definition, the centre lies R − V from the chord on the other side of the rise
    """
    rise, radius = side.start.rise_mm, side.radius_mm
    way = math.copysign(1.0, rise)
    centre = point_along(side.start.xy, side.end.xy, side.chord_mm / 2.0, way * (radius - abs(rise)))
    places = _along_arc(side, centre)
    met = next((found for at in places if (found := around.between(centre, at)) is not None), None)
    short = radius > tape_mm
    along, off = base.measures(centre)
    return CurveSetOut(
        area=area,
        side=side.name,
        radius_mm=radius,
        rise_mm=rise,
        length_mm=side.length_mm,
        centre_at=centre,
        centre_along_mm=along,
        centre_off_mm=off,
        is_swung=met is None and not short,
        hindrance=None if met is None else met.kind,
        tape_short=short,
        offsets=_offsets(places, centre, radius, spacing_mm, more_than_half=abs(rise) > side.chord_mm / 2.0),
    )


def _along_arc(side: Side, centre: XY) -> list[XY]:
    """Return places along an arc, its ends and its middle among them."""
    radius = side.radius_mm
    start = math.atan2(side.start.y_mm - centre[1], side.start.x_mm - centre[0])
    sweep = math.copysign(side.length_mm / radius, side.start.rise_mm)
    turns = [start + sweep * k / _SWUNG for k in range(1, _SWUNG)]
    inner = [(centre[0] + radius * math.cos(turn), centre[1] + radius * math.sin(turn)) for turn in turns]
    return [side.start.xy, *inner, side.end.xy]


def _offsets(
    places: list[XY],
    centre: XY,
    radius_mm: float,
    spacing_mm: float,
    *,
    more_than_half: bool,
) -> tuple[StringOffsets, ...]:
    """Return offsets from the string between the ends, or from two strings over the middle of the arc."""
    middle = places[len(places) // 2]
    strings = [(places[0], middle), (middle, places[-1])] if more_than_half else [(places[0], places[-1])]
    return tuple(_from_string(start, end, centre, radius_mm, spacing_mm) for start, end in strings)


def _from_string(start: XY, end: XY, centre: XY, radius_mm: float, spacing_mm: float) -> StringOffsets:
    chord = distance(start, end)
    depth = abs(along_and_offset(start, end, centre)[1])
    parts = 2 * max(1, math.ceil(chord / spacing_mm - 1e-9))
    along = tuple(chord * k / parts for k in range(1, parts))
    return StringOffsets(start, end, along, tuple(chord_offset_mm(radius_mm, depth, chord, each) for each in along))


def chord_offset_mm(radius_mm: float, depth_mm: float, chord_mm: float, along_mm: float) -> float:
    """Return how far an arc stands off its chord. [mm].

    Args:
        radius_mm: Radius of the arc. [mm]
        depth_mm: From the centre to the chord. [mm]
        chord_mm: Length of the chord. [mm]
        along_mm: Place along the chord, from its start. [mm]

    Valid for: arcs up to half a circle.
    Source: definition, y = √(R² − x²) − (R − V), x from the middle of the chord

    >>> chord_offset_mm(5_000.0, 3_000.0, 8_000.0, 4_000.0)
    2000.0
    """
    from_middle = along_mm - chord_mm / 2.0
    return math.sqrt((radius_mm - from_middle) * (radius_mm + from_middle)) - depth_mm
