"""The sheets of one order list."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.drawing import drop_plan
from pavewright.papers._supply_words import load_words
from pavewright.papers._words import amount, day, money, one, whole
from pavewright.papers.look import (
    FormLine,
    SheetOfPaper,
    beside,
    decimal,
    facts,
    figure,
    form,
    heading,
    paragraph,
    points,
    rest,
    right,
    small,
    table,
)
from pavewright.papers.orders._words import KINDS, WORDS
from pavewright.quantities import by_measure

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.papers.look import Block, Head
    from pavewright.pipeline import Plan
    from pavewright.programme import Drop, DropPlace, ListedLine, OrderList


def who(order: OrderList) -> str:
    """Return of whom something is ordered."""
    kind = KINDS[order.kind]
    return f"{order.supplier}, {kind.lower()}" if order.supplier else WORDS.no_supplier(kind=kind)


def order_sheet(plan: Plan, order: OrderList, place: DropPlace | None) -> SheetOfPaper:
    """Return all that one supplier needs to know."""
    sheet = SheetOfPaper(WORDS.order_of(who=who(order)), measured=False)
    if order.usual and not order.supplier:
        sheet.add(small(WORDS.usual))
    where, what = access(plan, place)
    sheet.add(facts([*_when(order), *where[:1]]), beside([facts(where[1:])], [facts(what)]))
    if order.lines:
        sheet.add(heading(WORDS.leaving if order.loads else WORDS.pack_list), _pack_list(plan, order))
        if any(line.on is None for line in order.lines) and order.drops:
            sheet.add(small(WORDS.brought_said))
    if order.drops:
        sheet.add(heading(WORDS.what_drops), _drops(order.drops))
    if order.hires:
        sheet.add(heading(WORDS.hired), _hires(plan, order))
    if order.loads:
        sheet.add(heading(WORDS.loads), _loads(order))
    asked = (WORDS.contact, WORDS.phone, WORDS.order_number, WORDS.confirmed)
    sheet.add(
        beside(
            [heading(WORDS.conditions), points(_conditions(order))],
            [heading(WORDS.by_supplier), form([FormLine(label, high_mm=7.0) for label in asked])],
            shares=(3, 2),
        )
    )
    return sheet.add(figure(drop_plan(plan, place), WORDS.where, WORDS.where_else))


def _when(order: OrderList) -> list[tuple[str, str]]:
    """Return when it is wanted, and by when it has to be ordered."""
    wanted = [drop.on for drop in order.drops] + [load.on for load in order.loads]
    wanted += [hire.on for hire in order.hires if hire.on is not None]
    return [
        (WORDS.wanted_on, ", ".join(day(each) for each in sorted(set(wanted))[:_DAYS]) or WORDS.ask),
        (WORDS.order_latest, order_latest(order)),
    ]


_DAYS = 4
"""More days than these stand in the tables below."""


def order_latest(order: OrderList) -> str:
    """Return the last day on which to order, as far as lead times are known."""
    if order.drops and all(drop.there for drop in order.drops):
        return WORDS.there
    days = [drop.order_by for drop in order.drops if not drop.there]
    days += [hire.order_by for hire in order.hires] + [load.order_by for load in order.loads]
    known = [each for each in days if each is not None]
    if not known:
        return WORDS.ask
    whole_of_it = len(known) == len(days) and all(drop.order_by_known for drop in order.drops)
    return day(min(known)) if whole_of_it else WORDS.some_leads(day=day(min(known)))


def access(plan: Plan, place: DropPlace | None) -> tuple[list[tuple[str, str]], list[tuple[str, str]]]:
    """Return where it goes, and what may get there; what nobody said is asked."""
    site, arranged, named = plan.job.site, plan.job.arrangements, plan.job.identity
    limit, address = arranged.lorry_limit_tonnes, ", ".join(part for part in (named.client, named.address) if part)
    where = [
        (WORDS.deliver_to, address or WORDS.ask),
        (WORDS.set_down, WORDS.ask if place is None else WORDS.point(point=place.point)),
        (WORDS.gate, _metres(site.access_width_mm)),
        (WORDS.room, WORDS.ask if arranged.drop_space_m2 is None else f"{amount(arranged.drop_space_m2)} m²"),
    ]
    what = [
        (WORDS.overhead, _metres(arranged.clear_height_mm)),
        (WORDS.lorry, WORDS.ask if limit is None else f"{limit:g} t"),
        (WORDS.crane, _crane(arranged.crane_reach_mm, place)),
        (WORDS.barrow, _barrow(site.carry_mm, place)),
    ]
    return where, what


def _metres(length_mm: float | None) -> str:
    return WORDS.ask if length_mm is None else WORDS.metres(length=units.metres_text(length_mm))


def _crane(reach_mm: float | None, place: DropPlace | None) -> str:
    if reach_mm is not None:
        return WORDS.at_least(reach=one(units.mm_to_m(reach_mm)))
    if place is None or place.from_road_mm is None:
        return WORDS.ask
    return WORDS.from_road(reach=one(units.mm_to_m(place.from_road_mm)))


def _barrow(run_mm: float | None, place: DropPlace | None) -> str:
    if run_mm is not None:
        return WORDS.metres(length=one(units.mm_to_m(run_mm)))
    return WORDS.ask if place is None else WORDS.to_work(length=one(units.mm_to_m(place.to_work_mm)))


def _mass(kg: float | None) -> str:
    return "ask" if kg is None else whole(kg)


def _pack_list(plan: Plan, order: OrderList) -> Block:
    """Return what is ordered, with what it holds, what it weighs and its day; the price only where the job asks."""
    priced, currency = plan.job.arrangements.order_prices, plan.job.identity.currency
    heads: list[str | Head] = [
        *(rest(WORDS.what), WORDS.order, right(WORDS.holds)),
        *(decimal(WORDS.one_kg), right(WORDS.all_kg), WORDS.there_on),
        *((right(WORDS.price_of_one), right(WORDS.price_of_all)) if priced else ()),
    ]
    rows = []
    for each in order.lines:
        line = each.line
        prices = (line.price_minor, line.amount_minor) if priced else ()
        rows.append((
            line.description,
            line.ordered_words,
            by_measure(each.unit).counted(each.holds),
            _each(each),
            _mass(each.kg),
            WORDS.brought if each.on is None else day(each.on),
            *(WORDS.no_price if price is None else money(price, currency) for price in prices),
        ))  # fmt: skip
    return table(heads, rows, type_size=8.0)


def _each(line: ListedLine) -> str:
    if line.kg is None:
        return "ask"
    return "loose" if line.kg_each is None else amount(line.kg_each)


def _drops(drops: Iterable[Drop]) -> Block:
    heads = (WORDS.there_on, WORDS.order_by, rest(WORDS.what), right(WORDS.drop_mass), right(WORDS.heaviest))
    rows = [
        (
            day(drop.on),
            WORDS.there if drop.there else WORDS.ask if drop.order_by is None else day(drop.order_by),
            _lines(len(drop.items)),
            _known_mass(drop.kg, known=drop.kg_known),
            _mass(drop.heaviest_kg),
        )
        for drop in drops
    ]
    return table(heads, rows, type_size=8.0)


def _known_mass(kg: float, *, known: bool) -> str:
    """Return a mass, or how much of it is known. [kg]."""
    if known:
        return whole(kg)
    return WORDS.at_least_kg(kg=whole(kg)) if kg else WORDS.ask


def _lines(count: int) -> str:
    return WORDS.by_these_lines(lines=WORDS.one_line if count == 1 else WORDS.many_lines(count=str(count)))


def _hires(plan: Plan, order: OrderList) -> Block:
    rows = []
    for hire in order.hires:
        name = plan.job.rates.plant[hire.key.number].name or hire.key.kind.value.capitalize()
        days = (hire.order_by, hire.on, hire.off)
        rows.append((name, *(WORDS.ask if each is None else day(each) for each in days)))
    return table((rest(WORDS.machine), WORDS.order_by, WORDS.from_day, WORDS.off), rows, type_size=8.0)


def _loads(order: OrderList) -> Block:
    rows = [
        (WORDS.ask if load.order_by is None else day(load.order_by), day(load.on), load_words(load))
        for load in order.loads
    ]
    return table((WORDS.order_by, WORDS.on, rest(WORDS.what)), rows, type_size=8.0)


def _conditions(order: OrderList) -> list[str]:
    batch = [line.line.description for line in order.lines if line.one_batch]
    raised = [line.line.description for line in order.lines if line.line.raised]
    heavy = [day(drop.on) for drop in order.drops if drop.too_heavy]
    return [
        *([WORDS.too_heavy(days=", ".join(heavy))] if heavy else []),
        *([WORDS.no_substitute] if order.lines and not order.loads else []),
        *([WORDS.tickets] if order.loads else []),
        *([WORDS.one_batch(items="; ".join(batch))] if batch else []),
        *([WORDS.minimum(items=", ".join(raised))] if raised else []),
        WORDS.call_first,
        WORDS.not_left,
        *([WORDS.unknown_mass] if order.drops and not order.kg_known else []),
    ]


def front(orders: tuple[OrderList, ...], plan: Plan, place: DropPlace | None) -> SheetOfPaper:
    """Return all lists at a glance, with what may get to the site."""
    lists = WORDS.one_list if len(orders) == 1 else WORDS.many_lists(count=str(len(orders)))
    sheet = SheetOfPaper(WORDS.all_lists, measured=False)
    sheet.add(
        paragraph(WORDS.lead(lists=lists, address=plan.job.identity.address or WORDS.ask)),
        paragraph(WORDS.with_prices if plan.job.arrangements.order_prices else WORDS.no_prices),
    )
    heads = (rest(WORDS.of_whom), WORDS.order_by, WORDS.first_there, right(WORDS.drops), right(WORDS.mass))
    sheet.add(table(heads, [_row(order) for order in orders], type_size=8.5))
    where, what = access(plan, place)
    sheet.add(heading(WORDS.way_in), facts(where[:1]), beside([facts(where[1:])], [facts(what)]))
    return sheet.add(figure(drop_plan(plan, place), WORDS.where))


def _row(order: OrderList) -> tuple[str, ...]:
    first = [drop.on for drop in order.drops] + [load.on for load in order.loads]
    first += [hire.on for hire in order.hires if hire.on is not None]
    mass = _known_mass(order.kg, known=order.kg_known)
    return (
        who(order),
        order_latest(order),
        day(min(first)) if first else WORDS.ask,
        str(len(order.drops) or len(order.loads) or len(order.hires)),
        mass if order.lines else "",
    )
