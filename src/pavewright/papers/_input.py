"""What a paper is made from."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from pavewright.papers._customer_words import customer_words
from pavewright.papers._figures import paper_figures
from pavewright.papers._sheets_laying import piece_number_sheets
from pavewright.papers._sheets_setting_out import setting_out_sheets
from pavewright.papers._sheets_survey import survey_sheets
from pavewright.papers._sheets_true_size import true_size_document

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable

    from pavewright.firm import FirmBook
    from pavewright.papers._customer_words import CustomerWords
    from pavewright.papers._figures import PaperFigures
    from pavewright.papers._photo import PaperPhoto
    from pavewright.papers.look import SheetOfPaper, SheetSize
    from pavewright.pipeline import Missing, Plan, PlanSoFar
    from pavewright.rules import Rulebook


def _silent(_words: str) -> None:
    """Report nothing."""


@dataclass(frozen=True)
class PaperInput:
    """What a paper is made from; what several papers need is worked out once, when it is first asked for.

    Attributes:
        plan: The plan; it has the rooms that the paper needs.
        rules: The rulebook by which it was made.
        firm: The book of the firm; None where there is none.
        report: Takes the name of a long step before it starts; may raise to stop the work.
        so_far: The plan as far as it goes; None where it is whole and without faults.
        missing: What the job does not know, though the plan may be whole; None where nobody looked.
        photos: Photos of the job in the order in which they came.
        drawings: Size on which drawings by themselves are wanted; None for A4, and the plans on A3 beside them.
    """

    plan: Plan
    rules: Rulebook
    firm: FirmBook | None = None
    report: Callable[[str], None] = _silent
    so_far: PlanSoFar | None = None
    missing: tuple[Missing, ...] | None = None
    photos: tuple[PaperPhoto, ...] = ()
    drawings: SheetSize | None = None

    @property
    def made_on(self) -> dt.date:
        """The day that a paper bears: that of the job document, so that the same job gives the same paper."""
        return self.plan.job.identity.date

    @cached_property
    def figures(self) -> PaperFigures:
        """The figures of the rulebook that papers print."""
        return paper_figures(self.rules)

    @cached_property
    def reported(self) -> CustomerWords:
        """What the customer reads of the plan."""
        return customer_words(self.plan, self.rules)

    @cached_property
    def surveyed(self) -> tuple[SheetOfPaper, ...]:
        """The survey plan, and the points, tapes and level books."""
        return tuple(survey_sheets(self.plan))

    @cached_property
    def pegged(self) -> tuple[SheetOfPaper, ...]:
        """The plan of pegs, and their heights below the string."""
        return tuple(setting_out_sheets(self.plan))

    @cached_property
    def numbered(self) -> list[SheetOfPaper]:
        """The laying plan in parts; empty where one sheet has room for every number."""
        return piece_number_sheets(self.plan)

    @cached_property
    def true_size(self) -> list[SheetOfPaper]:
        """Templates at true size; empty where nothing is round."""
        return true_size_document(self.plan)
