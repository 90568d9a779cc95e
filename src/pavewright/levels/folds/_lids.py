"""Lids in a folded surface: a frame tilts with the paving and does not bend, so that no fold runs across it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shapely.geometry import LineString, Polygon

from pavewright.findings import Finding, Option, Severity
from pavewright.geometry import fit_plane
from pavewright.levels._codes import Code
from pavewright.levels.folds import _words as words

if TYPE_CHECKING:
    from pavewright.geometry import XY, FoldedSurface
    from pavewright.survey import PlacedCover, PlanArea, SitePlan

_COUNTS_MM = 1.0
"""A fold that runs over a lid for less than this does not cross it. [mm]"""


def lid_misfit_mm(outline: tuple[XY, ...], surface: FoldedSurface) -> float:
    """Return how far a folded surface stands off the plane that fits it best, round a lid; zero where no fold crosses.

    Source: definition, least squares through the corners of the lid and the places where folds cross its edge
    """
    lid = Polygon(outline)
    places: list[XY] = list(outline)
    crossed = False
    for fold in surface.folds:
        cut = LineString([fold.start, fold.end]).intersection(lid)
        if isinstance(cut, LineString) and cut.length > _COUNTS_MM:
            crossed = True
            places += [(float(x), float(y)) for x, y in cut.coords]
    if not crossed:
        return 0.0
    levels = [(x, y, surface.level_at((x, y))) for x, y in places]
    plane = fit_plane(levels)
    return max(abs(level - plane.level_at((x, y))) for x, y, level in levels)


def _bent(area: PlanArea, surface: FoldedSurface, site: SitePlan) -> list[tuple[PlacedCover, float]]:
    """Return the lids that no tilt makes fit, each with how far it is off."""
    if surface.is_plane:
        return []
    inside = [placed for placed in site.covers if area.gross.contains(placed.at)]
    found = [(placed, lid_misfit_mm(placed.outline, surface)) for placed in inside]
    return [(placed, off) for placed, off in found if off > placed.cover.tolerance_mm]


def lids_fit(area: PlanArea, surface: FoldedSurface, site: SitePlan) -> bool:
    """Return whether every lid lies within its tolerance in one plane."""
    return not _bent(area, surface, site)


def lid_findings(
    area: PlanArea, surface: FoldedSurface, site: SitePlan, others: tuple[Option, ...]
) -> tuple[Finding, ...]:
    """Return a stop for every lid that a fold runs across, with the other ways to fold the area."""
    moved = Option(words.move_fold())
    return tuple(
        Finding(
            Code.LID_ON_FOLD,
            Severity.STOP,
            f"area {area.name}, cover {placed.cover.name}",
            words.lid_on_fold(area.name, placed, off),
            off,
            placed.cover.tolerance_mm,
            "mm",
            at_mm=placed.at,
        ).with_options((*others, moved))
        for placed, off in _bent(area, surface, site)
    )
