"""All order lists with the lift plan, as one document."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.method import lift_plan, method_figures
from pavewright.papers.look import Document, SheetOfPaper
from pavewright.papers.orders._lifts import lift_blocks
from pavewright.papers.orders._sheets import front, order_sheet
from pavewright.papers.orders._words import WORDS
from pavewright.programme import drop_place, order_lists

if TYPE_CHECKING:
    from pavewright.papers._input import PaperInput


def document(given: PaperInput) -> Document | None:
    """Return the order lists; None where nothing is ordered."""
    plan = given.plan
    lists = order_lists(plan.job, plan.cost.orders, plan.quantities, plan.programme)
    if not lists:
        return None
    place = drop_place(plan.job, plan.survey)
    lifts = SheetOfPaper(WORDS.lift_title, measured=False)
    carry = method_figures(given.rules).carry_m
    lifts.add(*lift_blocks(plan, lift_plan(plan.job, plan.quantities, given.rules), carry, given.figures))
    sheets = (front(lists, plan, place), *(order_sheet(plan, each, place) for each in lists), lifts)
    return Document(WORDS.title, sheets, letterhead=True)
