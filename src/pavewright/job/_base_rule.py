"""Whose rule gives what lies under a bed."""

from __future__ import annotations

from enum import StrEnum


class BaseRule(StrEnum):
    """Whose rule gives what lies under the bed: the rulebook's own, or another that is published."""

    OWN = "own"
    BLOCKS = "blocks"
    BLOCKS_FROST = "blocks_frost"
    SLABS = "slabs"
    SHARED_SURFACE = "shared_surface"
    ROAD_1984 = "road_1984"
    ROAD_1984_CAPPED = "road_1984_capped"
    MILLION_AXLES = "million_axles"
    CONCRETE_DRIVE = "concrete_drive"
