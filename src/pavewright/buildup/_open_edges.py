"""Edges beyond which something is open: a bank over the paving, or ground of which nobody read the level."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.buildup._types import Beyond, OpenEdge, OpenKind
from pavewright.job import EdgeRestraint

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pavewright.buildup._drops import SideDrops
    from pavewright.buildup._figures import EdgeFigures

_ASK_MM = 500.0
"""A stretch shorter than this is not asked for. [mm]"""


def unread(sides: Sequence[SideDrops], area: str) -> Iterator[OpenEdge]:
    """Give sides beyond which nobody read the ground."""
    lengths = {
        side.side: sum(each.length_mm for each in side.stations if each is not None and each.drop_mm is None)
        for side in sides
    }
    for name, length in lengths.items():
        if length > _ASK_MM:
            yield OpenEdge(OpenKind.GROUND_UNKNOWN, area, name, length, None)


def banks(sides: Sequence[SideDrops], area: str, known: EdgeFigures) -> Iterator[OpenEdge]:
    """Give sides beyond which the ground stands over the paving by more than a kerb holds back."""
    limit = known.kerb.value
    for side in sides:
        high = [
            (-each.drop_mm, each)
            for each in side.stations
            if each is not None and each.beyond is Beyond.GROUND and each.drop_mm is not None and -each.drop_mm > limit
        ]
        along = sum(each.length_mm for _, each in high)
        if along < _ASK_MM or side.restraint in {EdgeRestraint.RETAINING, EdgeRestraint.ENGINEERED}:
            continue
        stands, worst = max(high, key=lambda each: each[0])
        yield OpenEdge(OpenKind.BANK_ABOVE, area, side.side, along, stands, worst.at)
