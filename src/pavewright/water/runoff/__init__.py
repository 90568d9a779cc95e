"""Runoff: which part of the paving drains to what, and where water is trapped."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.water.runoff._caught import Caught, caught_on_folds, caught_on_plane
    from pavewright.water.runoff._routes import Routes, routes
    from pavewright.water.runoff._strips import direction_is_level
    from pavewright.water.runoff._sums_water import RUNOFF_SUMS
    from pavewright.water.runoff._trapped import trapped_findings
else:
    __getattr__ = face(__name__)

__all__ = [
    "RUNOFF_SUMS",
    "Caught",
    "Routes",
    "caught_on_folds",
    "caught_on_plane",
    "direction_is_level",
    "routes",
    "trapped_findings",
]
