"""Writing the record of a job that is kept on this machine."""

from __future__ import annotations

from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

from pavewright.cli._record_words import WORDS
from pavewright.cli._where import files_at
from pavewright.desk import record_pdf, record_zip, title_of
from pavewright.papers import PapersTooLargeError
from pavewright.record import TokenRefusedError, check_record
from pavewright.store import StoreTroubleError, TokenOfAnotherError, UnknownJob, open_installation

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.store import Store


class RecordNotMadeError(Exception):
    """A record was not written; says why."""


def write_record(data: Path | str, job: str, target: Path, timestamp: Path | None) -> tuple[str, ...]:
    """Write the record of a job into a file and return what was done, in lines.

    Args:
        data: File in which jobs are kept, or the address of the database server.
        job: Name of the job, or words of its title.
        target: File to write; its ending says what.
        timestamp: Token to keep in the record first; None for none.

    Raises:
        RecordNotMadeError: it cannot be written.
    """
    if isinstance(data, Path) and not data.exists():
        raise RecordNotMadeError(WORDS.no_store(file=str(data)))
    try:
        with closing(open_installation(data, files_at(None))) as kept:
            return tuple(_written(kept.first, _named(kept.first, job), target, timestamp))
    except (StoreTroubleError, PapersTooLargeError, OSError) as problem:
        raise RecordNotMadeError(str(problem)) from problem
    except TokenRefusedError as problem:
        raise RecordNotMadeError(WORDS.stamp_unread) from problem
    except TokenOfAnotherError as problem:
        raise RecordNotMadeError(WORDS.stamp_of_another) from problem


def _named(store: Store, job: str) -> str:
    """Return the name of a job by its name or by words of its title."""
    try:
        return store.job(job).id
    except UnknownJob:
        found = store.jobs(job) or store.jobs(job, archived=True)
        left = next((each for each in store.records.removed() if each.job == job), None)
        if left is not None:
            said = WORDS.removed(at=left.at[:19].replace("T", " "), entries=left.entries, head=left.head)
            raise RecordNotMadeError(said) from None
    if len(found) != 1:
        raise RecordNotMadeError(WORDS.which(count=len(found), words=job))
    return found[0].id


def _written(store: Store, job_id: str, target: Path, timestamp: Path | None) -> Iterator[str]:
    if timestamp is not None:
        yield WORDS.stamped(entry=store.records.add_token(job_id, timestamp.read_bytes()))
    content = store.records.content(job_id)
    target.write_bytes(_made(store, job_id, content, target.suffix.lower()))
    checked = check_record(content)
    yield WORDS.written(file=str(target), entries=len(checked.entries))
    if checked.seal is not None:
        yield WORDS.head(head=checked.seal.head)
    if checked.faults:
        yield WORDS.changed


def _made(store: Store, job_id: str, content: bytes, ending: str) -> bytes:
    if ending == ".jsonl":
        return content
    pdf = record_pdf(content, title_of(store.job(job_id).document))
    if ending != ".zip":
        return pdf

    def image(photo_id: str) -> bytes | None:
        try:
            return store.photo(job_id, photo_id)
        except UnknownJob:
            return None

    return record_zip(content, pdf, image)
