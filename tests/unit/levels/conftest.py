"""A rectangular terrace on a house wall, to be changed by each test."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from pavewright import rulebook
from pavewright.job import parse
from pavewright.levels import Levels, finished_levels
from pavewright.survey import survey

DOCUMENT: dict[str, Any] = {
    "format": "pavewright.job",
    "version": 2,
    "identity": {"job": "T2", "title": "Test", "date": "2027-05-04", "locality": "england", "invented": True},
    "measurements": {
        "points": [
            {"name": "A", "x_mm": 0.0, "y_mm": 0.0},
            {"name": "B", "x_mm": 6000.0, "y_mm": 0.0},
            {"name": "C", "x_mm": 6000.0, "y_mm": 3000.0},
            {"name": "D", "x_mm": 0.0, "y_mm": 3000.0},
            {"name": "M", "x_mm": 3000.0, "y_mm": 2900.0},
        ]
    },
    "site": {"walls": [{"name": "House rear", "start": "A", "end": "B", "dpc_level_mm": 10000.0}]},
    "areas": [
        {
            "name": "Terrace",
            "outline": [{"point": point} for point in "ABCD"],
            "fall": {"away_from": "House rear", "one_in": 60.0},
            "laying": {"unit": "Slab"},
        }
    ],
    "units": [
        {
            "name": "Slab",
            "length_mm": 600.0,
            "width_mm": 600.0,
            "thickness_mm": 40.0,
            "kg_each": 33.0,
            "per_pack": 20,
            "pack_price_minor": 30000,
        }
    ],
    "rates": {"labour_minor_per_hour": 3000},
    "crew": {"people": 2},
    "calendar": {"start": "2027-06-01"},
}


class Terrace:
    """The document of the terrace and its levels."""

    def __init__(self) -> None:
        self.document = copy.deepcopy(DOCUMENT)
        self.rules = rulebook.load("england")

    @property
    def area(self) -> dict[str, Any]:
        return self.document["areas"][0]

    @property
    def site(self) -> dict[str, Any]:
        return self.document["site"]

    def point(self, name: str, x_mm: float, y_mm: float, level_mm: float | None = None) -> None:
        self.document["measurements"]["points"].append({"name": name, "x_mm": x_mm, "y_mm": y_mm, "level_mm": level_mm})

    def levels(self) -> Levels:
        job = parse(self.document)
        return finished_levels(job, survey(job, self.rules), self.rules)


@pytest.fixture
def terrace() -> Terrace:
    return Terrace()
