"""A document as data for the page."""

from __future__ import annotations

import itertools
import json
from typing import TYPE_CHECKING, Any

from pavewright.job import writing_of
from pavewright.papers._decimals import with_tails
from pavewright.papers._letterhead import accent_of, letterhead
from pavewright.papers._signs import drawable
from pavewright.papers._words import day
from pavewright.papers._writing import in_words_of
from pavewright.papers.look import as_data
from pavewright.survey import assumed_names
from pavewright.writing import beside, now

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.firm import FirmBook
    from pavewright.papers.look import Document, SheetOfPaper
    from pavewright.pipeline import Plan, PlanSoFar


def page_data(plan: Plan | PlanSoFar, made: Document, firm: FirmBook | None = None) -> str:
    """Return a document as data for the page.

    Args:
        plan: The plan.
        made: The document.
        firm: The book of the firm: its letterhead stands on the first page where the document has one.
    """
    head = letterhead(firm) if made.letterhead else None
    who, imperial = plan.job.identity, writing_of(plan.job).imperial
    north = plan.survey.site.north_bearing_deg
    said = (
        "North was not taken." if north is None else f"North lies {north:g}° clockwise from the y axis of the drawings."
    )
    return page_text(
        made,
        {
            "title": f"{who.job} {who.title}: {made.title}",
            "year": who.date.year,
            "month": who.date.month,
            "day": who.date.day,
            "letterhead": head,
            "accent": accent_of(firm),
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
                "day": who.date.isoformat(),
                "revision": str(who.revision),
                "invented": who.invented,
            },
        },
        said,
    )


def page_text(made: Document, about: Mapping[str, Any], north: str = "") -> str:
    """Return a document as data for the page, with what its head and foot say.

    Args:
        made: The document.
        about: Title, date, letterhead, colour, datum and what stands at the head of each page.
        north: Where north lies, in a sentence.
    """
    groups = in_words_of([_group(group, north) for group in _alike(list(made.sheets))], made.own)
    with_tails(groups, now().region)
    text = json.dumps({**about, "wordless": made.wordless, "groups": groups}, ensure_ascii=False)
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
                "sign": sheet.sign,
                "fit": not (following is not None and following.follows),
                "follows": sheet.follows,
                "listed": sheet.listed,
                "blocks": [as_data(each) for each in sheet.blocks],
            }
            for sheet, following in zip(sheets, [*sheets[1:], None], strict=True)
        ],
    }
