"""Who goes where on one day: every job its hands and its skills, nobody in two places."""

from __future__ import annotations

from functools import lru_cache
from itertools import combinations
from typing import TYPE_CHECKING

from pavewright.job import Skill

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pavewright.crew_calendar._types import CrewMember, DayNeed

Wanted = tuple[int, tuple[Skill, ...], tuple[str, ...], tuple[str, ...], tuple[str, ...]]
"""Hands, skills, who has to be there, who would be there rather than others, who else does not change place for it."""


def wanted(need: DayNeed, must: Sequence[str] = (), rather: Sequence[str] = (), near: Sequence[str] = ()) -> Wanted:
    """Return what a day of a job wants of people."""
    return need.hands, need.skills, tuple(must), tuple(rather), tuple(near)


@lru_cache(maxsize=200_000)
def day_crews(people: tuple[CrewMember, ...], wants: tuple[Wanted, ...]) -> tuple[tuple[str, ...], ...] | None:
    """Return who goes where, None where they are too few or lack a skill.

    Every choice is tried, those who would rather be there first: what is None is not possible.

    Args:
        people: Who works on the day.
        wants: What each job wants.
    """
    if not can_send(people, wants):
        return None
    # who has few to choose from chooses first
    order = sorted(range(len(wants)), key=lambda place: (-len(wants[place][2]), -len(wants[place][1]), place))
    claimed = {one for want in wants for one in want[2]}
    found = _assigned(people, [wants[place] for place in order], claimed)
    if found is None:
        return None
    by_place = dict(zip(order, found, strict=True))
    return tuple(by_place[place] for place in range(len(wants)))


def can_send(people: tuple[CrewMember, ...], wants: tuple[Wanted, ...]) -> bool:
    """Return whether there is anybody to send everywhere, without saying whom.

    People with the same skills are alike here, and only those that a skill is asked of are chosen: the rest of a crew
    is whoever is left.

    Args:
        people: Who works on the day.
        wants: What each job wants.
    """
    claimed = [one for want in wants for one in want[2]]
    at_hand = {one.id: one for one in people}
    if sum(want[0] for want in wants) > len(people) or len(set(claimed)) < len(claimed):
        return False
    asked = []
    for hands, skills, must, *_ in wants:
        if len(must) > hands or any(one not in at_hand for one in must):
            return False
        having = {skill for one in must for skill in at_hand[one].skills}
        left = frozenset() if Skill.ANY in having else frozenset(skills) - having
        if left:
            asked.append((hands - len(must), left))
    every = frozenset().union(*(left for _, left in asked))
    counts: dict[frozenset[Skill], int] = {}
    for one in people:
        if one.id not in claimed:
            able = every if Skill.ANY in one.skills else every & set(one.skills)
            counts[able] = counts.get(able, 0) + 1
    counts.pop(frozenset(), None)
    asked.sort(key=lambda each: (-len(each[1]), sorted(each[1]), each[0]))
    return _covered(counts, asked)


def _covered(counts: dict[frozenset[Skill], int], asked: list[tuple[int, frozenset[Skill]]]) -> bool:
    """Return whether every crew gets its skills: whoever has fewest is chosen first, and every choice is tried."""
    if not asked:
        return True
    (hands, skills), rest = asked[0], asked[1:]
    if not skills:
        return _covered(counts, rest)
    if not hands:
        return False
    skill = min(skills)
    for able in sorted((able for able in counts if skill in able), key=lambda each: (len(each), sorted(each))):
        if not counts[able]:
            continue
        counts[able] -= 1
        done = _covered(counts, [(hands - 1, skills - able), *rest])
        counts[able] += 1
        if done:
            return True
    return False


def _assigned(people: tuple[CrewMember, ...], wants: list[Wanted], claimed: set[str]) -> list[tuple[str, ...]] | None:
    if not wants:
        return []
    first, rest = wants[0], wants[1:]
    for crew in _crews(people, first, claimed):
        left = tuple(one for one in people if one.id not in crew)
        if not can_send(left, tuple(rest)):
            continue
        others = _assigned(left, rest, claimed)
        if others is not None:
            return [tuple(sorted(crew)), *others]
    return None


def _crews(people: tuple[CrewMember, ...], want: Wanted, claimed: set[str]) -> Iterator[frozenset[str]]:
    """Give the crews that do for one job, the likeliest first; who is wanted by name elsewhere is left there."""
    hands, skills, must, rather, near = want
    at_hand = {one.id: one for one in people}
    if any(one not in at_hand for one in must) or len(must) > hands:
        return
    # somebody with fewer skills is missed less elsewhere
    free = sorted(
        (one for one in people if one.id not in claimed),
        key=lambda one: (
            one.id not in rather,
            one.id not in near,
            not set(one.skills) & set(skills),
            len(one.skills),
            one.id,
        ),
    )
    for others in combinations(free, hands - len(must)):
        crew = (*(at_hand[one] for one in must), *others)
        if all(any(skill in one.skills or Skill.ANY in one.skills for one in crew) for skill in skills):
            yield frozenset(one.id for one in crew)
