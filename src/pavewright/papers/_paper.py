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


class PaperKey(StrEnum):
    """A paper by the key under which it is asked for; one key may stand for two files of the same matter."""

    SURVEY_FORM = "survey_form"
    QUOTATION = "quotation"
    CANCELLATION = "cancellation"
    ORDERS = "orders"
    METHOD = "method"
    SITE_PAPERS = "site_papers"
    PICTURES = "pictures"
    VARIATIONS = "variations"
    BILLS = "bills"
    ACCOUNT = "account"
    HANDOVER = "handover"
    JOB_PACK = "job_pack"
    JOB_SO_FAR = "job_so_far"
    PLANS = "plans"
    PIECE_NUMBERS = "piece_numbers"
    TEMPLATES = "templates"
    DXF = "dxf"
    QUANTITIES = "quantities"
    POINTS = "points"
    PROGRAMME = "programme"
    CUSTOMER_PACK = "customer_pack"
    COST_SHEET = "cost_sheet"
    COST_WORKBOOK = "cost_workbook"
    PLAN_JSON = "plan_json"


@dataclass(frozen=True, slots=True)
class PaperKind:
    """A paper that a pack may hold; a drawing by itself is none, it stands in the register of drawings.

    Attributes:
        name: Its file name.
        words: What it is, for a list.
        reader: Who may be handed it: what shows cost stays inside.
        key: Key under which it is asked for.
    """

    name: str
    words: str
    reader: Reader
    key: PaperKey


PAPERS: tuple[PaperKind, ...] = (
    PaperKind("survey-form.pdf", "Survey form", Reader.CREW, PaperKey.SURVEY_FORM),
    PaperKind("site-papers.pdf", "Site papers for the crew", Reader.CREW, PaperKey.SITE_PAPERS),
    PaperKind("job-pack.pdf", "Job pack", Reader.CREW, PaperKey.JOB_PACK),
    PaperKind("job-so-far.pdf", "Job as far as it is known", Reader.CREW, PaperKey.JOB_SO_FAR),
    PaperKind("plans-a3.pdf", "Plans on A3", Reader.CREW, PaperKey.PLANS),
    PaperKind("piece-numbers.pdf", "Piece numbers, in parts", Reader.CREW, PaperKey.PIECE_NUMBERS),
    PaperKind("templates.pdf", "Templates at true size", Reader.CREW, PaperKey.TEMPLATES),
    PaperKind("drawings.dxf", "Drawings for CAD", Reader.CREW, PaperKey.DXF),
    PaperKind("pictures.pdf", "Setting out, laying, cuts and mixes in pictures", Reader.CREW, PaperKey.PICTURES),
    PaperKind("quantities.xlsx", "Order list", Reader.CREW, PaperKey.QUANTITIES),
    PaperKind("set-out-points.csv", "Points to set out", Reader.CREW, PaperKey.POINTS),
    PaperKind("points-pnezd.csv", "Points for a total station: north before east", Reader.CREW, PaperKey.POINTS),
    PaperKind("points-penzd.csv", "Points for a total station: east before north", Reader.CREW, PaperKey.POINTS),
    PaperKind("programme.ics", "Programme for the calendar", Reader.CREW, PaperKey.PROGRAMME),
    PaperKind("quotation.pdf", "Quotation", Reader.CUSTOMER, PaperKey.QUOTATION),
    PaperKind("cancellation.pdf", "Notice and form on cancelling", Reader.CUSTOMER, PaperKey.CANCELLATION),
    PaperKind("customer-pack.pdf", "Drawings for the customer", Reader.CUSTOMER, PaperKey.CUSTOMER_PACK),
    PaperKind("handover.pdf", "Handover", Reader.CUSTOMER, PaperKey.HANDOVER),
    PaperKind("handover.zip", "Handover, as one folder", Reader.CUSTOMER, PaperKey.HANDOVER),
    PaperKind("orders.pdf", "Order lists, with the lift plan", Reader.CREW, PaperKey.ORDERS),
    PaperKind("method.pdf", "Method and risks", Reader.CREW, PaperKey.METHOD),
    PaperKind("variations.pdf", "Variations, with slips to sign", Reader.CUSTOMER, PaperKey.VARIATIONS),
    PaperKind("invoices.pdf", "Bills and credit notes", Reader.CUSTOMER, PaperKey.BILLS),
    PaperKind("final-account.pdf", "Final account", Reader.CUSTOMER, PaperKey.ACCOUNT),
    PaperKind("cost-sheet.pdf", "Cost sheet", Reader.INSIDE, PaperKey.COST_SHEET),
    PaperKind("cost.xlsx", "Cost, as a workbook", Reader.INSIDE, PaperKey.COST_WORKBOOK),
    PaperKind("plan.json", "Everything, for machines", Reader.INSIDE, PaperKey.PLAN_JSON),
)
"""Every paper, in the order in which a screen lists them."""
