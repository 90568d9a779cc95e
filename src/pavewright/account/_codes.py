"""What is noticed in this room, by its short name."""

from __future__ import annotations

from pavewright.findings import MoneyCode


class Code(MoneyCode):
    """Codes of findings."""

    BEFORE_ACCEPTED = "account.before_accepted"
    CREDIT_OF_NOTHING = "account.credit_of_nothing"
    CREDIT_TOO_LARGE = "account.credit_too_large"
    DATES_TURN_BACK = "account.dates_turn_back"
    FREED_TOO_MUCH = "account.freed_too_much"
    NEGATIVE = "account.negative"
    NOTHING_BILLED = "account.nothing_billed"
    NOT_ACCEPTED = "account.not_accepted"
    NOT_PRICED = "account.not_priced"
    NOT_SETTLED = "account.not_settled"
    NUMBERS = "account.numbers"
    OPEN_VARIATION = "account.open_variation"
    OVER_BILLED = "account.over_billed"
    PAID_TOO_MUCH = "account.paid_too_much"
    PAYMENT_OF_NOTHING = "account.payment_of_nothing"
    RETENTION_TAX = "account.retention_tax"
    SETTLES_NOTHING = "account.settles_nothing"
    STAGE_TWICE = "account.stage_twice"
    TAX_DIFFERS = "account.tax_differs"
    VARIATION_NOT_APPROVED = "account.variation_not_approved"
    VARIATION_TWICE = "account.variation_twice"
    WAY_NOT_AGREED = "account.way_not_agreed"
