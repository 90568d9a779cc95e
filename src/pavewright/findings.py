"""Findings: what the program noticed on a job, told in plain words with place, value and limit.

A finding is never an error of the program. It says where something breaks a rule or needs a look, how far it is off in
millimetres, which figure decided it, and the ways out, cheapest first.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.rules import Figure


class Severity(StrEnum):
    """How much a finding matters: stop before going on, check on site, or note."""

    STOP = "stop"
    CHECK = "check"
    NOTE = "note"


_ORDER = {Severity.STOP: 0, Severity.CHECK: 1, Severity.NOTE: 2}


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing noticed.

    Attributes:
        code: Stable short name, ``room.thing``, for tests and machines.
        severity: Stop, check or note.
        place: Where, in the job's own names ("wall House rear, 2.40 m from A").
        message: A sentence for a person, millimetres and plain words.
        value: What was found, if it is a number.
        limit: What it was held against, if it is a number.
        unit: Unit of value and limit.
        figure: The rulebook figure that decided, with its source and status.
        chain: The levels that lead to a clash, one sentence each, in order.
        ways_out: What could be done, cheapest first.
        at_mm: Place on the plan for the drawing, x and y. [mm]
    """

    code: str
    severity: Severity
    place: str
    message: str
    value: float | None = None
    limit: float | None = None
    unit: str = ""
    figure: Figure | None = None
    chain: tuple[str, ...] = ()
    ways_out: tuple[str, ...] = ()
    at_mm: tuple[float, float] | None = None


def in_order(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return findings with those that say stop first, otherwise in the order in which they came."""
    return tuple(sorted(findings, key=lambda finding: _ORDER[finding.severity]))


def says_stop(findings: Iterable[Finding]) -> bool:
    """Return whether any finding says stop."""
    return any(finding.severity is Severity.STOP for finding in findings)
