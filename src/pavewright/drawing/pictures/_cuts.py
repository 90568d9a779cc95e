"""Sawing in pictures: each setting of the saw with how many cuts it makes and the pieces that come of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing._scene import DASHED, HAIR, Hatch
from pavewright.drawing._type import width_of
from pavewright.drawing.pictures import _signs as signs
from pavewright.drawing.pictures._board import BOLD_PEN, WIDE_MM, Board, Pen
from pavewright.drawing.pictures._words import WORDS
from pavewright.laying import SetUpKind, saw_set_ups
from pavewright.writing import size_mark

if TYPE_CHECKING:
    from pavewright.drawing._scene import Scene
    from pavewright.laying import LaidArea, SawSetUp, SetUpCut
    from pavewright.pipeline import Plan

_HEAD_MM, _ROW_MM, _LINE_MM = 22.0, 28.0, 6.0
"""Height of the head, of a row at least, and of a line of numbers. [mm]"""
_NUMBERS_AT_MM, _NUMBER_MM = 92.0, 4.4
"""Where the numbers of the pieces begin, and their height. [mm]"""


def cut_pictures(plan: Plan) -> tuple[Scene, ...]:
    """Return the settings of the saw of every area in which something is sawn."""
    found: list[Scene] = []
    for number, laid in enumerate(plan.laying.areas):
        set_ups = saw_set_ups(laid)
        if not set_ups:
            continue
        board = Board(f"pictures-cuts-{number + 1}", WORDS.cuts, WORDS.set_ups(area=laid.area))
        _head(board.row(_HEAD_MM), plan, laid)
        for set_up in set_ups:
            for lengthwise in (False, True):
                cuts = [each for each in set_up.cuts if each.lengthwise is lengthwise]
                if cuts:
                    _row(board, laid, set_up, cuts, lengthwise=lengthwise)
        found += board.scenes()
    return tuple(found)


def _head(pen: Pen, plan: Plan, laid: LaidArea) -> None:
    """Draw which area it is, black among the others, and what is worn at the saw."""
    shapes = [(area.name, area.gross.outer) for area in plan.survey.site.areas]
    xs = [x for _, outer in shapes for x, _ in outer]
    ys = [y for _, outer in shapes for _, y in outer]
    size = min(40.0 / (max(xs) - min(xs)), (_HEAD_MM - 4.0) / (max(ys) - min(ys)))
    for name, outer in shapes:
        ring = [((x - min(xs)) * size + 1.0, (y - min(ys)) * size + 2.0) for x, y in outer]
        pen.shape(*ring, hatch=Hatch.BLACK if name == laid.area else Hatch.WHITE)
    for place, draw in enumerate((signs.drop, signs.mask, signs.glasses, signs.ears, signs.glove)):
        draw(pen.moved(70.0 + 22.0 * place, 4.0, 1.5))
    pen.line((0.0, 0.0), (WIDE_MM, 0.0), stroke=BOLD_PEN)


def _row(board: Board, laid: LaidArea, set_up: SawSetUp, cuts: list[SetUpCut], *, lengthwise: bool) -> None:
    lines = _lines([str(piece) for piece in sorted({piece for cut in cuts for piece in cut.pieces})])
    high = max(_ROW_MM, len(lines) * _LINE_MM + 6.0)
    pen = board.row(high)
    pen.line((0.0, 0.0), (WIDE_MM, 0.0), stroke=HAIR)
    middle = pen.moved(0.0, high / 2.0 - _ROW_MM / 2.0)
    if set_up.kind is SetUpKind.FENCE and set_up.fence_mm is not None:
        _fence(middle, laid, set_up.fence_mm, lengthwise=lengthwise)
    elif set_up.kind is SetUpKind.ANGLE and set_up.angle_deg is not None:
        _angle(middle, set_up.angle_deg)
    else:
        signs.template(middle.moved(22.0, 2.0, 2.2))
    middle.number((78.0, _ROW_MM / 2.0), f"× {len(cuts)}", 6.4)
    top = high / 2.0 + len(lines) * _LINE_MM / 2.0
    for number, words in enumerate(lines):
        pen.number((_NUMBERS_AT_MM, top - _LINE_MM * (number + 0.5)), words, _NUMBER_MM, "start")


def _lines(texts: list[str]) -> list[str]:
    """Return numbers in lines as wide as there is room."""
    found: list[str] = []
    for text in texts:
        longer = f"{found[-1]}   {text}" if found else text
        if found and width_of(longer, _NUMBER_MM, bold=True) <= WIDE_MM - _NUMBERS_AT_MM:
            found[-1] = longer
        else:
            found.append(text)
    return found


def _fence(pen: Pen, laid: LaidArea, fence_mm: float, *, lengthwise: bool) -> None:
    """Draw a unit against the fence, the blade at its distance, and that distance in numbers."""
    unit = next((each for each in laid.sawn), None)
    sides = (1.0, 1.0) if unit is None else (unit.length_mm, unit.width_mm)
    across, along = sides if not lengthwise else (sides[1], sides[0])
    size = min(44.0 / across, 16.0 / along)
    wide, high = across * size, along * size
    low = 3.0
    pen.box((5.0, low - 2.0), 3.0, high + 4.0, Hatch.BLACK, None)
    pen.box((8.0, low), wide, high)
    at = 8.0 + min(fence_mm * size, wide)
    pen.box((8.0, low), at - 8.0, high, Hatch.CUT)
    pen.line((at, low - 2.0), (at, low + high + 2.0), stroke=BOLD_PEN)
    signs.blade(pen.moved(at - 2.0, low + high, 0.4))
    pen.both_ways((8.0, low + high + 5.0), (at, low + high + 5.0))
    pen.number((62.0, low + high / 2.0), size_mark(fence_mm), 6.4)


def _angle(pen: Pen, angle_deg: float) -> None:
    """Draw a unit with a sloping cut and its angle in numbers."""
    pen.box((8.0, 4.0), 34.0, 18.0)
    pen.line((8.0, 4.0), (34.0, 22.0), stroke=DASHED)
    signs.blade(pen.moved(32.0, 20.0, 0.5))
    pen.number((58.0, 13.0), f"{angle_deg:g}°", 6.4)
