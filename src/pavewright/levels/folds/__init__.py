"""Folds: an area in planes that meet, with lids that lie in them."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.levels.folds._folding import Candidate, Candidates, candidate, change_prices, dry, study
    from pavewright.levels.folds._lids import lid_findings
else:
    __getattr__ = face(__name__)

__all__ = [
    "Candidate",
    "Candidates",
    "candidate",
    "change_prices",
    "dry",
    "lid_findings",
    "study",
]
