"""Tapes: the plan laid down from its base line, what does not agree, and the tape that helps most next."""

from pavewright.survey.tapes._offsets import place_offset_points, tell_unplaced_offsets
from pavewright.survey.tapes._sums_plan import PLAN_SUMS
from pavewright.survey.tapes._tape_plan import place_taped_points

__all__ = [
    "PLAN_SUMS",
    "place_offset_points",
    "place_taped_points",
    "tell_unplaced_offsets",
]
