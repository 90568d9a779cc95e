"""Variations, bills and the account as documents."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.account import account
from pavewright.papers._letterhead import own_words
from pavewright.papers.changes._bills import bill_sheet
from pavewright.papers.changes._final import account_sheets
from pavewright.papers.changes._slips import register, slip
from pavewright.papers.changes._words import WORDS
from pavewright.papers.look import Document

if TYPE_CHECKING:
    from pavewright.papers._input import PaperInput


def variations_document(given: PaperInput) -> Document | None:
    """Return the slips of all variations and their register; None where there is no variation."""
    job = given.plan.job
    if not job.variations:
        return None
    found = account(job)
    sheets = (*(slip(job, each, found) for each in job.variations), register(job, found))
    return Document(WORDS.variations_title, sheets, letterhead=True, own=own_words(given.firm))


def bills_document(given: PaperInput) -> Document | None:
    """Return all bills and credit notes, each on its own sheet; None where nothing was billed."""
    job = given.plan.job
    if not job.bills:
        return None
    found = account(job)
    sheets = tuple(bill_sheet(job, each, found, given.firm, given.rules) for each in found.bills)
    return Document(WORDS.bills_title, sheets, letterhead=True, own=own_words(given.firm))


def account_document(given: PaperInput) -> Document | None:
    """Return the final account, or the account so far; None where nothing was accepted."""
    job = given.plan.job
    if job.accepted is None:
        return None
    found = account(job)
    title = WORDS.account_title if found.is_final else WORDS.so_far_title
    return Document(title, account_sheets(job, found, given.figures), letterhead=True, own=own_words(given.firm))
