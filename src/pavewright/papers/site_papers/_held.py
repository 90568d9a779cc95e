"""Hold points as they were read, and what the dig found: what the site wrote, held to the plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.as_laid import TRUSTED
from pavewright.job.on_site import FoundKind
from pavewright.papers._words import amount, day, level, money, source, two, whole
from pavewright.papers.look import (
    CalloutKind,
    FormLine,
    SheetOfPaper,
    callout,
    form,
    heading,
    paragraph,
    points,
    rest,
    right,
    small,
    table,
    together,
)
from pavewright.papers.site_papers._held_words import FOUND, HELD, KINDS, LAYERS, STATES, TAKES, TESTS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.hold_points import Consequence, GoodsNeeded, Hold, HoldPlace, PlaceRead
    from pavewright.job.on_site import DigFound, HoldCheck
    from pavewright.papers._input import PaperInput
    from pavewright.papers.look import Block

_BAG_KG = 50.0
"""What comes in packs no heavier than this is told in bags. [kg]"""


def held_sheets(given: PaperInput) -> list[SheetOfPaper]:
    """Return hold points as they were read; none before anybody has looked at one."""
    holds = given.plan.hold_points.holds
    if all(each.is_open for each in holds):
        return []
    sheet = SheetOfPaper(HELD.read, follows=True)
    sheet.add(small(HELD.read_words(trusted=whole(TRUSTED))))
    what, places, state, last = HELD.heads
    rows = [_row(given, each) for each in holds]
    sheet.add(table((rest(what), right(places), state, last), rows))
    for each in holds:
        if not each.is_open:
            sheet.add(*_one(given, each))
    return [sheet.add(small(HELD.whose))]


def _named(hold: Hold) -> str:
    return KINDS[hold.key.kind] if hold.key.layer is None else LAYERS[hold.key.layer]


def _state(hold: Hold) -> str:
    if hold.is_open:
        return HELD.open_one
    return HELD.undecided if hold.verdict is None else STATES[hold.verdict]


def _last(given: PaperInput, hold: Hold) -> HoldCheck | None:
    return next((each for each in given.plan.job.hold_checks if hold.checks and each.name == hold.checks[-1]), None)


def _row(given: PaperInput, hold: Hold) -> tuple[str, ...]:
    last = _last(given, hold)
    looked = "" if last is None else HELD.looked(on=day(last.date), by=last.read_by)
    known = [each for each in hold.read if each.found_mm is not None or each.off_line_mm is not None]
    many = len({each.place for each in known} - {None})
    read = HELD.places(read=str(many), all=str(len(hold.places))) if hold.places else ""
    return HELD.surface(what=_named(hold), where=hold.drain or hold.area), read, _state(hold), looked.strip()


def _one(given: PaperInput, hold: Hold) -> Iterator[Block]:
    """Give one hold point: its limit, its places, and what is off."""
    last = _last(given, hold)
    title = heading(HELD.one(what=_named(hold), where=hold.drain or hold.area, state=_state(hold)))
    if hold.drain_read is not None:
        yield together(title, points(list(_drain(hold))))
        return
    if hold.limit is None:
        limit = HELD.no_limit
    else:
        above, below = hold.limit.above, hold.limit.below
        where = source(below, given.figures)
        said = f"{where[:1].upper()}{where[1:]}"
        limit = HELD.place_limit(above=amount(above.value), below=amount(below.value), source=said)
    yield together(title, paragraph(limit))
    if last is not None:
        tool = last.instrument or HELD.no_instrument
        yield small(HELD.doubt(instrument=tool, sd=amount(last.sd_mm)))
    place, planned, found, off, state = HELD.place_heads
    heads = (place, right(planned), right(found), right(off), rest(state))
    rows = [_place(each) for each in hold.read]
    asked = {each.place for each in hold.read}
    rows += [_unread(each) for number, each in enumerate(hold.places) if number not in asked]
    yield table(heads, rows)
    told = [] if hold.low is None else [_taken(given, hold.low, high=False)]
    told += [] if hold.high is None else [_taken(given, hold.high, high=True)]
    if told:
        yield points(told)


def _unread(place: HoldPlace) -> tuple[str, ...]:
    planned = "" if place.planned_mm is None else level(place.planned_mm)
    return place.label, planned, "", "", HELD.unread


def _signed(off_mm: float) -> str:
    """Return a deviation in whole millimetres; one that is told as zero has no sign."""
    said = whole(abs(off_mm))
    return said if not round(abs(off_mm)) else f"{'+' if off_mm > 0.0 else '−'}{said}"


def _place(read: PlaceRead) -> tuple[str, ...]:
    off = read.off_mm if read.off_mm is not None else read.off_line_mm
    return (
        read.label,
        level(read.planned_mm),
        "" if read.found_mm is None else level(read.found_mm),
        "" if off is None else _signed(off),
        STATES[read.verdict] if read.verdict is not None else HELD.unread if off is None else "",
    )


def _taken(given: PaperInput, off: Consequence, *, high: bool) -> str:
    """Return what is off as m³, goods, hours, days and money."""
    told = [_goods(each) for each in off.goods]
    if off.loose_m3 is not None:
        told.append(HELD.loose(m3=two(off.loose_m3)))
    if off.days is not None:
        told.append(HELD.days(days=amount(off.days)))
    elif off.hours is not None:
        told.append(HELD.hours(hours=amount(off.hours)))
    currency = given.plan.job.identity.currency
    told.append(HELD.no_cost if off.minor is None else HELD.cost(money=money(round(off.minor), currency)))
    volume = off.volume_m3
    facts = {"m3": two(volume.likely), "least": two(volume.low), "most": two(volume.high), "told": ", ".join(told)}
    return HELD.high(**facts) if high else HELD.low(what=TAKES[off.kind], **facts)


def _goods(need: GoodsNeeded) -> str:
    material = need.material.value.replace("_", " ")
    if need.packs and need.unit.value == "kg" and need.amount / need.packs <= _BAG_KG:
        return HELD.packs(packs=amount(need.packs), material=material)
    if need.unit.value == "kg":
        return HELD.tonnes(tonnes=two(need.amount / units.KG_PER_TONNE), material=material)
    return HELD.amount(amount=amount(need.amount), unit=need.unit.value, material=material)


def _drain(hold: Hold) -> Iterator[str]:
    """Give what was read of a drain."""
    read = hold.drain_read
    if read is None:
        return
    if read.fall is None or read.min_fall is None or read.fall_verdict is None:
        yield HELD.fall_unknown
    else:
        fall, least = units.fall_text(read.fall), units.fall_text(read.min_fall)
        yield HELD.fall(fall=fall, least=least, state=STATES[read.fall_verdict])
    yield HELD.test(standing=TESTS[read.standing])


def found_sheets(given: PaperInput) -> list[SheetOfPaper]:
    """Return what the dig found; none where it found nothing."""
    job, works = given.plan.job, given.plan.earthworks
    if not job.dig_found:
        return []
    what, area, size, deep, on, by = HELD.found_heads
    heads = (rest(what), area, right(size), right(deep), on, by)
    said = {each.number: each for each in works.found}
    volumes = [
        HELD.broken(name=job.dig_found[number].name, m3=two(each.broken_m3))
        if each.broken_m3
        else HELD.volumes(name=job.dig_found[number].name, m3=two(each.dig_m3))
        for number, each in said.items()
    ]
    sheet = SheetOfPaper(HELD.found, follows=True)
    sheet.add(callout(CalloutKind.CAUTION, HELD.found_words), table(heads, [_found(each) for each in job.dig_found]))
    if volumes:
        sheet.add(points(volumes))
    return [sheet.add(small(HELD.whose))]


def _found(each: DigFound) -> tuple[str, ...]:
    if each.kind is FoundKind.DRAIN:
        size = HELD.metres(m=two(units.mm_to_m(each.length_mm or 0.0)))
    elif each.outline:
        size = HELD.drawn
    else:
        size = HELD.all_of_it if each.area_m2 is None else HELD.square(m2=two(each.area_m2))
    name = HELD.name(name=each.name, kind=FOUND[each.kind])
    return name, each.area, size, whole(each.depth_mm), day(each.found_on), each.found_by


def differs_sheets(given: PaperInput) -> list[SheetOfPaper]:
    """Return the form that is filled in by hand where the dig differs."""
    del given
    lines = [FormLine(words, high_mm=10.0) for words in HELD.differs_asked]
    return [SheetOfPaper(HELD.differs, measured=False).add(callout(CalloutKind.STOP, HELD.differs_words), form(lines))]
