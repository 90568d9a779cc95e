"""The yard: the stones that parts may be cut from, and the left-overs that lie there."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.laying.yard._stones import Stones
    from pavewright.laying.yard._yard import LeftOver, put_by, sawn_with_yard, still_there, useful, yard_of
else:
    __getattr__ = face(__name__)

__all__ = [
    "LeftOver",
    "Stones",
    "put_by",
    "sawn_with_yard",
    "still_there",
    "useful",
    "yard_of",
]
