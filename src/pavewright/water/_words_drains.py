"""Sentences of findings on drains, outfalls and soakaways, in one place: facts in, words and options out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import worded

if TYPE_CHECKING:
    from pavewright.findings import Option
    from pavewright.rules import Figure
    from pavewright.water._types import DrainCheck, SoakawayCheck
    from pavewright.water._types_parts import PitSize

Said = tuple[str, tuple["Option", ...]]
"""What is said, and what can be done."""


def drain_too_small(check: DrainCheck) -> Said:
    """Say that more water reaches a drain than it takes."""
    words = (
        f"{check.flow_l_s:.2f} l/s reach {check.drain}, which takes {check.takes_l_s:.2f} l/s: the rest runs past it "
        f"or backs up."
    )
    ways = (
        "Give a channel a second outlet in its middle: that halves its length and its flow.",
        "Take a larger grating or a deeper channel.",
        "Add a second gully, or lead part of the paving elsewhere.",
    )
    return words, worded(ways)


def outfall_unknown(name: str) -> str:
    """Say that nobody knows where an outfall goes."""
    return f"Nobody knows where {name} goes. A drain that leads nowhere floods the paving: pour water and look."


def outfall_unseen(name: str) -> str:
    """Say that nobody has seen an outfall run."""
    return f"Nobody has seen water run away at {name}: pour a bucket and look before laying."


def outfall_too_high(name: str, takes_mm: float, inlet: str, lets_out_mm: float) -> Said:
    """Say that water would have to run uphill to an outfall. [mm]."""
    words = (
        f"{name} takes water at {units.metres_text(takes_mm)} m; {inlet} lets it out at "
        f"{units.metres_text(lets_out_mm)} m, which is lower: water would have to run uphill."
    )
    ways = ("Raise the outlet, or find a lower outfall.", "Lay the paving higher, if the damp-proof course allows.")
    return words, worded(ways)


def keep_soakaway_away(name: str, away: Figure) -> str:
    """Say how far a soakaway without a place keeps from a building."""
    return (
        f"Keep the soakaway {name} {away.value:g} m or more from any building and from the road, and "
        f"test the ground first."
    )


def to_sewer(name: str, reaching_m2: float) -> str:
    """Say that soaking away comes before a sewer. [m²]."""
    return (
        f"{reaching_m2:.1f} m² drain to {name}, a sewer: soaking away comes first, a watercourse second. "
        "Ask its owner before connecting."
    )


def rain_not_given(name: str) -> str:
    """Say that a soakaway has no storms to be checked against."""
    return (
        f"{name} cannot be checked against its storms, the rain of the place is not given: enter site.rain, the "
        "five-year hour and its ratio to two days, from a map or a rainfall service."
    )


def no_size(name: str, area_m2: float, longest_mm: float) -> Said:
    """Say that no size can be proposed. [m², mm]."""
    words = (
        f"No size of {name} up to {units.mm_to_m(longest_mm):g} m holds the water of {area_m2:.1f} m² and "
        "is half empty in time."
    )
    return words, worded(("Lead part of the paving elsewhere.", "Find another outfall.", "Test the ground elsewhere."))


def soakaway_too_small(check: SoakawayCheck) -> Said:
    """Say that a soakaway is too small for its worst storm."""
    words = (
        f"{check.outfall} holds {check.available_m3:.2f} m³; {check.area_m2:.1f} m² of paving need "
        f"{check.required_m3:.2f} m³ in the {check.governing_min:g} min storm: "
        f"{check.required_m3 - check.available_m3:.2f} m³ short."
    )
    ways = (
        "Make it longer: length adds storage and side alike.",
        "Fill it with crates in place of stone.",
        "Lead part of the paving to a border or a second soakaway.",
    )
    return words, worded(ways)


def soakaway_slow(check: SoakawayCheck) -> str:
    """Say that a soakaway may still be full when the next storm comes."""
    return f"{check.outfall} takes {check.half_empty_hours:.0f} h to half empty; the next storm may find it full."


def soakaway_takes_too_much(check: SoakawayCheck, limit: Figure) -> str:
    """Say that much paving drains to one soakaway."""
    return f"{check.area_m2:.0f} m² drain to {check.outfall}; {limit.label}: {limit.value:g} m²."


def size_proposed(size: PitSize, area_m2: float) -> str:
    """Say that a size is proposed. [m²]."""
    return (
        f"{size.outfall} has no size of its own: {size.length_mm:g} × {size.width_mm:g} mm, {size.depth_mm:g} mm "
        f"below the inlet, is proposed for the {area_m2:.1f} m² that reach it."
    )


def for_these_storms(check: SoakawayCheck) -> Said:
    """Say that the worst storm may not be among those given."""
    words = (
        f"{check.outfall} is enough for the storms that are given only: the {check.governing_min:g} min storm "
        "needs most, and durations close to it on both sides are not there. Another storm may need more."
    )
    return words, worded(("Enter depths of rain for shorter and longer storms.",))


def too_tight(name: str, rate_m_per_s: float) -> Said:
    """Say that the ground takes too little water. [m/s]."""
    words = f"The ground at {name} takes {rate_m_per_s:.1e} m/s: too tight for a soakaway."
    return words, worded(("Find another outfall.", "Test deeper or elsewhere."))


def filled_too_seldom(name: str, times: int, fills: Figure) -> str:
    """Say that a trial pit was filled too seldom."""
    return f"The trial pit at {name} was filled {times} times: fill it {fills.value:g} times."


def too_near(name: str, lies_m: float, or_m: float | None, what: str, limit: Figure) -> Said:
    """Say that a soakaway lies too near to something, or may do so as it is turned. [m]."""
    tail = "" if or_m is None else f", or {or_m:.2f} m as it is turned"
    words = f"The soakaway {name} lies {lies_m:.2f} m{tail} from {what}; {limit.label}: {limit.value:g} m."
    ways = ("Move the soakaway.", "Spread the water over a border or permeable paving, if the ground allows it there.")
    return words, worded(ways)


def in_groundwater(name: str, above: Figure) -> Said:
    """Say that groundwater may reach a soakaway."""
    words = (
        f"Water stands high in the ground: the base of the soakaway {name} has to lie {above.value:g} m or "
        f"more above it all the year. Look again between November and April."
    )
    return words, worded(("Make it shallower and longer.", "Find another outfall."))


def ground_from_house(fall: Figure) -> str:
    """Say how the ground beside a house falls by the rule of the place."""
    return (
        f"The ground beside the house falls away at 1 in {fall.value:g} ({fall.place}): check with your local "
        f"building department."
    )
