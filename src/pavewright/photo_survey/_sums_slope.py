"""The sum for a slope by a level that is turned end for end."""

from __future__ import annotations

from pavewright.photo_survey import _words as words
from pavewright.photo_survey._slope import judged, slope_mm_per_m, turned_slope
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

_STEEPEST = 45.0
_WHOLE = 100.0


def slope_by_turning(
    first_deg: tuple[float, ...],
    turned_deg: tuple[float, ...],
    tool_sd_deg: float,
    trusted_sds: float,
    confidence_percent: float,
    wanted_mm_per_m: float,
    tolerance_mm: float,
    run_mm: float,
    judge_share: float,
) -> dict[str, Value]:
    """Return a slope, the tool's own error and the band, and whether it is the slope that is wanted.

    Source: reversal_method, half the difference and half the sum
    """
    if not first_deg or len(first_deg) != len(turned_deg):
        raise SumRefusedError(words.PAIRS_DIFFER)
    if any(abs(each) > _STEEPEST for each in (*first_deg, *turned_deg)):
        raise SumRefusedError(words.TOO_STEEP)
    if min(tool_sd_deg, trusted_sds, tolerance_mm, run_mm, judge_share) <= 0.0 or not 0.0 < confidence_percent < _WHOLE:
        raise SumRefusedError(words.NOT_MORE_THAN_ZERO)
    found = turned_slope(first_deg, turned_deg, tool_sd_deg, trusted_sds, confidence_percent)
    verdict, off, band = judged(found, wanted_mm_per_m, tolerance_mm, run_mm, judge_share)
    return {
        "slope_deg": found.slope_deg,
        "slope_mm_per_m": slope_mm_per_m(found.slope_deg),
        "error_deg": found.error_deg,
        "error_mm_per_m": slope_mm_per_m(found.error_deg),
        "scatter_deg": () if found.scatter_deg is None else (found.scatter_deg,),
        "band_deg": found.band_deg,
        "off_mm": off,
        "band_mm": band,
        "verdict": verdict.value,
    }


SLOPE_SUMS = (
    Sum(
        "slope-by-turning",
        "Find a slope with a phone or a level that is turned end for end",
        (
            Quantity("first_deg", "deg", "readings, more than zero where the far end is higher", "numbers"),
            Quantity("turned_deg", "deg", "readings after turning, as the tool shows them", "numbers"),
            Quantity(
                "tool_sd_deg", "deg", "what one slope is trusted to at best", figure="photo_survey.slope_phone_sd_deg"
            ),
            Quantity("trusted_sds", "", "deviations to which that is trusted", figure="photo_survey.slope_trusted_sds"),
            Quantity("confidence_percent", "%", "how sure the band is", figure="photo_survey.slope_confidence_percent"),
            Quantity("wanted_mm_per_m", "mm/m", "the slope that is wanted", default=0.0),
            Quantity("tolerance_mm", "mm", "how far it may be off over the length", default=1.0),
            Quantity("run_mm", "mm", "the length", default=1000.0),
            Quantity(
                "judge_share",
                "-",
                "largest band over what is asked with which it is judged",
                figure="photo_survey.slope_judge_share",
            ),
        ),
        (
            Quantity("slope_deg", "deg", "the slope"),
            Quantity("slope_mm_per_m", "mm/m", "the slope over a metre"),
            Quantity("error_deg", "deg", "what the tool shows too much"),
            Quantity("error_mm_per_m", "mm/m", "the same over a metre"),
            Quantity("scatter_deg", "deg", "how one pair scatters; none from one pair", "numbers"),
            Quantity("band_deg", "deg", "the slope is trusted to this, either way"),
            Quantity("off_mm", "mm", "how far it is off what is wanted, over the length"),
            Quantity("band_mm", "mm", "that is trusted to this, either way"),
            Quantity("verdict", "", "pass, fail, unsure, or too_coarse: this tool does not judge it", "word"),
        ),
        "slope = (first − turned) / 2; error = (first + turned) / 2",
        "reversal_method",
        slope_by_turning,
    ),
)
