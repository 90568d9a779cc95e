"""Flights of steps between two finished areas."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.findings import FieldChange, Finding, Option, Severity
from pavewright.geometry import point_along
from pavewright.levels import _words as words
from pavewright.levels._codes import Code
from pavewright.levels._formulas import flight_mm, pace_mm
from pavewright.levels._types import Steps
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.geometry import FoldedSurface
    from pavewright.job import StepFlight
    from pavewright.levels._figures import LevelFigures
    from pavewright.survey import SitePlan


def riser_count(rise_mm: float, wanted_mm: float, max_mm: float) -> int:
    """Return the number of equal risers whose height comes nearest to the wanted one and keeps the most.

    Args:
        rise_mm: Total rise. [mm]
        wanted_mm: Riser aimed at. [mm]
        max_mm: Highest riser. [mm]

    Valid for: rise_mm > 0.
    Source: definition

    >>> riser_count(420.0, 150.0, 190.0)
    3
    """
    return max(1, round(rise_mm / wanted_mm), math.ceil(rise_mm / max_mm - 1e-9))


def flight(
    entered: StepFlight, path: str, upper: FoldedSurface, lower: FoldedSurface, site: SitePlan, figures: LevelFigures
) -> tuple[Steps, tuple[Finding, ...]]:
    """Return a flight with equal risers from the lower area at its foot to the upper area at its nosing."""
    side = site.area(entered.upper_area).side_from(entered.corner)
    # the ring runs anticlockwise, so the area lies to the left and the flight goes down to the right; seen from below,
    # its left end is the start of the side
    start, end = side.start.xy, side.end.xy
    wanted, most = figures.steps.wanted, figures.steps.max
    count = entered.risers or riser_count(max(_rise(upper, lower, start, end, 0.5, 0.0), 1.0), wanted.value, most.value)
    out = flight_mm(count, entered.going_mm)
    rises = [_rise(upper, lower, start, end, share, out) for share in (0.0, 0.5, 1.0)]
    if not entered.risers:
        # the foot moves out with the number of treads, so the number is settled once more at the foot found
        count = riser_count(max(rises[1], 1.0), wanted.value, most.value)
        out = flight_mm(count, entered.going_mm)
        rises = [_rise(upper, lower, start, end, share, out) for share in (0.0, 0.5, 1.0)]
    riser = rises[1] / count
    steps = Steps(
        name=entered.name,
        upper_area=entered.upper_area,
        lower_area=entered.lower_area,
        start=start,
        end=end,
        rise_start_mm=rises[0],
        rise_end_mm=rises[2],
        risers=count,
        riser_mm=riser,
        going_mm=entered.going_mm,
        working=Working(
            f"riser = {rises[1]:.1f} / {count}",
            riser,
            "mm",
            () if entered.risers else (wanted, most),
            "total rise in the middle, from the foot of the flight to its top nosing",
        ),
    )
    return steps, _findings(steps, path, figures)


def _rise(
    upper: FoldedSurface,
    lower: FoldedSurface,
    start: tuple[float, float],
    end: tuple[float, float],
    share: float,
    out_mm: float,
) -> float:
    """Return the rise at a share of the width, the foot standing out from the nosing. [mm]."""
    along = math.dist(start, end) * share
    nosing = point_along(start, end, along)
    return upper.level_at(nosing) - lower.level_at(point_along(start, end, along, -out_mm))


def _findings(steps: Steps, path: str, figures: LevelFigures) -> tuple[Finding, ...]:
    place = f"steps {steps.name}"
    at = ((steps.start[0] + steps.end[0]) / 2.0, (steps.start[1] + steps.end[1]) / 2.0)
    least, most = figures.steps.min, figures.steps.max
    found = []
    if steps.riser_mm <= 0.0:
        return (
            Finding(
                Code.STEPS_UPSIDE_DOWN,
                Severity.STOP,
                place,
                words.steps_upside_down(steps),
                steps.riser_mm,
                0.0,
                "mm",
                at_mm=at,
            ),
        )
    if not least.value <= steps.riser_mm <= most.value:
        figure = least if steps.riser_mm < least.value else most
        better = riser_count(steps.riser_mm * steps.risers, figures.steps.wanted.value, most.value)
        ways = (
            (Option(words.use_risers(better), (FieldChange(f"{path}.risers", better),)),)
            if better != steps.risers
            else ()
        )
        found.append(
            Finding(
                Code.RISER_OUT_OF_RANGE,
                Severity.CHECK,
                place,
                words.riser_out_of_range(steps, figure),
                steps.riser_mm,
                figure.value,
                "mm",
                figure,
                at_mm=at,
            ).with_options((*ways, Option(words.move_lower_area())))
        )
    found.extend(_pace_and_ends(steps, path, place, at, figures))
    return tuple(found)


def _other_going(steps: Steps, path: str, low_mm: float, high_mm: float, *, short: bool) -> Option:
    """Return the going with which a pace over the steps fits a stride."""
    going = (low_mm if short else high_mm) - 2.0 * steps.riser_mm
    whole = float(math.ceil(going) if short else math.floor(going))
    return Option(
        words.make_going(going, longer=short), (FieldChange(f"{path}.going_mm", whole),) if whole > 0.0 else ()
    )


def _pace_and_ends(
    steps: Steps, path: str, place: str, at: tuple[float, float], figures: LevelFigures
) -> list[Finding]:
    found = []
    pace = pace_mm(steps.riser_mm, steps.going_mm)
    low = figures.steps.pace_min
    high = figures.steps.pace_max
    if not low.value <= pace <= high.value:
        figure = low if pace < low.value else high
        found.append(
            Finding(
                Code.PACE,
                Severity.CHECK,
                place,
                words.pace(pace, low.value, high.value),
                pace,
                figure.value,
                "mm",
                figure,
                at_mm=at,
            ).with_options((_other_going(steps, path, low.value, high.value, short=pace < low.value),))
        )
    apart = abs(steps.rise_end_mm - steps.rise_start_mm)
    uneven = figures.steps.uneven
    if apart > uneven.value:
        message, options = words.rise_uneven(steps, apart)
        found.append(
            Finding(
                Code.RISE_UNEVEN,
                Severity.CHECK,
                place,
                message,
                apart,
                uneven.value,
                "mm",
                uneven,
                options=options,
                at_mm=at,
            )
        )
    return found
