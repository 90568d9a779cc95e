"""Sketches: what a finger drew, laid over the tapes; points that no tape fixes yet stand where it shows them."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.survey.sketch._pairs import Drawn
    from pavewright.survey.sketch._sketch_plan import place_on_sketch
else:
    __getattr__ = face(__name__)

__all__ = ["Drawn", "place_on_sketch"]
