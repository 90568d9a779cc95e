"""Drains: what channels, gullies and pipes can take, their parts, and the film that runs to them over paving."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.water.drains._capacity import check_drains
    from pavewright.water.drains._long_runs import drain_runs
    from pavewright.water.drains._parts import drain_parts, pipe_bed_m3_per_m, soakaway_parts
    from pavewright.water.drains._sums_channels import CHANNEL_SUMS
    from pavewright.water.drains._sums_film import FILM_SUMS
    from pavewright.water.drains._sums_inlets import INLET_SUMS
    from pavewright.water.drains._sums_part_full import PART_FULL_SUMS
    from pavewright.water.drains._sums_pipes import PIPE_SUMS
else:
    __getattr__ = face(__name__)

__all__ = [
    "CHANNEL_SUMS",
    "FILM_SUMS",
    "INLET_SUMS",
    "PART_FULL_SUMS",
    "PIPE_SUMS",
    "check_drains",
    "drain_parts",
    "drain_runs",
    "pipe_bed_m3_per_m",
    "soakaway_parts",
]
