"""Pipeline: from a job and a rulebook to a plan, the one place that knows the order of the rooms.

A job may know little. ``plan_as_far`` makes every room for which enough is known and says what is missing, what to
measure next first; ``plan`` is for those who need all of it.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.pipeline._accepting import NotAccepted, NotAcceptedError, accepted_of
    from pavewright.pipeline._build_up_names import (
        base_part_words,
        base_rule_words,
        bedding_words,
        build_up_name,
        ground_words,
        no_factor_words,
        permeable_words,
        weak_factor,
    )
    from pavewright.pipeline._build_up_types import (
        Alternative,
        BuildUpChoice,
        BuildUpFigures,
        GroundTaken,
        NotKnown,
        NotKnownKind,
    )
    from pavewright.pipeline._build_ups import FOR_BUILD_UPS, build_up_choice, build_ups_to_try
    from pavewright.pipeline._carbon import Carbon, CarbonGap, CarbonLine, CarbonRange, MadeOf, NoFactor, carbon_of
    from pavewright.pipeline._cash import FOR_CASH, cash_of
    from pavewright.pipeline._days_later import days_words
    from pavewright.pipeline._method import FOR_METHOD, method_of
    from pavewright.pipeline._offered_types import NotOffered, Offered
    from pavewright.pipeline._plan import plan, plan_as_far, plan_rooms
    from pavewright.pipeline._repriced import repriced
    from pavewright.pipeline._repricing import reprice
    from pavewright.pipeline._risk import risk
    from pavewright.pipeline._risk_study import FOR_RISK, MOST_DRAWS, REPLICATES, USUAL_DRAWS, RiskStudy, risk_study
    from pavewright.pipeline._risk_types import (
        Cause,
        CauseKey,
        Driver,
        FactChange,
        FactKind,
        OrderChance,
        OrderStep,
        PriceAt,
        Risk,
    )
    from pavewright.pipeline._risk_words import losing_text
    from pavewright.pipeline._together import NotTogether, Together, taken_together
    from pavewright.pipeline._types import (
        WHOLE,
        Missing,
        MissingCode,
        Plan,
        PlanSoFar,
        Room,
        is_cut_to_levels,
        leans_on,
    )
    from pavewright.pipeline._varying import NotVaried, NotVariedError, Varied, varied
else:
    __getattr__ = face(__name__)

__all__ = [
    "FOR_BUILD_UPS",
    "FOR_CASH",
    "FOR_METHOD",
    "FOR_RISK",
    "MOST_DRAWS",
    "REPLICATES",
    "USUAL_DRAWS",
    "WHOLE",
    "Alternative",
    "BuildUpChoice",
    "BuildUpFigures",
    "Carbon",
    "CarbonGap",
    "CarbonLine",
    "CarbonRange",
    "Cause",
    "CauseKey",
    "Driver",
    "FactChange",
    "FactKind",
    "GroundTaken",
    "MadeOf",
    "Missing",
    "MissingCode",
    "NoFactor",
    "NotAccepted",
    "NotAcceptedError",
    "NotKnown",
    "NotKnownKind",
    "NotOffered",
    "NotTogether",
    "NotVaried",
    "NotVariedError",
    "Offered",
    "OrderChance",
    "OrderStep",
    "Plan",
    "PlanSoFar",
    "PriceAt",
    "Risk",
    "RiskStudy",
    "Room",
    "Together",
    "Varied",
    "accepted_of",
    "base_part_words",
    "base_rule_words",
    "bedding_words",
    "build_up_choice",
    "build_up_name",
    "build_ups_to_try",
    "carbon_of",
    "cash_of",
    "days_words",
    "ground_words",
    "is_cut_to_levels",
    "leans_on",
    "losing_text",
    "method_of",
    "no_factor_words",
    "permeable_words",
    "plan",
    "plan_as_far",
    "plan_rooms",
    "reprice",
    "repriced",
    "risk",
    "risk_study",
    "taken_together",
    "varied",
    "weak_factor",
]
