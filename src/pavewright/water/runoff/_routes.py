"""Water followed from area to area until something takes it for good."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely.geometry import Point

from pavewright.findings import Finding, Severity
from pavewright.geometry import distance
from pavewright.levels import TakerKind
from pavewright.water import _words_runs as words
from pavewright.water._codes import Code
from pavewright.water.runoff._flow_off import flow_l_s
from pavewright.water.runoff._joint_ends import joint_end, runs_out
from pavewright.water.runoff._receivers import drain_at_low_end, with_outfall

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from pavewright.geometry import XY
    from pavewright.levels import Levels, Steps, Taker
    from pavewright.survey import Survey
    from pavewright.water._figures import WaterFigures
    from pavewright.water._types import Catchment
    from pavewright.water.runoff._caught import Caught
    from pavewright.water.runoff._joint_ends import JointEnd


@dataclass(frozen=True, eq=False)
class Routes:
    """Where the water of every catchment ends.

    Attributes:
        catchments: The catchments, with what reaches each from other areas.
        ends_m2: Area of a catchment, by row, whose water ends at another, by column; itself where it ends at once. [m²]
        findings: Areas that send water round in a circle.
    """

    catchments: tuple[Catchment, ...]
    ends_m2: NDArray[np.float64]
    findings: tuple[Finding, ...]


def routes(caught: list[Caught], survey: Survey, levels: Levels, figures: WaterFigures) -> Routes:
    """Return where the water of every catchment ends, followed over all areas that it crosses.

    Water enters the next area just past the edge over which it comes, or at the foot of a flight of steps, and joins
    the catchment that lies there. Where two areas send it back and forth it collects along their joint and runs to the
    drain at the low end of it, or out there; where it can do neither, it ends there and is reported.
    """
    caught = [_to_steps(each, levels.steps) for each in caught]
    shares = _shares(caught, levels.steps)
    circling = _circling(shares)
    findings: list[Finding] = []
    if circling.any():
        caught, left, findings = _along_joints(caught, circling, survey, levels, figures)
        shares = _shares(caught, levels.steps)
        shares[left] = 0.0
        # what still goes round after that ends where it is: nothing is counted twice, and it is reported too
        left += np.flatnonzero(_circling(shares)).tolist()
        shares[left] = 0.0
        findings += [_circle(caught[number].catchment, levels, figures) for number in left]
    areas = np.array([each.catchment.area_m2 for each in caught])
    visits, ends = _followed(areas, shares)
    inflow = visits.sum(axis=0) - areas
    rain, runoff = figures.rain_mm_per_h.value, figures.runoff.value
    catchments = tuple(
        replace(each.catchment, from_others_m2=more, whole_l_s=flow_l_s(each.catchment.area_m2 + more, rain, runoff))
        for each, more in zip(caught, np.maximum(inflow, 0.0).tolist(), strict=True)
    )
    return Routes(catchments, ends, tuple(findings))


def _to_steps(each: Caught, flights: tuple[Steps, ...]) -> Caught:
    """Return a catchment over the top of a flight as one onto the area at its foot."""
    made = each.catchment
    if made.kind is not TakerKind.FREE_EDGE:
        return each
    for flight in flights:
        if flight.upper_area == made.area and _near(made.at, flight):
            onto = replace(made, kind=TakerKind.NEXT_AREA, to=flight.lower_area, outfall=None)
            return replace(each, catchment=onto)
    return each


def _near(at: XY, flight: Steps) -> bool:
    return Point(at).distance(shapely.LineString([flight.start, flight.end])) <= _TOP_MM


_TOP_MM = 60.0
"""Water this near to the top nosing of a flight runs down it. [mm]"""


def _shares(caught: list[Caught], flights: tuple[Steps, ...]) -> NDArray[np.float64]:
    """Return the share of each catchment that runs on into each other one."""
    found = np.zeros((len(caught), len(caught)))
    for number, each in enumerate(caught):
        if each.catchment.kind is not TakerKind.NEXT_AREA:
            continue
        whole = sum(part for _, part in each.leaves)
        targets = [other for other, one in enumerate(caught) if one.catchment.area == each.catchment.to]
        for at, part in each.leaves:
            entry = Point(_foot(at, each.catchment, flights))
            if targets and whole > 0.0:
                near = min(targets, key=lambda other: min(_away(caught[other], entry)))
                found[number, near] += part / whole
    return found


def _away(one: Caught, entry: Point) -> list[float]:
    return [float(part.distance(entry)) for part in one.covers] or [float("inf")]


def _foot(at: XY, made: Catchment, flights: tuple[Steps, ...]) -> XY:
    """Return where water reaches the next area: at the foot of the flight that it runs down, else where it left."""
    for flight in flights:
        if flight.upper_area == made.area and flight.lower_area == made.to and _near(at, flight):
            out = (flight.risers - 1) * flight.going_mm / distance(flight.start, flight.end)
            along = flight.end[0] - flight.start[0], flight.end[1] - flight.start[1]
            # the upper area lies to the left of its side: the flight goes down to the right
            return at[0] + along[1] * out, at[1] - along[0] * out
    return at


def _circling(shares: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Return which catchments send water that comes back to them without end.

    One that only sends water to those is none of them.
    """
    amount, reached = np.eye(len(shares)), shares > 0.0
    for _ in range(_ROUNDS):
        amount = amount @ shares
        if not amount.any():
            break
        reached |= (reached.astype(np.float64) @ shares) > 0.0
    return np.asarray((amount.sum(axis=1) > _ROUND_AND_ROUND) & reached.diagonal(), dtype=np.bool_)


