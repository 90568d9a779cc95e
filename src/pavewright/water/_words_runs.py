"""Sentences of findings on where water runs, in one place: facts in, words and options out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import worded
from pavewright.job import Beyond
from pavewright.levels import TakerKind
from pavewright.water._words import runs_to

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.findings import Option
    from pavewright.water._types import Catchment, SheetStorm, StormShare

Said = tuple[str, tuple["Option", ...]]
"""What is said, and what can be done."""

_EDGES = {
    TakerKind.FREE_EDGE: "the free edge",
    TakerKind.TIE_IN: "the edge",
    TakerKind.BOUNDARY: "boundary",
    TakerKind.CHANNEL: "channel",
    TakerKind.GULLY: "gully",
}
_SHOWN_M2 = 0.05
"""Less than this is not shown. [m²]"""


def _edge_of(each: Catchment) -> str:
    return f"{_EDGES[each.kind]} {each.to}"


def _amount(each: Catchment) -> str:
    more = f" and {each.from_others_m2:.1f} m² that drain onto it" if each.from_others_m2 >= _SHOWN_M2 else ""
    return f"{each.area_m2:.1f} m² of {each.area}{more} ({each.whole_l_s:.2f} l/s)"


def level_surface(area: str) -> Said:
    """Say that an area has no fall."""
    return f"{area} is level: water stands on it.", worded(("Give it a fall.",))


def to_wall(each: Catchment, *, house: bool) -> str:
    """Say that water runs to a wall and has nowhere to go."""
    return f"{_amount(each)} run to wall {each.to}{' of the house' if house else ''} and have nowhere to go."


def no_outfall(each: Catchment) -> str:
    """Say that no outfall is named for what takes the water."""
    return f"{_amount(each)} run to {_edge_of(each)}, and no outfall is named for it."


def onto_own_ground(each: Catchment) -> str:
    """Say that water over a line inside the owner's ground is followed no further than the border named for it."""
    taken = (
        "no border or lawn is named that takes it" if each.outfall is None else f"{each.outfall} is taken to receive it"
    )
    return (
        f"{_amount(each)} run over {_edge_of(each)} onto ground of your own; {taken}. Past the line nothing was looked "
        "at: see that it does not run on to a house, a neighbour or the road."
    )


def held_by_kerb(each: Catchment) -> str:
    """Say that a kerb holds water and nothing at its low end takes it."""
    return f"{_amount(each)} collect along the kerb {each.to} and no gully or channel stands at its low end."


def over_boundary(each: Catchment) -> str:
    """Say that water runs onto a road, a footway or a neighbour's ground."""
    whose = "the road or footway" if each.beyond is Beyond.HIGHWAY else "the neighbour"
    return f"{_amount(each)} run over {_edge_of(each)} to {whose}."


def onto_own_paving(each: Catchment) -> str:
    """Say that water runs onto existing paving of the owner's and is not followed there."""
    return (
        f"{_amount(each)} run over the edge {each.to} onto existing paving of your own: look where that sends it. It "
        "is not followed further here."
    )


def beyond_not_known(each: Catchment) -> str:
    """Ask whose the existing paving is that water runs onto."""
    return (
        f"{_amount(each)} run over the edge {each.to} onto existing paving, and nothing says whose it is: a footway or "
        "a neighbour may not get it. Say what lies beyond."
    )


def beyond_disputed(each: Catchment) -> str:
    """Say that two entries contradict each other on what lies beyond an edge."""
    return (
        f"{_amount(each)} run over the edge {each.to}, which is said to be followed by ground of your own; boundary "
        f"{each.disputed_by} with the road or a neighbour runs along the same edge. One of the two is wrong."
    )


def front_garden(paved_m2: float, hard_m2: float) -> Said:
    """Say that paving at the front likely needs permission. [m²]."""
    words = (
        f"{paved_m2:.1f} m² are paved at the front and {hard_m2:.1f} m² of it do not drain to ground on the plot: "
        "planning permission is likely needed. Ask the council."
    )
    ways = ("Drain to a border, a lawn or a soakaway on the plot.", "Use permeable paving.", "Apply for permission.")
    return words, worded(ways)


def runs_in_circle(made: Catchment, joint_mm: float) -> Said:
    """Say that two areas send water to each other. [mm]."""
    words = (
        f"{made.area_m2:.1f} m² of {made.area} run on to {made.to}, which sends the water back: it collects along the "
        f"joint between them at {units.metres_text(joint_mm)} m and no gully or channel stands at its low end."
    )
    ways = (
        "Put a channel along the joint, with an outfall.",
        "Put a gully at the low end of the joint, with an outfall.",
        "Turn one of the two falls.",
    )
    return words, worded(ways)


def edge_below_ground(each: Catchment, higher_mm: float) -> Said:
    """Say that the ground past a free edge stands higher than the paving. [mm]."""
    words = (
        f"{each.area_m2:.1f} m² of {each.area} run to the edge {each.to}, and the ground beyond it stands "
        f"{higher_mm:.0f} mm higher: water stays against it."
    )
    ways = (
        "Grade the ground down and away past the edge.",
        "Put a channel along the edge, with an outfall.",
        "Turn the fall.",
    )
    return words, worded(ways)


def joint_runs_out(made: Sequence[Catchment], fall: float, min_fall: float) -> Said:
    """Say that what two areas send to their joint leaves at its low end, all in one place.

    Args:
        made: What the two areas send to it.
        fall: Fall of the joint. [rise over run]
        min_fall: Fall below which water is slow to clear. [rise over run]
    """
    flow_l_s = sum(each.flow_l_s for each in made)
    parts = " and ".join(f"{each.area_m2:.1f} m² of {each.area}" for each in made)
    slow = f" It falls {units.fall_text(fall)}, and flatter than {units.fall_text(min_fall)} is slow to clear."
    words = (
        f"{parts} ({flow_l_s:.2f} l/s) run to the joint between them, along it, and out at its low end over "
        f"{runs_to(made[0])}: all of it leaves in one place. See that the ground there takes it."
    )
    ways = ("Put a channel along the joint, with an outfall.", "Turn one of the two falls.")
    return words + (slow if fall < min_fall else ""), worded(ways)


def more_over_boundary(share: StormShare, storm: SheetStorm, before_l: float) -> Said:
    """Say that more water runs over a line than before the job. [l]."""
    what = "boundary" if share.kind is TakerKind.BOUNDARY else "edge"
    words = (
        f"In a storm of {storm.depth_mm:.0f} mm in {storm.minutes:g} min, {share.after_l:.0f} l run over {what} "
        f"{share.to}; before the job it was about {before_l:.0f} l. Water of yours may not be sent to a neighbour or a "
        "road."
    )
    ways = (
        "Put a channel along it, with an outfall on this side.",
        "Turn the fall.",
        "Leave a border that soaks.",
    )
    return words, worded(ways)
