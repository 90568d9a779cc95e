"""Sawing in pictures: each setting of the saw with how many cuts it makes and the pieces that come of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.drawing._scene import DASHED, HAIR, Hatch
from pavewright.drawing._type import width_of
from pavewright.drawing.pictures import _signs as signs
from pavewright.drawing.pictures._board import BOLD_PEN, WIDE_MM, Board, Pen
from pavewright.drawing.pictures._words import WORDS
from pavewright.laying import SetUpKind, saw_set_ups
from pavewright.writing import now, size_mark

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pavewright.drawing._scene import Scene
    from pavewright.laying import LaidArea, SawSetUp, SetUpCut
    from pavewright.pipeline import Plan

_HEAD_MM, _ROW_MM, _LINE_MM = 22.0, 19.0, 5.6
"""Height of the head, of a row at least, and of a line of numbers. [mm]"""
_SIZE_AT_MM, _SMALL_MM, _MANY_MM, _NUMBER_MM = 59.0, 63.0, 82.0, 4.0
"""Where the size ends, where few and many pieces begin, and the height of their numbers. [mm]"""
_SMALL_NUMBERS_MM = WIDE_MM / 2.0 - _SMALL_MM - 2.0
"""Room for numbers of pieces in a small row. [mm]"""


def cut_pictures(plan: Plan) -> tuple[Scene, ...]:
    """Return the settings of the saw of every area in which something is sawn, in the order in which they are made."""
    found: list[Scene] = []
    for number, laid in enumerate(plan.laying.areas):
        settings = list(_settings(laid))
        if not settings:
            continue
        board = Board(f"pictures-cuts-{number + 1}", WORDS.cuts, WORDS.set_ups(area=laid.area))
        _head(board.row(_HEAD_MM), plan, laid)
        waiting: list[_Setting] = []
        for setting in settings:
            if len(setting.lines) > 1:
                _small_rows(board, waiting)
                waiting = []
                _whole_row(board, setting)
            else:
                waiting.append(setting)
        _small_rows(board, waiting)
        found += board.scenes()
    return tuple(found)


@dataclass(frozen=True, slots=True)
class _Setting:
    """One picture: a setting of the saw for one unit, led one way.

    Attributes:
        number: Its place in the order, from 1.
        set_up: The setting.
        sides_mm: Sides of the unit, that which lies along the fence last. [mm]
        count: How many cuts it makes.
        lines: Numbers of the pieces that come of it, in lines of a small row.
        pieces: The same, each by itself.
    """

    number: int
    set_up: SawSetUp
    sides_mm: tuple[float, float]
    count: int
    lines: tuple[str, ...]
    pieces: tuple[str, ...]


def _settings(laid: LaidArea) -> Iterator[_Setting]:
    sawn = {each.number: each for each in laid.sawn}
    place = 0
    for set_up in saw_set_ups(laid):
        alike: dict[tuple[float, float], list[SetUpCut]] = {}
        for cut in set_up.cuts:
            unit = sawn[cut.unit]
            sides = (unit.length_mm, unit.width_mm)
            alike.setdefault(sides[::-1] if cut.lengthwise else sides, []).append(cut)
        for sides, cuts in alike.items():
            place += 1
            pieces = tuple(str(piece) for piece in sorted({piece for cut in cuts for piece in cut.pieces}))
            yield _Setting(place, set_up, sides, len(cuts), tuple(_lines(pieces, _SMALL_NUMBERS_MM)), pieces)


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


def _whole_row(board: Board, setting: _Setting) -> None:
    """Draw a setting with many pieces across the whole sheet."""
    lines = _lines(setting.pieces, WIDE_MM - _MANY_MM)
    high = max(_ROW_MM, len(lines) * _LINE_MM + 4.0)
    pen = board.row(high)
    pen.line((0.0, 0.0), (WIDE_MM, 0.0), stroke=HAIR)
    _picture(pen.moved(0.0, (high - _ROW_MM) / 2.0), setting, 0.0)
    top = (high + len(lines) * _LINE_MM) / 2.0
    for number, words in enumerate(lines):
        pen.number((_MANY_MM, top - _LINE_MM * (number + 0.5)), words, _NUMBER_MM, "start")


def _small_rows(board: Board, settings: list[_Setting]) -> None:
    """Draw settings with few pieces two and two."""
    for first in range(0, len(settings), 2):
        pen = board.row(_ROW_MM)
        pen.line((0.0, 0.0), (WIDE_MM, 0.0), stroke=HAIR)
        for column, setting in enumerate(settings[first : first + 2]):
            here = pen.moved(column * WIDE_MM / 2.0, 0.0)
            _picture(here, setting, 4.0)
            here.number((_SMALL_MM, _ROW_MM / 2.0 - 4.0), " ".join(setting.lines), _NUMBER_MM, "start")


def _picture(pen: Pen, setting: _Setting, up_mm: float) -> None:
    """Draw one setting: its place in the order, the stone at the fence, its size, and how often over that."""
    pen.disc((4.0, _ROW_MM - 4.2), 3.2)
    pen.number((4.0, _ROW_MM - 4.2), str(setting.number), 3.2)
    set_up = setting.set_up
    if set_up.kind is SetUpKind.FENCE and set_up.fence_mm is not None:
        _fence(pen, setting.sides_mm, set_up.fence_mm)
    elif set_up.kind is SetUpKind.ANGLE and set_up.angle_deg is not None:
        _angle(pen, set_up.angle_deg)
    else:
        signs.template(pen.moved(16.0, 1.0, 1.6))
    pen.number((_SMALL_MM, _ROW_MM / 2.0 + up_mm), f"× {setting.count}", 5.0, "start")


def _lines(texts: Sequence[str], wide_mm: float) -> list[str]:
    """Return numbers in lines as wide as there is room. [mm]."""
    found: list[str] = []
    for text in texts:
        longer = f"{found[-1]}\N{NO-BREAK SPACE} {text}" if found else text
        if found and width_of(longer, _NUMBER_MM, bold=True) <= wide_mm:
            found[-1] = longer
        else:
            found.append(text)
    return found


def _fence(pen: Pen, sides_mm: tuple[float, float], fence_mm: float) -> None:
    """Draw a unit against the fence, the blade at its distance, and that distance in numbers."""
    across, along = sides_mm
    size = min(26.0 / across, 10.0 / along)
    wide, high = across * size, along * size
    low = 2.0
    pen.box((9.0, low - 1.0), 2.0, high + 2.0, Hatch.BLACK, None)
    pen.box((11.0, low), wide, high)
    at = 11.0 + min(fence_mm * size, wide)
    pen.box((11.0, low), at - 11.0, high, Hatch.CUT)
    pen.line((at, low - 1.5), (at, low + high + 1.5), stroke=BOLD_PEN)
    signs.blade(pen.moved(at - 2.0, low + high, 0.4))
    pen.both_ways((11.0, low + high + 4.6), (at, low + high + 4.6))
    pen.number((_SIZE_AT_MM, _ROW_MM / 2.0), _millimetres(fence_mm), 5.0, "end", room_mm=20.0)


def _angle(pen: Pen, angle_deg: float) -> None:
    """Draw a unit with a sloping cut and its angle in numbers."""
    pen.box((11.0, 2.0), 24.0, 12.0)
    pen.line((11.0, 2.0), (28.0, 14.0), stroke=DASHED)
    signs.blade(pen.moved(26.0, 12.0, 0.4))
    pen.number((_SIZE_AT_MM, _ROW_MM / 2.0), f"{angle_deg:g}°", 5.0, "end")


def _millimetres(size_mm: float) -> str:
    return size_mark(size_mm) if now().imperial else f"{size_mark(size_mm)} mm"
