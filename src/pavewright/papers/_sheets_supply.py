"""What has to be ordered by when and comes on which day: materials, plant, skips."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.papers._blocks import heading, paragraph, points, rest, table
from pavewright.papers._site_words import SUPPLY as SAID
from pavewright.papers._supply_words import lead_words, load_words
from pavewright.papers._words import amount, day, whole

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.cost import Hire
    from pavewright.papers._blocks import Block
    from pavewright.pipeline import Plan
    from pavewright.programme import Delivery

_NAMED = 4


def supply_blocks(plan: Plan) -> Iterator[Block]:
    """Give what is delivered with the last day on which to order it, plant on hire, and days on which spoil leaves."""
    programme = plan.programme
    if programme.deliveries:
        yield heading(SAID.orders_deliveries)
        yield table(
            ("order by", "there on", rest("what"), rest("of whom"), rest("lead time")),
            [_delivery(each) for each in programme.deliveries],
            type_size=8.0,
        )
        yield paragraph(_room(plan))
    hired = [each for each in programme.hires if each.on is not None]
    if hired:
        yield heading(SAID.plant_hire)
        yield table(
            (rest("machine"), "order by", SAID.hire_from, SAID.call_off_end, "paid until", "needed on"),
            [_hire(plan, each) for each in hired],
            type_size=8.0,
        )
        moved = hires_moved(plan)
        if moved:
            yield points(moved)
    if programme.loads:
        yield heading("Spoil")
        yield table(
            ("order by", "on", rest("what")),
            [
                ("not known" if load.order_by is None else day(load.order_by), day(load.on), load_words(load))
                for load in programme.loads
            ],
            type_size=8.0,
        )


def hires_moved(plan: Plan) -> tuple[str, ...]:
    """Return the hires whose days in the price are not those of the programme: a quoted price stays, dates move."""
    priced = {each.key: each.days for each in plan.cost.hires}
    return tuple(
        SAID.hire_these_dates_with(
            plan=_name(plan, each), days=_days(each.days), days_2=_days(priced.get(each.key, 0.0))
        )
        for each in plan.programme.hires
        if each.days != priced.get(each.key, 0.0)
    )


def _days(days: float) -> str:
    return f"{amount(days)} day{'' if days == 1.0 else 's'}"


def _name(plan: Plan, each: Hire) -> str:
    return plan.job.rates.plant[each.key.number].name or each.key.kind.value.capitalize()


def _delivery(each: Delivery) -> tuple[str, str, str, str, str]:
    by = "there" if each.begun else "not known" if each.order_by is None else day(each.order_by)
    named = [f"{item.ordered_words}: {item.description}" for item in each.items[:_NAMED]]
    more = len(each.items) - _NAMED
    what = "; ".join(named) + (SAID.more_order_list(more=more) if more > 0 else "")
    return by, day(each.on), what, each.supplier or "–", lead_words(each.lead_days, known=each.lead_known)


def _hire(plan: Plan, each: Hire) -> tuple[str, str, str, str, str, str]:
    name = plan.job.rates.plant[each.key.number].name or each.key.kind.value
    by, on, off, paid = (
        "not known" if when is None else day(when) for when in (each.order_by, each.on, each.off, each.paid_until)
    )
    return name, by, on, off, paid, f"{each.wanted_days} of {each.held_days} days"


def _room(plan: Plan) -> str:
    room = plan.job.arrangements.drop_space_m2
    there = SAID.not_known_measure if room is None else f"{whole(room)} m²"
    unknown = not all(each.kg_known for each in plan.programme.deliveries)
    there += SAID.what_has_no_mass if unknown else ""
    return SAID.room_where_lorries_set(there=there)
