"""Sums of inlets: what a grating or an outlet takes at a depth of water over it."""

from __future__ import annotations

import math
from enum import StrEnum

from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.water.drains._inlets import ORIFICE_FACTOR, WEIR_FACTOR, grating_flow


def gully_grating(
    length_mm: float,
    width_mm: float,
    open_percent: float,
    water_mm: float,
    clogged_percent: float,
    sides: float,
    weir_factor: float = WEIR_FACTOR,
    orifice_factor: float = ORIFICE_FACTOR,
) -> dict[str, Value]:
    """Return what a grating takes with water standing over it: a weir round its rim at first, then its slots.

    Leaves clog part of the rim and of the slots alike. The lesser of the two flows counts.

    Source: common practice, weir of 1.7·P·h^1.5 and orifice of 0.6·A·√(2gh)

    >>> found = gully_grating(150.0, 150.0, 40.0, 10.0, 50.0, 4.0)
    >>> round(found["flow_l_s"], 2), found["governs"]
    (0.51, 'rim')
    """
    if min(length_mm, width_mm, open_percent, water_mm, weir_factor, orifice_factor) <= 0.0 or open_percent > 100.0:  # noqa: PLR2004 - per cent
        message = "Sides, slots, depth of water and factors are more than zero; slots are at most 100 % of the grating."
        raise SumRefusedError(message)
    if not 0.0 <= clogged_percent / 100.0 < 1.0 or sides not in {1.0, 2.0, 3.0, 4.0}:
        message = "Clogged is 0 or more and less than 100 %; water reaches the grating over 1, 2, 3 or 4 sides."
        raise SumRefusedError(message)
    # with one side or three it is a long side that counts
    rim = {1.0: length_mm, 2.0: length_mm + width_mm, 3.0: 2.0 * length_mm + width_mm}.get(
        sides, 2.0 * (length_mm + width_mm)
    )
    found = grating_flow(
        rim, length_mm * width_mm, open_percent, water_mm, clogged_percent, weir_factor, orifice_factor
    )
    return {
        "rim_l_s": found.rim_l_s,
        "slots_l_s": found.slots_l_s,
        "flow_l_s": found.flow_l_s,
        "governs": "rim" if found.rim_l_s <= found.slots_l_s else "slots",
    }


class Strainer(StrEnum):
    """Whether a strainer stands in an outlet."""

    FITTED = "yes"
    NONE = "no"


_LEFT_BY = {Strainer.FITTED: 0.5, Strainer.NONE: 1.0}
"""What part of its flow an outlet takes with a strainer and without. [-]"""


def gutter_outlet(bore_mm: float, water_mm: float, strainer: str) -> dict[str, Value]:
    """Return what a round outlet in the bottom of a gutter or channel takes.

    Source: bs_en_12056_gutters, outlets: k·D·h^1.5 / 7500 up to a depth of half the bore, k·D²·h^0.5 / 15000 above

    >>> round(gutter_outlet(63.0, 50.0, "no")["flow_l_s"], 2)
    1.87
    """
    if min(bore_mm, water_mm) <= 0.0:
        message = "Bore and depth of water are more than zero."
        raise SumRefusedError(message)
    factor = _LEFT_BY[Strainer(strainer)]
    weir = water_mm <= bore_mm / 2.0
    flow = bore_mm * math.pow(water_mm, 1.5) / 7500.0 if weir else bore_mm * bore_mm * math.sqrt(water_mm) / 15000.0
    return {"flow_l_s": factor * flow, "governs": "rim" if weir else "hole"}


def gullies_wanted(flow_l_s: float, each_l_s: float) -> dict[str, Value]:
    """Return how many inlets of one kind take a flow.

    Source: definition, rounded up

    >>> gullies_wanted(802.0, 15.0)["gullies"]
    54.0
    """
    if flow_l_s < 0.0 or each_l_s <= 0.0:
        message = "The flow is not less than zero; what one inlet takes is more than zero."
        raise SumRefusedError(message)
    wanted = float(math.ceil(flow_l_s / each_l_s - 1e-9))
    return {"gullies": wanted, "spare_l_s": wanted * each_l_s - flow_l_s}


INLET_SUMS: tuple[Sum, ...] = (
    Sum(
        "gully-grating",
        "Find what a grating takes with water standing over it",
        (
            Quantity("length_mm", "mm", "side of the grating"),
            Quantity("width_mm", "mm", "other side"),
            Quantity(
                "open_percent", "%", "slots, part of the grating", default=40.0, figure="water.grating_open_percent"
            ),
            Quantity("water_mm", "mm", "depth of water over it"),
            Quantity(
                "clogged_percent",
                "%",
                "part of rim and slots that leaves may close",
                default=50.0,
                figure="water.grating_clogged_percent",
            ),
            Quantity("sides", "", "sides over which water comes", default=4.0),
            Quantity("weir_factor", "m^0.5/s", "factor of the weir round the rim", default=WEIR_FACTOR),
            Quantity("orifice_factor", "", "factor of the slots", default=ORIFICE_FACTOR),
        ),
        (
            Quantity("rim_l_s", "l/s", "flow over the rim"),
            Quantity("slots_l_s", "l/s", "flow through the slots"),
            Quantity("flow_l_s", "l/s", "lesser of the two"),
            Quantity("governs", "", "rim or slots", kind="word"),
        ),
        "Q = lesser of Cw·P·h^1.5 and Co·A·√(2gh)",
        "common practice",
        gully_grating,
    ),
    Sum(
        "gutter-outlet",
        "Find what a round outlet in the bottom of a gutter or channel takes",
        (
            Quantity("bore_mm", "mm", "bore of the outlet at its top"),
            Quantity("water_mm", "mm", "depth of water over it"),
            Quantity(
                "strainer",
                "",
                "whether a strainer stands in it",
                kind="word",
                default=Strainer.NONE.value,
                choices=tuple(each.value for each in Strainer),
            ),
        ),
        (
            Quantity("flow_l_s", "l/s", "flow"),
            Quantity("governs", "", "rim or hole", kind="word"),
        ),
        "Q = k·D·h^1.5 / 7500, above half the bore k·D²·√h / 15000",
        "bs_en_12056_gutters",
        gutter_outlet,
    ),
    Sum(
        "gullies-wanted",
        "Find how many gullies take a flow",
        (Quantity("flow_l_s", "l/s", "flow"), Quantity("each_l_s", "l/s", "what one of them takes")),
        (
            Quantity("gullies", "", "number wanted"),
            Quantity("spare_l_s", "l/s", "what they could take beyond the flow"),
        ),
        "N = flow / each, rounded up",
        "definition",
        gullies_wanted,
    ),
)
