"""The sentences of the findings of units and beds as they are laid, in one place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.bedding._advice import Why
from pavewright.bedding._bed_use import Counted
from pavewright.bedding._codes import Code
from pavewright.writing import Sentence

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.bedding._bed_use import BedSoFar, BedUse
    from pavewright.bedding._lips import LipBetween
    from pavewright.rules import Figure

FINDINGS: Mapping[Code, Sentence] = {
    Code.TO_RE_BED: Sentence("{area}, piece {piece}: lift it and bed it again, {why}."),
    Code.LIP: Sentence(
        "{area}: piece {first} stands {lip} mm {way} piece {second}, give or take {doubt}; {limit} mm are allowed."
    ),
    Code.BED_THICK: Sentence(
        "The bed of {area} runs thick: {low} to {high} mm by the {counted} used, {planned} planned. Stop and measure "
        "it; at this rate the rest takes {fewer} to {more} {counted} more than planned."
    ),
    Code.BED_THIN: Sentence(
        "The bed of {area} runs thin: {low} to {high} mm by the {counted} used, {planned} planned. Lift a unit and "
        "look at its back: a full bed, no hollows?"
    ),
    Code.UNMATCHED: Sentence(
        "{area}: {count} units were read where the laying plan has no piece now. They are kept; read them again."
    ),
}
"""What is said of each finding, in English."""

WHY: Mapping[Why, str] = {
    Why.ROCKS: "it rocks",
    Why.TWIST: "its corners are twisted and no tap takes that out",
    Why.LOW: "a corner is too low",
    Why.HIGH: "it stands too high to be tapped down",
    Why.THIN: "its bed is too thin",
}
MARKED = "it was marked so on site"
COUNTED: Mapping[Counted, str] = {Counted.BAG: "bags", Counted.BARROW: "barrows"}


def to_re_bed(area: str, piece: int, why: Sequence[Why]) -> str:
    """Say that a unit is to be bedded again, and why."""
    reasons = "; ".join(WHY[each] for each in why) or MARKED
    return FINDINGS[Code.TO_RE_BED](area=area, piece=str(piece), why=reasons)


def lip(area: str, read: LipBetween, limit: Figure, doubt_mm: float) -> str:
    """Say that a step between two units is too large."""
    return FINDINGS[Code.LIP](
        area=area,
        first=str(read.first),
        lip=f"{abs(read.lip_mm):.1f}",
        way="over" if read.lip_mm > 0.0 else "under",
        second=str(read.second),
        doubt=f"{doubt_mm:.1f}",
        limit=f"{limit.value:g}",
    )


def bed(code: Code, use: BedUse, found: BedSoFar) -> str:
    """Say that a bed runs thick or thin."""
    assert found.low_mm is not None  # noqa: S101 - a bed that runs thick or thin is known
    assert found.high_mm is not None  # noqa: S101
    said = {"area": use.area, "low": f"{found.low_mm:.0f}", "high": f"{found.high_mm:.0f}"}
    said |= {"planned": f"{use.thickness_mm:.0f}", "counted": COUNTED[use.counted]}
    if code is Code.BED_THICK:
        said |= {"fewer": f"{found.more_low:.0f}", "more": f"{found.more_high:.0f}"}
    return FINDINGS[code](**said)


def unmatched(area: str, count: int) -> str:
    """Say that units were read where no piece is planned now."""
    return FINDINGS[Code.UNMATCHED](area=area, count=str(count))
