"""Wishes and terms of trade: what contradicts itself or is half said."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job._buying import MaterialKind, PackUnit
from pavewright.job._faults import Fault
from pavewright.job._site import AnswerKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job._document import Job
    from pavewright.job._site import Wall

_DAY_MIN = 1440.0
"""Minutes of a day. [min]"""
_FIRST_YEAR, _LAST_YEAR = 1900, 2199
"""Between these years lies every job."""
_PACKED_AS = {
    MaterialKind.CEMENT: {PackUnit.KG},
    MaterialKind.SHARP_SAND: {PackUnit.KG, PackUnit.M3},
    MaterialKind.SOFT_SAND: {PackUnit.KG, PackUnit.M3},
    MaterialKind.BALLAST: {PackUnit.KG, PackUnit.M3},
    MaterialKind.SUB_BASE: {PackUnit.KG, PackUnit.M3},
    MaterialKind.JOINT_SAND: {PackUnit.KG, PackUnit.M3},
    MaterialKind.GEOTEXTILE: {PackUnit.M2},
    MaterialKind.EDGING: {PackUnit.M, PackUnit.EACH},
    MaterialKind.KERB: {PackUnit.M, PackUnit.EACH},
    MaterialKind.CHANNEL: {PackUnit.M, PackUnit.EACH},
    MaterialKind.PLASTICISER: {PackUnit.LITRE},
    MaterialKind.CHANNEL_END: {PackUnit.EACH},
    MaterialKind.CHANNEL_OUTLET: {PackUnit.EACH},
    MaterialKind.GULLY: {PackUnit.EACH},
    MaterialKind.GRATING: {PackUnit.EACH},
    MaterialKind.PIPE: {PackUnit.M, PackUnit.EACH},
    MaterialKind.PIPE_BEND: {PackUnit.EACH},
    MaterialKind.PIPE_GRAVEL: {PackUnit.KG, PackUnit.M3},
    MaterialKind.PERFORATED_PIPE: {PackUnit.M, PackUnit.EACH},
    MaterialKind.SILT_TRAP: {PackUnit.EACH},
    MaterialKind.SOAKAWAY_STONE: {PackUnit.KG, PackUnit.M3},
    MaterialKind.SOAKAWAY_CRATES: {PackUnit.M3},
    MaterialKind.STEP_UNIT: {PackUnit.M, PackUnit.EACH},
    MaterialKind.BOND_COAT: {PackUnit.KG},
}
"""Units in which a material can be ordered; materials that are not listed take any."""


def conflicting_wishes(job: Job) -> Iterator[Fault]:
    """Give wishes for a fall that contradict each other or are half said."""
    for number, area in enumerate(job.areas):
        wish, path = area.fall, f"areas.{number}.fall"
        if wish.away_from is not None and wish.bearing_deg is not None:
            words = f"{area.name} is to fall away from {wish.away_from} and to a bearing: keep one of the two."
            yield Fault(path, words)
        if (wish.level_at is None) != (wish.level_mm is None):
            words = f"{area.name}: a level asked for takes both, level_at for the point and level_mm for the level."
            yield Fault(path, words)


def rain_half_said(job: Job) -> Iterator[Fault]:
    """Give rain of the place and soakaways that are half given or given twice."""
    for number, outfall in enumerate(job.site.outfalls):
        pit = outfall.soakaway
        if pit is not None and pit.infiltration_m_per_s is None and pit.pit_test is None:
            words = f"{outfall.name} takes a rate of infiltration or the test of a trial pit: fill one and time it."
            yield Fault(f"site.outfalls.{number}.soakaway", words)
    rain = job.site.rain
    if rain is not None and not rain.depths and None in (rain.five_year_hour_mm, rain.hour_to_two_days):
        words = "The rain of the place takes five_year_hour_mm and hour_to_two_days, or a table of depths."
        yield Fault("site.rain", words)
    if rain is not None and len({row.duration_min for row in rain.depths}) < len(rain.depths):
        yield Fault("site.rain.depths", "A duration stands twice in the table of rain: keep one row of each.")


def half_said(job: Job) -> Iterator[Fault]:
    """Give ranges the wrong way round, doors one over the other, answers without a value, drains above themselves."""
    for number, unit in enumerate(job.units):
        if unit.joint_min_mm > unit.joint_max_mm:
            words = f"{unit.name}: the narrowest joint is wider than the widest."
            yield Fault(f"units.{number}.joint_min_mm", words)
    for number, wall in enumerate(job.site.walls):
        yield from _doors(f"site.walls.{number}.openings", wall)
    for number, gully in enumerate(job.site.gullies):
        grating_mm, invert_mm = gully.grating_level_mm, gully.invert_level_mm
        if grating_mm is not None and invert_mm is not None and invert_mm >= grating_mm:
            words = f"The invert of {gully.name} lies at or above its grating: measure down from the grating again."
            yield Fault(f"site.gullies.{number}.invert_level_mm", words)
    for number, answer in enumerate(job.site.walk_round):
        if answer.answer is AnswerKind.VALUE and not answer.value.strip():
            words = (
                f"{answer.question} is answered by a value that is empty: write it, or answer none or could_not_see."
            )
            yield Fault(f"site.walk_round.{number}.value", words)
    if job.calendar.day_starts_min + job.crew.hours_per_day * units.MINUTES_PER_HOUR > _DAY_MIN:
        words = (
            "A day of work that starts at day_starts_min would run past midnight: start earlier or work fewer hours."
        )
        yield Fault("calendar.day_starts_min", words)


def days_of_no_job(job: Job) -> Iterator[Fault]:
    """Give dates that no job of ours has: a year with a figure too many, or none at all."""
    days = [("identity.date", "The date of the revision", job.identity.date)]
    if job.calendar.start is not None:
        days.append(("calendar.start", "The start of the calendar", job.calendar.start))
    days += [
        (f"calendar.days_off.{n}", f"Day off {n + 1} of the calendar", day)
        for n, day in enumerate(job.calendar.days_off)
    ]
    if job.as_laid is not None:
        days.append(("as_laid.date", "The date of the readings as laid", job.as_laid.date))
        days += [
            (f"as_laid.later_visits.{n}.date", f"The date of later visit {n + 1}", visit.date)
            for n, visit in enumerate(job.as_laid.later_visits)
        ]
    if job.handed_over is not None:
        told = job.handed_over
        days += [
            (f"handed_over.{path}", what, day)
            for path, what, day in (
                ("completed_on", "The day on which the work was complete", told.completed_on),
                ("handed_on", "The day of the handover", told.handed_on),
                ("warranty_until", "The end of the warranty", told.warranty_until),
            )
            if day is not None
        ]
    for path, what, day in days:
        if not _FIRST_YEAR <= day.year <= _LAST_YEAR:
            words = f"{what} is {day.isoformat()}: a job lies between {_FIRST_YEAR} and {_LAST_YEAR}. Write it again."
            yield Fault(path, words)


def _doors(path: str, wall: Wall) -> Iterator[Fault]:
    """Give doors whose steps contradict each other and doors that stand one over the other."""
    for number, door in enumerate(wall.openings):
        if door.max_step_mm is not None and door.max_step_mm < door.min_step_mm:
            words = f"{door.name}: the greatest step is smaller than the smallest."
            yield Fault(f"{path}.{number}", words)
    in_line = sorted(enumerate(wall.openings), key=lambda entry: (entry[1].along_mm, entry[0]))
    for (_, before), (number, door) in itertools.pairwise(in_line):
        if door.along_mm < before.along_mm + before.width_mm:
            words = (
                f"{before.name} and {door.name} stand in one place of wall {wall.name}: measure both from "
                f"{wall.start} again."
            )
            yield Fault(f"{path}.{number}.along_mm", words)


def packs(job: Job) -> Iterator[Fault]:
    """Give prices in units in which a material is not ordered."""
    for number, material in enumerate(job.rates.materials):
        allowed = _PACKED_AS.get(material.key)
        if allowed is not None and material.pack_unit not in allowed:
            words = f"{material.key} is ordered by {' or '.join(sorted(allowed))}, not by {material.pack_unit}."
            yield Fault(f"rates.materials.{number}.pack_unit", words)
