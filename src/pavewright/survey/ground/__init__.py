"""Ground: the surface between the spots that were read."""

from pavewright.survey.ground._ground import ground_surface
from pavewright.survey.ground._sums_surface import SURFACE_SUMS

__all__ = [
    "SURFACE_SUMS",
    "ground_surface",
]
