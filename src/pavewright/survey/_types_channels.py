"""What channels take of the areas that they run through."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.geometry import joined, shared

if TYPE_CHECKING:
    from collections.abc import Sequence

    import shapely

    from pavewright.geometry import Shape


@dataclass(frozen=True, slots=True)
class ChannelCut:
    """What a channel takes of an area that it runs through.

    Attributes:
        name: Name of the channel.
        shape: Its part of the area, over its whole width.
    """

    name: str
    shape: Shape


def taken_of(shape: Shape, channels: Sequence[ChannelCut]) -> shapely.Geometry:
    """Return what channels take of a shape; empty without one."""
    return shared(joined([each.shape.polygon for each in channels]), shape.polygon)  # type: ignore[no-any-return]
