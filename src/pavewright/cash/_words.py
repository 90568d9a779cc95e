"""The words of the room, so that another language is another one of these."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class CashWords(Catalogue):
    """The words of the cash of a job."""

    tax_set_aside: str = "tax set aside"
    materials_site_no_units: str = "materials on site, and no units or base are brought to this job"
    base_this_job_lays: str = "the base, and this job lays none"
    what_laid_this_job: str = "what is laid, and this job lays nothing"
    payment_waits_nobody_can: Sentence = Sentence("A payment waits for {what}: nobody can ever see that it is due.")
    tie_something_that_this: str = "Tie it to something that this job has."
    tie_completion: str = "Tie it to completion."
    sums_stages_come_more: str = (
        "The sums of the stages come to more than the price: one payment would be less than nothing."
    )
    make_sums_smaller: str = "Make the sums smaller."
    give_parts_price_place: str = "Give parts of the price in place of sums."
    no_stage_payments_are: str = "No stage payments are stated: all of the price is counted on completion."
    more_paid_out_than: Sentence = Sentence(
        "More is paid out than has come in by {on}: have that much at hand, or move a payment."
    )
    firm_does_not_reclaim: Sentence = Sentence(
        "The firm does not reclaim tax on what it buys, and prices are counted as entered before tax: {minor_to_text} "
        "of it are in no price, and come off the margin."
    )
    enter_prices_with_tax: str = "Enter prices with tax, and say so: terms.purchase_tax_percent is zero."
    say_that_firm_reclaims: str = "Say that the firm reclaims it."
    deposit_days_before_start: Sentence = Sentence("deposit = {deposit_days} days before the start")
    snag_free_days_after: Sentence = Sentence("snag free = {defects_days} days after completion")
    labour_overhead_are_paid: str = (
        "labour and overhead are paid on the Friday of the week; tax is set aside when it comes in"
    )
    end: Sentence = Sentence("at the end = {said}")


CASH = CashWords()
"""The words of the cash of a job."""
