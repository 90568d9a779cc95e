"""The tape plan of a job: laid down from its base line, then adjusted where there are spare tapes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright import units
from pavewright.survey._adjustment import (
    Adjustment,
    Distance,
    LooseNetworkError,
    UnsettledNetworkError,
    adjust_distances,
)
from pavewright.survey._bearings import bearing_vector
from pavewright.survey._chi_square import ratio_band
from pavewright.survey._placing import Placing
from pavewright.survey._remarks import Remarks, place_words
from pavewright.survey._tape_findings import tell_network
from pavewright.survey._types import AdjustedTapes, TapeResidual

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.job import Tape, TapePlan
    from pavewright.rules import Rulebook

_SAME_MM = 1.0


@dataclass(frozen=True, slots=True)
class TapedPoints:
    """Taped points at their places, with their standard deviations and the adjusted tapes. [mm]."""

    places: dict[str, XY]
    deviations_mm: dict[str, float]
    tapes: AdjustedTapes


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


def place_taped_points(plan: TapePlan, known: dict[str, XY], rules: Rulebook, remarks: Remarks) -> TapedPoints | None:
    """Return the points of a tape plan, or None where faults were told.

    Points whose place is known beforehand stand fast, and so do the start and the direction of the base line.
    """
    distances = _distances(plan, rules, remarks)
    held = _base_line(plan, distances, known, remarks)
    if held is None:
        return None
    places = Placing(plan, distances, rules, remarks).lay_down(held)
    if places is None:
        return None
    used = tuple(dict.fromkeys(name for line in distances for name in (line.start, line.end)))
    freedom = {name: ((1.0, 0.0), (0.0, 1.0)) for name in used if name not in held}
    base = (plan.base_to,) if plan.base_to not in known else ()
    try:
        adjustment = adjust_distances(
            {name: places[name] for name in used},
            freedom | {name: (bearing_vector(plan.bearing_deg),) for name in base},
            distances,
        )
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
    tapes = _adjusted(distances, adjustment, rules)
    tell_network(tapes, rules, remarks)
    return TapedPoints(adjustment.places, _deviations(adjustment, tapes), tapes)


def _distances(plan: TapePlan, rules: Rulebook, remarks: Remarks) -> tuple[Distance, ...]:
    fixed = rules.value("survey.tape_sd_fixed_mm")
    growing = rules.value("survey.tape_sd_growing_mm_per_m")
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


def _adjusted(distances: tuple[Distance, ...], adjustment: Adjustment, rules: Rulebook) -> AdjustedTapes:
    spare = adjustment.spare
    unchecked = rules.value("survey.least_redundancy")
    band = ratio_band(spare, rules.value("survey.confidence_percent") / 100.0) if spare > 0 else (None, None)
    rows = zip(distances, adjustment.adjusted_mm, adjustment.residuals_mm, adjustment.redundancy, strict=True)
    residuals = tuple(
        TapeResidual(
            start=line.start,
            end=line.end,
            measured_mm=line.length_mm,
            adjusted_mm=adjusted,
            residual_mm=residual,
            redundancy=max(0.0, part),
            sd_mm=line.sd_mm,
            standardised=residual / (line.sd_mm * math.sqrt(part)) if part >= unchecked else None,
        )
        for line, adjusted, residual, part in rows
    )
    return AdjustedTapes(residuals, spare, adjustment.ratio, band[0], band[1])


def _deviations(adjustment: Adjustment, tapes: AdjustedTapes) -> dict[str, float]:
    """Return the standard deviation of each place along its larger axis. [mm].

    The deviations given to the tapes hold unless the fit shows them to be too small; then they grow by the ratio.
    """
    ratio = tapes.ratio if tapes.ratio is not None and tapes.ratio_high is not None else 1.0
    factor = ratio if tapes.ratio_high is not None and ratio > tapes.ratio_high else 1.0
    return {
        name: factor * math.sqrt(max(0.0, float(np.linalg.eigvalsh(spread)[-1])))
        for name, spread in adjustment.spreads.items()
    }
