"""The paper of a job that is not whole: what is known, what is missing, findings, drawings that can be made."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing import A3_FRAME, DRAWINGS
from pavewright.papers._sheets_front import finding_block
from pavewright.papers._sign_findings import findings_of
from pavewright.papers._words import two
from pavewright.papers.look import PACK_FRAME, Document, SheetOfPaper, drawing_sheet, heading, lead, paragraph, points

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.drawing import Scene
    from pavewright.papers._figures import PaperFigures
    from pavewright.papers._input import PaperInput
    from pavewright.pipeline import Plan, PlanSoFar


def job_so_far(given: PaperInput) -> Document | None:
    """Return the job as far as it is known; None where all of it is."""
    plan = given.so_far
    if plan is None:
        return None
    drawn = (drawing_sheet(scene) for scene in scenes_so_far(plan, PACK_FRAME))
    return Document("Job so far", (*_front(plan, given.figures), *drawn))


def scenes_so_far(plan: Plan | PlanSoFar, frame_mm: tuple[float, float] = A3_FRAME) -> Iterator[Scene]:
    """Give every drawing of the register that a plan has the rooms and the matter for, plans in a frame. [mm]."""
    for each in DRAWINGS:
        made = plan.with_rooms(each.needs)
        if made is not None:
            yield from each.scenes(made, frame_mm)


def _front(plan: PlanSoFar, figures: PaperFigures) -> list[SheetOfPaper]:
    """Return what is known and what is missing, then what was noticed."""
    areas = [f"{area.name}: {two(area.laid_m2)} m²" for area in plan.survey.site.areas]
    sheet = SheetOfPaper("What is known so far")
    if plan.missing:
        sheet.add(lead(f"Not a whole job yet. Next: {plan.missing[0].words}"))
    sheet.add(heading("Areas"), points(areas) if areas else paragraph("None is drawn yet."))
    sheet.add(heading("What is missing"), points([each.words for each in plan.missing]))
    found = findings_of(plan)
    if not found:
        return [sheet]
    return [sheet, SheetOfPaper("Findings", follows=True).add(*(finding_block(each, figures) for each in found))]
