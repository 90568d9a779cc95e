"""What is noticed about where water runs."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from pavewright.findings import Finding, Severity
from pavewright.job import Beyond, OutfallKind, Position
from pavewright.levels import TakerKind
from pavewright.water import _words_drains as drains_words
from pavewright.water import _words_runs as words
from pavewright.water._codes import Code
from pavewright.water._figures import FarFrom
from pavewright.water._ways import from_kerb, from_line, from_wall, to_nowhere

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

    from pavewright.findings import Option
    from pavewright.job import Job, Outfall
    from pavewright.levels import Levels
    from pavewright.survey import Survey
    from pavewright.water._figures import WaterFigures
    from pavewright.water._types import Catchment
    from pavewright.water.runoff import Routes

_SOFT = {OutfallKind.BORDER, OutfallKind.LAWN, OutfallKind.SOAKAWAY}
_SEWERS = {OutfallKind.SURFACE_WATER_SEWER, OutfallKind.COMBINED_SEWER}


def catchment_findings(
    caught: tuple[Catchment, ...], job: Job, survey: Survey, levels: Levels, figures: WaterFigures
) -> list[Finding]:
    """Return findings for catchments whose water goes where it should not, nowhere, or nobody knows where."""
    found = []
    houses = {wall.name for wall in survey.site.walls if wall.is_house}
    for each in caught:
        if each.whole_m2 < figures.min_area_m2.value:
            continue
        if each.kind is TakerKind.KERB:
            found.append(_held(each, job, survey, levels))
            continue
        reported = _one(each, houses, survey, figures)
        if reported is not None:
            found.append(reported)
    return found


def _one(each: Catchment, houses: set[str], survey: Survey, figures: WaterFigures) -> Finding | None:
    """Return what is wrong with where one catchment drains, if anything is."""
    if each.kind is TakerKind.WALL:
        house = each.to in houses
        said = words.to_wall(each, house=house)
        ways = from_wall(each, survey)
        return _wrong(each, Code.TO_WALL, said, ways, Severity.STOP if house else Severity.CHECK)
    if each.is_theirs:
        return _onto_theirs(each, survey, figures)
    asked = each.beyond in {Beyond.NOT_KNOWN, Beyond.OWN_PAVING} or each.disputed_by is not None
    if each.kind is TakerKind.TIE_IN and asked:
        return _over_tie_in(each, survey)
    drains = {TakerKind.FREE_EDGE, TakerKind.CHANNEL, TakerKind.GULLY}
    ground = each.beyond is Beyond.OWN_GROUND
    if each.kind is TakerKind.BOUNDARY and ground:
        return _onto_own_ground(each, survey)
    if each.outfall is not None or not (each.kind in drains or ground):
        return None
    said = words.no_outfall(each)
    return _wrong(each, Code.NO_OUTFALL, said, to_nowhere(each, survey))


def _onto_own_ground(each: Catchment, survey: Survey) -> Finding:
    """Say that water over a line inside the owner's ground is followed no further than the border named for it."""
    said = words.onto_own_ground(each)
    if each.outfall is not None:
        return _wrong(each, Code.ONTO_OWN_GROUND, said, (), Severity.NOTE)
    return _wrong(each, Code.ONTO_OWN_GROUND, said, to_nowhere(each, survey), Severity.CHECK)


def _held(each: Catchment, job: Job, survey: Survey, levels: Levels) -> Finding:
    """Say that a kerb holds water and nothing at its low end takes it."""
    said = words.held_by_kerb(each)
    side = next((side for side in survey.site.area(each.area).sides if side.name == each.to), None)
    surface = levels.area(each.area).surface
    low = None if side is None else min((side.start.xy, side.end.xy), key=surface.level_at)
    ways = from_kerb(each, low, len(job.measurements.points), survey)
    return _wrong(each, Code.HELD_BY_KERB, said, ways)


def _onto_theirs(each: Catchment, survey: Survey, figures: WaterFigures) -> Finding:
    """Say that water runs onto a road, a footway or a neighbour's ground, with the duty of the place."""
    road = each.beyond is Beyond.HIGHWAY
    said = words.over_boundary(each)
    figure = figures.onto_highway_l_s if road else None
    return replace(_wrong(each, Code.OVER_BOUNDARY, said, from_line(each, survey)), figure=figure)


def _over_tie_in(each: Catchment, survey: Survey) -> Finding | None:
    """Ask where water goes that runs onto existing paving: whose it is, or where it drains."""
    if each.disputed_by is not None:
        return _disputed(each, survey)
    if each.beyond is Beyond.OWN_PAVING:
        code, said = Code.ONTO_OWN_PAVING, words.onto_own_paving(each)
    else:
        code, said = Code.BEYOND_NOT_KNOWN, words.beyond_not_known(each)
    return _wrong(each, code, said, from_line(each, survey), Severity.CHECK)


