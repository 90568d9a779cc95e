"""Slabs to be sawn, with the cuts in their order and what they become."""

from __future__ import annotations

from typing import TYPE_CHECKING

import shapely

from pavewright import units
from pavewright.drawing._scene import DASHED, MEDIUM, SCALES, THIN, Element, Hatch, Path, Region, Scene, Words
from pavewright.drawing._sheet import A4_FRAME
from pavewright.drawing._type import MIN_TYPE_MM, box_of, first_clear, width_of, wrapped
from pavewright.writing import size_mark

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.laying import LaidArea, PlacedPart, SawCut, SawnUnit

_LONGEST_MM = 55.0
"""Most that the longer side of a slab measures on paper. [mm]"""
_GAP_MM = 9.0
"""Room between slabs on paper. [mm]"""
_HEAD_MM = 5.0
"""Room over each slab for its number. [mm]"""
_FOOT_MM = 10.0
"""Room for the words at the foot. [mm]"""
_HEIGHTS_MM = (3.2, MIN_TYPE_MM)
"""Heights of the number of a piece on paper; the first that fits is taken. [mm]"""
_CUT_TYPE_MM = MIN_TYPE_MM
"""Height of the number of a cut on paper. [mm]"""
_BESIDE_MM = 3.4
"""How far outside the slab or the stone the number of a cut stands on paper. [mm]"""
_NEXT_MM = 2.4
"""How far below it on paper the next line of numbers stands. [mm]"""
_MIN_SLAB_MM = 24.0
"""Room across a slab on paper at least, for its number. [mm]"""
_MIN_WIDE_MM = 150.0
"""Width of the narrowest drawing, so that its words can be read. [mm]"""
_TELLING = "White: pieces with their numbers. Grey: left over. Broken lines: cuts in the order of their small numbers."


def saw_drawings(laid: LaidArea, frame_mm: tuple[float, float] = A4_FRAME) -> tuple[Scene, ...]:
    """Return every slab of an area that is sawn, to scale, with its pieces and the order of its cuts.

    As many drawings as sheets are needed; none where nothing is sawn.
    """
    pages: list[tuple[tuple[SawnUnit, ...], int]] = []
    for name in dict.fromkeys(unit.unit for unit in laid.sawn):
        alike = tuple(unit for unit in laid.sawn if unit.unit == name)
        scale = _scale(alike)
        columns, rows = _room(alike, scale, frame_mm)
        pages += [(alike[first : first + columns * rows], scale) for first in range(0, len(alike), columns * rows)]
    return tuple(
        _page(laid, group, scale, _room(group, scale, frame_mm)[0], number, len(pages))
        for number, (group, scale) in enumerate(pages, start=1)
    )


def _scale(slabs: tuple[SawnUnit, ...]) -> int:
    """Return the scale at which the longest of some slabs has its length on paper."""
    longest = max(max(unit.length_mm, unit.width_mm) for unit in slabs)
    return next((each for each in SCALES if longest / each <= _LONGEST_MM), SCALES[-1])


def _cell(slabs: tuple[SawnUnit, ...], scale: int) -> tuple[float, float]:
    """Return the room of one slab with its number, at least as wide as that. [mm]."""
    wide = max(unit.length_mm for unit in slabs)
    return max(wide, _MIN_SLAB_MM * scale) + _GAP_MM * scale, max(unit.width_mm for unit in slabs) + (
        _GAP_MM + _HEAD_MM
    ) * scale


