"""What the store hands out, and what it refuses."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pathlib import Path


@dataclass(frozen=True, slots=True)
class Kept:
    """A job as it stands.

    Attributes:
        id: Its name in the store.
        rev: Its revision, from 1.
        document: The job document, as text.
        archived: Whether it was put away.
    """

    id: str
    rev: int
    document: str
    archived: bool


@dataclass(frozen=True, slots=True)
class JobRow:
    """A line of the list of jobs.

    Attributes:
        id: Its name in the store.
        rev: Its revision.
        title: What the list calls it.
        archived: Whether it was put away.
        changed: When it last changed, UTC.
        summary: What was worked out for the list, as JSON; None where nothing was.
        summary_rev: The revision for which that was.
    """

    id: str
    rev: int
    title: str
    archived: bool
    changed: str
    summary: str | None
    summary_rev: int | None


@dataclass(frozen=True, slots=True)
class Revision:
    """One revision of a job.

    Attributes:
        rev: Its number, from 1.
        at: When it was kept, UTC.
        note: What was done, in a few words.
        document: The job document; empty in a list.
        who: Person who did it, by his name in the store; empty where nobody was signed in.
    """

    rev: int
    at: str
    note: str
    document: str = ""
    who: str = ""


@dataclass(frozen=True, slots=True)
class Photo:
    """A photo.

    Attributes:
        id: Its name.
        at: When it came, UTC.
        note: What it shows.
        x_mm: Where it is pinned; None where it is not. [mm]
        y_mm: [mm]
        who: Person who sent it, by his name in the store; empty where nobody was signed in.
    """

    id: str
    at: str
    note: str
    x_mm: float | None
    y_mm: float | None
    who: str = ""


@dataclass(frozen=True, slots=True)
class Delivery:
    """What became of something that was sent.

    Attributes:
        rev: The revision in which it stands.
        repeated: Whether it had come before.
    """

    rev: int
    repeated: bool


@dataclass(frozen=True, slots=True)
class Operated:
    """What became of operations that were sent.

    Attributes:
        rev: The revision of the job that the sender knows with the answer.
        repeated: Whether they had come before.
        document: The job document, where it is not what the sender has himself; None where it is.
    """

    rev: int
    repeated: bool
    document: str | None


@dataclass(frozen=True, slots=True)
class ClashRow:
    """Something that was sent and could not be done, until a person picks.

    Attributes:
        id: Its name.
        at: When it came, UTC.
        rev: The revision in which it arose.
        note: What was meant, in a few words of the sender.
        body: Its kind, the operation, what stands in the document, what was sent, and who changed it meanwhile.
    """

    id: str
    at: str
    rev: int
    note: str
    body: dict[str, Any]


@dataclass(frozen=True, slots=True)
class Contents:
    """How much a store holds.

    Attributes:
        jobs: Jobs, those in the archive among them.
        revisions: Revisions of all jobs.
        photos: Photos of all jobs.
        size_bytes: Size of the file. [bytes]
    """

    jobs: int
    revisions: int
    photos: int
    size_bytes: int


@dataclass(frozen=True, slots=True)
class Restored:
    """What became of a store and a backup.

    Attributes:
        contents: What the store holds now.
        aside: Where the store as it was is kept; None where there was none.
    """

    contents: Contents
    aside: Path | None


class UnknownJob(LookupError):  # noqa: N818 - reported as it is
    """No such job is kept here."""


class NotDeletedError(Exception):
    """A job is removed for good only after it was deleted."""

    def __init__(self) -> None:
        """Say what to do."""
        super().__init__("Delete this job first: then it can be removed for good.")


class StaleRevision(Exception):  # noqa: N818 - reported as it is
    """Another change came first; carries the job as it stands."""

    def __init__(self, kept: Kept) -> None:
        """Keep the job as it stands."""
        super().__init__(f"revision {kept.rev} came first")
        self.kept = kept


class KeyUsedError(Exception):
    """The key of a save belongs to another version of the job."""

    def __init__(self) -> None:
        """Say what to do."""
        super().__init__("The key of this save was used for another version of the job: save it under a new key.")
