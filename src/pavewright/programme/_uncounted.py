"""Work of which nobody has said how long it takes: neither the dates nor the price hold hours for it."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.cost import TaskKind
from pavewright.programme._keys import WaitKind

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.programme._steps import Step


class Uncounted(StrEnum):
    """Work without known hours."""

    REMOVAL = "removal"
    DRAIN_TEST = "drain_test"
    SNAGGING = "snagging"


_WITH = {
    Uncounted.REMOVAL: TaskKind.DIG,
    Uncounted.DRAIN_TEST: WaitKind.HOLD_DRAINS,
    Uncounted.SNAGGING: WaitKind.HOLD_SNAG,
}
"""What of the programme comes with each."""


def uncounted(steps: Iterable[Step]) -> tuple[Uncounted, ...]:
    """Return the work without known hours that may come with what is planned.

    The document has no place for old paving, and the rulebook no hours for it, for testing drains or for snags.
    """
    kinds = {step.key.kind for step in steps}
    return tuple(each for each, kind in _WITH.items() if kind in kinds)


_WORDS = {
    Uncounted.REMOVAL: "taking up old paving and edging, where there is any",
    Uncounted.DRAIN_TEST: "the crew's time to test the drains",
    Uncounted.SNAGGING: "putting right what is found at the end",
}


def uncounted_words(found: Iterable[Uncounted]) -> str:
    """Return what has no hours in a sentence; empty where there is none."""
    names = [_WORDS[each] for each in found]
    if not names:
        return ""
    return (
        f"No hours are known, and neither the dates nor the price hold any, for: {'; '.join(names)}. "
        f"Ask, and allow for them."
    )
