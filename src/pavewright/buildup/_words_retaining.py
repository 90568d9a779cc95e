"""The sentences on edges that stand high, on drops, and on ground beyond, in one place: facts in, sentences out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.buildup._types import Beyond, Remedy
from pavewright.findings import worded
from pavewright.job import EdgeRestraint

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.buildup._types import LowWall, OpenEdge, RetainedEdge
    from pavewright.buildup._words import Said

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


def edge_stands_high(edge: RetainedEdge) -> str:
    """Say how high an edge stands, what holds it, and what it takes."""
    below = {
        Beyond.GROUND: "the ground beyond",
        Beyond.AREA: edge.other,
        Beyond.BEHIND_WALL: f"the ground behind {f'wall {edge.other}' if edge.other else 'the wall'}",
    }[edge.beyond]
    return (
        f"{edge.area} stands up to {edge.drop_mm:.0f} mm above {below} along {_length(edge.length_mm)} of side "
        f"{edge.side}. It is held by {_HELD_WITH[edge.restraint]}{_to(edge)}. {_takes(edge)}"
    )


def _to(edge: RetainedEdge) -> str:
    """Return up to what drop a restraint holds, where it is one that is known."""
    if edge.restraint in {EdgeRestraint.NONE, EdgeRestraint.WALL}:
        return ""
    return f", good for {edge.limit_mm:.0f} mm" if edge.limit_mm > 0.0 else ""


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
    section = "" if edge.wall is None else _section(edge.wall)
    if edge.restraint is EdgeRestraint.RETAINING:
        return (
            f"It is measured as a wall{section}, and priced as far as its items have prices. "
            "Look at the ground under its footing first."
        )
    return (
        f"It needs a low wall that retains{section}. That is measured, and priced as far as its items have prices. "
        "Look at the ground under its footing first."
    )


def _section(wall: LowWall) -> str:
    return (
        f" of {wall.thickness_mm:g} mm on a footing of {wall.footing_width_mm:g} × {wall.footing_depth_mm:g} mm, "
        f"its top {wall.below_ground_mm:g} mm below the lower ground, with clean stone and weep holes behind: "
        f"{wall.face_m2:.1f} m² of face"
    )


def lay_lower(edge: RetainedEdge) -> str:
    """Say by how much the area would have to lie lower for its edge to hold."""
    return f"Lay {edge.area} {edge.drop_mm - edge.limit_mm:.0f} mm lower there, or split it with a step."


def bank_up_to_edge() -> str:
    """Say that the ground beyond may be brought up."""
    return "Bring the ground beyond up to the edge in a bank that stands by itself, where there is room for it."


def engineered_wall() -> str:
    """Say that an engineer designs the wall."""
    return "Have an engineer design a wall, and enter the side as engineered."


def look_at_wall() -> str:
    """Say who looks at a wall that is there."""
    return "Have somebody who knows walls look at it."


def wall_before_wall() -> str:
    """Say that a wall of its own may stand before one that is there."""
    return "Build a wall of its own before it."


def kerb_along_side() -> str:
    """Say that a kerb may hold the side."""
    return "Set a kerb along the side."


def low_wall_along_side() -> str:
    """Say that a low wall may hold the side."""
    return "Build a low retaining wall along the side."


def guard_needed(edge: RetainedEdge, height_mm: float, gap_mm: float) -> Said:
    """Say how far somebody may fall, and what guards against it. [mm]."""
    wheels = " Where cars stand, something that stops a wheel as well." if edge.surcharge else ""
    words = (
        f"Somebody may fall {edge.fall_mm:.0f} mm over side {edge.side} of {edge.area}: {_length(edge.guarded_mm)} of "
        f"guard at least {height_mm:g} mm high, with no gap that a ball of {gap_mm:g} mm passes and nothing to "
        f"climb on.{wheels} Local rules may ask for it at a lower drop."
    )
    ways = ("Put a guard along it.", "Plant a wide bed that keeps people from the edge, where local rules accept it.")
    return words, worded(ways)


def ground_beyond_unknown(area: str, unread: Sequence[OpenEdge]) -> Said:
    """Ask how high the ground lies beyond sides past the spot levels."""
    named = ", ".join(f"{each.side} ({_length(each.length_mm)})" for each in unread)
    words = (
        f"How high is the ground beyond {area} at {named}? Nobody has read it there, so whether the edge needs "
        f"something that retains, or a bank stands above it, is not known."
    )
    ways = ("Read the staff a foot or two beyond the edge, at both ends of each side and wherever the ground breaks.",)
    return words, worded(ways)


def bank_above(bank: OpenEdge, stands_mm: float, *, engineered: bool) -> Said:
    """Say how far the ground beyond stands over the paving. [mm]."""
    more = " An engineer designs what holds so much." if engineered else ""
    words = (
        f"The ground beyond side {bank.side} of {bank.area} stands up to {stands_mm:.0f} mm over the paving along "
        f"{_length(bank.length_mm)}. What holds it, or the bank that it is cut to, is not in "
        f"this price.{more}"
    )
    return words, worded(("Cut the ground back to a bank that stands by itself.", "Build a wall that retains it."))
