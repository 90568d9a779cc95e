"""Fill: under formation where the ground lies too low, and where something soft was dug out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job import MaterialKind
from pavewright.quantities._keys import ItemKind, Measure
from pavewright.quantities._scope import ScopeKey, ScopeKind

if TYPE_CHECKING:
    from pavewright.earthworks import Earthworks
    from pavewright.quantities._materials import Materials

_NOTHING_M3 = 1e-9


def gather_fill(materials: Materials, earthworks: Earthworks) -> None:
    """Add all fill, measured whole, the stone for what is not made of what is dug, and pipe for drains laid anew."""
    materials.serve(ScopeKey(ScopeKind.DIG))
    filled = [area for area in earthworks.areas if area.fill_layers is not None]
    for area in filled:
        words = f"{area.area}: under formation, up to {area.fill_depth_mm:.0f} mm"
        materials.volume(ItemKind.FILL, Measure.M3).count(words, area.volumes.fill_m3)
    bought = sum(area.volumes.fill_m3 for area in filled) - earthworks.reused_m3
    if bought > _NOTHING_M3:
        materials.stone(f"fill below formation {bought:.3f} m³", bought)
    for each in earthworks.found:
        if each.fill_m3 > _NOTHING_M3:
            materials.volume(ItemKind.FILL, Measure.M3).count(each.working.expression, each.fill_m3)
            stone = MaterialKind.OPEN_STONE if each.open_stone else MaterialKind.SUB_BASE
            materials.stone(each.working.expression, each.fill_m3, material=stone)
        if each.new_pipe:
            lost = materials.figures.edging_percent
            materials.need(MaterialKind.PIPE, Measure.METRE).add(each.working.expression, each.length_m, lost)
