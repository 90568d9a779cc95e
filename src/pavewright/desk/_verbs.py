"""What every other verb begins with: reading a job, and its plan."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from pavewright.desk._read import newer_rules, read_firm, read_job, read_job_so_far
from pavewright.job import Fault, JobInvalid
from pavewright.pipeline import plan, plan_as_far

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.pipeline import Plan, PlanSoFar

DEMO = Path(__file__).with_name("demo.json")
"""The job of the demo: an invented terrace."""

_READ_AT_MAX = 5_000_001
"""A byte more than a job document may hold, so that a larger file is refused without reading all of it."""


def read_job_file(path: Path) -> bytes:
    """Return what a file holds, no more of it than a job document may be long.

    Raises:
        JobInvalid: the file cannot be read.
    """
    try:
        with path.open("rb") as file:
            return file.read(_READ_AT_MAX)
    except OSError as problem:
        message = f"{path.name} cannot be read ({problem.strerror}): check its name and where it lies."
        raise JobInvalid((Fault("", message),)) from problem


def demo_document() -> bytes:
    """Return the document of the demo."""
    return DEMO.read_bytes()


def make_plan(
    document: str | bytes, report: Callable[[str], None] | None = None, firm: str | bytes | None = None
) -> Plan:
    """Return the plan of a job document by the rulebook of its place: the edition that it keeps, else the newest.

    Args:
        document: The job.
        report: Takes the name of each stage before it starts; may raise to stop the work.
        firm: The firm's book; None where there is none yet.

    Raises:
        JobInvalid: the document is not a job, its readings make no plan, or too little is known for a whole one;
            carries every fault.
    """
    job, rules = read_job(document)
    return plan(job, rules, report, newer_rules(rules), read_firm(firm))


def make_plan_so_far(
    document: str | bytes, report: Callable[[str], None] | None = None, firm: str | bytes | None = None
) -> PlanSoFar:
    """Return the plan of a job document as far as what is known, with what is missing.

    Args:
        document: The job.
        report: Takes the name of each stage before it starts; may raise to stop the work.
        firm: The firm's book; None where there is none yet.

    Raises:
        JobInvalid: the document is not a job; carries every fault.
    """
    job, rules, unread = read_job_so_far(document)
    return plan_as_far(job, rules, report, newer_rules(rules), unread, read_firm(firm))
