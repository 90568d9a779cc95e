"""Catchments: what part of the paving drains to each outlet."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pavewright.flow._kernels import kernel

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from pavewright.flow._fill import Filled

BY = ("tangent", "angle")
"""How a cell's water is shared between two neighbours."""


@dataclass(frozen=True, eq=False)
class Catchments:
    """What drains where.

    Attributes:
        outlets: Names of the outlets.
        shares: Share of each cell's rain that ends at each outlet, shape (outlets, rows, columns), float64; the sum
            over outlets is one inside and zero where no exit can be reached. [-]
        passing_m2: Area whose rain passes through each cell, its own included, shape (rows, columns), float64. [m²]
        areas_m2: Area that drains to each outlet. [m²]
        unreached_m2: Area from which no exit can be reached. [m²]
    """

    outlets: tuple[str, ...]
    shares: NDArray[np.float64]
    passing_m2: NDArray[np.float64]
    areas_m2: tuple[float, ...]
    unreached_m2: float

    def area_of(self, outlet: str) -> float:
        """Return the area that drains to an outlet. [m²]."""
        return self.areas_m2[self.outlets.index(outlet)]


def catchments(filled: Filled, by: str = "tangent") -> Catchments:
    """Return what part of a filled grid drains to each outlet.

    Water leaves a cell along the steepest of eight triangles of neighbours and is shared between the two neighbours on
    either side of that way. Full hollows and level ground drain the way that the flood came.

    Args:
        filled: A filled grid.
        by: ``tangent`` shares so that the mean way is the true one; ``angle`` shares as the paper does, which turns the
            mean way by up to a few degrees.

    Raises:
        ValueError: no such way of sharing.

    Source: tarboton_1997, equations 1 to 5; barnes_2014, order of the flood
    """
    if by not in BY:
        message = f"water is shared by {' or by '.join(BY)}"
        raise ValueError(message)
    grid = filled.grid
    shape = grid.inside.shape
    exits = np.ascontiguousarray(grid.exits, dtype=np.int32).ravel()
    first, second, share = kernel("catchment_kernel", "ways")(
        filled.levels_mm.ravel(),
        (filled.labels >= 0).ravel(),
        exits,
        filled.order,
        filled.receivers.ravel(),
        shape[1],
        filled.neighbours == _CORNERS_TOO,
        by == "angle",
    )
    shares = kernel("catchment_kernel", "shares_of")(first, second, share, exits, filled.order, len(grid.outlets))
    through = kernel("catchment_kernel", "passing")(first, second, share, filled.order)
    return Catchments(
        grid.outlets,
        shares.reshape((len(grid.outlets), *shape)),
        through.reshape(shape) * grid.cell_m2,
        tuple(float(each.sum()) * grid.cell_m2 for each in shares),
        filled.unreached_m2,
    )


_CORNERS_TOO = 8
