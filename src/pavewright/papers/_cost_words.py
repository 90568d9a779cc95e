"""The words of sheets that stay inside: cost, cash, risk, build-ups, and the workbook of the cost."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class CostWords(Catalogue):
    """The words of the cost sheet."""

    loads_taken_away: str = "Loads taken away"
    cost_sheet_not_customer: str = "Cost sheet: not for the customer"
    from_cost_price: str = "From cost to price"
    price_before_tax: str = "Price before tax"
    if_all_goes_well: str = "If all goes well or badly"
    not_price: str = "Not in the price"
    what_customer_reads_money: str = "What the customer reads of the money"
    cash_orders_not_customer: str = "Cash and orders: not for the customer"
    sums_behind_price: str = "The sums behind the price"
    what_could_make_dearer: str = "What could make it dearer"
    options_that_customer_does: str = "Options that the customer does not see"
    what_changes_makes_no: str = "what it changes makes no job that can be planned"
    something_has_no_price: str = "something in it has no price"
    quoted_as_revision_prices: Sentence = Sentence(
        "Quoted on {on} as revision {revision}: prices, people and terms are those of that day."
    )
    not_range: str = "not in the range"
    assumed_not_measured_what: str = "Assumed, not measured: what it may do to the price"
    less_best: str = "less, at best"
    more_worst: str = "more, at worst"
    price_one: str = "price of one"


@dataclass(frozen=True, slots=True)
class CashWords(Catalogue):
    """The words of the cash."""

    loads_taken_away: str = "loads taken away"
    tax_set_aside: str = "tax set aside"
    tax_purchases: str = "tax on purchases"
    things_have_no_price: Sentence = Sentence(
        " {gaps} things have no price and are not counted: the real lowest point may be deeper."
    )
    cash_job_day_day: str = "Cash of the job, day by day"
    tax_that_free_again: str = "tax that is free again"
    not_known_enter_stage: str = (
        "Not known: enter stage payments, what an hour of labour costs, overhead, margin and tax, the people and the "
        "start."
    )
    never_more_paid_out: str = "Never more is paid out than has come in."
    more_paid_out_than: Sentence = Sentence("{currency} more is paid out than has come in by {lowest_on}")


@dataclass(frozen=True, slots=True)
class RiskWords(Catalogue):
    """The words of what a price risks."""

    what_price_risks_not: str = "What the price risks: not for the customer"
    p_price_that_nine: str = (
        "P90 is the price that nine of ten such jobs would stay within, priced by what they turned out to cost; it is "
        "no guarantee. Losing money: cost and overhead are more than the price before tax; provisional work is "
        "settled at its rates, so it loses nothing."
    )
    what_moves_price: str = "What moves the price"
    less_more_price_where: str = (
        "Less and more: the price where this alone turns out as in the best and the worst tenth of cases. Share: of "
        "the variance, with what it does together with others; Sobol, by Jansen's estimator."
    )
    what_this_rests: str = "What this rests on"
    what_has_no_price: str = ", and what has no price on top"
    such_jobs_lose_money: Sentence = Sentence("{taken} in 100 such jobs lose money at")
    price_chance_that_you: str = "The price for a chance that you take"
    what_has_no_price_2: str = ", what has no price left out"
    price_plan: str = "Price of the plan"
    jobs_that_cost_more: str = "Jobs that cost more than the likely values say"
    chance_losing_money: Sentence = Sentence("Chance of losing money at it{left}")
    enough_every_case_that: str = "Enough in every case that was drawn, as the plan orders it"
    not_drawn_as_has: str = "Not drawn, as it has no price or comes in no packs"
    cheapest_mean: str = "cheapest in the mean"
    how_much_order_chance: str = "How much to order, by chance"
    taken_as_certain_amount: Sentence = Sentence("Taken as certain, at the amount of the plan: {certain}.")
    same_every_case_that: Sentence = Sentence("The same in every case that was drawn: {still}.")
    assumed_drawn_between_its: Sentence = Sentence("Assumed, drawn between its ends: {each}.")
    assumed_not_range: Sentence = Sentence("Assumed, and not in the range: {each}.")
    not_price_so_not: Sentence = Sentence("Not in the price, so not in its range: {each}.")
    outputs_one_crew_lean: str = "Outputs of one crew lean on each other; work of one kind goes alike in all areas."
    one_soil_bulks_all: str = "One soil bulks for all areas."
    dig_that_too_deep: str = (
        "A dig that is too deep is filled by the lowest layer; a layer that is too high takes from the bed."
    )
    times_draws_seed_same: Sentence = Sentence(
        "{replicates} times {draws} draws, seed {seed}; the same job brings the same figures."
    )


@dataclass(frozen=True, slots=True)
class BuildUpWords(Catalogue):
    """The words of build-ups compared."""

    build_ups_compared_not: str = "Build-ups compared: not for the customer"
    each_planned_with_whole: str = (
        "Each is planned with the whole job, and dig, price, days, mass and carbon are those of the whole job; the "
        "depth of the dig is the mean of the area. What has no price or no mass is not in a figure that says at "
        "least; carbon is of what has a factor."
    )
    all_mm: str = "in all mm"
    not_be_compared_this: str = (
        "* Not to be compared: this has no price, and they take other amounts of it than what is planned."
    )
    not_be_compared_what: str = "* Not to be compared: what is dug is not known, and it is in none of these prices."
    rule_that_each_base: str = "The rule that each base goes by:"
    other_published_rules_which: str = "Other published rules, by which none of these goes:"
    what_not_known: str = "What is not known:"
    entered_this_job_rain: str = "entered in this job for the rain that it stores; less would bear"
    entered_this_job_not: str = "entered in this job, not checked here"


@dataclass(frozen=True, slots=True)
class CostBookWords(Catalogue):
    """The words of the workbook of the cost."""

    price_one: Sentence = Sentence("Price of one, {currency}")
    not_price: Sentence = Sentence("Not in the price: {gap}")
    overhead_hour_labour: str = "Overhead by the hour of labour"
    price_before_tax_with: str = "Price before tax, with a mark-up on the cost of"
    price_before_tax_with_2: str = "Price before tax, with a margin on it of"
    then_steps: Sentence = Sentence("{words} (then in steps of {to})")
    rounded_line_line: Sentence = Sentence("{words}, rounded line by line")
    not_known_left_out: str = "not known, left out"


@dataclass(frozen=True, slots=True)
class CalendarWords(Catalogue):
    """The words of the calendar."""

    stop_until_somebody_has: str = "Stop until somebody has looked"
    wait_nobody_site: str = "Wait, nobody on site"
    delivery_today: Sentence = Sentence("Delivery by today: {group}{who}")
    order_today: Sentence = Sentence("Order by today: {group}{who}")
    hire_from_today: Sentence = Sentence("On hire from today: {name}")
    call_off_hire_end: Sentence = Sentence("Call off hire at the end of today: {name}")
    order_today_2: Sentence = Sentence("Order by today: {name}")


COST = CostWords()
"""The words of the cost sheet."""
CASH = CashWords()
"""The words of the cash."""
RISK = RiskWords()
"""The words of what a price risks."""
BUILD_UPS = BuildUpWords()
"""The words of build-ups compared."""
COST_BOOK = CostBookWords()
"""The words of the workbook of the cost."""
CALENDAR = CalendarWords()
"""The words of the calendar."""
