"""Bedding: laying unit by unit, from the level wanted at each corner to whether the bed runs thick.

Four corners are read with a wedge, a string, a staff or a digital level. The plane in the readings says where to tap
and by how much, and what is left over is twist, which no tap takes out. A unit that rocks, lies too low or would press
its bed too thin is lifted and bedded again. Steps to neighbours are told with what the readings can know of them. Bags
used against area laid say early that the bed runs thick or thin, or that it is too early to say.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.bedding._advice import Act, Advice, Why, advise, aimed_at
    from pavewright.bedding._bed_use import (
        BedPlanned,
        BedRuns,
        BedSoFar,
        BedUse,
        Counted,
        bed_of,
        bed_so_far,
        bed_use,
        shows_from_m2,
    )
    from pavewright.bedding._corners import PlanePart, by_percent, plane_part
    from pavewright.bedding._figures import BeddingFigures, Limits, figures
    from pavewright.bedding._lips import Corners, LipBetween, beside, lip_at
    from pavewright.bedding._plate import Plate, plate, sink, sinks
    from pavewright.bedding._report import report, thinnest_bed_mm
    from pavewright.bedding._sums import SUMS
    from pavewright.bedding._taps import Care, Tap, TapPlace, best_tap, places
    from pavewright.bedding._types import AreaBedding, BeddingReport, UnitChecked
    from pavewright.bedding._units import LETTERS, Seam, UnitToLay, read_one_by_one, seams, units_to_lay
else:
    __getattr__ = face(__name__)

__all__ = [
    "LETTERS",
    "SUMS",
    "Act",
    "Advice",
    "AreaBedding",
    "BedPlanned",
    "BedRuns",
    "BedSoFar",
    "BedUse",
    "BeddingFigures",
    "BeddingReport",
    "Care",
    "Corners",
    "Counted",
    "Limits",
    "LipBetween",
    "PlanePart",
    "Plate",
    "Seam",
    "Tap",
    "TapPlace",
    "UnitChecked",
    "UnitToLay",
    "Why",
    "advise",
    "aimed_at",
    "bed_of",
    "bed_so_far",
    "bed_use",
    "beside",
    "best_tap",
    "by_percent",
    "figures",
    "lip_at",
    "places",
    "plane_part",
    "plate",
    "read_one_by_one",
    "report",
    "seams",
    "shows_from_m2",
    "sink",
    "sinks",
    "thinnest_bed_mm",
    "units_to_lay",
]
