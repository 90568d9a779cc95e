"""Sums on these papers: by the way in which they are taxed, in one manner on every sheet."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from pavewright.cost import Taxed, TaxShare
from pavewright.job import TaxRegime
from pavewright.papers._price_words import reverse_statement
from pavewright.papers._words import money

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from pavewright.job.agreed import TaxedSum
    from pavewright.rules import Rulebook


def writer(currency: str) -> Callable[[int], str]:
    """Return what writes money of one currency."""
    return partial(money, currency=currency)


def signed(amount_minor: int, currency: str) -> str:
    """Return a difference with its sign."""
    return f"+{money(amount_minor, currency)}" if amount_minor > 0 else money(amount_minor, currency)


def rate_words(part: TaxedSum, tax_name: str) -> str:
    """Return how a sum is taxed, in few words."""
    if part.regime is TaxRegime.REVERSE_CHARGE:
        return f"{tax_name}, reverse charge"
    if part.regime is TaxRegime.NONE:
        return f"no {tax_name}"
    return f"{tax_name} {Taxed(part.regime, part.percent).charged_percent:g} %"


def tax_table_rows(sums: Iterable[TaxedSum], tax_name: str, currency: str) -> list[tuple[str, str, str, str]]:
    """Return a row for each way in which a sum is taxed: the way, before tax, tax, with tax."""
    write = writer(currency)
    return [
        (rate_words(part, tax_name), write(part.net_minor), write(part.tax_minor), write(part.gross_minor))
        for part in sums
    ]


def statements(sums: Iterable[TaxedSum], tax_name: str, currency: str, rules: Rulebook) -> tuple[str, ...]:
    """Return what a bill says of tax for which the customer accounts, in the words of the place."""
    shares = [
        TaxShare(Taxed(part.regime, part.percent), part.net_minor, part.tax_minor)
        for part in sums
        if part.regime is TaxRegime.REVERSE_CHARGE
    ]
    return reverse_statement(shares, tax_name, currency, rules)
