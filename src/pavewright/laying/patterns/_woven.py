"""Basketweave and herringbone: units along and across that lock into each other.

Both stand on a square lattice whose pitch is a width and a joint. A unit takes as many cells in a row as widths make
its length; it lies at the beginning of its cells, so that what its length leaves of them widens the joint at its end.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from pavewright.laying.patterns._placing import Placing

if TYPE_CHECKING:
    from pavewright.laying.patterns._bond import Bond, Box


def herringbone(bond: Bond, box: Box) -> Placing:
    """Return herringbone that covers a box: in each row of cells a unit along, then units across that rise from it.

    With n widths to a length, the cell in column i and row j belongs to a unit along where (i − j) mod 2n is less than
    n, and else to a unit across; each row is the one below it shifted by one cell.

    Source: definition, n cells along and n cells across in turn on each row
    """
    pitch, reach = bond.woven_pitch_mm, bond.side_by_side
    columns, rows = _cells(box, pitch, reach)
    kind = (columns - rows) % (2 * reach)
    lying, standing = kind == 0, kind == 2 * reach - 1
    return _lattice(bond, columns, rows, lying, standing, rows)


def herringbone_period(bond: Bond) -> tuple[float, float]:
    """Return the shifts along and across that give every possible start once. [mm]."""
    return 2 * bond.side_by_side * bond.woven_pitch_mm, bond.woven_pitch_mm


def basketweave(bond: Bond, box: Box) -> Placing:
    """Return basketweave that covers a box: squares of units along and squares of units across in turn.

    Source: definition, squares of n units of n widths each, turned in turn
    """
    pitch, reach = bond.woven_pitch_mm, bond.side_by_side
    columns, rows = _cells(box, pitch, reach)
    along = (columns // reach + rows // reach) % 2 == 0
    lying = along & (columns % reach == 0)
    standing = ~along & (rows % reach == 0)
    return _lattice(bond, columns, rows, lying, standing, rows // reach)


def basketweave_period(bond: Bond) -> tuple[float, float]:
    """Return the shifts along and across that give every possible start once. [mm]."""
    square = bond.side_by_side * bond.woven_pitch_mm
    return 2.0 * square, square


def _cells(box: Box, pitch_mm: float, reach: int) -> tuple[np.ndarray, np.ndarray]:
    """Return column and row of every cell from which a unit may reach into a box; each of shape (n,)."""
    x1, y1, x2, y2 = box
    columns = np.arange(math.floor(x1 / pitch_mm) - reach, math.ceil(x2 / pitch_mm) + 1)
    rows = np.arange(math.floor(y1 / pitch_mm) - reach, math.ceil(y2 / pitch_mm) + 1)
    wide, deep = np.meshgrid(columns, rows)
    return wide.ravel(), deep.ravel()


def _lattice(
    bond: Bond, columns: np.ndarray, rows: np.ndarray, lying: np.ndarray, standing: np.ndarray, course: np.ndarray
) -> Placing:
    """Return units along from the cells where they begin, and units across from theirs."""
    pitch, size = bond.woven_pitch_mm, bond.sizes[0]
    kept = lying | standing
    x, y = columns[kept] * pitch, rows[kept] * pitch
    upright = standing[kept]
    count = len(x)
    return Placing(
        x_mm=np.where(upright, x + size.across_mm, x),
        y_mm=y,
        turn_deg=np.where(upright, 90.0, 0.0),
        along_mm=np.full(count, size.along_mm),
        across_mm=np.full(count, size.across_mm),
        course=course[kept],
        order=x + y * _LATER,
        size=np.zeros(count, dtype=np.int64),
    )


_LATER = 1e-3
"""Of units one above the other in a course the nearer one comes first."""
