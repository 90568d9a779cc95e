"""The whole pack."""

from __future__ import annotations

import itertools
import json
from typing import TYPE_CHECKING, Any

from pavewright.drawing import DRAWINGS, edge_details, step_sections, to_dxf, to_svg
from pavewright.job import writing_of
from pavewright.papers._blocks import SheetSize, drawing_sheet
from pavewright.papers._calendar import programme_calendar
from pavewright.papers._compile import to_pdf
from pavewright.papers._customer_money import known_cash
from pavewright.papers._customer_words import customer_words
from pavewright.papers._figures import paper_figures
from pavewright.papers._letterhead import letterhead, own_words, with_own_words
from pavewright.papers._paper import Paper
from pavewright.papers._plan_json import plan_json
from pavewright.papers._sheets_as_laid import as_laid_sheets
from pavewright.papers._sheets_build_ups import build_up_sheets
from pavewright.papers._sheets_cost import cost_sheets
from pavewright.papers._sheets_dimensions import dimension_sheets
from pavewright.papers._sheets_dry_lay import dry_lay_sheet, template_sheets
from pavewright.papers._sheets_front import cautions_sheet, cover, findings_sheet, sources_sheet
from pavewright.papers._sheets_laying import laying_sheets, piece_number_sheets
from pavewright.papers._sheets_money import customer_sheets, order_sheets, price_sheet
from pavewright.papers._sheets_risk import risk_sheets
from pavewright.papers._sheets_setting_out import setting_out_sheets
from pavewright.papers._sheets_survey import levels_sheets, survey_sheets
from pavewright.papers._sheets_true_size import true_size_document
from pavewright.papers._sheets_water import water_sheets
from pavewright.papers._sheets_work import dig_sheets, programme_sheet
from pavewright.papers._signs import drawable
from pavewright.papers._tables import set_out_points
from pavewright.papers._words import day
from pavewright.papers._workbook import cost_workbook, quantities_workbook
from pavewright.papers._writing import in_words_of, in_writing
from pavewright.survey import assumed_names
from pavewright.writing import beside

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from pavewright.firm import FirmBook
    from pavewright.papers._blocks import SheetOfPaper
    from pavewright.papers._customer_words import CustomerWords
    from pavewright.papers._figures import PaperFigures
    from pavewright.pipeline import Plan, PlanSoFar
    from pavewright.rules import Rulebook

PDF = "application/pdf"
XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"


@in_writing
def pack(
    plan: Plan, rules: Rulebook, report: Callable[[str], None] | None = None, firm: FirmBook | None = None
) -> tuple[Paper, ...]:
    """Return every paper of a plan; the same plan gives the same bytes.

    Args:
        plan: The plan.
        rules: The rulebook by which it was made, for sources.
        report: Takes the name of each step before it starts; may raise to stop the work.
        firm: The book of the firm: its letterhead and its own words stand on what the customer gets.
    """
    tell = report or (lambda _: None)
    tell("sheets")
    true_size = true_size_document(plan)
    numbered = piece_number_sheets(plan)
    figures, reported = paper_figures(rules), customer_words(plan, rules)
    also = _beside(numbered=bool(numbered), true_size=bool(true_size))
    documents = {
        "job-pack.pdf": document(plan, "Job pack", job_sheets(plan, figures, reported, also)),
        "customer-pack.pdf": customer_document(plan, reported, firm),
        "cost-sheet.pdf": document(plan, "Cost sheet", _inside_sheets(plan, rules, figures, reported, tell)),
    }
    drawn = [(each, each.draw(plan)) for each in DRAWINGS]
    on_a3 = [scene for each, scene in drawn if each.on_a3 and scene is not None]
    # for those who can print it: most are twice as large as on A4
    large = [drawing_sheet(scene, size=SheetSize.A3) for scene in on_a3]
    documents["plans-a3.pdf"] = document(plan, "Plans on A3", large)
    if numbered:
        documents["piece-numbers.pdf"] = document(plan, "Piece numbers", numbered)
    if true_size:
        documents["templates.pdf"] = document(plan, "Templates", true_size)
    tell("PDF")
    papers = [Paper(name, PDF, content) for name, content in to_pdf(documents).items()]
    tell("drawings")
    papers.append(Paper("drawings.dxf", "image/vnd.dxf", to_dxf(plan)))
    scenes = [*(scene for _, scene in drawn), *edge_details(plan)[1:], *step_sections(plan)]
    papers += [
        Paper(f"plans/{scene.name}.svg", "image/svg+xml", to_svg(scene).encode("utf-8"))
        for scene in scenes
        if scene is not None
    ]
    tell("tables")
    papers.append(Paper("quantities.xlsx", XLSX, quantities_workbook(plan)))
    papers.append(Paper("cost.xlsx", XLSX, cost_workbook(plan)))
    papers.append(Paper("set-out-points.csv", "text/csv", set_out_points(plan)))
    papers.append(Paper("programme.ics", "text/calendar", programme_calendar(plan)))
    papers.append(Paper("plan.json", "application/json", plan_json(plan)))
    return tuple(papers)


