"""The method and risk sheet as one document."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.papers.look import (
    CalloutKind,
    Document,
    SheetOfPaper,
    callout,
    heading,
    lead,
    paragraph,
    rest,
    right,
    signatures,
    table,
    tick,
    together,
)
from pavewright.papers.method._of_people import cement, dust, lifting, tools
from pavewright.papers.method._of_place import dig, public, services, trees, vehicles, waste, weather
from pavewright.papers.method._words import WORDS
from pavewright.pipeline import method_of

if TYPE_CHECKING:
    from pavewright.papers._input import PaperInput
    from pavewright.papers.method._section import Section

_SECTIONS = (services, dig, dust, lifting, tools, cement, vehicles, public, trees, waste, weather)
"""Hazards in the order in which they are looked at: what kills first comes first."""


def document(given: PaperInput) -> Document:
    """Return what on this job can hurt people, and what has to be asked first."""
    plan = given.plan
    found = method_of(plan, given.rules, None if given.so_far is None else given.so_far.labour)
    sections = [make(plan, found, given.figures) for make in _SECTIONS]
    asks = [ask for section in sections for ask in section.asks]
    sheet = SheetOfPaper(WORDS.title, measured=False)
    sheet.add(lead(WORDS.lead), heading(WORDS.at_a_glance), table(_HEADS, [_row(each) for each in sections]))
    if asks:
        sheet.add(heading(WORDS.ask_first), callout(CalloutKind.CHECK, WORDS.ask_lead))
        sheet.add(*(tick(ask) for ask in asks))
    for section in sections:
        first, *others = section.blocks
        sheet.add(together(heading(section.title), paragraph(section.here), first), *others)
    sheet.add(heading(WORDS.read_by), signatures(WORDS.signer, WORDS.crew))
    return Document(WORDS.title, (sheet,), letterhead=True)


_HEADS = (rest(WORDS.hazard), rest(WORDS.here), right(WORDS.to_ask))


def _row(section: Section) -> tuple[str, str, str]:
    return section.title, section.here, str(len(section.asks)) if section.asks else WORDS.none
