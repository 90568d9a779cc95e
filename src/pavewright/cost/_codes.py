"""What is noticed in this room, by its short name."""

from __future__ import annotations

from pavewright.findings import MoneyCode


class Code(MoneyCode):
    """Codes of findings."""

    CARRY_UNKNOWN = "cost.carry_unknown"
    DIGGER_NOT_USED = "cost.digger_not_used"
    DUMPER_DOES_NOT_FIT = "cost.dumper_does_not_fit"
    DUMPER_WAY_UNKNOWN = "cost.dumper_way_unknown"
    HIRE_NOT_NEEDED = "cost.hire_not_needed"
    HIRE_TOO_SHORT = "cost.hire_too_short"
    LABOUR_UNPRICED = "cost.labour_unpriced"
    MIXED_BY_HAND = "cost.mixed_by_hand"
    PERCENT_NOT_KNOWN = "cost.percent_not_known"
    REVERSE_CHARGE = "cost.reverse_charge"
    STALE_PRICES = "cost.stale_prices"
    TAX_TO_ASK = "cost.tax_to_ask"
    UNDATED_PRICES = "cost.undated_prices"
    UNPRICED = "cost.unpriced"
