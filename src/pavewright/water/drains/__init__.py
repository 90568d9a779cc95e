"""Drains: what channels, gullies and pipes can take, and their parts."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.water.drains._capacity import check_drains
    from pavewright.water.drains._hydraulics import G_M_PER_S2, sheet_depth_m, time_to_steady_s
    from pavewright.water.drains._parts import drain_parts, pipe_bed_m3_per_m, soakaway_parts
    from pavewright.water.drains._sums_channels import CHANNEL_SUMS
    from pavewright.water.drains._sums_inlets import INLET_SUMS
    from pavewright.water.drains._sums_part_full import PART_FULL_SUMS
    from pavewright.water.drains._sums_pipes import PIPE_SUMS
else:
    __getattr__ = face(__name__)

__all__ = [
    "CHANNEL_SUMS",
    "G_M_PER_S2",
    "INLET_SUMS",
    "PART_FULL_SUMS",
    "PIPE_SUMS",
    "check_drains",
    "drain_parts",
    "pipe_bed_m3_per_m",
    "sheet_depth_m",
    "soakaway_parts",
    "time_to_steady_s",
]
