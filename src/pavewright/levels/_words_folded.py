"""The sentences of the findings on a folded area, in one place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import worded
from pavewright.geometry import distance
from pavewright.levels.edges import words as drained_words

if TYPE_CHECKING:
    from pavewright.findings import Option
    from pavewright.geometry import Fold
    from pavewright.levels._types import Draining


def not_foldable(area: str, folding: str) -> str:
    """Say that an area cannot be folded as it is asked."""
    return (
        f"Area {area} cannot be folded as {folding}: a valley and planes to a gully need a gully inside the area with "
        f"no inner corner of the outline in their way, a mitre needs an inner corner. Choose cheapest to see what can "
        f"be."
    )


def no_height(area: str) -> str:
    """Say that nothing fixes the height of an area."""
    return f"Nothing fixes the height of area {area}: give level_at with level_mm."


def fold_instead(way: str) -> str:
    """Propose another way to fold an area."""
    return f"Fold it as {way} instead."


def split_by_step(area: str, fold: Fold) -> tuple[str, tuple[Option, ...]]:
    """Say that an area is split by a step."""
    words = (
        f"{area} is split by a step of {fold.step_mm:.0f} mm over "
        f"{units.metres_text(distance(fold.start, fold.end))} m: add what its riser is built of to the order, and "
        "a contrasting edge where people walk over it. Pegs and strings at it are set for its top."
    )
    return words, worded(("Enter two areas with a flight of steps between them, to have it measured.",))


def folded(area: str, way: str, drains: Draining) -> str:
    """Say how an area is folded and where its water goes."""
    return f"{area} is laid as {way}: {drained_words(drains)}."


def runs_to_others(area: str, way: str, drains: Draining) -> str:
    """Say that a folded area sends too much of its water to others."""
    return f"{area} laid as {way} keeps every limit and is not accepted: {drained_words(drains)}."


def does_not_drain(area: str, way: str, drains: Draining) -> str:
    """Say that a folded area does not drain."""
    return f"{area} laid as {way} keeps every limit and does not drain: {drained_words(drains)}."


def choose_fold() -> str:
    """Propose another way to fold an area that does not drain."""
    return "Choose another way to fold it: cheapest compares them all."


def move_gully() -> str:
    """Propose a gully where the water runs."""
    return "Move the gully to where the water runs, or add one."


def channel_at_edge() -> str:
    """Propose a channel where water leaves."""
    return "Put a channel along the edge over which it runs."
