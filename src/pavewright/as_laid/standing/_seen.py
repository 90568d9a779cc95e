"""What was seen on the paving itself: water of a hose test against what readings foretell, and gratings by a rule."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.as_laid._verdicts import Verdict, within

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.as_laid.standing._types import AreaStanding, Pond
    from pavewright.geometry import XY
    from pavewright.job import Job
    from pavewright.rules import Figure, Rulebook


class HoseOutcome(StrEnum):
    """What a hose test says beside the readings."""

    STOOD_AS_TOLD = "stood_as_told"
    STOOD_NOT_TOLD = "stood_not_told"
    DRY_AS_TOLD = "dry_as_told"
    DRY_THOUGH_TOLD = "dry_though_told"
    NOT_LOOKED_AT = "not_looked_at"


@dataclass(frozen=True, slots=True)
class HoseFound:
    """One place of a hose test beside what the readings foretell.

    Attributes:
        test: Name of the test.
        area: Name of its area.
        mark: Name of the mark; empty for a pond at which none was made.
        at: Where. [mm]
        depth_mm: Depth found; None where nobody looked. [mm]
        chance: Chance of standing water that the readings give it; None where they say nothing. [-]
        pond: Number of the pond near it; None where none is told there.
        outcome: What it says beside the readings.
    """

    test: str
    area: str
    mark: str
    at: XY
    depth_mm: float | None
    chance: float | None
    pond: int | None
    outcome: HoseOutcome


@dataclass(frozen=True, slots=True)
class DrainFound:
    """How finished paving stands above a grating.

    Attributes:
        mark: Name of the mark.
        drain: Name of the drain.
        place: Where along it.
        above_mm: How far the paving stands above the grating; below zero where it lies lower. [mm]
        min_mm: It stands no less above. [mm]
        max_mm: And no more. [mm]
        verdict: Pass, fail or inconclusive.
    """

    mark: str
    drain: str
    place: str
    above_mm: float
    min_mm: float
    max_mm: float
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class GratingFigures:
    """How finished paving is to stand above a grating.

    Attributes:
        min_above: It stands no less above.
        max_above: And no more.
        rule_sd: Standard deviation of what a rule from a straight edge shows.
    """

    min_above: Figure
    max_above: Figure
    rule_sd: Figure


def grating_figures(rules: Rulebook) -> GratingFigures:
    """Return how finished paving is to stand above a grating."""
    return GratingFigures(
        rules.figure("as_laid.above_grating_min_mm"),
        rules.figure("as_laid.above_grating_max_mm"),
        rules.figure("as_laid.grating_rule_sd_mm"),
    )


def drains_found(job: Job, rules: Rulebook) -> tuple[DrainFound, ...]:
    """Return how finished paving stands above each grating that was read."""
    held = grating_figures(rules)
    low, high = held.min_above.value, held.max_above.value
    middle, half = (low + high) / 2.0, (high - low) / 2.0
    return tuple(
        DrainFound(
            each.name,
            each.drain,
            each.place,
            each.above_mm,
            low,
            high,
            within(each.above_mm - middle, half, held.rule_sd.value),
        )
        for each in job.drain_marks
    )


def hose_found(job: Job, areas: Sequence[AreaStanding]) -> tuple[HoseFound, ...]:
    """Return every place of every hose test beside what the readings foretell.

    A pond that is told and at which nothing was noted counts as dry only where the whole area was wetted and looked at.
    """
    told = {each.area: each for each in areas}
    found: list[HoseFound] = []
    for test in job.hose_tests:
        area = told.get(test.area)
        ponds = () if area is None else area.ponds
        near: set[int] = set()
        for mark in test.marks:
            at = mark.x_mm, mark.y_mm
            pond = _nearest(ponds, at)
            if pond is not None:
                near.add(pond.number)
            chance = None if area is None else _chance_at(area, at)
            number = None if pond is None else pond.number
            outcome = _outcome(mark.depth_mm, told=pond is not None)
            found.append(HoseFound(test.name, test.area, mark.name, at, mark.depth_mm, chance, number, outcome))
        looked = test.all_wet and test.all_seen
        for pond in ponds:
            if pond.number not in near:
                outcome = HoseOutcome.DRY_THOUGH_TOLD if looked else HoseOutcome.NOT_LOOKED_AT
                depth = 0.0 if looked else None
                found.append(HoseFound(test.name, test.area, "", pond.at, depth, pond.chance, pond.number, outcome))
    return tuple(found)


def _outcome(depth_mm: float, *, told: bool) -> HoseOutcome:
    if depth_mm > 0.0:
        return HoseOutcome.STOOD_AS_TOLD if told else HoseOutcome.STOOD_NOT_TOLD
    return HoseOutcome.DRY_THOUGH_TOLD if told else HoseOutcome.DRY_AS_TOLD


_SAME_MM = 700.0
"""A mark this near to a pond is of that pond. [mm]"""


def _nearest(ponds: Sequence[Pond], at: XY) -> Pond | None:
    by = [(math.dist(each.at, at), each.number, each) for each in ponds]
    away, _, pond = min(by, default=(math.inf, 0, None))
    return pond if away <= _SAME_MM else None


def _chance_at(area: AreaStanding, at: XY) -> float | None:
    """Return the chance that the readings give a place; None where they say nothing. [-]."""
    column = int((at[0] - area.corner[0]) // area.cell_mm)
    row = int((at[1] - area.corner[1]) // area.cell_mm)
    rows, columns = area.chances.shape
    if not (0 <= row < rows and 0 <= column < columns):
        return None
    chance = float(area.chances[row, column])
    return None if math.isnan(chance) else chance
