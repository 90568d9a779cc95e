"""Mixes in pictures: bags, buckets and water for one mixer, by what the mix is for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing._scene import HAIR, Hatch
from pavewright.drawing.pictures import _signs as signs
from pavewright.drawing.pictures._board import WIDE_MM, Board, mass_mark
from pavewright.drawing.pictures._words import WORDS
from pavewright.quantities import BatchOf, MixKind
from pavewright.writing import number_text

if TYPE_CHECKING:
    from pavewright.drawing._scene import Scene
    from pavewright.drawing.pictures._board import Pen
    from pavewright.quantities import Batch, MixCard

_ROW_MM = 46.0
"""Height of the row of a mix. [mm]"""
_MAX_PARTS = 8
"""So many buckets are drawn for the parts of a mix; more stand as a number. [-]"""


def mix_pictures(cards: tuple[MixCard, ...], bucket_l: float) -> tuple[Scene, ...]:
    """Return a row for each mix of the job; nothing where it mixes none.

    Args:
        cards: The mixes.
        bucket_l: What a bucket holds. [l]
    """
    board = Board("pictures-mixes", WORDS.mixes, WORDS.mix_rows)
    for card in cards:
        for batch in card.batches:
            if batch.of is BatchOf.MIXER:
                _mix(board.row(_ROW_MM), card, batch, bucket_l)
    return board.scenes()


def _mix(pen: Pen, card: MixCard, batch: Batch, bucket_l: float) -> None:
    """Draw what a mix is for, what goes into one mixer, and how many mixers there are."""
    _purpose(pen.moved(2.0, 14.0), card.kind)
    loose = batch.dry_l if batch.damp_l is None else batch.damp_l
    signs.bag(pen.moved(38.0, 20.0, 1.9))
    pen.number((47.0, 14.0), mass_mark(batch.cement_kg, 1), 5.0, room_mm=24.0)
    pen.number((62.0, 29.0), "+", 7.0)
    signs.bucket(pen.moved(68.0, 20.0, 1.9), Hatch.STONE if card.ballast else Hatch.SAND)
    if batch.damp_l is not None:
        signs.drop(pen.moved(84.0, 33.0, 0.7))
    pen.number((77.5, 14.0), f"{number_text(loose / bucket_l, 1)} × {number_text(bucket_l)} l", 5.0)
    pen.number((93.0, 29.0), "+", 7.0)
    signs.drop(pen.moved(98.0, 20.0, 1.9))
    pen.number((107.5, 14.0), f"{number_text(batch.water_l, 1)} l", 5.0)
    pen.becomes((121.0, 29.0), 11.0)
    signs.mixer(pen.moved(134.0, 19.0, 2.0))
    pen.number((172.0, 29.0), f"× {card.mixers}", 6.4)
    pen.number((144.0, 14.0), f"{number_text(batch.wet_l)} l", 5.0)
    _parts(pen.moved(38.0, 2.0), card)
    pen.line((0.0, 0.0), (WIDE_MM, 0.0), stroke=HAIR)


def _parts(pen: Pen, card: MixCard) -> None:
    """Draw the mix by parts: one black bucket of cement to so many of sand or ballast."""
    signs.bucket(pen.moved(0.0, 0.0, 0.8), Hatch.BLACK)
    whole = round(card.parts)
    if whole > _MAX_PARTS or whole != card.parts:
        pen.number((12.0, 4.0), f": {number_text(card.parts, 1)}", 5.0, "start")
        return
    pen.number((11.0, 4.0), ":", 5.0)
    for number in range(whole):
        signs.bucket(pen.moved(14.0 + 9.5 * number, 0.0, 0.8), Hatch.STONE if card.ballast else Hatch.SAND)


def _purpose(pen: Pen, kind: MixKind) -> None:
    """Draw two units on their bed and base: black is what the mix is for."""
    black = Hatch.BLACK
    pen.box((0.0, 2.0), 30.0, 7.0, black if kind is MixKind.CONCRETE else Hatch.CONCRETE)
    pen.box((0.0, 9.0), 30.0, 4.0, black if kind is MixKind.BED else Hatch.WHITE)
    pen.box((0.0, 13.0), 13.5, 7.0)
    pen.box((16.5, 13.0), 13.5, 7.0)
    pen.box((13.5, 13.0), 3.0, 7.0, black if kind is MixKind.POINTING else Hatch.WHITE)
