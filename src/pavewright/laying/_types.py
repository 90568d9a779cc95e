"""What the laying room hands on."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.laying._types_parts import (
    NO_FOLD_CUTS,
    NO_MOVEMENT,
    FoldCuts,
    LaidMixed,
    LaidZone,
    MovementJoints,
    UnderSteps,
)

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.findings import Finding
    from pavewright.geometry import XY, Shape
    from pavewright.laying._types_sheets import GaugeMark, RunGrowth
    from pavewright.laying.cutting import SawnUnit
    from pavewright.laying.yard import LeftOver
    from pavewright.sums import Working


class PieceKind(StrEnum):
    """A whole unit or one that was cut."""

    WHOLE = "whole"
    CUT = "cut"


@dataclass(frozen=True)
class Piece:
    """One piece of the laying plan.

    Attributes:
        number: Number in laying order within the area, from 1.
        course: Course counted from the starting side, from 1.
        place: Place in the course counted from the starting end, from 1.
        unit: Name of the paving unit that it is, or is cut from.
        border: Whether it belongs to a border.
        kind: Whole or cut.
        shape: True outline in plan. [mm]
        along_mm: Greatest size along the length of its unit. [mm]
        across_mm: Greatest size across its unit. [mm]
        turn_deg: Direction of the length of its unit, anticlockwise from the courses. [deg]
        frame_x_mm: Where its bounding box starts within the unit that it is cut from, along. [mm]
        frame_y_mm: Where its bounding box starts within the unit that it is cut from, across. [mm]
        area_m2: [m²]
        kg: Mass of the piece. [kg]
        notched: Whether it has an inner corner: a stopped cut.
        curved: Whether it has a curved edge.
        sliver: Whether it is smaller than the smallest piece wanted.
        saw_m: Length of saw cut to make it from a whole unit. [m]
        zone: Name of its zone; empty outside of zones.
        neck_mm: Width of its narrowest arm or web, or of all of it, where that is too narrow to be cut and laid; None
            for every other piece. [mm]
    """

    number: int
    course: int
    place: int
    unit: str
    border: bool
    kind: PieceKind
    shape: Shape
    along_mm: float
    across_mm: float
    turn_deg: float
    frame_x_mm: float
    frame_y_mm: float
    area_m2: float
    kg: float
    notched: bool
    curved: bool
    sliver: bool
    saw_m: float
    zone: str = ""
    neck_mm: float | None = None


@dataclass(frozen=True, slots=True)
class UnitCount:
    """How many of one paving unit an area takes.

    Attributes:
        unit: Name of the paving unit.
        whole: Number laid whole.
        cut: Number of pieces cut from it.
        units_each_cut_new: Units needed if every cut eats a whole unit.
        units_with_offcuts: Units needed with offcuts used again.
        min_units: Units that their area alone takes.
        units_bound: Units below which no way of cutting can do.
        units_more_edges: Units that keeping factory edges in the joints costs; zero where it is not asked for.
        kg_each: Mass of one. [kg]
        left_overs_m2: Area of the left-overs that may serve, taken off what its area alone takes. [m²]
        workings: The sum behind the units with offcuts, one for each part of an area.
    """

    unit: str
    whole: int
    cut: int
    units_each_cut_new: int
    units_with_offcuts: int
    min_units: int
    units_bound: int
    units_more_edges: int
    kg_each: float
    left_overs_m2: float = 0.0
    workings: tuple[Working, ...] = ()


def joined_counts(counts: Iterable[UnitCount]) -> tuple[UnitCount, ...]:
    """Return the counts of each unit, those of one unit summed, in the order in which units come first."""
    found: dict[str, UnitCount] = {}
    for count in counts:
        before = found.get(count.unit)
        found[count.unit] = (
            count
            if before is None
            else UnitCount(
                unit=count.unit,
                whole=before.whole + count.whole,
                cut=before.cut + count.cut,
                units_each_cut_new=before.units_each_cut_new + count.units_each_cut_new,
                units_with_offcuts=before.units_with_offcuts + count.units_with_offcuts,
                min_units=before.min_units + count.min_units,
                units_bound=before.units_bound + count.units_bound,
                units_more_edges=before.units_more_edges + count.units_more_edges,
                kg_each=count.kg_each,
                left_overs_m2=before.left_overs_m2 + count.left_overs_m2,
                workings=(*before.workings, *count.workings),
            )
        )
    return tuple(found.values())


@dataclass(frozen=True)
class LaidArea:
    """The laying plan of one area.

    Attributes:
        area: Name of the area.
        unit: Name of the paving unit of the field.
        pattern: Name of the pattern of the field.
        joint_mm: Joint. [mm]
        bearing_deg: Direction of the courses, degrees clockwise from the y axis. [deg]
        origin_mm: A corner of a unit, to start from. [mm]
        pieces: All pieces in laying order.
        courses: Number of courses, those of a border first.
        border_courses: How many of them are courses of a border.
        sawn: Units that are sawn when offcuts are used again.
        whole: Number of whole units.
        cut: Number of cut pieces.
        slivers: Number of cut pieces smaller than wanted.
        units_each_cut_new: Units needed if every cut eats a whole unit.
        units_with_offcuts: Units needed with offcuts used again.
        min_units: Units below which nothing can do (area of all pieces over area of a unit, rounded up).
        units_bound: Units that no way of cutting can do without: the whole ones, and those that the cut pieces take
            however they are turned and nested, each counted with a box inside it.
        kerf_mm: Width of the saw cut counted. [mm]
        joint_length_m: Length of joints between and round the pieces. [m]
        paved_m2: Area of the pieces. [m²]
        joint_m2: Area of the joints: area of the shape less area of the pieces. [m²]
        saw_m: Length of all saw cuts. [m]
        by_unit: The counts of each paving unit, that of the field first.
        workings: The sums behind the counts.
        limits: What this laying plan does not consider, in words.
        growth: Growth of the longest runs, for units that were measured.
        gauge: Marks of the first course of the field.
        mixed: The packs, the bays and the look of mixed sizes; None for every other pattern.
        zones: Parts that are laid in their own way, in the order of laying.
        fold_cuts: Cuts along the folds of the surface; `saw_m` does not hold them.
        left_overs: What is left of the units that are sawn and worth keeping for the next area or the next job.
        movement: Movement joints.
        under_steps: What lies under flights of steps, and is not laid.
        fills: Room of what is too narrow to be cut and laid, where mortar fills it instead.
    """

    area: str
    unit: str
    pattern: str
    joint_mm: float
    bearing_deg: float
    origin_mm: XY
    pieces: tuple[Piece, ...]
    courses: int
    border_courses: int
    sawn: tuple[SawnUnit, ...]
    whole: int
    cut: int
    slivers: int
    units_each_cut_new: int
    units_with_offcuts: int
    min_units: int
    units_bound: int
    kerf_mm: float
    joint_length_m: float
    paved_m2: float
    joint_m2: float
    saw_m: float
    by_unit: tuple[UnitCount, ...]
    workings: tuple[Working, ...]
    limits: tuple[str, ...] = ()
    growth: tuple[RunGrowth, ...] = ()
    gauge: tuple[GaugeMark, ...] = ()
    mixed: LaidMixed | None = None
    zones: tuple[LaidZone, ...] = ()
    fold_cuts: FoldCuts = NO_FOLD_CUTS
    left_overs: tuple[LeftOver, ...] = ()
    fills: tuple[Shape, ...] = ()
    under_steps: tuple[UnderSteps, ...] = ()
    movement: MovementJoints = NO_MOVEMENT

    @property
    def unlayable(self) -> int:
        """Number of pieces that are too narrow somewhere to be cut and laid."""
        return sum(piece.neck_mm is not None for piece in self.pieces)

    @property
    def cuts(self) -> int:
        """Number of pieces to mark and cut; one that is cut along a fold too is counted twice."""
        return self.cut + len(self.fold_cuts.pieces)

    @property
    def under_steps_m2(self) -> float:
        """Area of what lies under flights of steps. [m²]."""
        return sum(each.shape.area_m2 for each in self.under_steps)

    @property
    def filled_m2(self) -> float:
        """Area of what mortar fills instead of pieces. [m²]."""
        return sum(fill.area_m2 for fill in self.fills)

    @property
    def saw_with_folds_m(self) -> float:
        """Length of all saw cuts, those along folds too. [m]."""
        return self.saw_m + self.fold_cuts.saw_m


@dataclass(frozen=True)
class LayingPlan:
    """The laying plans of all areas."""

    areas: tuple[LaidArea, ...]
    findings: tuple[Finding, ...]

    def area(self, name: str) -> LaidArea:
        """Return the laying plan of an area."""
        return next(area for area in self.areas if area.area == name)

    @property
    def saw_m(self) -> float:
        """Length of all saw cuts of the job, those along folds too. [m]."""
        return sum(area.saw_with_folds_m for area in self.areas)

    def counts(self, unit: str) -> tuple[UnitCount, ...]:
        """Return the counts of a paving unit, one for each area that takes it."""
        return tuple(count for area in self.areas for count in area.by_unit if count.unit == unit)
