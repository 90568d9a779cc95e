"""Levelling: staff readings to reduced levels, both ways, checked and closed."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.survey.levelling._known_levels import KnownLevel
    from pavewright.survey.levelling._level_book import reduce_level_books
    from pavewright.survey.levelling._sums_levels import LEVEL_SUMS
    from pavewright.survey.levelling._sums_two_peg import TWO_PEG_SUMS
else:
    __getattr__ = face(__name__)

__all__ = [
    "LEVEL_SUMS",
    "TWO_PEG_SUMS",
    "KnownLevel",
    "reduce_level_books",
]
