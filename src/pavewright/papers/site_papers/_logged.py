"""The logs of the days as they were written."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.papers._words import day, one, whole
from pavewright.papers.look import SheetOfPaper, facts, heading, rest, right, table, together
from pavewright.papers.site_papers._logged_words import SKY, STAGE, WASTE, WHY, WORDS
from pavewright.site_log import site_log

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job.handover import DeliveredBatch
    from pavewright.job.on_site import DayWeather, MixedBatch, SiteDay, WasteTicket
    from pavewright.papers._input import PaperInput
    from pavewright.papers.look import Block
    from pavewright.site_log import LoggedDay


def logged_sheets(given: PaperInput) -> list[SheetOfPaper]:
    """Return the logs that were written; none where there is none."""
    plan = given.plan
    log = site_log(plan.job, None, plan.programme, given.rules)
    if not log.days:
        return []
    sheet = SheetOfPaper(WORDS.title)
    for each in log.days:
        sheet.add(together(heading(day(each.on)), facts(_facts(each)), *_hours(each)))
    return [sheet]


def _hours(each: LoggedDay) -> list[Block]:
    if not each.hours:
        return []
    task, *numbers = WORDS.hours_heads
    rows = [
        (line.words, one(line.person_h), WORDS.unknown if line.done_percent is None else whole(line.done_percent))
        for line in each.hours
    ]
    return [table((rest(task), *(right(number) for number in numbers)), rows)]


def _facts(each: LoggedDay) -> list[tuple[str, str]]:
    people = [
        WORDS.person_unknown(name=who.name)
        if who.there_h is None
        else WORDS.person(name=who.name, hours=one(who.there_h))
        for who in each.people
    ]
    booked = (
        WORDS.booked_alone(booked=one(each.person_h))
        if each.there_h is None
        else WORDS.booked(booked=one(each.person_h), there=one(each.there_h))
    )
    found = [(WORDS.people, "; ".join((*people, booked)))]
    lines: dict[str, list[str]] = {}
    for log in each.logs:
        for head, words in _said(log):
            lines.setdefault(head, []).append(words)
    return found + [(head, "; ".join(dict.fromkeys(words))) for head, words in lines.items()]


def _said(log: SiteDay) -> Iterator[tuple[str, str]]:
    """Give what else a log says, each under its head."""
    yield from ((WORDS.weather, words) for words in _weather(log.weather))
    for stop in log.stops:
        why = WHY[stop.why]
        known = stop.lost_h is not None
        yield WORDS.stops, WORDS.stop(why=why, hours=one(stop.lost_h or 0.0)) if known else WORDS.stop_unknown(why=why)
    for bay in log.bays:
        yield WORDS.bays, WORDS.bay(area=bay.area, stage=STAGE[bay.stage])
    yield from _loads(log)
    for head, words in ((WORDS.note, log.note), (WORDS.written_by, log.written_by)):
        if words:
            yield head, words
    if log.photos:
        yield WORDS.photos, str(len(log.photos))


def _weather(weather: DayWeather) -> Iterator[str]:
    if weather.sky is not None:
        yield SKY[weather.sky]
    if weather.lowest_c is not None:
        yield WORDS.lowest(value=f"{weather.lowest_c:g}")
    if weather.highest_c is not None:
        yield WORDS.highest(value=f"{weather.highest_c:g}")
    if weather.rain_depth_mm is not None:
        yield WORDS.rain(value=f"{weather.rain_depth_mm:g} mm")


def _loads(log: SiteDay) -> Iterator[tuple[str, str]]:
    for batch in log.delivered:
        yield WORDS.delivered, delivered_words(batch)
    for ticket in log.waste:
        yield WORDS.waste, waste_words(ticket)
    for each in log.mixed:
        yield WORDS.mixed, _mixed(each)


def _mixed(each: MixedBatch) -> str:
    """Say what was mixed, how often, from when on and how warm."""
    said = [
        WORDS.batches_unknown(mix=each.mix) if each.count is None else WORDS.batches(mix=each.mix, many=str(each.count))
    ]
    if each.mixed_min is not None:
        hours, minutes = divmod(each.mixed_min, 60)
        said.append(WORDS.mixed_from(time=f"{hours:02d}:{minutes:02d}"))
    if each.mix_c is not None:
        said.append(WORDS.mix_warm(value=f"{each.mix_c:g}"))
    return ", ".join(said)


def delivered_words(batch: DeliveredBatch) -> str:
    """Say what came, with its batch and its ticket."""
    what = batch.product or batch.unit or WORDS.unknown
    words = WORDS.batch(what=what, batch=batch.batch) if batch.batch else WORDS.no_batch(what=what)
    return WORDS.ticket(what=words, ticket=batch.ticket) if batch.ticket else words


def amount_words(ticket: WasteTicket) -> str:
    """Say how much left, as its ticket says; empty where that is not known."""
    volume, mass = ticket.volume_m3, ticket.mass_tonnes
    said = (
        "" if volume is None else WORDS.cubic(value=f"{volume:g}"),
        "" if mass is None else WORDS.tonnes(value=f"{mass:g}"),
    )
    return ", ".join(each for each in said if each)


def waste_words(ticket: WasteTicket) -> str:
    """Say what left, with its ticket."""
    what = ", ".join(each for each in (WASTE[ticket.what], amount_words(ticket)) if each)
    return WORDS.ticket(what=what, ticket=ticket.ticket) if ticket.ticket else WORDS.no_ticket(what=what)
