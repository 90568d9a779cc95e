"""Steps from one unit to the next, from the corners of both as they were read, with what the readings can know."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.as_laid import Verdict, within

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.bedding._units import Seam

END_PART = 0.15
"""An end of a seam this near to a corner, in parts of its side, lies at the corner. [-]"""


@dataclass(frozen=True, slots=True)
class Corners:
    """One unit as it was read.

    Attributes:
        over_mm: Each corner over the level planned there; None where it was not read. [mm]
        sd_mm: Standard deviation of one reading. [mm]
    """

    over_mm: tuple[float | None, ...]
    sd_mm: float

    def along(self, side: int, part: float) -> tuple[float, float] | None:
        """Return how far a place on a side stands over its level, and the standard deviation of that. [mm].

        A side of a rigid unit is straight: between its corners it is the mean of both by the distance.

        Args:
            side: From the corner of this number to the next.
            part: How far along it the place lies. [-]
        """
        here, there = self.over_mm[side], self.over_mm[(side + 1) % len(self.over_mm)]
        if here is None or there is None:
            return None
        return here * (1.0 - part) + there * part, self.sd_mm * math.hypot(1.0 - part, part)


@dataclass(frozen=True, slots=True)
class LipBetween:
    """The step between two units where it is larger, of the two ends of their seam.

    Attributes:
        first: Number of the one piece.
        second: Number of the other piece.
        lip_mm: How far the one stands over the other, less than zero where it lies under it. [mm]
        sd_mm: Standard deviation of that. [mm]
        verdict: Pass, fail, or inconclusive where the readings cannot tell.
    """

    first: int
    second: int
    lip_mm: float
    sd_mm: float
    verdict: Verdict


def lip_at(seam: Seam, one: Corners, other: Corners, limit_mm: float) -> LipBetween | None:
    """Return the step at a seam; None where one of the sides was not read. [mm].

    Args:
        seam: Where the two stand side by side.
        one: The first unit of the seam.
        other: The second.
        limit_mm: Step that is allowed. [mm]
    """
    worst = None
    for part, far in zip(seam.first_part, seam.second_part, strict=True):
        here, there = one.along(seam.first_side, part), other.along(seam.second_side, far)
        if here is None or there is None:
            return None
        lip, sd = here[0] - there[0], math.hypot(here[1], there[1])
        verdict = within(lip, limit_mm, sd)
        rank = (_RANK[verdict], abs(lip))
        if worst is None or rank > worst[0]:
            worst = rank, LipBetween(seam.first, seam.second, lip, sd, verdict)
    return None if worst is None else worst[1]


_RANK = {Verdict.PASSES: 0, Verdict.INCONCLUSIVE: 1, Verdict.FAILS: 2}


def beside(piece: int, corner: int, many: int, seams: Sequence[tuple[Seam, Corners]]) -> list[float]:
    """Return how far units that lie already stand over their level beside a corner of one that is laid. [mm].

    Args:
        piece: Number of the piece that is laid.
        corner: Its corner.
        many: How many corners it has.
        seams: Its seams, each with the unit on the other side as that was read.
    """
    found = []
    for seam, there in seams:
        mine = seam.first == piece
        side, parts = (seam.first_side, seam.first_part) if mine else (seam.second_side, seam.second_part)
        far_side, far_parts = (seam.second_side, seam.second_part) if mine else (seam.first_side, seam.first_part)
        for part, far in zip(parts, far_parts, strict=True):
            at = side if part <= END_PART else (side + 1) % many if part >= 1.0 - END_PART else None
            over = there.along(far_side, far) if at == corner else None
            if over is not None:
                found.append(over[0])
    return found
