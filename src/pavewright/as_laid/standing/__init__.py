"""Standing water on paving as laid: how likely, how deep and how far, given where it was read and how well.

Between the readings the paving is simulated many times, as uneven as paving is and led to every reading; on each of
these surfaces water is let run, and counted where it stands. The share in which it stands is the chance. A reading
more is asked for where it decides most.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.as_laid.standing._figures import StandingFigures, standing_figures
    from pavewright.as_laid.standing._kriging import estimate
    from pavewright.as_laid.standing._roughness import Likeness, Roughness
    from pavewright.as_laid.standing._seen import (
        DrainFound,
        GratingFigures,
        HoseFound,
        HoseOutcome,
        drains_found,
        grating_figures,
        hose_found,
    )
    from pavewright.as_laid.standing._standing import Paved, standing, standing_on
    from pavewright.as_laid.standing._types import (
        AreaStanding,
        NextPlace,
        Pond,
        Span,
        Unevenness,
        WaterState,
        WhyUnknown,
    )
    from pavewright.as_laid.standing._words import (
        OUTCOMES,
        STATES,
        area_in_words,
        cautions,
        next_in_words,
        percent,
        pond_mark,
        span_in_words,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "OUTCOMES",
    "STATES",
    "AreaStanding",
    "DrainFound",
    "GratingFigures",
    "HoseFound",
    "HoseOutcome",
    "Likeness",
    "NextPlace",
    "Paved",
    "Pond",
    "Roughness",
    "Span",
    "StandingFigures",
    "Unevenness",
    "WaterState",
    "WhyUnknown",
    "area_in_words",
    "cautions",
    "drains_found",
    "estimate",
    "grating_figures",
    "hose_found",
    "next_in_words",
    "percent",
    "pond_mark",
    "span_in_words",
    "standing",
    "standing_figures",
    "standing_on",
]
