"""Sentences of the findings on the ground, made from what was found."""

from __future__ import annotations

SPOTS_ON_A_LINE = "The spot levels of the ground lie on one line: read one or more to the side of it."


def few_spots(count: int) -> str:
    """Say that the ground has too few spot levels."""
    return (
        f"The ground has {count} spot "
        f"level{'' if count == 1 else 's'} and needs three or more: without them the dig cannot be calculated "
        f"from the ground. Read the staff at the corners and in the middle."
    )


def spot_without_level(name: str) -> str:
    """Say that a spot of the ground has no level."""
    return f"{name} is named as a spot level of the ground but has no level: read the staff on it. It is left out."


def spot_twice(used: str, other: str) -> str:
    """Say that two spots stand on one place with two levels."""
    return f"{used} and {other} stand on one place with two levels; that of {used} is used."


def spot_unplaced(name: str) -> str:
    """Say that a reading on the ground has no place."""
    return (
        f"The staff was read on the ground at {name}, which has no place in plan, so it is left out of the ground: "
        f"tape it, measure it off a side, or tap it on the sketch."
    )
