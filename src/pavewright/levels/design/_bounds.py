"""What fixes or limits the height of an area: each thing as a lowest and a highest level at a place."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright.findings import ChainLink, Owner
from pavewright.geometry import along_and_offset
from pavewright.job import Beyond
from pavewright.levels._formulas import highest_beside_wall_mm
from pavewright.levels.design import _words as words
from pavewright.levels.design._rule import Rule, RuleKind
from pavewright.levels.edges import beyond_of, contacts

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.levels._figures import LevelFigures
    from pavewright.levels.edges import Contact
    from pavewright.rules import Figure
    from pavewright.survey import PlanArea, PlanOpening, PlanWall, SitePlan, Survey


@dataclass(frozen=True, slots=True)
class Bound:
    """A limit on the finished level at one place.

    Attributes:
        kind: What it is about.
        thing: What sets it, in the job's words ("wall House rear").
        at: Where it holds.
        low_mm: Lowest finished level; minus infinity where there is none. [mm]
        high_mm: Highest finished level; infinity where there is none. [mm]
        fixed_mm: Level of the thing itself. [mm]
        locked: Whether it is not the contractor's to relax.
        words: The limit as a sentence with its levels.
        figure: Figure that set it, if a rule did.
        path: Where the thing stands in the job document ("site.covers.0").
        owner: Whose the thing is.
        part: Which part of the thing it is, in words that go before it; empty for its middle or the whole of it.
    """

    kind: RuleKind
    thing: str
    at: XY
    low_mm: float
    high_mm: float
    fixed_mm: float
    locked: bool
    words: str
    path: str
    figure: Figure | None = None
    owner: Owner = Owner.OWN
    part: str = ""

    @property
    def rule(self) -> Rule:
        """The rule that it is a part of: all bounds of one thing and of one kind give way together."""
        return Rule(self.kind, self.path)

    @property
    def link(self) -> ChainLink:
        """The limit as a link of a chain of levels: it leads to the level that it allows."""
        ends = [level for level in (self.low_mm, self.high_mm) if not math.isinf(level)]
        return ChainLink(self.words, ends[0] if len(ends) == 1 else self.fixed_mm)

    @property
    def wants_mm(self) -> float | None:
        """The level that it would like best; None where it only limits. [mm]."""
        if math.isinf(self.low_mm) or math.isinf(self.high_mm):
            return None
        return (self.low_mm + self.high_mm) / 2.0


def bounds(area: PlanArea, survey: Survey, figures: LevelFigures, also: tuple[XY, ...] = ()) -> tuple[Bound, ...]:
    """Return everything on the site that limits the height of an area, other areas apart.

    Args:
        area: The area.
        survey: The site.
        figures: The figures of the levels.
        also: Corners of the planes of a folded surface: a limit along a line holds at those on it too.
    """
    site = survey.site
    found: list[Bound] = []
    for number, wall in enumerate(site.walls):
        found.extend(_wall_bounds(area, number, wall, figures, also))
    found.extend(_cover_bounds(area, site))
    found.extend(_gully_bounds(area, site, figures.gully_tolerance.value))
    within = figures.meets_mm
    for number, tie in enumerate(site.tie_ins):
        if tie.start_level_mm is None or tie.end_level_mm is None:
            continue
        for contact in contacts(area, tie.start, tie.end, within):
            for at, along in places_on(contact, tie.start, tie.end, also):
                run = math.dist(tie.start, tie.end)
                level = tie.start_level_mm + (tie.end_level_mm - tie.start_level_mm) * along / run
                path = tie_in_path(number)
                met = _equal(RuleKind.TIE_IN, f"the edge {tie.name}", at, level, tie.tolerance_mm, path)
                found.append(replace(met, owner=OWNERS[beyond_of(tie, site, within)]))
    return tuple(found)


def door_path(wall: int, opening: int) -> str:
    """Return where a door stands in the job document, by the number of its wall and its own."""
    return f"site.walls.{wall}.openings.{opening}"


def tie_in_path(number: int) -> str:
    """Return where an edge to meet stands in the job document, by its number."""
    return f"site.tie_ins.{number}"


OWNERS = {
    Beyond.OWN_PAVING: Owner.OWN,
    Beyond.OWN_GROUND: Owner.OWN,
    Beyond.NEIGHBOUR: Owner.NEIGHBOUR,
    Beyond.HIGHWAY: Owner.HIGHWAY,
    Beyond.NOT_KNOWN: Owner.NOT_KNOWN,
}
"""Whose paving it is that lies past an edge."""


def _wall_bounds(
    area: PlanArea, wall_number: int, wall: PlanWall, figures: LevelFigures, also: tuple[XY, ...]
) -> list[Bound]:
    found: list[Bound] = []
    path = f"site.walls.{wall_number}"
    below = figures.below_dpc
    for contact in contacts(area, wall.start, wall.end, figures.meets_mm):
        if wall.dpc_level_mm is not None:
            high = highest_beside_wall_mm(wall.dpc_level_mm, below.value)
            said = words.below_dpc(wall.name, wall.dpc_level_mm, below, high)
            found.extend(
                _upper(RuleKind.DPC, f"wall {wall.name}", at, high, wall.dpc_level_mm, said, path, below)
                for at, _ in places_on(contact, wall.start, wall.end, also)
            )
        for number, brick in enumerate(wall.air_bricks):
            along = math.dist(wall.start, brick.at)
            if brick.underside_level_mm is not None and contact.from_mm <= along <= contact.to_mm:
                clear = figures.below_air_brick
                said = words.below_air_brick(brick.name, brick.underside_level_mm, clear)
                level, thing = brick.underside_level_mm, f"air brick {brick.name}"
                own = f"{path}.air_bricks.{number}"
                found.append(_upper(RuleKind.AIR_BRICK, thing, brick.at, level - clear.value, level, said, own, clear))
        for number, door in enumerate(wall.openings):
            if door.threshold_level_mm is None:
                continue
            if contact.overlaps(math.dist(wall.start, door.start), math.dist(wall.start, door.end)):
                found.extend(_door_bounds(door, door.threshold_level_mm, door_path(wall_number, number)))
    return found


def places_on(contact: Contact, start: XY, end: XY, also: tuple[XY, ...]) -> list[tuple[XY, float]]:
    """Return the ends of a stretch, and the corners that lie on it between them, each with how far along it lies."""
    found = [(contact.start, contact.from_mm), (contact.end, contact.to_mm)]
    for corner in also:
        along, offset = along_and_offset(start, end, corner)
        if abs(offset) <= _NEAR_MM and contact.from_mm + 1.0 < along < contact.to_mm - 1.0:
            found.append((corner, along))
    return found


_NEAR_MM = 50.0
"""A corner of a plane this near to a line stands at it. [mm]"""


def _door_bounds(door: PlanOpening, threshold_mm: float, path: str) -> list[Bound]:
    found: list[Bound] = []
    for at in (door.start, door.end):
        level = threshold_mm - door.min_step_mm
        found.append(
            _upper(RuleKind.DOOR, door.name, at, level, threshold_mm, words.step_down(door, threshold_mm), path)
        )
        if door.max_step_mm is not None:
            found.append(
                Bound(
                    kind=RuleKind.DOOR_REACH,
                    thing=door.name,
                    at=at,
                    low_mm=threshold_mm - door.max_step_mm,
                    high_mm=math.inf,
                    fixed_mm=threshold_mm,
                    locked=False,
                    words=words.greatest_step_down(door, threshold_mm, door.max_step_mm),
                    path=path,
                )
            )
    return found


def _cover_bounds(area: PlanArea, site: SitePlan) -> list[Bound]:
    """Return the limits of lids that may not move: at the middle and at every corner that the paving meets."""
    found = []
    for number, placed in enumerate(site.covers):
        level, thing = placed.level_mm, f"cover {placed.cover.name}"
        if not placed.cover.fixed or level is None or not area.gross.contains(placed.at):
            continue
        path, tolerance = f"site.covers.{number}", placed.cover.tolerance_mm
        read = placed.cover.corner_levels_mm
        found.append(_equal(RuleKind.COVER, thing, placed.at, level, tolerance, path, Owner.NOT_KNOWN))
        for corner, at in enumerate(placed.outline):
            if area.gross.contains(at):
                lies = level if read is None else read[corner]
                said = words.corner_of_lid(thing, lies, tolerance, read=read is not None)
                made = _equal(RuleKind.COVER, thing, at, lies, tolerance, path, Owner.NOT_KNOWN)
                found.append(replace(made, words=said, part="a corner of "))
    return found


def _gully_bounds(area: PlanArea, site: SitePlan, tolerance_mm: float) -> list[Bound]:
    return [
        _equal(
            RuleKind.GULLY,
            f"gully {placed.gully.name}",
            placed.at,
            placed.gully.grating_level_mm,
            tolerance_mm,
            f"site.gullies.{number}",
        )
        for number, placed in enumerate(site.gullies)
        if placed.gully.fixed and placed.gully.grating_level_mm is not None and area.gross.contains(placed.at)
    ]


def _upper(
    kind: RuleKind,
    thing: str,
    at: XY,
    high_mm: float,
    fixed_mm: float,
    said: str,
    path: str,
    figure: Figure | None = None,
) -> Bound:
    return Bound(kind, thing, at, -math.inf, high_mm, fixed_mm, kind is not RuleKind.DOOR, said, path, figure)


def _equal(
    kind: RuleKind, thing: str, at: XY, level_mm: float, tolerance_mm: float, path: str, owner: Owner = Owner.OWN
) -> Bound:
    said = words.met_within(thing, level_mm, tolerance_mm)
    low, high = level_mm - tolerance_mm, level_mm + tolerance_mm
    return Bound(kind, thing, at, low, high, level_mm, locked=False, words=said, path=path, owner=owner)


def meet(other: PlanArea, at: XY, level_mm: float, figure: Figure) -> Bound:
    """Return the bound by which an area meets a neighbour that has its levels already."""
    return Bound(
        RuleKind.JOIN,
        f"area {other.name}",
        at,
        level_mm - figure.value,
        level_mm + figure.value,
        level_mm,
        locked=False,
        words=words.area_met(other.name, level_mm, figure),
        path=other.path,
        figure=figure,
    )
