"""What is noticed in this room, by its short name."""

from __future__ import annotations

from pavewright.findings import MoneyCode


class Code(MoneyCode):
    """Codes of findings."""

    NO_STAGES = "cash.no_stages"
    STAGES_TOO_MUCH = "cash.stages_too_much"
    TAX_NOT_RECLAIMED = "cash.tax_not_reclaimed"
    UNDER_WATER = "cash.under_water"
    UNSEEN = "cash.unseen"
