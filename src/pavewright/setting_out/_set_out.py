"""Setting out of all areas: pegs, strings and tapes."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from shapely.geometry import LineString, Point

from pavewright import units
from pavewright.findings import Finding, Severity
from pavewright.geometry import distance, unit_vector
from pavewright.setting_out._base_line import BaseLine, base_line
from pavewright.setting_out._pegs import (
    Place,
    corner_places,
    edge_places,
    fold_places,
    grid_places,
    peg,
    profile_places,
)
from pavewright.setting_out._tapes import checks
from pavewright.setting_out._types import Peg, SettingOut, StringLine, TapeCheck

if TYPE_CHECKING:
    from pavewright.buildup import AreaBuildUp, BuildUps
    from pavewright.geometry import Side
    from pavewright.job import Job
    from pavewright.levels import FinishedArea, Levels
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea, SitePlan, Survey

_WITH_THE_FALL = 0.5
"""A string within 60 degrees of the main fall carries it. [-]"""


def set_out(job: Job, survey: Survey, levels: Levels, build_ups: BuildUps, rules: Rulebook) -> SettingOut:
    """Return pegs with heights below their strings, the strings, and the tapes that prove them.

    Strings run at one height over the finished surface, so that every layer is the same distance down from them
    everywhere on an area.
    """
    del job
    string_mm = rules.value("setting_out.string_height_mm")
    pegs: list[Peg] = []
    strings: list[StringLine] = []
    taped: list[TapeCheck] = []
    lines: list[tuple[str, str, str]] = []
    for area in survey.site.areas:
        finished, build_up = levels.area(area.name), build_ups.area(area.name)
        base = base_line(area, finished)
        lines.append((area.name, base.side.start.name, base.side.end.name))
        own, tied = _area_pegs(area, survey.site, finished, build_up, base, rules, len(pegs))
        pegs.extend(own)
        strings.extend(_strings(area, finished, own, tied, len(strings)))
        taped.extend(checks(area, base, rules))
    return SettingOut(
        string_height_mm=string_mm,
        base_lines=tuple(lines),
        pegs=tuple(pegs),
        strings=tuple(strings),
        checks=tuple(taped),
        findings=(*_near_services(pegs, survey.site, rules), *_long_strings(strings, rules)),
    )


def _area_pegs(
    area: PlanArea,
    site: SitePlan,
    finished: FinishedArea,
    build_up: AreaBuildUp,
    base: BaseLine,
    rules: Rulebook,
    before: int,
) -> tuple[list[Peg], dict[tuple[str, bool], str]]:
    """Return the pegs of an area and the name of the peg that carries each end of each side's string."""
    string_mm = rules.value("setting_out.string_height_mm")
    extends = max((layer.extends_mm for layer in build_up.layers), default=0.0)
    profiles = profile_places(area, site, rules.value("setting_out.profile_out_mm") + extends)
    places: list[Place] = [*corner_places(area), *fold_places(finished), *edge_places(area, rules)]
    places += grid_places(area, base, rules)
    pegs = [
        peg(f"Peg {before + number}", place, base, finished, build_up, string_mm)
        for number, place in enumerate([*places, *profiles.values()], start=1)
    ]
    at_corner = {place.said: each.name for place, each in zip(places, pegs, strict=False) if place.role == "corner"}
    tied = dict(zip(profiles, (each.name for each in pegs[len(places) :]), strict=True))
    for side in area.sides:
        tied.setdefault((side.name, True), at_corner[side.start.name])
        tied.setdefault((side.name, False), at_corner[side.end.name])
    return pegs, tied


def _strings(
    area: PlanArea, finished: FinishedArea, pegs: list[Peg], tied: dict[tuple[str, bool], str], before: int
) -> list[StringLine]:
    by_name = {each.name: each for each in pegs}
    found: list[StringLine] = []
    for side in area.sides:
        if side.start.rise_mm != 0.0:
            continue
        ends = by_name[tied[side.name, True]], by_name[tied[side.name, False]]
        ux, uy = unit_vector(ends[0].at, ends[1].at)
        dx, dy = finished.main_direction
        with_fall = abs(ux * dx + uy * dy) >= _WITH_THE_FALL
        for start, end in itertools.pairwise([ends[0], *_folded_on(side, pegs), ends[1]]):
            found.append(_string(before + len(found) + 1, area, start, end, carries_fall=with_fall))
    for fold in finished.surface.folds:
        # a string along a fold carries the levels of both planes that meet there
        start, end = (min(pegs, key=lambda each: distance(each.at, at)) for at in (fold.start, fold.end))
        found.append(_string(before + len(found) + 1, area, start, end, carries_fall=True))
    return found


def _folded_on(side: Side, pegs: list[Peg]) -> list[Peg]:
    """Return the pegs at ends of folds that stand on a side, in order along it: the string is tied to each."""
    line = LineString([side.start.xy, side.end.xy])
    on = [each for each in pegs if each.role == "fold" and line.distance(Point(each.at)) < _ON_SIDE_MM]
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


def _near_services(pegs: list[Peg], site: SitePlan, rules: Rulebook) -> list[Finding]:
    """Return a finding for every known service near which a peg would be driven."""
    clear = rules.figure("setting_out.clear_of_service_mm")
    found = []
    for placed in site.services:
        line = LineString(placed.points) if len(placed.points) > 1 else Point(placed.points[0])
        near = [each for each in pegs if line.distance(Point(each.at)) < clear.value]
        if near:
            found.append(
                Finding(
                    "setting_out.peg_near_service",
                    Severity.CHECK,
                    f"service {placed.service.name}",
                    f"{', '.join(each.name for each in near)} {'stand' if len(near) > 1 else 'stands'} within "
                    f"{clear.value:.0f} mm of the line of "
                    f"{placed.service.name} ({placed.service.kind}). Do not drive a pin there: trace the service "
                    f"first, and carry the string on a weighted block.",
                    value=min(line.distance(Point(each.at)) for each in near),
                    limit=clear.value,
                    unit="mm",
                    figure=clear,
                    at_mm=near[0].at,
                )
            )
    return found


def _long_strings(strings: list[StringLine], rules: Rulebook) -> list[Finding]:
    longest = rules.figure("setting_out.longest_string_mm")
    return [
        Finding(
            "setting_out.string_sags",
            Severity.NOTE,
            f"string {each.name}",
            f"String {each.name} is {units.metres_text(each.length_mm)} long and will sag: put a peg under its middle.",
            each.length_mm,
            longest.value,
            "mm",
            longest,
        )
        for each in strings
        if each.length_mm > longest.value
    ]
