"""First places of taped points: the base line is laid down, then every point from the two tapes that cut best."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.findings import Finding, Severity
from pavewright.geometry import along_and_offset, distance
from pavewright.job import Hand, Wanted
from pavewright.survey._codes import Code
from pavewright.survey._remarks import Remarks, metres, place_words
from pavewright.survey.tapes import _words as words
from pavewright.survey.tapes._shape_cuts import shape_cuts
from pavewright.survey.tapes._two_tapes import TwoTapes, two_tape_intersection

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.job import TapePlan, TapeSide
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey.networks import Distance

_TWO = 2
_FAR = 3.0
"""How many times worse a tape has to fit on one side before that side is ruled out. [-]"""


@dataclass(frozen=True, slots=True)
class _Anchor:
    """A placed point from which the new one was taped. [mm]."""

    name: str
    place: XY
    length_mm: float
    sd_mm: float


@dataclass(frozen=True, slots=True)
class _Cut:
    """Two tapes that meet, and the two places where they do."""

    first: _Anchor
    second: _Anchor
    meeting: TwoTapes


class Placing:
    """The laying down of one tape plan, point by point."""

    def __init__(self, plan: TapePlan, tapes: tuple[Distance, ...], figures: SurveyFigures, remarks: Remarks) -> None:
        """Take the plan; nothing is placed yet."""
        self._plan = plan
        self._figures = figures
        self._remarks = remarks
        self._tapes = tapes
        self._sides = {side.point: side for side in reversed(plan.sides)}
        self.places: dict[str, XY] = {}

    def lay_down(self, held: dict[str, XY]) -> dict[str, XY] | None:
        """Return the places of all taped points, or None where faults were reported."""
        before = len(self._remarks.faults)
        self.places = dict(held)
        self._check_sides()
        if len(self._remarks.faults) > before:
            return None
        order = tuple(dict.fromkeys(name for tape in self._tapes for name in (tape.start, tape.end)))
        waiting = [name for name in order if name not in self.places]
        while True:
            placed = [name for name in waiting if self._place(name, say=False)]
            if not placed:
                break
            waiting = [name for name in waiting if name not in placed]
        for name in waiting:
            self._place(name, say=True)
        if waiting and len(self._remarks.faults) == before:
            for name in waiting:
                self._tell_unreached(name)
        return None if waiting else self.places

    def _check_sides(self) -> None:
        """Report sides that name a point which no tape reaches."""
        taped = {name for tape in self._tapes for name in (tape.start, tape.end)} | set(self.places)
        for number, side in enumerate(self._plan.sides):
            path = f"measurements.tape_plan.sides.{number}"
            stray = [name for name in (side.point, side.line_from, side.line_to) if name not in taped]
            if stray:
                self._remarks.fault(path, f"The side of {side.point} names {stray[0]}, which no tape reaches.")
            elif side.line_from == side.line_to:
                self._remarks.fault(path, f"The side of {side.point} needs a line between two different points.")

    def _anchors(self, name: str) -> tuple[_Anchor, ...]:
        """Return the placed points from which a point was taped; several tapes of one distance count as their mean."""
        lengths: dict[str, list[Distance]] = {}
        for tape in self._tapes:
            if name in {tape.start, tape.end}:
                other = tape.end if tape.start == name else tape.start
                if other in self.places:
                    lengths.setdefault(other, []).append(tape)
        return tuple(
            _Anchor(other, self.places[other], math.fsum(t.length_mm for t in found) / len(found), found[0].sd_mm)
            for other, found in lengths.items()
        )

    def _place(self, name: str, *, say: bool) -> bool:
        """Place a point if that can be done; with ``say`` report why it cannot."""
        anchors = self._anchors(name)
        shaped = self._shaped(name, anchors)
        if len(anchors) < _TWO and not shaped:
            return False
        cuts = [
            _Cut(first, second, meeting)
            for first, second in itertools.combinations(anchors, 2)
            if (meeting := two_tape_intersection(first.place, second.place, first.length_mm, second.length_mm))
        ] + shaped
        if not cuts:
            if say:
                self._tell_no_meeting(name, anchors)
            return False
        cuts.sort(key=lambda each: -math.sin(math.radians(each.meeting.angle_deg)))
        side = self._sides.get(name)
        chosen = self._by_tapes_alone(cuts, anchors) if side is None else self._by_side(side, cuts, anchors, say=say)
        if chosen is None:
            if say and side is None:
                self._tell_no_side(name, cuts[0])
            return False
        place, cut = chosen
        self.places[name] = place
        self._tell_angle(name, cut)
        return True

    def _shaped(self, name: str, anchors: tuple[_Anchor, ...]) -> list[_Cut]:
        """Return the places that one tape and a square corner or a line make."""
        by_name = {anchor.name: anchor for anchor in anchors}
        lengths = {anchor.name: anchor.length_mm for anchor in anchors}
        found = shape_cuts(name, self._plan, self.places, lengths)
        return [_Cut(by_name[source], by_name[source], meeting) for source, meeting in found]

    def _by_tapes_alone(self, cuts: list[_Cut], anchors: tuple[_Anchor, ...]) -> tuple[XY, _Cut] | None:
        """Return the place that a third tape picks out, from the best cut at which it does."""
        for cut in cuts:
            place = self._by_other_tapes(cut, anchors)
            if place is not None:
                return place, cut
        return next(((cut.meeting.left, cut) for cut in cuts if cut.meeting.left == cut.meeting.right), None)

    def _by_side(
        self, side: TapeSide, cuts: list[_Cut], anchors: tuple[_Anchor, ...], *, say: bool
    ) -> tuple[XY, _Cut] | None:
        """Return the place on the stated side, from the best cut whose two places that side parts."""
        if side.line_from not in self.places or side.line_to not in self.places:
            if say:
                self._tell_side_waits(side, cuts[0])
            return None
        for cut in cuts:
            left, right = cut.meeting.left, cut.meeting.right
            fits = [place for place in (left, right) if self._on_stated_side(side, place)]
            if len(fits) == 1 or left == right:
                place = fits[0] if fits else left
                return None if self._is_mirrored(side, place, cut, anchors, say=say) else (place, cut)
            by_tapes = self._by_other_tapes(cut, anchors)
            if by_tapes is not None and by_tapes in fits:
                return by_tapes, cut
        if say:
            self._tell_side_parts_nothing(side, cuts[0])
        return None

    def _is_mirrored(self, side: TapeSide, place: XY, cut: _Cut, anchors: tuple[_Anchor, ...], *, say: bool) -> bool:
        """Return whether a third tape fits the other side and is far from fitting the side that was stated."""
        by_tapes = self._by_other_tapes(cut, anchors)
        if by_tapes is None or by_tapes == place:
            return False
        third = max(
            (anchor for anchor in anchors if anchor.name not in {cut.first.name, cut.second.name}),
            key=lambda other: abs(distance(place, other.place) - other.length_mm),
        )
        out = abs(distance(place, third.place) - third.length_mm)
        if out <= _FAR * self._fit_mm(third, cut):
            return False
        if say:
            tape = f"{third.name}–{side.point}"
            self._remarks.fault(
                "measurements.tape_plan.sides",
                f"{side.point} is said to lie {side.side} of {side.line_from}–{side.line_to}, but tape {tape} "
                f"{metres(third.length_mm)} fits the other side only: look at the sketch, or measure {tape} again.",
            )
        return True

    def _fit_mm(self, other: _Anchor, cut: _Cut) -> float:
        """Return how far a third tape may miss the place where two others meet. [mm]."""
        limit = self._figures.greatest_standardised_residual.value
        return limit * math.hypot(other.sd_mm, cut.first.sd_mm, cut.second.sd_mm)

    def _on_stated_side(self, side: TapeSide, place: XY) -> bool:
        _, left_mm = along_and_offset(self.places[side.line_from], self.places[side.line_to], place)
        return (left_mm >= 0.0) == (side.side is Hand.LEFT)

    def _by_other_tapes(self, cut: _Cut, anchors: tuple[_Anchor, ...]) -> XY | None:
        """Return the one of two places that the other tapes fit far better, if there is one."""
        others = [anchor for anchor in anchors if anchor.name not in {cut.first.name, cut.second.name}]
        if not others:
            return None

        def worst_misfit(place: XY) -> float:
            return max(
                abs(distance(place, other.place) - other.length_mm) / self._fit_mm(other, cut) for other in others
            )

        near, far = sorted((cut.meeting.left, cut.meeting.right), key=worst_misfit)
        return near if worst_misfit(far) > max(1.0, _FAR * worst_misfit(near)) else None

    def _tell_no_meeting(self, name: str, anchors: tuple[_Anchor, ...]) -> None:
        first, second = anchors[0], anchors[1]
        self._remarks.fault(
            "measurements.tape_plan.tapes",
            f"Tapes {first.name}–{name} {metres(first.length_mm)} and {second.name}–{name} {metres(second.length_mm)} "
            f"do not meet over {first.name}–{second.name} {metres(distance(first.place, second.place))}: measure "
            f"{first.name}–{name}, {second.name}–{name} and {first.name}–{second.name} again.",
        )

    def _tell_no_side(self, name: str, cut: _Cut) -> None:
        first, second = cut.first.name, cut.second.name
        if first == second:
            self._remarks.fault(
                "measurements.tape_plan.sides",
                f"{name} may stand at {place_words(cut.meeting.left)} or at {place_words(cut.meeting.right)}: say on "
                f"which side of a line it lies, or tape it from one more point.",
                Wanted.SIDE,
                name,
            )
            return
        self._remarks.fault(
            "measurements.tape_plan.sides",
            f"{name} may stand left of {first}–{second} at {place_words(cut.meeting.left)} or right of it at "
            f"{place_words(cut.meeting.right)}: say on which side it lies, looking from {first} to {second}.",
            Wanted.SIDE,
            name,
        )

    def _tell_side_waits(self, side: TapeSide, cut: _Cut) -> None:
        self._remarks.fault(
            "measurements.tape_plan.sides",
            f"The side of {side.point} is stated from the line {side.line_from}–{side.line_to}, which is not placed "
            f"without it: state it from {cut.first.name}–{cut.second.name}.",
        )

    def _tell_side_parts_nothing(self, side: TapeSide, cut: _Cut) -> None:
        left, right = cut.meeting.left, cut.meeting.right
        both = "both lie" if self._on_stated_side(side, left) else "neither lies"
        self._remarks.fault(
            "measurements.tape_plan.sides",
            f"{side.point} may stand at {place_words(left)} or {place_words(right)}, and {both} on the {side.side} of "
            f"{side.line_from}–{side.line_to}: say on which side of {cut.first.name}–{cut.second.name} it lies.",
        )

    def _tell_unreached(self, name: str) -> None:
        anchors = self._anchors(name)
        known = f"one tape to a placed point ({anchors[0].name})" if anchors else "no tape to a placed point"
        self._remarks.fault(
            "measurements.tape_plan.tapes",
            f"{name} has {known} and needs two: measure it from {'another one' if anchors else 'two points'} of "
            f"{', '.join(other for other in self.places if other not in {a.name for a in anchors})}.",
            Wanted.TAPE,
            name,
        )

    def _tell_angle(self, name: str, cut: _Cut) -> None:
        figure = self._figures.min_tape_angle_deg
        angle = cut.meeting.angle_deg
        if figure.value <= angle <= 180.0 - figure.value:
            return
        self._remarks.finding(
            Finding(
                Code.TAPE_ANGLE,
                Severity.CHECK,
                f"point {name}",
                words.tape_angle(name, cut.first.name, cut.second.name, angle),
                value=angle,
                limit=figure.value if angle < figure.value else 180.0 - figure.value,
                unit="deg",
                figure=figure,
                at_mm=self.places[name],
            )
        )
