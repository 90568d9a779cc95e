"""Sums of the programme: the critical path of a network, and the shortest schedule under limits."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.programme._cpm import LoopError, critical_path
from pavewright.programme._limited import Activity
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

if TYPE_CHECKING:
    from collections.abc import Sequence

_NONE = "-"
_MAX_ACTIVITIES = 60
_LONGEST = 1000.0


def critical_path_of(durations: tuple[float, ...], after: tuple[str, ...]) -> dict[str, Value]:
    """Return the earliest and latest times of the activities of a network, and its critical path.

    Source: definition, forward and backward pass
    """
    links = _links(after, len(durations))
    if min(durations, default=0.0) < 0.0:
        message = "No activity takes less than no time: check the durations."
        raise SumRefusedError(message)
    try:
        timed = critical_path(durations, links)
    except LoopError:
        message = "Some activities wait for each other in a ring: check what each one comes after."
        raise SumRefusedError(message) from None
    return {
        "length": max(each.early_finish for each in timed),
        "early_starts": tuple(each.early_start for each in timed),
        "early_finishes": tuple(each.early_finish for each in timed),
        "late_starts": tuple(each.late_start for each in timed),
        "late_finishes": tuple(each.late_finish for each in timed),
        "total_floats": tuple(each.total_float for each in timed),
        "free_floats": tuple(each.free_float for each in timed),
        "critical": tuple(float(number) for number, each in enumerate(timed, start=1) if each.critical),
    }


def limited_schedule_of(
    durations: tuple[float, ...],
    after: tuple[str, ...],
    people: tuple[float, ...],
    crew: float,
    plant: tuple[float, ...] = (),
    machines: float = 0.0,
) -> dict[str, Value]:
    """Return the shortest schedule of activities that share a crew, or the best found with the length none undercuts.

    Source: definition, whole-number programme over starts
    """
    links = _links(after, len(durations))
    plant = plant or (0.0,) * len(durations)
    _refuse_impossible(durations, people, crew, plant, machines)
    activities = [
        Activity(int(length), link, (int(hands), int(each)))
        for length, link, hands, each in zip(durations, links, people, plant, strict=True)
    ]
    from pavewright.programme._exact import shortest_schedule  # noqa: PLC0415 - the solver is loaded when it is asked

    try:
        found = shortest_schedule(activities, (int(crew), int(machines)))
    except LoopError:
        message = "Some activities wait for each other in a ring: check what each one comes after."
        raise SumRefusedError(message) from None
    return {
        "length": float(found.length),
        "bound": float(found.bound),
        "proven": "yes" if found.proven else "no",
        "starts": tuple(float(start) for start in found.starts),
    }


def _refuse_impossible(
    durations: tuple[float, ...], people: tuple[float, ...], crew: float, plant: tuple[float, ...], machines: float
) -> None:
    """Refuse rows that do not fit each other, and work that can never be done."""
    if not len(durations) == len(people) == len(plant):
        message = f"Give as many entries of people and of plant as durations: {len(durations)}."
        raise SumRefusedError(message)
    if len(durations) > _MAX_ACTIVITIES or max(durations) > _LONGEST:
        message = f"At most {_MAX_ACTIVITIES} activities, none longer than {_LONGEST:g} units of time."
        raise SumRefusedError(message)
    if any(not float(each).is_integer() or each < 0.0 for each in (*durations, *people, *plant, crew, machines)):
        message = "Durations, people, crew, plant and machines are whole numbers, zero or more."
        raise SumRefusedError(message)
    if max(people) > crew or max(plant) > machines:
        message = "One activity takes more people or machines than there are: it can never be done."
        raise SumRefusedError(message)


def _links(after: tuple[str, ...], count: int) -> Sequence[tuple[int, ...]]:
    """Return what each activity waits for, from words such as 1+3, or - for nothing."""
    if count == 0 or len(after) != count:
        message = f"Give one entry of after for each duration: {count}, not {len(after)}."
        raise SumRefusedError(message)
    found = []
    for number, words in enumerate(after, start=1):
        parts = [] if words.strip() in {"", _NONE} else [part.strip() for part in words.split("+")]
        if not all(part.isdecimal() and part.isascii() and 1 <= int(part[:9]) <= count for part in parts):
            message = f"Activity {number} comes after {words!r:.40}: write numbers from 1 to {count}, as 1+3, or -."
            raise SumRefusedError(message)
        found.append(tuple(int(part) - 1 for part in parts))
    return found


_AFTER = Quantity("after", "", "numbers of the activities that each comes after, as 1+3; - for none", kind="words")

SUMS: tuple[Sum, ...] = (
    Sum(
        "critical-path",
        "Find the critical path and the float of every activity",
        (Quantity("durations", "", "how long each activity takes, any unit of time", kind="numbers"), _AFTER),
        (
            Quantity("length", "", "from the first start to the last finish"),
            Quantity("early_starts", "", "earliest start of each", kind="numbers"),
            Quantity("early_finishes", "", "earliest finish of each", kind="numbers"),
            Quantity("late_starts", "", "latest start of each that keeps the end", kind="numbers"),
            Quantity("late_finishes", "", "latest finish of each that keeps the end", kind="numbers"),
            Quantity("total_floats", "", "how much later each may start and the end is kept", kind="numbers"),
            Quantity("free_floats", "", "how much later each may finish and nothing else moves", kind="numbers"),
            Quantity("critical", "", "numbers of the activities that delay the end", kind="numbers"),
        ),
        "early start = latest early finish before; late finish = earliest late start after; float = late − early start",
        "definition",
        critical_path_of,
    ),
    Sum(
        "limited-schedule",
        "Find the shortest schedule of activities that share a crew",
        (
            Quantity("durations", "", "how long each activity takes, whole units of time", kind="numbers"),
            _AFTER,
            Quantity("people", "", "people that each takes", kind="numbers"),
            Quantity("crew", "", "people at hand"),
            Quantity("plant", "", "machines that each takes; none where left out", kind="numbers", default=()),
            Quantity("machines", "", "machines at hand", default=0.0),
        ),
        (
            Quantity("length", "", "length of the best schedule found"),
            Quantity("bound", "", "no schedule is shorter"),
            Quantity("proven", "", "whether nothing shorter is possible", kind="word", choices=("yes", "no")),
            Quantity("starts", "", "start of each activity", kind="numbers"),
        ),
        "people at work ≤ crew and machines ≤ those at hand at any time; what comes first ends first; shortest of all",
        "definition",
        limited_schedule_of,
    ),
)
