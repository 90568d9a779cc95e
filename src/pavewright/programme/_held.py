"""Why a task does not begin earlier."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable

    from pavewright.job import PlantKind
    from pavewright.programme._keys import StepKey


class HeldKind(StrEnum):
    """What a task waits for last."""

    START = "start"
    TASK = "task"
    GANG = "gang"
    PLANT = "plant"
    PIN = "pin"
    DONE = "done"


@dataclass(frozen=True, slots=True)
class HeldBy:
    """What a task waits for last.

    Attributes:
        kind: The first day of work, a task before it, its gang, a machine, its pin, or the last day shown as done.
        key: The task that has to end first, or that its gang or the machine does before.
        plant: The machine.
    """

    kind: HeldKind
    key: StepKey | None = None
    plant: PlantKind | None = None


def latest(moments: Iterable[tuple[dt.datetime, HeldBy]]) -> tuple[dt.datetime, HeldBy] | None:
    """Return the latest of some moments with what it stands for, the first of those at one time; None of none."""
    found: tuple[dt.datetime, HeldBy] | None = None
    for moment, why in moments:
        if found is None or moment > found[0]:
            found = moment, why
    return found
