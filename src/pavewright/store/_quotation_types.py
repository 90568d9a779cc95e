"""What is kept of quotations that are open to a customer."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt


@dataclass(frozen=True, slots=True)
class QuotationLink:
    """A link that opens a quotation to a customer; its token is known to nobody but to whom it was given.

    Attributes:
        id: Its name in the store.
        job_id: The job.
        rev: The revision of the job that it shows.
        made: When it was made, UTC.
        expires: Last day on which it opens the quotation to be accepted.
        withdrawn: When it was withdrawn, UTC; None while it was not.
        opened: When it was first opened, UTC; None while it was not.
        seen: When it was last opened, UTC; None while it was not.
        opens: How often it was opened.
        pdf_sha256: Digest of the PDF that it hands out.
    """

    id: str
    job_id: str
    rev: int
    made: str
    expires: dt.date
    withdrawn: str | None
    opened: str | None
    seen: str | None
    opens: int
    pdf_sha256: str


@dataclass(frozen=True, slots=True)
class Made:
    """What a new link opens.

    Attributes:
        job_id: The job.
        rev: The revision of the job that it shows.
        expires: Last day on which it opens the quotation to be accepted.
        shown: What the customer reads, as text of JSON.
        pdf: The quotation as a file.
        notice: The papers on cancelling as a file; None where there are none.
    """

    job_id: str
    rev: int
    expires: dt.date
    shown: str
    pdf: bytes
    notice: bytes | None = None


@dataclass(frozen=True, slots=True)
class Question:
    """What a customer asks about his quotation.

    Attributes:
        id: Its name in the store.
        link_id: The link by which he asked.
        at: When, UTC.
        words: What he asks.
        answer: What he was answered; None while he was not.
        answered: When, UTC; None while he was not.
    """

    id: str
    link_id: str
    at: str
    words: str
    answer: str | None
    answered: str | None


@dataclass(frozen=True, slots=True)
class Accepted:
    """What a customer accepts.

    Attributes:
        name: His name.
        on: The day that he wrote beside it, as 2027-04-12.
        options: Numbers of the options that he ticked, in the order of the offer.
        names: Their names.
        total_minor: What is to pay with them, with tax. [minor units]
        currency: The currency of it.
        drawn: His signature as the strokes of a drawing; empty where he typed it.
        typed: His signature as he typed it; empty where he drew it.
    """

    name: str
    on: str
    options: tuple[int, ...]
    names: tuple[str, ...]
    total_minor: int
    currency: str
    drawn: str
    typed: str


@dataclass(frozen=True, slots=True)
class Acceptance:
    """An acceptance as it is kept; nothing changes it.

    Attributes:
        link_id: The link by which it came.
        job_id: The job.
        rev: The revision of the job that was accepted.
        at: When it came, UTC.
        accepted: What was accepted.
        pdf_sha256: Digest of the PDF that was accepted.
    """

    link_id: str
    job_id: str
    rev: int
    at: str
    accepted: Accepted
    pdf_sha256: str

    @property
    def key(self) -> str:
        """Name under which it is written into its job, so that it is written once."""
        return f"accepted-{self.link_id}"


class QuotationClosedError(Exception):
    """The token opens nothing: there is no such link, or it expired or was withdrawn; which of them is not said."""


class AcceptedEarlierError(Exception):
    """The quotation was accepted before; carries what was accepted."""

    def __init__(self, acceptance: Acceptance) -> None:
        """Keep it."""
        super().__init__("This quotation was accepted before.")
        self.acceptance = acceptance


class TooManyQuestionsError(Exception):
    """So many questions were asked that they are better talked over."""

    def __init__(self) -> None:
        """Say so."""
        super().__init__("Many questions were asked already: please telephone, that is quicker for both.")


@dataclass(frozen=True, slots=True)
class OpenQuotation:
    """What a token opens.

    Attributes:
        link: The link.
        shown: What the customer reads, as text of JSON.
        acceptance: What was accepted by it; None while nothing was.
    """

    link: QuotationLink
    shown: str
    acceptance: Acceptance | None
