"""What the signs stand for: each beside a picture of the thing itself."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing._scene import DASHED, HAIR, THICK, Hatch, Stroke
from pavewright.drawing.pictures import _signs as signs
from pavewright.drawing.pictures._board import BOLD_PEN, WIDE_MM, Board
from pavewright.drawing.pictures._words import WORDS

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.drawing._scene import Scene
    from pavewright.drawing.pictures._board import Pen

_ROW_MM = 20.0
"""Height of a row. [mm]"""


def key_picture() -> tuple[Scene, ...]:
    """Return the signs in two columns, each with what it stands for."""
    board = Board("pictures-key", WORDS.key, WORDS.key_rows)
    for both in (_PAIRS[first : first + 2] for first in range(0, len(_PAIRS), 2)):
        pen = board.row(_ROW_MM)
        for at, (sign, thing) in zip((0.0, WIDE_MM / 2.0), both, strict=False):
            sign(pen.moved(at + 6.0, 3.0, 1.4))
            pen.both_ways((at + 26.0, 10.0), (at + 36.0, 10.0))
            thing(pen.moved(at + 42.0, 3.0, 1.4))
        pen.line((0.0, 0.0), (WIDE_MM, 0.0), stroke=HAIR)
    return board.scenes()


def _ring(pen: Pen) -> None:
    pen.disc((5.0, 5.0), 1.6)
    pen.number((8.4, 6.0), "7", 4.0)


def _block(pen: Pen) -> None:
    pen.box((3.4, 3.4), 3.2, 3.2, Hatch.BLACK, None)
    pen.arrow((5.0, 5.0), (10.5, 5.0), THICK)


def _first(pen: Pen) -> None:
    """Draw a corner of two walls with the first slab in it, and the next."""
    pen.box((0.0, 0.0), 22.0, 1.6, Hatch.WALL)
    pen.box((0.0, 0.0), 1.6, 10.0, Hatch.WALL)
    pen.box((1.8, 1.8), 6.0, 6.0, Hatch.GREY)
    pen.box((8.2, 1.8), 6.0, 6.0)
    pen.number((4.8, 4.8), "1", 4.0)
    pen.number((11.2, 4.8), "2", 4.0)


def _dashed(pen: Pen) -> None:
    pen.line((0.0, 5.0), (10.0, 5.0), stroke=DASHED)


def _thick(pen: Pen) -> None:
    pen.line((0.0, 5.0), (10.0, 5.0), stroke=THICK)


def _measured_line(pen: Pen) -> None:
    """Draw a line between two pins that stay, with a tape along it."""
    pen.line((1.0, 2.0), (21.0, 2.0), stroke=THICK)
    for x in (1.0, 21.0):
        pen.line((x, 0.0), (x, 8.0), stroke=BOLD_PEN)
    pen.both_ways((1.0, 6.0), (21.0, 6.0))


def _cut(pen: Pen) -> None:
    pen.box((1.0, 1.0), 8.0, 8.0, Hatch.CUT)


def _sawn(pen: Pen) -> None:
    pen.box((0.0, 1.0), 8.0, 8.0)
    signs.blade(pen.moved(9.0, 1.0, 0.8))


def _heavy(pen: Pen) -> None:
    for x in (0.0, 5.0):
        signs.person(pen.moved(x, 0.0, 0.9))


def _carried(pen: Pen) -> None:
    signs.person(pen.moved(0.0, 0.0, 1.0))
    signs.slab(pen.moved(9.0, 1.0, 0.8))
    signs.person(pen.moved(16.0, 0.0, 1.0))


def _band(pen: Pen) -> None:
    pen.box((0.0, 1.0), 10.0, 8.0, Hatch.BAND)


def _by_hand(pen: Pen) -> None:
    signs.spade(pen)
    signs.yes(pen.moved(8.0, 4.0, 0.5))
    _machine(pen.moved(14.0, 0.0))


def _machine(pen: Pen) -> None:
    """Draw a digger, crossed out."""
    pen.box((0.0, 0.6), 7.0, 2.0, Hatch.BLACK)
    pen.box((1.0, 2.6), 3.6, 4.0)
    pen.line((4.6, 5.0), (8.0, 8.6), (9.8, 3.4), stroke=Stroke(0.9))
    pen.line((0.0, 9.4), (9.6, 0.4), stroke=BOLD_PEN)


def _damp(pen: Pen) -> None:
    signs.bucket(pen)
    signs.drop(pen.moved(7.4, 5.6, 0.45))


def _socket(pen: Pen) -> None:
    """Draw a lamp on its cable."""
    pen.disc((12.0, 6.4), 3.0)
    pen.box((10.8, 1.6), 2.4, 2.0, Hatch.BLACK)
    pen.line((0.0, 0.6), (12.0, 0.6), (12.0, 1.6), stroke=BOLD_PEN)


def _ring_of_fire(pen: Pen) -> None:
    """Draw a hob with flames."""
    pen.line((0.0, 1.4), (16.0, 1.4), stroke=BOLD_PEN)
    for x in (1.0, 6.0, 11.0):
        signs.flame(pen.moved(x, 2.0, 0.4))
    pen.box((2.0, 6.4), 12.0, 3.2, Hatch.GREY)


def _tap(pen: Pen) -> None:
    """Draw a tap that drips."""
    pen.shape((0.0, 6.0), (7.0, 6.0), (7.0, 3.6), (9.0, 3.6), (9.0, 8.0), (0.0, 8.0))
    pen.line((4.0, 8.0), (4.0, 9.8), stroke=BOLD_PEN)
    pen.line((2.0, 9.8), (6.0, 9.8), stroke=BOLD_PEN)
    signs.drop(pen.moved(6.2, 0.0, 0.3))


def _gully(pen: Pen) -> None:
    """Draw a grating with a pipe below it."""
    pen.box((2.0, 7.6), 10.0, 2.0, Hatch.WALL)
    pen.line((4.0, 7.6), (4.0, 2.0), (18.0, 1.0), stroke=BOLD_PEN)
    pen.line((10.0, 7.6), (10.0, 4.4), (18.0, 4.0), stroke=BOLD_PEN)


def _phone(pen: Pen) -> None:
    """Draw a telephone."""
    pen.box((2.0, 0.0), 6.0, 10.0)
    pen.box((3.0, 2.0), 4.0, 6.4, Hatch.GREY)
    pen.disc((5.0, 1.0), 0.5, Hatch.BLACK, None)


def _question(pen: Pen) -> None:
    """Draw the ground with something in it that nobody has seen."""
    pen.box((0.0, 0.0), 18.0, 7.0, Hatch.GROUND)
    pen.number((9.0, 3.4), "?", 5.0)


def _over_a_pipe(pen: Pen) -> None:
    """Draw a peg that would go through something buried."""
    pen.line((0.0, 6.6), (18.0, 6.6))
    pen.shape((8.4, 10.0), (9.6, 10.0), (9.6, 3.0), (9.0, 1.8), (8.4, 3.0))
    pen.disc((9.0, 1.8), 1.8, Hatch.BLACK)
    signs.no(pen.moved(11.0, 0.0, 0.6))


def _heap(pen: Pen) -> None:
    """Draw a heap of sand in the rain."""
    pen.shape((0.0, 0.4), (16.0, 0.4), (8.0, 6.0), hatch=Hatch.SAND)
    for x in (2.0, 7.0, 12.0):
        signs.drop(pen.moved(x, 6.4, 0.32))


def _lifted(pen: Pen) -> None:
    """Draw one person with a slab, crossed out, and the hook that is used."""
    signs.person(pen.moved(0.0, 0.0, 0.9))
    signs.slab(pen.moved(7.4, 2.0, 0.7))
    signs.no(pen.moved(2.0, 0.0, 0.9))
    signs.hoist(pen.moved(15.0, 0.0, 0.9))
    signs.yes(pen.moved(22.0, 4.0, 0.5))


_PAIRS: tuple[tuple[Callable[[Pen], None], Callable[[Pen], None]], ...] = (
    (_ring, signs.peg),
    (_dashed, signs.string),
    (_thick, _measured_line),
    (signs.no_pin, _over_a_pipe),
    (_band, _by_hand),
    (signs.flash, _socket),
    (signs.flame, _ring_of_fire),
    (signs.drop, _tap),
    (signs.pipe, _gully),
    (signs.wire, _phone),
    (signs.unknown, _question),
    (_block, _first),
    (_cut, _sawn),
    (_heavy, _carried),
    (_damp, _heap),
    (signs.hoist, _lifted),
)
"""Each sign with what it stands for."""
