"""The shape of a job with a sketch: tapes adjusted where they fix points, the sketch followed where they do not."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.survey._remarks import Remarks, place_words
from pavewright.survey._types_shape import ShapeSoFar, SideBy, SketchedPlace
from pavewright.survey._types_tapes import AdjustedTapes, ErrorEllipse, TapeResidual
from pavewright.survey.networks import Distance, OnLine, RightAngle
from pavewright.survey.sketch import _words as words
from pavewright.survey.sketch._findings import tell_shape, tell_weak
from pavewright.survey.sketch._gross import gross_slip
from pavewright.survey.sketch._known import Base, Known, Placed
from pavewright.survey.sketch._laid import mirrored, scale_of
from pavewright.survey.sketch._next import first_tape, next_to_fix
from pavewright.survey.sketch._pairs import Drawn, pairs_to_tape, sides_first
from pavewright.survey.sketch._placing import EITHER, SoftPlacing, measured_names
from pavewright.survey.sketch._sides import sides_of
from pavewright.survey.tapes import (
    adjusted_tapes,
    bearing_vector,
    ellipses_of,
    slips_of,
    tape_distances,
    tell_network,
)

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.geometry import XY
    from pavewright.job import Measurements, TapePlan
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey._types_shape import SideTaken
    from pavewright.survey._types_tapes import NextTape
    from pavewright.survey.networks import Observation, Slips

_SAME = 1.0
"""Two places of one point nearer than this are one. [mm]"""


@dataclass(frozen=True, slots=True)
class OnSketch:
    """Points of a job with a sketch: places, ellipses, the adjusted tapes, and how far the shape is fixed. [mm]."""

    places: dict[str, XY]
    ellipses: dict[str, ErrorEllipse]
    tapes: AdjustedTapes | None
    shape: ShapeSoFar


def place_on_sketch(
    measured: Measurements, drawn: Drawn, held: Mapping[str, XY], figures: SurveyFigures, remarks: Remarks
) -> OnSketch | None:
    """Return the points of a job with a sketch; None where its base line contradicts given places.

    Args:
        measured: What was measured.
        drawn: Walls and outlines, for what can be taped.
        held: Points whose place is known beforehand. [mm]
        figures: Figures of the survey.
        remarks: Where faults and findings are reported.
    """
    known = _known(measured, held, figures, remarks)
    if known is None:
        return None
    placed = SoftPlacing(known, figures).place()
    fast = measured_names(placed.fixing)
    sides = sides_of(known, fast, placed.places, placed.sketch, figures.sketch_scale_share.value)
    sketched = tuple(
        SketchedPlace(name, each.missing, each.free_bearing_deg, each.ellipse, drawn.wants(name, placed.tied))
        for name, each in placed.fixing.items()
        if each.missing and each.ellipse is not None
    )
    taped = {frozenset(each.points) for each in known.tapes}
    pairs = pairs_to_tape(placed, taped, drawn)
    more = first_tape(placed, pairs, drawn) if known.base is None else next_to_fix(placed, pairs, drawn, figures)
    shape = ShapeSoFar(sketched, sides, placed.unplaced, placed.laid.scale, more)
    places, ellipses = dict(placed.places), {each.name: each.ellipse for each in sketched}
    firm = _Firm(known, placed, frozenset(fast), drawn)
    tapes: AdjustedTapes | None = None
    if firm.observations:
        settled = firm.settled(sides, figures, remarks)
        if settled is None:  # what contradicts itself is reported; the rest of the job goes by what tapes nearly say
            return OnSketch(places, ellipses, None, shape)
        slips, sides = settled
        places |= slips.whole.places
        tapes = firm.tapes(slips, places, figures, more)
        shape = replace(shape, next_tape=tapes.next_tape, sides=sides)
        ellipses |= ellipses_of(slips.whole, tapes)
        tell_network(tapes, figures, remarks)
        if not tapes.suspects:
            tell_weak(ellipses_of(slips.whole, tapes), places, figures.weak_point_mm, remarks)
    tell_shape(shape, places, remarks)
    return OnSketch(places, ellipses, tapes, shape)


@dataclass(frozen=True, slots=True)
class _Firm:
    """The part of a job with a sketch that is measured."""

    known: Known
    placed: Placed
    fast: frozenset[str]
    drawn: Drawn

    @property
    def observations(self) -> tuple[Observation, ...]:
        """What was measured between points that are measured."""
        return tuple(each for each in self.known.observations if self.fast.issuperset(each.points))

    def settled(
        self, sides: tuple[SideTaken, ...], figures: SurveyFigures, remarks: Remarks
    ) -> tuple[Slips, tuple[SideTaken, ...]] | None:
        """Return the adjusted network and the sides, a point that the tapes fit on the other side of its line there."""
        seen = self.observations
        used = tuple(dict.fromkeys(name for each in seen for name in each.points))
        freedom = {name: self.placed.freedom.get(name, EITHER) for name in used}
        first = {name: self.placed.places[name] for name in used}
        slips = slips_of(first, freedom, seen, figures, remarks)
        if slips is None:
            return None
        tapes = adjusted_tapes(seen, slips, figures)
        if tapes.ratio is not None and tapes.ratio_high is not None and tapes.ratio > tapes.ratio_high:
            over = self._turned_over((first, freedom), sides, tapes.ratio_high, figures)
            if over is not None and over[0].by is not SideBy.STATED:
                by_tapes = replace(over[0], by=SideBy.TAPES, line=None)
                return over[1], tuple(by_tapes if each is over[0] else each for each in sides)
            if over is not None:
                stated = next(each for each in self.known.sides if each.point == over[0].name)
                remarks.fault("measurements.tape_plan.sides", words.wrong_side(stated))
                return None
            gross = None if tapes.suspects else gross_slip(first, freedom, seen, figures)
            slips = slips if gross is None else replace(slips, slips=(gross,))
            named = gross is not None or bool(tapes.suspects)
            doubted = {seen[number] for slip in slips.slips for number in slip.alike} if named else set()
        else:
            doubted = set()
        bad = [three for three in _no_meeting(self.known.tapes, figures) if not doubted.intersection(three)]
        for three in bad:
            remarks.fault("measurements.tape_plan.tapes", words.no_meeting(three))
        return None if bad else (slips, sides)

    def _turned_over(
        self,
        start: tuple[dict[str, XY], dict[str, tuple[XY, ...]]],
        sides: Sequence[SideTaken],
        ratio_high: float,
        figures: SurveyFigures,
    ) -> tuple[SideTaken, Slips] | None:
        """Return the network with one point on the other side of its line, where the tapes agree there."""
        first, freedom = start
        for side in sides:
            if side.by is SideBy.TAPES or side.line is None or side.name not in first:
                continue
            over = mirrored(first[side.name], first[side.line[0]], first[side.line[1]])
            other = slips_of({**first, side.name: over}, freedom, self.observations, figures, Remarks())
            if other is not None and (other.whole.ratio or 0.0) <= ratio_high:
                return side, other
        return None

    def tapes(
        self, slips: Slips, places: Mapping[str, XY], figures: SurveyFigures, fixing: NextTape | None
    ) -> AdjustedTapes:
        """Return the adjusted tapes: all of them, those to sketched points with nothing that checks them."""
        taped = {frozenset(each.points) for each in self.known.tapes}
        pairs = pairs_to_tape(replace(self.placed, places=dict(places)), taped, self.drawn)
        firm = adjusted_tapes(self.observations, slips, figures, dict(sides_first(pairs)))
        is_open = any(
            each.missing and self.drawn.wants(name, self.placed.tied) for name, each in self.placed.fixing.items()
        )
        more = fixing if is_open else firm.next_tape
        rows = iter(firm.residuals)
        residuals = [
            next(rows) if self.fast.issuperset(each.points) else _unchecked(each, places)
            for each in self.known.tapes
            if each.start in places and each.end in places
        ]
        return replace(firm, residuals=tuple(residuals), next_tape=more)


def _unchecked(tape: Distance, places: Mapping[str, XY]) -> TapeResidual:
    adjusted = math.dist(places[tape.start], places[tape.end])
    off = adjusted - tape.length_mm
    return TapeResidual(tape.start, tape.end, tape.length_mm, adjusted, off, 0.0, tape.sd_mm, None)


def _no_meeting(tapes: Sequence[Distance], figures: SurveyFigures) -> list[tuple[Distance, ...]]:
    """Return every three tapes round three points of which the longest is longer than the other two together."""
    limit = figures.greatest_standardised_residual.value
    between: dict[str, dict[str, Distance]] = {}
    for each in tapes:
        between.setdefault(each.start, {}).setdefault(each.end, each)
        between.setdefault(each.end, {}).setdefault(each.start, each)
    bad: list[tuple[Distance, ...]] = []
    for each in dict.fromkeys(tapes):
        if between[each.start][each.end] is not each:
            continue
        for third in between[each.start]:
            # every triangle once: from its side that was taped first
            back = between[each.end].get(third)
            if back is None:
                continue
            three = (each, between[each.start][third], back)
            if min(map(tapes.index, three)) != tapes.index(each):
                continue
            lengths = [one.length_mm for one in three]
            over = 2.0 * max(lengths) - math.fsum(lengths)
            if over > limit * math.hypot(*(one.sd_mm for one in three)):
                bad.append(three)
    return bad


def _known(measured: Measurements, held: Mapping[str, XY], figures: SurveyFigures, remarks: Remarks) -> Known | None:
    """Return what is known of the points, as observations; None where the base line contradicts given places."""
    sketch = {point.name: (point.x_mm, point.y_mm) for point in measured.sketch}
    by_eye = {
        point.name: ((point.x_mm, point.y_mm), point.place_sd_mm)
        for point in measured.points
        if point.place_sd_mm is not None
    }
    plan = measured.tape_plan
    if plan is None:
        return Known(sketch, held, by_eye, None, (), ())
    tapes = tape_distances(plan, figures, remarks)
    base = Base(plan.base_from, plan.base_to, (plan.x_mm, plan.y_mm), bearing_vector(plan.bearing_deg))
    faults = len(remarks.faults)
    _check_base(base, tapes, held, remarks)
    if len(remarks.faults) > faults:
        return None
    seen = (*tapes, *_shapes(plan, tapes, sketch, figures))
    return Known(sketch, held, by_eye, base, seen, plan.sides)


def _check_base(base: Base, tapes: Sequence[Distance], held: Mapping[str, XY], remarks: Remarks) -> None:
    """Report ends of the base line that are given elsewhere."""
    taped = [each.length_mm for each in tapes if {each.start, each.end} == {base.start, base.end}]
    ends = {base.start: base.at}
    if taped:
        length = math.fsum(taped) / len(taped)
        ends[base.end] = base.at[0] + base.way[0] * length, base.at[1] + base.way[1] * length
    for name, place in ends.items():
        if name in held and math.dist(held[name], place) > _SAME:
            remarks.fault(
                "measurements.tape_plan",
                f"{name} is given at {place_words(held[name])}, and the base line puts it at {place_words(place)}: "
                f"leave one of the two out.",
            )


def _shapes(
    plan: TapePlan, tapes: Sequence[Distance], sketch: Mapping[str, XY], figures: SurveyFigures
) -> list[Observation]:
    """Return square corners and points on lines as observations; a leg that is not taped is as long as it is drawn."""
    scale = scale_of(sketch, [(each.start, each.end, each.length_mm) for each in tapes])
    lengths = {frozenset(each.points): each.length_mm for each in reversed(tapes)}

    def leg(one: str, other: str) -> float:
        taped = lengths.get(frozenset((one, other)))
        if taped is not None:
            return taped
        return scale * math.dist(sketch[one], sketch[other]) if one in sketch and other in sketch else 0.0

    per_m, off = figures.square_corner_sd_mm_per_m.value, figures.on_line_sd_mm.value
    found: list[Observation] = []
    for each in plan.square_corners:
        shorter = min(leg(each.at, each.first), leg(each.at, each.second))
        sd = each.sd_mm if each.sd_mm is not None else max(per_m * units.mm_to_m(shorter), 1.0)
        found.append(RightAngle(each.at, each.first, each.second, sd))
    found += [
        OnLine(each.point, each.line_from, each.line_to, each.sd_mm if each.sd_mm is not None else off)
        for each in plan.points_on_lines
    ]
    return found
