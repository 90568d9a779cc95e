"""Strings as they hang, and an instrument that is set up.

A string hangs where it was really tied and sags with its span. At each peg under it, every layer lies so far down from
the string as it is. An instrument reads the same heights on a staff.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.setting_out.hanging._as_hung import crossings, readings_at, strings_hung
    from pavewright.setting_out.hanging._sights import sight_heights, staff_reading_mm
    from pavewright.setting_out.hanging._sums_hanging import HANGING_SUMS
    from pavewright.setting_out.hanging._types import Crossing, HungBy, SightHeight, StrayReading, StringHung
else:
    __getattr__ = face(__name__)

__all__ = [
    "HANGING_SUMS",
    "Crossing",
    "HungBy",
    "SightHeight",
    "StrayReading",
    "StringHung",
    "crossings",
    "readings_at",
    "sight_heights",
    "staff_reading_mm",
    "strings_hung",
]
