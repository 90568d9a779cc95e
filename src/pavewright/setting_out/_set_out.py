"""Setting out of all areas: pegs, strings and tapes."""

from __future__ import annotations

import itertools
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from shapely.geometry import LineString, Point

from pavewright import units
from pavewright.geometry import distance, unit_vector
from pavewright.setting_out._across import lines_across, places_across
from pavewright.setting_out._base_line import Base, base_line
from pavewright.setting_out._figures import figures
from pavewright.setting_out._pegs import (
    Place,
    base_places,
    corner_places,
    edge_places,
    fold_places,
    grid_places,
    peg,
    peg_name,
    profile_places,
    stands_at,
)
from pavewright.setting_out._pins import flagged, near_services, service_bands, services_words
from pavewright.setting_out._sight import Surroundings, site_of
from pavewright.setting_out._tapes import tapes
from pavewright.setting_out._told import in_dig_told, long_strings_told, short_told, unproven_told
from pavewright.setting_out._types import (
    BaseLine,
    HouseInTheWay,
    Peg,
    PegRole,
    StringLine,
    TapeCheck,
)
from pavewright.setting_out._whole_types import AtHand, SettingOut
from pavewright.setting_out._work import Doing, curves_of, steps_of, work
from pavewright.setting_out.errors import tool_errors

if TYPE_CHECKING:
    from pavewright.buildup import AreaBuildUp, BuildUps
    from pavewright.findings import Finding
    from pavewright.geometry import Side
    from pavewright.levels import FinishedArea, Levels
    from pavewright.rules import Rulebook
    from pavewright.setting_out._figures import SetOutFigures
    from pavewright.setting_out.errors import WorkStep
    from pavewright.setting_out.shapes import CurveSetOut
    from pavewright.survey import PlanArea, SitePlan, Survey

_WITH_THE_FALL = 0.5
"""A string within 60 degrees of the main fall carries it. [-]"""


def set_out(
    survey: Survey, levels: Levels, build_ups: BuildUps, rules: Rulebook, at_hand: AtHand | None = None
) -> SettingOut:
    """Return pegs with heights below their strings, the strings, the order of work and the tapes that prove it.

    Strings run at one height over the finished surface, so that every layer is the same distance down from them
    everywhere on an area; where they really hang is worked out from what the site says back.
    """
    read = figures(rules)
    site = survey.site
    around = site_of(site, build_ups, read)
    hand = AtHand() if at_hand is None else at_hand
    doing = Doing(around, tool_errors(hand.tools, rules), read)
    found = _Found()
    for area in site.areas:
        _area(area, survey, levels.area(area.name), build_ups.area(area.name), doing, found)
    for area in site.areas:
        _inside(area, site, levels.area(area.name), build_ups.area(area.name), doing, found)
    pegs, strings = found.pegs, found.strings
    return SettingOut(
        string_height_mm=read.string_height_mm,
        base_lines=tuple(found.lines),
        pegs=tuple(pegs),
        strings=tuple(strings),
        checks=tuple(found.taped),
        findings=(*near_services(pegs, around, read), *found.findings, *long_strings_told(strings, read)),
        work=work(survey, pegs, strings, found.steps, found.curves, hand, doing, rules),
        services=service_bands(site, read),
        services_words=services_words(site, read),
        houses=tuple(found.houses),
    )


@dataclass
class _Found:
    """What is set out so far."""

    pegs: list[Peg] = field(default_factory=list)
    strings: list[StringLine] = field(default_factory=list)
    taped: list[TapeCheck] = field(default_factory=list)
    lines: list[BaseLine] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    houses: list[HouseInTheWay] = field(default_factory=list)
    steps: list[WorkStep] = field(default_factory=list)
    curves: list[CurveSetOut] = field(default_factory=list)
    bases: dict[int, Base] = field(default_factory=dict)


def _area(
    area: PlanArea, survey: Survey, finished: FinishedArea, build_up: AreaBuildUp, doing: Doing, found: _Found
) -> None:
    """Set out one area: its base line, its pegs, its strings along sides and folds, and the tapes that prove it."""
    site, around, read = survey.site, doing.surroundings, doing.figures
    first = peg_name(len(found.pegs) + 1)
    base = base_line(area, build_up.dig_shape.polygon, site, around, first, read)
    own, tied = _area_pegs(area, site, finished, build_up, base, around, read, len(found.pegs))
    names = _ends_of(base, own)
    steps = steps_of(area, base, names, doing, len(found.steps))
    proof = tapes(area, base, names, steps, around, read)
    found.bases[id(area)] = base
    found.steps += steps
    found.curves += curves_of(area, base, doing)
    found.lines.append(_line(area, base, names))
    found.taped.extend(proof.checks)
    found.strings.extend(_strings(area, finished, own, tied, len(found.strings)))
    found.pegs.extend(flagged(own, area, base, around))
    found.houses += proof.houses
    found.findings += [*short_told(area, base, read), *unproven_told(area, proof, read), *in_dig_told(area, own, tied)]


