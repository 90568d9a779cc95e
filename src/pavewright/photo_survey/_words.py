"""What is said of a photo that says nothing or less than it seems to, and of inputs that make no sum."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.photo_survey._types import Weak

if TYPE_CHECKING:
    from collections.abc import Mapping

WEAK_WORDS: Mapping[Weak, str] = {
    Weak.FEW_MARKS: "Four known places are needed, and a fifth to check them: mark more.",
    Weak.IN_LINE: "The marks are nearly in line: mark known places that stand out to the side.",
    Weak.CROSSWISE: "No plane looks like this: two marks have each other's names, or a known place is wrong.",
    Weak.MIRRORED: "The marks run the wrong way round: two of them have each other's names.",
    Weak.LENS_FOLDS: "The picture is bent too much there: take it with the main camera, not with the wide one.",
    Weak.NO_CHECK: "Nothing checks these marks: mark a fifth known place.",
    Weak.MARKS_DISAGREE: "The marks contradict each other by more than they may: look at each again.",
    Weak.ONE_CORNER: "The marks fill a small part of the picture: go nearer, or mark known places farther apart.",
    Weak.PICTURE_SIZE: "The size of the picture is not known: lens and camera are left out of the band.",
    Weak.PAST_HORIZON: "That lies past the horizon of the plane.",
    Weak.BEYOND_MARKS: "That lies beyond the marks: it is less sure.",
    Weak.FAR_BEYOND: "That lies far beyond the marks: mark known places round it.",
    Weak.LOW_CAMERA: "The camera was low: what stands off the plane is shifted far. Hold it up.",
    Weak.GRAZING: "That is seen at too flat an angle: take the photo from nearer, or from higher.",
    Weak.UNSURE: "That would be too unsure to be of use.",
}
ROWS_DIFFER = (
    "Give for every mark both places in the picture and both on the plane, and for every thing both places seen."
)
SIZE_HALF = "Give width and height of the picture, or zero for both."
PAIRS_DIFFER = "Give as many readings after turning as before, at least one of each."
TOO_STEEP = "A level is read between -45 and 45 degrees."
NOT_MORE_THAN_ZERO = "Lengths and what is trusted are more than zero."
