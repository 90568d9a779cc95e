"""What makes each paper: one row a file, in the order in which the pack holds them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.drawing import to_dxf
from pavewright.papers import changes, handover, method, orders, pictures, site_papers, survey_form
from pavewright.papers._calendar import programme_calendar
from pavewright.papers._pack import cost_sheet, customer_pack, job_pack, piece_numbers, plans_a3, templates
from pavewright.papers._paper import PaperKey
from pavewright.papers._plan_json import plan_json
from pavewright.papers._so_far import job_so_far
from pavewright.papers._tables import instrument_points, set_out_points
from pavewright.papers._workbook import cost_workbook, quantities_workbook
from pavewright.papers.cancelling import WhyNoNotice, cancelling, no_notice_words
from pavewright.papers.quotation import cancellation
from pavewright.papers.quotation import document as quotation
from pavewright.pipeline import FOR_METHOD, WHOLE, Room

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from pavewright.papers._input import PaperInput
    from pavewright.papers.look import Document

PDF = "application/pdf"
XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
FOR_ORDERS = (Room.LAYING, Room.QUANTITIES, Room.COST, Room.PROGRAMME)
"""The rooms without which nothing is ordered for a day."""
WORK = tuple(room for room in WHOLE if room is not Room.COST)
"""The rooms of a whole plan without its money: a paper that holds no amount waits for no price."""


@dataclass(frozen=True, slots=True)
class NoPaper:
    """Why a job has no paper of a kind.

    Attributes:
        words: The same in a sentence for the contractor.
        is_known: Whether it is known that it needs none; else something is to be said first.
    """

    words: str
    is_known: bool


@dataclass(frozen=True, slots=True)
class Maker:
    """What makes one file of the pack; exactly one of `document`, `file` and `gather` is given.

    Attributes:
        key: Key of the paper.
        name: Name of the file; it stands in the list of papers.
        needs: Rooms of the plan without which it is not made.
        document: Makes its sheets, which become a PDF; None where the job has nothing for it.
        file: Makes its bytes; None where the job has nothing for it.
        gather: Makes its bytes out of the PDFs of other papers by name; None where the job has nothing for it.
        of: Names of the PDFs that `gather` needs.
        media_type: What kind of file it is.
        slow: Whether its sheets take long to work out: others are drawn meanwhile.
        nothing: Why there is none where the job has nothing for it, in a sentence.
        without: Says why there is none, where that differs from job to job; it goes before `nothing`.
    """

    key: PaperKey
    name: str
    needs: tuple[Room, ...] = WHOLE
    document: Callable[[PaperInput], Document | None] | None = None
    file: Callable[[PaperInput], bytes | None] | None = None
    gather: Callable[[PaperInput, Mapping[str, bytes]], bytes | None] | None = None
    of: tuple[str, ...] = ()
    media_type: str = PDF
    slow: bool = False
    nothing: str = "This job has nothing for it."
    without: Callable[[PaperInput], NoPaper] | None = None

    def no_paper(self, given: PaperInput) -> NoPaper:
        """Return why a job has no paper of this kind."""
        return NoPaper(self.nothing, is_known=True) if self.without is None else self.without(given)


def _no_cancellation(given: PaperInput) -> NoPaper:
    """Return why no notice on cancelling is made: not needed only where it is known where the work is agreed."""
    why = cancelling(given.plan, given.rules).why_not or WhyNoNotice.NO_RULE
    return NoPaper(no_notice_words(why), is_known=why is WhyNoNotice.AT_PREMISES)


MAKERS: tuple[Maker, ...] = (
    Maker(PaperKey.SURVEY_FORM, "survey-form.pdf", (), document=survey_form.document),
    Maker(PaperKey.SITE_PAPERS, "site-papers.pdf", (), document=site_papers.document),
    Maker(PaperKey.JOB_PACK, "job-pack.pdf", document=job_pack, slow=True),
    Maker(
        PaperKey.JOB_SO_FAR,
        "job-so-far.pdf",
        (),
        document=job_so_far,
        nothing="The job is known whole: the job pack takes its place.",
    ),
    Maker(
        PaperKey.QUOTATION,
        "quotation.pdf",
        document=quotation,
        nothing="The quotation was accepted and stands as it was: changes and the account show what came after it.",
    ),
    Maker(PaperKey.CANCELLATION, "cancellation.pdf", document=cancellation, without=_no_cancellation),
    Maker(PaperKey.CUSTOMER_PACK, "customer-pack.pdf", document=customer_pack),
    Maker(
        PaperKey.PICTURES,
        "pictures.pdf",
        (Room.LAYING, Room.SETTING_OUT, Room.QUANTITIES),
        document=pictures.document,
        nothing="Nothing is laid in this job.",
    ),
    Maker(PaperKey.HANDOVER, "handover.pdf", WORK, document=handover.document),
    Maker(
        PaperKey.HANDOVER,
        "handover.zip",
        WORK,
        gather=handover.folder,
        of=("handover.pdf",),
        media_type="application/zip",
    ),
    Maker(PaperKey.METHOD, "method.pdf", FOR_METHOD, document=method.document),
    Maker(PaperKey.ORDERS, "orders.pdf", FOR_ORDERS, document=orders.document, nothing="Nothing is ordered yet."),
    Maker(
        PaperKey.VARIATIONS,
        "variations.pdf",
        (),
        document=changes.variations_document,
        nothing="No variation was entered.",
    ),
    Maker(PaperKey.BILLS, "invoices.pdf", (), document=changes.bills_document, nothing="Nothing was billed yet."),
    Maker(
        PaperKey.ACCOUNT,
        "final-account.pdf",
        (),
        document=changes.account_document,
        nothing="Nothing was accepted yet.",
    ),
    Maker(PaperKey.COST_SHEET, "cost-sheet.pdf", document=cost_sheet, slow=True),
    Maker(
        PaperKey.PLANS,
        "plans-a3.pdf",
        document=plans_a3,
        nothing="Drawings are wanted on A4: they stand in the job pack.",
    ),
    Maker(
        PaperKey.PIECE_NUMBERS,
        "piece-numbers.pdf",
        WORK,
        document=piece_numbers,
        nothing="The laying plan has room for every number on one sheet.",
    ),
    Maker(
        PaperKey.TEMPLATES,
        "templates.pdf",
        WORK,
        document=templates,
        nothing="No unit of this job is cut to a curve.",
    ),
    Maker(PaperKey.DXF, "drawings.dxf", WORK, file=lambda given: to_dxf(given.plan), media_type="image/vnd.dxf"),
    Maker(
        PaperKey.QUANTITIES,
        "quantities.xlsx",
        (Room.LAYING, Room.QUANTITIES),
        file=lambda given: quantities_workbook(given.plan),
        media_type=XLSX,
    ),
    Maker(PaperKey.COST_WORKBOOK, "cost.xlsx", file=lambda given: cost_workbook(given.plan), media_type=XLSX),
    Maker(
        PaperKey.POINTS,
        "set-out-points.csv",
        (Room.SETTING_OUT,),
        file=lambda given: set_out_points(given.plan),
        media_type="text/csv",
    ),
    Maker(
        PaperKey.POINTS,
        "points-pnezd.csv",
        (Room.SETTING_OUT,),
        file=lambda given: instrument_points(given.plan, north_first=True),
        media_type="text/csv",
    ),
    Maker(
        PaperKey.POINTS,
        "points-penzd.csv",
        (Room.SETTING_OUT,),
        file=lambda given: instrument_points(given.plan, north_first=False),
        media_type="text/csv",
    ),
    Maker(
        PaperKey.PROGRAMME,
        "programme.ics",
        (Room.PROGRAMME, Room.QUANTITIES),
        file=lambda given: programme_calendar(given.plan),
        media_type="text/calendar",
    ),
    Maker(
        PaperKey.PLAN_JSON,
        "plan.json",
        (),
        file=lambda given: plan_json(given.so_far or given.plan),
        media_type="application/json",
    ),
)
"""Every file that the pack holds beside the drawings, each by one row."""


def paper_needs(name: str) -> tuple[Room, ...]:
    """Return the rooms of a plan without which a paper is not made, by the name of its file."""
    return next(each.needs for each in MAKERS if each.name == name)
