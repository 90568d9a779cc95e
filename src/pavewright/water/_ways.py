"""Options where water goes nowhere or where it should not, and what they change in the job document."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import FieldChange, Option
from pavewright.geometry import bearing_of, distance
from pavewright.job import EdgeRestraint, GullyState, OutfallKind
from pavewright.levels import TakerKind

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.survey import PlanArea, Survey
    from pavewright.water._types import Catchment

_SOFT = {OutfallKind.BORDER, OutfallKind.LAWN}
_SAME_MM = 0.5
"""A point this near to the end of a line is its end. [mm]"""


def from_wall(each: Catchment, survey: Survey) -> tuple[Option, ...]:
    """Return options where water runs to a wall."""
    area = survey.site.area(each.area)
    walls = {wall.name: wall for wall in survey.site.walls}
    wall = walls.get(each.to)
    bearing = () if area.area.fall.bearing_deg is None else (FieldChange(f"{area.path}.fall.bearing_deg", None),)
    turned = (FieldChange(f"{area.path}.fall.away_from", each.to), *bearing) if wall is not None else ()
    drained = channel_along(wall.start, wall.end, survey) if wall is not None else ()
    return (
        Option("Turn the fall away from the wall.", turned),
        Option("Put a channel along the wall, with an outfall.", drained),
        Option("Put a gully at the low end of the wall, with an outfall."),
    )


def from_kerb(each: Catchment, low_end: XY | None, given_points: int, survey: Survey) -> tuple[Option, ...]:
    """Return options where a kerb holds water and nothing takes it.

    Args:
        each: What collects along it.
        low_end: Its low end; None where it is not known.
        given_points: How many points the job gives by coordinates: a new one goes behind them.
        survey: The site.
    """
    area = survey.site.area(each.area)
    side = next((side for side in area.sides if side.name == each.to), None)
    flush = [
        FieldChange(f"{area.path}.edges.{number}.restraint", EdgeRestraint.EDGING.value)
        for number, edge in enumerate(area.area.edges)
        if area.side_from(edge.corner).name == each.to
    ]
    across = () if side is None else channel_along(side.start.xy, side.end.xy, survey)
    return (
        Option("Put a channel along the kerb, with an outfall.", across),
        Option("Put a gully at the low end of the kerb, with an outfall.", _gully(each, low_end, given_points, survey)),
        Option("Lay the edge flush.", (*flush, *_soft_outfall(survey)) if flush else ()),
    )


def _gully(each: Catchment, low_end: XY | None, given_points: int, survey: Survey) -> tuple[FieldChange, ...]:
    """Return the changes that set a new gully at a low end, led to an outfall that is no border."""
    drains = [
        outfall for outfall in survey.site.outfalls if outfall.kind not in _SOFT and outfall.kind is not _NOBODY_KNOWS
    ]
    if low_end is None or not drains:
        return ()
    (x, y), (cx, cy) = low_end, survey.site.area(each.area).gross.centre_mm
    away = max(distance(low_end, (cx, cy)), 1.0)
    named = {placed.gully.name for placed in survey.site.gullies}
    point = free_name("Gully point", {point.name for point in survey.points})
    path, given = f"site.gullies.{len(named)}", f"measurements.points.{given_points}"
    return (
        FieldChange(f"{given}.name", point),
        FieldChange(f"{given}.x_mm", round(x + (cx - x) / away * FROM_CORNER_MM)),
        FieldChange(f"{given}.y_mm", round(y + (cy - y) / away * FROM_CORNER_MM)),
        FieldChange(f"{path}.name", free_name("Gully", named)),
        FieldChange(f"{path}.point", point),
        FieldChange(f"{path}.state", GullyState.NEW.value),
        FieldChange(f"{path}.outfall", min(drains, key=lambda outfall: not outfall.confirmed).name),
    )


FROM_CORNER_MM = 250.0
"""A new gully stands this far in from the corner: its grating clears both sides. [mm]"""
_NOBODY_KNOWS = OutfallKind.UNKNOWN


def free_name(what: str, taken: set[str]) -> str:
    """Return a name that is not taken yet."""
    number = 1
    while f"{what} {number}" in taken:
        number += 1
    return f"{what} {number}"


def from_line(each: Catchment, survey: Survey) -> tuple[Option, ...]:
    """Return options where water runs over a boundary, or an edge to meet, that should not have it."""
    area = survey.site.area(each.area)
    if each.kind is TakerKind.BOUNDARY:
        line = next(line for line in survey.site.boundaries if line.name == each.to)
        start, end = line.start, line.end
        along = "boundary"
    else:
        tie = next(tie for tie in survey.site.tie_ins if tie.name == each.to)
        start, end = tie.start, tie.end
        along = "edge"
    return (
        Option("Turn the fall.", _turned(area, start, end)),
        Option(f"Put a channel along the {along}, with an outfall on this side.", channel_along(start, end, survey)),
        Option("Leave a border on this side that takes the water."),
    )


def to_nowhere(each: Catchment, survey: Survey) -> tuple[Option, ...]:
    """Return options where no outfall is named for what takes the water."""
    owner = _owner(each, survey)
    soft = [outfall.name for outfall in survey.site.outfalls if outfall.kind in _SOFT]
    seen = [outfall.name for outfall in survey.site.outfalls if outfall.confirmed and outfall.name not in soft]
    named: tuple[FieldChange, ...] = () if soft else _soft_outfall(survey)
    if owner:
        named = (*named, FieldChange(f"{owner}.outfall", soft[0] if soft else _NEW_BORDER))
    connected = (FieldChange(f"{owner}.outfall", seen[0]),) if owner and seen else ()
    return (
        Option("Name the border or lawn that takes the water, if it can.", named),
        Option("Connect to an outfall that somebody saw run.", connected),
    )


def _owner(each: Catchment, survey: Survey) -> str:
    """Return where the gully or channel that takes the water stands in the job document; empty for a free edge."""
    names = {
        "channel": [channel.name for channel in survey.site.channels],
        "gully": [placed.gully.name for placed in survey.site.gullies],
    }
    lists = {"channel": "site.channels", "gully": "site.gullies"}
    return f"{lists[each.kind]}.{names[each.kind].index(each.to)}" if each.kind in lists else ""


_NEW_BORDER = "Border that takes the water"
"""Name of the outfall that an option adds; nobody has seen it run."""


def _soft_outfall(survey: Survey) -> tuple[FieldChange, ...]:
    """Return the changes that add a border as an outfall, unseen, where no border or lawn is entered."""
    if any(outfall.kind in _SOFT for outfall in survey.site.outfalls):
        return ()
    path = f"site.outfalls.{len(survey.site.outfalls)}"
    return (
        FieldChange(f"{path}.name", _NEW_BORDER),
        FieldChange(f"{path}.kind", OutfallKind.BORDER.value),
        FieldChange(f"{path}.confirmed", value=False),
    )


def _turned(area: PlanArea, start: XY, end: XY) -> tuple[FieldChange, ...]:
    """Return the changes that let an area fall square away from a line; none where a wall is named to fall from."""
    if area.area.fall.away_from is not None:
        return ()
    ux, uy = end[0] - start[0], end[1] - start[1]
    x, y = area.gross.centre_mm
    to_left = ux * (y - start[1]) - uy * (x - start[0]) > 0.0
    bearing = bearing_of((-uy, ux) if to_left else (uy, -ux))
    return (FieldChange(f"{area.path}.fall.bearing_deg", round(bearing, 2) % 360.0),)


def channel_along(start: XY, end: XY, survey: Survey, to: str | None = None) -> tuple[FieldChange, ...]:
    """Return the changes that put a channel along a line, led to an outfall.

    It is the one that is named, else one that was seen, else a border not yet seen.
    """
    names = [_point_at(at, survey) for at in (start, end)]
    known = sorted(
        survey.site.outfalls, key=lambda outfall: (not outfall.confirmed, outfall.kind is OutfallKind.UNKNOWN)
    )
    added = () if known else _soft_outfall(survey)
    path = f"site.channels.{len(survey.site.channels)}"
    name = free_name("Channel", {channel.name for channel in survey.site.channels})
    if None in names:
        return ()
    return (
        *added,
        FieldChange(f"{path}.name", name),
        FieldChange(f"{path}.start", str(names[0])),
        FieldChange(f"{path}.end", str(names[1])),
        FieldChange(f"{path}.state", GullyState.NEW.value),
        FieldChange(f"{path}.outfall", to or (known[0].name if known else _NEW_BORDER)),
    )


def _point_at(at: XY, survey: Survey) -> str | None:
    """Return the name of the point at a place."""
    near = (point.name for point in survey.points if abs(point.x_mm - at[0]) + abs(point.y_mm - at[1]) < _SAME_MM)
    return next(near, None)
