"""The words of variations, bills and the final account: one catalogue, so that another language is another one."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.account import AgreedKind
from pavewright.job.agreed import BillKind, VariationCause, VariationMeasureKind, VariationState
from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class ChangesWords(Catalogue):
    """Every sentence of these papers; what differs from job to job has a named place."""

    variations_title: str = "Variations"
    slip: Sentence = Sentence("Variation {number}: {name}")
    register: str = "Register of variations"
    number: str = "No."
    on: str = "Date"
    state: str = "State"
    cause: str = "Why"
    asked_by: str = "Asked by"
    contract: str = "Belongs to"
    accepted: Sentence = Sentence("quotation of {quoted}, accepted on {on} by {by}")
    nothing_accepted: str = "no quotation was accepted yet"
    decided: Sentence = Sentence("{state} on {on} by {by}")
    reason: str = "Reason"
    no_reason: str = "not entered"
    measures: str = "What it makes more or less of"
    no_measures: str = "No level, depth or quantity changes."
    measure: str = "measure"
    where: str = "where"
    before: str = "as accepted"
    after: str = "with it"
    more: str = "more or less"
    none: str = "none"
    whole_job: str = "whole job"
    drawn: str = "Before and after"
    layers_caption: str = "Layers from the surface down"
    plan_caption: str = "Outline with levels; dashed, the outline as accepted"
    price: str = "What it does to the price"
    net: str = "before tax"
    gross: str = "with tax"
    what: str = "what"
    this_variation: str = "This variation"
    agreed_before: str = "Agreed before it"
    agreed_with: str = "Agreed with it"
    later: Sentence = Sentence("The work is done {days} later with it.")
    sooner: Sentence = Sentence("The work is done {days} sooner with it.")
    no_days: str = "It makes no difference to the days."
    days_unknown: str = "What it does to the days is not known."
    one_day: str = "1 working day"
    many_days: Sentence = Sentence("{count} working days")
    gaps: Sentence = Sentence("The sum is too low: {count} more of what it takes has no price. Price it first.")
    unsigned: str = "Please sign before this work is done. Until then nothing of it goes on, and nothing is billed."
    customer: str = "Customer"
    contractor: str = "Contractor"
    approved_sum: str = "Approved, together"
    proposed_sum: str = "Not decided, together"
    days: str = "days"
    unknown: str = "not known"

    bills_title: str = "Bills"
    bill: Sentence = Sentence("Invoice {number}")
    tax_bill: Sentence = Sentence("Tax invoice {number}")
    credit: Sentence = Sentence("Credit note {number}")
    held_bill: Sentence = Sentence("Invoice {number}: money held back")
    bill_number: str = "Number"
    due: str = "To be paid by"
    to: str = "To"
    for_what: str = "For"
    credits: str = "Credits"
    credits_bill: Sentence = Sentence("invoice {number}")
    tax_number: str = "Tax number"
    sums: str = "What is billed"
    credited: str = "What is credited"
    rate: str = "rate"
    taxed: str = "taxed"
    to_pay: str = "To pay for this bill"
    comes_off: str = "Comes off what is owing"
    less_held: str = "less money held back"
    with_freed: str = "with money that was held back"
    no_longer_held: str = "of which no longer held back"
    running: str = "Running account"
    agreed_all: str = "Agreed in all"
    billed_before: str = "Billed before, less credits"
    this_bill: str = "This bill"
    billed_with: str = "Billed with it"
    left: str = "Left to bill"
    held: str = "Held back in all"
    paid: Sentence = Sentence("Received until {on}")
    owing: str = "Owing with it"
    not_tax_firm: str = "This is not a tax invoice: the firm is not registered for tax."
    not_tax_number: str = "This is not a tax invoice: the firm's tax number is not entered."
    not_tax_unknown: str = "This is not a tax invoice: it is not entered whether the firm is registered for tax."
    charges_without: str = "It charges tax, and the firm is not registered for it: it is not to be sent."
    not_sent: Sentence = Sentence("Bill {number} is not to be sent")
    not_sent_why: str = "Put it right by a credit note, or by the bill that is missing. Nothing was changed in it here."
    numbered: str = "Bills and credit notes of a job are numbered together from 1, without a gap, after its number."

    account_title: str = "Final account"
    so_far_title: str = "Account so far"
    sum_of: str = "What was agreed"
    quotation: Sentence = Sentence("Quotation of {on}, accepted by {by}")
    option: Sentence = Sentence("Option: {name}")
    settled: Sentence = Sentence("Settled: {name}")
    variation: Sentence = Sentence("Variation {number}: {name}")
    tax: str = "tax"
    total: str = "Final sum"
    total_so_far: str = "Agreed so far"
    by_tax: str = "The same by tax"
    not_final: str = "This is not the final account yet:"
    still_proposed: Sentence = Sentence("Variation {number} ({name}) is not decided: {gross} with tax.")
    still_unsettled: Sentence = Sentence("{name} is not settled: it stands as quoted, {net} before tax.")
    still_to_bill: Sentence = Sentence("{gross} with tax are not billed.")
    over_billed: Sentence = Sentence("{gross} with tax are billed beyond what was agreed: a credit note is due.")
    bills: str = "Bills and credit notes"
    no_bills: str = "Nothing was billed yet."
    received: str = "Money received"
    no_received: str = "Nothing was received yet."
    amount: str = "amount"
    note: str = "note"
    kind: str = "what"
    held_short: str = "held / freed"
    due_short: str = "to pay"
    balance: str = "Balance"
    billed: str = "Billed, less credits"
    held_now: str = "Held back"
    asked: str = "To pay in all"
    received_all: str = "Received"
    owing_now: str = "Owing"
    credit_now: str = "Paid too much"
    refused: str = "Refused variations, in no sum"
    workings: str = "How it adds up"
    agreed_by: str = "This account is agreed."


WORDS = ChangesWords()
STATES = {
    VariationState.PROPOSED: "proposed",
    VariationState.APPROVED: "approved",
    VariationState.REFUSED: "refused",
}
CAUSES = {
    VariationCause.ASKED: "the customer asked for it",
    VariationCause.GROUND: "the ground is not as expected",
    VariationCause.HIDDEN: "something hidden was found",
    VariationCause.DESIGN: "the design changes",
    VariationCause.RULE: "a rule asks for it",
    VariationCause.OTHER: "another reason",
}
MEASURES = {
    VariationMeasureKind.DIG_DEPTH: "formation below the surface",
    VariationMeasureKind.LEVEL: "finished level in the middle",
    VariationMeasureKind.DIG: "dug, in the ground",
    VariationMeasureKind.FILL: "filled, compacted",
    VariationMeasureKind.STONE: "stone under the paving",
    VariationMeasureKind.PAVED: "paved",
    VariationMeasureKind.LOADS: "loads away, likely",
}
BILLS = {
    BillKind.STAGE: "stage",
    BillKind.VARIATION: "variation",
    BillKind.FINAL: "the rest",
    BillKind.RETENTION: "money held back",
    BillKind.CREDIT: "credit note",
}
AGREED = {
    AgreedKind.QUOTATION: "quotation",
    AgreedKind.OPTION: "options",
    AgreedKind.SETTLED: "sums settled",
    AgreedKind.VARIATION: "variations",
}
