"""Where water runs and ends, in words for the doors."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job import Beyond
from pavewright.levels import TakerKind

if TYPE_CHECKING:
    from pavewright.water._types import Catchment, StormShare

_KINDS = {TakerKind.FREE_EDGE: "free edge", TakerKind.TIE_IN: "edge to meet", TakerKind.NEXT_AREA: "next area"}
_BEYOND = {
    Beyond.OWN_PAVING: "own paving",
    Beyond.OWN_GROUND: "own ground",
    Beyond.NEIGHBOUR: "the neighbour",
    Beyond.HIGHWAY: "road or footway",
    Beyond.NOT_KNOWN: "not known",
}


def runs_to(each: Catchment | StormShare) -> str:
    """Say what takes the water: its kind and its name."""
    return f"{_KINDS.get(each.kind, each.kind.value)} {each.to}"


def ends_at(each: Catchment) -> str:
    """Say where the water ends: the outfall, what lies beyond, the next area, or nowhere."""
    if each.outfall is not None:
        return each.outfall
    if each.beyond is not None:
        return _BEYOND[each.beyond]
    return "goes on from there" if each.kind is TakerKind.NEXT_AREA else "NONE"
