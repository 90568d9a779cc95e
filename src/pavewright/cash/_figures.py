"""The figures of cash, read from the rulebook once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.rules import read_figures

if TYPE_CHECKING:
    from pavewright.rules import Figure, Rulebook


@dataclass(frozen=True, slots=True)
class CashFigures:
    """When money falls due where the terms do not say; each field is the figure of its name in the rulebook."""

    deposit_days: Figure
    defects_days: Figure
    tax_refund_days: Figure


def cash_figures(rules: Rulebook) -> CashFigures:
    """Return the figures of cash."""
    return read_figures(CashFigures, rules, "cash")
