"""What is said of edges that stand high, of drops that hurt, of ground beyond that nobody knows, and of banks above."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.buildup import _words_retaining as words
from pavewright.buildup._codes import Code
from pavewright.buildup._edges import held_with
from pavewright.buildup._types import Beyond, Remedy
from pavewright.findings import Finding, Option, Severity
from pavewright.job import EdgeRestraint

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.buildup._figures import EdgeFigures
    from pavewright.buildup._types import OpenEdge, RetainedEdge
    from pavewright.rules import Figure
    from pavewright.survey import PlanArea


def edge_finding(edge: RetainedEdge, area: PlanArea, known: EdgeFigures) -> Finding:
    """Return what an edge that stands high takes."""
    return Finding(
        Code.EDGE_STANDS_HIGH,
        _severity(edge),
        f"area {edge.area}, side {edge.side}",
        words.edge_stands_high(edge),
        edge.drop_mm,
        edge.limit_mm,
        "mm",
        _figure(edge, known),
        at_mm=edge.at_mm,
    ).with_options(_ways(edge, area))


def _severity(edge: RetainedEdge) -> Severity:
    if edge.restraint is EdgeRestraint.ENGINEERED or edge.remedy is Remedy.KERB:
        return Severity.CHECK
    if edge.remedy is Remedy.LOW_WALL and edge.restraint in {EdgeRestraint.RETAINING, EdgeRestraint.WALL}:
        return Severity.CHECK
    return Severity.STOP


def _figure(edge: RetainedEdge, known: EdgeFigures) -> Figure:
    if edge.remedy is Remedy.ENGINEER:
        return known.engineer_above
    return known.retains.get(edge.restraint, known.kerb)


def _ways(edge: RetainedEdge, area: PlanArea) -> tuple[Option, ...]:
    if edge.restraint is EdgeRestraint.ENGINEERED:
        return ()
    lower = Option(words.lay_lower(edge))
    bank = Option(words.bank_up_to_edge())
    engineer = Option(words.engineered_wall(), held_with(area, [edge.corner], EdgeRestraint.ENGINEERED))
    if edge.beyond is Beyond.BEHIND_WALL:
        return (Option(words.look_at_wall()), Option(words.wall_before_wall()), lower)
    fill = () if edge.beyond is Beyond.AREA else (bank,)
    if edge.remedy is Remedy.ENGINEER:
        return (lower, *fill, engineer)
    if edge.restraint is EdgeRestraint.RETAINING:
        return ()
    if edge.remedy is Remedy.KERB:
        kerb = Option(words.kerb_along_side(), held_with(area, [edge.corner], EdgeRestraint.KERB))
        return (*fill, kerb, lower)
    wall = Option(words.low_wall_along_side(), held_with(area, [edge.corner], EdgeRestraint.RETAINING))
    return (wall, lower, *fill)


def guard_finding(edge: RetainedEdge, known: EdgeFigures) -> Finding:
    """Return that people are guarded against a fall, or wheels against running over."""
    limit = known.guard_drop
    said, options = words.guard_needed(edge, known.guard_height.value, known.guard_gap.value)
    return Finding(
        Code.GUARD_NEEDED,
        Severity.CHECK,
        f"area {edge.area}, side {edge.side}",
        said,
        edge.fall_mm,
        limit.value,
        "mm",
        limit,
        options=options,
        at_mm=edge.at_mm,
    )


def unknown_finding(unread: Sequence[OpenEdge], area: PlanArea, known: EdgeFigures) -> tuple[Finding, ...]:
    """Return the question how high the ground lies beyond sides past the spot levels."""
    if not unread:
        return ()
    said, options = words.ground_beyond_unknown(area.name, unread)
    total = sum(each.length_mm for each in unread)
    found = Finding(
        Code.GROUND_BEYOND_UNKNOWN,
        Severity.CHECK,
        f"area {area.name}",
        said,
        total,
        0.0,
        "mm",
        known.known_within,
        options=options,
    )
    return (found,)


def bank_finding(bank: OpenEdge, known: EdgeFigures) -> Finding:
    """Return that the ground beyond stands over the paving by more than an edge holds back."""
    limit = known.kerb
    stands = bank.stands_mm or 0.0
    said, options = words.bank_above(bank, stands, engineered=stands > known.engineer_above.value)
    return Finding(
        Code.BANK_ABOVE,
        Severity.CHECK,
        f"area {bank.area}, side {bank.side}",
        said,
        stands,
        limit.value,
        "mm",
        limit,
        options=options,
        at_mm=bank.at_mm,
    )
