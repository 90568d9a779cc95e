"""The dig with all topsoil off: what is dug, what room is filled, and what a depth that nobody measured may add."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.earthworks._types import Spread, TopsoilAllowance
from pavewright.earthworks._volumes import volumes
from pavewright.geometry import PrismVolumes
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.geometry import FoldedSurface, Shape, TriangulatedSurface
    from pavewright.rules import Figure

_NOTHING_M3 = 1e-6


def stripped_volumes(
    ground: TriangulatedSurface, formation: FoldedSurface, shape: Shape, topsoil_mm: float
) -> tuple[PrismVolumes, float]:
    """Return cut and fill where all topsoil goes, and the area past the outermost spot levels. [m²].

    All topsoil is dug over the whole shape, and subsoil down to formation where that lies deeper; where formation lies
    above the stripped ground the room between is fill. Net volume is the same as without topsoil: what is dug more is
    filled again.

    Args:
        ground: The ground as it lies.
        formation: How deep is dug for the build-up.
        shape: Where.
        topsoil_mm: Depth of topsoil. [mm]

    Source: definition, cut = topsoil · area + cut under the stripped ground
    """
    under, beyond_m2 = volumes(ground.lowered(topsoil_mm), formation, shape)
    found = PrismVolumes(
        cut_m3=under.cut_m3 + under.area_m2 * units.mm_to_m(topsoil_mm),
        fill_m3=under.fill_m3,
        area_m2=under.area_m2,
        deepest_mm=max(under.deepest_mm, 0.0) + topsoil_mm,
        shallowest_mm=under.shallowest_mm + topsoil_mm,
    )
    return found, beyond_m2


def topsoil_allowance(
    area: str,
    ground: TriangulatedSurface,
    formation: FoldedSurface,
    shape: Shape,
    figure: Figure,
) -> TopsoilAllowance | None:
    """Return what topsoil of unknown depth adds to the dig and the fill, as a range; None where it adds nothing.

    It adds nothing where the dig to formation goes below all topsoil that may be expected.

    Args:
        area: Name of the area.
        ground: The ground as it lies.
        formation: How deep is dug for the build-up.
        shape: Where.
        figure: Topsoil that may be expected, as a range.
    """
    low = figure.value if figure.low is None else figure.low
    high = figure.value if figure.high is None else figure.high
    plain, _ = volumes(ground, formation, shape)
    ends = [stripped_volumes(ground, formation, shape, depth)[0] for depth in (low, figure.value, high)]
    dug = Spread(*(max(each.cut_m3 - plain.cut_m3, 0.0) for each in ends))
    filled = Spread(*(max(each.fill_m3 - plain.fill_m3, 0.0) for each in ends))
    if dug.high < _NOTHING_M3:
        return None
    words = (
        f"topsoil of {low:g} to {high:g} mm adds {dug.low:.2f} to {dug.high:.2f} m³ of dig, and fill "
        f"{filled.low:.2f} to {filled.high:.2f} m³"
    )
    note = "its depth is not known: likely amounts at the likely depth; provisional until somebody digs a hole"
    working = Working(words, dug.likely, "m³", (figure,), note)
    return TopsoilAllowance(area, Spread(low, figure.value, high), dug, filled, figure, working)
