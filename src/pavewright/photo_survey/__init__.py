"""Photo survey: what was forgotten, measured on a photo; and a slope by a level that is turned end for end.

Four known places or more on one plane, ground or wall, give the place of anything else on it, with an ellipse that says
how far to trust it. Where the marks are too weak, lie in line or contradict each other, or where the camera stood too
low, the photo says nothing, and says why. A slope that is read twice, the tool turned round, is free of the tool's own
error; it judges no question that is finer than itself.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.photo_survey._answer import Limits, Picture, plane_from_photo
    from pavewright.photo_survey._figures import PhotoFigures, photo_figures
    from pavewright.photo_survey._read_photos import PhotoSurvey, SlopeRead, limits_of, read_photos
    from pavewright.photo_survey._slope import Judged, TurnedSlope, judged, slope_mm_per_m, turned_slope
    from pavewright.photo_survey._sums import SUMS
    from pavewright.photo_survey._types import NO_ANSWER, Mark, MarkCheck, PhotoAnswer, PhotoPlace, Trust, Weak
    from pavewright.photo_survey._words import WEAK_WORDS
else:
    __getattr__ = face(__name__)

__all__ = [
    "NO_ANSWER",
    "SUMS",
    "WEAK_WORDS",
    "Judged",
    "Limits",
    "Mark",
    "MarkCheck",
    "PhotoAnswer",
    "PhotoFigures",
    "PhotoPlace",
    "PhotoSurvey",
    "Picture",
    "SlopeRead",
    "Trust",
    "TurnedSlope",
    "Weak",
    "judged",
    "limits_of",
    "photo_figures",
    "plane_from_photo",
    "read_photos",
    "slope_mm_per_m",
    "turned_slope",
]
