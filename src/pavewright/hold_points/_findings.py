"""What is noticed at hold points that were read."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.as_laid import Verdict
from pavewright.findings import Finding, Severity
from pavewright.hold_points import _words as words
from pavewright.hold_points._codes import Code
from pavewright.hold_points._drains import DrainStanding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.hold_points._types import Hold, PlaceRead


def hold_findings(hold: Hold, above_mm: float) -> Iterator[Finding]:
    """Give what is noticed at one hold point.

    Args:
        hold: The hold point.
        above_mm: Planned thickness of the layer right above the surface that is read; zero where none is known. [mm]
    """
    if hold.drain_read is not None:
        yield from _drain(hold)
        return
    place = words.surface(hold)
    failed = [each for each in hold.read if each.verdict is Verdict.FAILS]
    open_ones = [each for each in hold.read if each.verdict is Verdict.INCONCLUSIVE]
    if failed:
        worst = max(failed, key=lambda each: max(abs(each.off_mm or 0.0), abs(each.off_line_mm or 0.0)))
        said, options = words.fails(hold, len(failed), worst)
        limit = None if hold.limit is None else hold.limit.below if (worst.off_mm or 0.0) < 0.0 else hold.limit.above
        off = None if worst.off_mm is None else abs(worst.off_mm)
        limit_mm = None if limit is None else limit.value
        yield Finding(
            Code.FAILS, Severity.CHECK, place, said, off, limit_mm, "mm", limit, options=options, at_mm=worst.at
        )
    elif open_ones:
        said = words.not_decided(hold, len(open_ones))
        yield Finding(Code.NOT_DECIDED, Severity.NOTE, place, said, at_mm=open_ones[0].at)
    yield from _thin(hold, above_mm, place)


def _thin(hold: Hold, above_mm: float, place: str) -> Iterator[Finding]:
    """Give that a high place leaves less than half of the layer above it."""
    highest: PlaceRead | None = max(
        (each for each in hold.read if each.off_mm is not None), key=lambda each: each.off_mm or 0.0, default=None
    )
    if highest is None or highest.off_mm is None or above_mm <= 0.0:
        return
    left = above_mm - highest.off_mm
    if left < above_mm / 2.0:
        said = words.thin_bed(hold, max(left, 0.0), above_mm, highest.label)
        yield Finding(Code.THIN_BED, Severity.CHECK, place, said, left, above_mm, "mm", at_mm=highest.at)


def _drain(hold: Hold) -> Iterator[Finding]:
    read = hold.drain_read
    if read is None:
        return
    back = read.back_falls > 0
    flat = read.fall_verdict is Verdict.FAILS and not back
    leaks = read.standing in {DrainStanding.LEAKS, DrainStanding.RUNS_NOT}
    if back or flat or leaks:
        said, options = words.drain_fails(hold, back=back, flat=flat, leaks=leaks)
        yield Finding(Code.DRAIN_FAILS, Severity.CHECK, words.surface(hold), said, options=options)
