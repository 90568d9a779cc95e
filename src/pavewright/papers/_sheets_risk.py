"""The sheet of the risk of the price: how it falls, what moves it, what to order; it stays inside."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.papers._blocks import Block, SheetOfPaper, facts, heading, points, rest, right, small, table
from pavewright.papers._cost_words import RISK as SAID
from pavewright.papers._words import money, source, with_unit
from pavewright.pipeline import losing_text, risk
from pavewright.survey import assumed_name

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.papers._figures import PaperFigures
    from pavewright.pipeline import OrderChance, Plan, Risk
    from pavewright.rules import Rulebook

_DRIVERS = 12
_WIDE_CHANCE = 0.1
_LOSING = (5, 10, 20)
"""Chances of losing money for which the price is shown. [%]"""


def risk_sheets(
    plan: Plan, rules: Rulebook, figures: PaperFigures, report: Callable[[str], None]
) -> list[SheetOfPaper]:
    """Return the sheet of the risk of the price; none where nothing has a price."""
    found = risk(plan, rules, report, facts=False)
    if found is None:
        return []
    currency = plan.job.identity.currency
    sheet = SheetOfPaper(SAID.what_price_risks_not, measured=False)
    sheet.add(
        facts(_falls(found, currency)),
        small(SAID.p_price_that_nine),
        *_for_a_chance(found, currency),
        heading(SAID.what_moves_price),
        _drivers(found, currency),
        small(SAID.less_more_price_where),
        *_orders(found, plan, currency),
        heading(SAID.what_this_rests),
        points(_rests_on(found, plan, figures)),
    )
    return [sheet]


def _for_a_chance(found: Risk, currency: str) -> list[Block]:
    """Return the price for some chances of losing; nothing where the chance is not known."""
    if not found.break_even:
        return []
    more = SAID.what_has_no_price if found.gaps else ""
    rows = [
        (SAID.such_jobs_lose_money(taken=taken), f"{money(found.break_even[99 - taken], currency)}{more}")
        for taken in _LOSING
    ]
    return [heading(SAID.price_chance_that_you), facts(rows)]


def _percent(share: float) -> str:
    return f"{100.0 * share:.{1 if share < _WIDE_CHANCE else 0}f} %"


def _falls(found: Risk, currency: str) -> list[tuple[str, str]]:
    left = SAID.what_has_no_price_2 if found.gaps else ""
    return [
        *(
            (
                f"P{100.0 * each.chance:.0f}{left}",
                f"{money(each.minor, currency)} ± {money(each.error_minor, currency)}",
            )
            for each in found.quantiles
        ),
        (SAID.price_plan, money(found.likely_minor, currency)),
        (SAID.jobs_that_cost_more, _percent(found.dearer)),
        (SAID.chance_losing_money(left=left), losing_text(found)),
    ]


def _drivers(found: Risk, currency: str) -> Block:
    rows = [
        (each.words, money(each.low_minor, currency), money(each.high_minor, currency), _percent(max(0.0, each.total)))
        for each in found.drivers[:_DRIVERS]
    ]
    return table((rest("what"), right("less"), right("more"), right("share")), rows, type_size=8.0)


def _orders(found: Risk, plan: Plan, currency: str) -> list[Block]:
    """Return the orders that may run short, those that are enough in every case that was drawn, and what is neither."""
    moving = [each for each in found.orders if any(step.short > 0.0 for step in each.steps)]
    drawn = {each.key for each in found.orders}
    sure = [each.description for each in found.orders if each not in moving]
    others = [each.description for each in plan.quantities.items if each.key.bought and each.key not in drawn]
    said = [
        small(f"{words}: {'; '.join(named)}.")
        for words, named in (
            (SAID.enough_every_case_that, sure),
            (SAID.not_drawn_as_has, others),
        )
        if named
    ]
    if not moving:
        return said
    heads = (
        rest("order"),
        right("plan"),
        right("short in 100"),
        right("P50"),
        right("P80"),
        right("P90"),
        right("one more"),
        right("running short"),
        right(SAID.cheapest_mean),
    )
    return [
        heading(SAID.how_much_order_chance),
        table(heads, [_order_row(each, currency) for each in moving], type_size=8.0),
        *said,
    ]


def _order_row(order: OrderChance, currency: str) -> tuple[str, ...]:
    at = {chance: step.ordered for step in order.steps for chance in step.chances}
    short = next(step.short for step in order.steps if step.ordered == order.planned)
    return (
        f"{order.description}, {order.order_units}",
        str(order.planned),
        f"{100.0 * short:.0f}",
        *(str(at[chance]) for chance in (0.5, 0.8, 0.9)),
        money(order.step_minor, currency),
        "not known" if order.again_minor is None else money(order.again_minor, currency),
        "not known" if order.cheapest is None else str(order.cheapest),
    )


def _rests_on(found: Risk, plan: Plan, figures: PaperFigures) -> list[str]:
    certain = [each.description for each in plan.cost.lines if each.key in found.wholly_fixed]
    still = [each.description for each in plan.cost.lines if each.key in found.unmoved]
    return [
        *([SAID.taken_as_certain_amount(certain="; ".join(certain))] if certain else []),
        *([SAID.same_every_case_that(still="; ".join(still))] if still else []),
        *(SAID.assumed_drawn_between_its(each=assumed_name(each)) for each in found.assumed),
        *(SAID.assumed_not_range(each=assumed_name(each)) for each in found.not_drawn),
        *(SAID.not_price_so_not(each=each.words) for each in found.gaps),
        SAID.outputs_one_crew_lean,
        SAID.one_soil_bulks_all,
        SAID.dig_that_too_deep,
        *(f"{each.label.capitalize()}: {with_unit(each)}; {source(each, figures)}." for each in found.figures),
        SAID.times_draws_seed_same(replicates=found.replicates, draws=found.draws, seed=found.seed),
    ]
