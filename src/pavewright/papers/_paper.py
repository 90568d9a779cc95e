"""A paper: a file of the pack; and the one list of the papers that there are."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


@dataclass(frozen=True, slots=True)
class Paper:
    """A file of the pack.

    Attributes:
        name: Its name, with folders divided by a slash.
        media_type: What kind of file it is.
        content: Its bytes.
    """

    name: str
    media_type: str
    content: bytes


class Reader(StrEnum):
    """Who may be handed a paper."""

    CREW = "crew"
    CUSTOMER = "customer"
    INSIDE = "inside"


@dataclass(frozen=True, slots=True)
class PaperKind:
    """A paper that a pack may hold; a drawing by itself is none, it stands in the register of drawings.

    Attributes:
        name: Its file name.
        words: What it is, for a list.
        reader: Who may be handed it: what shows cost stays inside.
    """

    name: str
    words: str
    reader: Reader


PAPERS: tuple[PaperKind, ...] = (
    PaperKind("job-pack.pdf", "Job pack", Reader.CREW),
    PaperKind("job-so-far.pdf", "Job as far as it is known", Reader.CREW),
    PaperKind("plans-a3.pdf", "Plans on A3", Reader.CREW),
    PaperKind("piece-numbers.pdf", "Piece numbers, in parts", Reader.CREW),
    PaperKind("templates.pdf", "Templates at true size", Reader.CREW),
    PaperKind("drawings.dxf", "Drawings for CAD", Reader.CREW),
    PaperKind("quantities.xlsx", "Order list", Reader.CREW),
    PaperKind("set-out-points.csv", "Points to set out", Reader.CREW),
    PaperKind("programme.ics", "Programme for the calendar", Reader.CREW),
    PaperKind("customer-pack.pdf", "Customer pack, without cost", Reader.CUSTOMER),
    PaperKind("cost-sheet.pdf", "Cost sheet", Reader.INSIDE),
    PaperKind("cost.xlsx", "Cost, as a workbook", Reader.INSIDE),
    PaperKind("plan.json", "Everything, for machines", Reader.INSIDE),
)
"""Every paper, in the order in which a screen lists them."""
