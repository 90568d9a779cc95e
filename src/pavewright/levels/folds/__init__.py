"""Folds: an area in planes that meet, with lids that lie in them."""

from pavewright.levels.folds._folding import Candidate, Candidates, candidate, change_prices, dry, study
from pavewright.levels.folds._lids import lid_findings

__all__ = [
    "Candidate",
    "Candidates",
    "candidate",
    "change_prices",
    "dry",
    "lid_findings",
    "study",
]
