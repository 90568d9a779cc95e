"""The words of the room, so that another language is another one of these."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class FindingWords(Catalogue):
    """The words of findings on the firm's book."""

    this_job_was_quoted: Sentence = Sentence(
        "This job was quoted on {on} as revision {revision}, and is planned with the prices of that day."
    )
    job_says_other_prices: Sentence = Sentence(
        "The job says other prices than those that it was quoted with, and they are not in the price: {changed}."
    )
    look_what_re_pricing: str = "Look at what re-pricing changes, and quote again."
    put_quoted_prices_back: str = "Put the quoted prices back."
    what_bought_beside_what: str = "what is bought beside what is drawn"
    price_hour: str = "the price of an hour"
    price_cubic_metre_dug: str = "the price of a cubic metre dug"
    price_cubic_metre_filled: str = "the price of a cubic metre filled"
    overhead_hour: str = "overhead for an hour"
    firm_s_book_this: Sentence = Sentence(
        "The firm's book is in {currency} and this job in {currency_2}: no price is taken from the book."
    )
    enter_prices_this_job: str = "Enter the prices of this job in its own money."
    put_job_into_money: str = "Put the job into the money of the book."
    book_has_price_another: Sentence = Sentence(
        "The book has a price for another size or pack than this job names, and it is not taken: {others}."
    )
    name_pack_book_job: str = "Name the pack of the book in the job."
    enter_price_pack_job: str = "Enter a price for the pack of the job."


FINDINGS = FindingWords()
"""The words of findings on the firm's book."""
