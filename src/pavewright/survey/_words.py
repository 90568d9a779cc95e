"""Sentences of the findings on levels that nobody read."""

from __future__ import annotations


def cover_not_read(name: str, *, fixed: bool) -> str:
    """Say that the level of a cover was not read, and what hangs on it."""
    hangs = "the paving is not held to it" if fixed else "how far to set its frame is not known"
    return f"The level of cover {name} was not read: {hangs}. Read the staff on it."


def edge_not_read(name: str, *, start: bool, end: bool) -> str:
    """Say at which ends the level of an edge was not read."""
    missing = " and ".join(words for words, lacks in (("start", start), ("end", end)) if lacks)
    return (
        f"The level of edge {name} was not read at its {missing}: the paving is not held to it, and how it "
        f"meets what lies beyond was not checked. Read the staff there."
    )


def dpc_not_read(wall: str) -> str:
    """Say that the damp-proof course of a wall was not read."""
    return (
        f"The damp-proof course of wall {wall} was not read: how far the paving stays below it was not "
        f"checked. Read the staff on it; if it is a garden wall, write garden as its kind."
    )


def threshold_not_read(door: str) -> str:
    """Say that a threshold was not read."""
    return f"The threshold of {door} was not read: the step there was not checked. Read the staff on it."


def air_brick_not_read(brick: str) -> str:
    """Say that the underside of an air brick was not read."""
    return (
        f"The underside of air brick {brick} was not read: whether the paving stays below it was not "
        f"checked. Read the staff there."
    )
