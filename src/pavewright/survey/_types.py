"""What the survey hands on: points that can be trusted, the reduced level books, the ground, and the site in plan."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from typing import TYPE_CHECKING

import shapely

from pavewright import units
from pavewright.survey._types_channels import taken_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.findings import Finding
    from pavewright.geometry import XY, Ring, Shape, Side, TriangulatedSurface
    from pavewright.job import Area, Beyond, Cover, Gully, Neighbour, Obstacle, Outfall, Service, Tree
    from pavewright.survey._types_channels import ChannelCut
    from pavewright.survey._types_known import AssumedFact, LevelNotRead
    from pavewright.survey._types_levels import LevelSource, LevelsTogether, ReducedLevelBook
    from pavewright.survey._types_shape import ShapeSoFar
    from pavewright.survey._types_tapes import AdjustedTapes, ErrorEllipse


class PlacedBy(StrEnum):
    """How a point got its place in plan."""

    GIVEN = "given"
    TAPES = "tapes"
    OFFSET = "offset"
    SKETCH = "sketch"


@dataclass(frozen=True, slots=True)
class SurveyedPoint:
    """A named point after adjustment.

    Attributes:
        name: Its name on the sketch.
        x_mm: East. [mm]
        y_mm: North. [mm]
        level_mm: Level above datum, adjusted; None where none was read. [mm]
        found_by: How it got its place.
        levelled_by: What gave it its level; None where it has none.
        sd_mm: Standard deviation of its place from the tapes, larger axis; None where nothing shows it. [mm]
        ellipse: The same as an ellipse; None where nothing shows it.
    """

    name: str
    x_mm: float
    y_mm: float
    level_mm: float | None
    found_by: PlacedBy
    levelled_by: LevelSource | None
    sd_mm: float | None = None
    ellipse: ErrorEllipse | None = None

    @property
    def xy(self) -> XY:
        """The point in plan."""
        return self.x_mm, self.y_mm

    @property
    def levelled_words(self) -> str:
        """What gave it its level, for a person; nothing where it has none."""
        return "" if self.levelled_by is None else self.levelled_by.words


@dataclass(frozen=True, slots=True)
class PlanOpening:
    """A door in plan: its two jambs and its threshold, None while it is not read."""

    name: str
    start: XY
    end: XY
    threshold_level_mm: float | None
    min_step_mm: float
    max_step_mm: float | None


@dataclass(frozen=True, slots=True)
class PlanAirBrick:
    """An air brick in plan; its underside is None while it is not read."""

    name: str
    at: XY
    underside_level_mm: float | None


@dataclass(frozen=True, slots=True)
class PlanWall:
    """A wall in plan. A house wall whose damp-proof course is None was not read: clearance is not known there."""

    name: str
    start: XY
    end: XY
    dpc_level_mm: float | None
    openings: tuple[PlanOpening, ...]
    air_bricks: tuple[PlanAirBrick, ...]
    is_house: bool = False


@dataclass(frozen=True, slots=True)
class PlanChannel:
    """A channel in plan."""

    name: str
    start: XY
    end: XY
    width_mm: float
    invert_level_mm: float | None
    outfall: str | None


@dataclass(frozen=True, slots=True)
class PlanBoundary:
    """A boundary in plan."""

    name: str
    start: XY
    end: XY
    neighbour: Neighbour
    top_level_mm: float | None


@dataclass(frozen=True, slots=True)
class PlanTieIn:
    """An edge of existing paving in plan, with its levels; None while they are not read."""

    name: str
    start: XY
    end: XY
    start_level_mm: float | None
    end_level_mm: float | None
    tolerance_mm: float
    beyond: Beyond


@dataclass(frozen=True, slots=True)
class PlacedGully:
    """A gully at its place."""

    gully: Gully
    at: XY


@dataclass(frozen=True, slots=True)
class PlacedCover:
    """A chamber cover at its place, with its outline and the level of its top; None while that is not read. [mm]."""

    cover: Cover
    at: XY
    outline: tuple[XY, ...]
    level_mm: float | None


@dataclass(frozen=True, slots=True)
class PlacedObstacle:
    """Something the paving is cut round, with its outline."""

    obstacle: Obstacle
    at: XY
    outline: tuple[XY, ...]


@dataclass(frozen=True, slots=True)
class PlacedTree:
    """A tree at its place."""

    tree: Tree
    at: XY


@dataclass(frozen=True, slots=True)
class PlacedService:
    """A known service as a line of points."""

    service: Service
    points: tuple[XY, ...]


@dataclass(frozen=True, slots=True)
class PlanArea:
    """A paved area in plan.

    Attributes:
        area: The part of the job document.
        ring: Outer outline, anticlockwise, with arc sides.
        holes: Outlines of holes as entered.
        shape: What is paved: outline less holes, less covers, obstacles and gullies that stand in it.
        gross: Outline less entered holes only, before covers, obstacles and gullies are taken out.
        path: Where it stands in the job document ("areas.0").
        channels: What channels that run through it take of it, over their whole width; no unit lies there.
    """

    area: Area
    ring: Ring
    holes: tuple[Ring, ...]
    shape: Shape
    gross: Shape
    path: str
    channels: tuple[ChannelCut, ...] = ()

    @property
    def name(self) -> str:
        """Name of the area."""
        return self.area.name

    @property
    def laid_m2(self) -> float:
        """What is paved less the channels that run through it. [m²]."""
        taken = float(shapely.area(taken_of(self.shape, self.channels))) if self.channels else 0.0
        return self.shape.area_m2 - units.mm2_to_m2(taken)

    @property
    def sides(self) -> tuple[Side, ...]:
        """Sides of the outer outline."""
        return self.ring.sides

    def side_from(self, corner: str) -> Side:
        """Return the side that leaves a corner in the order in which the document walks the outline.

        The ring runs anticlockwise whichever way the document walks, so the same side may end at that corner here.
        """
        names = [entered.point for entered in self.area.outline]
        following = names[(names.index(corner) + 1) % len(names)]
        ends = {(side.start.name, side.end.name): side for side in reversed(self.sides)}
        return ends.get((corner, following)) or ends[following, corner]


@dataclass(frozen=True)
class SitePlan:
    """The site in plan: every feature at its place."""

    areas: tuple[PlanArea, ...]
    walls: tuple[PlanWall, ...] = ()
    outfalls: tuple[Outfall, ...] = ()
    gullies: tuple[PlacedGully, ...] = ()
    channels: tuple[PlanChannel, ...] = ()
    covers: tuple[PlacedCover, ...] = ()
    obstacles: tuple[PlacedObstacle, ...] = ()
    trees: tuple[PlacedTree, ...] = ()
    boundaries: tuple[PlanBoundary, ...] = ()
    tie_ins: tuple[PlanTieIn, ...] = ()
    services: tuple[PlacedService, ...] = ()
    north_bearing_deg: float | None = None

    def area(self, name: str) -> PlanArea:
        """Return the area with this name."""
        return self._areas[name]

    @cached_property
    def _areas(self) -> Mapping[str, PlanArea]:
        return {area.name: area for area in reversed(self.areas)}


@dataclass(frozen=True)
class Survey:
    """What the survey hands on.

    Attributes:
        points: Every named point, in the order of the document.
        level_books: The reduced level books.
        tapes: The adjusted tape plan; None where there is none.
        ground: Triangles between the spot levels of the ground; None with fewer than three.
        site: The site in plan.
        assumptions: What could not be seen, as statements to put into the quotation.
        findings: What was noticed.
        levels_together: All level readings adjusted together, where that is asked for.
        dpc_not_read: Names of the house walls beside the paving whose damp-proof course nobody read.
        shape: How far the shape is fixed, in a job that has a sketch; None in one that has none.
        assumed: Everything that is assumed, in the order of the document.
        not_read: Levels near the paving that nobody read; all of them while no area is drawn.
    """

    points: tuple[SurveyedPoint, ...]
    level_books: tuple[ReducedLevelBook, ...]
    tapes: AdjustedTapes | None
    ground: TriangulatedSurface | None
    site: SitePlan
    assumptions: tuple[str, ...]
    findings: tuple[Finding, ...]
    levels_together: LevelsTogether | None = None
    dpc_not_read: tuple[str, ...] = ()
    shape: ShapeSoFar | None = None
    assumed: tuple[AssumedFact, ...] = ()
    not_read: tuple[LevelNotRead, ...] = ()

    def point(self, name: str) -> SurveyedPoint:
        """Return the point with this name; ``parse`` has checked that it is there."""
        return self._points[name]

    @cached_property
    def _points(self) -> Mapping[str, SurveyedPoint]:
        return {point.name: point for point in reversed(self.points)}
