"""How high an area lies: the highest plane that keeps every limit, or the least bad one and what clashes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.geometry import Plane, prism_volumes
from pavewright.job import Fault, Wanted
from pavewright.levels.design._rule import RuleKind
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.levels.design._bounds import Bound
    from pavewright.levels.design._falls import Falls
    from pavewright.survey import PlanArea, Survey

SLACK_MM = 1e-6
"""Rounding of the arithmetic, not of the trade. [mm]"""


@dataclass(frozen=True, slots=True)
class Height:
    """The plane of an area and what decided it.

    Attributes:
        plane: The plane.
        deciding: The bound that decided, if one did.
        fixed_by: In words.
        broken: Bounds that it does not keep.
        working: The sum.
    """

    plane: Plane
    deciding: Bound | None
    fixed_by: str
    broken: tuple[Bound, ...]
    working: Working


def place(area: PlanArea, falls: Falls, limits: tuple[Bound, ...], survey: Survey, path: str) -> Height | Fault:
    """Return the height of an area, or a fault where nothing fixes it."""
    wish = area.area.fall
    origin = area.gross.centre_mm
    flat = falls.plane(origin, 0.0)
    if wish.level_at is not None and wish.level_mm is not None:
        at = survey.point(wish.level_at).xy
        level = wish.level_mm - flat.level_at(at)
        words = f"{units.metres_text(wish.level_mm)} m at {wish.level_at}, as asked"
        return _height(flat.lowered(-level), None, words, limits)
    if not limits:
        return _with_the_ground(area, flat, survey, path)
    lows = [(bound.low_mm - flat.level_at(bound.at), bound) for bound in limits]
    highs = [(bound.high_mm - flat.level_at(bound.at), bound) for bound in limits]
    low, low_bound = max(lows, key=lambda entry: entry[0])
    high, high_bound = min(highs, key=lambda entry: entry[0])
    ceiling = min((level for level, bound in highs if bound.locked), default=math.inf)
    if high < low - SLACK_MM:
        # nothing keeps every limit: what may not be relaxed is kept, else the error is shared
        level = min(ceiling, (low + high) / 2.0) if not high_bound.locked else ceiling
        deciding = min(highs, key=lambda entry: entry[0] if entry[1].locked else math.inf)[1]
        deciding = deciding if level == ceiling else high_bound
        return _height(flat.lowered(-level), deciding, _words(deciding), limits)
    wanted = [(want - flat.level_at(bound.at), bound) for bound in limits if (want := bound.wants_mm) is not None]
    if wanted:
        level = min(max(sum(level for level, _ in wanted) / len(wanted), low), high)
        deciding = min(wanted, key=lambda entry: abs(entry[0] - level))[1]
    elif math.isinf(high):
        level, deciding = low, low_bound
    else:
        level, deciding = high, high_bound
    return _height(flat.lowered(-level), deciding, _words(deciding), limits)


def _words(bound: Bound) -> str:
    if bound.kind in {RuleKind.DPC, RuleKind.AIR_BRICK}:
        what = "the damp-proof course of " if bound.kind is RuleKind.DPC else ""
        return f"{bound.fixed_mm - bound.high_mm:.0f} mm below {what}{bound.thing}"
    if bound.kind is RuleKind.DOOR:
        return f"step down at {bound.thing}"
    if bound.kind is RuleKind.DOOR_REACH:
        return f"greatest step at {bound.thing}"
    return f"meeting {bound.thing}"


def _height(plane: Plane, deciding: Bound | None, words: str, limits: tuple[Bound, ...]) -> Height:
    broken = tuple(
        bound for bound in limits if not bound.low_mm - SLACK_MM <= plane.level_at(bound.at) <= bound.high_mm + SLACK_MM
    )
    if deciding is None:
        working = Working(f"level in the middle = {plane.level_mm:.1f}", plane.level_mm, "mm", (), words)
    else:
        level = plane.level_at(deciding.at)
        working = Working(
            f"finished level = {deciding.fixed_mm:.1f} − {deciding.fixed_mm - level:.1f}",
            level,
            "mm",
            () if deciding.figure is None else (deciding.figure,),
            words,
        )
    return Height(plane, deciding, words, broken, working)


def _with_the_ground(area: PlanArea, flat: Plane, survey: Survey, path: str) -> Height | Fault:
    """Return the plane that lies as high as the ground does in the mean."""
    if survey.ground is None:
        message = (
            f"Nothing fixes the height of area {area.name}: give the damp-proof course of a wall that it meets, a "
            f"tie-in, spot levels of the ground, or level_at with level_mm."
        )
        return Fault(path, message, Wanted.HEIGHT, area.name)
    volumes = prism_volumes(survey.ground, flat, area.gross)
    if volumes.area_m2 > 0.0:
        rise_mm = units.m_to_mm(volumes.net_m3 / volumes.area_m2)
    else:
        rise_mm = survey.ground.level_beyond(flat.origin_mm) - flat.level_at(flat.origin_mm)
    return _height(flat.lowered(-rise_mm), None, "the mean of the ground under it: as much above as below", ())
