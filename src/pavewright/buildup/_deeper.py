"""A dig that is deeper as a whole than planned: the stone under the area is thicker by that."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright.buildup._types import Layer, LayerKey, LayerMaterial
from pavewright.buildup._words import deeper_name, deeper_why
from pavewright.job.on_site import FoundKind

if TYPE_CHECKING:
    from pavewright.job import Job
    from pavewright.rules import Figure

_STONE = frozenset({LayerKey.SUB_BASE, LayerKey.CAPPING})
_FOLLOWS = frozenset({LayerKey.CAPPING, LayerKey.GEOTEXTILE})
"""What lies under the sub-base runs as far past the edge as it does."""


def with_deeper(own: tuple[Layer, ...], job: Job, area: str, past: Figure) -> tuple[Layer, ...]:
    """Return the layers of an area with what its dig was found to go deeper, its sub-base thicker by that.

    Args:
        own: Its layers as they are planned, from the top down.
        job: The job, with what its dig found.
        area: Name of the area.
        past: How far stone runs past the paving.
    """
    found = [each for each in job.dig_found if each.kind is FoundKind.DEEPER and each.area == area]
    if not found:
        return own
    more, why = sum(each.depth_mm for each in found), deeper_why([each.name for each in found])
    courses = [layer.key for layer in own if layer.key in _STONE]
    if not courses:
        body = tuple(layer for layer in own if layer.key is not LayerKey.GEOTEXTILE)
        stone = Layer(LayerKey.SUB_BASE, deeper_name(), more, LayerMaterial.STONE, max(past.value, more), (past,), why)
        return (*body, stone, *own[len(body) :])
    thicker = courses[0]
    thick = next(layer.thickness_mm for layer in own if layer.key is thicker) + more
    return tuple(
        replace(layer, thickness_mm=thick, extends_mm=max(layer.extends_mm, thick), why=f"{layer.why}; {why}")
        if layer.key is thicker
        else replace(layer, extends_mm=max(layer.extends_mm, thick))
        if layer.key in _FOLLOWS
        else layer
        for layer in own
    )
