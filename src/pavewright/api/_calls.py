"""What another program may ask: plan, price, pack, validate."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from pavewright.api._planned import Planned, Price
from pavewright.desk import make_pack_so_far, make_plan_so_far, plans_by, read_book, read_job_file, write_pack
from pavewright.job import Fault, Job, JobInvalid

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from pavewright.engine import Engine

AnyJob = str | bytes | Path | Mapping[str, Any] | Job
"""A job: a path, JSON as text or bytes, a dictionary as JSON has it, or a job that was read."""


def plan(job: AnyJob, firm: AnyJob | None = None, report: Callable[[str], None] | None = None) -> Planned:
    """Return the plan of a job as far as what is known.

    Args:
        job: A path, JSON as text or bytes, a dictionary, or a job that was read.
        firm: The firm's book in the same ways; None for none.
        report: Takes the name of each stage before it starts; may raise to stop the work.

    Raises:
        JobInvalid: it is no job; carries every fault with its place in the document and a sentence.
        OSError: there is no file at the path.
    """
    return Planned(make_plan_so_far(document_of(job), report, None if firm is None else document_of(firm)))


def plan_many(
    jobs: Iterable[AnyJob], firm: AnyJob | None = None, *, engine: Engine | None = None
) -> Iterator[Planned | tuple[Fault, ...]]:
    """Give the plan of each job, in the order of the jobs; for one that is no job, its faults.

    Args:
        jobs: Each as in ``plan``; they are read one after the other, so that a generator of thousands may be given.
        firm: The firm's book; None for none.
        engine: What plans them: ``LocalCores()`` or a ``Cluster``, which stays open for the next run; None for this
            process alone. Plans are the same.

    Raises:
        PartFailedError: with an engine, the plan of a job raised an error or ended every worker that began with it.
        EngineLostError: the cluster went away.
        OtherProgramError: a worker of the cluster runs another version of the program.
    """
    book = None if firm is None else document_of(firm)
    if engine is not None:
        for found in plans_by(engine, (_document_or_faults(each) for each in jobs), book):
            yield found if isinstance(found, tuple) else Planned(found)
        return
    for job in jobs:
        try:
            yield plan(job, book)
        except JobInvalid as invalid:
            yield invalid.faults


def price(job: AnyJob, firm: AnyJob | None = None) -> Price | None:
    """Return what a job costs; None while too little is known for a price.

    Args:
        job: As in ``plan``.
        firm: The firm's book; None for none.

    Raises:
        JobInvalid: it is no job.
    """
    return plan(job, firm).price


def pack(job: AnyJob, folder: str | Path, firm: AnyJob | None = None) -> tuple[Path, ...]:
    """Write all papers that can be made of a job into a folder, and return where they are.

    Args:
        job: As in ``plan``.
        folder: Made where it is missing; files of the same name are written over.
        firm: The firm's book, whose letterhead stands on what the customer gets; None for none.

    Raises:
        JobInvalid: it is no job.
        OSError: the folder cannot be written.
    """
    book = None if firm is None else document_of(firm)
    papers, _ = make_pack_so_far(plan(job, book).plan, None, None if book is None else read_book(book))
    return write_pack(papers, Path(folder))


def validate(job: AnyJob) -> tuple[Fault, ...]:
    """Return every fault of a job document, and every reading that contradicts another; nothing where there is none.

    Args:
        job: As in ``plan``.
    """
    try:
        return plan(job).plan.faults
    except JobInvalid as invalid:
        return invalid.faults


def _document_or_faults(job: AnyJob) -> str | bytes | tuple[Fault, ...]:
    try:
        return document_of(job)
    except JobInvalid as invalid:
        return invalid.faults


def document_of(job: AnyJob) -> str | bytes:
    """Return a document as JSON.

    Args:
        job: A path, JSON as text or bytes, a dictionary, or a job that was read. Text that begins with a brace is JSON;
            all other text is a path.

    Raises:
        JobInvalid: the file cannot be read.
    """
    if isinstance(job, bytes):
        return job
    if isinstance(job, Job):
        return job.model_dump_json()
    if isinstance(job, Path):
        return read_job_file(job)
    if isinstance(job, str):
        return job if job.lstrip().startswith("{") else read_job_file(Path(job))
    return json.dumps(dict(job), ensure_ascii=False)
