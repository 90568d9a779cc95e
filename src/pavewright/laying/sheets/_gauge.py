"""The gauge: where each unit of the first course has to begin and end, measured from the start."""

from __future__ import annotations

from typing import TYPE_CHECKING

import shapely

from pavewright.laying._types_sheets import GaugeMark

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.laying._types import Piece
    from pavewright.laying.pieces import Frame


def gauge_marks(pieces: Sequence[Piece], frame: Frame) -> tuple[GaugeMark, ...]:
    """Return the marks of the first course of the field, joints included, from the beginning of its first piece.

    A tape held once at the start reads them all, so that no error adds up. A course with a piece that cannot be cut and
    laid is passed over: nothing is set out from it.
    """
    field = [piece for piece in pieces if not piece.border]
    unlayable = {piece.course for piece in field if piece.neck_mm is not None}
    courses = {piece.course for piece in field} - unlayable
    if not courses:
        return ()
    first = min(courses)
    spans = []
    for piece in field:
        if piece.course == first:
            x1, _, x2, _ = shapely.bounds(frame.into(piece.shape.polygon)).tolist()
            spans.append((-x2, -x1, piece) if frame.from_right else (x1, x2, piece))
    spans.sort(key=lambda span: (span[0], span[2].number))
    start = spans[0][0]
    return tuple(GaugeMark(piece.number, begin - start, end - start) for begin, end, piece in spans)
