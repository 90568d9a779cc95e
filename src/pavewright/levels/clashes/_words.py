"""The sentences of clashes of levels, of their chains and of their options, in one place."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import Owner, ask_first
from pavewright.levels.design import RuleKind

if TYPE_CHECKING:
    from pavewright.levels.design import Bound, Falls, Height


def off_level(area: str, bound: Bound, level_mm: float, limit_mm: float, off_mm: float, *, too_high: bool) -> str:
    """Say that an area misses a limit.

    Args:
        area: Name of the area.
        bound: The limit.
        level_mm: Level of the paving there. [mm]
        limit_mm: The level that it is held to. [mm]
        off_mm: By how much it is missed. [mm]
        too_high: Whether the paving lies too high for it.
    """
    lies, held = _told_apart(level_mm, limit_mm)
    return (
        f"{area} is {units.millimetres_text(off_mm)} too {'high' if too_high else 'low'} at {bound.part}"
        f"{bound.thing}: {lies} m against {held} m."
    )


def _told_apart(level_mm: float, limit_mm: float) -> tuple[str, str]:
    """Return two levels in metres, with as many decimals as it takes to show that they differ."""
    pairs = [(f"{units.mm_to_m(level_mm):.{n}f}", f"{units.mm_to_m(limit_mm):.{n}f}") for n in _DECIMALS]
    return next((pair for pair in pairs if pair[0] != pair[1]), pairs[0])


_DECIMALS = (3, 4, 5, 6)


def leaves(area: str, off_mm: float, *, too_high: bool) -> str:
    """Say how far off a chain of levels leaves an area. [mm]."""
    return f"That leaves {area} {units.millimetres_text(off_mm)} too {'high' if too_high else 'low'} there."


def slope_differently() -> str:
    """Say why two areas do not meet along an edge."""
    return "The two slope differently along the edge that they share, so they meet in the middle only."


def lies(area: str, height: Height, level_mm: float, thing: str) -> str:
    """Say what holds an area, and its level at a thing. [mm]."""
    return f"{area} lies {height.fixed_by}: {units.metres_text(level_mm)} m at {thing}."


def paving_at(thing: str, level_mm: float) -> str:
    """Say at which level paving lies at a thing. [mm]."""
    return f"Paving at {thing}: {units.metres_text(level_mm)} m."


def along_fall(thing: str, falls: Falls, run_mm: float, start_mm: float, level_mm: float) -> str:
    """Say how paving runs along its fall to a thing.

    Args:
        thing: Name of the thing.
        falls: The falls.
        run_mm: Run along the main fall, downhill. [mm]
        start_mm: Level where the run begins. [mm]
        level_mm: Level at the thing. [mm]
    """
    return (
        f"From there to {thing} it is {units.metres_text(abs(run_mm))} m {'down' if run_mm >= 0 else 'up'} the "
        f"fall at {units.fall_text(falls.main)}"
        + (f" with {units.fall_text(falls.cross)} across" if falls.cross else "")
        + f": it {'falls' if start_mm >= level_mm else 'rises'} {units.millimetres_text(abs(start_mm - level_mm))} to "
        f"{units.metres_text(level_mm)} m."
    )


def set_other_level(area: str, off_mm: float, *, too_high: bool) -> str:
    """Propose another level than the one that was asked. [mm]."""
    return f"Set {area} {units.millimetres_text(off_mm)} {'lower' if too_high else 'higher'} than asked."


def split_with_step(area: str, rival: str, thing: str, step_mm: float) -> str:
    """Propose a step between two things. [mm]."""
    return f"Split {area} between {rival} and {thing} with a step of about {step_mm:.0f} mm."


def keep_away(area: str, thing: str) -> str:
    """Propose a gap between an area and a wall."""
    return (
        f"Keep {area} away from {thing}: leave a drained strip or a channel between them. "
        "Have the detail checked by whoever answers for the house."
    )


def not_nearer(thing: str) -> str:
    """Say that paving nearer to a wall than the rule is not offered."""
    return f"Not offered: paving nearer to {thing} than the rule."


def other_fall(main: float, falls: Falls) -> str:
    """Propose another main fall. [rise over run].

    Args:
        main: Main fall. [rise over run]
        falls: Falls of the area as they are.
    """
    return f"{_lay_at(main, falls)}."


def steeper_fall(main: float, falls: Falls, *, walked: bool) -> str:
    """Propose a main fall that is steeper than the use of the area allows. [rise over run].

    Args:
        main: Main fall. [rise over run]
        falls: Falls of the area as they are.
        walked: Whether people walk on it.
    """
    why = "steeper than is comfortable to walk on" if walked else "steeper than a drive may be"
    return f"{_lay_at(main, falls)}: {why}."


def slow_fall(main: float, falls: Falls, min_fall: float) -> str:
    """Propose a main fall that is flatter than the flattest that drains. [rise over run].

    Args:
        main: Main fall. [rise over run]
        falls: Falls of the area as they are.
        min_fall: Smallest fall that is allowed. [rise over run]
    """
    return f"{_lay_at(main, falls)}: flatter than {units.fall_text(min_fall)}, so water will be slow to clear."


def _lay_at(main: float, falls: Falls) -> str:
    return f"Lay at {units.fall_text(main)} instead of {units.fall_text(falls.main)}"


def cross_fall(wanted: Falls, falls: Falls, thing: str) -> str:
    """Propose a cross fall that follows an edge, with the main fall that goes with it."""
    side = "right" if wanted.cross > 0.0 else "left"
    said = f"Lay with a cross fall of {units.fall_text(wanted.cross)} to the {side}, looking downhill, as {thing} runs"
    return f"{said}." if wanted.main == falls.main else f"{said}, at {units.fall_text(wanted.main)} down the main fall."


def _by(off_mm: float) -> str:
    """Return by how much a thing moves, the tenth rounded up. [mm]."""
    return units.millimetres_text(math.ceil(off_mm * 10.0) / 10.0)


def thing_moved(bound: Bound, off_mm: float, *, too_high: bool) -> str | None:
    """Propose what could be done to a thing that a limit belongs to; None where nothing can. [mm]."""
    by = _by(off_mm)
    way, higher = ("Raise", "higher") if too_high else ("Lower", "lower")
    if bound.kind is RuleKind.COVER and bound.part:
        return (
            f"Set the frame of {bound.thing} into the paving, tilted with it: {by} {higher} at one corner (entered as "
            f"fixed: ask whose drain it is first)."
        )
    return {
        RuleKind.COVER: f"{way} the frame of {bound.thing} by {by} (entered as fixed: ask whose drain it is first).",
        RuleKind.GULLY: f"{way} the grating of {bound.thing} by {by}.",
        RuleKind.DOOR_REACH: f"Put a step at {bound.thing}: accept {by} more than wanted, or make it two risers.",
        RuleKind.DOOR: f"Accept {by} less of a step at {bound.thing}.",
        RuleKind.JOIN: f"Put a step of {by} where it meets {bound.thing}, or lay both areas on one plane.",
    }.get(bound.kind)


def relay(bound: Bound, off_mm: float, *, too_high: bool) -> str:
    """Propose that an edge of existing paving is relaid. [mm]."""
    ask = ask_first(bound.owner)
    higher = "higher" if too_high else "lower"
    return f"{ask}{'t' if ask else 'T'}ake up and relay {bound.thing} {_by(off_mm)} {higher}."


def met_as_it_lies(thing: str) -> str:
    """Say that an edge of the highway is met as it lies."""
    return f"Not offered: another level of {thing}. It is the highway authority's and is met as it lies."


def turn_to_wall(area: str, wall: str, outfall: str) -> str:
    """Propose a fall towards a wall, with a channel at its foot."""
    return (
        f"Turn the fall of {area} towards wall {wall}, with a channel along it led to {outfall}: the "
        f"edge opposite is met as it lies."
    )


def channel_across(area: str, outfall: str) -> str:
    """Propose two planes to a channel across the middle of an area."""
    return (
        f"Lay {area} as two planes that fall to a channel across its middle, led to {outfall}: both ends are met "
        f"as they lie."
    )


def sentence_of_owner(said: str, owner: Owner) -> str:
    """Return an option as it is begun: with whom to ask first, where a thing is not the customer's own."""
    begun = f"{ask_first(owner)}{said}" if owner is not Owner.OWN else said
    return f"{begun[0].upper()}{begun[1:]}"
