"""Every point of a sketch at its place: where the tapes put it, and by the sketch in whatever way nothing fixes."""

from __future__ import annotations

import itertools
import math
from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from pavewright.geometry import along_and_offset
from pavewright.job import Hand
from pavewright.survey._types_shape import UnplacedPoint
from pavewright.survey._types_tapes import ErrorEllipse
from pavewright.survey.sketch._hints import PLACE, SoftlySettled, hints_of, near, settle_softly
from pavewright.survey.sketch._known import Fixing, Placed
from pavewright.survey.sketch._laid import Laid, laid_over, mirrored, neighbours, scale_of
from pavewright.survey.tapes import two_tape_intersection

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.geometry import XY
    from pavewright.job import TapeSide
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey.networks import Array
    from pavewright.survey.sketch._hints import Hint
    from pavewright.survey.sketch._known import Known

EITHER: tuple[XY, ...] = ((1.0, 0.0), (0.0, 1.0))
WEAK = 300.0
"""How many times less the sketch is trusted in the end: it moves nothing that a tape holds. [-]"""
LOOSE = 1000.0
"""What holds a point worse than this does not hold it. [mm]"""
_ROUNDS = 3
"""So often the sketch is laid over what the tapes made of it."""
_TWO = 2
_FAR = 3.0
"""How many times worse a tape has to fit on one side before that side is ruled out. [-]"""


class SoftPlacing:
    """The placing of one job with a sketch, from the base line to points that only tapes know."""

    def __init__(self, known: Known, figures: SurveyFigures) -> None:
        """Take what is known; nothing is placed yet."""
        self._known = known
        self._figures = figures
        self._sketch = _on_stated_sides(known)
        self._pairs = neighbours(self._sketch)
        self._held, self._freedom = _frame(known, self._sketch)
        named = (name for each in known.observations for name in each.points)
        self._tied = tuple(dict.fromkeys((*self._held, *named)))
        self._hints: list[Hint] = []
        self._soft: SoftlySettled | None = None
        self.places: dict[str, XY] = {}

    def place(self) -> Placed:
        """Return every point as far as it can be placed."""
        known, sketch = self._known, self._sketch
        between = [(a, b, math.dist(known.held[a], known.held[b])) for a, b in itertools.combinations(known.held, 2)]
        scale = scale_of(sketch, [*((each.start, each.end, each.length_mm) for each in known.tapes), *between])
        laid = laid_over(sketch, self._held, scale)
        drawn = {name: laid.on_site(place) for name, place in sketch.items() if name not in self._held}
        self.places = _parted({**self._held, **drawn}, self._freedom)
        for name in self._tied:
            if name in known.by_eye and name not in self.places:
                place, sd = known.by_eye[name]
                self.places[name] = place
                self._hints += near(name, place, max(sd, self._figures.sketch_finger_mm.value))
        for number in range(_ROUNDS):
            self._settle(laid, 1.0)
            used = {name: self.places[name] for name in self._tied if name in self.places and name in sketch}
            if len(used) > 1 and number < _ROUNDS - 1:
                laid = laid_over(sketch, used, scale)
        self._settle(laid, WEAK)
        while self._cut_more():
            self._settle(laid, WEAK)
        unplaced = tuple(UnplacedPoint(name, self._short(name)) for name in self._tied if name not in self.places)
        fixing = _held_up({name: self._fixing(name) for name in self.places}, known, self._freedom)
        tied = frozenset(self._tied)
        return Placed(self.places, self._freedom, self._soft, laid, self._pairs, sketch, fixing, unplaced, tied)

    def _settle(self, laid: Laid, weaker: float) -> None:
        hints = [*hints_of(self._sketch, self._pairs, laid, self._figures), *self._hints]
        seen = [each for each in self._known.observations if all(name in self.places for name in each.points)]
        freedom = {name: self._freedom.get(name, EITHER) for name in self.places}
        soft = settle_softly(self.places, freedom, seen, hints, weaker)
        self._soft = soft
        if soft is not None:
            self.places = soft.places

    def _cut_more(self) -> bool:
        """Place points that nobody sketched by their tapes; return whether there were any."""
        before = len(self.places)
        for name in self._tied:
            if name in self.places:
                continue
            cut = self._cut(name)
            if cut is not None:
                self.places[name] = cut
                self._hints += near(name, cut, PLACE)
        return len(self.places) > before

    def _cut(self, name: str) -> XY | None:
        """Return where two tapes put a point; None where that leaves two places."""
        tapes = [
            (each.end if each.start == name else each.start, each.length_mm, each.sd_mm)
            for each in self._known.tapes
            if name in each.points
        ]
        tapes = [each for each in tapes if each[0] in self.places]
        best: tuple[float, XY, XY, tuple[str, str]] | None = None
        for (one, first, _), (other, second, _) in itertools.combinations(tapes, 2):
            meeting = two_tape_intersection(self.places[one], self.places[other], first, second)
            sine = 0.0 if meeting is None else math.sin(math.radians(meeting.angle_deg))
            if meeting is not None and sine > (0.0 if best is None else best[0]):
                best = sine, meeting.left, meeting.right, (one, other)
        if best is None:
            return None
        _, left, right, used = best
        side = next((each for each in self._known.sides if each.point == name), None)
        if side is not None and side.line_from in self.places and side.line_to in self.places:
            fits = [place for place in (left, right) if is_on_side(side, place, self.places)]
            if len(fits) == 1:
                return fits[0]
        others = [each for each in tapes if each[0] not in used]
        if not others:
            return None

        def miss(place: XY) -> float:
            return max(abs(math.dist(place, self.places[at]) - length) / sd for at, length, sd in others)

        good, bad = (left, right) if miss(left) <= miss(right) else (right, left)
        ruled_out = max(self._figures.greatest_standardised_residual.value, _FAR * miss(good))
        return good if miss(bad) > ruled_out else None

    def _short(self, name: str) -> int:
        """Return how many conditions an unplaced point lacks."""
        joined = [
            each
            for each in self._known.observations
            if name in each.points and all(point == name or point in self.places for point in each.points)
        ]
        return max(0, _TWO - len(joined))

    def _fixing(self, name: str) -> Fixing:
        ways = self._freedom.get(name, EITHER)
        if not ways:
            return Fixing(0, None, None)
        if self._soft is None:
            return Fixing(len(ways), None, ErrorEllipse(PLACE, PLACE, 0.0))
        axes = axes_of(spread_of(self._soft, name))
        missing = int(axes.major_mm > LOOSE) + int(axes.minor_mm > LOOSE)
        by_eye = ErrorEllipse(
            axes.major_mm / (WEAK if missing else 1.0),
            axes.minor_mm / (WEAK if missing == _TWO else 1.0),
            axes.bearing_deg,
        )
        return Fixing(missing, axes.bearing_deg if missing == 1 else None, by_eye)


