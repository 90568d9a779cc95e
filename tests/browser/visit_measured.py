"""The first half of a first visit: the shape, its sides and tapes, the datum and the staff."""

from __future__ import annotations

import math

WIDE_MM, DEEP_MM = 6000, 4000
TRUE = {"A": (0, 0), "B": (WIDE_MM, 0), "C": (WIDE_MM, -DEEP_MM), "D": (0, -DEEP_MM)}
"""Corners where they really stand, the house along A to B."""
FRAME = {name: TRUE[name] for name in "ABD"}
SPOT = (4500, -5500)
"""A spot of the lawn beyond the paving."""
GROUND_MM = {"A": 9850, "B": 9840, "B–C": 9825, "C": 9810, "C–D": 9805, "D": 9800, "D–A": 9822, "Middle": 9830}
INSTRUMENT_MM = 11_500


def read_staff(hand, level_mm):
    """Read the staff where the ground, or what it stands on, has a level."""
    hand.number(INSTRUMENT_MM - level_mm, reading=True)


def tape_as_asked(hand, places, *, most=20):
    """Tape what is asked for, as long as tapes between known places are asked."""
    taken = 0
    while taken < most and (ends := hand.taped) and all(name in places for name in ends):
        hand.number(round(math.dist(*(places[name] for name in ends))), reading=True)
        taken += 1
    return taken


def measured(hand):
    """Walk from an empty sketch to a closed level book; returns the places of everything that has a name."""
    places = dict(TRUE)
    hand.sketch(0.2, 0.3)
    hand.sketch(0.8, 0.75)
    hand.touch("Done")
    hand.touch("House wall")
    hand.touch("The other 3")
    assert tape_as_asked(hand, places) == 6
    hand.touch("Done")
    hand.touch("Damp-proof course")
    read_staff(hand, 10_000)
    for _ in GROUND_MM:
        name = hand.question.removeprefix("Staff on ")
        read_staff(hand, GROUND_MM[name])
    read_staff(hand, 10_001)
    hand.touch("Read another point")
    hand.spot(*SPOT, FRAME)
    places["G"] = SPOT
    hand.touch("Two tapes")
    assert tape_as_asked(hand, places) == 2
    read_staff(hand, 9780)
    return places
