"""What is dug of each soil, what stays, what fills, and what leaves."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.earthworks._loads import compacted_m3
from pavewright.earthworks._types import Dug, SoilDig
from pavewright.earthworks._volumes import volumes
from pavewright.sums import Working

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.earthworks._figures import SoilFigures
    from pavewright.geometry import FoldedSurface, Shape, TriangulatedSurface
    from pavewright.job import Ground


def soils_dug(
    ground: TriangulatedSurface, formation: FoldedSurface, shape: Shape, known: Ground, cut_m3: float
) -> tuple[SoilDig, ...]:
    """Return what is dug of each soil: the cut under the ground as it lies less that under its next layer.

    Args:
        ground: The ground as it lies.
        formation: How deep is dug.
        shape: Where.
        known: Depth of topsoil, layers under it; topsoil of unknown depth is not told apart.
        cut_m3: All that is dug, topsoil off everywhere. [m³]
    """
    under = [(Dug(stratum.soil), stratum.thickness_mm) for stratum in known.strata] or [(Dug(known.soil), None)]
    layers = [(Dug.TOPSOIL, known.topsoil_mm), *under] if known.topsoil_mm else under
    found, depth, left = [], 0.0, cut_m3
    for number, (soil, thickness) in enumerate(layers):
        last = number == len(layers) - 1 or thickness is None
        depth += thickness or 0.0
        below = 0.0 if last else volumes(ground.lowered(depth), formation, shape)[0].cut_m3
        found.append(SoilDig(soil, max(left - below, 0.0)))
        left = below
        if last:
            break
    return tuple(found)


def gathered(parts: Iterable[SoilDig]) -> tuple[SoilDig, ...]:
    """Return what is dug of each soil over all areas, soils in the order in which they come first."""
    found: dict[Dug, float] = {}
    for part in parts:
        found[part.soil] = found.get(part.soil, 0.0) + part.cut_m3
    return tuple(SoilDig(soil, cut_m3) for soil, cut_m3 in found.items())


def used_again(
    soils: tuple[SoilDig, ...], known: Ground, fill_m3: float, figures: SoilFigures
) -> tuple[dict[Dug, float], float, tuple[Working, ...]]:
    """Return what leaves of each soil in the ground, how much fill is made of it, and the sums.

    Fill is made of subsoil, the lowest first, each losing volume as it is compacted; what stays on the site is topsoil
    first, then from above.

    Args:
        soils: What is dug.
        known: Whether it may fill, and how much may stay.
        fill_m3: Fill wanted, compacted. [m³]
        figures: How soils shrink.

    """
    left = {each.soil: each.cut_m3 for each in soils}
    workings: list[Working] = []
    reused, wanted = 0.0, fill_m3 if known.reuse_as_fill else 0.0
    for dug in [each.soil for each in reversed(soils)]:
        if (soil := dug.soil) is None:
            continue
        figure = figures.shrink[soil]
        kept = compacted_m3(1.0, figure.value)
        taken = min(left[dug], wanted / kept)
        if taken <= 0.0:
            continue
        left[dug] -= taken
        wanted -= taken * kept
        reused += taken * kept
        words = f"fill from {dug.words} = {taken:.3f} × (1 − {figure.value:g} %)"
        workings.append(Working(words, taken * kept, "m³", (figure,), "in the ground to compacted"))
    stays = known.stays_m3
    for each in soils:
        taken = min(left[each.soil], stays)
        left[each.soil] -= taken
        stays -= taken
    kept_here = known.stays_m3 - stays
    if kept_here > 0.0:
        workings.append(Working("stays on the site", kept_here, "m³", (), "topsoil first, then from above"))
    return {soil: m3 for soil, m3 in left.items() if m3 > 0.0}, reused, tuple(workings)
