"""What the levels room hands on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units

if TYPE_CHECKING:
    from pavewright.findings import Finding
    from pavewright.geometry import XY, FoldedSurface, Plane
    from pavewright.job import Folding
    from pavewright.levels._spot_types import SpotLevel
    from pavewright.sums import Working


@dataclass(frozen=True, slots=True)
class Draining:
    """What happens to water on a designed surface.

    Attributes:
        cell_mm: Side of the cells on which it was calculated. [mm]
        standing_l: Water that stands. [l]
        standing_m2: Area on which it stands deeper than is told. [m²]
        deepest_mm: Greatest depth of it. [mm]
        shut_in_m2: Area from which no drain or free edge can be reached. [m²]
        to_drains_m2: Area that drains to gullies and channels. [m²]
        past_m2: Area that runs over a free edge, to a boundary or on to other paving. [m²]
        to_walls_m: Length of house wall to which the paving falls with no channel between. [m]
        to_others_m2: Area that runs onto a road, a footway or a neighbour's ground. [m²]
    """

    cell_mm: float
    standing_l: float
    standing_m2: float
    deepest_mm: float
    shut_in_m2: float
    to_drains_m2: float
    past_m2: float
    to_walls_m: float = 0.0
    to_others_m2: float = 0.0

    @property
    def past_share(self) -> float:
        """Part of the area whose water no drain takes."""
        whole = self.to_drains_m2 + self.past_m2
        return self.past_m2 / whole if whole > 0.0 else 0.0


@dataclass(frozen=True, slots=True)
class WallClearance:
    """How far the paving lies below a damp-proof course along the stretch where they meet.

    Attributes:
        wall: Name of the wall.
        start: Start of the stretch in plan.
        end: End of the stretch in plan.
        at_start_mm: Damp-proof course less paving at the start. [mm]
        at_end_mm: Damp-proof course less paving at the end. [mm]
        working: The sum behind the smaller one.
    """

    wall: str
    start: XY
    end: XY
    at_start_mm: float
    at_end_mm: float
    working: Working

    @property
    def min_mm(self) -> float:
        """The smaller of the two. [mm]."""
        return min(self.at_start_mm, self.at_end_mm)


@dataclass(frozen=True, slots=True)
class DoorStep:
    """Step down from a threshold to the paving at both jambs and between them, looking at the door from the paving.

    Attributes:
        wall: Name of the wall.
        opening: Name of the door.
        path: Where the door stands in the job document.
        left_mm: Step at the left jamb. [mm]
        middle_mm: Step half way between the jambs. [mm]
        right_mm: Step at the right jamb. [mm]
        left_at: The left jamb in plan.
        right_at: The right jamb in plan.
    """

    wall: str
    opening: str
    path: str
    left_mm: float
    middle_mm: float
    right_mm: float
    left_at: XY
    right_at: XY

    @property
    def min_mm(self) -> float:
        """The least of the three. [mm]."""
        return min(self.left_mm, self.middle_mm, self.right_mm)

    @property
    def max_mm(self) -> float:
        """The greatest of the three. [mm]."""
        return max(self.left_mm, self.middle_mm, self.right_mm)

    @property
    def varies(self) -> bool:
        """Whether it differs from place to place by a whole millimetre."""
        return len({round(each) for each in (self.left_mm, self.middle_mm, self.right_mm)}) > 1

    @property
    def text(self) -> str:
        """The step in whole millimetres: one figure where it is the same everywhere, else three with their place."""
        left, middle, right = (f"{each:.0f}" for each in (self.left_mm, self.middle_mm, self.right_mm))
        if not self.varies:
            return f"{middle} mm"
        return f"{left} mm at the left jamb, {middle} mm in the middle, {right} mm at the right"


@dataclass(frozen=True, slots=True)
class FinishedArea:
    """The finished surface of one area.

    Attributes:
        area: Name of the area.
        surface: Its plane, or the planes into which it is folded.
        folding: How it is folded, in words.
        main_direction: Direction of the main fall with length one.
        main_fall: Fall in that direction, rise over run. [rise over run]
        cross_fall: Fall to the right of that direction, rise over run; negative to the left. [rise over run]
        corners: Finished levels at the corners of the outline, in order.
        spots: Finished levels at covers, gullies, doors and other places.
        clearances: Clearance to each damp-proof course met.
        doors: Step at each door met.
        fixed_by: What fixed the height, in words ("150 below the damp-proof course of wall House rear").
        workings: The sums behind falls and height.
    """

    area: str
    surface: FoldedSurface
    folding: str
    main_direction: XY
    main_fall: float
    cross_fall: float
    corners: tuple[SpotLevel, ...]
    spots: tuple[SpotLevel, ...]
    clearances: tuple[WallClearance, ...]
    doors: tuple[DoorStep, ...]
    fixed_by: str
    workings: tuple[Working, ...]

    @property
    def plane(self) -> Plane:
        """Its plane; of a folded surface the plane of the largest part."""
        return self.surface.main.plane

    @property
    def falls_text(self) -> str:
        """Its falls in words: main and cross fall, or the flattest and steepest of its planes."""
        if self.surface.is_plane:
            cross = f" and {units.fall_text(self.cross_fall)} across" if self.cross_fall else ""
            return f"{units.fall_text(self.main_fall)}{cross}"
        falls = sorted(facet.plane.fall for facet in self.surface.facets)
        flat, steep = units.fall_text(falls[0]), units.fall_text(falls[-1])
        return flat if flat == steep else f"{flat} to {steep}"

    @property
    def steepest_text(self) -> str:
        """Its steepest fall with the direction of it, in words."""
        plane = max((facet.plane for facet in self.surface.facets), key=lambda each: each.fall)
        return f"{units.fall_text(plane.fall)}, bearing {plane.bearing_deg:.0f}° from the y axis"

    @property
    def highest_mm(self) -> float:
        """Its highest level at a corner or a fold. [mm]."""
        return max(spot.level_mm for spot in (*self.corners, *self.spots))

    @property
    def lowest_mm(self) -> float:
        """Its lowest level at a corner or a fold. [mm]."""
        return min(spot.level_mm for spot in (*self.corners, *self.spots))


@dataclass(frozen=True, slots=True)
class Steps:
    """A flight of steps between two finished areas.

    Attributes:
        name: Name of the flight.
        upper_area: Area above.
        lower_area: Area below.
        start: Left end of the top nosing in plan.
        end: Right end of the top nosing in plan.
        rise_start_mm: Total rise at the start. [mm]
        rise_end_mm: Total rise at the end. [mm]
        risers: Number of equal risers.
        riser_mm: Height of each at the middle. [mm]
        going_mm: Going of each tread. [mm]
        working: The sum behind the riser.
    """

    name: str
    upper_area: str
    lower_area: str
    start: XY
    end: XY
    rise_start_mm: float
    rise_end_mm: float
    risers: int
    riser_mm: float
    going_mm: float
    working: Working


@dataclass(frozen=True)
class FoldOption:
    """One way to fold an area, as it was compared with the others.

    Attributes:
        kind: Which way it is, as in the job document.
        words: What it is.
        surface: Its planes; None where no levels keep every rule.
        cost_minor: Price of cut and fill under it; None without levels or known ground. [minor units]
        cut_m3: Soil dug. [m³]
        fill_m3: Soil filled. [m³]
        drains: Where water goes on it; None without levels.
        accepted: Whether it keeps every rule and drains.
        folds_m: Length of its folds, along which units are cut where no joint lies. [m]
        verdict: Whether it can be laid so, in words.
    """

    kind: Folding
    words: str
    surface: FoldedSurface | None
    cost_minor: float | None
    cut_m3: float | None
    fill_m3: float | None
    drains: Draining | None
    accepted: bool
    folds_m: float
    verdict: str


@dataclass(frozen=True)
class FoldStudy:
    """All ways to fold an area, in the order tried.

    Attributes:
        area: Name of the area.
        options: The ways.
        chosen: Number of the one taken.
    """

    area: str
    options: tuple[FoldOption, ...]
    chosen: int


@dataclass(frozen=True)
class Levels:
    """Finished levels everywhere."""

    areas: tuple[FinishedArea, ...]
    steps: tuple[Steps, ...]
    findings: tuple[Finding, ...]
    studies: tuple[FoldStudy, ...] = ()

    def area(self, name: str) -> FinishedArea:
        """Return the finished surface of an area."""
        return next(area for area in self.areas if area.area == name)
