"""Every hold point of a job in the order of the work, with what was read there and what that means."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright.as_laid import Verdict, together
from pavewright.buildup import LayerKey
from pavewright.findings import in_order
from pavewright.hold_points._drains import drain_read
from pavewright.hold_points._figures import HEIGHTS, hold_figures
from pavewright.hold_points._findings import hold_findings
from pavewright.hold_points._limits import off_limit
from pavewright.hold_points._near import over_all, placed
from pavewright.hold_points._places import bed_places, drain_places, layer_places, row_places
from pavewright.hold_points._take_up import Priced, consequence, dig_rate, more_rate, stone_rate, trim_rate
from pavewright.hold_points._types import FindRate, Hold, HoldKey, HoldLimit, HoldPoints, PlaceRead
from pavewright.hold_points._volumes import surface_volumes
from pavewright.job.on_site import HoldCheckKind, HoldLayer
from pavewright.setting_out import HeightOf

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.buildup import AreaBuildUp, BuildUps, Layer
    from pavewright.cost import Cost, LabourTask
    from pavewright.earthworks import Earthworks
    from pavewright.hold_points._figures import HoldFigures
    from pavewright.hold_points._types import HoldPlace, TakeUpRate
    from pavewright.job import Job
    from pavewright.job.on_site import HoldCheck, HoldReading
    from pavewright.laying import LayingPlan
    from pavewright.levels import FinishedArea, Levels
    from pavewright.quantities import Quantities
    from pavewright.rules import Rulebook
    from pavewright.setting_out import SettingOut
    from pavewright.survey import Survey
    from pavewright.water import DrainRun, Water


@dataclass(frozen=True)
class Made:
    """The rooms that hold points lean on; those that a plan may lack are None then.

    Attributes:
        survey: What was measured.
        levels: Finished levels.
        build_ups: Layers and formation.
        setting_out: Pegs.
        laying: Units.
        earthworks: The dig.
        water: Drains.
        labour: Work in hours.
        quantities: Measured items.
        cost: The price.
    """

    survey: Survey
    levels: Levels
    build_ups: BuildUps
    setting_out: SettingOut
    laying: LayingPlan | None
    earthworks: Earthworks | None
    water: Water | None
    labour: tuple[LabourTask, ...] | None
    quantities: Quantities | None
    cost: Cost | None


def hold_points(job: Job, made: Made, rules: Rulebook) -> HoldPoints:
    """Return every hold point: formation of each area, drains, then layers from the bottom, the first row and the bed.

    Of several looks at one hold point the last one counts; the others stay in the job.

    Args:
        job: The job, with what was read.
        made: The rooms of its plan.
        rules: The rulebook.
    """
    site = _Site(job, made, hold_figures(job.tolerance, rules), _priced(job, made, rules))
    surfaces = [_surfaces(site, number, up) for number, up in _areas(job, made)]
    found = [holds[0] for holds in surfaces if holds]
    found += [(hold, 0.0) for hold in _drains(site)]
    found += [each for holds in surfaces for each in holds[1:]]
    findings = [finding for hold, above in found for finding in hold_findings(hold, above)]
    return HoldPoints(tuple(hold for hold, _ in found), in_order(findings), site.day_h, _finds(site))


def _finds(site: _Site) -> tuple[FindRate, ...]:
    """Return what digging out and filling costs in each area, for what the dig may find."""
    return tuple(
        FindRate(
            up.area,
            dig_rate(site.plan, number, up.area),
            stone_rate(site.plan, number, site.made.survey.site.area(up.area), up),
        )
        for number, up in _areas(site.job, site.made)
    )


@dataclass(frozen=True)
class _Site:
    job: Job
    made: Made
    figures: HoldFigures
    plan: Priced

    @property
    def day_h(self) -> float | None:
        """Hours that all of the crew work in a day; None where it is not known how many they are."""
        crew = self.job.crew
        people = crew.people or sum(len(gang.people) for gang in crew.gangs)
        return people * crew.hours_per_day if people else None


def _priced(job: Job, made: Made, rules: Rulebook) -> Priced:
    return Priced(job, rules, made.earthworks, made.labour, made.quantities, made.cost)


def _areas(job: Job, made: Made) -> Iterator[tuple[int, AreaBuildUp]]:
    numbers = {area.name: number for number, area in enumerate(job.areas)}
    for up in made.build_ups.areas:
        yield numbers[up.area], up


def _surfaces(site: _Site, number: int, up: AreaBuildUp) -> list[tuple[Hold, float]]:
    """Return the hold points of an area from formation up, each with the thickness of what lies right above it."""
    finished = next(each for each in site.made.levels.areas if each.area == up.area)
    stack = [layer for layer in up.layers if layer.thickness_mm > 0.0]
    dig = dig_rate(site.plan, number, up.area)
    found = [_surface(site, HoldKey(HoldCheckKind.FORMATION, number), finished, up, stack[-1], dig)]
    for layer in HoldLayer:
        place = next((n for n, each in enumerate(stack) if each.key.value == layer.value), None)
        if place is not None:
            key = HoldKey(HoldCheckKind.LAYER, number, layer)
            # concrete that has set is not trimmed: the bed over it is thinner then
            trim = None if layer is HoldLayer.BASE else trim_rate(dig)
            found.append(_surface(site, key, finished, up, stack[place - 1], trim))
    found.append((_row(site, number, finished), 0.0))
    if any(layer.key is LayerKey.BED for layer in stack):
        found.append((_bed(site, number, finished, up), 0.0))
    return found


def _surface(
    site: _Site, key: HoldKey, finished: FinishedArea, up: AreaBuildUp, above: Layer, high: TakeUpRate | None
) -> tuple[Hold, float]:
    """Return the formation, or the top of a layer, with what the layer above it takes up."""
    height = HeightOf.FORMATION if key.layer is None else HEIGHTS[key.layer]
    held = site.figures.layers.get(height)
    limit = None if held is None else HoldLimit(*held)
    places = layer_places(site.made.setting_out, up.area, height)
    area = site.made.survey.site.area(up.area)
    shape = up.dig_shape if key.layer is None else up.base_shape
    low = more_rate(site.plan, key.number, area, up, above)
    hold = Hold(
        key=key, area=up.area, drain="", area_m2=shape.area_m2, places=places, limit=limit, line_limit=None, checks=(),
        read=(), sd_mm=None, verdict=None, low=None, high=None, low_rate=low, high_rate=high, drain_read=None,
    )  # fmt: skip
    checks = _checks_of(site.job, key, up.area)
    if not checks:
        return hold, above.thickness_mm
    down = _down(places, finished)
    last = checks[-1]
    read = tuple(_against(each, finished, down, limit, last.sd_mm) for each in last.readings)
    offs = [(*each.at, each.off_mm) for each in read if each.off_mm is not None]
    if offs:
        off = surface_volumes(shape, offs, last.sd_mm)
        takes = [
            consequence(rate, m3, off, shape.area_m2, site.day_h)
            for rate, m3 in ((low, off.low_m3), (high, off.high_m3))
        ]
        hold = replace(hold, low=takes[0], high=takes[1])
    return _looked_at(hold, checks, read, site.figures.same_place.value), above.thickness_mm


def _down(places: tuple[HoldPlace, ...], finished: FinishedArea) -> float | None:
    """Return how far a surface lies over the finished paving, negative below it; None where it has no place. [mm]."""
    for each in places:
        if each.planned_mm is not None:
            return each.planned_mm - finished.surface.level_at(each.at)
    return None


def _against(
    each: HoldReading, finished: FinishedArea, down_mm: float | None, limit: HoldLimit | None, sd_mm: float
) -> PlaceRead:
    """Return one reading against the level planned where it was read."""
    at = each.x_mm, each.y_mm
    planned = finished.surface.level_at(at) + (down_mm or 0.0)
    off = None if each.level_mm is None or down_mm is None else each.level_mm - planned
    held = None
    if off is not None and limit is not None:
        held = off_limit(off, limit.above.value, limit.below.value, sd_mm)
    return PlaceRead(each.label, at, planned, each.level_mm, off, each.off_mm, held)


def _looked_at(hold: Hold, checks: tuple[HoldCheck, ...], read: tuple[PlaceRead, ...], near_mm: float) -> Hold:
    """Return a hold point with its last look; it is decided only where every place of the last look is."""
    found = placed(read, hold.places, near_mm)
    return replace(
        hold,
        checks=tuple(each.name for each in checks),
        read=found,
        sd_mm=checks[-1].sd_mm,
        verdict=over_all(hold.places, found),
    )


def _checks_of(job: Job, key: HoldKey, area: str) -> tuple[HoldCheck, ...]:
    """Return the looks at a surface, in the order of their days, then of the list."""
    own = [each for each in job.hold_checks if each.kind is key.kind and each.area == area and each.layer is key.layer]
    return tuple(sorted(own, key=lambda each: each.date))


def _row(site: _Site, number: int, finished: FinishedArea) -> Hold:
    """Return the first row: its level, and how far it lies off its string."""
    key = HoldKey(HoldCheckKind.FIRST_ROW, number)
    level, line = site.figures.row_level, site.figures.row_line
    limit = HoldLimit(level, level)
    hold = Hold(
        key=key, area=finished.area, drain="", area_m2=0.0, places=row_places(site.made.laying, finished), limit=limit,
        line_limit=line, checks=(), read=(), sd_mm=None, verdict=None, low=None, high=None, low_rate=None,
        high_rate=None, drain_read=None,
    )  # fmt: skip
    checks = _checks_of(site.job, key, finished.area)
    if not checks:
        return hold
    last = checks[-1]
    read = []
    for each in last.readings:
        one = _against(each, finished, 0.0, limit, last.sd_mm)
        held = [] if one.verdict is None else [one.verdict]
        if each.off_mm is not None:
            held.append(off_limit(each.off_mm, line.value, line.value, last.sd_mm))
        both = together(held) if held else None
        # a level that was not read is not known, however well the piece lies to its string
        read.append(replace(one, verdict=None if one.off_mm is None and both is Verdict.PASSES else both))
    return _looked_at(hold, checks, tuple(read), site.figures.same_place.value)


def _bed(site: _Site, number: int, finished: FinishedArea, up: AreaBuildUp) -> Hold:
    """Return the bed as it is drawn off: its level, and what a bed that is drawn high or low takes."""
    key = HoldKey(HoldCheckKind.BED, number)
    bed = next(layer for layer in up.layers if layer.key is LayerKey.BED)
    limit = HoldLimit(site.figures.bed, site.figures.bed)
    places = bed_places(site.made.setting_out, up.area)
    area = site.made.survey.site.area(up.area)
    rate = more_rate(site.plan, number, area, up, bed)
    hold = Hold(
        key=key, area=up.area, drain="", area_m2=area.laid_m2, places=places, limit=limit, line_limit=None, checks=(),
        read=(), sd_mm=None, verdict=None, low=None, high=None, low_rate=rate, high_rate=None, drain_read=None,
    )  # fmt: skip
    checks = _checks_of(site.job, key, up.area)
    down = _down(places, finished)
    if not checks or down is None:
        return hold
    last = checks[-1]
    read = tuple(_against(each, finished, down, limit, last.sd_mm) for each in last.readings)
    offs = [(*each.at, each.off_mm) for each in read if each.off_mm is not None]
    if offs:
        off = surface_volumes(area.gross, offs, last.sd_mm)
        hold = replace(hold, low=consequence(rate, off.low_m3, off, area.laid_m2, site.day_h))
    return _looked_at(hold, checks, read, site.figures.same_place.value)


def _drains(site: _Site) -> Iterator[Hold]:
    """Give every pipe run of the plan, its inlet by name."""
    for number, run in enumerate(() if site.made.water is None else site.made.water.runs):
        checks = tuple(
            sorted(
                (
                    each
                    for each in site.job.hold_checks
                    if each.kind is HoldCheckKind.DRAIN and each.drain == run.pipe.name
                ),
                key=lambda each: each.date,
            )
        )
        read = drain_read(checks[-1], _min_fall(run), site.figures.drains) if checks else None
        yield Hold(
            key=HoldKey(HoldCheckKind.DRAIN, number), area="", drain=run.pipe.name, area_m2=0.0,
            places=drain_places(run), limit=None, line_limit=None, checks=tuple(each.name for each in checks), read=(),
            sd_mm=checks[-1].sd_mm if checks else None, verdict=None if read is None else read.verdict, low=None,
            high=None, low_rate=None, high_rate=None, drain_read=read,
        )  # fmt: skip


def _min_fall(run: DrainRun) -> float | None:
    return None if run.min_one_in is None else 1.0 / run.min_one_in.value
