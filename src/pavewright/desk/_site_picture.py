"""What a phone needs to measure by a photo and by a turned level: what is trusted how far, and when it is weak."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.job.on_site import PhotoPlaneKind
from pavewright.photo_survey import limits_of, photo_figures

if TYPE_CHECKING:
    from pavewright.photo_survey import Limits, Trust
    from pavewright.pipeline import PlanSoFar
    from pavewright.rules import Figure, Rulebook


@dataclass(frozen=True, slots=True)
class PictureOnSite:
    """How far a photo and a turned level are trusted.

    Attributes:
        floor: Trust in a photo of the ground.
        wall: Trust in a photo of a wall.
        limits: When a photo is too weak.
        known_sd: How far a known place is trusted where nobody says.
        phone_sd: What a slope by a phone is trusted to at best.
        digital_sd: The same of a digital level.
        bubble_sd: The same of a bubble.
        trusted_sd: So many standard deviations the best of a tool is trusted to. [-]
        confidence: How sure the band round a repeated slope is.
        judge_share: Largest band over what is asked with which a slope judges.
        pairs: Pairs of readings before their scatter says something.
        error_max: A tool that is off by more is to be set first.
        still: A phone that scatters more does not lie still.
    """

    floor: Trust
    wall: Trust
    limits: Limits
    known_sd: Figure
    phone_sd: Figure
    digital_sd: Figure
    bubble_sd: Figure
    trusted_sd: float
    confidence: Figure
    judge_share: Figure
    pairs: Figure
    error_max: Figure
    still: Figure


def picture_on_site(_: PlanSoFar, rules: Rulebook) -> PictureOnSite:
    """Return how far a photo and a turned level are trusted."""
    figures = photo_figures(rules)
    return PictureOnSite(
        floor=figures.trust(PhotoPlaneKind.FLOOR),
        wall=figures.trust(PhotoPlaneKind.WALL),
        limits=limits_of(figures),
        known_sd=figures.known_sd_mm,
        phone_sd=figures.slope_phone_sd_deg,
        digital_sd=figures.slope_digital_sd_deg,
        bubble_sd=figures.slope_bubble_sd_deg,
        trusted_sd=figures.slope_trusted_sds.value,
        confidence=figures.slope_confidence_percent,
        judge_share=figures.slope_judge_share,
        pairs=figures.slope_pairs_wanted,
        error_max=figures.slope_error_max_deg,
        still=figures.slope_still_deg,
    )
