"""The pieces of a laying plan for a screen: what is alike is written once, and places are counted from one another.

A job of 25 000 setts takes 10 MB as one object for each piece, and a fortieth of that here. Lengths are rounded to a
tenth of a millimetre, which no screen shows; papers and files have them unrounded.
"""

from __future__ import annotations

import operator
from dataclasses import replace
from itertools import chain, pairwise
from typing import TYPE_CHECKING, Any, TypedDict

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.laying import LaidArea, LayingPlan, Piece


class PiecesInColumns(TypedDict):
    """The pieces of one area, in laying order, in columns; see ``columns_of``."""

    area: str
    kinds: list[dict[str, Any]]
    forms: list[list[list[int]]]
    runs: list[list[int]]
    kind: list[int]
    form: list[int]
    dx: list[int]
    dy: list[int]


STEPS_PER_MM = 10
"""Places are whole numbers of tenths of a millimetre."""
_ROUNDED = {
    "along_mm": 2, "across_mm": 2, "turn_deg": 6, "frame_x_mm": 2, "frame_y_mm": 2, "area_m2": 6, "kg": 4, "saw_m": 5,
}  # fmt: skip
_NAMES = ("kind", *_ROUNDED, "unit", "border", "notched", "curved", "sliver", "zone", "neck_mm")
_values_of = operator.attrgetter(*_NAMES)


def pieces_told(laying: LayingPlan) -> list[PiecesInColumns]:
    """Return the pieces of every area in columns."""
    return [columns_of(area) for area in laying.areas]


def without_pieces(laying: LayingPlan) -> LayingPlan:
    """Return a laying plan whose pieces are told by themselves."""
    return replace(laying, areas=tuple(replace(area, pieces=()) for area in laying.areas))


def columns_of(area: LaidArea) -> PiecesInColumns:
    """Return the pieces of an area in columns.

    `kinds` are all that pieces are beside their place, `forms` their rings: x, y, x, y … from the first corner of the
    outer ring. `kind` and `form` say for each piece which. `dx` and `dy` take the first corner on from that of the
    piece before, the first one from zero. `runs` are course, first place, first number and how many.
    """
    kind, kinds = _kinds(area.pieces)
    form, forms = _forms(area.pieces)
    firsts = np.array([piece.shape.outer[0] for piece in area.pieces]).reshape(-1, 2)
    steps = np.diff(np.rint(firsts * STEPS_PER_MM).astype(np.int64), axis=0, prepend=np.zeros((1, 2), dtype=np.int64))
    return {
        "area": area.area,
        "kinds": [dict(zip(_NAMES, each, strict=True)) for each in kinds],
        "forms": forms,
        "runs": _runs(area.pieces),
        "kind": kind,
        "form": form,
        "dx": steps[:, 0].tolist(),
        "dy": steps[:, 1].tolist(),
    }


def _kinds(pieces: Sequence[Piece]) -> tuple[list[int], list[tuple[Any, ...]]]:
    """Return for each piece which kind it is of, and the kinds."""
    known: dict[tuple[Any, ...], int] = {}
    kinds: dict[tuple[Any, ...], int] = {}
    which = []
    for piece in pieces:
        values = _values_of(piece)
        found = known.get(values)
        if found is None:
            rounded = (round(value, _ROUNDED[name]) for name, value in zip(_ROUNDED, values[1:], strict=False))
            kind = (values[0].value, *rounded, *values[1 + len(_ROUNDED) :])
            found = known[values] = kinds.setdefault(kind, len(kinds))
        which.append(found)
    return which, list(kinds)


def _forms(pieces: Sequence[Piece]) -> tuple[list[int], list[list[list[int]]]]:
    """Return for each piece which form it has, and the forms: rings in whole steps from the first corner."""
    rings = [ring for piece in pieces for ring in (piece.shape.outer, *piece.shape.holes)]
    if not rings:
        return [], []
    flat = np.fromiter(chain.from_iterable(chain.from_iterable(rings)), dtype=float).reshape(-1, 2)
    lengths = [len(ring) for ring in rings]
    counts = [1 + len(piece.shape.holes) for piece in pieces]
    starts = np.concatenate(([0], np.cumsum(lengths)))
    ring_of_piece = np.concatenate(([0], np.cumsum(counts)))
    begins = starts[ring_of_piece[:-1]]
    of_points = np.diff(np.append(begins, len(flat)))
    steps = np.rint((flat - np.repeat(flat[begins], of_points, axis=0)) * STEPS_PER_MM).astype(np.int32)
    known: dict[tuple[bytes, tuple[int, ...]], int] = {}
    forms: list[list[list[int]]] = []
    which = []
    for first, last in pairwise(ring_of_piece.tolist()):
        shape = tuple(lengths[first:last])
        key = steps[starts[first] : starts[last]].tobytes(), shape
        found = known.get(key)
        if found is None:
            found = known[key] = len(forms)
            forms.append([steps[starts[each] : starts[each + 1]].ravel().tolist() for each in range(first, last)])
        which.append(found)
    return which, forms


def _runs(pieces: Sequence[Piece]) -> list[list[int]]:
    """Return stretches of pieces of one course whose places and numbers follow each other."""
    runs: list[list[int]] = []
    for piece in pieces:
        last = runs[-1] if runs else None
        follows = (
            last is not None
            and piece.course == last[0]
            and piece.place == last[1] + last[3]
            and piece.number == last[2] + last[3]
        )
        if follows and last is not None:
            last[3] += 1
        else:
            runs.append([piece.course, piece.place, piece.number, 1])
    return runs
