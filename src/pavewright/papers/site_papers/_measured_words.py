"""The words of the sheet for photos that measure and levels that are turned, in one place."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class MeasuredWords(Catalogue):
    """Every sentence of the sheet; names in braces are filled in."""

    title: str = "Measured by photo and by a turned level"
    slopes: str = "Slope by a level that is turned end for end"
    how: str = (
        "Lay the level on a straightedge and read it, plus where its far end is higher. Turn it end for end on the "
        "same spot and read again with the sign that it shows. Half the difference is the slope, half the sum is the "
        "level's own error. Three pairs show how far to trust it."
    )
    units: str = "1 % is 10 mm in 1 m; 1 degree is 17.5 mm in 1 m."
    coarse: Sentence = Sentence(
        "A phone is trusted to ± {band} mm in 1 m at best, and to less where its readings scatter: it judges no "
        "millimetre."
    )
    slope_heads: tuple[str, ...] = ("where, towards what", "first", "turned", "half difference", "half sum")
    found: str = "Slopes of this job"
    found_heads: tuple[str, ...] = ("slope", "pairs", "mm in 1 m", "trusted to ±", "own error, degrees")
    one_pair: str = "1, scatter unknown"
    photo: Sentence = Sentence("{name}: places on its plane")
    place_heads: tuple[str, ...] = ("what", "x, m", "y, m", "trusted to ±, mm", "rests on")
    no_place: str = "no place"
    marks: Sentence = Sentence("{spare} readings to spare; the camera stood about {off} m off the plane.")
    marks_unknown: str = "Where the camera stood is unknown."
    left_out: Sentence = Sentence("Nothing says where {marks} of {photo} is: left out.")
    suspect: Sentence = Sentence("{mark} does not fit the other marks: look at it first.")
    sure: str = "Trusted to: the larger half-axis of the ellipse that holds the truth 95 times in 100."


WORDS = MeasuredWords()
