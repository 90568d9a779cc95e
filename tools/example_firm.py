"""The book of an invented firm, and a job that leaves its prices to it."""

from __future__ import annotations

import copy
from typing import TYPE_CHECKING

from example_parts import CONTRACTOR

if TYPE_CHECKING:
    from example_parts import Document

_CARRIAGE = {"quarry": (3, 6000), "merchant": (2, 4500)}
"""Lead time and carriage of who sells materials."""


def firm_book(job: Document) -> Document:
    """Return the book of the firm that quotes a job: its prices with their days, its people, what a year costs."""
    rates = copy.deepcopy(job["rates"])
    for name in ("labour_minor_per_hour", "overhead_percent"):
        del rates[name]
    for material in rates["materials"]:
        lead_days, carriage_minor = _CARRIAGE[material["supplier_kind"]]
        material |= {"lead_days": lead_days, "carriage_minor": carriage_minor}
    for hire in rates["plant"]:
        hire["usual"] = True
    rates["price_age_days"] = 120
    return {
        "format": "pavewright.firm",
        "version": 1,
        "invented": True,
        "currency": "GBP",
        "firm": {
            "name": CONTRACTOR,
            "lines": ["The Old Kiln, Lower Tessamere", "Paving, drives and steps"],
            "tax_status": "registered",
            "tax_number": "invented",
        },
        "rates": rates,
        "terms": copy.deepcopy(job["terms"]),
        "units": copy.deepcopy(job["units"]),
        "crew": job["crew"],
        "people": [
            {"name": "Layer (invented)", "skill": "layer", "cost_minor_per_hour": 3100},
            {"name": "Second layer (invented)", "skill": "layer", "cost_minor_per_hour": 2900},
            {"name": "Groundworker (invented)", "skill": "groundworker", "cost_minor_per_hour": 2750},
            {"name": "Driver (invented)", "skill": "driver", "cost_minor_per_hour": 2950},
            {"name": "Drain layer (invented)", "skill": "drainage", "cost_minor_per_hour": 2900},
            {"name": "Labourer (invented)", "skill": "labourer", "cost_minor_per_hour": 2300},
        ],
        "outputs": [{"kind": "lay_flags_h_per_m2", "hours_each": 0.72, "sd_hours": 0.09, "jobs": 6}],
        "overhead": {
            "yearly": [
                {"name": "Van and fuel", "minor": 980_000},
                {"name": "Insurance", "minor": 265_000},
                {"name": "Yard", "minor": 540_000},
                {"name": "Tools worn out", "minor": 310_000},
                {"name": "Accounts and office", "minor": 545_000},
            ],
            "direct_minor": 22_000_000,
        },
        "texts": [
            {"key": "validity", "words": "This price holds for thirty days."},
            {"key": "exclusions", "words": "Rock, old footings and services that nobody knew of are not in the price."},
            {"key": "care", "words": "Sweep the paving, and keep salt off it in its first winter."},
        ],
    }


def left_to_the_book(job: Document) -> Document:
    """Return a job that says no price of its own: all of them are the book's."""
    bare = copy.deepcopy(job)
    who = job["identity"]
    bare["identity"] |= {"job": f"{who['job']}-B", "title": f"{who['title']}, priced by the book"}
    bare["rates"], bare["crew"], bare["terms"] = {}, {}, {}
    for unit in bare["units"]:
        unit.pop("pack_price_minor", None)
    bare.pop("as_laid", None)
    return bare
