"""What a day holds at the most: by counts that always hold, and exactly, each question asked once."""

from __future__ import annotations

from collections import defaultdict
from functools import cached_property
from itertools import combinations
from typing import TYPE_CHECKING

from pavewright.crew_calendar._crews import can_send, wanted
from pavewright.job import Skill

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.crew_calendar._crews import Wanted
    from pavewright.crew_calendar._types import CalendarAsked, CrewMember, Pin
    from pavewright.job import PlantKind

Limit = tuple[tuple[int, ...], int]
"""What each kind of need counts, and the most that their sum may be on a day."""


class Limits:
    """Needs by their kind, days by who works on them, and what fits together.

    Two needs are of one kind where they ask for the same hands, skills, machines and people by name; two days are alike
    where the same people work on them.
    """

    def __init__(
        self, asked: CalendarAsked, pins: Mapping[tuple[str, int], Pin], at_hand: Sequence[tuple[CrewMember, ...]]
    ) -> None:
        """Number the kinds and the days.

        Args:
            asked: What is asked.
            pins: Pins by job and stretch.
            at_hand: Who works on each day.
        """
        self._plant: Mapping[PlantKind, int] = asked.plant
        numbers: dict[tuple[Wanted, tuple[PlantKind, ...]], int] = {}
        self.kinds: dict[tuple[str, int], tuple[int, ...]] = {}
        for job in asked.jobs:
            for stretch, each in enumerate(job.stretches):
                pin = pins.get((job.id, stretch))
                must = () if pin is None else pin.people
                self.kinds[job.id, stretch] = tuple(
                    numbers.setdefault((wanted(need, must), need.machines), len(numbers)) for need in each.days
                )
        self._of_kind = tuple(numbers)
        self.hands = tuple(want[0] for want, _ in self._of_kind)
        alike: dict[tuple[str, ...], int] = {}
        self.alike = tuple(alike.setdefault(tuple(one.id for one in people), len(alike)) for people in at_hand)
        crews: dict[int, tuple[CrewMember, ...]] = {}
        for number, people in zip(self.alike, at_hand, strict=True):
            crews.setdefault(number, people)
        self._crews = tuple(crews[number] for number in range(len(alike)))
        self._held: dict[tuple[int, tuple[int, ...]], bool] = {}

    def holds(self, day: int, kinds: tuple[int, ...]) -> bool:
        """Return whether a day has people and machines for needs of these kinds, in rising order, all at once."""
        key = self.alike[day], kinds
        found = self._held.get(key)
        if found is None:
            found = self._held[key] = self._asked(*key)
        return found

    def _asked(self, alike: int, kinds: tuple[int, ...]) -> bool:
        used: dict[PlantKind, int] = defaultdict(int)
        for kind in kinds:
            for machine in self._of_kind[kind][1]:
                used[machine] += 1
        if any(count > self._plant.get(machine, count) for machine, count in used.items()):
            return False
        return can_send(self._crews[alike], tuple(self._of_kind[kind][0] for kind in kinds))

    @cached_property
    def _limits(self) -> tuple[tuple[Limit, ...], ...]:
        return tuple(tuple(self._limits_of(people)) for people in self._crews)

    def limits(self, day: int) -> tuple[Limit, ...]:
        """Return counts that hold on a day whatever is arranged: nothing that is possible breaks one of them.

        They are hands; how many crews of a size fit at once, rounded down; people with a skill, or with one of two
        skills; machines.

        Source: definition, and rounding down of whole numbers
        """
        return self._limits[self.alike[day]]

    def _limits_of(self, people: Sequence[CrewMember]) -> list[Limit]:
        count = len(people)
        found = [(self.hands, count)]
        found += [
            (tuple(int(hands >= size) for hands in self.hands), count // size)
            for size in sorted({hands for hands in self.hands if hands > 1})
            if count % size
        ]
        asked = sorted({skill for want, _ in self._of_kind for skill in want[1]})
        for skills in [*combinations(asked, 1), *combinations(asked, 2)]:
            able = sum(bool({*skills, Skill.ANY} & set(one.skills)) for one in people)
            uses = tuple(int(bool(set(skills) & set(want[1]))) for want, _ in self._of_kind)
            if able < count:
                found.append((uses, able))
        for machine, has in sorted(self._plant.items()):
            uses = tuple(int(machine in machines) for _, machines in self._of_kind)
            if any(uses):
                found.append((uses, has))
        return found
