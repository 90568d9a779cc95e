"""What the laying room hands on of a part or a side of an area: mixed sizes, zones, cuts along folds."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.geometry import XY, Shape


@dataclass(frozen=True)
class LaidMixed:
    """What is reported of an area in mixed sizes beside its pieces.

    Attributes:
        counts: Units of each size in one pack, in the order of the units of the area.
        units: Names of those sizes.
        packs: Whole packs that the layout takes.
        lying: Units that lay before and stayed.
        bays: Bays that the area is laid in.
        bay_joints: Ends of each straight movement joint between two bays. [mm]
        bay_joint_m: Length of those joints. [m]
        longest_joint_mm: Longest straight joint within a bay. [mm]
        equal_neighbour_part: Part of the units that touch a unit of their own size along a side. [-]
        units_per_m2: Units of each size in a square metre. [1/m²]
    """

    counts: tuple[int, ...]
    units: tuple[str, ...]
    packs: int
    lying: int
    bays: int
    bay_joints: tuple[tuple[XY, XY], ...]
    bay_joint_m: float
    longest_joint_mm: float
    equal_neighbour_part: float
    units_per_m2: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class LaidZone:
    """A part of an area that is laid in its own way.

    Attributes:
        name: Its name.
        unit: Name of its paving unit.
        pattern: Name of its pattern.
        joint_mm: Its joint. [mm]
        shape: What it covers.
        pieces: How many pieces it takes.
    """

    name: str
    unit: str
    pattern: str
    joint_mm: float
    shape: Shape
    pieces: int


@dataclass(frozen=True, slots=True)
class UnderSteps:
    """What of an area lies under a flight of steps: no unit and no bed.

    Attributes:
        steps: Name of the flight.
        shape: What it covers.
    """

    steps: str
    shape: Shape


@dataclass(frozen=True, slots=True)
class MovementJoints:
    """Movement joints of an area on mortar.

    Attributes:
        placed: Ends of each that lies in a straight joint. [mm]
        placed_m: Length of those. [m]
        unplaced_m: Length of those that the pattern has no straight joint for: they are ordered and not drawn. [m]
        edge_m: Length along walls and round what is fixed. [m]
        longest_m: Longest run of the area, or of a part of it, that needs them; zero where none does. [m]
    """

    placed: tuple[tuple[XY, XY], ...] = ()
    placed_m: float = 0.0
    unplaced_m: float = 0.0
    edge_m: float = 0.0
    longest_m: float = 0.0

    @property
    def total_m(self) -> float:
        """Length of all of them. [m]."""
        return self.placed_m + self.unplaced_m + self.edge_m


NO_MOVEMENT = MovementJoints()
"""Of an area on sand, or one that is small enough."""


@dataclass(frozen=True, slots=True)
class FoldCuts:
    """Cuts along the folds of an area, over those of the laying plan: both parts of a unit are laid.

    Attributes:
        pieces: Numbers of the pieces that are cut along a fold.
        saw_m: Length of these cuts. [m]
        narrowest_mm: Min width of a part that is left on one side of a fold; zero without such cuts. [mm]
        uncut: Numbers of the pieces of which a part too narrow to be laid stays on the part beside it: it stands out
            of the surface by no more than units may. One that another fold parts is cut there all the same.
        uncut_lip_mm: Max height by which one of those stands out of the surface; zero without them. [mm]
        too_narrow: Numbers of the pieces that can neither be cut along the fold nor laid whole.
        neck_mm: Width of the narrowest part of those; None without them. [mm]
        lip_mm: Max height by which one of those would stand out of the surface, laid whole; zero without them. [mm]
    """

    pieces: tuple[int, ...] = ()
    saw_m: float = 0.0
    narrowest_mm: float = 0.0
    uncut: tuple[int, ...] = ()
    uncut_lip_mm: float = 0.0
    too_narrow: tuple[int, ...] = ()
    neck_mm: float | None = None
    lip_mm: float = 0.0


NO_FOLD_CUTS = FoldCuts()
"""Of an area without folds, or whose levels are not known yet."""
