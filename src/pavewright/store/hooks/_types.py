"""What the hooks are made of."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Event(StrEnum):
    """What another program can be told of."""

    JOB_CHANGED = "job.changed"
    QUOTATION_OPENED = "quotation.opened"
    QUOTATION_ACCEPTED = "quotation.accepted"
    QUESTION_ASKED = "quotation.question"
    PAID = "job.paid"
    RUN_FINISHED = "run.finished"


class MessageState(StrEnum):
    """How a message stands."""

    WAITING = "waiting"
    DELIVERED = "delivered"
    GIVEN_UP = "given_up"


@dataclass(frozen=True, slots=True)
class Hook:
    """An address of another program.

    Attributes:
        id: Its name in the store.
        name: What people call it.
        address: Where it is told.
        events: Of what.
        made: When it was entered, UTC.
        rotating: Whether the secret before is still signed with.
    """

    id: str
    name: str
    address: str
    events: tuple[Event, ...]
    made: str
    rotating: bool


@dataclass(frozen=True, slots=True)
class Message:
    """What is told once.

    Attributes:
        id: Its name; the same at every try.
        event: What happened.
        made: When, UTC.
        state: How it stands.
        due: When it is tried next, UTC; None where it is done or given up.
        tries: How often it was tried.
        told: What came of the last try, in a few words.
    """

    id: str
    event: str
    made: str
    state: MessageState
    due: str | None
    tries: int
    told: str


@dataclass(frozen=True, slots=True)
class Due:
    """A message that is to be told now.

    Attributes:
        id: Its name.
        address: Where.
        body: What.
        secrets: Those that sign it.
        tries: How often it was tried.
        made: When it happened, UTC.
        due: From when on it is to be told, UTC.
    """

    id: str
    address: str
    body: str
    secrets: tuple[str, ...]
    tries: int
    made: str
    due: str
