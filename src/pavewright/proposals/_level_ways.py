"""Other levels of an area: which way it falls, how it is folded, and which of the drains of the job take its water."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from shapely.geometry import Point

from pavewright.findings import FieldChange
from pavewright.job import Folding, Hand
from pavewright.proposals._variations import Slot, SlotKind, Variation, VariationFacts, VariationKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job import Gully, Job
    from pavewright.pipeline import PlanSoFar

_QUARTERS = (90.0, 180.0, 270.0)
_FOLDINGS = (
    *(Folding.TO_HOUSE, Folding.VALLEY, Folding.CROSSED_VALLEY, Folding.TO_GULLY, Folding.RIDGE),
    *(Folding.MITRE, Folding.STEPPED, Folding.ONE_PLANE),
)


def level_ways(made: PlanSoFar, number: int) -> Iterator[Variation]:
    """Give other falls of an area.

    Args:
        made: The job as drawn, planned as far as its levels.
        number: Place of the area in the job.
    """
    fall = made.job.areas[number].fall
    gullies = gullies_in(made, number)
    if fall.folding is Folding.ONE_PLANE:
        yield from _directions(made, number)
        yield from _cross_falls(made.job, number)
        if gullies:
            yield _folded(made.job, number, Folding.CHEAPEST)
    else:
        for folding in _FOLDINGS:
            if folding is not fall.folding and (gullies or folding is not Folding.TO_GULLY):
                yield _folded(made.job, number, folding)
        yield from _other_gullies(made.job, number, gullies)


def gullies_in(made: PlanSoFar, number: int) -> tuple[Gully, ...]:
    """Return the gullies that stand in an area and take its water, as the job names them.

    Args:
        made: The job as drawn, with its survey.
        number: Place of the area in the job.
    """
    path = f"areas.{number}"
    area = next((each for each in made.survey.site.areas if each.path == path), None)
    if area is None:
        return ()
    ground = area.gross.polygon.buffer(1.0)
    standing = [each.gully for each in made.survey.site.gullies if ground.covers(Point(each.at))]
    return tuple(each for each in standing if each.takes_paving is not False)


def drain_ways(job: Job) -> Iterator[Variation]:
    """Give the job without one of the drains that it builds itself, where another one is left.

    Args:
        job: The job.
    """
    drains = [(place, "gullies", each.name, not each.is_existing) for place, each in enumerate(job.site.gullies)]
    drains += [
        (place, "channels", each.name, each.state is not None and each.state.value == "new")
        for place, each in enumerate(job.site.channels)
    ]
    if len(drains) <= 1:
        return
    for place, kind, name, new in drains:
        if new:
            gully = kind == "gullies"
            facts = VariationFacts(VariationKind.WITHOUT_GULLY if gully else VariationKind.WITHOUT_CHANNEL, name=name)
            slot = Slot(SlotKind.DRAIN, -1, place if gully else place + len(job.site.gullies))
            yield Variation(slot, facts, without=(kind, name))


def _directions(made: PlanSoFar, number: int) -> Iterator[Variation]:
    """Give the main fall turned by quarters."""
    area = made.job.areas[number]
    finished = None if made.levels is None else next((e for e in made.levels.areas if e.area == area.name), None)
    if finished is None:
        return
    x, y = finished.main_direction
    now = math.degrees(math.atan2(x, y))
    at = f"areas.{number}.fall"
    for turn in _QUARTERS:
        bearing = round((now + turn) % 360.0, 3) % 360.0
        facts = VariationFacts(VariationKind.FALL, area.name, value=turn)
        changes = (FieldChange(f"{at}.away_from", None), FieldChange(f"{at}.bearing_deg", bearing))
        yield Variation(Slot(SlotKind.FALL, number), facts, changes)


def _cross_falls(job: Job, number: int) -> Iterator[Variation]:
    """Give the cross fall to the other side, and none."""
    area = job.areas[number]
    if area.fall.cross_one_in is None:
        return
    other = Hand.LEFT if area.fall.cross_to is Hand.RIGHT else Hand.RIGHT
    facts = VariationFacts(VariationKind.CROSS_TO, area.name, option=other.value)
    change = FieldChange(f"areas.{number}.fall.cross_to", other.value)
    yield Variation(Slot(SlotKind.CROSS_FALL, number), facts, (change,))
    facts = VariationFacts(VariationKind.NO_CROSS_FALL, area.name)
    change = FieldChange(f"areas.{number}.fall.cross_one_in", None)
    yield Variation(Slot(SlotKind.CROSS_FALL, number), facts, (change,))


def _folded(job: Job, number: int, folding: Folding) -> Variation:
    facts = VariationFacts(VariationKind.FOLDING, job.areas[number].name, option=folding.value)
    return Variation(Slot(SlotKind.FALL, number), facts, (FieldChange(f"areas.{number}.fall.folding", folding.value),))


def _other_gullies(job: Job, number: int, gullies: tuple[Gully, ...]) -> Iterator[Variation]:
    """Give the folds led to another gully of the area."""
    area = job.areas[number]
    now = area.fall.gully or (gullies[0].name if gullies else None)
    for each in gullies:
        if each.name != now:
            facts = VariationFacts(VariationKind.GULLY_CHOSEN, area.name, name=each.name, other=now or "")
            change = FieldChange(f"areas.{number}.fall.gully", each.name)
            yield Variation(Slot(SlotKind.FALL, number), facts, (change,))
