"""What is missing, in sentences that say what to measure, see or enter."""

from __future__ import annotations

from typing import assert_never

from pavewright.survey import NotRead

SHAPE = "Nothing is measured yet: begin with the shape, two corners and the tape between them."
AREA = "Draw the area that is to be paved: name its corners, one after the other."
SOIL = "Dig a hole and say what soil it shows, or say who assumes it and why: without it there is no dig and no base."
TOPSOIL = "Say how deep the topsoil is: until then a provisional sum stands for it."
GROUND = "Read the ground: staff readings at every corner and in the middle, for the dig."
NO_OUTFALL = "Say where the water goes: name the drain, soakaway or border that takes it, and pour a bucket."
CARRY = "Pace the way from where the lorry sets down to the work: carrying is not in the price until then."
PRICES = "Enter prices: nothing has one yet, so there is no price."
LABOUR_PRICE = "Enter what an hour of one person costs."
OVERHEAD = "Enter the overhead on the cost, zero if there is none."
MARGIN = "Enter the margin that the price has to leave."
TAX = "Enter the tax on the price, zero if none is due."
PEOPLE = "Say how many work at a time: without it there are hours and no dates."
START = "Say on which day work may start: without it there are hours and no dates."


def unit(area: str) -> str:
    """Ask what an area is paved with."""
    return f"Choose the slab, block or sett of {area}."


def outfall_not_seen(name: str) -> str:
    """Ask that somebody looks where an outfall takes its water."""
    return f"See where {name} takes its water: pour a bucket and look, then mark it as seen."


def not_read(what: NotRead, name: str) -> str:
    """Ask for a level that nobody read."""
    match what:
        case NotRead.DPC:
            return f"Read the damp-proof course of wall {name}: clearance below it is not known."
        case NotRead.THRESHOLD:
            return f"Read the threshold of {name}: the step down to the paving is not known."
        case NotRead.AIR_BRICK:
            return f"Read the underside of air brick {name}: whether it stays clear is not known."
        case NotRead.COVER:
            return f"Read the level of cover {name}: whether the paving meets it is not known."
        case NotRead.EDGE:
            return f"Read both ends of the edge {name}: whether the paving meets it is not known."
        case _:
            assert_never(what)