def _room(slabs: tuple[SawnUnit, ...], scale: int, frame_mm: tuple[float, float]) -> tuple[int, int]:
    """Return how many columns and rows of slabs a sheet has room for."""
    wide, high = _cell(slabs, scale)
    return max(1, int(frame_mm[0] * scale // wide)), max(1, int((frame_mm[1] - _FOOT_MM) * scale // high))


def _page(laid: LaidArea, group: tuple[SawnUnit, ...], scale: int, columns: int, number: int, of: int) -> Scene:
    cell = _cell(group, scale)
    place = f" {number} of {of}" if of > 1 else ""
    elements: list[Element] = []
    rows = -(-len(group) // columns)
    several = len({unit.unit for unit in laid.sawn}) > 1
    for turn, unit in enumerate(group):
        corner = (turn % columns) * cell[0], (rows - 1 - turn // columns) * cell[1]
        elements.extend(_slab(unit, corner, scale, unit.unit if several else ""))
    foot = -_FOOT_MM * scale
    side = _GAP_MM / 2.0 * scale
    wide = max(min(columns, len(group)) * cell[0], _MIN_WIDE_MM * scale)
    reported = wrapped(f"{_TELLING} Scale 1:{scale}.", wide / scale - _GAP_MM, MIN_TYPE_MM)
    foot -= MIN_TYPE_MM * 1.4 * scale * (len(reported) - 1)
    for number_of, line in enumerate(reported):
        y = -(_FOOT_MM * 0.75 + MIN_TYPE_MM * 1.4 * number_of) * scale
        elements.append(Words((0.0, y), line, MIN_TYPE_MM, "start"))
    return Scene(
        f"saw-plan-{laid.area.lower().replace(' ', '-')}-{number}",
        f"Saw plan, {laid.area}{place}",
        tuple(elements),
        (-side, foot, wide - side, rows * cell[1]),
        scale,
        f"Slabs of {laid.area} that are sawn, each with its pieces, what is left over and its cuts in order.",
    )


def _box(corner: XY, x: float, y: float, wide: float, high: float) -> tuple[XY, ...]:
    left, near = corner[0] + x, corner[1] + y
    return ((left, near), (left + wide, near), (left + wide, near + high), (left, near + high))


def _slab(unit: SawnUnit, corner: XY, scale: int, name: str) -> list[Element]:
    """Return one slab with its lower left corner in its place; its name is written where the area saws several."""
    found: list[Element] = [Region((_box(corner, 0.0, 0.0, unit.length_mm, unit.width_mm),), Hatch.GREY, MEDIUM)]
    nested = {piece for pair in unit.pairs for piece in pair.pieces}
    for pair in unit.pairs:
        for piece, outline in zip(pair.pieces, pair.outlines, strict=True):
            points = tuple((corner[0] + x, corner[1] + y) for x, y in outline)
            x, y = shapely.get_coordinates(shapely.maximum_inscribed_circle(shapely.Polygon(points), 1.0))[0].tolist()
            found.append(Region((points,), Hatch.WHITE, THIN))
            found.append(Words((x, y), str(piece), MIN_TYPE_MM, bold=True))
        ends = tuple((corner[0] + x, corner[1] + y) for x, y in (pair.start, pair.end))
        found.append(Path(ends, DASHED))
    for part in unit.parts:
        if part.piece in nested:
            continue
        found.append(Region((_box(corner, part.x_mm, part.y_mm, part.along_mm, part.across_mm),), Hatch.WHITE, THIN))
        found.extend(_number(part, corner, scale))
    taken = [box_of(each, scale) for each in found if isinstance(each, Words)]
    for cut in unit.cuts:
        found.extend(_cut(cut, unit, corner, scale, taken))
    head = corner[0], corner[1] + unit.width_mm + (_BESIDE_MM + _HEAD_MM / 2.0) * scale
    words = ", ".join(filter(None, (f"Unit {unit.number}", name, "left over" if unit.left_over_of else "")))
    room = max(unit.length_mm, _LONGEST_MM / 2.0 * scale) / scale + _GAP_MM - 1.0
    while len(words) > 1 and width_of(words, MIN_TYPE_MM, bold=True) > room:
        words = f"{words.rstrip('…')[:-1]}…"
    found.append(Words(head, words, MIN_TYPE_MM, "start", bold=True))
    return found


def _number(part: PlacedPart, corner: XY, scale: int) -> list[Element]:
    """Return the number of a piece as large as it fits, with its size beneath where that fits too."""
    at = corner[0] + part.x_mm + part.along_mm / 2.0, corner[1] + part.y_mm + part.across_mm / 2.0
    upright = part.across_mm > part.along_mm
    long, short = sorted((part.along_mm / scale, part.across_mm / scale), reverse=True)
    text = f"{part.piece}{' turned' if part.turned else ''}"
    size = f"{size_mark(part.along_mm)} × {size_mark(part.across_mm)}"
    turn = 90.0 if upright else 0.0
    for height in _HEIGHTS_MM:
        if width_of(text, height, bold=True) + 1.0 > long or height * 1.3 > short:
            continue
        under = MIN_TYPE_MM
        if width_of(size, under) + 1.0 > long or (height + under) * 1.5 > short:
            return [Words(at, text, height, bold=True, turn_deg=turn)]
        up, down = under * 0.75 * scale, -height * 0.75 * scale
        if upright:
            return [
                Words((at[0] - up, at[1]), text, height, bold=True, turn_deg=turn),
                Words((at[0] - down, at[1]), size, under, turn_deg=turn),
            ]
        return [Words((at[0], at[1] + up), text, height, bold=True), Words((at[0], at[1] + down), size, under)]
    return [Words(at, str(part.piece), _HEIGHTS_MM[-1], turn_deg=turn, white=True)]


def _cut(
    cut: SawCut, unit: SawnUnit, corner: XY, scale: int, taken: list[tuple[float, float, float, float]]
) -> list[Element]:
    """Return a cut as a broken line with its number at its start, or where that is taken at its end or on its way.

    A trim along an edge stays on the slab.
    """
    across, along = (unit.width_mm, unit.length_mm) if cut.lengthwise else (unit.length_mm, unit.width_mm)
    at = min(max(cut.at_mm, 0.0), across)
    near, line = _BESIDE_MM / 2.0 * scale, _NEXT_MM * scale
    way = [cut.start_mm + step * scale for step in range(1, max(2, int((cut.end_mm - cut.start_mm) / scale)))]
    before = [cut.start_mm - near] if cut.start_mm <= 0.0 else []
    after = [along + near] if along - cut.end_mm < line else [cut.end_mm + near]
    # a trim along an edge may have its number beside the slab too
    sides = [at, *([at - near] if at <= 0.0 else []), *([at + near] if at >= across else [])]
    spots = [(place, at) for place in (*before, *(way[:1] if not before else ()), *after)]
    spots += [(place, side) for side in sides for place in way]
    spots += [(place, at + off) for place in (*before, *after) for off in (line / 2.0, -line / 2.0)]
    if not cut.lengthwise:
        spots += [(place - line, at) for place in before]  # under a slab is room for another line

    def site(spot: XY) -> XY:
        x, y = spot if cut.lengthwise else (spot[1], spot[0])
        return corner[0] + x, corner[1] + y

    ends = site((cut.start_mm, at)), site((cut.end_mm, at))
    tried = [Words(site(each), str(cut.number), _CUT_TYPE_MM, white=True) for each in spots]
    return [Path(ends, DASHED), first_clear(tried, taken, scale)]


def cuts_in_words(unit: SawnUnit) -> str:
    """Return the cuts of a slab in order: how the saw runs, where it runs from the left end or the near side."""
    square = [
        f"{cut.number} {'trim ' if cut.trim else ''}{'along' if cut.lengthwise else 'across'}"
        f" at {units.millimetres_text(cut.at_mm)}"
        for cut in unit.cuts
    ]
    return "; ".join(
        (*square, *(f"then sloping between {one} and {other}" for one, other in (p.pieces for p in unit.pairs)))
    )
