"""Joints on a section: those between units, and the movement joint along a wall."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.buildup import LayerKey
from pavewright.drawing._scene import HAIR, Path, Stroke, Words

if TYPE_CHECKING:
    from pavewright.buildup import AreaBuildUp
    from pavewright.drawing._section_parts import Cut, Sketch

_TYPE_MM = 2.9
_MOVEMENT = Stroke(1.1)
"""The pen of a movement joint: it runs through units and bed."""
_JOINTED = frozenset({LayerKey.UNIT, LayerKey.BED})


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
    sketch.add("notes", Path(((x, cut.near_mm - deep * 0.2), (sketch.mm(3.4), at[1])), HAIR))
    sketch.add("notes", Words(at, "movement joint", _TYPE_MM, "start", white=True))
