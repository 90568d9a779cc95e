"""What a volume of one layer takes, by itself: for a base or a bed that turns out thicker than planned."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.quantities._figures import quantity_figures
from pavewright.quantities._materials import Materials

if TYPE_CHECKING:
    from pavewright.buildup import LayerMaterial
    from pavewright.job import Job, MaterialKind
    from pavewright.quantities._keys import Measure
    from pavewright.rules import Rulebook


@dataclass(frozen=True, slots=True)
class LayerNeed:
    """What a volume of a layer takes of one material.

    Attributes:
        material: Which.
        unit: Unit of its amount.
        amount: How much, with what is lost. [in ``unit``]
    """

    material: MaterialKind
    unit: Measure
    amount: float


def layer_needs(job: Job, material: LayerMaterial, volume_m3: float, rules: Rulebook) -> tuple[LayerNeed, ...]:
    """Return the materials that a volume of a layer takes, by the sums of the order list; water is left out.

    Args:
        job: How sand is sold, how it bulks.
        material: What the layer is made of.
        volume_m3: How much of it, compacted or set. [m³]
        rules: The rulebook.
    """
    materials = Materials(job, quantity_figures(rules))
    materials.layer(material, "", volume_m3)
    return tuple(
        LayerNeed(key.material, need.unit, need.gross)
        for key, need in materials.needs.items()
        if key.material is not None
    )
