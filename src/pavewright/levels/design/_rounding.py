"""Levels as they are printed: whole millimetres, checked against the rules once more."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import Finding, Severity
from pavewright.geometry import fit_plane
from pavewright.levels._codes import Code
from pavewright.levels.design import _words as words

if TYPE_CHECKING:
    from pavewright.geometry import FoldedSurface
    from pavewright.survey import PlanArea

_NEAR = 0.95
"""A fall that loses less than a twentieth to whole millimetres is not reported."""


def rounding_findings(area: PlanArea, surface: FoldedSurface, min_fall: float) -> tuple[Finding, ...]:
    """Return a note for every plane whose printed levels give it less than its least fall, and by how much it twists.

    The printed levels of a plane's corners are fitted by a plane again: its fall is what strings on those levels carry,
    and how far a corner stands off it is the twist that rounding made, a millimetre at most.

    Args:
        area: The area.
        surface: Its planes as designed.
        min_fall: Least fall that a plane may have. [rise over run]
    """
    found = []
    for number, facet in enumerate(surface.facets, start=1):
        printed = [(x, y, float(round(facet.plane.level_at((x, y))))) for x, y in facet.outline]
        try:
            strung = fit_plane(printed)
        except ValueError:
            continue
        twist = max(abs(level - strung.level_at((x, y))) for x, y, level in printed)
        if strung.fall >= min_fall * _NEAR:
            continue
        inside = facet.polygon.representative_point()
        found.append(
            Finding(
                Code.ROUNDED_FLATTER,
                Severity.NOTE,
                f"area {area.name}",
                words.rounded_flatter(area.name, number, facet.plane.fall, strung.fall, twist),
                strung.fall,
                min_fall,
                "-",
                at_mm=(inside.x, inside.y),
            )
        )
    return tuple(found)
