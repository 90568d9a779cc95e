"""The whole document."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pavewright.job._base import Part
from pavewright.job._measured import Measurements
from pavewright.job._paving import Area, StepFlight
from pavewright.job._paving_units import PavingUnit
from pavewright.job._site import Site
from pavewright.job._trade import AsLaid, Calendar, Crew, Identity, Rates, ToleranceRegime

FORMAT = "pavewright.job"
CURRENT_VERSION = 1


class Job(Part):
    """A job document: measurements in, everything else follows from it and a rulebook."""

    format: Literal["pavewright.job"]
    version: Literal[1]
    identity: Identity
    measurements: Measurements
    site: Site = Site()
    areas: tuple[Area, ...] = Field(min_length=1, max_length=50)
    steps: tuple[StepFlight, ...] = Field((), max_length=50)
    units: tuple[PavingUnit, ...] = Field(min_length=1, max_length=100)
    rates: Rates
    crew: Crew
    calendar: Calendar
    tolerance: ToleranceRegime = ToleranceRegime.FLAGS
    as_laid: AsLaid | None = None

    def unit(self, name: str) -> PavingUnit:
        """Return the paving unit with this name; ``parse`` has checked that it is there."""
        return next(unit for unit in self.units if unit.name == name)

    def area(self, name: str) -> Area:
        """Return the area with this name; ``parse`` has checked that it is there."""
        return next(area for area in self.areas if area.name == name)
