"""What of a job may be varied, slot by slot, and what is not tried."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.job import Folding, Pattern
from pavewright.pipeline import Room, build_ups_to_try, plan_rooms
from pavewright.proposals._edge_ways import edge_ways
from pavewright.proposals._laid_ways import laid_ways
from pavewright.proposals._level_ways import drain_ways, gullies_in, level_ways
from pavewright.proposals._variations import Slot, SlotKind, Variation, VariationFacts, VariationKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.firm import FirmBook
    from pavewright.job import Job
    from pavewright.pipeline import Missing, PlanSoFar
    from pavewright.rules import Rulebook


class Limit(StrEnum):
    """Something that is not tried, and is said."""

    TWO_GULLIES = "two_gullies"
    NO_NEW_DRAINS = "no_new_drains"
    MIXED_STARTS = "mixed_starts"
    ONE_SIZE = "one_size"
    NO_FREEDOM = "no_freedom"
    ACCEPTED = "accepted"


_MOVES_JOINTS = frozenset({SlotKind.UNIT, SlotKind.PATTERN, SlotKind.JOINT, SlotKind.BORDER, SlotKind.EDGE})


class NothingToVaryError(Exception):
    """Too little is known of a job to plan it another way.

    Attributes:
        missing: What has to be known first.
    """

    def __init__(self, missing: tuple[Missing, ...]) -> None:
        """Take what is missing."""
        self.missing = missing
        super().__init__("too little is known of this job")


@dataclass(frozen=True, slots=True)
class ToTry:
    """What may be varied.

    Attributes:
        slots: The variations of each slot, in a fixed order.
        limits: What is not tried.
    """

    slots: tuple[tuple[Slot, tuple[Variation, ...]], ...]
    limits: tuple[Limit, ...]

    @property
    def companions(self) -> tuple[int | None, ...]:
        """For each slot that moves joints the place of the slot of the start of its area: the two are varied together.

        Another joint with the old start leaves slivers; only with a start of its own can it be judged.
        """
        places = {slot: place for place, (slot, _) in enumerate(self.slots)}
        starts = [places.get(Slot(SlotKind.START, slot.number)) for slot, _ in self.slots]
        kinds = [slot.kind for slot, _ in self.slots]
        return tuple(start if kind in _MOVES_JOINTS else None for kind, start in zip(kinds, starts, strict=True))

    @property
    def count(self) -> int:
        """How many single variations there are."""
        return sum(len(ways) for _, ways in self.slots)


def to_try(job: Job, rules: Rulebook, book: FirmBook | None = None) -> ToTry:
    """Return what of a job may be varied: only what is the customer's own, and nothing without the room that it needs.

    Args:
        job: The job with what the book gives it.
        rules: Its rulebook.
        book: The firm's book, for its list of units.

    Raises:
        NothingToVaryError: it cannot be laid yet; says what is missing.
    """
    made = plan_rooms(job, rules, (Room.LAYING, Room.EARTHWORKS, Room.WATER))
    if made.laying is None:
        raise NothingToVaryError(made.why_not((Room.LAYING,)))
    found: dict[Slot, list[Variation]] = {}
    for each in _all(made, rules, book):
        found.setdefault(each.slot, []).append(each)
    return ToTry(tuple((slot, tuple(found[slot])) for slot in sorted(found)), tuple(_limits(made, found)))


def _all(made: PlanSoFar, rules: Rulebook, book: FirmBook | None) -> Iterator[Variation]:
    job = made.job
    for number in range(len(job.areas)):
        yield from laid_ways(job, book, number)
        yield from level_ways(made, number)
        yield from edge_ways(made, number)
        yield from _build_ups(made, rules, number)
    yield from drain_ways(job)


def _build_ups(made: PlanSoFar, rules: Rulebook, number: int) -> Iterator[Variation]:
    area = made.job.areas[number]
    for bedding, rule, changes in build_ups_to_try(made, rules, number):
        facts = VariationFacts(VariationKind.BUILD_UP, area.name, option=bedding.value, rule=rule.value)
        yield Variation(Slot(SlotKind.BUILD_UP, number), facts, changes)


def _limits(made: PlanSoFar, found: dict[Slot, list[Variation]]) -> Iterator[Limit]:
    """Give what is not tried of this job."""
    job = made.job
    several = any(len(gullies_in(made, number)) > 1 for number in range(len(job.areas)))
    if several or any(area.fall.folding is not Folding.ONE_PLANE for area in job.areas):
        yield Limit.TWO_GULLIES
    yield Limit.NO_NEW_DRAINS
    if any(area.laying.pattern in {Pattern.MIXED, Pattern.RINGS} for area in job.areas):
        yield Limit.MIXED_STARTS
    kinds = {slot.kind for slot in found}
    if SlotKind.UNIT not in kinds:
        yield Limit.ONE_SIZE
    if SlotKind.EDGE not in kinds:
        yield Limit.NO_FREEDOM
    if job.accepted is not None:
        yield Limit.ACCEPTED