def _disputed(each: Catchment, survey: Survey) -> Finding:
    said = words.beyond_disputed(each)
    return _wrong(each, Code.BEYOND_DISPUTED, said, from_line(each, survey), Severity.CHECK)


def _wrong(
    each: Catchment, code: Code, said: str, ways: tuple[Option, ...], severity: Severity = Severity.STOP
) -> Finding:
    place = f"area {each.area}, {each.to}"
    return Finding(code, severity, place, said, each.whole_l_s, 0.0, "l/s", at_mm=each.at).with_options(ways)


def outfall_findings(
    caught: tuple[Catchment, ...], reaching_m2: Mapping[str, float], survey: Survey, figures: WaterFigures
) -> list[Finding]:
    """Return findings on the outfalls that are used."""
    used = {each.outfall for each in caught if each.outfall is not None}
    found = []
    for outfall in survey.site.outfalls:
        if outfall.name in used:
            found.extend(_outfall(outfall, caught, reaching_m2[outfall.name], survey, figures))
    return found


def _outfall(
    outfall: Outfall, caught: tuple[Catchment, ...], reaching_m2: float, survey: Survey, figures: WaterFigures
) -> list[Finding]:
    place = f"outfall {outfall.name}"
    found = []
    if outfall.kind is OutfallKind.UNKNOWN:
        said = drains_words.outfall_unknown(outfall.name)
        found.append(Finding(Code.OUTFALL_UNKNOWN, Severity.STOP, place, said))
    elif not outfall.confirmed:
        said = drains_words.outfall_unseen(outfall.name)
        found.append(Finding(Code.OUTFALL_UNSEEN, Severity.CHECK, place, said))
    low = _lowest_inlet(outfall, caught, survey)
    takes_mm = outfall.invert_level_mm
    if low is not None and takes_mm is not None and takes_mm >= low[1]:
        said, options = drains_words.outfall_too_high(outfall.name, takes_mm, *low)
        found.append(
            Finding(Code.OUTFALL_TOO_HIGH, Severity.STOP, place, said, takes_mm, low[1], "mm", options=options)
        )
    if outfall.kind is OutfallKind.SOAKAWAY and (outfall.soakaway is None or outfall.soakaway.point is None):
        figure = figures.soakaway_from_m[FarFrom.BUILDING]
        said = drains_words.keep_soakaway_away(outfall.name, figure)
        found.append(Finding(Code.SOAKAWAY, Severity.NOTE, place, said, figure=figure))
    first = figures.order_of_discharge
    if outfall.kind in _SEWERS and first is not None:
        said = drains_words.to_sewer(outfall.name, reaching_m2)
        found.append(Finding(Code.SEWER, Severity.CHECK, place, said, figure=first))
    return found


def _lowest_inlet(outfall: Outfall, caught: tuple[Catchment, ...], survey: Survey) -> tuple[str, float] | None:
    """Return the inlet of an outfall with the lowest known invert."""
    names = {each.to for each in caught if each.outfall == outfall.name}
    inverts = [
        (f"channel {channel.name}", channel.invert_level_mm)
        for channel in survey.site.channels
        if channel.name in names and channel.invert_level_mm is not None
    ]
    inverts += [
        (f"gully {placed.gully.name}", placed.gully.invert_level_mm)
        for placed in survey.site.gullies
        if placed.gully.name in names and placed.gully.invert_level_mm is not None
    ]
    return min(inverts, key=lambda inlet: inlet[1], default=None)


def front_findings(
    routed: Routes, survey: Survey, figures: WaterFigures, permeable: Collection[str] = ()
) -> list[Finding]:
    """Return a finding where sealed paving at the front drains to something hard and the place has a rule about it.

    Water is followed to where it ends, over other areas too. What runs onto other paving, a footway or nobody knows
    where does not end in ground on the plot.

    Args:
        routed: The ways of the water.
        survey: The survey.
        figures: Figures of the place.
        permeable: Areas that let the rain through: the rules are about sealed ground.
    """
    figure = figures.front_garden_m2
    if figure is None:
        return []
    fronts = {area.name for area in survey.site.areas if area.area.position is Position.FRONT} - set(permeable)
    total = sum(area.shape.area_m2 for area in survey.site.areas if area.name in fronts)
    kinds = {outfall.name: outfall.kind for outfall in survey.site.outfalls}
    caught = routed.catchments
    from_front = np.array([each.area in fronts for each in caught], dtype=np.bool_)
    soft = np.array([each.outfall is not None and kinds[each.outfall] in _SOFT for each in caught], dtype=np.bool_)
    whole = sum(each.area_m2 for each in caught if each.area in fronts)
    hard = whole - float(routed.ends_m2[from_front][:, soft].sum())
    if total <= figure.value or hard <= figures.min_area_m2.value:
        return []
    said, options = words.front_garden(total, hard)
    code, limit = Code.FRONT_GARDEN, figure.value
    return [Finding(code, Severity.CHECK, "front", said, total, limit, "m²", figure, options=options)]
