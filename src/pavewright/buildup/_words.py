"""The sentences on ground, use, unit and edges, in one place: each takes facts and gives what is said, with options."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import worded

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.findings import Option
    from pavewright.rules import Figure

Said = tuple[str, tuple["Option", ...]]
"""What is said, and what can be done."""


def soil_unknown() -> Said:
    """Say that nobody has looked at the soil."""
    words = "Nobody has looked at the soil: it is taken as soft. Dig a trial hole below formation and name it."
    return words, worded(("Dig a trial hole.", "Keep the thicker build-up."))


def ground_too_weak(cbr_percent: float, limit: Figure) -> Said:
    """Say that no table of thicknesses holds on such ground. [%]."""
    words = (
        f"The ground is weak (bearing ratio {cbr_percent:g} %): below {limit.value:g} % no table of thicknesses holds, "
        "and the ground needs a design of its own."
    )
    return words, worded(
        (
            "Measure the bearing ratio at formation.",
            "Dig soft ground out and replace it with compacted stone.",
            "Ask an engineer.",
        )
    )


def clay_moves() -> Said:
    """Say how clay moves with the seasons."""
    words = (
        "Clay shrinks when it dries and swells when it is wet again: what is laid on baked clay may lift in winter. "
        "Cover formation the same day, do not lay on cracked clay, and read levels again after a winter."
    )
    return words, ()


def water_table_high() -> Said:
    """Say that water stands high in the ground."""
    words = "Water stands high in the ground: formation may be soft, and a soakaway may not empty."
    return words, worded(("Dig in a dry spell and cover formation the same day.", "Drain formation to an outfall."))


def rigid_on_unbound(area: str) -> Said:
    """Say that mortar over loose stone does not bear wheels."""
    words = f"{area} is laid in mortar over loose stone and vehicles run on it: units will come loose."
    return words, worded(("Lay blocks on sand.", "Put a concrete base under the mortar bed."))


def base_rule_silent(area: str) -> Said:
    """Say that the rule that is chosen does not speak of this."""
    words = (
        f"The rule that is chosen for the base of {area} says nothing of this use, this bed or this ground: "
        "the rulebook's own thickness is planned."
    )
    return words, worded(("Choose another rule.", "Leave it: the rulebook's own holds."))


def base_thinner(area: str, thickness_mm: float, own_mm: float) -> Said:
    """Say that the rule that is chosen gives less than the rulebook's own. [mm]."""
    words = (
        f"Under the bed of {area} lie {thickness_mm:g} mm by the rule that is chosen. "
        f"The rulebook's own rule takes {own_mm:g} mm for this use on this ground."
    )
    return words, worded(("Take the rulebook's own.", "Keep it where an engineer or the maker agrees."))


def permeable_from_memory(area: str, figure: Figure) -> Said:
    """Say that the thickness for bearing has no source that was seen. [mm]."""
    words = (
        f"{area} is permeable: its open stone, {figure.value:g} mm on ground that bears, and its grit are from memory, "
        "not verified."
    )
    return words, worded(("Take the thicknesses that the maker of the units gives.",))


def permeable_weak(area: str, cbr_percent: float, limit: Figure) -> Said:
    """Say that the usual detail does not hold, and that the addition is from memory. [%]."""
    words = (
        f"{area} is permeable and the ground has a bearing ratio of {cbr_percent:g} %: the usual detail assumes "
        f"{limit.value:g} % or more. The stone that is added for it is from memory, not verified, and wet ground is "
        "weaker still."
    )
    return words, worded(("Measure the bearing ratio of the wet ground.", "Ask for a design."))


def bond_coat(unit: str) -> Said:
    """Say that a unit that takes up little water needs a bond coat."""
    return f"{unit} takes up little water: coat the whole back with a bond coat and lay wet on wet.", ()


def unit_too_thin(unit: str, thick_mm: float, limit: Figure) -> Said:
    """Say that a unit is too thin under wheels. [mm]."""
    return _thin(unit, thick_mm, limit), worded(("Choose a thicker unit.",))


def unit_too_large(unit: str, longest_mm: float) -> Said:
    """Say that a large unit on sand rocks under wheels. [mm]."""
    words = f"{unit} is {longest_mm:g} mm long; large units on sand rock and crack under wheels."
    return words, worded(("Choose a smaller unit.", "Lay on mortar over a concrete base."))


def too_thin_for_sand(unit: str, thick_mm: float, limit: Figure) -> Said:
    """Say that a unit is too thin for a loose bed. [mm]."""
    return _thin(unit, thick_mm, limit), worded(("Lay on a full mortar bed over concrete.", "Choose a thicker unit."))


def _thin(unit: str, thick_mm: float, limit: Figure) -> str:
    return f"{unit} is {thick_mm:g} mm thick; {limit.label}: {limit.value:g} mm."


def opening_edges_unknown(area: str, openings: int, *, on_sand: bool) -> Said:
    """Say that nothing is known of the edges round openings."""
    many = openings > 1
    which = f"{openings} openings" if many else "an opening"
    held = " On sand they open without an edging all round." if on_sand else ""
    words = (
        f"{area} has {which} inside it. What holds {'their' if many else 'its'} edges, and how far the ground "
        f"inside lies below the paving, is not known and was not looked at.{held} Where the ground lies lower than an "
        f"edging holds, a wall is needed; neither is in the price."
    )
    return words, ()


def edge_not_held(area: str, bare_mm: float, sides: str, *, vehicles: bool) -> str:
    """Say that nothing holds the edge of units on sand. [mm]."""
    who = "wheels push" if vehicles else "feet and rain push"
    return (
        f"{area} is laid on sand and nothing holds {units.mm_to_m(bare_mm):.1f} m of its edge ({sides}): {who} the "
        f"units apart from there."
    )


def edging_along_sides() -> str:
    """Say that an edging may hold the edge."""
    return "Set an edging in concrete along these sides."


def kerb_along_sides() -> str:
    """Say that a kerb may hold the edge."""
    return "Set a kerb in concrete along these sides."


def haunched_units() -> str:
    """Say that a haunch may hold the edge."""
    return "Haunch the outer units in concrete."


def deeper_name() -> str:
    """Name the stone under an area whose dig was found to go deeper."""
    return "stone where the dig went deeper"


def deeper_why(names: Sequence[str]) -> str:
    """Say by what the dig of an area goes deeper than planned."""
    return f"deeper than planned: {', '.join(names)}"
