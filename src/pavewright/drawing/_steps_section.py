"""A section through each flight of steps: risers, goings and levels, and what the flight is built of and stands on."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from pavewright.drawing._flight import BEHIND, NOT_LAID, Flight, flight_of
from pavewright.drawing._notes import Note, in_order, lines_of, spread
from pavewright.drawing._scene import HAIR, MEDIUM, THICK, Dimension, Hatch, Path, Region, Scene, Words, choose_scale
from pavewright.drawing._section_parts import Sketch, hatch_of, scale_bar
from pavewright.writing import level_mark, size_mark, thick

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.pipeline import Plan

_PAVING_MM = 420.0
"""How much paving is shown above and below a flight. [mm]"""
_UNIT_MM = 45.0
"""Drawn thickness of a unit of riser and tread: what is bought decides. [mm]"""
_GROUND_MM = 70.0
"""Drawn depth of the ground under the formation. [mm]"""
_ROOM_MM = (132.0, 88.0)
"""Room for the flight itself on paper, across and up. [mm]"""
_RIGHT_MM, _LEFT_MM = 66.0, 66.0
"""Room for the words right of a flight and left of it on paper. [mm]"""
_TYPE_MM = 2.9
_ENDS_MM = 0.5
"""Rises that differ by less are the same. [mm]"""


def step_sections(plan: Plan) -> tuple[Scene, ...]:
    """Return a section through every flight of steps, in the order of the job."""
    parts = {each.steps: each for each in plan.quantities.flights}
    return tuple(
        _section(flight_of(plan, steps, parts[steps.name]), number)
        for number, steps in enumerate(plan.levels.steps, start=1)
    )


def first_step_section(plan: Plan) -> Scene | None:
    """Return the section through the first flight; None where the job has no steps."""
    return next(iter(step_sections(plan)), None)


def _section(flight: Flight, number: int) -> Scene:
    steps = flight.steps
    left, right = -_PAVING_MM, flight.out_mm + _PAVING_MM
    formation = min(flight.foundation_mm[1], flight.below(right, flight.down.total_mm)[1])
    high, low = max(flight.nosings_mm[0], flight.above(left)[1]), formation - _GROUND_MM
    scale = max(5, choose_scale((right - left, high - low), _ROOM_MM))
    sketch = Sketch(scale)
    _ground(sketch, flight, left, right)
    _layers(sketch, flight, left, right)
    _concrete(sketch, flight)
    _units(sketch, flight)
    _right_words(sketch, flight, right, _levels(sketch, flight, right))
    _goings(sketch, flight, low)
    _left_words(sketch, flight, left)
    said = _to_know(flight)
    foot = low - sketch.mm(22.0 + 4.5 * len(said))
    edge = left - sketch.mm(_LEFT_MM - 3.0)
    for place, words in enumerate(said):
        at = (edge, foot + sketch.mm(7.0 + 4.5 * (len(said) - 1 - place)))
        sketch.add("notes", Words(at, words, _TYPE_MM, "start"))
    scale_bar(sketch, (edge, foot + sketch.mm(2.5)))
    bounds = (
        left - sketch.mm(_LEFT_MM),
        foot,
        right + sketch.mm(_RIGHT_MM),
        high + sketch.mm(8.0),
    )
    name = f"section-steps-{number}"
    return Scene(name, f"Section through {steps.name}", tuple(sketch.elements), bounds, scale, _about(flight))


def _ground(sketch: Sketch, flight: Flight, left: float, right: float) -> None:
    """Draw the ground behind the flight, under it and under both areas."""
    up, down = flight.up.total_mm, flight.down.total_mm
    ring = (
        flight.above(left, up),
        flight.above(0.0, up),
        flight.below(0.0, down),
        flight.below(right, down),
        flight.below(right, down + _GROUND_MM),
        flight.below(left, down + _GROUND_MM),
    )
    sketch.add("ground", Region((ring,), Hatch.GROUND))
    sketch.add("ground", Path((flight.above(left, up), flight.above(0.0, up), flight.below(0.0, down)), THICK))
    sketch.add("ground", Path((flight.below(0.0, down), flight.below(right, down)), THICK))


def _layers(sketch: Sketch, flight: Flight, left: float, right: float) -> None:
    """Draw the layers above and below; under the flight only those that run through."""
    deep = 0.0
    for layer in flight.up.layers:
        ends = ((left, deep), (0.0, deep), (0.0, deep + layer.thickness_mm), (left, deep + layer.thickness_mm))
        if layer.thickness_mm:
            ring = tuple(flight.above(x, under) for x, under in ends)
            sketch.add("layers", Region((ring,), hatch_of(layer), MEDIUM))
        deep += layer.thickness_mm
    deep = 0.0
    for layer in flight.down.layers:
        start = flight.out_mm if layer.key in NOT_LAID else 0.0
        ends = ((start, deep), (right, deep), (right, deep + layer.thickness_mm), (start, deep + layer.thickness_mm))
        if layer.thickness_mm:
            ring = tuple(flight.below(x, under) for x, under in ends)
            sketch.add("layers", Region((ring,), hatch_of(layer), MEDIUM))
        deep += layer.thickness_mm


def _concrete(sketch: Sketch, flight: Flight) -> None:
    """Draw the core under the treads, and the foundation that stands on the formation under the lowest riser."""
    going, out = flight.steps.going_mm, flight.out_mm
    outline: list[XY] = []
    for number, level in enumerate(flight.nosings_mm[1:-1]):
        outline += [(number * going, level), ((number + 1) * going, level)]
    if outline:
        ring = (*outline, flight.below(out, flight.bare_mm), flight.below(0.0, flight.bare_mm))
        sketch.add("concrete", Region((ring,), Hatch.WHITE), Region((ring,), Hatch.CONCRETE, MEDIUM))
    top, foot = flight.foundation_mm
    near, far = out - flight.parts.foundation_wide_mm * BEHIND, out + flight.parts.foundation_wide_mm * (1.0 - BEHIND)
    ring = ((near, top), (far, top), (far, foot), (near, foot))
    sketch.add("concrete", Region((ring,), Hatch.WHITE), Region((ring,), Hatch.CONCRETE, THICK))


def _units(sketch: Sketch, flight: Flight) -> None:
    """Draw a unit of riser and tread for every tread, and the riser under the edge of the area above."""
    going, unit = flight.steps.going_mm, _UNIT_MM
    for number, (upper, lower) in enumerate(pairwise(flight.nosings_mm)):
        x = number * going
        back = x if number == 0 else x - going
        ring: tuple[XY, ...]
        if number == 0:
            ring = ((x - unit, upper - unit), (x, upper - unit), (x, lower), (x - unit, lower))
        else:
            ring = (
                (back, upper),
                (x, upper),
                (x, lower),
                (x - unit, lower),
                (x - unit, upper - unit),
                (back, upper - unit),
            )
        sketch.add("units", Region((ring,), Hatch.WHITE, MEDIUM))


def _levels(sketch: Sketch, flight: Flight, right: float) -> float:
    """Draw the chain of risers right of the flight with every level, and return how far down the words reach. [mm]."""
    going = flight.steps.going_mm
    chain = right + sketch.mm(6.0)
    places = spread(list(flight.nosings_mm), sketch.mm(_TYPE_MM * 1.4))
    last = len(flight.nosings_mm) - 1
    for number, (level, place) in enumerate(zip(flight.nosings_mm, places, strict=True)):
        x = min(number * going, flight.out_mm)
        end = chain + sketch.mm(12.0)
        ends = ((x + sketch.mm(1.0), level), (chain, level), (chain + sketch.mm(9.0), level), (end, place))
        sketch.add("heights", Path(ends, HAIR, leads=True))
        name = "top nosing" if number == 0 else "foot" if number == last else f"nosing {number + 1}"
        words = f"{name} {level_mark(level)}"
        at = (end + sketch.mm(0.8), place)
        sketch.add("heights", Words(at, words, _TYPE_MM, "start", bold=number in {0, last}, white=True))
    for upper, lower in pairwise(flight.nosings_mm):
        sketch.add("heights", Dimension((chain, lower), (chain, upper), 0.0, ""))
        at = (chain + sketch.mm(1.5), (upper + lower) / 2.0)
        sketch.add("heights", Words(at, size_mark(upper - lower), _TYPE_MM, "start", bold=True, white=True))
    return places[-1] - sketch.mm(_TYPE_MM * 0.75)


def _goings(sketch: Sketch, flight: Flight, low: float) -> None:
    """Draw the chain of goings, and the width of the foundation, under the flight."""
    y = low - sketch.mm(5.0)
    going = flight.steps.going_mm
    for number in range(flight.steps.risers - 1):
        ends = (number * going, y), ((number + 1) * going, y)
        sketch.add("heights", Dimension(*ends, 0.0, ""))
        sketch.add(
            "heights", Words(((number + 0.5) * going, y - sketch.mm(2.8)), size_mark(going), _TYPE_MM, bold=True)
        )
    wide = flight.parts.foundation_wide_mm
    y -= sketch.mm(7.0)
    near = flight.out_mm - wide * BEHIND
    sketch.add("heights", Dimension((near, y), (near + wide, y), 0.0, ""))
    at = (near + wide / 2.0, y - sketch.mm(2.8))
    sketch.add("heights", Words(at, size_mark(wide), _TYPE_MM, bold=True))


def _right_words(sketch: Sketch, flight: Flight, right: float, below_mm: float) -> None:
    """Say what the layers below are, under the words of the levels; the formation last."""
    deep = 0.0
    reported: list[tuple[float, str]] = []
    for layer in flight.down.layers:
        middle = flight.below(right, deep + layer.thickness_mm / 2.0)[1]
        if layer.thickness_mm:
            reported.append((middle, f"{thick(layer.thickness_mm)}  {layer.name}"))
        deep += layer.thickness_mm
    formation = flight.below(right, deep)[1]
    reported.append((formation - sketch.mm(1.8), f"formation {level_mark(formation)}"))
    lines = [(level, line, place == 0) for level, text in reported for place, line in enumerate(lines_of(text))]
    gap = sketch.mm(_TYPE_MM * 1.5)
    places = spread([level for level, _, _ in lines], gap)
    shift = min(0.0, below_mm - gap / 2.0 - places[0])
    x = right + sketch.mm(9.0)
    for (level, text, is_first), place in zip(lines, places, strict=True):
        if is_first:
            bend = (right + sketch.mm(5.0), place + shift)
            sketch.add(
                "notes",
                Path(((right - sketch.mm(4.0), level), bend, (x - sketch.mm(0.8), place + shift)), HAIR, leads=True),
            )
        sketch.add("notes", Words((x, place + shift), text, _TYPE_MM, "start"))


def _left_words(sketch: Sketch, flight: Flight, left: float) -> None:
    """Say at the left what is above, and what the flight is built of, each with a leader into it."""
    steps, parts, out = flight.steps, flight.parts, flight.out_mm
    top, foot = flight.foundation_mm
    first = (flight.nosings_mm[0] + flight.nosings_mm[1]) / 2.0
    formation = flight.above(left, flight.up.total_mm)[1]
    reported = [
        ((left + sketch.mm(3.0), flight.above(left, flight.up.total_mm / 2.0)[1]), [flight.upper.area]),
        ((left + sketch.mm(3.0), formation), [f"formation {level_mark(formation)}"]),
        (
            (-_UNIT_MM / 2.0, first),
            [f"units of riser and tread, {parts.units_m:.2f} m:", f"{steps.risers} × {parts.width_m:.2f} m"],
        ),
    ]
    if steps.risers > 1:
        at = steps.going_mm * 0.5, flight.nosings_mm[1] - _UNIT_MM - (flight.nosings_mm[0] - flight.nosings_mm[1]) * 0.3
        reported.append(
            (at, [f"core of concrete, {parts.core_m3 + parts.room_m3:.2f} m³,", "counted to the faces of the steps"])
        )
    foundation = f"{parts.foundation_wide_mm:g} × {parts.foundation_thick_mm:g} mm, {parts.foundation_m3:.2f} m³,"
    at = out - parts.foundation_wide_mm * BEHIND + sketch.mm(2.0), (top + foot) / 2.0
    reported.append((at, ["foundation of concrete,", foundation, f"top {level_mark(top)}, foot {level_mark(foot)}"]))
    edge = left - sketch.mm(6.0)

    def leader(note: Note, height: float) -> tuple[XY, ...]:
        return (edge + sketch.mm(0.8), height), (left - sketch.mm(2.0), height), note.at

    waiting = [Note(at, tuple(texts)) for at, texts in reported]
    for note, heights in in_order(waiting, sketch.mm(_TYPE_MM * 1.5), leader):
        for text, height in zip(note.lines, heights, strict=True):
            sketch.add("notes", Words((edge, height), text, _TYPE_MM, "end"))
        sketch.add("notes", Path(leader(note, heights[0]), HAIR, leads=True))


def _to_know(flight: Flight) -> list[str]:
    """Return what the drawing alone does not say."""
    steps = flight.steps
    found = [f"Cut half way along the nosings; {flight.parts.width_m:.2f} m wide."]
    if abs(steps.rise_start_mm - steps.rise_end_mm) > _ENDS_MM:
        lowest = [rise - (steps.risers - 1) * steps.riser_mm for rise in (steps.rise_start_mm, steps.rise_end_mm)]
        found.append(
            f"Seen from below, the lowest riser is {lowest[0]:.0f} mm at its left end and {lowest[1]:.0f} mm at its "
            "right; all others are equal."
        )
    found.append(f"Units are drawn {_UNIT_MM:.0f} mm thick: what is bought decides, and the core gives way to it.")
    if flight.sunk_mm > _ENDS_MM:
        found.append(f"The foundation goes {flight.sunk_mm:.0f} mm under the formation: dig for it there.")
    return found


def _about(flight: Flight) -> str:
    steps, treads = flight.steps, flight.steps.risers - 1
    risers = f"{steps.risers} risers" if treads else "1 riser"
    said = (
        f"{risers} of {steps.riser_mm:.0f} mm, {treads} tread{'' if treads == 1 else 's'} of {steps.going_mm:.0f} "
        f"mm, from {level_mark(flight.nosings_mm[0])} down to {level_mark(flight.nosings_mm[-1])}."
    )
    return " ".join((said, *_to_know(flight)))
