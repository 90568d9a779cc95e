"""The two documents: the quotation, and the notice on cancelling that goes with it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.papers._letterhead import own_words
from pavewright.papers.cancelling import SAID as CANCELLING_SAID
from pavewright.papers.look import Document
from pavewright.papers.quotation._cancellation import early_sheet, form_sheet, notice_sheet
from pavewright.papers.quotation._facts import quotation_facts
from pavewright.papers.quotation._letter import accepting_blocks, letter_sheet
from pavewright.papers.quotation._pages import drawn_sheets, price_sheet, scope_sheet, terms_sheet
from pavewright.papers.quotation._words import SAID

if TYPE_CHECKING:
    from pavewright.papers._input import PaperInput


def document(given: PaperInput) -> Document | None:
    """Return the quotation; None where it was accepted: what was accepted stands, and the account takes its place."""
    if given.plan.job.accepted is not None:
        return None
    told = quotation_facts(given.plan, given.rules, given.firm)
    sheets = (
        letter_sheet(told),
        scope_sheet(given.plan, told),
        price_sheet(told),
        terms_sheet(told).add(*accepting_blocks(told)),
        *drawn_sheets(given.plan, told),
    )
    return Document(SAID.title_quotation, sheets, letterhead=True, own=own_words(given.firm))


def cancellation(given: PaperInput) -> Document | None:
    """Return the notice on cancelling, its form and the request to begin early; None where none is made."""
    told = quotation_facts(given.plan, given.rules, given.firm)
    if told.cancelling.rule is None:
        return None
    sheets = (
        notice_sheet(told, given.rules, given.firm),
        form_sheet(told, given.firm),
        *((early_sheet(told, given.firm),) if told.cancelling.starts_early else ()),
    )
    return Document(CANCELLING_SAID.title_document, sheets, letterhead=True, own=own_words(given.firm))
