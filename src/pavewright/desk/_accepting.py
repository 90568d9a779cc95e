"""Acceptance of a quotation, written into the job as operations."""

from __future__ import annotations

import copy
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pavewright.desk._read import read_firm, read_job
from pavewright.desk._repricing import quoted_document
from pavewright.findings import FieldChange
from pavewright.job import changed_document, load_document, parse
from pavewright.job.agreed import AcceptedMeans
from pavewright.job.operations import between
from pavewright.pipeline import accepted_of, plan_as_far

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable, Collection

    from pavewright.job import Job, Part
    from pavewright.job.operations import Operation


@dataclass(frozen=True, slots=True)
class Acceptance:
    """Who accepted what, and when.

    Attributes:
        by: Who accepted.
        at: When, with its offset from UTC.
        means: By the private link, on paper or by message.
        options: Names of the options that were ticked.
        stored_revision: Under which number the document that was quoted is kept with the jobs.
        paper_sha256: SHA-256 of the PDF that was accepted.
    """

    by: str
    at: dt.datetime
    means: AcceptedMeans = AcceptedMeans.PAPER
    options: Collection[str] = ()
    stored_revision: int | None = None
    paper_sha256: str | None = None


def accept_operations(
    document: str | bytes,
    book: str | bytes | None,
    given: Acceptance,
    report: Callable[[str], None] | None = None,
) -> list[Operation]:
    """Return the operations that write an acceptance into a job: frozen sums, and what the options change in it.

    A job that keeps no quoted prices yet keeps those of the day of the acceptance, so that no later price moves it.

    Raises:
        JobInvalid: the job or the book cannot be read, or the job has no price that could be accepted.
        NotAcceptedError: it was accepted before, there is no price, or an option is not offered.
    """
    before = load_document(document)
    job, rules = read_job(document)
    quoted = before if job.quoted is not None else quoted_document(document, book, given.at.date())
    job = parse(copy.deepcopy(quoted))
    made = plan_as_far(job, rules, report, book=read_firm(book))
    found = accepted_of(made, given.options, given.by, given.at, given.means, given.stored_revision, given.paper_sha256)
    return between(before, with_options(quoted, job, given.options) | {"accepted": told(found)})


def with_options(document: dict[str, Any], job: Job, chosen: Collection[str]) -> dict[str, Any]:
    """Return a copy of a job document with what some of its options change."""
    taken = [option for option in job.terms.options if option.name in chosen]
    changes = [FieldChange(each.path, each.value) for option in taken for each in option.changes]
    return changed_document(document, changes)


def told(part: Part) -> Any:  # noqa: ANN401 - JSON values
    """Return a part of a job as it stands in a document."""
    return part.model_dump(mode="json", exclude_none=True)
