"""Cars: whether a car gets over a drive without grounding, and what it meets at the road and at the garage.

A car is followed from the road to each garage door. Gradients are checked against their limits, each change of gradient
against the room under a car between its wheels and under its ends, and steps against what a car rolls over.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.levels.cars._grounding import (
        Car,
        Grounding,
        breakover_deg,
        crest_change,
        crest_curve_mm,
        half_strip_mm,
        over_profile,
        sag_change,
    )
    from pavewright.levels.cars._joins import join_findings
    from pavewright.levels.cars._judge import car_findings, car_of, cars_pass
    from pavewright.levels.cars._sums import SUMS
    from pavewright.levels.cars._way import CarWay, Gate, car_ways, gates
else:
    __getattr__ = face(__name__)

__all__ = [
    "SUMS",
    "Car",
    "CarWay",
    "Gate",
    "Grounding",
    "breakover_deg",
    "car_findings",
    "car_of",
    "car_ways",
    "cars_pass",
    "crest_change",
    "crest_curve_mm",
    "gates",
    "half_strip_mm",
    "join_findings",
    "over_profile",
    "sag_change",
]
