"""The dimension book: every measured item as lines that a second person can follow, deductions among them.

A line is times × length × width × depth, or an area or a volume where that is what the drawing gives, times what one of
it takes. The lines of an item add up to its net amount.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.quantities._scope import ScopeKind

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.quantities._scope import ScopeKey


class Drawn(StrEnum):
    """The drawing on which a measured figure is found, by its key."""

    SURVEY = "survey"
    LEVELS = "levels"
    LAYING = "laying"
    DIG = "dig"
    WATER = "water"
    STEPS = "steps"


@dataclass(frozen=True, slots=True)
class Dimension:
    """One line of the dimension book.

    Attributes:
        words: What is measured, and where.
        drawing: On which drawing it stands.
        scope: What it belongs to; None for the whole job.
        side: The side of an area, by its two corners; empty where it is no side.
        times: How often; negative for a deduction. [-]
        length_m: None where no length is measured. [m]
        width_m: [m]
        depth_m: Depth, height or thickness. [m]
        area_m2: Where a shape is measured by its corners. [m²]
        volume_m3: Where a volume is measured whole. [m³]
        each: What one of it takes; one where the measure itself is meant. [in ``each_unit``]
        each_unit: Unit of that, such as kg/m³; empty for one.
        amount: The line, squared out. [in the unit of the item]
    """

    words: str
    drawing: Drawn
    scope: ScopeKey | None = None
    side: str = ""
    times: float = 1.0
    length_m: float | None = None
    width_m: float | None = None
    depth_m: float | None = None
    area_m2: float | None = None
    volume_m3: float | None = None
    each: float = 1.0
    each_unit: str = ""
    amount: float = 0.0

    @property
    def squared(self) -> float:
        """The line multiplied out. [in the unit of the item]."""
        found = self.times * self.each
        for factor in (self.length_m, self.width_m, self.depth_m, self.area_m2, self.volume_m3):
            if factor is not None:
                found *= factor
        return found

    @property
    def measure(self) -> str:
        """Unit of what is measured, before what one of it takes."""
        lengths = sum(each is not None for each in (self.length_m, self.width_m, self.depth_m))
        lengths += (2 if self.area_m2 is not None else 0) + (3 if self.volume_m3 is not None else 0)
        return _MEASURES[lengths]

    @property
    def drawing_key(self) -> str:
        """Key of the drawing; sections through flights of steps are numbered from 1."""
        number = self.scope.number + 1 if self.scope is not None else 1
        return f"{self.drawing.value}-{number}" if self.drawing is Drawn.STEPS else self.drawing.value


_MEASURES = ("each", "m", "m²", "m³")


def taken(lines: Iterable[Dimension], amount: float, unit: str) -> tuple[Dimension, ...]:
    """Return lines squared out to an amount: what one of the measure takes is the amount over their sum.

    Args:
        lines: Lines of a measure, deductions negative.
        amount: What they come to. [in the unit of the item]
        unit: Unit of the item.
    """
    listed = tuple(lines)
    whole = sum(line.squared for line in listed)
    if whole == 0.0:
        return ()
    each = amount / whole
    plain = abs(each - 1.0) <= _SAME
    scaled = (
        line if plain else replace(line, each=line.each * each, each_unit=f"{unit}/{line.measure}") for line in listed
    )
    return tuple(replace(line, amount=line.squared) for line in scaled)


_SAME = 1e-9


def with_depth(lines: Iterable[Dimension], depth_mm: float) -> tuple[Dimension, ...]:
    """Return lines of an area or a length with a depth. [mm]."""
    return tuple(replace(line, depth_m=units.mm_to_m(depth_mm)) for line in lines)


def across(lines: Iterable[Dimension], width_mm: float, depth_mm: float) -> tuple[Dimension, ...]:
    """Return lines of a length with the width and the depth of a section.

    Args:
        lines: Lines of a length.
        width_mm: Width, or mean width. [mm]
        depth_mm: [mm]
    """
    wide = units.mm_to_m(width_mm)
    return tuple(replace(line, width_m=wide) for line in with_depth(lines, depth_mm))


def without_depth(lines: Iterable[Dimension]) -> tuple[Dimension, ...]:
    """Return lines of an area without their depth."""
    return tuple(replace(line, depth_m=None) for line in lines)


def counted(words: str, drawing: Drawn, scope: ScopeKey | None, times: float) -> Dimension:
    """Return a line of what is counted, or measured elsewhere.

    Args:
        words: What it is.
        drawing: On which drawing it stands.
        scope: What it belongs to.
        times: How many. [in the unit of the item]
    """
    return Dimension(words, drawing, scope, times=times, amount=times)


def whole_less(measured: Iterable[Dimension], net: float, words: str, *, volume: bool = False) -> tuple[Dimension, ...]:
    """Return lines of an area or a volume, the rest to a net amount as a line of its own where there is one.

    Args:
        measured: Lines of the area or the volume.
        net: What they have to come to. [m² or m³]
        words: What the rest is.
        volume: Whether they are of a volume.
    """
    lines = tuple(measured)
    rest = net - sum(line.squared for line in lines)
    if not lines or abs(rest) <= _NOTHING:
        return lines
    over = replace(counted(words, lines[0].drawing, lines[0].scope, -1.0 if rest < 0.0 else 1.0), amount=rest)
    return (*lines, replace(over, volume_m3=abs(rest)) if volume else replace(over, area_m2=abs(rest)))


_NOTHING = 1e-9


def drawn_for(scope: ScopeKey | None) -> Drawn:
    """Return the drawing on which a thing is found."""
    return Drawn.SURVEY if scope is None else _DRAWN[scope.kind]


_DRAWN = {
    ScopeKind.PAVING: Drawn.LAYING,
    ScopeKind.KERB: Drawn.LEVELS,
    ScopeKind.EDGING: Drawn.LEVELS,
    ScopeKind.HAUNCH: Drawn.LEVELS,
    ScopeKind.LOW_WALL: Drawn.LEVELS,
    ScopeKind.GUARD: Drawn.LEVELS,
    ScopeKind.STEPS: Drawn.STEPS,
    ScopeKind.CHANNEL: Drawn.WATER,
    ScopeKind.GULLY: Drawn.WATER,
    ScopeKind.COVER: Drawn.SURVEY,
    ScopeKind.SOAKAWAY: Drawn.WATER,
    ScopeKind.DIG: Drawn.DIG,
    ScopeKind.TOPSOIL: Drawn.DIG,
    ScopeKind.CARRYING: Drawn.SURVEY,
}
