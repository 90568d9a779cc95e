"""Units of mixed sizes as they lie in an area, and the cells of the module under them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np

    from pavewright.laying.mixed import MixedLayout, Pack
    from pavewright.laying.patterns import Placing


@dataclass(frozen=True)
class MixedPlacing:
    """Units of mixed sizes over an area.

    Attributes:
        placed: The units with their places.
        words: What the layout does not hold, for the reader of the plan.
        found: The layout on the cells of its module.
        pack: Its pack.
        cells: The cells, and where they lie.
        lying: Units that lay before and stayed.
    """

    placed: Placing
    words: tuple[str, ...]
    found: MixedLayout
    pack: Pack
    cells: Cells
    lying: int


@dataclass(frozen=True)
class Cells:
    """Cells of the module over an area, counted from the starting corner.

    Attributes:
        bay: Whether each is to be covered, shape (rows, columns), bool.
        inside: Whether each lies wholly inside the outline, of the same shape, bool.
        first: Row and column of the first one.
    """

    bay: np.ndarray
    inside: np.ndarray
    first: tuple[int, int]
