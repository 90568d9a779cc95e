"""What is noticed in this room, by its short name."""

from __future__ import annotations

from enum import StrEnum


class Code(StrEnum):
    """Codes of findings."""

    BANK_ABOVE = "buildup.bank_above"
    BASE_RULE_SILENT = "buildup.base_rule_silent"
    BASE_THINNER = "buildup.base_thinner"
    BOND_COAT = "buildup.bond_coat"
    CLAY_MOVES = "buildup.clay_moves"
    EDGE_NOT_HELD = "buildup.edge_not_held"
    EDGE_STANDS_HIGH = "buildup.edge_stands_high"
    GROUND_BEYOND_UNKNOWN = "buildup.ground_beyond_unknown"
    GROUND_TOO_WEAK = "buildup.ground_too_weak"
    GUARD_NEEDED = "buildup.guard_needed"
    OPENING_EDGES_UNKNOWN = "buildup.opening_edges_unknown"
    PERMEABLE_FROM_MEMORY = "buildup.permeable_from_memory"
    PERMEABLE_WEAK = "buildup.permeable_weak"
    RIGID_ON_UNBOUND = "buildup.rigid_on_unbound"
    SOIL_UNKNOWN = "buildup.soil_unknown"
    TOO_THIN_FOR_SAND = "buildup.too_thin_for_sand"
    UNIT_TOO_LARGE = "buildup.unit_too_large"
    UNIT_TOO_THIN = "buildup.unit_too_thin"
    WATER_TABLE_HIGH = "buildup.water_table_high"
