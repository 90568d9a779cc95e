"""Setting: one area made ready for laying, its field, border, rings or mixed sizes, and other ways of it tried."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.laying.setting._kept import cut_parts, kept_parts, narrow_parts
    from pavewright.laying.setting._mixed_placing import (
        Ready,
        bay_joints,
        made_ready,
        mixed_fault,
        packs_of,
        with_mixed,
    )
    from pavewright.laying.setting._rings import first_radius_mm, ring_joints_m
    from pavewright.laying.setting._setting import Setting, limits_of, region_of, setting_of
    from pavewright.laying.setting._sums_rings import RING_SUM
    from pavewright.laying.setting._workshop import Counts, Workshop
else:
    __getattr__ = face(__name__)

__all__ = [
    "RING_SUM",
    "Counts",
    "Ready",
    "Setting",
    "Workshop",
    "bay_joints",
    "cut_parts",
    "first_radius_mm",
    "kept_parts",
    "limits_of",
    "made_ready",
    "mixed_fault",
    "narrow_parts",
    "packs_of",
    "region_of",
    "ring_joints_m",
    "setting_of",
    "with_mixed",
]
