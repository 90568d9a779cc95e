"""Sheets of the handover: its front, what was measured, what lies buried."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from pavewright.as_laid import reason_in_words
from pavewright.drawing import buried_plan
from pavewright.firm import TextKey
from pavewright.job.handover import warranty_until
from pavewright.papers._laid_judged import judged_of
from pavewright.papers._sheets_as_laid import as_laid_sheets
from pavewright.papers._words import day, one, whole
from pavewright.papers.handover._buried import all_buried
from pavewright.papers.handover._words import BURIED, WORDS
from pavewright.papers.look import (
    PACK_FRAME,
    SheetOfPaper,
    drawing_sheet,
    facts,
    heading,
    lead,
    paragraph,
    points,
    rest,
    right,
    signatures,
    table,
)
from pavewright.papers.quotation import quotation_facts

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.cost import Cost
    from pavewright.firm import FirmBook
    from pavewright.papers._figures import PaperFigures
    from pavewright.papers._input import PaperInput
    from pavewright.papers.handover._buried import Buried
    from pavewright.papers.look import Block
    from pavewright.pipeline import Plan


def front_sheet(given: PaperInput) -> SheetOfPaper:
    """Return the first sheet: when it was done, what was measured, the warranty, and who signs."""
    plan, told = given.plan, given.plan.job.handed_over
    sheet = SheetOfPaper(WORDS.title, measured=False)
    sheet.add(lead(WORDS.lead(title=plan.job.identity.title)))
    sheet.add(
        facts(
            [
                (WORDS.completed, _day(None if told is None else told.completed_on)),
                (WORDS.handed, _day(None if told is None else told.handed_on)),
                (WORDS.warranty, _warranty(plan)),
            ]
        )
    )
    sheet.add(heading(WORDS.as_laid), points(_measured(plan)))
    if plan.as_laid is None:
        sheet.add(lead(WORDS.not_measured), paragraph(WORDS.nothing_said))
    sheet.add(*_terms(given))
    if told is not None and told.notes.strip():
        sheet.add(heading(WORDS.notes), *_paragraphs(told.notes))
    names = ("", "") if told is None else (told.handed_by, told.handed_to)
    return sheet.add(paragraph(WORDS.taken), signatures(WORDS.by, WORDS.to, names=names))


def _terms(given: PaperInput) -> list[Block]:
    """Return the warranty as it was quoted, the firm's own words on it, and whom to tell of a fault."""
    if not _has_terms(given.plan):
        return [heading(WORDS.warranty_head), paragraph(WORDS.terms_elsewhere)]
    quoted = quotation_facts(given.plan, given.rules, given.firm)
    said = list(quoted.warranty) if quoted.warranty_months is not None else [WORDS.no_guarantee]
    own = firm_words(given.firm, TextKey.GUARANTEE, WORDS.guarantee)
    stated = given.plan.job.terms.complaint_to and given.plan.job.terms.complaint_days is not None
    faults = quoted.complaints if stated else (WORDS.tell_us,)
    return [heading(WORDS.warranty_head), points(said), *own, heading(WORDS.faults), points(faults)]


def _has_terms(plan: Plan) -> bool:
    """Return whether the terms of a job are known: one without its price was never quoted, or its money is hidden."""
    return cast("Cost | None", plan.cost) is not None


def _warranty(plan: Plan) -> str:
    if not _has_terms(plan):
        return WORDS.ask_office
    return _day(warranty_until(plan.job.handed_over, plan.job.terms.warranty_months))


def _day(date: dt.date | None) -> str:
    return WORDS.not_entered if date is None else day(date)


def _measured(plan: Plan) -> list[str]:
    """Return by area what readings say, and of each without any that it was not measured."""
    report = judged_of(plan)
    read = {} if report is None else {each.area: each for each in report.areas}
    found = []
    for area in plan.job.areas:
        own = read.get(area.name)
        if own is None:
            found.append(WORDS.unheld(area=area.name))
        else:
            words = WORDS.held(area=area.name, verdict=own.verdict.words, count=str(len(own.readings)))
            if own.reasons:
                why = "; ".join(reason_in_words(each) for each in own.reasons)
                words = WORDS.held_why(held=words, why=why)
            found.append(words)
    return found


def firm_words(firm: FirmBook | None, key: TextKey, over: str, otherwise: str = "") -> list[Block]:
    """Return the firm's own words with what stands over them; other words where it has none."""
    texts = {} if firm is None else {each.key: each.words for each in firm.texts if each.words.strip()}
    if key in texts:
        return [heading(over), *_paragraphs(texts[key])]
    return [heading(over), paragraph(otherwise)] if otherwise else []


def _paragraphs(words: str) -> list[Block]:
    return [paragraph(part) for part in words.split("\n\n") if part.strip()]


def measured_sheets(plan: Plan, figures: PaperFigures) -> list[SheetOfPaper]:
    """Return readings as laid against the plan; none where nothing was read, which the first sheet says."""
    report = judged_of(plan)
    if report is None:
        return []
    read = {each.area for each in report.areas}
    unread = [area.name for area in plan.job.areas if area.name not in read]
    sheets = as_laid_sheets(plan, figures, ())
    if report.findings:
        sheets[-1].add(heading(WORDS.noticed), points(each.message for each in report.findings))
    if unread:
        said = [WORDS.not_measured_area(area=name) for name in unread]
        sheets[-1].add(heading(WORDS.unread_head), points(said), paragraph(WORDS.nothing_said))
    return sheets


def buried_sheets(plan: Plan) -> list[SheetOfPaper]:
    """Return the site with its services and drains, and the list of all that lies buried."""
    rows = [_buried_row(each) for each in all_buried(plan)]
    heads = (
        rest(WORDS.what),
        "",
        WORDS.known_how,
        right(WORDS.depth, "mm"),
        right(WORDS.foot, "mm"),
        right(WORDS.run, "m"),
        rest(WORDS.basis),
    )
    drawn = drawing_sheet(buried_plan(plan, PACK_FRAME), WORDS.buried)
    sheet = SheetOfPaper(WORDS.buried_list, measured=False)
    return [drawn, sheet.add(paragraph(WORDS.buried_why), table(heads, rows, type_size=8.0))]


def _buried_row(each: Buried) -> tuple[str, ...]:
    return (
        each.name,
        BURIED[each.kind],
        each.state.words,
        WORDS.depth_unknown if each.top_mm is None else whole(each.top_mm),
        WORDS.depth_unknown if each.foot_mm is None else whole(each.foot_mm),
        "" if each.length_m is None else one(each.length_m),
        each.basis,
    )
