"""What is said of edges that stand high, of drops that hurt, of ground beyond that nobody knows, and of banks above."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.buildup._codes import Code
from pavewright.buildup._edges import held_with
from pavewright.buildup._types import Beyond, Remedy
from pavewright.findings import Finding, Option, Severity, worded
from pavewright.job import EdgeRestraint

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.buildup._figures import EdgeFigures
    from pavewright.buildup._types import OpenEdge, RetainedEdge
    from pavewright.rules import Figure
    from pavewright.survey import PlanArea

_HELD_WITH = {
    EdgeRestraint.NONE: "nothing that retains",
    EdgeRestraint.HAUNCH: "a haunch",
    EdgeRestraint.EDGING: "an edging",
    EdgeRestraint.KERB: "a kerb",
    EdgeRestraint.WALL: "a wall of which nobody knows what it was built to hold",
    EdgeRestraint.RETAINING: "a low retaining wall",
    EdgeRestraint.ENGINEERED: "an engineer's wall",
}


def _length(length_mm: float) -> str:
    return f"{units.mm_to_m(length_mm):.1f} m"


def edge_finding(edge: RetainedEdge, area: PlanArea, known: EdgeFigures) -> Finding:
    """Return what an edge that stands high takes."""
    below = {
        Beyond.GROUND: "the ground beyond",
        Beyond.AREA: edge.other,
        Beyond.BEHIND_WALL: f"the ground behind {f'wall {edge.other}' if edge.other else 'the wall'}",
    }[edge.beyond]
    words = (
        f"{edge.area} stands up to {edge.drop_mm:.0f} mm above {below} along {_length(edge.length_mm)} of side "
        f"{edge.side}. It is held by {_HELD_WITH[edge.restraint]}{_to(edge)}. {_takes(edge)}"
    )
    return Finding(
        Code.EDGE_STANDS_HIGH,
        _severity(edge),
        f"area {edge.area}, side {edge.side}",
        words,
        edge.drop_mm,
        edge.limit_mm,
        "mm",
        _figure(edge, known),
        at_mm=edge.at_mm,
    ).with_options(_ways(edge, area))


def _to(edge: RetainedEdge) -> str:
    """Return up to what drop a restraint holds, where it is one that is known."""
    if edge.restraint in {EdgeRestraint.NONE, EdgeRestraint.WALL}:
        return ""
    return f", good for {edge.limit_mm:.0f} mm" if edge.limit_mm > 0.0 else ""


def _severity(edge: RetainedEdge) -> Severity:
    if edge.restraint is EdgeRestraint.ENGINEERED or edge.remedy is Remedy.KERB:
        return Severity.CHECK
    if edge.remedy is Remedy.LOW_WALL and edge.restraint in {EdgeRestraint.RETAINING, EdgeRestraint.WALL}:
        return Severity.CHECK
    return Severity.STOP


def _takes(edge: RetainedEdge) -> str:
    """Return what the stretch takes, in words."""
    if edge.restraint is EdgeRestraint.ENGINEERED:
        return "Have the engineer's drawing on site; its price is your own, and none is in this one."
    if edge.remedy is Remedy.ENGINEER:
        why = (
            "Vehicles stand above it and load it, so an engineer designs it at any height"
            if edge.surcharge
            else "So high a drop needs a wall that an engineer designs"
        )
        return f"{why}. It is not in this price."
    if edge.restraint is EdgeRestraint.WALL:
        return "Ask what the wall was built for and look at its footing before anything leans on it."
    if edge.remedy is Remedy.KERB:
        return "A kerb with its haunch holds that much."
    wall = edge.wall
    section = (
        ""
        if wall is None
        else f" of {wall.thickness_mm:g} mm on a footing of {wall.footing_width_mm:g} × {wall.footing_depth_mm:g} mm, "
        f"its top {wall.below_ground_mm:g} mm below the lower ground, with clean stone and weep holes behind: "
        f"{wall.face_m2:.1f} m² of face"
    )
    if edge.restraint is EdgeRestraint.RETAINING:
        return f"It is measured as a wall{section}, and priced as far as its items have prices. "
        "Look at the ground under its footing first."
    return f"It needs a low wall that retains{section}. That is measured, and priced as far as its items have prices."


def _figure(edge: RetainedEdge, known: EdgeFigures) -> Figure:
    if edge.remedy is Remedy.ENGINEER:
        return known.engineer_above
    return known.retains.get(edge.restraint, known.kerb)


def _ways(edge: RetainedEdge, area: PlanArea) -> tuple[Option, ...]:
    if edge.restraint is EdgeRestraint.ENGINEERED:
        return ()
    over = edge.drop_mm - edge.limit_mm
    lower = Option(f"Lay {edge.area} {over:.0f} mm lower there, or split it with a step.")
    bank = Option("Bring the ground beyond up to the edge in a bank that stands by itself, where there is room for it.")
    engineer = Option(
        "Have an engineer design a wall, and enter the side as engineered.",
        held_with(area, [edge.corner], EdgeRestraint.ENGINEERED),
    )
    if edge.beyond is Beyond.BEHIND_WALL:
        return (
            Option("Have somebody who knows walls look at it."),
            Option("Build a wall of its own before it."),
            lower,
        )
    fill = () if edge.beyond is Beyond.AREA else (bank,)
    if edge.remedy is Remedy.ENGINEER:
        return (lower, *fill, engineer)
    if edge.restraint is EdgeRestraint.RETAINING:
        return ()
    if edge.remedy is Remedy.KERB:
        kerb = Option("Set a kerb along the side.", held_with(area, [edge.corner], EdgeRestraint.KERB))
        return (*fill, kerb, lower)
    wall = Option("Build a low retaining wall along the side.", held_with(area, [edge.corner], EdgeRestraint.RETAINING))
    return (wall, lower, *fill)


def guard_finding(edge: RetainedEdge, known: EdgeFigures) -> Finding:
    """Return that people are guarded against a fall, or wheels against running over."""
    limit, height, gap = known.guard_drop, known.guard_height, known.guard_gap
    wheels = " Where cars stand, something that stops a wheel as well." if edge.surcharge else ""
    words = (
        f"Somebody may fall {edge.fall_mm:.0f} mm over side {edge.side} of {edge.area}: {_length(edge.guarded_mm)} of "
        f"guard at least {height.value:g} mm high, with no gap that a ball of {gap.value:g} mm passes and nothing to "
        f"climb on.{wheels} Local rules may ask for it at a lower drop."
    )
    ways = ("Put a guard along it.", "Plant a wide bed that keeps people from the edge, where local rules accept it.")
    return Finding(
        Code.GUARD_NEEDED,
        Severity.CHECK,
        f"area {edge.area}, side {edge.side}",
        words,
        edge.fall_mm,
        limit.value,
        "mm",
        limit,
        options=worded(ways),
        at_mm=edge.at_mm,
    )


def unknown_finding(unread: Sequence[OpenEdge], area: PlanArea, known: EdgeFigures) -> tuple[Finding, ...]:
    """Return the question how high the ground lies beyond sides past the spot levels."""
    if not unread:
        return ()
    named = ", ".join(f"{each.side} ({_length(each.length_mm)})" for each in unread)
    words = (
        f"How high is the ground beyond {area.name} at {named}? Nobody has read it there, so whether the edge needs "
        f"something that retains, or a bank stands above it, is not known."
    )
    ways = ("Read the staff a foot or two beyond the edge, at both ends of each side and wherever the ground breaks.",)
    total = sum(each.length_mm for each in unread)
    found = Finding(
        Code.GROUND_BEYOND_UNKNOWN,
        Severity.CHECK,
        f"area {area.name}",
        words,
        total,
        0.0,
        "mm",
        known.known_within,
        options=worded(ways),
    )
    return (found,)


def bank_finding(bank: OpenEdge, known: EdgeFigures) -> Finding:
    """Return that the ground beyond stands over the paving by more than an edge holds back."""
    limit = known.kerb
    stands = bank.stands_mm or 0.0
    more = " An engineer designs what holds so much." if stands > known.engineer_above.value else ""
    words = (
        f"The ground beyond side {bank.side} of {bank.area} stands up to {stands:.0f} mm over the paving along "
        f"{_length(bank.length_mm)}. What holds it, or the bank that it is cut to, is not in "
        f"this price.{more}"
    )
    ways = ("Cut the ground back to a bank that stands by itself.", "Build a wall that retains it.")
    return Finding(
        Code.BANK_ABOVE,
        Severity.CHECK,
        f"area {bank.area}, side {bank.side}",
        words,
        stands,
        limit.value,
        "mm",
        limit,
        options=worded(ways),
        at_mm=bank.at_mm,
    )
