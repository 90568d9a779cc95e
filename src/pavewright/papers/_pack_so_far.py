"""The papers of a job that is not whole: those that can be made, and why the others cannot."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.drawing import DRAWINGS, to_svg
from pavewright.papers._blocks import SheetOfPaper, SheetSize, drawing_sheet, heading, lead, paragraph, points
from pavewright.papers._calendar import programme_calendar
from pavewright.papers._compile import to_pdf
from pavewright.papers._figures import paper_figures
from pavewright.papers._pack import PDF, XLSX, document, pack
from pavewright.papers._paper import PAPERS, Paper
from pavewright.papers._plan_json import plan_json
from pavewright.papers._sheets_front import finding_block
from pavewright.papers._sign_findings import findings_of
from pavewright.papers._tables import set_out_points
from pavewright.papers._words import two
from pavewright.papers._workbook import quantities_workbook
from pavewright.papers._writing import in_writing
from pavewright.pipeline import WHOLE, Room

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pavewright.drawing import Scene
    from pavewright.firm import FirmBook
    from pavewright.papers._figures import PaperFigures
    from pavewright.pipeline import Plan, PlanSoFar
    from pavewright.rules import Rulebook

_SO_FAR = "job-so-far.pdf"


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A paper that cannot be made yet.

    Attributes:
        name: Its file name.
        words: What it is.
        why: What is missing for it, what to do first first.
    """

    name: str
    words: str
    why: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Table:
    """A paper that shows some rooms and no others."""

    name: str
    media_type: str
    needs: tuple[Room, ...]
    make: Callable[[Plan], bytes]


_TABLES = (
    _Table("quantities.xlsx", XLSX, (Room.LAYING, Room.QUANTITIES), quantities_workbook),
    _Table("set-out-points.csv", "text/csv", (Room.SETTING_OUT,), set_out_points),
    _Table("programme.ics", "text/calendar", (Room.PROGRAMME, Room.QUANTITIES), programme_calendar),
)
_NOT_MISSED = frozenset({_SO_FAR, "piece-numbers.pdf", "templates.pdf"})
"""Papers that a whole job need not have either."""


@in_writing
def pack_so_far(
    plan: PlanSoFar, rules: Rulebook, report: Callable[[str], None] | None = None, firm: FirmBook | None = None
) -> tuple[tuple[Paper, ...], tuple[LeftOut, ...]]:
    """Return every paper of a plan, or those that can be made of it with those that cannot and why.

    Args:
        plan: The plan, as far as it goes.
        rules: The rulebook by which it was made, for sources.
        report: Takes the name of each step before it starts; may raise to stop the work.
        firm: The book of the firm: its letterhead and its own words stand on what the customer gets.
    """
    whole = plan.whole
    if whole is not None and not plan.faults:
        return pack(whole, rules, report, firm), ()
    tell = report or (lambda _: None)
    tell("drawings")
    scenes = [scene for scene in _drawn(plan) if scene is not None]
    tell("PDF")
    sheets = [*_front(plan, paper_figures(rules)), *(drawing_sheet(scene, size=SheetSize.A3) for scene in scenes)]
    papers = [Paper(_SO_FAR, PDF, to_pdf({_SO_FAR: document(plan, "Job so far", sheets)})[_SO_FAR])]
    papers += [Paper(f"plans/{each.name}.svg", "image/svg+xml", to_svg(each).encode("utf-8")) for each in scenes]
    tell("tables")
    for table in _TABLES:
        made = plan.with_rooms(table.needs)
        if made is not None:
            papers.append(Paper(table.name, table.media_type, table.make(made)))
    papers.append(Paper("plan.json", "application/json", plan_json(plan)))
    return tuple(papers), _left_out(plan, {paper.name for paper in papers})


def _drawn(plan: PlanSoFar) -> Iterator[Scene | None]:
    for each in DRAWINGS:
        made = plan.with_rooms(each.needs)
        if made is not None:
            yield each.draw(made)


def _left_out(plan: PlanSoFar, made: set[str]) -> tuple[LeftOut, ...]:
    needs = {table.name: table.needs for table in _TABLES}
    return tuple(
        LeftOut(kind.name, kind.words, tuple(each.words for each in plan.why_not(needs.get(kind.name, WHOLE))))
        for kind in PAPERS
        if kind.name not in made and kind.name not in _NOT_MISSED
    )


def _front(plan: PlanSoFar, figures: PaperFigures) -> list[SheetOfPaper]:
    """Return what is known and what is missing, then what was noticed."""
    areas = [f"{area.name}: {two(area.laid_m2)} m²" for area in plan.survey.site.areas]
    sheet = SheetOfPaper("What is known so far")
    sheet.add(lead(f"Not a whole job yet. Next: {plan.missing[0].words}"))
    sheet.add(heading("Areas"), points(areas) if areas else paragraph("None is drawn yet."))
    sheet.add(heading("What is missing"), points([each.words for each in plan.missing]))
    found = findings_of(plan)
    if not found:
        return [sheet]
    return [sheet, SheetOfPaper("Findings", follows=True).add(*(finding_block(each, figures) for each in found))]
