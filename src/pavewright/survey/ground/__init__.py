"""Ground: the surface between the spots that were read."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.survey.ground._ground import ground_surface
    from pavewright.survey.ground._sums_surface import SURFACE_SUMS
else:
    __getattr__ = face(__name__)

__all__ = [
    "SURFACE_SUMS",
    "ground_surface",
]
