"""What is to be asked of a tax: a reverse charge never holds for a householder, a low rate holds for some work only."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost import _words as words
from pavewright.cost._codes import Code
from pavewright.findings import Finding, Severity
from pavewright.job import TaxRegime

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.cost._parts import TaxShare
    from pavewright.rules import Rulebook

_TO_ASK = {TaxRegime.REDUCED: "a reduced rate", TaxRegime.ZERO: "a rate of zero"}


def tax_findings(name: str, shares: tuple[TaxShare, ...], rules: Rulebook) -> Iterator[Finding]:
    """Give what is to be asked before a price with these taxes is sent.

    Args:
        name: What the tax is called.
        shares: The price by the way in which it is taxed.
        rules: The rulebook of the place, which may say for whom a reverse charge holds.
    """
    regimes = {share.taxed.regime for share in shares}
    if TaxRegime.REVERSE_CHARGE in regimes:
        said, options = words.reverse_charge(name, _holds(rules))
        yield Finding(Code.REVERSE_CHARGE, Severity.CHECK, "price", said, options=options)
    for regime, called in _TO_ASK.items():
        if regime in regimes:
            said, options = words.tax_to_ask(name, called)
            yield Finding(Code.TAX_TO_ASK, Severity.NOTE, "price", said, options=options)


def _holds(rules: Rulebook) -> str:
    """Return for whom a reverse charge holds in a place."""
    table = rules.tables.get("cost.tax_words")
    if table is None:
        return "for whom it holds in this place is not known"
    row = table.row("reverse_charge_holds")
    return f"{row.label} ({row.status.words})" if row.status.words else row.label
