"""Networks: readings with spare ones among them, made to agree by least squares, and the slip among them named."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.survey.networks._adjustment import Adjustment, LooseNetworkError, UnsettledNetworkError
    from pavewright.survey.networks._chi_square import chi_square_quantile, ratio_band
    from pavewright.survey.networks._level_network import LevelDifference, LevelNetwork, Setup, adjust_levels
    from pavewright.survey.networks._observations import (
        Array,
        Distance,
        Network,
        Observation,
        OnLine,
        RightAngle,
        network_of,
    )
    from pavewright.survey.networks._slips import Slip, Slips, alike_with, find_slips, slip_mm
    from pavewright.survey.networks._sums_network import NETWORK_SUMS
    from pavewright.survey.networks._sums_slips import SLIP_SUMS
else:
    __getattr__ = face(__name__)

__all__ = [
    "NETWORK_SUMS",
    "SLIP_SUMS",
    "Adjustment",
    "Array",
    "Distance",
    "LevelDifference",
    "LevelNetwork",
    "LooseNetworkError",
    "Network",
    "Observation",
    "OnLine",
    "RightAngle",
    "Setup",
    "Slip",
    "Slips",
    "UnsettledNetworkError",
    "adjust_levels",
    "alike_with",
    "chi_square_quantile",
    "find_slips",
    "network_of",
    "ratio_band",
    "slip_mm",
]
