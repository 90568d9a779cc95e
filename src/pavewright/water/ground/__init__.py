"""Ground: pits, soakaways and stone that hold water until the ground has taken it."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.water.ground._open_stone import StoneNeed, stone_need
    from pavewright.water.ground._permeable import CLAY, letting_through, permeable_findings, stone_for
    from pavewright.water.ground._pit_size import size_of
    from pavewright.water.ground._soakaway_places import house_ground, soakaway_places
    from pavewright.water.ground._soakaways import check_soakaways
    from pavewright.water.ground._sums_infiltration import INFILTRATION_SUMS
    from pavewright.water.ground._sums_rain_garden import RAIN_GARDEN_SUMS
    from pavewright.water.ground._sums_soakaways import SOAKAWAY_SUMS
    from pavewright.water.ground._sums_stone_storage import STONE_STORAGE_SUMS
else:
    __getattr__ = face(__name__)

__all__ = [
    "CLAY",
    "INFILTRATION_SUMS",
    "RAIN_GARDEN_SUMS",
    "SOAKAWAY_SUMS",
    "STONE_STORAGE_SUMS",
    "StoneNeed",
    "check_soakaways",
    "house_ground",
    "letting_through",
    "permeable_findings",
    "size_of",
    "soakaway_places",
    "stone_for",
    "stone_need",
]
