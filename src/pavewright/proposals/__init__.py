"""Proposals: ways to build the same job that are better than the one that is drawn.

What may be varied is varied: the start of the pattern, the pattern, the unit within the same material, the joint within
what the unit takes, the direction of fall, edges within the freedom that the job gives them, the build-up, drains that
the job builds itself. Each set of variations is planned as a whole job. Shown are the plans that no other one beats in
what matters to the person who asks, and why the best of them wins. What others own is never moved.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.proposals._aim import ALL_AIMS, Aim
    from pavewright.proposals._aims import at_least_as_good, beats, front_of
    from pavewright.proposals._best import recommended
    from pavewright.proposals._evaluate import evaluated
    from pavewright.proposals._figures import (
        Amount,
        Clearance,
        ClearanceKind,
        Figures,
        StopFound,
        figures_json,
        figures_of,
        figures_read,
    )
    from pavewright.proposals._proposals_words import (
        aim_words,
        limit_words,
        refused_words,
        variation_words,
        win_words,
    )
    from pavewright.proposals._search import find_proposals
    from pavewright.proposals._to_try import Limit, NothingToVaryError, ToTry, to_try
    from pavewright.proposals._types import (
        AskPlans,
        Gain,
        NotPlannedError,
        PieceAsked,
        Proposal,
        Proposals,
        Recommended,
        Refused,
        Win,
    )
    from pavewright.proposals._variations import (
        AddedPoint,
        Slot,
        SlotKind,
        StartAsked,
        Variation,
        VariationFacts,
        VariationKind,
        with_starts,
        with_variations,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "ALL_AIMS",
    "AddedPoint",
    "Aim",
    "Amount",
    "AskPlans",
    "Clearance",
    "ClearanceKind",
    "Figures",
    "Gain",
    "Limit",
    "NotPlannedError",
    "NothingToVaryError",
    "PieceAsked",
    "Proposal",
    "Proposals",
    "Recommended",
    "Refused",
    "Slot",
    "SlotKind",
    "StartAsked",
    "StopFound",
    "ToTry",
    "Variation",
    "VariationFacts",
    "VariationKind",
    "Win",
    "aim_words",
    "at_least_as_good",
    "beats",
    "evaluated",
    "figures_json",
    "figures_of",
    "figures_read",
    "find_proposals",
    "front_of",
    "limit_words",
    "recommended",
    "refused_words",
    "to_try",
    "variation_words",
    "win_words",
    "with_starts",
    "with_variations",
]
