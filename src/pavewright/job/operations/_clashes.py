"""What is kept where an operation cannot be done: both values, for a person to pick."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from pavewright.job.operations._values import MISSING

if TYPE_CHECKING:
    from pavewright.job.operations._values import Operation


class ClashKind(StrEnum):
    """Why an operation could not be done."""

    VALUE = "value"
    """Another value stands there meanwhile."""
    GONE = "gone"
    """What it belongs to is not there any more."""
    CHANGED = "changed"
    """What it removes was changed meanwhile."""
    TAKEN = "taken"
    """Something else stands where there is room for one."""
    DELIVERY = "delivery"
    """Readings that the job cannot take any more."""


@dataclass(frozen=True, slots=True)
class Clash:
    """An operation that was not done, with what stands in the document instead.

    Attributes:
        kind: Why it was not done.
        operation: As it would have been done in the document.
        ours: What stands in the document; MISSING where nothing does.
        theirs: What the sender wanted there; MISSING where it was to go.
    """

    kind: ClashKind
    operation: Operation
    ours: Any = MISSING
    theirs: Any = MISSING
