"""Tools at hand for setting out, strings as they really hang, and set-ups of an instrument."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Accuracy, Length, Millimetres, Name, Part, Place, StaffReading, Text


class TapeClass(StrEnum):
    """The class that stands on a tape, in Roman figures."""

    CLASS_I = "class_i"
    CLASS_II = "class_ii"
    CLASS_III = "class_iii"


class SquareTool(StrEnum):
    """What turns a right angle."""

    TAPE_TRIANGLE = "tape_triangle"
    BUILDERS_SQUARE = "builders_square"
    LASER_SQUARE = "laser_square"


class LevelTool(StrEnum):
    """What carries a height."""

    OPTICAL_LEVEL = "optical_level"
    ROTATING_LASER = "rotating_laser"
    WATER_LEVEL = "water_level"
    SPIRIT_LEVEL = "spirit_level"


class ToolsAtHand(Part):
    """What the crew sets out with. What is left out is taken from the rulebook's usual tools, and said as assumed."""

    tape: TapeClass | None = Field(None, description="Class of the tape.")
    tape_length_mm: Length | None = Field(None, description="Length of the tape. [mm]")
    tape_read_sd_mm: Accuracy | None = Field(
        None, description="Standard deviation of holding and reading one tape, without the tape's own error. [mm]"
    )
    square: SquareTool | None = Field(None, description="What turns a right angle.")
    square_sd_deg: Annotated[float, Field(gt=0.0, le=10.0)] | None = Field(
        None, description="Standard deviation of a right angle turned with it. [deg]"
    )
    level: LevelTool | None = Field(None, description="What carries heights.")
    level_sd_mm: Accuracy | None = Field(None, description="Standard deviation of one height carried with it. [mm]")
    string_kg_per_km: Annotated[float, Field(gt=0.0, le=100.0)] | None = Field(
        None, description="Mass of the string to a kilometre; as many grams to a metre. [kg/km]"
    )
    string_pull_kg: Annotated[float, Field(gt=0.0, le=1000.0)] | None = Field(
        None, description="Pull on the string, as the mass that would pull as hard if it hung on it. [kg]"
    )


class StringAsSet(Part):
    """The height at which a string was found to hang at a peg."""

    peg: Name = Field(description="Name of the peg on the sheet.")
    x_mm: Place = Field(description="Where that peg stood when it was read, east on the site grid. [mm]")
    y_mm: Place = Field(description="Where that peg stood when it was read, north on the site grid. [mm]")
    level_mm: Millimetres = Field(description="Level of the string there, as read. [mm]")
    read_on: dt.date | None = Field(None, strict=False, description="Day on which it was read.")
    read_by: Text = ""


class InstrumentSetUp(Part):
    """An instrument set up on the site: a staff read on a point of known level gives the height of its sight."""

    name: Name = Field(description="What the set-up is called: its day, or where the instrument stands.")
    point: Name = Field(description="Point of known level on which the staff was read.")
    backsight_mm: StaffReading = Field(description="What was read on the staff there. [mm]")
    read_on: dt.date | None = Field(None, strict=False, description="Day on which it was set up.")
