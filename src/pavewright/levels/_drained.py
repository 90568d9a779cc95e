"""Doors for other rooms onto what drains where on a surface."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.levels._figures import figures
from pavewright.levels.edges import CELL_MM, cells_of, drained_cells

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from pavewright.flow import Grid
    from pavewright.levels.edges import DrainedSurface, Levelled, Taker
    from pavewright.rules import Rulebook
    from pavewright.survey import PlanArea, Survey


def drained_surface(
    area: PlanArea, survey: Survey, surface: Levelled, rules: Rulebook, cell_mm: float = CELL_MM
) -> DrainedSurface:
    """Return a surface over an area filled from its drains and free edges; walls and kerbs hold."""
    return drained_cells(area, survey, surface, figures(rules), cell_mm)


def drained_grid(
    area: PlanArea, survey: Survey, surface: Levelled, rules: Rulebook, cell_mm: float = CELL_MM
) -> tuple[Grid, NDArray[np.bool_], tuple[Taker, ...]]:
    """Return an area as cells with an exit at every gully, channel and free edge, which are paving, and who takes."""
    return cells_of(area, survey, surface, figures(rules), cell_mm)
