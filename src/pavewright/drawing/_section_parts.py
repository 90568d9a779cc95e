"""What a section is made of: layers, wall, ground, the chain of heights and its words."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.buildup import LayerMaterial
from pavewright.drawing._door_words import door_lines
from pavewright.drawing._notes import Note, in_order, lines_of, spread
from pavewright.drawing._scene import (
    DASHED,
    HAIR,
    MEDIUM,
    THICK,
    THIN,
    Arrow,
    Dimension,
    Element,
    Hatch,
    Path,
    Region,
    ScaleWords,
    Stroke,
    Words,
)
from pavewright.drawing._type import width_of
from pavewright.writing import level_mark, size_mark, thick, worded

if TYPE_CHECKING:
    from pavewright.buildup import AreaBuildUp, Layer
    from pavewright.geometry import XY

LEFT_MM = 84.0
"""Room left of the wall on paper for the chains and the words of the levels. [mm]"""
_FIRST_CHAIN_MM, _CHAIN_MM, _MAX_CHAINS = 8.0, 12.0, 3
"""How far the first chain of heights stands from the wall on paper, and each from the one before at least. [mm]"""
_CHAIN_GAP_MM = 3.0
"""Room beside the sizes of a chain on paper: feet and inches are wider than the chains are apart. [mm]"""
_TYPE_MM, _SIZE_MM = 2.9, 3.0
"""Height of the words and of the sizes. [mm]"""
_GROUND_BAND_MM = 60.0
"""Drawn depth of the ground under the formation. [mm]"""
_STONES = (LayerMaterial.STONE, LayerMaterial.CAPPING, LayerMaterial.OPEN_STONE, LayerMaterial.GEOTEXTILE)
LAYER_HATCHES = {
    LayerMaterial.UNIT: Hatch.WHITE,
    LayerMaterial.MORTAR: Hatch.MORTAR,
    LayerMaterial.CONCRETE: Hatch.CONCRETE,
    **dict.fromkeys(_STONES, Hatch.STONE),
    **dict.fromkeys((LayerMaterial.SAND, LayerMaterial.GRIT), Hatch.SAND),
}
_SHEETING = Stroke(0.5, (1.2, 0.8))
"""The pen of a geotextile."""
_FLAT = 1e-6


@dataclass(frozen=True, slots=True)
class Cut:
    """Levels where the section is cut; distances run out from the wall.

    Attributes:
        out_mm: How much paving is shown. [mm]
        near_mm: Finished level at the wall. [mm]
        far_mm: Finished level at the far end. [mm]
        total_mm: Thickness of all layers. [mm]
        dpc_mm: Level of the damp-proof course, or None. [mm]
        threshold_mm: Level of the threshold, or None. [mm]
        door: Name of the door; empty for none.
        step: What to say of the step down at the door; empty for none.
        ground_mm: Ground now at equal steps from the wall to the far end; empty where it is not known. [mm]
        wall_mm: Drawn thickness of the wall; zero for none. [mm]
        high_mm: Top of what is shown. [mm]
        low_mm: Foot of what is shown. [mm]
    """

    out_mm: float
    near_mm: float
    far_mm: float
    total_mm: float
    dpc_mm: float | None
    threshold_mm: float | None
    door: str
    step: str
    ground_mm: tuple[float, ...]
    wall_mm: float
    high_mm: float
    low_mm: float


class Sketch:
    """Elements of a section, and the words that wait for their places at its right."""

    def __init__(self, scale: int) -> None:
        self.scale = scale
        self.elements: list[Element] = []
        self.waiting: list[tuple[float, str]] = []

    def mm(self, paper_mm: float) -> float:
        """Return a length on paper as a length on the site. [mm]."""
        return paper_mm * self.scale

    def add(self, layer: str, *elements: Element) -> None:
        """Draw over what is there."""
        self.elements.extend(replace(element, layer=layer) for element in elements)

    def notes(self, out_mm: float, top_mm: float = math.inf) -> float:
        """Write the words right of what is drawn, each with a leader, and return how far they reach. [mm].

        None stands higher than the top: over it stands what is said of a door.
        """
        x = out_mm + self.mm(9.0)

        def leader(note: Note, height: float) -> tuple[XY, ...]:
            return note.at, (out_mm + self.mm(5.0), height), (x - self.mm(0.8), height)

        waiting = [Note((out_mm - self.mm(4.0), level), tuple(lines_of(text))) for level, text in self.waiting]
        reach = x
        for note, heights in in_order(waiting, self.mm(_TYPE_MM * 1.5), leader, top_mm):
            self.add("notes", Path(leader(note, heights[0]), HAIR, leads=True))
            for line, height in zip(note.lines, heights, strict=True):
                self.add("notes", Words((x, height), line, _TYPE_MM, "start"))
                reach = max(reach, x + self.mm(width_of(line, _TYPE_MM)))
        return reach


def layers(sketch: Sketch, cut: Cut, up: AreaBuildUp) -> None:
    """Draw the layers from the top down, the ground under them, and the fall."""
    depth = 0.0
    for layer in up.layers:
        below = depth + layer.thickness_mm
        if layer.thickness_mm > 0.0:
            sketch.add("layers", Region((_band(cut, depth, below),), hatch_of(layer), MEDIUM))
            words = f"{thick(layer.thickness_mm)}  {layer.name}"
            sketch.waiting.append((cut.far_mm - (depth + below) / 2.0, words))
        else:
            under = depth + sketch.mm(0.9)
            sketch.add("layers", Path(((0.0, cut.near_mm - under), (cut.out_mm, cut.far_mm - under)), _SHEETING))
            sketch.waiting.append((cut.far_mm - under, layer.name))
        depth = below
    sketch.add("ground", Region((_band(cut, depth, depth + _GROUND_BAND_MM),), Hatch.GROUND))
    for under in (0.0, depth):
        sketch.add("layers", Path(((0.0, cut.near_mm - under), (cut.out_mm, cut.far_mm - under)), THICK))
    sketch.waiting.append((cut.far_mm - depth - sketch.mm(1.8), "formation"))
    _fall(sketch, cut)


def hatch_of(layer: Layer) -> Hatch:
    """Return the hatch of a layer."""
    return LAYER_HATCHES[layer.material]


def _band(cut: Cut, top: float, foot: float) -> tuple[XY, ...]:
    near, far = cut.near_mm, cut.far_mm
    return ((0.0, near - top), (cut.out_mm, far - top), (cut.out_mm, far - foot), (0.0, near - foot))


def _fall(sketch: Sketch, cut: Cut) -> None:
    """Draw the fall square to the wall over the surface."""
    fall = (cut.near_mm - cut.far_mm) / cut.out_mm
    y = max(cut.near_mm, cut.far_mm, *cut.ground_mm) + sketch.mm(4.0)
    low, high = cut.out_mm * 0.5, cut.out_mm * 0.9
    ends = ((low, y), (high, y)) if fall >= 0.0 else ((high, y), (low, y))
    words = units.fall_text(fall)
    if abs(fall) > _FLAT:
        sketch.add("falls", Arrow(*ends))
        words = f"falls {words}{'' if fall > 0.0 else ' to the wall'}"
    sketch.add("falls", Words(((low + high) / 2.0, y + sketch.mm(2.6)), words, _TYPE_MM, white=True))


def ground(sketch: Sketch, cut: Cut) -> None:
    """Draw the ground as it lies now, where it is known."""
    if not cut.ground_mm:
        return
    step = cut.out_mm / (len(cut.ground_mm) - 1)
    line = tuple((k * step, level) for k, level in enumerate(cut.ground_mm))
    sketch.add("ground", Path(line, DASHED))
    sketch.waiting.append((cut.ground_mm[-1], "ground now (dashed)"))


def wall(sketch: Sketch, cut: Cut) -> None:
    """Draw the wall, open over a threshold, broken off at its foot."""
    top = cut.high_mm if cut.threshold_mm is None else cut.threshold_mm
    thick, low = cut.wall_mm, cut.low_mm
    jag = sketch.mm(1.2)
    foot = (
        (0.0, low),
        (-thick * 0.4, low),
        (-thick * 0.45, low + jag),
        (-thick * 0.55, low - jag),
        (-thick * 0.6, low),
        (-thick, low),
    )
    sketch.add("wall", Region((((-thick, top), (0.0, top), *foot),), Hatch.WALL, MEDIUM))
    if cut.threshold_mm is not None:
        for x in (-thick * 0.75, -thick * 0.45):
            sketch.add("wall", Path(((x, top), (x, cut.high_mm)), THIN))
        inside = ((-thick, top), (0.0, top))
        sketch.add("wall", Path(inside, THICK))
        for number, line in enumerate(door_lines(cut.door, cut.step)):
            at = sketch.mm(1.5), cut.high_mm - sketch.mm(2.0 + number * _TYPE_MM * 1.4)
            sketch.add("wall", Words(at, line, _TYPE_MM, "start", white=True))
    if cut.dpc_mm is not None:
        sketch.add("wall", Path(((-thick, cut.dpc_mm), (0.0, cut.dpc_mm)), Stroke(0.9)))
        sketch.add("wall", Path(((0.0, cut.dpc_mm), (sketch.mm(16.0), cut.dpc_mm)), DASHED))


def heights(sketch: Sketch, cut: Cut, up: AreaBuildUp) -> float:
    """Draw the chains of heights at the wall, write each level, and return how far left they reach. [mm]."""
    formation = cut.near_mm - up.total_mm
    marks = [("finished", cut.near_mm), ("formation", formation)]
    chains = [[cut.near_mm, formation]]
    if cut.dpc_mm is not None:
        marks.append(("damp-proof course", cut.dpc_mm))
        chains = [sorted([cut.dpc_mm, cut.near_mm, formation], reverse=True)]
        chains.append([max(cut.dpc_mm, cut.near_mm), formation])
    if cut.threshold_mm is not None:
        marks.append(("threshold", cut.threshold_mm))
        chains.append(sorted([cut.threshold_mm, cut.near_mm], reverse=True))
    off = _FIRST_CHAIN_MM
    for chain in chains[:_MAX_CHAINS]:
        _chain(sketch, -cut.wall_mm - sketch.mm(off), chain, [level for _, level in marks])
        wide = [width_of(size_mark(upper - lower), _SIZE_MM, bold=True) for upper, lower in itertools.pairwise(chain)]
        off += max(_CHAIN_MM, max(wide, default=0.0) + _CHAIN_GAP_MM)
    marks.sort(key=lambda each: -each[1])
    places = spread([level for _, level in marks], sketch.mm(_TYPE_MM * 1.5))
    x, reach = -cut.wall_mm - sketch.mm(off), 0.0
    for (name, level), place in zip(marks, places, strict=True):
        elbow = x + sketch.mm(3.0)
        ends = ((-cut.wall_mm, level), (elbow, level), (x + sketch.mm(0.8), place))
        sketch.add("heights", Path(ends, HAIR, leads=True))
        words = Words((x, place), f"{name} {level_mark(level)}", _TYPE_MM, "end", bold=name == "finished")
        sketch.add("heights", words)
        reach = min(reach, x - sketch.mm(width_of(words.text, _TYPE_MM, bold=words.bold)))
    return reach


def _chain(sketch: Sketch, x: float, levels: list[float], leaders: list[float]) -> None:
    """Draw one chain of heights with its sizes left of it, kept apart and off the leaders of the levels."""
    pairs = [(upper, lower) for upper, lower in itertools.pairwise(levels) if upper > lower]
    places = spread([(upper + lower) / 2.0 for upper, lower in pairs], sketch.mm(_SIZE_MM * 1.3))
    for (upper, lower), place in zip(pairs, places, strict=True):
        sketch.add("heights", Dimension((x, lower), (x, upper), 0.0, ""))
        near = next((level for level in leaders if abs(level - place) < sketch.mm(_SIZE_MM * 0.7)), None)
        at = place if near is None else near - sketch.mm(_SIZE_MM * 0.7)
        text = size_mark(upper - lower)
        sketch.add("heights", Words((x - sketch.mm(1.5), at), text, _SIZE_MM, "end", bold=True, white=True))


def scale_bar(sketch: Sketch, at: XY) -> None:
    """Draw a scale bar in millimetres; a section is true to scale up and across alike."""
    x, y = at
    length = sketch.mm(20.0)
    for part in range(2):
        left = x + part * length / 2.0
        right, top = left + length / 2.0, y + sketch.mm(1.4)
        ring = ((left, y), (right, y), (right, top), (left, top))
        sketch.add("sheet", Region((ring,), Hatch.BLACK if part else Hatch.WHITE, THIN))
    text = worded(f"{length:.0f} mm, up and across alike")
    end = x + length + sketch.mm(1.5)
    sketch.add("sheet", Words((end, y + sketch.mm(0.7)), text, _TYPE_MM, "start"))
    sketch.add("sheet", ScaleWords((end + sketch.mm(width_of(text, _TYPE_MM) + 3.0), y + sketch.mm(0.7)), _TYPE_MM))
