"""A slip so gross that it bends the whole network: what may be left out, alone, so that the rest agrees."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.survey._remarks import Remarks
from pavewright.survey.networks import Distance, Slip, ratio_band
from pavewright.survey.tapes import slips_of

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey.networks import Observation


def gross_slip(
    first: dict[str, XY],
    freedom: dict[str, tuple[XY, ...]],
    observations: tuple[Observation, ...],
    figures: SurveyFigures,
) -> Slip | None:
    """Return the observation without which the rest agrees, with all others of which that is true; None for none.

    Residuals point to a slip where it is small against the figure; this holds for any size, one slip at a time.

    Args:
        first: First places. [mm]
        freedom: For each point that may move, the directions in which it may.
        observations: What was measured.
        figures: Figures of the survey.

    Source: definition, each left out in turn
    """
    confidence = figures.confidence_percent.value / 100.0
    fits: list[tuple[float, int, float]] = []
    for number, each in enumerate(observations):
        rest = observations[:number] + observations[number + 1 :]
        if {name for other in rest for name in other.points} != set(first):
            continue
        found = slips_of(first, freedom, rest, figures, Remarks())
        if found is None:
            continue
        ratio = found.whole.ratio
        if ratio is not None and ratio > ratio_band(found.whole.spare, confidence)[1]:
            continue
        should = math.dist(*(found.whole.places[name] for name in each.points)) if isinstance(each, Distance) else 0.0
        size = each.length_mm - should if isinstance(each, Distance) else 0.0
        fits.append((ratio or 0.0, number, size))
    if not fits:
        return None
    _, number, size = min(fits)
    return Slip(number, size, math.inf, tuple(sorted(fit[1] for fit in fits)))
