"""Tapes: the plan laid down from its base line, what does not agree, and the tape that helps most next."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.survey.tapes._bearings import bearing_vector
    from pavewright.survey.tapes._next_tape import PairRank
    from pavewright.survey.tapes._offsets import place_offset_points, tell_unplaced_offsets
    from pavewright.survey.tapes._sums_plan import PLAN_SUMS
    from pavewright.survey.tapes._tape_findings import tell_network
    from pavewright.survey.tapes._tape_plan import (
        adjusted_tapes,
        ellipses_of,
        place_taped_points,
        slips_of,
        tape_deviation_mm,
        tape_distances,
    )
    from pavewright.survey.tapes._two_tapes import two_tape_intersection
else:
    __getattr__ = face(__name__)

__all__ = [
    "PLAN_SUMS",
    "PairRank",
    "adjusted_tapes",
    "bearing_vector",
    "ellipses_of",
    "place_offset_points",
    "place_taped_points",
    "slips_of",
    "tape_deviation_mm",
    "tape_distances",
    "tell_network",
    "tell_unplaced_offsets",
    "two_tape_intersection",
]
