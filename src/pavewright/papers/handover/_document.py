"""The handover as sheets, in the order in which it is read."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.papers.handover._sheet_neighbour import neighbour_sheet
from pavewright.papers.handover._sheets import buried_sheets, front_sheet, measured_sheets
from pavewright.papers.handover._sheets_after import care_sheet, goods_sheet

if TYPE_CHECKING:
    from pavewright.firm import FirmBook
    from pavewright.papers._blocks import SheetOfPaper
    from pavewright.papers._figures import PaperFigures
    from pavewright.pipeline import Plan
    from pavewright.rules import Rulebook


def handover_sheets(plan: Plan, rules: Rulebook, figures: PaperFigures, firm: FirmBook | None) -> list[SheetOfPaper]:
    """Return every sheet of the handover; what nobody knows is a line to fill in."""
    return [
        front_sheet(plan, firm),
        *measured_sheets(plan, figures),
        *buried_sheets(plan),
        goods_sheet(plan),
        care_sheet(plan, rules, figures, firm),
        neighbour_sheet(plan, figures),
    ]
