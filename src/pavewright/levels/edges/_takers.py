"""Who takes the water at an edge: one meaning for planes cut into strips and for folded areas on cells."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from shapely.geometry import LineString, Point

from pavewright.job import Beyond, Neighbour

if TYPE_CHECKING:
    from collections.abc import Iterator

    from shapely.geometry.base import BaseGeometry

    from pavewright.survey import PlanArea, PlanBoundary, PlanTieIn, SitePlan

SHARED_MM = 20.0
"""Another area this near shares the edge. [mm]"""
_ALONG = 0.5
"""A line leaves an edge that it runs along by less than this part of its length. [-]"""


class TakerKind(StrEnum):
    """What takes water."""

    GULLY = "gully"
    CHANNEL = "channel"
    WALL = "wall"
    KERB = "kerb"
    FREE_EDGE = "free_edge"
    BOUNDARY = "boundary"
    TIE_IN = "tie_in"
    NEXT_AREA = "next_area"


_KIND_WORDS = {TakerKind.FREE_EDGE: "edge", TakerKind.NEXT_AREA: "area", TakerKind.TIE_IN: "paving"}
THEIRS = frozenset({Beyond.NEIGHBOUR, Beyond.HIGHWAY})
"""What is not the owner's: water may not be sent there."""
NO_DRAIN = frozenset({TakerKind.FREE_EDGE, TakerKind.BOUNDARY, TakerKind.TIE_IN, TakerKind.NEXT_AREA})
"""Takers that are no drain: the water runs past."""


@dataclass(frozen=True, slots=True)
class Taker:
    """Who takes water.

    Attributes:
        kind: What it is.
        name: Its name: of the drain, wall, side, boundary, edge to meet or area.
        beyond: What lies past a boundary or an edge to meet; None for the others.
        disputed_by: Boundary with others at an edge to meet that is said to be the owner's; None where there is none.
    """

    kind: TakerKind
    name: str
    beyond: Beyond | None = None
    disputed_by: str | None = None

    @property
    def outlet(self) -> str:
        """Key of the outlet on cells: what comes before the name keeps takers apart, however things are named."""
        return f"{self.kind.value}:{'' if self.beyond is None else self.beyond.value}:{self.name}"

    @property
    def words(self) -> str:
        """Say who takes it to a user."""
        return f"{_KIND_WORDS.get(self.kind, self.kind.value)} {self.name}"

    @property
    def is_theirs(self) -> bool:
        """Whether water there is on somebody else's ground."""
        return self.beyond in THEIRS


def past_edge(piece: LineString, area: PlanArea, site: SitePlan, meets_mm: float) -> Taker | None:
    """Return what lies past a piece of free edge: the next area, a boundary or paving to meet; None where nothing does.

    What an edge to meet says of itself goes first, a boundary at it next. Where both say nothing, it is not known.
    """
    middle = piece.interpolate(0.5, normalized=True)
    for other in site.areas:
        if other.name != area.name and middle.distance(other.gross.polygon) <= SHARED_MM:
            return Taker(TakerKind.NEXT_AREA, other.name)
    lines = sorted((each for each in site.boundaries if runs_along(piece, each, meets_mm)), key=_is_own)
    tie = next((each for each in site.tie_ins if runs_along(piece, each, meets_mm)), None)
    if tie is not None and tie.beyond is not Beyond.NOT_KNOWN:
        disputed = next((each.name for each in lines if not _is_own(each)), None)
        return Taker(TakerKind.TIE_IN, tie.name, tie.beyond, None if tie.beyond in THEIRS else disputed)
    if tie is not None and (not lines or _is_own(lines[0])):
        return Taker(TakerKind.TIE_IN, tie.name, Beyond.OWN_PAVING if lines else Beyond.NOT_KNOWN)
    return Taker(TakerKind.BOUNDARY, lines[0].name, LINE_BEYOND[lines[0].neighbour]) if lines else None


LINE_BEYOND = {
    Neighbour.NEIGHBOUR: Beyond.NEIGHBOUR,
    Neighbour.HIGHWAY: Beyond.HIGHWAY,
    Neighbour.OWN: Beyond.OWN_GROUND,
}
"""What lies past a boundary, by the word of the job document."""


def beyond_of(tie: PlanTieIn, site: SitePlan, meets_mm: float) -> Beyond:
    """Return what lies past an edge to meet as a whole: as entered, else by a boundary that runs along it."""
    if tie.beyond is not Beyond.NOT_KNOWN:
        return tie.beyond
    edge = LineString([tie.start, tie.end])
    lines = sorted((each for each in site.boundaries if runs_along(edge, each, meets_mm)), key=_is_own)
    if not lines:
        return Beyond.NOT_KNOWN
    return Beyond.OWN_PAVING if _is_own(lines[0]) else LINE_BEYOND[lines[0].neighbour]


def _is_own(line: PlanBoundary) -> bool:
    return LINE_BEYOND[line.neighbour] not in THEIRS


def runs_along(piece: LineString, line: PlanTieIn | PlanBoundary, meets_mm: float) -> bool:
    """Return whether a line stands at a piece of edge and runs along it, not away from it at a corner."""
    other = LineString([line.start, line.end])
    if piece.interpolate(0.5, normalized=True).distance(other) > meets_mm:
        return False
    ends = [Point(each).distance(other) for each in (piece.coords[0], piece.coords[-1])]
    return abs(ends[0] - ends[1]) <= _ALONG * piece.length


def edge_zones(area: PlanArea, site: SitePlan, meets_mm: float) -> Iterator[BaseGeometry]:
    """Give the ground on which something stands at an edge: its outlines cut the edge into pieces of one taker each."""
    for other in site.areas:
        if other.name != area.name:
            yield other.gross.polygon.buffer(SHARED_MM)
    lines: list[PlanTieIn | PlanBoundary] = [*site.tie_ins, *site.boundaries]
    for line in lines:
        yield LineString([line.start, line.end]).buffer(meets_mm)
