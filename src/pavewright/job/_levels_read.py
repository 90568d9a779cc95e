"""Levels as they were read: benchmarks, level books and heights of one point over another."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Accuracy, Millimetres, Name, Offset, Part, StaffReading, Text


class Benchmark(Part):
    """A point of known level to which a level book refers."""

    point: Name
    level_mm: Millimetres = Field(description="Its known level above the job's datum. [mm]")
    assumed: bool = Field(
        default=False,
        description="Whether the level was chosen to begin with, such as 10.000 on a door step, and is tied to no other "
        "datum. All heights of the job are right between themselves.",
    )
    note: Text = ""


class StaffOn(StrEnum):
    """What the staff stood on when it was read: it says which levels a reading serves."""

    GROUND = "ground"
    PAVING = "paving"
    DPC = "dpc"
    THRESHOLD = "threshold"
    AIR_BRICK = "air_brick"
    COVER = "cover"
    GULLY = "gully"
    INVERT = "invert"
    EDGE = "edge"
    WALL_TOP = "wall_top"
    WATER = "water"
    MARK = "mark"


class LevelBookRow(Part):
    """One row of a level book. A change point carries a foresight and a backsight; staff readings grow downwards."""

    point: Name
    backsight_mm: StaffReading | None = Field(None, description="First reading after the instrument is set up. [mm]")
    intermediate_mm: StaffReading | None = Field(None, description="Reading between the first and the last. [mm]")
    foresight_mm: StaffReading | None = Field(None, description="Last reading before the instrument is moved. [mm]")
    booked_level_mm: Millimetres | None = Field(
        None, description="Level that was worked out on site, if any; it is checked against the reduction. [mm]"
    )
    on: StaffOn | None = Field(
        None,
        description="What the staff stood on; a reading on the ground is a spot level of the ground. None where nobody "
        "said.",
    )
    note: Text = ""


class LevelBook(Part):
    """One run of levels, from a benchmark, best closed on a benchmark."""

    name: Name
    length_m: Annotated[float, Field(gt=0.0, le=100_000.0)] | None = Field(
        None, description="How far the run was walked, for a greatest misclosure by distance. [m]"
    )
    rows: tuple[LevelBookRow, ...] = Field(min_length=1, max_length=5000)


class HeightMeans(StrEnum):
    """With what a height over another point was found."""

    STRING = "string"
    WATER_LEVEL = "water_level"
    SPIRIT_LEVEL = "spirit_level"
    LASER = "laser"
    PHOTO = "photo"


class HeightOver(Part):
    """How much higher one point is than another, read off a string, a water level or a laser: no staff, no book."""

    point: Name
    over: Name = Field(description="Point from which it is measured: the datum, a door sill, a peg.")
    higher_mm: Offset = Field(description="How much higher; negative where it is lower. [mm]")
    by: HeightMeans = HeightMeans.STRING
    sd_mm: Accuracy | None = Field(
        None, description="Standard deviation; the rulebook's for these means where none is given. [mm]"
    )
    note: Text = ""


class MisclosureRule(StrEnum):
    """By what the greatest misclosure of a run of levels is calculated."""

    SETUPS = "setups"
    DISTANCE = "distance"
    THIRD_ORDER = "third_order"
