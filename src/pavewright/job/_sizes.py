"""Sizes: lengths that were written in metres or centimetres, weights that no paving has, and obstacles without a size."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job._faults import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job._document import Job
    from pavewright.job._measured import Measurements
    from pavewright.job._site import Site

_SMALLEST_MM = 100.0
"""No area, no tape plan and no set of offsets is smaller than this all in all: such numbers are metres. [mm]"""
_SHORT_MM = 50.0
"""No tape, door, lid or passage is shorter than this. [mm]"""


@dataclass(frozen=True, slots=True)
class _Band:
    """Lengths of one kind of thing: below the first it is in another unit, which makes it lie between the others. [mm]."""

    min_mm: float
    low_mm: float
    high_mm: float


_TAPE = _Band(50.0, 300.0, 100_000.0)
_ACCESS = _Band(300.0, 500.0, 10_000.0)
_CARRY = _Band(200.0, 1000.0, 300_000.0)
_OPENING = _Band(300.0, 400.0, 8000.0)
_COVER = _Band(75.0, 100.0, 2500.0)
_GRATING = _Band(40.0, 90.0, 1000.0)
_CHANNEL = _Band(25.0, 50.0, 500.0)
_THIN = _Band(5.0, 20.0, 5000.0)
_DEPTH = _Band(5.0, 100.0, 5000.0)
_LIGHT_KG_PER_M3, _HEAVY_KG_PER_M3 = 500.0, 5000.0
"""Timber to the heaviest stone: no paving lies outside. [kg/m³]"""
_PACK_KG = 6000.0
"""No pack is heavier: a lorry sets down one or two tonnes at a time. [kg]"""


def strange_sizes(job: Job) -> Iterator[Fault]:
    """Give lengths that look like another unit, weights that cannot be, and obstacles without a size."""
    yield from _tapes_and_offsets(job.measurements)
    yield from _areas(job)
    for path, what, length, band in _lengths(job.site):
        if length is not None and 0.0 < length < band.min_mm:
            yield _too_short(path, what, length, band)
    yield from _obstacles(job.site)
    yield from _units(job)
    yield from _measured_units(job)


def _too_short(path: str, what: str, length: float, band: _Band) -> Fault:
    """Return a length that is too short for its kind, with the units in which it makes sense."""
    fits = [
        f"{unit} (write {length * factor:g})"
        for unit, factor in (("centimetres", 10.0), ("metres", units.MM_PER_M), ("inches", units.MM_PER_INCH))
        if band.low_mm <= length * factor <= band.high_mm
    ]
    advice = f"It looks like {' or '.join(fits)}; lengths are millimetres." if fits else "Measure it again."
    return Fault(path, f"{what} is {length:g} mm, which is too short. {advice}")


def _tapes_and_offsets(measured: Measurements) -> Iterator[Fault]:
    """Give tapes and offsets in metres: all of them, or a single tape."""
    tapes = measured.tape_plan.tapes if measured.tape_plan is not None else ()
    longest = max((tape.length_mm for tape in tapes), default=_SMALLEST_MM)
    if longest < _SMALLEST_MM:
        yield _too_short("measurements.tape_plan.tapes", "The longest tape", longest, _TAPE)
    else:
        for number, tape in enumerate(tapes):
            if tape.length_mm < _SHORT_MM:
                path = f"measurements.tape_plan.tapes.{number}.length_mm"
                yield _too_short(path, f"Tape {tape.start}–{tape.end}", tape.length_mm, _TAPE)
    reach = max((max(abs(each.along_mm), abs(each.offset_mm)) for each in measured.offsets), default=0.0)
    if 0.0 < reach < _SHORT_MM:
        yield _too_short("measurements.offsets", "The longest offset", reach, _TAPE)


def _areas(job: Job) -> Iterator[Fault]:
    """Give areas, and readings as laid, that lie within a hand's breadth."""
    places = {point.name: (point.x_mm, point.y_mm) for point in job.measurements.points}
    for number, area in enumerate(job.areas):
        corners = [places[corner.point] for corner in area.outline if corner.point in places]
        reach = _reach(corners) if len(corners) == len(area.outline) else 0.0
        if 0.0 < reach < _SMALLEST_MM:
            words = (
                f"Area {area.name} is {reach:g} across: that looks like metres. Write millimetres, "
                f"{units.m_to_mm(reach):g}."
            )
            yield Fault(f"areas.{number}.outline", words)
    readings = job.as_laid.readings if job.as_laid is not None else ()
    reach = _reach([(reading.x_mm, reading.y_mm) for reading in readings])
    if 0.0 < reach < _SHORT_MM:
        words = (
            f"All readings as laid stand within {reach:g}: their places look like metres. Write millimetres, "
            f"{units.m_to_mm(reach):g}."
        )
        yield Fault("as_laid.readings", words)


