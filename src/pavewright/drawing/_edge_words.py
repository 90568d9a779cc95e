"""What is said of edges and joints on sections."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job import Bedding, EdgeRestraint
from pavewright.writing import size_mark

if TYPE_CHECKING:
    from pavewright.buildup import EdgeSection, Haunch

_NAMES = {EdgeRestraint.KERB: "kerb", EdgeRestraint.EDGING: "edging", EdgeRestraint.HAUNCH: "haunch"}


def joints_in_words(joint_mm: float, bedding: Bedding, *, permeable: bool) -> str:
    """Return how wide the joints between units are and what fills them."""
    if joint_mm <= 0.0:
        return "units laid tight"
    dry = "filled with clean grit, as the maker says" if permeable else "filled with dry sand"
    filled = dry if bedding is Bedding.SAND_ON_SUB_BASE else "pointed with mortar"
    return f"joints {joint_mm:g} mm, {filled}"


def title_of(edge: EdgeSection, areas: tuple[str, ...]) -> str:
    """Return what a section shows."""
    return f"{_NAMES[edge.restraint].capitalize()}: {', '.join(areas)}"


def unit_in_words(edge: EdgeSection) -> str:
    """Return what stands at the edge, and how it stands to the paving."""
    wide, high = edge.unit_mm
    stands = f"stands {size_mark(edge.top_mm)} over the paving" if edge.top_mm > 0.0 else "flush with the paving"
    return f"{_NAMES[edge.restraint]} {size_mark(wide)} × {size_mark(high)}, {stands}"


def bed_in_words(edge: EdgeSection) -> str:
    """Return the bed of an edge."""
    wide, thick = edge.bed_mm
    return f"bed of concrete {size_mark(wide)} × {size_mark(thick)}"


def haunch_in_words(haunch: Haunch, where: str) -> str:
    """Return a haunch with its sizes.

    Args:
        haunch: Its sizes.
        where: Where it is.
    """
    wide = f"{size_mark(haunch.foot_mm)} wide"
    if haunch.top_mm != haunch.foot_mm:
        wide = f"{size_mark(haunch.foot_mm)} at its foot, {size_mark(haunch.top_mm)} at its top"
    return f"haunch of concrete {where}: {wide}, {size_mark(haunch.height_mm)} high"


def trench_in_words(edge: EdgeSection) -> str:
    """Return what is dug below formation for the bed; nothing where it lies within it."""
    return f"trench {size_mark(edge.trench_mm)} below formation" if edge.trench_mm > 0.0 else ""


def where_behind(edge: EdgeSection) -> str:
    """Return where the haunch behind stands."""
    return "behind" if edge.unit_mm[0] > 0.0 else "against the units"