def spread_of(soft: SoftlySettled, name: str) -> Array:
    """Return the 2 × 2 covariance of a place. [mm²]."""
    own = [number for number, (point, _) in enumerate(soft.unknowns) if point == name]
    ways = np.array([soft.unknowns[number][1] for number in own])
    found: Array = ways.T @ soft.cofactors[np.ix_(own, own)] @ ways
    return found


def axes_of(spread: Array) -> ErrorEllipse:
    """Return the half-axes of one standard deviation, and the bearing of the larger one."""
    values, vectors = np.linalg.eigh(spread)
    minor, major = (math.sqrt(max(0.0, float(value))) for value in values)
    east, north = (float(part) for part in vectors[:, 1])
    return ErrorEllipse(major, minor, math.degrees(math.atan2(east, north)) % 180.0)


def is_on_side(side: TapeSide, place: XY, places: Mapping[str, XY]) -> bool:
    """Return whether a place lies on the side that is stated."""
    _, left_mm = along_and_offset(places[side.line_from], places[side.line_to], place)
    return (left_mm >= 0.0) == (side.side is Hand.LEFT)


def _on_stated_sides(known: Known) -> dict[str, XY]:
    """Return the sketch with points that a stated side puts across a line moved there."""
    put = dict(known.sketch)
    for side in known.sides:
        if any(name not in put for name in (side.point, side.line_from, side.line_to)):
            continue
        start, end = put[side.line_from], put[side.line_to]
        if start != end and not is_on_side(side, put[side.point], put):
            put[side.point] = mirrored(put[side.point], start, end)
    return put


def _frame(known: Known, sketch: Mapping[str, XY]) -> tuple[dict[str, XY], dict[str, tuple[XY, ...]]]:
    """Return what stands fast or nearly so, and the directions in which it may move."""
    held, freedom = dict(known.held), dict.fromkeys(known.held, ())
    free: dict[str, tuple[XY, ...]] = {**freedom}
    base = known.base
    if base is None:
        return held, free
    taped = [each.length_mm for each in known.tapes if {each.start, each.end} == {base.start, base.end}]
    drawn = math.dist(sketch[base.start], sketch[base.end]) if base.start in sketch and base.end in sketch else 0.0
    length = math.fsum(taped) / len(taped) if taped else drawn
    if base.start not in held:
        held[base.start], free[base.start] = base.at, ()
    if base.end not in held and length > 0.0:
        held[base.end] = base.at[0] + base.way[0] * length, base.at[1] + base.way[1] * length
        free[base.end] = (base.way,)
    return held, free


def _parted(places: Mapping[str, XY], freedom: Mapping[str, tuple[XY, ...]]) -> dict[str, XY]:
    """Return places that stand neither on one spot nor on one line, each moved by a hair in its own way.

    Where a sketch shows neither side, this takes one; it is the same every time, and on the phone.
    """
    return {
        name: place
        if name in freedom
        else (place[0] + (7 * number % 5 - 2) / 2.0, place[1] + (11 * number % 7 - 3) / 2.0)
        for number, (name, place) in enumerate(places.items())
    }


def _held_up(fixing: dict[str, Fixing], known: Known, freedom: Mapping[str, tuple[XY, ...]]) -> dict[str, Fixing]:
    """Return how points are fixed, those that only seem to be held, by a point that may move itself, as sketched."""
    while True:
        sure = [each for each in known.observations if all(not _is_open(fixing, name) for name in each.points)]
        count = Counter(name for each in sure for name in dict.fromkeys(each.points))
        loose = [
            name for name, each in fixing.items() if not each.missing and count[name] < len(freedom.get(name, EITHER))
        ]
        if not loose:
            return fixing
        fixing |= {name: replace(fixing[name], missing=1) for name in loose}


def _is_open(fixing: Mapping[str, Fixing], name: str) -> bool:
    return name not in fixing or fixing[name].missing > 0


def measured_names(fixing: Mapping[str, Fixing]) -> Sequence[str]:
    """Return the points whose places are measured."""
    return [name for name, each in fixing.items() if each.missing == 0]