def _reach(places: list[tuple[float, float]]) -> float:
    """Return the greater side of the box round places; nothing where there are none."""
    return max((max(values) - min(values) for values in zip(*places, strict=True)), default=0.0)


def _lengths(site: Site) -> Iterator[tuple[str, str, float | None, _Band]]:
    """Give place, owner, length and the sizes of such things, for lengths on the site."""
    yield "site.access_width_mm", "The width of the access", site.access_width_mm, _ACCESS
    yield "site.carry_mm", "The barrow run", site.carry_mm, _CARRY
    for number, wall in enumerate(site.walls):
        for place, door in enumerate(wall.openings):
            path = f"site.walls.{number}.openings.{place}"
            yield f"{path}.width_mm", f"The width of {door.name}", door.width_mm, _OPENING
    for number, cover in enumerate(site.covers):
        yield f"site.covers.{number}.length_mm", f"The length of {cover.name}", cover.length_mm, _COVER
        yield f"site.covers.{number}.width_mm", f"The width of {cover.name}", cover.width_mm, _COVER
    for number, gully in enumerate(site.gullies):
        yield f"site.gullies.{number}.size_mm", f"The size of {gully.name}", gully.size_mm, _GRATING
    for number, channel in enumerate(site.channels):
        yield f"site.channels.{number}.width_mm", f"The width of {channel.name}", channel.width_mm, _CHANNEL
    for number, tree in enumerate(site.trees):
        yield f"site.trees.{number}.stem_diameter_mm", f"The stem of {tree.name}", tree.stem_diameter_mm, _THIN
    for number, service in enumerate(site.services):
        yield f"site.services.{number}.depth_mm", f"The depth of {service.name}", service.depth_mm, _DEPTH
    for number, post in enumerate(site.obstacles):
        for field, what, length in (
            ("diameter_mm", "diameter", post.diameter_mm),
            ("length_mm", "length", post.length_mm),
            ("width_mm", "width", post.width_mm),
        ):
            yield f"site.obstacles.{number}.{field}", f"The {what} of {post.name}", length, _THIN


def _obstacles(site: Site) -> Iterator[Fault]:
    """Give obstacles that have neither a diameter nor a length and a width, or both."""
    for number, post in enumerate(site.obstacles):
        round_one, square = post.diameter_mm is not None, post.length_mm is not None and post.width_mm is not None
        if round_one == square or (post.length_mm is None) != (post.width_mm is None):
            words = f"{post.name} needs either a diameter, or a length and a width: measure it."
            yield Fault(f"site.obstacles.{number}", words)


_OFF_PART = 0.1
"""No unit differs from its work size by more than this part of it. [-]"""


def _measured_units(job: Job) -> Iterator[Fault]:
    """Give measured sizes that belong to another unit or another side."""
    for number, unit in enumerate(job.units):
        for side, work_mm, sizes_mm in (
            ("lengths", unit.length_mm, unit.measured_lengths_mm),
            ("widths", unit.width_mm, unit.measured_widths_mm),
        ):
            for place, size_mm in enumerate(sizes_mm):
                if abs(size_mm - work_mm) > _OFF_PART * work_mm:
                    words = (
                        f"{size_mm:g} mm was measured on {unit.name}, whose work size is {work_mm:g}: read it again, and "
                        f"check that it is this unit and this side."
                    )
                    yield Fault(f"units.{number}.measured_{side}_mm.{place}", words)


def _units(job: Job) -> Iterator[Fault]:
    """Give units whose weight and sizes cannot both be right, and packs that nothing could lift."""
    for number, unit in enumerate(job.units):
        volume_m3 = units.mm3_to_m3(unit.length_mm * unit.width_mm * unit.thickness_mm)
        density = unit.kg_each / volume_m3
        if not _LIGHT_KG_PER_M3 <= density <= _HEAVY_KG_PER_M3:
            words = (
                f"{unit.name} at {unit.kg_each:g} kg would weigh {density:.0f} kg a cubic metre; stone and concrete "
                f"weigh 2000 to 3000. Weigh one, and check its sizes."
            )
            yield Fault(f"units.{number}.kg_each", words)
        elif unit.kg_each * unit.per_pack > _PACK_KG:
            words = (
                f"A pack of {unit.per_pack} of {unit.name} would weigh {unit.kg_each * unit.per_pack:.0f} kg: check how "
                f"many are in a pack."
            )
            yield Fault(f"units.{number}.per_pack", words)
