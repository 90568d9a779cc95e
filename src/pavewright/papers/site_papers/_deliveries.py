"""What should come with each lorry, and the tickets of what leaves."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.papers._supply_words import load_words
from pavewright.papers._words import day, one, whole
from pavewright.papers.look import (
    FormLine,
    SheetOfPaper,
    form,
    heading,
    paragraph,
    pencil,
    rest,
    right,
    signatures,
    small,
    table,
    together,
)
from pavewright.papers.site_papers._logged import amount_words
from pavewright.papers.site_papers._logged_words import WASTE
from pavewright.papers.site_papers._words import WORDS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.papers._input import PaperInput
    from pavewright.papers.look import Block
    from pavewright.programme import Delivery, DeliveryLine

_BLANK_ROWS = 6
_MIN_TICKETS, _SPARE_TICKETS = 12, 4
"""Rows of the log of tickets, and rows over the loads that are likely."""
_CAME_MM, _BATCH_MM, _DAMAGE_MM = 17.0, 30.0, 26.0
"""Room to write in. [mm]"""


def delivery_sheets(given: PaperInput) -> list[SheetOfPaper]:
    """Return a check for each delivery of the programme, and a blank one for any other."""
    programme = given.plan.programme
    known = () if programme is None else programme.deliveries
    sheet = SheetOfPaper(WORDS.deliveries, measured=False).add(paragraph(WORDS.deliveries_words))
    for number, each in enumerate(known, start=1):
        sheet.add(together(*_delivery(given, number, each)))
    blank = [("",) * 6] * _BLANK_ROWS
    sheet.add(together(heading(WORDS.delivery_blank), _table(blank), _ticket(), signatures(WORDS.received)))
    return [sheet]


def _delivery(given: PaperInput, number: int, each: Delivery) -> list[Block]:
    title = WORDS.delivery(number=str(number), supplier=each.supplier or WORDS.supplier_unknown, day=day(each.on))
    rows = [
        (
            _what(given, item),
            item.ordered_words,
            WORDS.unknown if item.kg is None else whole(item.kg),
            *("", "", ""),
        )
        for item in each.items
    ]
    partly = "" if each.kg_known else WORDS.partly
    weight = [small(WORDS.weight(kg=whole(each.kg), partly=partly))] if each.kg else []
    return [heading(title), *weight, _table(rows), _ticket(), signatures(WORDS.received)]


def _what(given: PaperInput, item: DeliveryLine) -> str:
    """Return what should come; of a mixed pack also how many of each size."""
    measured = next((each for each in given.plan.quantities.items if each.key == item.key), None)
    if measured is None or not measured.holds:
        return item.description
    sizes = ", ".join(WORDS.in_pack(many=str(each.per_pack), unit=each.unit) for each in measured.holds)
    return WORDS.with_sizes(what=item.description, sizes=sizes)


def _table(rows: Sequence[tuple[str, ...]]) -> Block:
    what, ordered, kg, came, batch, damage = WORDS.delivery_heads
    heads = (
        rest(what),
        ordered,
        right(kg, "kg"),
        pencil(came, _CAME_MM),
        pencil(batch, _BATCH_MM),
        pencil(damage, _DAMAGE_MM),
    )
    return table(heads, rows, type_size=8.0, pad=4.5, boxed=True)


def _ticket() -> Block:
    return form([FormLine(words) for words in WORDS.delivery_form], columns=3)


def waste_sheets(given: PaperInput) -> list[SheetOfPaper]:
    """Return the log of loads and skips that leave: those that are planned first, then blank rows."""
    plan = given.plan
    sheet = SheetOfPaper(WORDS.waste, upright=False, measured=False).add(paragraph(WORDS.waste_words))
    works, programme = plan.earthworks, plan.programme
    planned = [] if programme is None else [f"{day(load.on)}: {load_words(load)}" for load in programme.loads]
    many = len(planned)
    if works is None or works.loads is None:
        sheet.add(paragraph(WORDS.loads_unknown))
    else:
        low, high = whole(works.loads.low), whole(works.loads.high)
        loose = works.loose_m3
        volume = {"low_m3": one(loose.low), "high_m3": one(loose.high)}
        if low != high:
            words = WORDS.loads(low=low, high=high, **volume)
        else:
            words = WORDS.load_one(**volume) if round(works.loads.low) == 1 else WORDS.loads_one(many=low, **volume)
        sheet.add(paragraph(words))
        many = max(many, int(works.loads.high))
    rows = max(many + _SPARE_TICKETS, _MIN_TICKETS)
    number, when, date, ticket, carrier, what, much, where, by = WORDS.waste_heads
    heads = (
        right(number),
        rest(when),
        *(pencil(date, 20.0), pencil(ticket, 26.0), pencil(carrier, 48.0), pencil(what, 30.0), pencil(much, 20.0)),
        *(pencil(where, 40.0), pencil(by, 24.0)),
    )
    left = _left(given)
    rows = max(rows, len(left) + _SPARE_TICKETS)
    cells = [
        (str(k + 1), planned[k] if k < len(planned) else "", *(left[k] if k < len(left) else ("",) * 7))
        for k in range(rows)
    ]
    return [sheet.add(table(heads, cells, type_size=8.0, pad=5.5, boxed=True))]


def _left(given: PaperInput) -> list[tuple[str, ...]]:
    """Return the loads that left by the logs, in the order of their days: date, ticket, carrier and so on."""
    return [
        (day(log.date), each.ticket, each.carrier, WASTE[each.what], amount_words(each), each.went_to, log.written_by)
        for log in sorted(given.plan.job.site_days, key=lambda log: log.date)
        for each in log.waste
    ]
