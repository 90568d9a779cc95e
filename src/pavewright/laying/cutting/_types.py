"""What the saw is given and what it hands back."""

from __future__ import annotations

from dataclasses import dataclass

RIGHT, FAR, LEFT, NEAR = 1, 2, 4, 8
"""Sides of a part as it is laid, for the mask of sides that must be factory edges; each is turned into the next."""


Point = tuple[float, float]
"""x and y. [mm]"""
Outline = tuple[Point, ...]
"""Corners in turn. [mm]"""


@dataclass(frozen=True, slots=True)
class Part:
    """A piece to be cut, as the box that it takes.

    Attributes:
        piece: Number of the piece.
        along_mm: Size along the unit's length. [mm]
        across_mm: Size across. [mm]
        factory_sides: Sides that must be factory edges, as a sum of ``RIGHT``, ``FAR``, ``LEFT`` and ``NEAR``.
        outline: Its corners from the near left corner of its box; empty where it fills the box. [mm]
    """

    piece: int
    along_mm: float
    across_mm: float
    factory_sides: int = 0
    outline: Outline = ()


@dataclass(frozen=True, slots=True)
class Stock:
    """A size of slab that parts may be cut from, as many as are wanted.

    Attributes:
        along_mm: Length. [mm]
        across_mm: Width. [mm]
        cost: What one costs, in any whole number; 1 where slabs are counted.
    """

    along_mm: float
    across_mm: float
    cost: int = 1


@dataclass(frozen=True, slots=True)
class PlacedPart:
    """A piece placed on the unit from which it is cut.

    Attributes:
        piece: Number of the piece.
        x_mm: Where its bounding box starts on the unit, along the unit's length. [mm]
        y_mm: The same across. [mm]
        along_mm: Size of the box along the unit's length. [mm]
        across_mm: Size of the box across. [mm]
        quarter_turns: Quarter turns, against the clock, from how it is laid to how it lies on the unit.
    """

    piece: int
    x_mm: float
    y_mm: float
    along_mm: float
    across_mm: float
    quarter_turns: int

    @property
    def turned(self) -> bool:
        """Whether it lies a quarter turn from how it is laid."""
        return self.quarter_turns % 2 == 1


@dataclass(frozen=True, slots=True)
class SawCut:
    """One cut, right across the piece of stone that it parts.

    Attributes:
        number: Place in the order of cutting the unit, from 1.
        lengthwise: Whether the saw runs along the unit's length; else across it.
        at_mm: Where the blade's nearer face runs, from the unit's near side or left end. [mm]
        start_mm: Where the run starts, along the run. [mm]
        end_mm: Where the run ends. [mm]
        trim: Whether less than the blade is taken off, so that it runs half off the edge.
    """

    number: int
    lengthwise: bool
    at_mm: float
    start_mm: float
    end_mm: float
    trim: bool


@dataclass(frozen=True, slots=True)
class PairedPieces:
    """Two pieces head to tail in one box, split by one sloping cut right across it.

    Attributes:
        pieces: Numbers of the two.
        x_mm: Where the box starts on the unit, along the unit's length. [mm]
        y_mm: The same across. [mm]
        along_mm: Size of the box along the unit's length. [mm]
        across_mm: Size of the box across. [mm]
        start: Where the sloping cut begins, on the face of the blade towards the first piece. [mm]
        end: Where it ends. [mm]
        outlines: Corners of both on the unit. [mm]
    """

    pieces: tuple[int, int]
    x_mm: float
    y_mm: float
    along_mm: float
    across_mm: float
    start: Point
    end: Point
    outlines: tuple[Outline, Outline]


@dataclass(frozen=True, slots=True)
class SawnUnit:
    """One unit that is sawn, the pieces that come from it, and the cuts in their order.

    Attributes:
        number: Number of the unit among those that are sawn, from 1.
        length_mm: Length of the unit. [mm]
        width_mm: Width of the unit. [mm]
        parts: Pieces placed on it.
        cuts: Square cuts that part them, pairs as one, in order; sloping cuts, notches and curves come afterwards.
        pairs: Pieces that lie head to tail in one box.
        left_over_of: From which unit it is left over, in words; empty where it is a new unit.
        unit: Name of the paving unit that it is, or is left of.
    """

    number: int
    length_mm: float
    width_mm: float
    parts: tuple[PlacedPart, ...]
    cuts: tuple[SawCut, ...]
    pairs: tuple[PairedPieces, ...] = ()
    left_over_of: str = ""
    unit: str = ""


@dataclass(frozen=True, slots=True)
class SawPlan:
    """A saw plan, its cost and what no plan can be below.

    Attributes:
        sawn: Units that are sawn.
        cost: Sum of what they cost; their number where each costs 1.
        min_cost: A cost that no plan can be below: for pieces that fill their boxes, whatever the cuts.
    """

    sawn: tuple[SawnUnit, ...]
    cost: int
    min_cost: int

    @property
    def proved(self) -> bool:
        """Whether no plan can be cheaper."""
        return self.cost <= self.min_cost
