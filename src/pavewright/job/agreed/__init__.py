"""What was agreed with the customer after the quotation: what he accepted, variations, bills, and money that came in.

All of it is kept as it was said on the paper: sums stand in whole minor units by the way in which they are taxed, and no
later price, book or plan works any of them out anew.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.job.agreed._accepted import Accepted, AcceptedMeans, AcceptedOption, SettlingKind, SumToSettle
    from pavewright.job.agreed._bills import Bill, BillKind, Received, Settled
    from pavewright.job.agreed._taxed_sum import TaxedSum
    from pavewright.job.agreed._variations import (
        DrawnArea,
        DrawnCorner,
        DrawnLayer,
        Variation,
        VariationCause,
        VariationMeasure,
        VariationMeasureKind,
        VariationState,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "Accepted",
    "AcceptedMeans",
    "AcceptedOption",
    "Bill",
    "BillKind",
    "DrawnArea",
    "DrawnCorner",
    "DrawnLayer",
    "Received",
    "Settled",
    "SettlingKind",
    "SumToSettle",
    "TaxedSum",
    "Variation",
    "VariationCause",
    "VariationMeasure",
    "VariationMeasureKind",
    "VariationState",
]
