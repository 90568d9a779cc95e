"""Typed: lengths and falls as people write them, with their unit or without.

A text with its unit is taken as it stands: 6000 mm, 6.0 m, 19' 8 1/2", 1:60, 2 %. A bare number is in the unit of its
field where that is usual for what is asked and no other reading is; else every reading is given, and a person chooses.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.typed._falls import FallUnit, fall_typed
    from pavewright.typed._lengths import USUAL_MM, LengthKind, length_typed
    from pavewright.typed._typed import Typed
else:
    __getattr__ = face(__name__)

__all__ = ["USUAL_MM", "FallUnit", "LengthKind", "Typed", "fall_typed", "length_typed"]
