"""Joints on a section: those between units, and the movement joint along a wall."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.buildup import LayerKey
from pavewright.drawing._door_words import door_lines
from pavewright.drawing._scene import HAIR, Path, Stroke, Words

if TYPE_CHECKING:
    from pavewright.buildup import AreaBuildUp
    from pavewright.drawing._section_parts import Cut, Sketch

_TYPE_MM = 2.9
_MOVEMENT = Stroke(1.1)
"""The pen of a movement joint: it runs through units and bed."""
_EDGE_MM, _DOOR_LINE = 2.0, 1.4
"""Room over those words on paper, and their lines as parts of the type. [mm]"""
_JOINTED = frozenset({LayerKey.UNIT, LayerKey.BED})


def door_room(sketch: Sketch, cut: Cut) -> float:
    """Return how high the section reaches, so that what is said of a door stands clear of the lines there. [mm]."""
    if cut.threshold_mm is None:
        return cut.near_mm
    top = max(level for level in (cut.near_mm, cut.threshold_mm, cut.dpc_mm) if level is not None)
    return top + sketch.mm(_EDGE_MM + (len(door_lines(cut.door, cut.step)) + 0.5) * _TYPE_MM * _DOOR_LINE)


def joints(sketch: Sketch, cut: Cut, up: AreaBuildUp, said: str) -> None:
    """Name the joints between units beside the layer of units.

    Args:
        sketch: What is drawn.
        cut: Levels of the section.
        up: The layers.
        said: What the joints are.
    """
    sketch.waiting.append((cut.far_mm - up.layers[0].thickness_mm * 0.8, said))


def movement_joint(sketch: Sketch, cut: Cut, up: AreaBuildUp) -> None:
    """Draw the movement joint between wall and paving through units and bed, and name it over the paving."""
    deep = sum(layer.thickness_mm for layer in up.layers if layer.key in _JOINTED)
    x = sketch.mm(0.55)
    sketch.add("layers", Path(((x, cut.near_mm), (x, cut.near_mm - deep)), _MOVEMENT))
    at = (sketch.mm(4.0), cut.near_mm + sketch.mm(3.2))
    sketch.add("notes", Path(((x, cut.near_mm - deep * 0.2), (sketch.mm(3.4), at[1])), HAIR, leads=True))
    sketch.add("notes", Words(at, "movement joint", _TYPE_MM, "start", white=True))