def _beside(*, numbered: bool, true_size: bool) -> list[str]:
    """Return the other documents of the pack, in words."""
    found = ["plans on A3, plans-a3.pdf"]
    found += ["piece numbers, piece-numbers.pdf"] if numbered else []
    return found + (["templates of curves at true size, templates.pdf"] if true_size else [])


def customer_document(plan: Plan, reported: CustomerWords, firm: FirmBook | None) -> str:
    """Return what the customer gets, with the firm's letterhead and its own words."""
    sheets = with_own_words(customer_sheets(plan, reported), firm)
    return document(plan, "Price and drawings", sheets, letterhead(firm), own_words(firm))


def _inside_sheets(
    plan: Plan, rules: Rulebook, figures: PaperFigures, reported: CustomerWords, tell: Callable[[str], None]
) -> list[SheetOfPaper]:
    """Return what stays inside: the cost, what it risks, and the build-ups that the job could have."""
    return [
        *cost_sheets(plan, figures, reported.money, known_cash(plan, rules)),
        *risk_sheets(plan, rules, figures, tell),
        *build_up_sheets(plan, rules, figures, tell),
    ]


def job_sheets(plan: Plan, figures: PaperFigures, reported: CustomerWords, beside: Sequence[str]) -> list[SheetOfPaper]:
    """Return the sheets of the job pack in the order in which they are wanted."""
    return [
        cover(plan, beside),
        findings_sheet(plan, figures),
        cautions_sheet(plan, figures),
        *survey_sheets(plan),
        *levels_sheets(plan, figures),
        *water_sheets(plan, figures),
        *laying_sheets(plan, figures),
        *template_sheets(plan),
        dry_lay_sheet(plan, figures),
        *dig_sheets(plan, figures),
        *order_sheets(plan, figures),
        *dimension_sheets(plan),
        programme_sheet(plan, figures),
        *setting_out_sheets(plan),
        *as_laid_sheets(plan, figures),
        price_sheet(plan, reported),
        sources_sheet(plan, figures),
    ]


def document(
    plan: Plan | PlanSoFar,
    title: str,
    sheets: list[SheetOfPaper],
    head: dict[str, Any] | None = None,
    own: frozenset[str] = frozenset(),
) -> str:
    """Return a document as data for the page.

    Args:
        plan: The plan.
        title: What the document is called.
        sheets: Its sheets.
        head: The letterhead of its first sheet; None where there is none.
        own: Words of the firm, which stay as they were typed.
    """
    who, imperial = plan.job.identity, writing_of(plan.job).imperial
    north = plan.survey.site.north_bearing_deg
    said = f"North lies {north:g}° clockwise from the y axis of the drawings."
    text = json.dumps(
        {
            "title": f"{who.job} {who.title}: {title}",
            "year": who.date.year,
            "month": who.date.month,
            "day": who.date.day,
            "letterhead": head,
            "datum": beside(plan.job.measurements.datum) if imperial else plan.job.measurements.datum,
            "units": ", where no other unit stands beside" if imperial else "",
            "assumed": assumed_names(plan.survey.assumed),
            "identity": {
                "job": who.job,
                "title": who.title,
                "client": who.client,
                "address": who.address,
                "contractor": who.contractor or (head or {}).get("name", ""),
                "date": day(who.date),
                "revision": str(who.revision),
                "invented": who.invented,
            },
            "groups": in_words_of([_group(group, said) for group in _alike(sheets)], own),
        },
        ensure_ascii=False,
    )
    # what is drawn is text: brackets and quotation marks of JSON are signs that every font has
    return drawable(text)[0]


def _alike(sheets: list[SheetOfPaper]) -> list[list[SheetOfPaper]]:
    """Return sheets in runs whose pages look alike: a new run begins on a new page."""

    def page(sheet: SheetOfPaper) -> tuple[object, ...]:
        return sheet.size, sheet.upright, sheet.mark, sheet.measured, sheet.read_on

    return [list(run) for _, run in itertools.groupby(sheets, key=page)]


def _group(sheets: list[SheetOfPaper], north: str) -> dict[str, Any]:
    """Return a run of sheets as data for the page."""
    first = sheets[0]
    return {
        "size": first.size,
        "upright": first.upright,
        "mark": first.mark,
        "measured": first.measured,
        "read": first.read_on,
        "north": north,
        "sheets": [
            {
                "title": sheet.title,
                "scale": sheet.scale,
                "follows": sheet.follows,
                "listed": sheet.listed,
                "blocks": sheet.blocks,
            }
            for sheet in sheets
        ],
    }
