"""Who works, how long a day, and when work can be done."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Name, Part, Percent
from pavewright.job._outputs import OwnOutput


class Skill(StrEnum):
    """What somebody can do; any stands for whoever is there."""

    LAYER = "layer"
    GROUNDWORKER = "groundworker"
    LABOURER = "labourer"
    DRIVER = "driver"
    DRAINAGE = "drainage"
    ANY = "any"


class Gang(Part):
    """People who work together on one thing at a time."""

    name: Name
    people: tuple[Skill, ...] = Field(min_length=1, max_length=20, description="The skill of each of them.")


class Crew(Part):
    """Who works and for how long a day."""

    people: Annotated[int, Field(ge=1, le=20)] | None = Field(
        None, description="How many work at a time; left out where it is not known: there are hours then, and no dates."
    )
    hours_per_day: Annotated[float, Field(gt=0.0, le=16.0)] = Field(
        8.0, description="Hours of work a day, without breaks. [h]"
    )
    pace: Annotated[float, Field(gt=0.1, le=5.0)] = Field(
        1.0, description="Own output over the rulebook's: 1.2 is a fifth quicker. [-]"
    )
    machine_dig: bool = False
    own_mixer: bool = Field(
        default=False,
        description="Whether the crew brings a drum mixer of its own; one on hire is listed with the plant.",
    )
    gangs: tuple[Gang, ...] = Field(
        (), max_length=10, description="Gangs that work side by side; none is one gang of all the people."
    )
    outputs: tuple[OwnOutput, ...] = Field(
        (), max_length=200, description="Own outputs, in place of the rulebook's; the pace is not put on them again."
    )


class MonthWeather(Part):
    """How many days of a month stop or hinder work, in the mean of years."""

    month: Annotated[int, Field(ge=1, le=12)] = Field(description="Month of the year, January 1.")
    wet_days: Annotated[float, Field(ge=0.0, le=31.0)] | None = Field(
        None, description="Days on which rain stops work."
    )
    frost_days: Annotated[float, Field(ge=0.0, le=31.0)] | None = Field(None, description="Days with frost.")
    hot_days: Annotated[float, Field(ge=0.0, le=31.0)] | None = Field(None, description="Days too hot for mortar.")
    mean_c: Annotated[float, Field(ge=-60.0, le=60.0)] | None = Field(
        None, description="Mean temperature of the air; bays harden by it. [°C]"
    )


class BayTemperature(Part):
    """How warm an area is while it hardens, as somebody read it or expects it."""

    area: Name = Field(description="Name of the area.")
    temperature_c: Annotated[float, Field(ge=-60.0, le=60.0)] = Field(description="Its temperature. [°C]")


class Calendar(Part):
    """When work can be done."""

    start: dt.date | None = Field(
        None, strict=False, description="First day of work; left out where it is not known: there are no dates then."
    )
    day_starts_min: Annotated[int, Field(ge=0, lt=1440)] = Field(480, description="Start of work after midnight. [min]")
    weekdays: tuple[Annotated[int, Field(ge=0, le=6)], ...] = Field(
        (0, 1, 2, 3, 4), description="Working days, Monday 0 to Sunday 6."
    )
    days_off: tuple[dt.date, ...] = Field((), max_length=400, strict=False)
    weather_percent: Percent = Field(0.0, description="Time added for weather to work that rain stops. [%]")
    exact_order: bool = Field(
        default=False,
        description="Whether an exact search looks for an order of the work that ends on an earlier day, or shows that "
        "there is none; it takes up to some ten seconds where several gangs work.",
    )
    half_days: bool = Field(
        default=False, description="Whether a gang moves to another area only at the start of a day or at midday."
    )
    weather: tuple[MonthWeather, ...] = Field((), max_length=12, description="Wet, frosty and hot days by month.")
    bay_temperatures: tuple[BayTemperature, ...] = Field(
        (), max_length=100, description="Temperatures of areas while they harden, in place of the mean of the month."
    )
