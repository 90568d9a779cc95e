"""Readings on the finished paving: levels, gaps under a straight edge, lips, joints, and the same again later."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum

from pydantic import Field

from pavewright.job._base import Joint, Millimetres, Name, NonNegativeLength, Part, Place, Size, Text, Tolerance


class AsLaidReading(Part):
    """A level read on the finished paving."""

    x_mm: Place = Field(description="East on the site grid. [mm]")
    y_mm: Place = Field(description="North on the site grid. [mm]")
    level_mm: Millimetres | None = Field(None, description="Level found on the paving; none while it is not read. [mm]")
    area: Name
    label: Text = ""


class FixedMark(Part):
    """A mark off the paving that is taken not to move: a sill, a cover frame, a nail in a wall."""

    name: Name = Field(description="What and where it is.")
    level_mm: Millimetres | None = Field(None, description="Level read on it that day; none while it is not read. [mm]")


class GapMeans(StrEnum):
    """What a gap is measured with."""

    WEDGE = "wedge"
    EYE = "eye"


class StraightedgeGap(Part):
    """The largest gap under a straight edge that lies on the paving, between the two places where it touches."""

    name: Name = Field(description="Which reading it is.")
    area: Name
    edge_mm: Size = Field(description="Length of the straight edge. [mm]")
    gap_mm: NonNegativeLength | None = Field(
        None, description="The largest gap between its contacts; none while it is not read. [mm]"
    )
    contacts_mm: Size | None = Field(
        None, description="How far apart the two places are where it touches; left out where nobody measured it. [mm]"
    )
    warp_mm: NonNegativeLength | None = Field(
        None, description="How far the units themselves are warped; left out where nobody measured it. [mm]"
    )
    means: GapMeans = Field(GapMeans.WEDGE, description="What it was measured with.")
    sd_mm: Tolerance | None = Field(
        None, description="Standard deviation of the reading; that of its means where none is given. [mm]"
    )
    x_mm: Place | None = Field(None, description="East of its middle; left out where nobody noted it. [mm]")
    y_mm: Place | None = Field(None, description="North of its middle; left out where nobody noted it. [mm]")


class LipMeans(StrEnum):
    """What a lip is measured with."""

    GAUGE = "gauge"
    STAFF = "staff"


class JointFill(StrEnum):
    """How a joint is filled."""

    FLUSH = "flush"
    RECESSED = "recessed"
    OPEN = "open"


class LipRead(Part):
    """A step from one unit to its neighbour."""

    name: Name = Field(description="Which reading it is.")
    area: Name
    lip_mm: NonNegativeLength | None = Field(
        None, description="Height of the step, whichever unit is higher; none while it is not read. [mm]"
    )
    means: LipMeans = Field(LipMeans.GAUGE, description="What it was measured with.")
    sd_mm: Tolerance | None = Field(
        None, description="Standard deviation of the lip; that of its means where none is given. [mm]"
    )
    joint_mm: Joint | None = Field(None, description="Width of the joint there; left out where nobody read it. [mm]")
    fill: JointFill | None = Field(None, description="How the joint is filled; left out where nobody noted it.")
    warp_mm: NonNegativeLength | None = Field(
        None, description="How far the units themselves are warped; left out where nobody measured it. [mm]"
    )
    x_mm: Place | None = Field(None, description="East; left out where nobody noted it. [mm]")
    y_mm: Place | None = Field(None, description="North; left out where nobody noted it. [mm]")


class JointRead(Part):
    """A joint between two units: how wide it is, and how far its filling lies below the surface."""

    name: Name = Field(description="Which reading it is.")
    area: Name
    width_mm: Joint | None = Field(None, description="Width; none while it is not read. [mm]")
    recess_mm: NonNegativeLength | None = Field(
        None, description="From the surface down to the filling; left out where nobody read it. [mm]"
    )
    sd_mm: Tolerance | None = Field(
        None, description="Standard deviation of the width; that of a rule where none is given. [mm]"
    )
    x_mm: Place | None = Field(None, description="East; left out where nobody noted it. [mm]")
    y_mm: Place | None = Field(None, description="North; left out where nobody noted it. [mm]")


class LaterReading(Part):
    """A level read again where one was read as laid."""

    label: Name = Field(description="Label of the reading as laid.")
    level_mm: Millimetres | None = Field(None, description="Level found; none while it is not read. [mm]")


class LaterVisit(Part):
    """The same places read again after some months, and the same fixed marks."""

    date: dt.date = Field(strict=False)
    read_by: Text = ""
    instrument: Text = ""
    reading_sd_mm: Tolerance = Field(1.5, description="Standard deviation of one reading. [mm]")
    marks: tuple[FixedMark, ...] = Field((), max_length=50, description="Fixed marks as they were read that day.")
    read_again: tuple[LaterReading, ...] = Field((), max_length=20000)


class AsLaid(Part):
    """Readings on the finished paving."""

    date: dt.date = Field(strict=False)
    read_by: Text = ""
    instrument: Text = ""
    reading_sd_mm: Tolerance = Field(1.5, description="Standard deviation of one reading. [mm]")
    readings: tuple[AsLaidReading, ...] = Field((), max_length=20000)
    marks: tuple[FixedMark, ...] = Field(
        (), max_length=50, description="Fixed marks read that day, by which later visits are compared."
    )
    gaps: tuple[StraightedgeGap, ...] = Field((), max_length=2000, description="Gaps under a straight edge.")
    lips: tuple[LipRead, ...] = Field((), max_length=5000, description="Steps between units.")
    joints: tuple[JointRead, ...] = Field((), max_length=5000, description="Joints between units.")
    later_visits: tuple[LaterVisit, ...] = Field((), max_length=50, description="The same readings taken again later.")

    def read_again(self, visit: LaterVisit) -> tuple[tuple[int, ...], ...]:
        """Return, for every reading of a later visit, the numbers of the readings as laid that bear its label.

        In a document without faults it is one number for each.
        """
        numbers: dict[str, list[int]] = {}
        for number, reading in enumerate(self.readings):
            numbers.setdefault(reading.label, []).append(number)
        return tuple(tuple(numbers.get(again.label, ())) for again in visit.read_again)

    @property
    def not_read(self) -> tuple[tuple[str, str], ...]:
        """Gaps, steps and joints that are listed and that nobody read: name and area of each."""
        gaps = [(each.name, each.area) for each in self.gaps if each.gap_mm is None]
        lips = [(each.name, each.area) for each in self.lips if each.lip_mm is None]
        joints = [(each.name, each.area) for each in self.joints if each.width_mm is None and each.recess_mm is None]
        return (*gaps, *lips, *joints)
