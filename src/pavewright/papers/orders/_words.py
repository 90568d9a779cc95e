"""The words of the order lists: one catalogue, so that another language is another one of these."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.job import SupplierKind
from pavewright.method import LiftWay
from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class OrderWords(Catalogue):
    """Every sentence of the order lists; what differs from job to job has a named place."""

    title: str = "Order lists"
    all_lists: str = "All orders"
    lead: Sentence = Sentence("{lists} for {address}.")
    one_list: str = "One order list"
    many_lists: Sentence = Sentence("{count} order lists")
    no_prices: str = "No list shows a price."
    with_prices: str = "The lists show the prices that were agreed, before tax."
    of_whom: str = "of whom"
    first_there: str = "first there on"
    order_by: str = "order by"
    some_leads: Sentence = Sentence("{day}; some lead times are not known: ask")
    drops: str = "drops"
    mass: str = "kg in all"
    ask: str = "not known: ask"
    at_least_kg: Sentence = Sentence("at least {kg}; some not known: ask")
    order_of: Sentence = Sentence("Order: {who}")
    no_supplier: Sentence = Sentence("{kind}, no supplier named")
    usual: str = (
        "No supplier is named for these: they stand with the kind of supplier that usually has them (common practice)."
    )
    deliver_to: str = "Deliver to"
    wanted_on: str = "Wanted on"
    order_latest: str = "Order by"
    gate: str = "Narrowest place"
    overhead: str = "Clear height"
    lorry: str = "A lorry may weigh"
    set_down: str = "Set down at"
    room: str = "Room to set down"
    crane: str = "Reach of the crane"
    at_least: Sentence = Sentence("{reach} m measured")
    from_road: Sentence = Sentence(
        "not measured: at least {reach} m from the edge of the road, and more from where the lorry stands"
    )
    barrow: str = "Barrow run"
    metres: Sentence = Sentence("{length} m")
    to_work: Sentence = Sentence("{length} m straight to the paving; the way that is walked is not known: ask")
    point: Sentence = Sentence("point {point}, marked on the plan below")
    way_in: str = "The way in"
    leaving: str = "What leaves"
    tickets: str = "Ask to see the carrier's registration, and keep the ticket of every load."
    pack_list: str = "Pack list"
    what: str = "what"
    order: str = "order"
    holds: str = "holds in all"
    one_kg: str = "kg of one"
    all_kg: str = "kg of all"
    there_on: str = "there on"
    price_of_one: str = "price of one"
    price_of_all: str = "price of all"
    no_price: str = "not agreed"
    brought: str = "no day"
    brought_said: str = "Lines without a day come with the first drop, or the crew brings them along."
    what_drops: str = "What one drop weighs"
    drop_mass: str = "kg of the drop"
    heaviest: str = "heaviest single pack, kg"
    there: str = "there"
    by_these_lines: Sentence = Sentence("{lines} of the list")
    one_line: str = "1 line"
    many_lines: Sentence = Sentence("{count} lines")
    hired: str = "On hire"
    machine: str = "machine"
    from_day: str = "from"
    off: str = "call off at the end of"
    loads: str = "Loads"
    on: str = "on"
    conditions: str = "With every order"
    no_substitute: str = "No substitutes without asking: neither another product nor another size, colour or pack."
    one_batch: Sentence = Sentence(
        "One batch for all of: {items}. Where that cannot be, ask before loading. Check batch numbers and shades "
        "against each other before anything is laid (common practice)."
    )
    call_first: str = "Ring the site before the lorry leaves; say its length, its weight and the reach of its crane."
    not_left: str = "Nothing is left on the footway or the road."
    minimum: Sentence = Sentence("The smallest order of the supplier, not the need, decides how many: {items}.")
    too_heavy: Sentence = Sentence(
        "STOP: what comes on {days} weighs more by itself than a lorry may weigh here. Split it, or ask for another "
        "way in."
    )
    unknown_mass: str = "Where a mass is not known, ask for it before the lorry is loaded: a crane has a limit."
    by_supplier: str = "To fill in"
    contact: str = "Contact on site"
    phone: str = "Phone"
    order_number: str = "Order number"
    confirmed: str = "Confirmed by, on"
    where: str = "Where to set down"
    where_else: str = "The plan of it stands on the first sheet, All orders."

    lift_title: str = "Lift plan"
    lift_lead: str = "By weight alone: what is held badly, wet, high or far takes more people, or an aid."
    lift: str = "lift"
    number: str = "how many"
    one_of_it: str = "one of it"
    guideline: Sentence = Sentence(
        "One person: up to {one} kg, close to the body at waist height, {one_source}. Two people: up to {two} kg, "
        "{two_source}. These are guideline weights that call for a closer look, no limits and no proof that a lift is "
        "harmless."
    )
    not_weighed: Sentence = Sentence("Nobody entered what these weigh: ask, or weigh one first. {items}.")
    carry: Sentence = Sentence(
        "The barrow run is {length} m; a load of the guideline weight is carried no further than {limit} m without "
        "resting ({source}). Use a barrow, a trolley or a lifter."
    )
    carry_ask: str = "How far things are carried is not known: ask, and measure the way."
    covers: Sentence = Sentence(
        "Covers that are lifted for the work: {count}. Their weight is not known: two keys, two people, and never "
        "by hand under an edge."
    )
    local: str = "Local codes and licensed practice take precedence over this plan."
    nothing: str = "Nothing is ordered yet."


WORDS = OrderWords()
KINDS = {
    SupplierKind.MERCHANT: "Merchant",
    SupplierKind.QUARRY: "Quarry or bulk merchant",
    SupplierKind.MAKER: "Maker",
    SupplierKind.HIRE: "Plant hire",
    SupplierKind.WASTE: "Waste carrier",
    SupplierKind.CARRIER: "Carrier",
    SupplierKind.LABOUR: "Labour",
    SupplierKind.OTHER: "Other supplier",
}
"""What each kind of supplier is called."""
WAYS = {
    LiftWay.ONE: "one person",
    LiftWay.TWO: "two people",
    LiftWay.AID: "lifting aid or machine",
    LiftWay.NOT_KNOWN: "not known: ask",
}
"""How something is lifted."""
