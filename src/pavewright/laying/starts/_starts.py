"""The best starts of every area: where to begin, how to turn the courses and how wide to make the joints.

Starts are counted by the thousand, then the best of them are really laid and cut. Told is a short list of different
choices, each with the fields that bring it about, and how much was tried.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright.job import Fault, JobInvalid, Pattern, StartCorner, Taken
from pavewright.laying._figures import figures
from pavewright.laying._lay import lay_area
from pavewright.laying._quick import counts_in
from pavewright.laying.edges import clear_of_steps, parts_of
from pavewright.laying.mixed import MixedRefusal
from pavewright.laying.pieces import frame_of
from pavewright.laying.search import (
    NARROW_COST,
    best_shifts,
    borders_to_try,
    corners_to_try,
    field_of,
    joints_to_try,
    turns_to_try,
)
from pavewright.laying.setting import limits_of, mixed_fault, region_of, setting_of, with_mixed
from pavewright.laying.sheets import mixes_in
from pavewright.laying.starts._centred import centred
from pavewright.laying.starts._moved_circles import MovedCircle, circle_words, moved_circles
from pavewright.laying.starts._moved_edges import MovedEdge, moved_edges, moved_words
from pavewright.laying.starts._start_choices import Choice, choice_of, front, words_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from shapely.geometry import Polygon

    from pavewright.job import Job, Laying
    from pavewright.laying._figures import LayingFigures
    from pavewright.laying._types import LaidArea
    from pavewright.levels import Levels
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea, Survey

_MOST = 2_500
"""About so many starts are counted for each direction, corner and joint."""
_TURNS_KEPT = 3
"""Joints are tried in the present direction and in the best others, so many in all."""
_LAID = 10
"""So many starts are really laid and cut."""


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


@dataclass(frozen=True)
class _Way:
    """A laying that was counted: its score, its fields, and what it was counted for.

    Attributes:
        score: Pieces that count against it, slivers and narrow ones more than once; smallest size of a piece, negative;
            length of all saw cuts: the lowest is best. [-, mm, mm]
        laying: The laying.
    """

    score: tuple[float, float, float]
    laying: Laying


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
    bearing = frame_of(area, survey).bearing_deg
    turns = turns_to_try(area, laying, bearing)
    tried = 0
    ways: list[_Way] = []
    by_turn: list[tuple[tuple[float, float, float], float]] = []
    for turn in turns:
        tell(f"{area.name}: courses at {turn:.1f}°")
        for corner in corners_to_try(laying):
            found, count = _counted(job, area, _turned(laying, turn, bearing, corner), survey, known)
            tried += count
            ways += found
            by_turn.append((min(way.score for way in found), turn))
    others = [turn for _, turn in sorted(by_turn) if turn != bearing]
    joints = joints_to_try(job, laying)
    for turn in dict.fromkeys([bearing, *others][: _TURNS_KEPT + 1]):
        for joint in joints[1:]:
            tell(f"{area.name}: courses at {turn:.1f}°, joints of {joint:g} mm")
            changed = _turned(laying, turn, bearing, laying.start_corner).model_copy(update={"joint_mm": joint})
            found, count = _counted(job, area, changed, survey, known)
            tried += count
            ways += found
    for border in borders_to_try(job, laying):
        changed = laying.model_copy(update={"border": border})
        if not setting_of(job, _with(area, changed), frame_of(area, survey), _region(area, survey)).field:
            continue
        tell(f"{area.name}: {border.courses} courses of border")
        found, count = _counted(job, area, changed, survey, known)
        tried += count
        ways += found
    setting = setting_of(job, area, frame_of(area, survey), _region(area, survey))
    even = [_Way((0.0, 0.0, 0.0), each) for each in centred(area, setting)]
    finalists = _different([*_finalists(ways), *even])
    tell(f"{area.name}: laying and cutting {len(finalists)} starts")
    laid = [(way.laying, _laid(job, area, way.laying, survey, known)) for way in finalists]
    choices = front([(laying, now), *laid], laying)
    here = choice_of(laying, now, laying, ())
    tell(f"{area.name}: edges that may be moved")
    moved, moves = moved_edges(job, area, survey, known, now, lambda each: _laid(job, each, laying, survey, known))
    words = words_of(here, choices, (tried, len(turns), len(joints), len(laid)))
    words += moved_words(area.name, moved, here.cut, here.units_with_offcuts, moves)
    return AreaStarts(area.name, here, choices, tried, len(turns), len(joints), len(laid), words, moved)


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


def _region(area: PlanArea, survey: Survey) -> Polygon:
    region = region_of(area, frame_of(area, survey))
    assert region is not None  # noqa: S101 - the gap at the edge is not changed by the search
    return region


def _with(area: PlanArea, laying: Laying) -> PlanArea:
    return replace(area, area=area.area.model_copy(update={"laying": laying}))


def _laid(job: Job, area: PlanArea, laying: Laying, survey: Survey, known: LayingFigures) -> LaidArea:
    """Return an area really laid and cut."""
    changed = _with(area, laying)
    frame = frame_of(changed, survey)
    setting = with_mixed(setting_of(job, changed, frame, _region(changed, survey)), changed, known)
    if isinstance(setting, MixedRefusal):
        raise JobInvalid((mixed_fault(f"areas.{_number(job, area)}.laying", area.name, setting),))
    return lay_area(changed, frame, setting, known)


def _counted(job: Job, area: PlanArea, laying: Laying, survey: Survey, known: LayingFigures) -> tuple[list[_Way], int]:
    """Return the best starts of one direction, corner and joint by the count of the kernel, and how many were tried."""
    changed = _with(area, laying)
    frame = frame_of(changed, survey)
    setting = setting_of(job, changed, frame, _region(changed, survey))
    limits, layout = limits_of(setting, known), setting.layout
    found = best_shifts(field_of(setting.field, layout, limits), layout.period_mm, limits, _MOST, _LAID)
    wide, deep = layout.period_mm
    ways = []
    for (along, across), count in zip(found.shifts.tolist(), found.counts.tolist(), strict=True):
        x = laying.shift_along_mm + (-along if layout.from_right else along)
        y = laying.shift_across_mm + (-across if layout.from_far else across)
        if laying.pattern.traits.taken is not Taken.SEVERAL:
            x, y = x % wide, y % deep
        moved = laying.model_copy(update={"shift_along_mm": round(x, 2), "shift_across_mm": round(y, 2)})
        score = count[1] + 5.0 * count[2] + count[3] + NARROW_COST * count[6]
        ways.append(_Way((score, -min(count[4], wide), count[5]), moved))
    return ways, found.tried


def _turned(laying: Laying, turn: float, bearing: float, corner: StartCorner) -> Laying:
    """Return a laying with its courses in another direction; the line that they follow is kept, a turn added."""
    changed: dict[str, object] = {"start_corner": corner}
    if turn != bearing:
        turned = (laying.turn_deg + turn - bearing + 180.0) % 360.0 - 180.0
        changed["turn_deg"] = round(turned, 4)
    return laying.model_copy(update=changed)


def _finalists(ways: list[_Way]) -> list[_Way]:
    """Return the ways worth laying: the best of all, and the best of each direction and joint among them."""
    in_turn = sorted(ways, key=lambda way: way.score)
    best: dict[tuple[float, float, str], _Way] = {}
    for way in in_turn:
        best.setdefault((way.laying.turn_deg, way.laying.joint_mm, repr(way.laying.border)), way)
    return _different([*in_turn[: _LAID // 2], *best.values(), *in_turn])[:_LAID]


def _different(ways: list[_Way]) -> list[_Way]:
    """Return the ways, each laying once."""
    return list({way.laying.model_dump_json(): way for way in ways}.values())
