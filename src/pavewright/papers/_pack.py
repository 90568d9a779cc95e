"""The papers that go to the site, to the customer and to nobody outside: what each holds, in order."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.as_laid import reading_places
from pavewright.drawing import DRAWINGS
from pavewright.papers._blocks import SheetSize, drawing_sheet
from pavewright.papers._customer_money import known_cash
from pavewright.papers._sheets_as_laid import as_laid_sheets
from pavewright.papers._sheets_build_ups import build_up_sheets
from pavewright.papers._sheets_cost import cost_sheets
from pavewright.papers._sheets_dimensions import dimension_sheets
from pavewright.papers._sheets_dry_lay import dry_lay_sheet, template_sheets
from pavewright.papers._sheets_front import cautions_sheet, cover, findings_sheet, sources_sheet
from pavewright.papers._sheets_laying import laying_sheets
from pavewright.papers._sheets_money import customer_sheets, order_sheets, price_sheet
from pavewright.papers._sheets_risk import risk_sheets
from pavewright.papers._sheets_survey import levels_sheets
from pavewright.papers._sheets_water import water_sheets
from pavewright.papers._sheets_work import dig_sheets, programme_sheet
from pavewright.papers.look import Document

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.papers._blocks import SheetOfPaper
    from pavewright.papers._input import PaperInput


def job_pack(given: PaperInput) -> Document:
    """Return what the crew works from."""
    also = [] if given.drawings is SheetSize.A4 else ["plans on A3, plans-a3.pdf"]
    also += ["piece numbers, piece-numbers.pdf"] if given.numbered else []
    also += ["templates of curves at true size, templates.pdf"] if given.true_size else []
    return Document("Job pack", tuple(job_sheets(given, also)))


def job_sheets(given: PaperInput, beside: Sequence[str]) -> list[SheetOfPaper]:
    """Return the sheets of the job pack in the order in which they are wanted."""
    plan, figures, reported = given.plan, given.figures, given.reported
    return [
        cover(plan, beside),
        findings_sheet(plan, figures),
        cautions_sheet(plan, figures),
        *given.surveyed,
        *levels_sheets(plan, figures),
        *water_sheets(plan, figures),
        *laying_sheets(plan, figures),
        *template_sheets(plan),
        dry_lay_sheet(plan, figures),
        *dig_sheets(plan, figures),
        *order_sheets(plan, figures),
        *dimension_sheets(plan),
        programme_sheet(plan, figures),
        *given.pegged,
        *as_laid_sheets(plan, figures, reading_places(plan.survey, plan.levels, given.rules)),
        price_sheet(plan, reported),
        sources_sheet(plan, figures),
    ]


def customer_pack(given: PaperInput) -> Document:
    """Return the drawings for the customer; the price stands on the quotation."""
    return Document("Drawings", tuple(customer_sheets(given.plan, given.reported, given.drawings or SheetSize.A4)))


def cost_sheet(given: PaperInput) -> Document:
    """Return what stays inside: the cost, what it risks, and the build-ups that the job could have."""
    plan, rules, figures = given.plan, given.rules, given.figures
    sheets = [
        *cost_sheets(plan, figures, given.reported.money, known_cash(plan, rules)),
        *risk_sheets(plan, rules, figures, given.report),
        *build_up_sheets(plan, rules, figures, given.report),
    ]
    return Document("Cost sheet", tuple(sheets))


def plans_a3(given: PaperInput) -> Document | None:
    """Return the plans for those who can print A3: most are twice as large as on A4; None where A4 is wanted."""
    if given.drawings is SheetSize.A4:
        return None
    drawn = [scene for each in DRAWINGS if each.on_a3 for scene in each.scenes(given.plan)]
    sheets = [drawing_sheet(scene, size=SheetSize.A3) for scene in drawn]
    return Document("Plans on A3", tuple(sheets))


def piece_numbers(given: PaperInput) -> Document | None:
    """Return the laying plan in parts, where one sheet has no room for every number."""
    return Document("Piece numbers", tuple(given.numbered)) if given.numbered else None


def templates(given: PaperInput) -> Document | None:
    """Return the templates of curves at true size, where there are any."""
    return Document("Templates", tuple(given.true_size)) if given.true_size else None
