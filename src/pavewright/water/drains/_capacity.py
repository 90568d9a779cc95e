"""Channels and gullies checked against the flow that reaches them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import Finding, Severity
from pavewright.geometry import distance
from pavewright.levels import TakerKind
from pavewright.sums import Working
from pavewright.water import _words_drains as words
from pavewright.water._codes import Code
from pavewright.water._types import DrainCheck
from pavewright.water.drains._inlets import grating_flow
from pavewright.water.drains._lateral_inflow import profile_upstream

if TYPE_CHECKING:
    from pavewright.job import Channel
    from pavewright.survey import PlanChannel, SitePlan
    from pavewright.water._figures import WaterFigures
    from pavewright.water._types import Catchment


def check_drains(
    channels: tuple[Channel, ...], site: SitePlan, caught: tuple[Catchment, ...], figures: WaterFigures
) -> tuple[tuple[DrainCheck, ...], list[Finding]]:
    """Return every channel whose inside is known and every gully with what it takes, and those that take too little."""
    checks = []
    for entered in channels:
        plan = next(each for each in site.channels if each.name == entered.name)
        flow = sum(each.whole_l_s for each in caught if each.kind is TakerKind.CHANNEL and each.to == entered.name)
        if entered.depth_mm is not None and flow > 0.0:
            checks.append(_channel(entered, plan, flow, figures))
    for placed in site.gullies:
        flow = sum(each.whole_l_s for each in caught if each.kind is TakerKind.GULLY and each.to == placed.gully.name)
        if flow > 0.0:
            checks.append(_gully(placed.gully.name, placed.gully.size_mm, flow, figures))
    return tuple(checks), [_too_small(check) for check in checks if check.flow_l_s > check.takes_l_s]


def _channel(entered: Channel, plan: PlanChannel, flow_l_s: float, figures: WaterFigures) -> DrainCheck:
    """Return the flow at which a channel runs full at its deepest section, found by halving."""
    width = units.mm_to_m(entered.inside_mm or entered.width_mm)
    depth = units.mm_to_m(entered.depth_mm or 0.0)
    length = units.mm_to_m(distance(plan.start, plan.end))
    slope = units.one_in_n_to_fall(entered.bottom_one_in) if entered.bottom_one_in else 0.0
    rough = figures.channel_n

    def deepest(flow: float) -> float:
        return max(profile_upstream(width, length, slope, rough.value, flow, 0.0).depth_m)

    low, high = 0.0, 1e-6
    while deepest(high) < depth:
        low, high = high, high * 2.0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        low, high = (middle, high) if deepest(middle) < depth else (low, middle)
    takes = low * units.LITRES_PER_M3
    water = deepest(flow_l_s / units.LITRES_PER_M3) * units.MM_PER_M
    return DrainCheck(
        drain=f"channel {entered.name}",
        flow_l_s=flow_l_s,
        takes_l_s=takes,
        working=Working(
            f"takes, brim full, {entered.inside_mm or entered.width_mm:g} × {entered.depth_mm:g} mm over {length:.2f} "
            "m",
            takes,
            "l/s",
            (rough,),
            f"spatially varied flow to a free outlet; at {flow_l_s:.2f} l/s the water is {water:.0f} mm deep",
        ),
    )


_HALVINGS = 30


def _gully(name: str, size_mm: float, flow_l_s: float, figures: WaterFigures) -> DrainCheck:
    slots, clogged = figures.grating_open_percent, figures.grating_clogged_percent
    over = figures.grating_water_mm
    takes = grating_flow(4.0 * size_mm, size_mm * size_mm, slots.value, over.value, clogged.value).flow_l_s
    return DrainCheck(
        drain=f"gully {name}",
        flow_l_s=flow_l_s,
        takes_l_s=takes,
        working=Working(
            f"takes = lesser of rim and slots of {size_mm:g} × {size_mm:g} mm under {over.value:g} mm of water",
            takes,
            "l/s",
            (slots, clogged),
            "water over all four sides",
        ),
    )


def _too_small(check: DrainCheck) -> Finding:
    said, options = words.drain_too_small(check)
    takes, flow = check.takes_l_s, check.flow_l_s
    return Finding(Code.DRAIN_TOO_SMALL, Severity.CHECK, check.drain, said, takes, flow, "l/s", options=options)
