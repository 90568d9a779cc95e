"""The best starts of every area: where to begin, how to turn the courses and how wide to make the joints.

Starts are counted by the thousand, then the best of them are really laid and cut. Told is a short list of different
choices, each with the fields that bring it about, and how much was tried.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright.job import Fault, JobInvalid, Pattern
from pavewright.laying._figures import figures
from pavewright.laying._lay import lay_area
from pavewright.laying._quick import counts_in
from pavewright.laying.edges import clear_of_steps, parts_of
from pavewright.laying.mixed import MixedRefusal
from pavewright.laying.pieces import frame_of
from pavewright.laying.setting import mixed_fault, setting_of, with_mixed
from pavewright.laying.sheets import mixes_in
from pavewright.laying.starts._centred import centred
from pavewright.laying.starts._counted_ways import Way, counted_ways, each_once, finalists_of, laid_as, region_in
from pavewright.laying.starts._moved_circles import MovedCircle, circle_words, moved_circles
from pavewright.laying.starts._moved_edges import MovedEdge, moved_edges, moved_words
from pavewright.laying.starts._start_choices import Choice, choice_of, front, words_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.job import Job, Laying
    from pavewright.laying._figures import LayingFigures
    from pavewright.laying._types import LaidArea
    from pavewright.levels import Levels
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea, Survey


@dataclass(frozen=True)
class AreaStarts:
    """The starts of one area.

    Attributes:
        area: Name of the area.
        now: The area as the document has it laid.
        choices: Different choices, the one with fewest slivers and cuts first.
        starts_tried: How many starts were counted.
        turns_tried: How many directions of the courses.
        joints_tried: How many widths of joint.
        laid: How many starts were really laid and cut.
        words: What the search found, in a sentence.
        moved: The best move of every edge that may be moved and saves cuts.
        circles: The best place of every round part whose move saves cuts.
    """

    area: str
    now: Choice
    choices: tuple[Choice, ...]
    starts_tried: int
    turns_tried: int
    joints_tried: int
    laid: int
    words: str
    moved: tuple[MovedEdge, ...] = ()
    circles: tuple[MovedCircle, ...] = ()


def best_starts(
    job: Job,
    survey: Survey,
    rules: Rulebook,
    report: Callable[[str], None] | None = None,
    levels: Levels | None = None,
) -> tuple[AreaStarts, ...]:
    """Return the best starts of every area, the same ones on every run.

    Of an area with zones the rest is searched, zones stay as they are.

    Args:
        job: A job that was read and checked.
        survey: What was measured, adjusted.
        rules: The rulebook of its locality.
        report: Told what is tried before it is, for a progress line; may raise to stop the work.
        levels: Finished levels: what lies under steps is not laid then.
    """
    tell = report or (lambda _: None)
    found, known = [], figures(rules)
    cleared = tuple(clear_of_steps(area, levels)[0] for area in survey.site.areas)
    survey = replace(survey, site=replace(survey.site, areas=cleared))
    for number, area in enumerate(cleared):
        parts = parts_of(number, area, survey)
        if isinstance(parts, Fault):
            raise JobInvalid((parts,))
        one = _area_starts(job, parts[-1].area, survey, known, tell)
        tell(f"{area.name}: places of round parts")
        found.append(_with_circles(one, job, number, survey, known))
    return tuple(found)


def _with_circles(one: AreaStarts, job: Job, number: int, survey: Survey, known: LayingFigures) -> AreaStarts:
    """Return the starts of an area with the best places of its round parts."""
    mixed = job.areas[number].laying.pattern is Pattern.MIXED

    def cuts_round(area: PlanArea) -> tuple[int, int] | None:
        if mixed:
            try:
                laid = _laid(job, area, area.area.laying, survey, known)
            except JobInvalid:
                return None  # no mix keeps to every rule round that place
            return laid.unlayable, laid.cut
        counts = counts_in(job, area, survey, known)
        return None if counts is None else (counts.too_narrow, counts.cut)

    moved, tried = moved_circles(job, number, survey, cuts_round, *((_MIXED_STEPS,) if mixed else ()))
    return replace(one, circles=moved, words=one.words + circle_words(one.area, moved, tried))


_MIXED_STEPS = 5
"""Mixed sizes are laid anew for every place of a round part: fewer places are tried."""


def _number(job: Job, area: PlanArea) -> int:
    """Return the number of an area in the document."""
    return next(number for number, each in enumerate(job.areas) if each.name == area.name)


def _area_starts(
    job: Job, area: PlanArea, survey: Survey, known: LayingFigures, tell: Callable[[str], None]
) -> AreaStarts:
    laying = area.area.laying
    now = _laid(job, area, laying, survey, known)
    if laying.pattern is Pattern.MIXED:
        return _mixed_starts(job, area, survey, known, now)
    if laying.pattern is Pattern.RINGS:
        here = choice_of(laying, now, laying, ())
        words = f"{area.name} is laid in rings about a point: there is no other start."
        return AreaStarts(area.name, here, (here,), 0, 0, 0, 1, words)
    counted = counted_ways(job, area, survey, known, tell)
    setting = setting_of(job, area, frame_of(area, survey), region_in(area, survey))
    even = [Way((0.0, 0.0, 0.0), each) for each in centred(area, setting)]
    finalists = each_once([*finalists_of(counted.ways), *even])
    tell(f"{area.name}: laying and cutting {len(finalists)} starts")
    laid = [(way.laying, _laid(job, area, way.laying, survey, known)) for way in finalists]
    choices = front([(laying, now), *laid], laying)
    here = choice_of(laying, now, laying, ())
    tell(f"{area.name}: edges that may be moved")
    moved, moves = moved_edges(job, area, survey, known, now, lambda each: _laid(job, each, laying, survey, known))
    tried = counted.starts, counted.turns, counted.joints
    words = words_of(here, choices, (*tried, len(laid)))
    words += moved_words(area.name, moved, here.cut, here.units_with_offcuts, moves)
    return AreaStarts(area.name, here, choices, *tried, len(laid), words, moved)


def _mixed_starts(job: Job, area: PlanArea, survey: Survey, known: LayingFigures, now: LaidArea) -> AreaStarts:
    """Return the best mixes of an area in mixed sizes: its starts are its mixes."""
    laying = area.area.laying
    here = choice_of(laying, now, laying, ())
    if area.area.zones or (laying.pack is not None and laying.pack.laid):
        words = f"{area.name} lies in part already, or round other parts: no other mix is searched."
        return AreaStarts(area.name, here, (here,), 0, 0, 0, 1, words)
    offers = mixes_in(job, survey, area.name, known, tried=_MIXES)
    ways = [laying.model_copy(update={"mix": offer.mix}) for offer in offers]
    laid = [(laying, now), *((way, _laid(job, area, way, survey, known)) for way in ways)]
    choices = front(laid, laying)
    words = f"{_MIXES} mixes of {area.name} were filled and the best {len(ways)} laid and cut. No mix tried cuts fewer."
    return AreaStarts(area.name, here, choices, _MIXES, 1, 1, len(ways), words)


_MIXES = 20


def _laid(job: Job, area: PlanArea, laying: Laying, survey: Survey, known: LayingFigures) -> LaidArea:
    """Return an area really laid and cut."""
    changed = laid_as(area, laying)
    frame = frame_of(changed, survey)
    setting = with_mixed(setting_of(job, changed, frame, region_in(changed, survey)), changed, known)
    if isinstance(setting, MixedRefusal):
        raise JobInvalid((mixed_fault(f"areas.{_number(job, area)}.laying", area.name, setting),))
    return lay_area(changed, frame, setting, known)
