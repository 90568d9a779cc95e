"""Making papers: the whole pack or some papers of it, of a plan that is whole or as far as it goes."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, cast

from pavewright.drawing import to_svg
from pavewright.papers._compile import to_pdf, to_pdf_and_pages
from pavewright.papers._document import page_data
from pavewright.papers._input import PaperInput
from pavewright.papers._paper import PAPERS, Paper, PaperKey
from pavewright.papers._register import MAKERS, WORK
from pavewright.papers._so_far import scenes_so_far
from pavewright.papers._text import to_text
from pavewright.papers._writing import in_writing
from pavewright.pipeline import WHOLE, Plan, PlanSoFar

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    from pavewright.firm import FirmBook
    from pavewright.papers._photo import PaperPhoto
    from pavewright.papers._register import Maker
    from pavewright.papers.look import Document, SheetSize
    from pavewright.pipeline import Missing
    from pavewright.rules import Rulebook


class LeftOutReason(StrEnum):
    """Why a paper is not there."""

    NOT_KNOWN = "not_known"
    NOTHING_FOR_IT = "nothing_for_it"


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A paper that is not made.

    Attributes:
        name: Its file name.
        words: What it is.
        why: What is missing for it, what to do first first; or why the job has nothing for it.
        key: Its key.
        reason: Whether something is not known yet, or the job has nothing for it.
        missing: What is not known, as the plan carries it.
    """

    name: str
    words: str
    why: tuple[str, ...]
    key: PaperKey
    reason: LeftOutReason = LeftOutReason.NOT_KNOWN
    missing: tuple[Missing, ...] = ()


@dataclass(frozen=True, slots=True)
class _Wish:
    """Which papers are wanted, whether with text twins and pages as pictures, what is not known, and the photos."""

    only: frozenset[PaperKey] | None
    twins: bool
    pages: bool
    missing: tuple[Missing, ...] | None = None
    photos: tuple[PaperPhoto, ...] = ()
    drawings: SheetSize | None = None


@in_writing
def pack(
    plan: Plan,
    rules: Rulebook,
    report: Callable[[str], None] | None = None,
    firm: FirmBook | None = None,
    only: frozenset[PaperKey] | None = None,
    *,
    twins: bool = False,
    pages: bool = False,
    photos: tuple[PaperPhoto, ...] = (),
    drawings: SheetSize | None = None,
) -> tuple[Paper, ...]:
    """Return every paper of a plan, or some of them; the same plan gives the same bytes.

    Args:
        plan: The plan.
        rules: The rulebook by which it was made, for sources.
        report: Takes the name of each step before it starts; may raise to stop the work.
        firm: The book of the firm: its letterhead and its own words stand on what the customer gets.
        only: Papers that are wanted; None for all.
        twins: Whether the text twin of each document comes beside it.
        pages: Whether each page of a document comes beside it, as a picture for a screen.
        photos: Photos of the job, for its handover.
        drawings: Size on which drawings by themselves are wanted; None for A4, and the plans on A3 beside them.
    """
    return _made(plan, rules, report, firm, _Wish(only, twins, pages, photos=photos, drawings=drawings))[0]


@in_writing
def pack_so_far(
    plan: PlanSoFar,
    rules: Rulebook,
    report: Callable[[str], None] | None = None,
    firm: FirmBook | None = None,
    only: frozenset[PaperKey] | None = None,
    *,
    twins: bool = False,
    pages: bool = False,
    photos: tuple[PaperPhoto, ...] = (),
    drawings: SheetSize | None = None,
) -> tuple[tuple[Paper, ...], tuple[LeftOut, ...]]:
    """Return every paper of a plan, or those that can be made of it with those that cannot and why.

    Args:
        plan: The plan, as far as it goes.
        rules: The rulebook by which it was made, for sources.
        report: Takes the name of each step before it starts; may raise to stop the work.
        firm: The book of the firm: its letterhead and its own words stand on what the customer gets.
        only: Papers that are wanted; None for all.
        twins: Whether the text twin of each document comes beside it.
        pages: Whether each page of a document comes beside it, as a picture for a screen.
        photos: Photos of the job, for its handover.
        drawings: Size on which drawings by themselves are wanted; None for A4, and the plans on A3 beside them.
    """
    whole, wish = plan.whole, _Wish(only, twins, pages, plan.missing, photos, drawings)
    return _made(plan if whole is None or plan.faults else whole, rules, report, firm, wish)


