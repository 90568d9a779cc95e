"""One start of one area, found by counting alone: for who plans the whole job with it afterwards."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright.job import Fault, Pattern, StartCorner
from pavewright.laying._figures import figures
from pavewright.laying.edges import clear_of_steps, parts_of
from pavewright.laying.pieces import frame_of
from pavewright.laying.search import corners_to_try, turns_to_try
from pavewright.laying.starts._counted_ways import each_once, ways_of_one_direction

if TYPE_CHECKING:
    from pavewright.job import Job
    from pavewright.levels import Levels
    from pavewright.rules import Rulebook
    from pavewright.survey import Survey

_FIELDS = ("turn_deg", "start_corner", "shift_along_mm", "shift_across_mm")


def counted_start(
    job: Job, survey: Survey, rules: Rulebook, number: int, turn_and_rank: tuple[int, int], levels: Levels | None = None
) -> tuple[tuple[str, float | str], ...] | None:
    """Return the fields of a start that counts well, the same ones on every run; None where there is none.

    Args:
        job: A job that was read and checked.
        survey: What was measured, adjusted.
        rules: The rulebook of its locality.
        number: Place of the area in the job.
        turn_and_rank: Which direction of the courses, 0 as drawn, and which of its best starts, from 0.
        levels: Finished levels: what lies under steps is not laid then.
    """
    turn, rank = turn_and_rank
    cleared = tuple(clear_of_steps(area, levels)[0] for area in survey.site.areas)
    survey = replace(survey, site=replace(survey.site, areas=cleared))
    place = next((n for n, each in enumerate(cleared) if each.path == f"areas.{number}"), None)
    if place is None or job.areas[number].laying.pattern in {Pattern.MIXED, Pattern.RINGS}:
        return None
    parts = parts_of(place, cleared[place], survey)
    if isinstance(parts, Fault):
        return None
    area, known = parts[-1].area, figures(rules)
    laying = area.area.laying
    bearing = frame_of(area, survey).bearing_deg
    turns = turns_to_try(area, laying, bearing)
    if turn >= len(turns):
        return None
    ways = [
        way
        for corner in corners_to_try(laying)
        for way in ways_of_one_direction(job, area, (turns[turn], bearing, corner), survey, known)
    ]
    ranked = each_once(sorted(ways, key=lambda way: way.score))
    if rank >= len(ranked):
        return None
    found = ranked[rank].laying
    values = ((name, getattr(found, name)) for name in _FIELDS if getattr(found, name) != getattr(laying, name))
    return tuple((name, value.value if isinstance(value, StartCorner) else value) for name, value in values)
