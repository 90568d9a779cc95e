"""The sum of what holds a side: concrete of bed and haunch, and how deep its foot lies."""

from __future__ import annotations

from pavewright import units
from pavewright.buildup import edge_foot_mm, haunch_mean_mm
from pavewright.quantities._amounts import strip_m3
from pavewright.sums import Quantity, Sum, SumRefusedError, Value


def edge_concrete_sum(
    length_mm: float,
    bed_width_mm: float,
    bed_mm: float,
    haunch_foot_mm: float,
    haunch_top_mm: float,
    haunch_height_mm: float,
    unit_height_mm: float,
    above_mm: float,
) -> dict[str, Value]:
    """Return the concrete along a kerb or an edging, bed and haunch apart, and how deep its foot lies.

    Source: definition
    """
    lengths = (length_mm, bed_width_mm, bed_mm, haunch_foot_mm, haunch_top_mm, haunch_height_mm, unit_height_mm)
    if min(lengths) < 0.0:
        message = "Lengths and sizes are not less than zero."
        raise SumRefusedError(message)
    length_m = units.mm_to_m(length_mm)
    bed = strip_m3(length_m, bed_width_mm, bed_mm)
    haunch = strip_m3(length_m, haunch_mean_mm(haunch_foot_mm, haunch_top_mm), haunch_height_mm)
    foot = edge_foot_mm(unit_height_mm, above_mm, bed_mm)
    return {"bed_m3": bed, "haunch_m3": haunch, "volume_m3": bed + haunch, "foot_mm": foot}


EDGES = Sum(
    "edge-concrete",
    "Find the concrete along a kerb or an edging: bed and haunch",
    (
        Quantity("length_mm", "mm", "length"),
        Quantity("bed_width_mm", "mm", "width of the bed", default=380.0),
        Quantity("bed_mm", "mm", "thickness of the bed", default=150.0),
        Quantity("haunch_foot_mm", "mm", "width of the haunch at its foot; zero for none", default=150.0),
        Quantity("haunch_top_mm", "mm", "width at its top; zero for a triangle", default=100.0),
        Quantity("haunch_height_mm", "mm", "height of the haunch", default=170.0),
        Quantity("unit_height_mm", "mm", "height of kerb or edging", default=255.0),
        Quantity("above_mm", "mm", "its top over the paving", default=100.0, figure="buildup.kerb_upstand_mm"),
    ),
    (
        Quantity("bed_m3", "m3", "concrete of the bed"),
        Quantity("haunch_m3", "m3", "concrete of the haunch"),
        Quantity("volume_m3", "m3", "both"),
        Quantity("foot_mm", "mm", "foot of the bed below the paving"),
    ),
    "bed = length · width · thickness; haunch = length · (foot + top) / 2 · height; foot = height − above + thickness",
    "definition; lincolnshire_kerbs for the bed and common_practice for the haunch where none is given",
    edge_concrete_sum,
)
