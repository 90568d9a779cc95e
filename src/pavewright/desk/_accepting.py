"""Acceptance of a quotation, written into the job as operations."""

from __future__ import annotations

import copy
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pavewright.desk._read import read_firm, read_job
from pavewright.desk._repricing import quoted_document
from pavewright.findings import FieldChange
from pavewright.job import changed_document, load_document, parse
from pavewright.job.agreed import AcceptedMeans, AcceptedOption, TaxedSum
from pavewright.job.operations import between
from pavewright.pipeline import NotAccepted, NotAcceptedError, accepted_of, plan_as_far, taken_together

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable, Collection

    from pavewright.job import Job, Part
    from pavewright.job.agreed import Accepted
    from pavewright.job.operations import Operation
    from pavewright.pipeline import PlanSoFar
    from pavewright.rules import Rulebook


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
    line = together_line(made, rules, found)
    if line is not None:
        found = found.model_copy(update={"options": (*found.options, line)})
    return between(before, with_options(quoted, job, given.options) | {"accepted": told(found)})


def together_line(made: PlanSoFar, rules: Rulebook, found: Accepted) -> AcceptedOption | None:
    """Return what several options come to together beside what each comes to alone; None where that is nothing.

    Raises:
        NotAcceptedError: they cannot be had together.
    """
    names = [each.name for each in found.options]
    chosen = tuple(number for number, each in enumerate(made.offered) if each.name in names)
    plan = made.whole
    if len(chosen) < _SEVERAL or plan is None:
        return None
    sets = taken_together(plan, rules, only=chosen)
    together = next((each for each in sets if each.options == chosen), None)
    if together is None or together.refused is not None:
        raise NotAcceptedError(NotAccepted.NOT_OFFERED, ", ".join(names))
    left = {(share.taxed.regime, share.taxed.percent): [share.net_minor, share.tax_minor] for share in together.shares}
    for part in (part for option in found.options for part in option.sums):
        sums = left.setdefault((part.regime, part.percent), [0, 0])
        sums[0] -= part.net_minor
        sums[1] -= part.tax_minor
    parts = tuple(
        TaxedSum(regime=regime, percent=percent, net_minor=net, tax_minor=tax)
        for (regime, percent), (net, tax) in left.items()
        if net or tax
    )
    return AcceptedOption(name=TOGETHER, sums=parts) if parts else None


_SEVERAL = 2
TOGETHER = "Options taken together"
"""What the line is called that makes several options come to their price together."""


def with_options(document: dict[str, Any], job: Job, chosen: Collection[str]) -> dict[str, Any]:
    """Return a copy of a job document with what some of its options change."""
    taken = [option for option in job.terms.options if option.name in chosen]
    changes = [FieldChange(each.path, each.value) for option in taken for each in option.changes]
    return changed_document(document, changes)


def told(part: Part) -> Any:  # noqa: ANN401 - JSON values
    """Return a part of a job as it stands in a document."""
    return part.model_dump(mode="json", exclude_none=True)
