"""Cash: when the customer pays, when the firm pays, and how far it is under water in between.

Payments fall due when something can be seen. What is bought, hired and worked is paid by its terms. Tax that comes in
is set aside on the day it comes. The curve ends at the margin; its lowest point is what the firm has to have at hand.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.cash._cash import cash
    from pavewright.cash._payments import holds_until, payments, retained, stage_amounts
    from pavewright.cash._sums_cash import SUMS
    from pavewright.cash._types import Cash, CashDay, Flow, FlowKind, Payment
else:
    __getattr__ = face(__name__)

__all__ = [
    "SUMS",
    "Cash",
    "CashDay",
    "Flow",
    "FlowKind",
    "Payment",
    "cash",
    "holds_until",
    "payments",
    "retained",
    "stage_amounts",
]
