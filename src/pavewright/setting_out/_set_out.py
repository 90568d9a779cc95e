"""Setting out of all areas: pegs, strings and tapes."""

from __future__ import annotations

import itertools
from dataclasses import replace
from typing import TYPE_CHECKING

from shapely.geometry import LineString, Point

from pavewright import units
from pavewright.findings import Finding, Severity
from pavewright.geometry import distance, unit_vector
from pavewright.setting_out import _words as words
from pavewright.setting_out._base_line import Base, base_line
from pavewright.setting_out._codes import Code
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
from pavewright.setting_out._tapes import Taped, tapes
from pavewright.setting_out._types import (
    BaseLine,
    HouseInTheWay,
    Peg,
    PegRole,
    SettingOut,
    Stands,
    StringLine,
    TapeCheck,
)

if TYPE_CHECKING:
    from pavewright.buildup import AreaBuildUp, BuildUps
    from pavewright.geometry import Side
    from pavewright.levels import FinishedArea, Levels
    from pavewright.rules import Rulebook
    from pavewright.setting_out._figures import SetOutFigures
    from pavewright.survey import PlanArea, SitePlan, Survey

_WITH_THE_FALL = 0.5
"""A string within 60 degrees of the main fall carries it. [-]"""


def set_out(survey: Survey, levels: Levels, build_ups: BuildUps, rules: Rulebook) -> SettingOut:
    """Return pegs with heights below their strings, the strings, and the tapes that prove them.

    Strings run at one height over the finished surface, so that every layer is the same distance down from them
    everywhere on an area.
    """
    read = figures(rules)
    site = survey.site
    around = site_of(site, build_ups, read)
    pegs: list[Peg] = []
    strings: list[StringLine] = []
    taped: list[TapeCheck] = []
    lines: list[BaseLine] = []
    findings: list[Finding] = []
    houses: list[HouseInTheWay] = []
    for area in site.areas:
        finished, build_up = levels.area(area.name), build_ups.area(area.name)
        first = peg_name(len(pegs) + 1)
        base = base_line(area, build_up.dig_shape.polygon, site, around, first, read)
        own, tied = _area_pegs(area, site, finished, build_up, base, around, read, len(pegs))
        names = _ends_of(base, own)
        proof = tapes(area, base, names, around, read)
        lines.append(_line(area, base, names))
        taped.extend(proof.checks)
        strings.extend(_strings(area, finished, own, tied, len(strings)))
        pegs.extend(flagged(own, area, base, around))
        houses += proof.houses
        findings += [*_short(area, base, read), *_unproven(area, proof, read), *_in_dig(area, own, tied)]
    return SettingOut(
        string_height_mm=read.string_height_mm,
        base_lines=tuple(lines),
        pegs=tuple(pegs),
        strings=tuple(strings),
        checks=tuple(taped),
        findings=(*near_services(pegs, around, read), *findings, *_long_strings(strings, read)),
        services=service_bands(site, read),
        services_words=services_words(site, read),
        houses=tuple(houses),
    )


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


def _short(area: PlanArea, base: Base, figures: SetOutFigures) -> list[Finding]:
    """Return a finding where no base line could be found beside the dig."""
    if base.own_pegs:
        return []
    out = figures.profile_out
    return [
        Finding(
            Code.NO_BASE_LINE,
            Severity.CHECK,
            f"area {area.name}",
            words.no_base_line(area.name, base.side.name),
            value=base.length_mm,
            unit="mm",
            figure=out,
            at_mm=base.start,
        )
    ]


def _unproven(area: PlanArea, proof: Taped, figures: SetOutFigures) -> list[Finding]:
    """Return a finding for the corners that no two tapes fix."""
    corners = proof.unproven
    if not corners:
        return []
    return [
        Finding(
            Code.CORNER_NOT_TAPED,
            Severity.CHECK,
            f"area {area.name}",
            words.corner_not_taped(area.name, (corner.name for corner in corners), proof.houses),
            figure=figures.behind_wall if proof.houses else None,
            at_mm=corners[0].xy,
        )
    ]


def _in_dig(area: PlanArea, pegs: list[Peg], tied: dict[tuple[int, bool], str]) -> list[Finding]:
    """Return a finding for strings that can only be tied inside the dig."""
    ends = set(tied.values())
    inside = [each for each in pegs if each.name in ends and each.stands is Stands.DIP]
    if not inside:
        return []
    return [
        Finding(
            Code.STRING_END_IN_DIG,
            Severity.NOTE,
            f"area {area.name}",
            words.string_end_in_dig(area.name, inside),
            at_mm=inside[0].at,
        )
    ]


def _long_strings(strings: list[StringLine], figures: SetOutFigures) -> list[Finding]:
    longest = figures.longest_string
    return [
        Finding(
            Code.STRING_SAGS,
            Severity.NOTE,
            f"string {each.name}",
            words.string_sags(each),
            each.length_mm,
            longest.value,
            "mm",
            longest,
        )
        for each in strings
        if each.length_mm > longest.value
    ]
