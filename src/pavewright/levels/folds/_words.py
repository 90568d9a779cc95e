"""The sentences of the findings on folds, in one place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units

if TYPE_CHECKING:
    from pavewright.survey import PlacedCover


def lid_on_fold(area: str, placed: PlacedCover, off_mm: float) -> str:
    """Say that a fold runs across a lid. [mm]."""
    return (
        f"A fold of {area} runs across cover {placed.cover.name}. A frame tilts and does not bend: set "
        f"as well as can be it stands off {units.millimetres_text(off_mm)}, against {placed.cover.tolerance_mm:g} mm."
    )


def move_fold() -> str:
    """Propose that a fold runs past a lid."""
    return "Move the fold past the lid: move the gully or channel that it leads to, or split the area elsewhere."
