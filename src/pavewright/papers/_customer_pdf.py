"""The files that a customer is handed with his quotation."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.papers._making import pack
from pavewright.papers._paper import PaperKey

if TYPE_CHECKING:
    from pavewright.firm import FirmBook
    from pavewright.pipeline import Plan
    from pavewright.rules import Rulebook


@dataclass(frozen=True, slots=True)
class CustomerPapers:
    """What a customer is handed.

    Attributes:
        quotation: The quotation as one PDF.
        notice: The papers on cancelling as one PDF; None where there are none.
    """

    quotation: bytes
    notice: bytes | None


def customer_papers(plan: Plan, rules: Rulebook, firm: FirmBook | None = None) -> CustomerPapers:
    """Return what a customer is handed with the quotation of a plan; the same plan gives the same bytes.

    Args:
        plan: The plan.
        rules: The rulebook by which it was made.
        firm: The book of the firm: its letterhead and its own words stand on it.
    """
    found = {each.name: each.content for each in pack(plan, rules, firm=firm, only=_KEYS)}
    return CustomerPapers(found.get(_QUOTATION) or found[_DRAWINGS], found.get(_NOTICE))


_KEYS = frozenset({PaperKey.QUOTATION, PaperKey.CANCELLATION, PaperKey.CUSTOMER_PACK})
_QUOTATION, _NOTICE, _DRAWINGS = "quotation.pdf", "cancellation.pdf", "customer-pack.pdf"
