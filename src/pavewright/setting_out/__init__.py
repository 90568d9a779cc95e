"""Setting out: pegs, strings and the tapes that prove them, with the height of every layer below the string.

Every string runs at one height over the finished surface and so carries its fall; at each peg the sheet says how far
down the finished surface, the bed, the base and the formation lie. Everything is measured from a base line whose two
pegs stand off walls and outside the dig. Sides, diagonals, a 3-4-5 triangle and offsets of arcs are listed for the
tape, where one can be pulled straight. No pin is driven in the band beside a known service: such pegs say so, with
another place.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.setting_out._near import (
        LayerTolerance,
        ServiceNear,
        layer_tolerances,
        pegs_of_layers,
        services_near,
    )
    from pavewright.setting_out._set_out import set_out
    from pavewright.setting_out._sums_strings import SUMS
    from pavewright.setting_out._types import (
        BaseLine,
        HeightOf,
        HouseInTheWay,
        InTheWay,
        LayerHeight,
        NoPin,
        Peg,
        PegRole,
        ServiceBand,
        Stands,
        StringLine,
        TapeCheck,
        TapeKind,
    )
    from pavewright.setting_out._whole_types import AtHand, SettingOut, Work
else:
    __getattr__ = face(__name__)

__all__ = [
    "SUMS",
    "AtHand",
    "BaseLine",
    "HeightOf",
    "HouseInTheWay",
    "InTheWay",
    "LayerHeight",
    "LayerTolerance",
    "NoPin",
    "Peg",
    "PegRole",
    "ServiceBand",
    "ServiceNear",
    "SettingOut",
    "Stands",
    "StringLine",
    "TapeCheck",
    "TapeKind",
    "Work",
    "layer_tolerances",
    "pegs_of_layers",
    "services_near",
    "set_out",
]
