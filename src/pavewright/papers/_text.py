"""The text twin of a document: the same blocks, read out as plain text."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.papers._letterhead import letterhead
from pavewright.papers._words import day
from pavewright.papers._writing import in_words_of
from pavewright.papers.look import text_lines

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.firm import FirmBook
    from pavewright.papers.look import Document
    from pavewright.pipeline import Plan, PlanSoFar


def to_text(plan: Plan | PlanSoFar, document: Document, firm: FirmBook | None = None) -> str:
    """Return a document as plain text: what its pages say, in the same order, with words for what they draw.

    Args:
        plan: The plan.
        document: The document.
        firm: The book of the firm: its letterhead stands first where the document has one.
    """
    head = letterhead(firm) if document.letterhead else None
    lines = [*((head["name"], *head["lines"]) if head else ()), *_identity(plan, document)]
    body = in_words_of(list(_body(document)), document.own)
    return "\n".join([*(line for line in lines if line), "", *body]).rstrip() + "\n"


def _identity(plan: Plan | PlanSoFar, document: Document) -> Iterator[str]:
    who = plan.job.identity
    yield document.title
    yield f"{who.job} {who.title}"
    yield ", ".join(part for part in (who.client, who.address) if part)
    yield f"{day(who.date)}, revision {who.revision}"
    if who.invented:
        yield "INVENTED EXAMPLE"


def _body(document: Document) -> Iterator[str]:
    mark = ""
    for sheet in document.sheets:
        if sheet.mark and sheet.mark != mark:
            yield from (sheet.mark, "")
        mark = sheet.mark
        yield sheet.title
        yield "-" * len(sheet.title)
        if sheet.scale:
            yield sheet.scale
        yield ""
        yield from text_lines(sheet.blocks)
