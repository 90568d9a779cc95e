"""Packs, rules and layouts of mixed sizes, all on the grid of one module."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pavewright import units


class MixRule(StrEnum):
    """What a layout of mixed sizes keeps to."""

    LONGEST_JOINT = "longest_joint"
    EVEN_SPREAD = "even_spread"
    OBLONGS_APART = "oblongs_apart"
    SMALLEST_APART = "smallest_apart"
    FOUR_WAY = "four_way"
    UNITS = "units"
    COVER = "cover"


@dataclass(frozen=True, slots=True)
class PackSize:
    """One size of a pack.

    Attributes:
        name: Its name.
        length_mm: Work size, the longer side. [mm]
        width_mm: Work size, the shorter side. [mm]
        per_pack: How many one pack holds.
        length_cells: Cells of the module that it takes with its joint, lengthways.
        width_cells: The same, widthways.
    """

    name: str
    length_mm: float
    width_mm: float
    per_pack: int
    length_cells: int
    width_cells: int

    @property
    def cells(self) -> int:
        """Cells that one unit takes."""
        return self.length_cells * self.width_cells


@dataclass(frozen=True, slots=True)
class Pack:
    """A pack of mixed sizes that was found to add up.

    Attributes:
        sizes: Its sizes.
        module_mm: Side of a cell, joint included. [mm]
        joint_mm: Joint within it. [mm]
    """

    sizes: tuple[PackSize, ...]
    module_mm: float
    joint_mm: float

    @property
    def cells(self) -> int:
        """Cells that one pack covers."""
        return sum(size.cells * size.per_pack for size in self.sizes)

    @property
    def coverage_m2(self) -> float:
        """Area that one pack covers, joints included. [m²]."""
        return self.coverage_of(self.cells)

    def coverage_of(self, cells: int) -> float:
        """Return the area of so many cells. [m²]."""
        return cells * units.mm2_to_m2(self.module_mm**2)

    @property
    def counts(self) -> tuple[int, ...]:
        """How many of each size one pack holds."""
        return tuple(size.per_pack for size in self.sizes)


@dataclass(frozen=True, slots=True)
class Spread:
    """How evenly the sizes are spread: what a band right across the bay may take of one size.

    Attributes:
        band_cells: Cells that a band is wide.
        share: Times its share by area that a band may take. [-]
        more_units: Units that it may take beyond.
    """

    band_cells: int
    share: float
    more_units: int


@dataclass(frozen=True, slots=True)
class MixRules:
    """The rules of one layout.

    Attributes:
        longest_joint_cells: Longest straight joint; none where it is zero.
        even_spread: What a band of the bay may take of a size; None where the spread is left open.
        oblongs_apart: Whether two equal oblong units may not lie side by side with their long sides matched.
        smallest_apart: Whether two of the smallest units may not touch, not even at a corner.
        no_four_way: Whether four units may not meet at one point.
        max_bay_m2: A larger area is laid in bays with a movement joint between them; never where it is zero. [m²]
    """

    longest_joint_cells: int
    even_spread: Spread | None = None
    oblongs_apart: bool = True
    smallest_apart: bool = True
    no_four_way: bool = True
    max_bay_m2: float = 0.0


@dataclass(frozen=True, slots=True, order=True)
class MixedUnit:
    """One unit with its place on the grid.

    Attributes:
        row: First row of cells that it takes.
        column: First column of cells that it takes.
        size: Which of the sizes of the pack it is.
        deep_cells: Rows that it takes.
        wide_cells: Columns that it takes.
    """

    row: int
    column: int
    size: int
    deep_cells: int
    wide_cells: int


@dataclass(frozen=True, slots=True)
class MixedLayout:
    """A bay filled to all of its rules.

    Attributes:
        placed: Every unit, those that were down before among them.
        used: Units of each size taken from the yard.
        left: Units of each size that stay in the yard.
        longest_joint_cells: Longest straight joint of the layout, through movement joints too; these themselves are
            none.
        bays: Number of bays that it was filled in, a straight movement joint between them.
        bay_joints: Where those joints run: row and column of either end, in corners of cells.
        steps: Steps that the search took.
    """

    placed: tuple[MixedUnit, ...]
    used: tuple[int, ...]
    left: tuple[int, ...]
    longest_joint_cells: int
    bays: int
    bay_joints: tuple[tuple[int, int, int, int], ...]
    steps: int


@dataclass(frozen=True, slots=True)
class MixedRefusal:
    """Why there is no layout, and which rule, relaxed by itself, gives one.

    Attributes:
        words: A sentence for the contractor.
        relax: The rule; none where no single rule was found.
        proved: Whether every way was tried; else none was found within the steps of the search.
        sound: Whether the pack and what lies are sound, and a layout alone is wanting.
    """

    words: str
    relax: MixRule | None
    proved: bool
    sound: bool = False
