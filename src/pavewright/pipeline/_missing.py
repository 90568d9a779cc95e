"""What a job does not know, and which rooms are not made for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost import any_hour_price
from pavewright.job import Wanted
from pavewright.pipeline import _words as words
from pavewright.pipeline._types import Missing, MissingCode, Room
from pavewright.survey import NotRead

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from pavewright.job import Fault, Job
    from pavewright.pipeline._rooms import Rooms

_ALL = tuple(room for room in Room if room is not Room.SURVEY)
_STAGES = {
    MissingCode.FALL: "levels",
    MissingCode.OUTFALL: "water",
    MissingCode.SOIL: "ground",
    MissingCode.TOPSOIL: "ground",
    MissingCode.CARRY: "price",
    MissingCode.UNIT: "paving",
    MissingCode.LAYOUT: "paving",
    MissingCode.LABOUR_PRICE: "price",
    MissingCode.PRICES: "price",
    MissingCode.OVERHEAD: "price",
    MissingCode.MARGIN: "price",
    MissingCode.TAX: "price",
    MissingCode.PEOPLE: "programme",
    MissingCode.START: "programme",
}
"""Where each is filled in; what is not listed is measured."""
_STAGE_OF = {
    Room.SURVEY: "measure",
    Room.LEVELS: "levels",
    Room.LAYING: "paving",
    Room.BUILD_UPS: "ground",
    Room.EARTHWORKS: "ground",
    Room.WATER: "water",
    Room.QUANTITIES: "quantities",
    Room.LABOUR: "price",
    Room.PROGRAMME: "programme",
    Room.COST: "price",
    Room.SETTING_OUT: "set-out",
    Room.BEDDING: "check",
    Room.AS_LAID: "check",
}
"""Where a fault of a room is looked at."""


def before_rooms(here: Rooms) -> Iterator[Missing]:
    """Give what is missing before any room but the survey is made."""
    job = here.job
    for fault in here.survey_faults.places:
        yield _fault(fault, Room.SURVEY, _ALL)
    for fault in here.survey_faults.heights:
        yield _fault(fault, Room.SURVEY, (Room.LEVELS,))
    if not job.areas:
        drawn = bool(here.survey.points or here.survey_faults.places)
        code, said = (MissingCode.AREA, words.AREA) if drawn else (MissingCode.SHAPE, words.SHAPE)
        yield _missing(code, "", "areas", said, _ALL)
    for number, area in enumerate(job.areas):
        if area.laying.unit is None:
            said = words.unit(area.name)
            yield _missing(MissingCode.UNIT, area.name, f"areas.{number}.laying.unit", said, _WITH_UNITS)
    if not job.site.ground.is_known:
        yield _missing(MissingCode.SOIL, "", "site.ground.soil", words.SOIL, (Room.BUILD_UPS,))
    if not _any_price(job):
        yield _missing(MissingCode.PRICES, "", "rates", words.PRICES, (Room.COST,))


_WITH_UNITS = (Room.LAYING, Room.BUILD_UPS)


def after_rooms(here: Rooms) -> Iterator[Missing]:
    """Give what turned out to be missing while the rooms were made, and what they had to leave unknown."""
    for room, faults in here.faults.items():
        for fault in faults:
            yield _fault(fault, room, (room,))
    job, survey = here.job, here.survey
    for each in survey.not_read:
        yield _missing(_NOT_READ[each.what], each.name, each.path, words.not_read(each.what, each.name))
    if not job.areas:
        return
    if survey.ground is None:
        yield _missing(MissingCode.GROUND, "", "measurements.ground_points", words.GROUND)
    yield from _of_the_site(job)
    yield from _of_the_office(job)


def _of_the_site(job: Job) -> Iterator[Missing]:
    """Give what has to be seen or paced on the site."""
    if not job.site.outfalls:
        yield _missing(MissingCode.OUTFALL, "", "site.outfalls", words.NO_OUTFALL)
    for number, outfall in enumerate(job.site.outfalls):
        if not outfall.confirmed:
            path = f"site.outfalls.{number}.confirmed"
            yield _missing(MissingCode.OUTFALL, outfall.name, path, words.outfall_not_seen(outfall.name))
    if job.site.ground.topsoil_mm is None:
        yield _missing(MissingCode.TOPSOIL, "", "site.ground.topsoil_mm", words.TOPSOIL)
    if job.site.carry_mm is None:
        yield _missing(MissingCode.CARRY, "", "site.carry_mm", words.CARRY)


_NOT_READ = {
    NotRead.DPC: MissingCode.DPC,
    NotRead.THRESHOLD: MissingCode.THRESHOLD,
    NotRead.AIR_BRICK: MissingCode.AIR_BRICK,
    NotRead.COVER: MissingCode.COVER,
    NotRead.EDGE: MissingCode.EDGE,
}


def _of_the_office(job: Job) -> Iterator[Missing]:
    """Give prices, people and dates that are not known."""
    rates = job.rates
    if rates.labour_minor_per_hour is None and not any_hour_price(job):
        yield _missing(MissingCode.LABOUR_PRICE, "", "rates.labour_minor_per_hour", words.LABOUR_PRICE)
    for code, path, percent, said in (
        (
            MissingCode.OVERHEAD,
            "rates.overhead_percent",
            _one_of(rates.overhead_percent, rates.overhead_minor_per_hour),
            words.OVERHEAD,
        ),
        (MissingCode.MARGIN, "rates.margin_percent", _one_of(rates.margin_percent, rates.markup_percent), words.MARGIN),
        (MissingCode.TAX, "rates.tax_percent", 0.0 if rates.tax_regime else rates.tax_percent, words.TAX),
    ):
        if percent is None:
            yield _missing(code, "", path, said)
    if job.crew.people is None and not job.crew.gangs:
        yield _missing(MissingCode.PEOPLE, "", "crew.people", words.PEOPLE, (Room.PROGRAMME,))
    if job.calendar.start is None:
        yield _missing(MissingCode.START, "", "calendar.start", words.START, (Room.PROGRAMME,))


def _one_of(first: float | None, second: float | None) -> float | None:
    """Return what is said in either of two ways."""
    return second if first is None else first


def _any_price(job: Job) -> bool:
    """Return whether anything at all has a price: without one there is no price, not a price of zero."""
    rates = job.rates
    packs = (area.laying.pack for area in job.areas)
    return any(
        (
            any_hour_price(job),
            *(unit.pack_price_minor for unit in job.units),
            *(pack.pack_price_minor for pack in packs if pack is not None),
            *(each.pack_price_minor for each in rates.materials),
            *(each.day_price_minor for each in rates.plant),
            rates.disposal is not None and rates.disposal.load_price_minor,
        )
    )


_WANTED = {
    Wanted.TAPE: MissingCode.TAPE,
    Wanted.SIDE: MissingCode.SIDE,
    Wanted.HEIGHT: MissingCode.HEIGHT,
    Wanted.FALL: MissingCode.FALL,
    Wanted.LAYOUT: MissingCode.LAYOUT,
}


def _fault(fault: Fault, room: Room, rooms: tuple[Room, ...]) -> Missing:
    """Return a fault as what is missing: something that nobody said, or readings that contradict each other."""
    code = MissingCode.READINGS if fault.wanted is None else _WANTED[fault.wanted]
    stage = _STAGE_OF[room] if fault.wanted is None else _STAGES.get(code, "measure")
    return Missing(code, fault.place, fault.path, stage, fault.message, rooms)


def _missing(code: MissingCode, place: str, path: str, said: str, rooms: tuple[Room, ...] = ()) -> Missing:
    return Missing(code, place, path, _STAGES.get(code, "measure"), said, rooms)


def in_measuring_order(found: Iterable[Missing]) -> tuple[Missing, ...]:
    """Return what is missing in the order in which one would measure it; each thing once."""
    order = {code: place for place, code in enumerate(MissingCode)}
    once = dict.fromkeys(found)
    return tuple(sorted(once, key=lambda each: order[each.code]))
