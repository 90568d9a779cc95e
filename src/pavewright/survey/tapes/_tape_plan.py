"""The tape plan of a job: laid down from its base line, then adjusted where there are spare tapes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import NormalDist
from typing import TYPE_CHECKING

import numpy as np

from pavewright import units
from pavewright.job import Wanted
from pavewright.survey._remarks import Remarks, place_words
from pavewright.survey._types_tapes import (
    AdjustedTapes,
    ErrorEllipse,
    ShapeKind,
    ShapeResidual,
    SuspectTape,
    TapeResidual,
)
from pavewright.survey.networks import (
    Adjustment,
    Distance,
    LooseNetworkError,
    OnLine,
    RightAngle,
    Slips,
    UnsettledNetworkError,
    find_slips,
    ratio_band,
)
from pavewright.survey.tapes._bearings import bearing_vector
from pavewright.survey.tapes._next_tape import PairRank, next_tape
from pavewright.survey.tapes._placing import Placing
from pavewright.survey.tapes._tape_findings import tell_network

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.job import Tape, TapePlan
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey.networks import Observation

_SAME_MM = 1.0


@dataclass(frozen=True, slots=True)
class TapedPoints:
    """Taped points at their places, with their ellipses of error and the adjusted tapes. [mm].

    Where faults were reported they are those points that could be placed all the same, and no tape is adjusted.
    """

    places: dict[str, XY]
    ellipses: dict[str, ErrorEllipse]
    tapes: AdjustedTapes | None


def tape_deviation_mm(length_mm: float, fixed_mm: float, per_m_mm: float) -> float:
    """Return the standard deviation of one tape. [mm].

    Args:
        length_mm: Length taped. [mm]
        fixed_mm: Part that does not grow with length: holding, reading. [mm]
        per_m_mm: Part that grows with length, for each metre: pull, sag, warmth. [mm/m]

    Valid for: steel or glass-fibre tape held level by two people.
    Source: common_practice, σ = √(a² + (b·L)²)

    >>> round(tape_deviation_mm(10_000.0, 2.0, 0.2), 3)
    2.828
    """
    return math.hypot(fixed_mm, per_m_mm * units.mm_to_m(length_mm))


def place_taped_points(
    plan: TapePlan, known: dict[str, XY], figures: SurveyFigures, remarks: Remarks
) -> TapedPoints | None:
    """Return the points of a tape plan; where faults were reported those that could be placed, or None.

    Points whose place is known beforehand stand fast, and so do the start and the direction of the base line.
    """
    distances = tape_distances(plan, figures, remarks)
    held = _base_line(plan, distances, known, remarks)
    if held is None:
        return None
    placing = Placing(plan, distances, figures, remarks)
    places = placing.lay_down(held)
    if places is None:
        return TapedPoints(dict(placing.places), {}, None)
    observations = (*distances, *_shapes(plan, places, figures))
    used = tuple(dict.fromkeys(name for each in observations for name in each.points))
    freedom: dict[str, tuple[XY, ...]] = {name: ((1.0, 0.0), (0.0, 1.0)) for name in used if name not in held}
    base = (plan.base_to,) if plan.base_to not in known else ()
    freedom |= {name: (bearing_vector(plan.bearing_deg),) for name in base}
    first = {name: places[name] for name in used}
    slips = slips_of(first, freedom, observations, figures, remarks)
    if slips is None:
        return None
    tapes = adjusted_tapes(observations, slips, figures)
    tell_network(tapes, figures, remarks)
    return TapedPoints(slips.whole.places, ellipses_of(slips.whole, tapes), tapes)


def slips_of(
    first: dict[str, XY],
    freedom: dict[str, tuple[XY, ...]],
    observations: tuple[Observation, ...],
    figures: SurveyFigures,
    remarks: Remarks,
) -> Slips | None:
    """Return the network of observations with its slips, or None where a fault was reported."""
    chance = 2.0 * (1.0 - NormalDist().cdf(figures.greatest_standardised_residual.value))
    try:
        return find_slips(first, freedom, observations, chance)
    except LooseNetworkError as loose:
        remarks.fault(
            "measurements.tape_plan.tapes",
            f"The tapes to {', '.join(loose.points)} run nearly along one line and leave it free to move sideways: "
            f"measure one more tape from well to the side.",
        )
        return None
    except UnsettledNetworkError:
        remarks.fault(
            "measurements.tape_plan.tapes",
            "The tapes are too far from agreeing to make one plan: check which points they run between, and measure "
            "the longest ones again.",
        )
        return None


def _shapes(plan: TapePlan, places: dict[str, XY], figures: SurveyFigures) -> tuple[Observation, ...]:
    """Return square corners and points on lines as observations."""
    per_m = figures.square_corner_sd_mm_per_m.value
    off = figures.on_line_sd_mm.value
    corners = []
    for each in plan.square_corners:
        shorter = min(math.dist(places[each.at], places[leg]) for leg in (each.first, each.second))
        sd = each.sd_mm if each.sd_mm is not None else max(per_m * units.mm_to_m(shorter), 1.0)
        corners.append(RightAngle(each.at, each.first, each.second, sd))
    lines = [
        OnLine(each.point, each.line_from, each.line_to, each.sd_mm if each.sd_mm is not None else off)
        for each in plan.points_on_lines
    ]
    return (*corners, *lines)


def tape_distances(plan: TapePlan, figures: SurveyFigures, remarks: Remarks) -> tuple[Distance, ...]:
    """Return the tapes of a plan as observations; those that run from a point to itself are reported."""
    fixed = figures.tape_sd_fixed_mm.value
    growing = figures.tape_sd_growing_mm_per_m.value
    for number, tape in enumerate(plan.tapes):
        if tape.start == tape.end:
            remarks.fault(f"measurements.tape_plan.tapes.{number}", f"A tape runs from {tape.start} to itself.")

    def deviation(tape: Tape) -> float:
        return tape.sd_mm if tape.sd_mm is not None else tape_deviation_mm(tape.length_mm, fixed, growing)

    return tuple(
        Distance(tape.start, tape.end, tape.length_mm, deviation(tape)) for tape in plan.tapes if tape.start != tape.end
    )


def _base_line(
    plan: TapePlan, distances: tuple[Distance, ...], known: dict[str, XY], remarks: Remarks
) -> dict[str, XY] | None:
    """Return the points that are placed before any tape is crossed: known ones, and both ends of the base line."""
    base = [line.length_mm for line in distances if {line.start, line.end} == {plan.base_from, plan.base_to}]
    if not base:
        remarks.fault(
            "measurements.tape_plan.base_to",
            f"The base line {plan.base_from}–{plan.base_to} has no tape: measure it.",
            Wanted.TAPE,
            plan.base_to,
        )
        return None
    length = math.fsum(base) / len(base)
    start = plan.x_mm, plan.y_mm
    along = bearing_vector(plan.bearing_deg)
    ends = {
        plan.base_from: start,
        plan.base_to: (start[0] + along[0] * length, start[1] + along[1] * length),
    }
    for name, place in ends.items():
        if name in known and math.dist(known[name], place) > _SAME_MM:
            remarks.fault(
                "measurements.tape_plan",
                f"{name} is given at {place_words(known[name])}, and the base line puts it at {place_words(place)}: "
                f"leave one of the two out.",
            )
            return None
    taped = {name for line in distances for name in (line.start, line.end)}
    return ends | {name: place for name, place in known.items() if name in taped}


def adjusted_tapes(
    observations: tuple[Observation, ...], slips: Slips, figures: SurveyFigures, rank: PairRank | None = None
) -> AdjustedTapes:
    """Return the tapes after adjustment, those in doubt, and the one more that helps most.

    Args:
        observations: What was measured.
        slips: The settled network and its slips.
        figures: Figures of the survey.
        rank: Which tapes can be pulled, and which comes first among equals; any where it is None.
    """
    adjustment = slips.whole
    spare = adjustment.spare
    unchecked = figures.min_redundancy.value
    band = ratio_band(spare, figures.confidence_percent.value / 100.0) if spare > 0 else (None, None)
    rows = zip(observations, adjustment.adjusted_mm, adjustment.residuals_mm, adjustment.redundancy, strict=True)
    residuals: list[TapeResidual] = []
    shapes: list[ShapeResidual] = []
    for each, adjusted, residual, part in rows:
        if isinstance(each, Distance):
            size = residual / (each.sd_mm * math.sqrt(part)) if part >= unchecked else None
            residuals.append(
                TapeResidual(each.start, each.end, each.length_mm, adjusted, residual, max(0.0, part), each.sd_mm, size)
            )
        else:
            kind = ShapeKind.SQUARE if isinstance(each, RightAngle) else ShapeKind.ON_LINE
            shapes.append(ShapeResidual(kind, each.points, adjusted, max(0.0, part), each.sd_mm))
    suspects = _suspects(observations, slips, band[1])
    alike = slips.slips[-1].alike if suspects and suspects[-1].alike else ()
    fixed, growing = figures.tape_sd_fixed_mm.value, figures.tape_sd_growing_mm_per_m.value
    more = next_tape(
        adjustment,
        observations,
        lambda length: tape_deviation_mm(length, fixed, growing),
        alike=alike,
        min_redundancy=unchecked,
        rank=rank,
    )
    ratio = adjustment.ratio
    return AdjustedTapes(tuple(residuals), spare, ratio, band[0], band[1], tuple(shapes), suspects, more)


def _suspects(observations: tuple[Observation, ...], slips: Slips, ratio_high: float | None) -> tuple[SuspectTape, ...]:
    """Return the likely slips; none where the readings agree, or where so many would go that none is likely."""
    ratio = slips.whole.ratio
    if ratio is None or ratio_high is None or ratio <= ratio_high:
        return ()
    if len(slips.slips) > max(1, slips.whole.spare // _SPARE_FOR_EACH):
        return ()
    found = []
    for slip in slips.slips:
        one = observations[slip.number]
        alike = tuple(_ends(observations[number]) for number in slip.alike) if len(slip.alike) > 1 else ()
        length = one.length_mm if isinstance(one, Distance) else 0.0
        found.append(SuspectTape(*_ends(one), length, None if alike else slip.size, alike))
    return tuple(found)


_SPARE_FOR_EACH = 3
"""So many spare readings for each slip taken out; with fewer the deviations themselves are in doubt."""


def _ends(one: Observation) -> tuple[str, str]:
    """Return the two points by which a reading is named: the ends of a tape, a corner and a leg, a point and a line."""
    return one.points[0], one.points[1]


def ellipses_of(adjustment: Adjustment, tapes: AdjustedTapes) -> dict[str, ErrorEllipse]:
    """Return the ellipse of one standard deviation of each place.

    The deviations given to the tapes hold unless the fit shows them to be too small; then they grow by the ratio.
    """
    ratio = tapes.ratio if tapes.ratio is not None and tapes.ratio_high is not None else 1.0
    factor = ratio if tapes.ratio_high is not None and ratio > tapes.ratio_high else 1.0
    found = {}
    for name, spread in adjustment.spreads.items():
        values, vectors = np.linalg.eigh(spread)
        minor, major = (factor * math.sqrt(max(0.0, float(value))) for value in values)
        east, north = (float(part) for part in vectors[:, 1])
        found[name] = ErrorEllipse(major, minor, math.degrees(math.atan2(east, north)) % 180.0)
    return found
