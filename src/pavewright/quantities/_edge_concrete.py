"""Concrete of what holds a side: its bed and its haunches, each by its own section."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.buildup import EdgeSection, Haunch
    from pavewright.rules import Figure


@dataclass(frozen=True, slots=True)
class ConcretePart:
    """A strip of concrete along a side.

    Attributes:
        words: What it is.
        sizes: Its section with its numbers put in.
        width_mm: Width, of a haunch its mean. [mm]
        depth_mm: Thickness of a bed, height of a haunch. [mm]
        figures: Figures that went in.
    """

    words: str
    sizes: str
    width_mm: float
    depth_mm: float
    figures: tuple[Figure, ...]


def edge_concrete(section: EdgeSection) -> tuple[ConcretePart, ...]:
    """Return the concrete along what holds a side: bed, haunch behind, haunch before it."""
    name = section.restraint.value
    wide, deep = section.bed_mm
    found = []
    if wide > 0.0:
        found.append(ConcretePart(f"bed of {name}", f"{wide:g} × {deep:g} mm", wide, deep, section.decided_by))
    if section.back is not None:
        words = f"haunch behind {name}" if wide > 0.0 else "haunch against the units"
        found.append(_haunch(words, section.back))
    if section.front is not None:
        found.append(_haunch(f"haunch before {name}", section.front))
    return tuple(found)


def _haunch(words: str, haunch: Haunch) -> ConcretePart:
    """Return a haunch as a strip of its mean width."""
    wide = f"{haunch.foot_mm:g}" if haunch.foot_mm == haunch.top_mm else f"({haunch.foot_mm:g} + {haunch.top_mm:g}) / 2"
    sizes = f"{wide} × {haunch.height_mm:g} mm"
    return ConcretePart(words, sizes, haunch.mean_mm, haunch.height_mm, haunch.decided_by)
