"""The whole document."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pavewright.job._agreement import Agreement
from pavewright.job._assembly import Arrangements
from pavewright.job._base import Part, Slug
from pavewright.job._crew import Calendar, Crew
from pavewright.job._measured import Measurements
from pavewright.job._mixes import Mixes
from pavewright.job._paving import Area, StepFlight
from pavewright.job._paving_units import PavingUnit
from pavewright.job._programme import DoneTask, HoldPoint, PinnedTask
from pavewright.job._quoted import Quoted
from pavewright.job._rates import Rates
from pavewright.job._site import Site
from pavewright.job._terms import Terms
from pavewright.job._trade import Identity, ToleranceRegime
from pavewright.job.agreed._accepted import Accepted
from pavewright.job.agreed._bills import Bill, Received, Settled
from pavewright.job.agreed._variations import Variation
from pavewright.job.handover import HandedOver
from pavewright.job.on_site._as_laid import AsLaid
from pavewright.job.on_site._days import SiteDay
from pavewright.job.on_site._holds import DigFound, HoldCheck
from pavewright.job.on_site._hose import DrainMark, HoseTest
from pavewright.job.on_site._photo import PhoneSlope, PhotoPlane
from pavewright.job.on_site._snags import Snag
from pavewright.job.on_site._tools import InstrumentSetUp, StringAsSet, ToolsAtHand
from pavewright.job.on_site._units_read import BagsUsed, UnitRead
from pavewright.job.standing._standing import Standing

FORMAT = "pavewright.job"
CURRENT_VERSION = 3


class Job(Part):
    """A job document: measurements in, everything else follows from it and a rulebook.

    Places: x grows to the right (east) of the site grid and y up the sheet; bearings run clockwise from the y axis. Left
    and right are those of somebody who stands at the first named point and looks to the second. Lengths and levels are
    millimetres, prices whole pence or cents.

    Levels: all stand above one datum. Where a field takes a level or a name, the name is that of a point whose level is
    read in a level book, given, or measured over another point; such a point needs no place on the plan. A level that
    nobody read is left out or null: the plan says that it was not read and what was not checked for that. One that
    somebody took to be so says who and why.

    A job may know nothing. What is left out is not known; it is never zero, and the plan goes as far as what is known.
    """

    format: Literal["pavewright.job"]
    version: Literal[3]
    identity: Identity
    measurements: Measurements
    site: Site = Site()
    areas: tuple[Area, ...] = Field(max_length=50)
    steps: tuple[StepFlight, ...] = Field((), max_length=50)
    units: tuple[PavingUnit, ...] = Field(max_length=100)
    rates: Rates = Rates()
    crew: Crew = Crew()
    calendar: Calendar = Calendar()
    terms: Terms = Terms()
    agreement: Agreement = Agreement()
    standing: Standing = Field(
        Standing(), description="How the job goes in the firm, where a person says so, and visits that are promised."
    )
    holds: tuple[HoldPoint, ...] = Field((), max_length=10)
    pins: tuple[PinnedTask, ...] = Field((), max_length=200)
    done: tuple[DoneTask, ...] = Field((), max_length=1000)
    arrangements: Arrangements = Arrangements()
    mixes: Mixes = Mixes()
    tolerance: ToleranceRegime = ToleranceRegime.FLAGS
    held_to: Slug | None = Field(
        None,
        description="Regime of tolerances of the rulebook to which flatness, lips and joints are held; the one that "
        "``tolerance`` names where none is given.",
    )
    as_laid: AsLaid | None = None
    photo_planes: tuple[PhotoPlane, ...] = Field(
        (), max_length=100, description="Photos that show known places on one plane, from which others follow."
    )
    phone_slopes: tuple[PhoneSlope, ...] = Field(
        (), max_length=500, description="Slopes read with a tool that was turned end for end."
    )
    hold_checks: tuple[HoldCheck, ...] = Field(
        (), max_length=500, description="What was read where work stops until somebody has looked."
    )
    dig_found: tuple[DigFound, ...] = Field(
        (), max_length=100, description="What the dig found that nobody knew; the plan goes by it."
    )
    units_read: tuple[UnitRead, ...] = Field(
        (), max_length=20000, description="Units as read when they were laid, in the order of reading."
    )
    bags_used: tuple[BagsUsed, ...] = Field((), max_length=2000, description="Bags counted against what was laid.")
    site_days: tuple[SiteDay, ...] = Field((), max_length=1000, description="The log of the days on site.")
    hose_tests: tuple[HoseTest, ...] = Field(
        (), max_length=100, description="Water let run over finished paving, and what stood."
    )
    drain_marks: tuple[DrainMark, ...] = Field(
        (), max_length=500, description="How far finished paving stands above its gratings."
    )
    snags: tuple[Snag, ...] = Field(
        (), max_length=1000, description="What is still to be put right, or was agreed to stay."
    )
    handed_over: HandedOver | None = Field(
        None, description="What was written down when the work was handed over; left out before that."
    )
    quoted: Quoted | None = Field(
        None, description="What the job was quoted with; it is planned with these prices, whatever changes since."
    )
    accepted: Accepted | None = Field(
        None, description="What the customer accepted, frozen; nothing is agreed while it is left out."
    )
    variations: tuple[Variation, ...] = Field((), max_length=500, description="The register of variations.")
    settled: tuple[Settled, ...] = Field((), max_length=200, description="Sums of the quotation that are settled.")
    bills: tuple[Bill, ...] = Field(
        (), max_length=500, description="Bills and credit notes, in the order of their numbers."
    )
    received: tuple[Received, ...] = Field((), max_length=2000, description="Money that came in.")
    tools: ToolsAtHand = Field(ToolsAtHand(), description="What the crew sets out with.")
    set_ups: tuple[InstrumentSetUp, ...] = Field((), max_length=200, description="Set-ups of an instrument.")
    strings_set: tuple[StringAsSet, ...] = Field(
        (), max_length=1000, description="Strings as they really hang, peg by peg."
    )

    def unit(self, name: str | None) -> PavingUnit:
        """Return the paving unit with this name; ``parse`` has checked that it is there.

        Raises:
            LookupError: no unit is chosen.
        """
        for unit in self.units:
            if unit.name == name:
                return unit
        message = f"no unit {name}"
        raise LookupError(message)

    def area(self, name: str) -> Area:
        """Return the area with this name; ``parse`` has checked that it is there."""
        return next(area for area in self.areas if area.name == name)
