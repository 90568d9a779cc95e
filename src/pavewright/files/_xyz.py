"""Point clouds as lines of text: three numbers a line, read in pieces."""

from __future__ import annotations

import re
from itertools import islice
from typing import TYPE_CHECKING

import numpy as np

from pavewright.files._clouds import MAX_POINTS, Steps, surface_of
from pavewright.files._read import MAX_MM, TO_MM, FileRefusedError

if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import BinaryIO

    from pavewright.files._clouds import CloudSurface

XYZ_ORDERS = {"east,north,level": (0, 1, 2), "north,east,level": (1, 0, 2)}
"""Orders of the first three columns by their name; what follows is not read."""
_LINES = 200_000
_BLOCK = 1 << 20
_STEP_MM = 0.1
_PARTS = re.compile(rb"[,;\t ]+")
_HEADINGS = 5
"""At most so many lines stand before the first point."""
_COLUMNS = 3


def read_xyz(stream: BinaryIO, cell_mm: float, unit: str, order: str, least: int = 1) -> CloudSurface:
    """Return the median levels of a cloud that is written as lines of text.

    Args:
        stream: The file, which can be sought.
        cell_mm: Side of a cell, 5 to 500. [mm]
        unit: ``m``, ``mm``, ``ft`` or ``in``: the file does not state it.
        order: One of ``XYZ_ORDERS``: the file does not state it.
        least: Points that a cell must hold.

    Raises:
        FileRefusedError: no unit or order, a line that is no point, or too many of them.
    """
    if unit not in TO_MM or order not in XYZ_ORDERS:
        message = (
            f"Say in which order the columns stand ({'; '.join(XYZ_ORDERS)}) and whether they are {', '.join(TO_MM)}."
        )
        raise FileRefusedError(message)
    return surface_of(_Xyz(stream, TO_MM[unit], XYZ_ORDERS[order]), cell_mm, least)


class _Xyz:
    """A cloud as lines of text, in steps from its first point."""

    def __init__(self, stream: BinaryIO, to_mm: float, columns: tuple[int, int, int]) -> None:
        self._stream, self._to_mm, self._columns = stream, to_mm, columns
        self.step_mm = _STEP_MM
        self.count = sum(block.count(b"\n") for block in iter(lambda: stream.read(_BLOCK), b"")) + 1
        if self.count > MAX_POINTS:
            return
        stream.seek(0)
        self._skip, first = self._first()
        east, north, up = (float(first[column]) * to_mm for column in columns)
        self.origin_mm = (east, north, up)

    def _first(self) -> tuple[int, list[bytes]]:
        """Return how many lines are headings, and the first point.

        Raises:
            FileRefusedError: there is none.
        """
        for number, line in enumerate(islice(self._stream, _HEADINGS + 1)):
            parts = _PARTS.split(line.strip())
            try:
                if len(parts) >= _COLUMNS and all(np.isfinite(float(each)) for each in parts[:_COLUMNS]):
                    return number, parts
            except ValueError:
                continue
        message = "The file begins with no line of three numbers: look whether it is a cloud, and delete headings."
        raise FileRefusedError(message)

    def chunks(self) -> Iterator[Steps]:
        self._stream.seek(0)
        lines = islice(self._stream, self._skip, None)
        count, read = 0, self._skip
        while part := list(islice(lines, _LINES)):
            places = self._places(part, read)
            read += len(part)
            steps = np.rint((places - np.array(self.origin_mm)) / self.step_mm)
            if np.abs(steps[:, 2]).max(initial=0.0) > np.iinfo(np.int32).max:
                message = "The cloud reaches over more than 200 km: look at its unit."
                raise FileRefusedError(message)
            count += len(steps)
            yield Steps(
                np.ascontiguousarray(steps[:, 0], np.int64),
                np.ascontiguousarray(steps[:, 1], np.int64),
                np.ascontiguousarray(steps[:, 2], np.int32),
            )
        self.count = count

    def _places(self, lines: list[bytes], before: int) -> np.ndarray:
        """Return the places of lines, shape (n, 3), float64. [mm].

        Raises:
            FileRefusedError: a line is no point.
        """
        kept = [each for each in lines if each.strip()]
        if not kept:
            return np.empty((0, _COLUMNS))
        comma = b"," if b"," in kept[0] else b";" if b";" in kept[0] else None
        try:
            found = np.loadtxt(
                kept, delimiter=None if comma is None else comma.decode(), usecols=self._columns, ndmin=2, comments=None
            )
        except (ValueError, IndexError) as problem:
            message = f"A line between {before + 1} and {before + len(lines)} is no point of three numbers: {problem}"
            raise FileRefusedError(message) from None
        places = np.asarray(found * self._to_mm, dtype=np.float64)
        if not np.isfinite(places).all() or np.abs(places).max() > MAX_MM:
            message = (
                f"A line between {before + 1} and {before + len(lines)} lies more than 100 km off: look at its unit."
            )
            raise FileRefusedError(message)
        return places
