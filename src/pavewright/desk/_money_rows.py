"""The money of a job in rows of words, as the customer reads it: the same on paper, on his page and at the price."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pavewright.papers import CustomerMoney


def money_rows(told: CustomerMoney) -> dict[str, Any]:
    """Return the money in rows of words, as it stands on paper."""
    return {
        "price": told.price,
        "statements": [*told.statements, told.holds],
        "payments": told.payments,
        "paying": told.paying,
        "goods": told.goods,
        "provisional": told.provisional,
        "settling": told.settling,
        "options": told.options,
        "choosing": told.choosing,
    }
