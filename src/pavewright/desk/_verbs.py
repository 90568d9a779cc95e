"""What every other verb begins with: reading a job, and its plan."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from pavewright.desk._read import newer_rules, read_job
from pavewright.job import Fault, JobInvalid
from pavewright.pipeline import plan

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.pipeline import Plan

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


def make_plan(document: str | bytes, report: Callable[[str], None] | None = None) -> Plan:
    """Return the plan of a job document by the rulebook of its place: the edition that it keeps, else the newest.

    Raises:
        JobInvalid: the document is not a job, or its readings make no plan; carries every fault.
    """
    job, rules = read_job(document)
    return plan(job, rules, report, newer_rules(rules))