def _inside(
    area: PlanArea, site: SitePlan, finished: FinishedArea, build_up: AreaBuildUp, doing: Doing, found: _Found
) -> None:
    """Put up strings across an area, with the pegs that carry them: they come after all other pegs in number."""
    base, read = found.bases[id(area)], doing.figures
    own = [each for each in found.pegs if each.area == area.name]
    tied = sum(each.area == area.name for each in found.strings)
    out = read.profile_out.value + max((layer.extends_mm for layer in build_up.layers), default=0.0)
    for line in lines_across(area, finished, base, own, tied, read):
        for places in places_across(line, area, finished, site, doing.surroundings, read, out):
            carrying = []
            for place in places:
                stood = replace(place, stands=stands_at(place, site))
                there = next((each for each in own if distance(each.at, stood.at) < _ON_SIDE_MM), None)
                if there is None:
                    fresh = peg(len(found.pegs) + 1, stood, base, finished, build_up, read.string_height_mm)
                    (there,) = flagged([fresh], area, base, doing.surroundings)
                    found.pegs.append(there)
                carrying.append(there)
            found.strings += [
                _string(len(found.strings) + k, area, start, end, carries_fall=_with_fall(start, end, finished))
                for k, (start, end) in enumerate(itertools.pairwise(carrying), start=1)
            ]


def _ends_of(base: Base, pegs: list[Peg]) -> tuple[str, str]:
    """Return what stands at the two ends of a base line: its own pegs, else the corners between which it runs."""
    return (pegs[0].name, pegs[1].name) if base.own_pegs else (base.side.start.name, base.side.end.name)


def _line(area: PlanArea, base: Base, names: tuple[str, str]) -> BaseLine:
    return BaseLine(
        area=area.name,
        start=names[0],
        end=names[1],
        start_at=base.start,
        end_at=base.end,
        length_mm=base.length_mm,
        side=base.side.name,
        off_mm=base.off_mm,
        words=f"{names[0]} to {names[1]}, {units.metres_text(base.length_mm)} m, {base.runs()}",
    )


def _area_pegs(
    area: PlanArea,
    site: SitePlan,
    finished: FinishedArea,
    build_up: AreaBuildUp,
    base: Base,
    around: Surroundings,
    figures: SetOutFigures,
    before: int,
) -> tuple[list[Peg], dict[tuple[int, bool], str]]:
    """Return the pegs of an area and the name of the peg that carries each end of each side's string."""
    string_mm = figures.string_height_mm
    extends = max((layer.extends_mm for layer in build_up.layers), default=0.0)
    profiles = profile_places(area, site, around, figures, figures.profile_out.value + extends)
    corners = corner_places(area)
    first = base_places(base)
    places: list[Place] = [*first, *corners, *fold_places(finished), *edge_places(area, figures)]
    places += grid_places(area, base, figures)
    pegs = [
        peg(before + number, place, base, finished, build_up, string_mm)
        for number, place in enumerate(
            (replace(place, stands=stands_at(place, site)) for place in (*places, *profiles.values())), start=1
        )
    ]
    outer = pegs[len(first) : len(first) + len(area.ring.corners)]
    tied = dict(zip(profiles, (each.name for each in pegs[len(places) :]), strict=True))
    for number in range(len(area.sides)):
        tied.setdefault((number, True), outer[number].name)
        tied.setdefault((number, False), outer[(number + 1) % len(outer)].name)
    return pegs, tied


def _strings(
    area: PlanArea, finished: FinishedArea, pegs: list[Peg], tied: dict[tuple[int, bool], str], before: int
) -> list[StringLine]:
    by_name = {each.name: each for each in pegs}
    found: list[StringLine] = []
    for number, side in enumerate(area.sides):
        if side.start.rise_mm != 0.0:
            continue
        ends = by_name[tied[number, True]], by_name[tied[number, False]]
        with_fall = _with_fall(*ends, finished)
        for start, end in itertools.pairwise([ends[0], *_folded_on(side, pegs), ends[1]]):
            found.append(_string(before + len(found) + 1, area, start, end, carries_fall=with_fall))
    for fold in finished.surface.folds:
        # a string along a fold carries the levels of both planes that meet there
        start, end = (min(pegs, key=lambda each: distance(each.at, at)) for at in (fold.start, fold.end))
        found.append(_string(before + len(found) + 1, area, start, end, carries_fall=True))
    return found


def _with_fall(start: Peg, end: Peg, finished: FinishedArea) -> bool:
    """Return whether a string carries the fall."""
    ux, uy = unit_vector(start.at, end.at)
    dx, dy = finished.main_direction
    return abs(ux * dx + uy * dy) >= _WITH_THE_FALL


def _folded_on(side: Side, pegs: list[Peg]) -> list[Peg]:
    """Return the pegs at ends of folds that stand on a side, in order along it: the string is tied to each."""
    line = LineString([side.start.xy, side.end.xy])
    on = [each for each in pegs if each.role is PegRole.FOLD and line.distance(Point(each.at)) < _ON_SIDE_MM]
    return sorted(on, key=lambda each: distance(side.start.xy, each.at))


_ON_SIDE_MM = 1.0
"""A peg this near to a side stands on it. [mm]"""


def _string(number: int, area: PlanArea, start: Peg, end: Peg, *, carries_fall: bool) -> StringLine:
    return StringLine(
        name=f"S{number}",
        area=area.name,
        start=start.name,
        end=end.name,
        length_mm=distance(start.at, end.at),
        fall_mm=start.string_level_mm - end.string_level_mm,
        carries_fall=carries_fall,
    )
