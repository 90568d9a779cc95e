"""Tapes: the plan laid down from its base line, what does not agree, and the tape that helps most next."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.survey.tapes._offsets import place_offset_points, tell_unplaced_offsets
    from pavewright.survey.tapes._sums_plan import PLAN_SUMS
    from pavewright.survey.tapes._tape_plan import place_taped_points
else:
    __getattr__ = face(__name__)

__all__ = [
    "PLAN_SUMS",
    "place_offset_points",
    "place_taped_points",
    "tell_unplaced_offsets",
]
