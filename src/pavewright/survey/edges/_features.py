"""What stands on the site, each at its place in plan."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.geometry import distance, point_along
from pavewright.job import AssumedLevel
from pavewright.survey._remarks import Remarks, metres
from pavewright.survey._types import (
    PlacedCover,
    PlacedGully,
    PlacedObstacle,
    PlacedService,
    PlacedTree,
    PlanAirBrick,
    PlanBoundary,
    PlanChannel,
    PlanOpening,
    PlanTieIn,
    PlanWall,
)
from pavewright.survey.edges._outlines import circle, rectangle

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from pavewright.geometry import XY
    from pavewright.job import LevelOrPoint, MeasuredCurve, Obstacle, Site, Wall
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey.levelling import KnownLevel


@dataclass(frozen=True, slots=True)
class Places:
    """Where points stand, and which names some measurement gives even if it could not be placed."""

    places: Mapping[str, XY]
    named: frozenset[str]
    remarks: Remarks
    levels: Mapping[str, KnownLevel]
    heights: Remarks
    curves: tuple[MeasuredCurve, ...] = ()

    def find(self, path: str, what: str, names: Iterable[str]) -> tuple[XY, ...] | None:
        """Return the places of points; None where one has no place, which is reported unless it was before."""
        names = tuple(names)
        for name in names:
            if name not in self.named:
                self.remarks.fault(
                    path, f"{what} names point {name}, which is not measured: measure it, or correct the name."
                )
        if any(name not in self.places for name in names):
            return None
        return tuple(self.places[name] for name in names)

    def level(self, path: str, what: str, given: LevelOrPoint | None) -> float | None:
        """Return a level that is written down, assumed, or read at a named point; None where it was not read. [mm]."""
        if isinstance(given, AssumedLevel):
            return given.assumed_mm
        if not isinstance(given, str):
            return given
        if given in self.levels:
            return self.levels[given].level_mm
        self.heights.fault(
            path,
            f"{what} is said to be that of point {given}, and nothing gives {given} a level: read the staff there and "
            f"book it, correct the name, or write the level as a number without quotation marks.",
        )
        return None

    def line(self, path: str, what: str, start: str, end: str) -> tuple[XY, XY] | None:
        """Return both ends of a line; a line of no length is reported."""
        ends = self.find(path, what, (start, end))
        if ends is None:
            return None
        if distance(ends[0], ends[1]) == 0.0:
            self.remarks.fault(path, f"{what} starts and ends on one place: measure {start} and {end} again.")
            return None
        return ends[0], ends[1]


@dataclass(frozen=True)
class Features:
    """Everything on the site but the areas."""

    walls: tuple[PlanWall, ...]
    gullies: tuple[PlacedGully, ...]
    channels: tuple[PlanChannel, ...]
    covers: tuple[PlacedCover, ...]
    obstacles: tuple[PlacedObstacle, ...]
    trees: tuple[PlacedTree, ...]
    boundaries: tuple[PlanBoundary, ...]
    tie_ins: tuple[PlanTieIn, ...]
    services: tuple[PlacedService, ...]


def place_features(site: Site, where: Places, figures: SurveyFigures) -> Features:
    """Return every feature at its place; one whose points are not known is reported and left out."""
    return Features(
        walls=_walls(site, where, figures.opening_past_wall_mm.value),
        gullies=tuple(
            PlacedGully(gully, at[0])
            for number, gully in enumerate(site.gullies)
            if (at := where.find(f"site.gullies.{number}.point", f"Gully {gully.name}", (gully.point,)))
        ),
        channels=_channels(site, where),
        covers=tuple(
            PlacedCover(
                cover,
                at[0],
                rectangle(at[0], cover.length_mm, cover.width_mm, cover.bearing_deg),
                where.level(f"site.covers.{number}.level_mm", f"The level of cover {cover.name}", cover.level_mm),
            )
            for number, cover in enumerate(site.covers)
            if (at := where.find(f"site.covers.{number}.point", f"Cover {cover.name}", (cover.point,)))
        ),
        obstacles=_obstacles(site, where),
        trees=tuple(
            PlacedTree(tree, at[0])
            for number, tree in enumerate(site.trees)
            if (at := where.find(f"site.trees.{number}.point", f"Tree {tree.name}", (tree.point,)))
        ),
        boundaries=_boundaries(site, where),
        tie_ins=_tie_ins(site, where),
        services=tuple(
            PlacedService(service, points)
            for number, service in enumerate(site.services)
            if (points := where.find(f"site.services.{number}.points", f"Service {service.name}", service.points))
        ),
    )


def _walls(site: Site, where: Places, allowed_mm: float) -> tuple[PlanWall, ...]:
    found = []
    for number, wall in enumerate(site.walls):
        path = f"site.walls.{number}"
        ends = where.line(path, f"Wall {wall.name}", wall.start, wall.end)
        if ends is None:
            continue
        _tell_past_end(path, wall, distance(*ends), allowed_mm, where.remarks)
        found.append(
            PlanWall(
                name=wall.name,
                start=ends[0],
                end=ends[1],
                dpc_level_mm=where.level(
                    f"{path}.dpc_level_mm", f"The damp-proof course of wall {wall.name}", wall.dpc_level_mm
                ),
                openings=_openings(wall, path, ends, where),
                air_bricks=tuple(
                    PlanAirBrick(
                        brick.name,
                        point_along(*ends, brick.along_mm),
                        where.level(
                            f"{path}.air_bricks.{place}.underside_level_mm",
                            f"The underside of air brick {brick.name}",
                            brick.underside_level_mm,
                        ),
                    )
                    for place, brick in enumerate(wall.air_bricks)
                ),
                is_house=wall.is_house,
            )
        )
    return tuple(found)


def _openings(wall: Wall, path: str, ends: tuple[XY, XY], where: Places) -> tuple[PlanOpening, ...]:
    return tuple(
        PlanOpening(
            name=opening.name,
            start=point_along(*ends, opening.along_mm),
            end=point_along(*ends, opening.along_mm + opening.width_mm),
            threshold_level_mm=where.level(
                f"{path}.openings.{place}.threshold_level_mm",
                f"The threshold of {opening.name}",
                opening.threshold_level_mm,
            ),
            min_step_mm=opening.min_step_mm,
            max_step_mm=opening.max_step_mm,
        )
        for place, opening in enumerate(wall.openings)
    )


def _tell_past_end(path: str, wall: Wall, length_mm: float, allowed_mm: float, remarks: Remarks) -> None:
    """Report openings and air bricks that reach past the end of their wall by more than tapes are out."""
    entries = [
        (f"{path}.openings.{number}", f"Opening {opening.name}", opening.along_mm + opening.width_mm)
        for number, opening in enumerate(wall.openings)
    ] + [
        (f"{path}.air_bricks.{number}", f"Air brick {brick.name}", brick.along_mm)
        for number, brick in enumerate(wall.air_bricks)
    ]
    for entry_path, what, reach_mm in entries:
        if reach_mm > length_mm + allowed_mm:
            remarks.fault(
                entry_path,
                f"{what} reaches {metres(reach_mm)} along wall {wall.name}, which is {metres(length_mm)} long: measure "
                f"it from {wall.start} again.",
            )


def _channels(site: Site, where: Places) -> tuple[PlanChannel, ...]:
    return tuple(
        PlanChannel(channel.name, *ends, channel.width_mm, channel.invert_level_mm, channel.outfall)
        for number, channel in enumerate(site.channels)
        if (ends := where.line(f"site.channels.{number}", f"Channel {channel.name}", channel.start, channel.end))
    )


def _boundaries(site: Site, where: Places) -> tuple[PlanBoundary, ...]:
    return tuple(
        PlanBoundary(boundary.name, *ends, boundary.neighbour, boundary.top_level_mm)
        for number, boundary in enumerate(site.boundaries)
        if (ends := where.line(f"site.boundaries.{number}", f"Boundary {boundary.name}", boundary.start, boundary.end))
    )


def _tie_ins(site: Site, where: Places) -> tuple[PlanTieIn, ...]:
    return tuple(
        PlanTieIn(
            edge.name,
            *ends,
            where.level(f"site.tie_ins.{number}.start_level_mm", f"The start of edge {edge.name}", edge.start_level_mm),
            where.level(f"site.tie_ins.{number}.end_level_mm", f"The end of edge {edge.name}", edge.end_level_mm),
            edge.tolerance_mm,
            edge.beyond,
        )
        for number, edge in enumerate(site.tie_ins)
        if (ends := where.line(f"site.tie_ins.{number}", f"Edge {edge.name}", edge.start, edge.end))
    )


def _obstacles(site: Site, where: Places) -> tuple[PlacedObstacle, ...]:
    found = []
    for number, obstacle in enumerate(site.obstacles):
        path = f"site.obstacles.{number}"
        at = where.find(f"{path}.point", f"Obstacle {obstacle.name}", (obstacle.point,))
        if at is None:
            continue
        outline = _obstacle_outline(obstacle, at[0])
        if outline is None:
            where.remarks.fault(
                path, f"Obstacle {obstacle.name} needs either a diameter, or a length and a width: measure it."
            )
            continue
        found.append(PlacedObstacle(obstacle, at[0], outline))
    return tuple(found)


def _obstacle_outline(obstacle: Obstacle, at: XY) -> tuple[XY, ...] | None:
    sides = (obstacle.length_mm, obstacle.width_mm)
    if obstacle.diameter_mm is not None and sides == (None, None):
        return circle(at, obstacle.diameter_mm)
    if obstacle.diameter_mm is None and obstacle.length_mm is not None and obstacle.width_mm is not None:
        return rectangle(at, obstacle.length_mm, obstacle.width_mm, obstacle.bearing_deg)
    return None