def _made(
    plan: Plan | PlanSoFar,
    rules: Rulebook,
    report: Callable[[str], None] | None,
    firm: FirmBook | None,
    wish: _Wish,
) -> tuple[tuple[Paper, ...], tuple[LeftOut, ...]]:
    tell, only = report or _silent, wish.only
    tell("sheets")
    bare = cast("Plan", plan.with_rooms(()))  # a maker is called only where the rooms that it needs are made
    so_far = plan if isinstance(plan, PlanSoFar) else None
    given = PaperInput(bare, rules, firm, tell, so_far, wish.missing, wish.photos, wish.drawings)
    wanted = [each for each in MAKERS if only is None or each.key in only]
    needed = {name for each in wanted for name in each.of}
    making = [each for each in MAKERS if (each in wanted or each.name in needed) and _can_be_made(each, given)]
    with ThreadPoolExecutor(1) as beside:
        # what is quick to lay out is drawn in a child while the rest is worked out here
        first = _laid_out([each for each in making if not each.slow], given, plan)
        drawing = beside.submit(_drawn, first.pages, wish)
        slow = _laid_out([each for each in making if each.slow], given, plan)
        tell("tables")
        found: dict[str, bytes | None] = {each.name: each.file(given) for each in making if each.file is not None}
        tell("PDF")
        late, late_pages = _drawn(slow.pages, wish)
        pdfs, drawn = drawing.result()
    pdfs, drawn, sheets = pdfs | late, drawn | late_pages, first.sheets | slow.sheets
    found |= pdfs | {each.name: each.gather(given, pdfs) for each in making if each.gather is not None}
    tell("drawings")
    papers = [
        Paper(each.name, each.media_type, content) for each in wanted if (content := found.get(each.name)) is not None
    ]
    if wish.twins:
        names = {each.name for each in wanted}
        papers += [_twin(plan, name, each, firm) for name, each in sheets.items() if name in names]
    papers += [page for each in wanted for page in _pages(each.name, drawn.get(each.name, ()))]
    if only is None or PaperKey.PLANS in only:
        papers += _pictures(plan)
    return tuple(papers), tuple(_left_out(given, wanted, found))


@dataclass(frozen=True, slots=True)
class _LaidOut:
    """Documents by name, and as data for the page."""

    sheets: dict[str, Document]
    pages: dict[str, str]


def _laid_out(makers: Sequence[Maker], given: PaperInput, plan: Plan | PlanSoFar) -> _LaidOut:
    made = {each.name: each.document(given) for each in makers if each.document is not None}
    sheets = {name: document for name, document in made.items() if document is not None}
    return _LaidOut(sheets, {name: page_data(plan, document, given.firm) for name, document in sheets.items()})


def _drawn(documents: dict[str, str], wish: _Wish) -> tuple[dict[str, bytes], dict[str, tuple[bytes, ...]]]:
    """Return documents as PDF, and their pages as pictures where those are wanted."""
    if not documents:
        return {}, {}
    return to_pdf_and_pages(documents) if wish.pages else (to_pdf(documents), {})


def _pages(name: str, drawn: Sequence[bytes]) -> list[Paper]:
    """Return the pages of a document, each a picture of its own."""
    return [
        Paper(f"pages/{name.removesuffix('.pdf')}-{number}.png", "image/png", each)
        for number, each in enumerate(drawn, start=1)
    ]


def _twin(plan: Plan | PlanSoFar, name: str, document: Document, firm: FirmBook | None) -> Paper:
    """Return the text twin of a document."""
    text = to_text(plan, document, firm).encode("utf-8")
    return Paper(f"{name.removesuffix('.pdf')}.txt", "text/plain; charset=utf-8", text)


def _silent(_words: str) -> None:
    """Report nothing."""


def _can_be_made(maker: Maker, given: PaperInput) -> bool:
    """Return whether a plan has the rooms of a paper; where readings contradict each other, no paper of the whole."""
    plan = given.so_far
    return plan is None or (plan.has(maker.needs) and not (plan.faults and maker.needs in {WHOLE, WORK}))


def _pictures(plan: Plan | PlanSoFar) -> list[Paper]:
    """Return every drawing of a plan by itself."""
    return [
        Paper(f"plans/{each.name}.svg", "image/svg+xml", to_svg(each).encode("utf-8")) for each in scenes_so_far(plan)
    ]


def _left_out(given: PaperInput, wanted: list[Maker], found: Mapping[str, bytes | None]) -> Iterator[LeftOut]:
    words = {kind.name: kind.words for kind in PAPERS}
    for each in wanted:
        if found.get(each.name) is not None:
            continue
        if given.so_far is not None and not _can_be_made(each, given):
            missing = given.so_far.why_not(each.needs)
            why = tuple(one.words for one in missing) or tuple(fault.message for fault in given.so_far.faults)
            yield LeftOut(each.name, words[each.name], why, each.key, missing=missing)
        else:
            none = each.no_paper(given)
            reason = LeftOutReason.NOTHING_FOR_IT if none.is_known else LeftOutReason.NOT_KNOWN
            yield LeftOut(each.name, words[each.name], (none.words,), each.key, reason)
