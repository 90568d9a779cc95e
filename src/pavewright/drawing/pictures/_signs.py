"""Signs of our own, each in a box of ten millimetres that begins at the origin of its pen."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.drawing._scene import DASHED, Hatch, Stroke
from pavewright.drawing.pictures._board import BOLD_PEN, PEN

if TYPE_CHECKING:
    from pavewright.drawing.pictures._board import Pen

THIN_PEN = Stroke(0.3)


def peg(pen: Pen) -> None:
    """Draw a peg in the ground with a string at its head."""
    pen.line((0.0, 2.5), (10.0, 2.5))
    pen.shape((4.2, 9.0), (5.8, 9.0), (5.8, 1.6), (5.0, 0.2), (4.2, 1.6))
    pen.line((0.0, 8.0), (4.2, 8.0), stroke=DASHED)


def string(pen: Pen) -> None:
    """Draw a string between two pins."""
    pen.line((0.0, 1.5), (10.0, 1.5))
    for x in (1.0, 9.0):
        pen.line((x, 0.0), (x, 9.0), stroke=BOLD_PEN)
    pen.line((1.0, 7.5), (9.0, 7.5), stroke=DASHED)


def slab(pen: Pen) -> None:
    """Draw a slab as it lies, seen a little from above."""
    pen.shape((0.5, 3.0), (6.5, 3.0), (9.5, 7.0), (3.5, 7.0))
    pen.shape((0.5, 3.0), (0.5, 1.6), (6.5, 1.6), (6.5, 3.0))
    pen.shape((6.5, 1.6), (9.5, 5.6), (9.5, 7.0), (6.5, 3.0))


def blade(pen: Pen) -> None:
    """Draw a saw blade."""
    teeth = 14
    ring = []
    for k in range(2 * teeth):
        turn, reach = math.pi * k / teeth, 4.8 if k % 2 else 4.0
        ring.append((5.0 + reach * math.cos(turn), 5.0 + reach * math.sin(turn)))
    pen.shape(*ring)
    pen.disc((5.0, 5.0), 1.1, Hatch.BLACK)


def mixer(pen: Pen) -> None:
    """Draw a mixer: a drum on its frame."""
    pen.line((2.2, 0.3), (4.6, 4.0), (7.0, 0.3))
    pen.shape((2.0, 4.2), (6.0, 3.0), (8.4, 6.0), (6.6, 9.4), (3.2, 8.0))
    pen.shape((8.4, 6.0), (9.6, 7.4), (8.2, 9.8), (6.6, 9.4), hatch=Hatch.GREY)
    pen.disc((2.2, 0.9), 0.9, Hatch.BLACK)


def barrow(pen: Pen) -> None:
    """Draw a wheelbarrow."""
    pen.shape((1.6, 4.0), (3.2, 8.0), (9.0, 8.0), (7.0, 4.0))
    pen.line((9.8, 6.6), (7.0, 4.0), (2.2, 1.6))
    pen.line((6.6, 4.0), (7.6, 0.4))
    pen.disc((1.9, 1.6), 1.5)


def bucket(pen: Pen, fill: Hatch = Hatch.SAND) -> None:
    """Draw a bucket with what is in it."""
    pen.shape((2.0, 0.5), (8.0, 0.5), (9.2, 7.0), (0.8, 7.0), hatch=fill)
    pen.shape((2.0, 0.5), (8.0, 0.5), (9.2, 7.0), (0.8, 7.0), hatch=Hatch.NONE)
    pen.line((0.8, 7.0), (3.0, 9.6), (7.0, 9.6), (9.2, 7.0), stroke=THIN_PEN)


def bag(pen: Pen) -> None:
    """Draw a bag of cement: black band across."""
    pen.shape((1.2, 0.6), (8.8, 0.6), (8.2, 5.0), (8.8, 9.4), (1.2, 9.4), (1.8, 5.0))
    pen.box((1.7, 3.8), 6.6, 2.4, Hatch.BLACK, None)


def drop(pen: Pen) -> None:
    """Draw a drop of water."""
    ring = [(5.0, 9.8)]
    for k in range(15):
        turn = math.radians(35.0 - 250.0 * k / 14.0)
        ring.append((5.0 + 3.2 * math.cos(turn), 3.8 + 3.2 * math.sin(turn)))
    pen.shape(*ring)


def person(pen: Pen) -> None:
    """Draw a person who carries."""
    pen.disc((5.0, 8.6), 1.2, Hatch.BLACK)
    pen.shape((3.8, 7.0), (6.2, 7.0), (6.4, 3.8), (3.6, 3.8), hatch=Hatch.BLACK, stroke=None)
    pen.line((4.3, 3.8), (3.9, 0.2), stroke=BOLD_PEN)
    pen.line((5.7, 3.8), (6.1, 0.2), stroke=BOLD_PEN)
    pen.line((6.0, 6.6), (9.0, 5.0), stroke=BOLD_PEN)


def mask(pen: Pen) -> None:
    """Draw a head with a mask over mouth and nose."""
    pen.disc((5.0, 5.0), 4.4)
    pen.shape((1.6, 4.4), (8.4, 4.4), (7.4, 1.6), (5.0, 0.8), (2.6, 1.6), hatch=Hatch.GREY)
    for x in (3.4, 6.6):
        pen.disc((x, 6.4), 0.45, Hatch.BLACK, None)


def ears(pen: Pen) -> None:
    """Draw a head with ear defenders."""
    pen.disc((5.0, 4.6), 3.4)
    ring = [(5.0 + 4.3 * math.cos(math.radians(k)), 4.8 + 4.3 * math.sin(math.radians(k))) for k in range(0, 181, 15)]
    pen.line(*ring, stroke=BOLD_PEN)
    for x in (0.2, 7.6):
        pen.box((x, 3.0), 2.2, 3.6, Hatch.BLACK, None)


def glasses(pen: Pen) -> None:
    """Draw safety glasses."""
    pen.disc((5.0, 5.0), 4.4)
    for x in (1.4, 5.4):
        pen.box((x, 5.0), 3.2, 2.2, Hatch.GREY)
    pen.line((4.6, 6.4), (5.4, 6.4))


def glove(pen: Pen) -> None:
    """Draw a glove."""
    pen.shape(
        (2.6, 0.6), (7.0, 0.6), (7.0, 3.6), (9.2, 6.0), (8.2, 7.0), (7.0, 6.0), (7.0, 9.2), (5.9, 9.2), (5.9, 6.2),
        (5.4, 6.2), (5.4, 9.8), (4.3, 9.8), (4.3, 6.2), (3.8, 6.2), (3.8, 9.2), (2.7, 9.2), (2.6, 4.0),
    )  # fmt: skip
    pen.box((2.3, 0.4), 5.0, 1.2, Hatch.BLACK, None)


def template(pen: Pen) -> None:
    """Draw a slab marked by a template, with a pencil."""
    pen.box((0.5, 0.5), 8.0, 8.0)
    pen.line((0.5, 5.0), (3.0, 5.0), (3.6, 3.4), (5.4, 2.6), (6.0, 0.5), stroke=DASHED)
    pen.shape((5.0, 4.0), (8.6, 9.6), (9.8, 8.8), (6.2, 3.2), (5.0, 2.9), hatch=Hatch.BLACK)


def yes(pen: Pen) -> None:
    """Draw a tick: so it is right."""
    pen.line((1.0, 5.0), (4.0, 1.6), (9.2, 9.0), stroke=Stroke(1.6))


def no(pen: Pen) -> None:
    """Draw a cross: not so."""
    pen.line((1.4, 1.4), (8.6, 8.6), stroke=Stroke(1.6))
    pen.line((1.4, 8.6), (8.6, 1.4), stroke=Stroke(1.6))


def no_pin(pen: Pen) -> None:
    """Draw a peg crossed out in a ring."""
    pen.disc((5.0, 5.0), 4.7)
    pen.shape((4.4, 8.0), (5.6, 8.0), (5.6, 2.6), (5.0, 1.6), (4.4, 2.6))
    pen.line((1.7, 1.7), (8.3, 8.3), stroke=BOLD_PEN)


def spade(pen: Pen) -> None:
    """Draw a spade: dig by hand."""
    pen.line((5.0, 9.8), (5.0, 4.6), stroke=BOLD_PEN)
    pen.line((3.6, 9.8), (6.4, 9.8), stroke=BOLD_PEN)
    pen.shape((3.2, 4.8), (6.8, 4.8), (6.6, 1.6), (5.0, 0.2), (3.4, 1.6), hatch=Hatch.GREY)


def flash(pen: Pen) -> None:
    """Draw a flash: a cable."""
    pen.shape((5.6, 9.8), (2.4, 4.6), (4.8, 4.6), (3.8, 0.2), (7.8, 6.0), (5.2, 6.0), hatch=Hatch.BLACK)


def flame(pen: Pen) -> None:
    """Draw a flame: gas, or oil."""
    pen.shape((5.0, 9.8), (7.6, 5.6), (7.6, 2.8), (6.2, 0.6), (3.8, 0.6), (2.4, 2.8), (3.0, 5.4), (4.2, 4.4))
    pen.shape((5.0, 4.4), (6.2, 2.6), (5.6, 0.9), (4.4, 0.9), (3.9, 2.4), hatch=Hatch.BLACK)


def pipe(pen: Pen) -> None:
    """Draw a pipe seen from its end: a drain."""
    pen.disc((5.0, 5.0), 4.4)
    pen.disc((5.0, 5.0), 3.0)
    pen.shape((2.5, 3.6), (7.5, 3.6), (6.6, 2.5), (5.0, 2.0), (3.4, 2.5), hatch=Hatch.BLACK, stroke=None)


def wire(pen: Pen) -> None:
    """Draw a hand set: a line of telephone or data."""
    pen.line((1.6, 3.2), (2.4, 5.6), (7.6, 5.6), (8.4, 3.2), stroke=Stroke(1.4))
    pen.box((0.6, 2.0), 2.4, 2.2, Hatch.BLACK, None)
    pen.box((7.0, 2.0), 2.4, 2.2, Hatch.BLACK, None)


def unknown(pen: Pen) -> None:
    """Draw a warning: something lies there and nobody knows what."""
    pen.shape((5.0, 9.6), (9.8, 0.8), (0.2, 0.8))
    pen.line((5.0, 6.8), (5.0, 3.6), stroke=BOLD_PEN)
    pen.disc((5.0, 2.2), 0.6, Hatch.BLACK, PEN)


def book(pen: Pen) -> None:
    """Draw an open book: what the signs stand for."""
    pen.shape((5.0, 2.0), (0.4, 3.2), (0.4, 8.8), (5.0, 7.6))
    pen.shape((5.0, 2.0), (9.6, 3.2), (9.6, 8.8), (5.0, 7.6))
    pen.disc((2.6, 5.6), 0.9, Hatch.BLACK)
    pen.line((6.2, 6.2), (8.6, 6.8))
    pen.line((6.2, 4.4), (8.6, 5.0))


def hoist(pen: Pen) -> None:
    """Draw a slab on a hook: with a lifting aid."""
    pen.line((5.0, 9.8), (5.0, 6.4), stroke=BOLD_PEN)
    pen.line((5.0, 6.4), (1.4, 3.4))
    pen.line((5.0, 6.4), (8.6, 3.4))
    pen.disc((5.0, 6.4), 0.8, Hatch.BLACK)
    pen.box((0.6, 1.0), 8.8, 2.4, Hatch.GREY)
