"""Papers: what is handed out of a plan, on paper and as files.

The job pack is for the site, the customer pack for the customer, the cost sheet stays inside. Sheets are made of plain
blocks and drawn by one template; text of users arrives there as data only. Numbers are rounded here and nowhere else.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.papers._compile import PapersTooLargeError
    from pavewright.papers._crew_feed import FeedDay, crew_feed
    from pavewright.papers._customer_money import CustomerMoney, customer_money, event_words
    from pavewright.papers._customer_pdf import CustomerPapers, customer_papers
    from pavewright.papers._customer_words import CustomerWords, customer_words
    from pavewright.papers._input import PaperInput
    from pavewright.papers._making import LeftOut, LeftOutReason, pack, pack_so_far
    from pavewright.papers._paper import PAPERS, Paper, PaperKey, PaperKind, Reader
    from pavewright.papers._photo import PHOTOS_MAX, PaperPhoto
    from pavewright.papers._plan_json import PlanPart, plan_json, plan_parts
    from pavewright.papers._price_words import price_text, range_text, tax_row
    from pavewright.papers._readiness import Readiness, readiness
    from pavewright.papers._register import paper_needs
    from pavewright.papers._sign_findings import findings_of
    from pavewright.papers._tables import harmless
    from pavewright.papers._text import to_text
    from pavewright.papers._words import without_dig
    from pavewright.papers._writing import in_words_of, in_writing, written_where
    from pavewright.papers.look import SheetSize
else:
    __getattr__ = face(__name__)

__all__ = [
    "PAPERS",
    "PHOTOS_MAX",
    "CustomerMoney",
    "CustomerPapers",
    "CustomerWords",
    "FeedDay",
    "LeftOut",
    "LeftOutReason",
    "Paper",
    "PaperInput",
    "PaperKey",
    "PaperKind",
    "PaperPhoto",
    "PapersTooLargeError",
    "PlanPart",
    "Reader",
    "Readiness",
    "SheetSize",
    "crew_feed",
    "customer_money",
    "customer_papers",
    "customer_words",
    "event_words",
    "findings_of",
    "harmless",
    "in_words_of",
    "in_writing",
    "pack",
    "pack_so_far",
    "paper_needs",
    "plan_json",
    "plan_parts",
    "price_text",
    "range_text",
    "readiness",
    "tax_row",
    "to_text",
    "without_dig",
    "written_where",
]
