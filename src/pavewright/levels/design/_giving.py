"""What an option of a clash of levels changes in the job document."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.findings import FieldChange, one_in_within
from pavewright.levels.design._bounds import tie_in_path
from pavewright.levels.design._rule import FRAMES, RuleKind

if TYPE_CHECKING:
    from pavewright.job import Folding
    from pavewright.levels.design._bounds import Bound
    from pavewright.survey import PlanArea, Survey

_STEEPEST, _FLATTEST = 1.0 / 5.0, 0.001
"""A job takes falls of 1 in 5 to one millimetre in a metre."""


def by_tenths(off_mm: float) -> float:
    """Return a height rounded up to a tenth. [mm]."""
    return math.ceil(off_mm * 10.0 - _ROUNDING) / 10.0


_ROUNDING = 1e-6
"""Rounding of the arithmetic. [tenths of a millimetre]"""


def fold_as(area: PlanArea, kind: Folding) -> tuple[FieldChange, ...]:
    """Return the changes that fold an area in another way."""
    return (FieldChange(f"{area.path}.fall.folding", kind.value),)


def fall_of(area: PlanArea, fall: float, *, flatter: bool) -> tuple[FieldChange, ...]:
    """Return the changes that give an area another main fall; none where the job cannot hold it.

    Args:
        area: The area.
        fall: Its new main fall. [rise over run]
        flatter: Whether the written fall is at most this one; else at least.
    """
    return _one_in(area, "one_in", fall, flatter=flatter)


def _one_in(area: PlanArea, field: str, fall: float, *, flatter: bool) -> tuple[FieldChange, ...]:
    if not _FLATTEST < fall < _STEEPEST:
        return ()
    return (FieldChange(f"{area.path}.fall.{field}", one_in_within(fall, flatter=flatter)),)


_FALLS = {
    RuleKind.MIN_FALL: ("one_in", True),
    RuleKind.VALLEY_FALL: ("valley_one_in", True),
    RuleKind.STEEPEST: ("steepest_one_in", False),
}
"""Field of the job document for each rule of falls, and whether it gives way to a flatter fall."""


def rule_given(area: PlanArea, kind: RuleKind, fall: float) -> tuple[FieldChange, ...]:
    """Return the changes by which a rule of falls gives way down, or up, to a fall.

    Args:
        area: The area.
        kind: Which rule of falls.
        fall: The fall to which it gives way. [rise over run]
    """
    field, flatter = _FALLS[kind]
    if not _FLATTEST < fall < _STEEPEST:
        return ()
    run = one_in_within(fall, flatter=flatter)
    # a whole n leaves the planes a little room to turn in, which the design then looks for from the start
    whole = float(math.ceil(run) if flatter else math.floor(run))
    return (FieldChange(f"{area.path}.fall.{field}", whole),)


def thing_given(bound: Bound, off_mm: float, *, upward: bool) -> tuple[FieldChange, ...]:
    """Return the changes by which one thing gives way; none where a person has to say how.

    Args:
        bound: The limit of the thing.
        off_mm: How far it gives way. [mm]
        upward: Whether the paving lies too high for it.
    """
    by = by_tenths(off_mm)
    if bound.kind in FRAMES:
        return (FieldChange(f"{bound.path}.fixed", value=False),)
    if bound.kind is RuleKind.DOOR_REACH:
        return (FieldChange(f"{bound.path}.max_step_mm", bound.fixed_mm - bound.low_mm + by),)
    if bound.kind is RuleKind.DOOR:
        least = bound.fixed_mm - bound.high_mm - by
        return (FieldChange(f"{bound.path}.min_step_mm", least),) if least >= 0.0 and upward else ()
    return ()


def edge_relaid(bound: Bound, off_mm: float, survey: Survey, *, upward: bool) -> tuple[FieldChange, ...]:
    """Return the changes by which an existing edge is relaid higher or lower as a whole."""
    tie = next(tie for number, tie in enumerate(survey.site.tie_ins) if tie_in_path(number) == bound.path)
    if tie.start_level_mm is None or tie.end_level_mm is None:
        return ()
    by = by_tenths(off_mm) * (1.0 if upward else -1.0)
    return (
        FieldChange(f"{bound.path}.start_level_mm", tie.start_level_mm + by),
        FieldChange(f"{bound.path}.end_level_mm", tie.end_level_mm + by),
    )
