"""What the causes of a spread are called, and what one other fact would do, in sentences."""

from __future__ import annotations

from typing import TYPE_CHECKING, assert_never

from pavewright import units
from pavewright.cost import TaskKind
from pavewright.pipeline._days_later import days_words
from pavewright.pipeline._risk_types import Cause, FactKind
from pavewright.quantities import ItemKind

if TYPE_CHECKING:
    from pavewright.pipeline._risk_types import CauseKey, Risk
    from pavewright.pipeline._types import Plan


_PLAIN = {
    Cause.BULKING: "How much the soil bulks, one for all areas",
    Cause.SPOIL_MASS: "How heavy the soil is",
    Cause.CREW: "How the crew goes on this job, all work alike",
    Cause.TOPSOIL: "How deep the topsoil is",
}
_TASKS = {
    TaskKind.SET_OUT: "setting out",
    TaskKind.DIG: "digging",
    TaskKind.SIDES: "digging beside edges",
    TaskKind.LOAD: "loading barrows",
    TaskKind.CART: "carrying spoil away",
    TaskKind.TOPSOIL_PROVISIONAL: "stripping topsoil",
    TaskKind.BREAK_OUT: "breaking out buried concrete",
    TaskKind.DIG_FREE: "digging drains free",
    TaskKind.FOUND_PIPE: "laying found drains anew",
    TaskKind.CARRY_IN: "carrying in",
    TaskKind.WALL_TRENCH: "trenches of low walls",
    TaskKind.EDGE_TRENCH: "trenches for the beds of edges",
    TaskKind.WALL_FOOTING: "footings of low walls",
    TaskKind.WALL: "low walls",
    TaskKind.GUARD: "guards",
    TaskKind.FILL: "filling",
    TaskKind.DRAINS: "channels and drains",
    TaskKind.CHANNEL_PIPES: "pipes of channels",
    TaskKind.CHANNEL_FILL: "filling trenches of channels",
    TaskKind.GULLIES: "gullies",
    TaskKind.GULLY_PIPES: "pipes of gullies",
    TaskKind.GULLY_FILL: "filling trenches of gullies",
    TaskKind.GRATINGS: "resetting gratings",
    TaskKind.FRAMES: "resetting frames",
    TaskKind.PIT_DIG: "digging soakaways",
    TaskKind.PIT_LOAD: "loading from soakaways",
    TaskKind.PIT_FILL: "filling soakaways",
    TaskKind.SILT_TRAPS: "silt traps",
    TaskKind.SUB_BASE: "sub-base",
    TaskKind.SUB_BASE_LAYER: "layers of sub-base",
    TaskKind.BASE: "concrete base",
    TaskKind.EDGES_KERB: "kerbs",
    TaskKind.EDGES_EDGING: "edgings",
    TaskKind.EDGES_HAUNCH: "haunches",
    TaskKind.CUT: "cutting",
    TaskKind.LAY_BORDER: "laying borders",
    TaskKind.LAY_ZONE: "laying inlays",
    TaskKind.LAY: "bedding and laying",
    TaskKind.POINT: "filling joints",
    TaskKind.STEPS: "steps",
    TaskKind.CLEAR: "clearing away",
}


def cause_words(key: CauseKey, made: Plan) -> str:
    """Return what a cause is called."""
    place = "" if key.area is None else f", {made.job.areas[key.area].name}"
    if key.cause in _PLAIN:
        return _PLAIN[key.cause]
    if key.cause is Cause.FORMATION:
        return f"How level the dig is{place}"
    if key.cause is Cause.LAYER:
        return f"{_layer_name(key, made)}: how near its level{place}"
    if key.cause is Cause.OUTPUT:
        return f"Output: {'work' if key.task is None else _TASKS[key.task]}"
    if key.cause in {Cause.ASSUMED, Cause.PROVISIONAL}:
        return _fact_words(key, made)
    return f"{'How many break' if key.cause is Cause.BREAKAGE else 'How far it goes'}: {_item(key, made)}"


def _layer_name(key: CauseKey, made: Plan) -> str:
    up = made.build_ups.areas[key.area or 0]
    solid = [layer for layer in up.layers[1:] if layer.thickness_mm > 0.0]
    return f"Top of the {solid[key.layer].name}" if key.layer < len(solid) else "Tops of the layers"


def _item(key: CauseKey, made: Plan) -> str:
    if key.item is not None and key.item.kind is ItemKind.UNITS:
        return made.job.units[key.item.number].name
    return next((each.description for each in made.quantities.items if each.key == key.item), "an item")


def _fact_words(key: CauseKey, made: Plan) -> str:
    if key.cause is Cause.PROVISIONAL:
        return f"How much is found: {made.job.terms.provisional[key.fact].name}"
    fact = made.cost.assumed[key.fact].fact
    words = fact.what.value.replace("_", " ")
    return f"Assumed: {words}{f' of {fact.place}' if fact.place else ''}"


def fact_words(kind: FactKind, now: float, was: float | None, made: Plan, extra: int, days: int | None) -> str:
    """Return in a sentence what one other fact would do.

    Args:
        kind: Which fact.
        now: What it is taken to be. [unit of the fact]
        was: What the job says. [unit of the fact]
        made: The plan.
        extra: How much more the job then costs. [minor units]
        days: How many days later it is done; None where there are no dates. [days]
    """
    money = units.minor_to_text(abs(extra), made.job.identity.currency)
    costs = f"{money} {'more' if extra > 0 else 'less'}" if extra else "the same price"
    said = "" if days is None else f"{_days(days)}, "
    return f"{_fact(kind, now, was)}: {said}{costs}"


def _days(days: int) -> str:
    return days_words(days) if days else "as many days"


def _fact(kind: FactKind, now: float, was: float | None) -> str:
    match kind:
        case FactKind.ACCESS:
            known = "" if was is None else f", not {units.mm_to_m(float(was)):.2g}"
            return f"Access {units.mm_to_m(now):.2g} m{known}"
        case FactKind.CARRY:
            return f"Carry {units.mm_to_m(now):.0f} m, not {units.mm_to_m(float(was or 0.0)):.0f}"
        case FactKind.MACHINE_DIG:
            return "Dig by machine, not by hand" if now else "Dig by hand, not by machine"
        case FactKind.PEOPLE:
            return f"{now:.0f} {'person' if now < 1.5 else 'people'}, not {float(was or 0.0):.0f}"  # noqa: PLR2004
        case FactKind.PACE:
            return f"A crew at pace {now:g}, not {float(was or 1.0):g}"
        case _:
            assert_never(kind)


_WIDE = 0.1
"""A chance below this is said with one decimal. [-]"""
_SEEN = 0.0005
"""What so many draws show of a chance: one that is nearer to none or to all than this is not said as certain. [-]"""


def losing_text(found: Risk) -> str:
    """Return the chance of losing money with its error; never as certain, and open above where something has no price.

    Args:
        found: The risk.
    """
    share, error = found.losing, found.losing_error
    if share is None or error is None:
        return "not known: some labour, overhead, margin or tax is missing"
    if share < _SEEN:
        return "under 0.1 %, and more with what has no price" if found.gaps else "under 0.1 %"
    least = "at least " if found.gaps else ""
    if share > 1.0 - _SEEN:
        return "over 99.9 %"
    return f"{least}{100.0 * share:.{1 if share < _WIDE else 0}f} % ± {100.0 * error:.1f} %"
