"""What printed tables say of the cement in a cubic metre of mortar, beside what the dry-volume rule gives."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.rules import Figure, Table


def cement_spread(
    parts: float, ours_kg_per_m3: float, factor: Figure, table: Table
) -> tuple[tuple[float, float], tuple[Figure, ...]]:
    """Return how far the cement of a mortar may be off, as parts of ours, and the printed figures that say so.

    The ends are those of the dry-volume factor, or the printed tables' where these lie outside. Between the mixes of
    the tables straight lines are read; past their ends nothing is printed, and the factor's ends stand alone.

    Args:
        parts: Parts of sand to one of cement. [-]
        ours_kg_per_m3: Cement in the mortar by our sum. [kg/m³]
        factor: Dry volume over wet, with its range.
        table: Printed cement by parts of sand.
    """
    low = 1.0 if factor.low is None else factor.low / factor.value
    high = 1.0 if factor.high is None else factor.high / factor.value
    rows = [(float(row.key), row) for row in table.rows]
    for (less, lean), (more, rich) in itertools.pairwise(rows):
        if less <= parts <= more:
            share = (parts - less) / (more - less)
            ends = [
                (lean.value(column) + share * (rich.value(column) - lean.value(column))) / ours_kg_per_m3
                for column in ("low_kg", "high_kg")
            ]
            keys = [row.key for row, part in ((lean, 1.0 - share), (rich, share)) if part > 0.0]
            cells = tuple(table.figure(key, column) for key in keys for column in ("low_kg", "high_kg"))
            return (min(low, ends[0]), max(high, ends[1])), cells
    return (low, high), ()
