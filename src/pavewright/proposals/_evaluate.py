"""One plan, evaluated: from the document of a job with variations to its figures."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.job import JobInvalid, parse
from pavewright.laying import counted_start
from pavewright.pipeline import Room, plan_rooms
from pavewright.proposals._figures import ROOMS, figures_json, figures_of
from pavewright.proposals._variations import with_starts
from pavewright.survey import survey_so_far

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.job import Job
    from pavewright.rules import Rulebook


def evaluated(asked: dict[str, Any], rules_of: Callable[[Job], Rulebook]) -> dict[str, Any]:
    """Return the figures of one plan, the same for the same question on every machine.

    Every room is made from which price, days or a stop come. Pegs, strings and hold points are not: they change no
    figure and bring no stop.

    Starts that are asked for are searched on the job with everything else that is varied, and come back as fields of
    the laying.

    Args:
        asked: ``document``, a job with what the book gives it, and ``starts``: place of the area, direction and rank of
            each start that is searched for.
        rules_of: Gives the rulebook of a job.

    Returns:
        ``figures``, None where there is no such plan, and ``starts``: place of the area and the fields of its laying.
    """
    document = asked["document"]
    try:
        job = parse(document)
        rules = rules_of(job)
        starts = []
        for number, turn, rank in asked["starts"]:
            fields = _start(job, rules, number, turn, rank)
            if fields is None:
                return {"figures": None, "starts": []}
            starts.append([number, dict(fields)])
        if starts:
            document = with_starts(document, starts)
            job = parse(document)
    except (JobInvalid, LookupError, TypeError, AttributeError):  # the variations make no job
        return {"figures": None, "starts": []}
    made = plan_rooms(job, rules, ROOMS)
    return {"figures": figures_json(figures_of(made, rules)), "starts": starts}


def _start(job: Job, rules: Rulebook, number: int, turn: int, rank: int) -> tuple[tuple[str, Any], ...] | None:
    """Return the fields of a start; None where the area has none of that direction and rank."""
    if job.steps:
        made = plan_rooms(job, rules, (Room.LEVELS,))
        return counted_start(job, made.survey, rules, number, (turn, rank), made.levels)
    survey, _ = survey_so_far(job, rules)
    return counted_start(job, survey, rules, number, (turn, rank))
