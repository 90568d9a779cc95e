"""Account: the money of a job from the accepted quotation to the last penny.

What was accepted stands as it was accepted. Options, sums that are settled by what was found, and approved variations
come on it; bills, credit notes and payments go against it. Every sum is whole minor units, by the way in which it is
taxed, and nothing is clipped: a bill for more than was agreed is shown as one.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.account._account import account
    from pavewright.account._billing import (
        credit_note,
        final_bill,
        part_bill,
        retention_bill,
        stage_bill,
        variation_bill,
    )
    from pavewright.account._refusals import NotBilled, NotBilledError
    from pavewright.account._tax import with_tax
    from pavewright.account._types import Account, AgreedKind, AgreedLine, BillStanding
else:
    __getattr__ = face(__name__)

__all__ = [
    "Account",
    "AgreedKind",
    "AgreedLine",
    "BillStanding",
    "NotBilled",
    "NotBilledError",
    "account",
    "credit_note",
    "final_bill",
    "part_bill",
    "retention_bill",
    "stage_bill",
    "variation_bill",
    "with_tax",
]