_ROUNDS = 60
"""Areas through which water is followed before it is said to go in a circle."""
_ROUND_AND_ROUND = 0.01
"""Part of a catchment's water that is still under way after so many areas. [-]"""


def _along_joints(
    caught: list[Caught], circling: NDArray[np.bool_], survey: Survey, levels: Levels, figures: WaterFigures
) -> tuple[list[Caught], list[int], list[Finding]]:
    """Lead what two areas send back and forth to the drain at the low end of their joint, or out there.

    Returns the catchments, the rows of those for which neither is to be had, and what is said of the others.
    """
    found, left = list(caught), []
    out: dict[frozenset[str], tuple[JointEnd, list[Catchment]]] = {}
    for number in np.flatnonzero(circling).tolist():
        each = caught[number]
        made, surface = each.catchment, levels.area(each.catchment.area).surface
        places = [at for at, _ in each.leaves]
        ends = min(places, key=surface.level_at), max(places, key=surface.level_at)
        drain = drain_at_low_end(ends, survey.site, surface.level_at, figures)
        if drain is not None:
            found[number] = replace(each, catchment=_taken(made, drain, made.at, survey))
            continue
        end = joint_end(survey.site.area(made.area), survey.site.area(made.to), surface.level_at, survey.site, figures)
        if end is None:
            left.append(number)
            continue
        led = replace(each, catchment=_taken(made, end.taker, end.at, survey), leaves=((end.at, made.area_m2),))
        found[number] = _to_steps(led, levels.steps)
        out.setdefault(frozenset((made.area, made.to)), (end, []))[1].append(found[number].catchment)
    return found, left, [runs_out(end, parts, figures) for end, parts in out.values()]


def _taken(made: Catchment, taker: Taker, at: XY, survey: Survey) -> Catchment:
    """Return a catchment as one that something else takes."""
    outfall = with_outfall(taker, survey.site).outfall
    return replace(
        made,
        kind=taker.kind,
        to=taker.name,
        outfall=outfall,
        at=at,
        beyond=taker.beyond,
        disputed_by=taker.disputed_by,
    )


def _followed(
    areas: NDArray[np.float64], shares: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return the area of each catchment that passes through, and that ends at, every other one. [m²]."""
    under_way = np.diag(areas)
    visits, kept = under_way.copy(), 1.0 - shares.sum(axis=1)
    for _ in range(_ROUNDS):
        under_way = under_way @ shares
        if not under_way.any():
            break
        visits += under_way
    return visits, visits * np.maximum(kept, 0.0)


def _circle(made: Catchment, levels: Levels, figures: WaterFigures) -> Finding:
    """Say that two areas send water to each other."""
    limit, place = figures.min_area_m2.value, f"area {made.area}, {made.to}"
    said, options = words.runs_in_circle(made, levels.area(made.area).surface.level_at(made.at))
    code, at = Code.RUNS_IN_CIRCLE, made.at
    return Finding(code, Severity.STOP, place, said, made.area_m2, limit, "m²", options=options, at_mm=at)
