"""Quotation: what the customer is offered, on paper and on a phone, from one set of facts.

The facts hold nothing of what the work costs the contractor: no cost, margin, supplier or hour.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.papers.quotation._document import cancellation, document
    from pavewright.papers.quotation._facts import quotation_facts
    from pavewright.papers.quotation._types import (
        QuotationFacts,
        QuotedArea,
        QuotedGoods,
        QuotedJob,
        QuotedLayer,
        QuotedOption,
        QuotedPayment,
        QuotedProvisional,
        QuotedRate,
        QuotedWindow,
    )
    from pavewright.papers.quotation._words import CAUTIONS
else:
    __getattr__ = face(__name__)

__all__ = [
    "CAUTIONS",
    "QuotationFacts",
    "QuotedArea",
    "QuotedGoods",
    "QuotedJob",
    "QuotedLayer",
    "QuotedOption",
    "QuotedPayment",
    "QuotedProvisional",
    "QuotedRate",
    "QuotedWindow",
    "cancellation",
    "document",
    "quotation_facts",
]
