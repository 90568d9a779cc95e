"""By what the amounts of assemblies are counted: areas, units, cuts, covers, drains, loads, water; and days of work."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job import Bedding, Driver
from pavewright.quantities._assemblies import built_inlets, built_pits
from pavewright.quantities._dimensions import Dimension, Drawn
from pavewright.quantities._scope import ScopeKey, ScopeKind

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from pavewright.earthworks import Earthworks
    from pavewright.job import Job
    from pavewright.laying import LayingPlan
    from pavewright.quantities._flights import FlightParts
    from pavewright.quantities._need import Need
    from pavewright.quantities._types import PitSpoil
    from pavewright.rules import Figure
    from pavewright.survey import Survey
    from pavewright.water import Water

Counts = dict[Driver, tuple[Dimension, ...]]
"""What each driver comes to, line by line. A driver that is not there is not known."""


def counts(
    job: Job,
    survey: Survey,
    laying: LayingPlan,
    flights: Iterable[FlightParts],
    earthworks: Earthworks,
    water: Water,
    pit: PitSpoil | None,
    mixing: Need | None,
) -> Counts:
    """Return what the drivers come to that are known without dates."""
    found: Counts = {Driver.JOB: (_squared(Dimension("the whole job", Drawn.SURVEY)),)}
    found |= _of_areas(job, survey, laying)
    found[Driver.RISER_M] = tuple(
        _squared(Dimension(each.steps, Drawn.STEPS, ScopeKey(ScopeKind.STEPS, number), length_m=each.units_m))
        for number, each in enumerate(flights)
    )
    found |= _of_covers(job, survey)
    found |= _of_drains(job, water)
    loads = _loads(job, earthworks, pit)
    if loads is not None:
        found[Driver.LOAD] = loads
    whole = () if mixing is None else (_squared(Dimension("water for mixing", Drawn.SURVEY, times=mixing.gross)),)
    found[Driver.WATER_LITRE] = whole
    return found


def _squared(line: Dimension) -> Dimension:
    return replace(line, amount=line.squared)


def _of_areas(job: Job, survey: Survey, laying: LayingPlan) -> Counts:
    drivers = (
        *(Driver.PAVED_M2, Driver.MORTAR_M2, Driver.SAND_M2, Driver.LOW_ABSORPTION_M2, Driver.UNIT),
        *(Driver.MORTAR_UNIT, Driver.CUT_M, Driver.PERIMETER_M, Driver.MOVEMENT_JOINT_M),
    )
    found: dict[Driver, list[Dimension]] = {driver: [] for driver in drivers}
    for number, laid in enumerate(laying.areas):
        scope = ScopeKey(ScopeKind.PAVING, number)
        face = Dimension(f"{laid.area}: faces of the pieces", Drawn.LAYING, scope, area_m2=laid.paved_m2)
        pieces = Dimension(
            f"{laid.area}: pieces, whole and cut", Drawn.LAYING, scope, times=float(laid.whole + laid.cut)
        )
        on_sand = survey.site.area(laid.area).area.laying.bedding is Bedding.SAND_ON_SUB_BASE
        found[Driver.PAVED_M2].append(face)
        found[Driver.SAND_M2 if on_sand else Driver.MORTAR_M2].append(face)
        if job.unit(laid.unit).low_absorption:
            found[Driver.LOW_ABSORPTION_M2].append(face)
        found[Driver.UNIT].append(pieces)
        if not on_sand:
            found[Driver.MORTAR_UNIT].append(pieces)
        found[Driver.CUT_M].append(
            Dimension(f"{laid.area}: saw cuts", Drawn.LAYING, scope, length_m=laid.saw_with_folds_m)
        )
        found[Driver.MOVEMENT_JOINT_M].append(
            Dimension(f"{laid.area}: movement joints", Drawn.LAYING, scope, length_m=laid.movement.total_m)
        )
        sides = survey.site.area(laid.area).sides
        found[Driver.PERIMETER_M] += [
            Dimension(f"{laid.area}: side", Drawn.SURVEY, scope, side.name, length_m=units.mm_to_m(side.length_mm))
            for side in sides
        ]
    return {driver: tuple(_squared(each) for each in lines if each.squared) for driver, lines in found.items()}


def _of_covers(job: Job, survey: Survey) -> Counts:
    """Return covers whose frames are reset, and the metres of their frames."""
    placed = {each.cover.name for each in survey.site.covers}
    each, frames = [], []
    for number, cover in enumerate(job.site.covers):
        if cover.fixed or cover.name not in placed:
            continue
        scope = ScopeKey(ScopeKind.COVER, number)
        each.append(_squared(Dimension(cover.name, Drawn.SURVEY, scope)))
        round_m = units.mm_to_m(cover.length_mm + cover.width_mm)
        words = f"{cover.name}: length and width of its frame"
        frames.append(_squared(Dimension(words, Drawn.SURVEY, scope, times=2.0, length_m=round_m)))
    return {Driver.COVER: tuple(each), Driver.COVER_FRAME_M: tuple(frames)}


def _of_drains(job: Job, water: Water) -> Counts:
    runs: list[Dimension] = []
    metres: list[Dimension] = []
    gullies: list[Dimension] = []
    channels: list[Dimension] = []
    for scope, parts in built_inlets(water):
        one = _squared(Dimension(parts.name, Drawn.WATER, scope))
        runs.append(replace(one, words=f"{parts.name}: run of drain"))
        (gullies if scope.kind is ScopeKind.GULLY else channels).append(one)
        if parts.run.length_m:
            metres.append(_squared(Dimension(f"{parts.name}: pipe", Drawn.WATER, scope, length_m=parts.run.length_m)))
    pits = [
        _squared(Dimension(pit.outfall, Drawn.WATER, ScopeKey(ScopeKind.SOAKAWAY, number)))
        for number, pit in built_pits(job, water)
    ]
    return {
        Driver.DRAIN_RUN: tuple(runs),
        Driver.DRAIN_M: tuple(metres),
        Driver.GULLY: tuple(gullies),
        Driver.CHANNEL: tuple(channels),
        Driver.SOAKAWAY: tuple(pits),
    }


def _loads(job: Job, earthworks: Earthworks, pit: PitSpoil | None) -> tuple[Dimension, ...] | None:
    """Return loads that leave; None where what leaves, or what takes it, is not known."""
    if job.rates.disposal is None or not earthworks.areas or earthworks.loads is None:
        return None
    dug = Dimension("loads of the dig", Drawn.DIG, ScopeKey(ScopeKind.DIG), times=earthworks.loads.likely)
    more = pit.loads.likely if pit is not None and pit.loads is not None else 0.0
    lines = (dug, Dimension("loads of soakaways and trenches", Drawn.WATER, times=more))
    return tuple(_squared(line) for line in lines if line.times)


@dataclass(frozen=True, slots=True)
class SiteDays:
    """Days of work by the programme.

    Attributes:
        work_days: Days on which somebody works. [days]
        weeks: Weeks from the first day to the last, begun ones whole. [weeks]
        person_days: Days of one person. [days]
        plant: Days on which each machine works, by its place in the rates. [days]
    """

    work_days: float
    weeks: float
    person_days: float
    plant: Mapping[int, float]


def counts_of_days(job: Job, days: SiteDays, fuel: Mapping[str, Figure], share: Figure) -> Counts:
    """Return what the drivers come to that dates decide.

    Args:
        job: The job.
        days: Days of work.
        fuel: Fuel that a machine burns in an hour of work, by its kind.
        share: Part of a day on hire in which it works.
    """
    found: Counts = {}
    for driver, words, amount in (
        (Driver.WORK_DAY, "days of work by the programme", days.work_days),
        (Driver.WEEK, "weeks by the programme, begun ones whole", days.weeks),
        (Driver.PERSON_DAY, "days of one person", days.person_days),
    ):
        found[driver] = (_squared(Dimension(words, Drawn.SURVEY, times=amount)),)
    litres = []
    for number, hire in enumerate(job.rates.plant):
        standard = fuel.get(hire.key.value)
        each = hire.fuel_litres_per_hour if hire.fuel_litres_per_hour is not None else standard and standard.value
        worked = days.plant.get(number, 0.0)
        if each and worked:
            hours = job.crew.hours_per_day * share.value
            words = f"{hire.name or hire.key.value.capitalize()}: {worked:g} days of {hours:g} h at work"
            line = Dimension(words, Drawn.SURVEY, times=worked * hours, each=each, each_unit="litre/h")
            litres.append(_squared(line))
    found[Driver.FUEL_LITRE] = tuple(litres)
    return found
