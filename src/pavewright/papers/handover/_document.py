"""The handover as one document, in the order in which it is read."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import Severity
from pavewright.papers._letterhead import own_words
from pavewright.papers.handover._photos import photo_sheets
from pavewright.papers.handover._sheet_neighbour import neighbour_sheet
from pavewright.papers.handover._sheets import buried_sheets, front_sheet, measured_sheets
from pavewright.papers.handover._sheets_after import care_sheet, goods_sheet
from pavewright.papers.handover._words import WORDS
from pavewright.papers.look import Document

if TYPE_CHECKING:
    from pavewright.papers._input import PaperInput


def document(given: PaperInput) -> Document:
    """Return the handover; what nobody read or entered is a line to fill in."""
    plan, figures, firm = given.plan, given.figures, given.firm
    sheets = (
        front_sheet(given),
        *measured_sheets(plan, figures),
        *buried_sheets(plan),
        goods_sheet(plan),
        care_sheet(plan, given.rules, figures, firm),
        *photo_sheets(given),
        neighbour_sheet(plan, figures),
    )
    stops = sum(each.severity is Severity.STOP and not each.of_money for each in plan.findings)
    for sheet in sheets:
        # what stops the work is no secret on the day on which it is handed over
        sheet.mark = sheet.mark or (WORDS.stops(count=str(stops)) if stops else "")
    return Document(WORDS.title, sheets, letterhead=True, own=own_words(firm))
