"""The figures of measuring by photo and by a level that is turned round, read from the rulebook once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, assert_never

from pavewright.job.on_site import PhotoPlaneKind, SlopeTool
from pavewright.photo_survey._types import Trust
from pavewright.rules import read_figures

if TYPE_CHECKING:
    from pavewright.rules import Figure, Rulebook


@dataclass(frozen=True, slots=True)
class PhotoFigures:
    """How far a photo and a slope are trusted; each field is the figure of its name in the rulebook, in its unit."""

    mark_sd_px: Figure
    known_sd_mm: Figure
    floor_flat_sd_mm: Figure
    wall_flat_sd_mm: Figure
    lens_k1_sd: Figure
    lens_k2_sd: Figure
    lens_usual_focal: Figure
    lens_usual_focal_sd: Figure
    min_triangle_share: Figure
    min_marks_share: Figure
    disagree_percent: Figure
    max_beyond_share: Figure
    low_camera_deg: Figure
    grazing_deg: Figure
    max_sd_mm: Figure
    lens_found_share: Figure
    slope_phone_sd_deg: Figure
    slope_digital_sd_deg: Figure
    slope_bubble_sd_deg: Figure
    slope_error_max_deg: Figure
    slope_trusted_sds: Figure
    slope_confidence_percent: Figure
    slope_judge_share: Figure
    slope_pairs_wanted: Figure
    slope_still_deg: Figure

    def trust(self, kind: PhotoPlaneKind) -> Trust:
        """Return how far everything that goes into a photo of such a plane is trusted."""
        flat = self.floor_flat_sd_mm if kind is PhotoPlaneKind.FLOOR else self.wall_flat_sd_mm
        return Trust(
            mark_sd_px=self.mark_sd_px.value,
            flat_sd_mm=flat.value,
            lens_sd=(self.lens_k1_sd.value, self.lens_k2_sd.value),
            lens_usual=self.lens_usual_focal.value,
            lens_usual_sd=self.lens_usual_focal_sd.value,
        )

    def slope_sd(self, tool: SlopeTool) -> Figure:
        """Return how far one pair of readings of a tool is trusted at best."""
        match tool:
            case SlopeTool.PHONE:
                return self.slope_phone_sd_deg
            case SlopeTool.DIGITAL_LEVEL:
                return self.slope_digital_sd_deg
            case SlopeTool.BUBBLE:
                return self.slope_bubble_sd_deg
            case _:
                assert_never(tool)


def photo_figures(rules: Rulebook) -> PhotoFigures:
    """Return the figures of measuring by photo and by a level that is turned round."""
    return read_figures(PhotoFigures, rules, "photo_survey")
