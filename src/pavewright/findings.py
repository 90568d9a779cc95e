"""Findings: what the program noticed on a job, told in plain words with place, value and limit.

A finding is never an error of the program. It says where something breaks a rule or needs a look, how far it is off in
millimetres, which figure decided it, and the ways out, cheapest first.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
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
class FieldChange:
    """A field of the job document with the value that it is given by a way out.

    Attributes:
        path: Where the field stands, parts joined by dots ("areas.0.fall.one_in").
            One past the end of a list adds to it.
        value: What it becomes; None where it is left open.
    """

    path: str
    value: str | float | bool | None


@dataclass(frozen=True, slots=True)
class Way:
    """A way out: what could be done, and what that changes in the job; nothing where a person has to decide."""

    words: str
    changes: tuple[FieldChange, ...] = ()


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
        changes: What each way out changes in the job document, in the same order; empty where a person has to decide.
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
    changes: tuple[tuple[FieldChange, ...], ...] = ()

    def __post_init__(self) -> None:
        """Give every way out its changes, none where none are known.

        Raises:
            ValueError: changes do not go with the ways out.
        """
        if not self.changes and self.ways_out:
            object.__setattr__(self, "changes", ((),) * len(self.ways_out))
        if len(self.changes) != len(self.ways_out):
            message = f"{self.code} has {len(self.ways_out)} ways out and changes for {len(self.changes)}"
            raise ValueError(message)

    @property
    def ways(self) -> tuple[Way, ...]:
        """The ways out, each with its changes."""
        return tuple(Way(words, changes) for words, changes in zip(self.ways_out, self.changes, strict=True))

    def with_ways(self, ways: Iterable[Way]) -> Finding:
        """Return the finding with these ways out, cheapest first; a sentence said twice is kept once."""
        kept: dict[str, tuple[FieldChange, ...]] = {}
        for way in ways:
            kept.setdefault(way.words, way.changes)
        return replace(self, ways_out=tuple(kept), changes=tuple(kept.values()))


def one_in_within(fall: float, *, flatter: bool) -> float:
    """Return n of 1 in n for a fall, rounded to a hundredth so that the fall is at most, or at least, so steep.

    Args:
        fall: Rise over run, more than nought.
        flatter: Whether rounding may make it flatter only; else steeper only.

    >>> one_in_within(1.0 / 73.456, flatter=True), one_in_within(1.0 / 73.456, flatter=False)
    (73.46, 73.45)
    """
    hundredths = 100.0 / fall
    return (math.ceil(hundredths - _EXACT) if flatter else math.floor(hundredths + _EXACT)) / 100.0


_EXACT = 1e-6
"""A number this near to a whole one is whole."""


def in_order(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return findings with those that say stop first, otherwise in the order in which they came."""
    return tuple(sorted(findings, key=lambda finding: _ORDER[finding.severity]))


def says_stop(findings: Iterable[Finding]) -> bool:
    """Return whether any finding says stop."""
    return any(finding.severity is Severity.STOP for finding in findings)
