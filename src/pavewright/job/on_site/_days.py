"""The log of a day: who was there, hours by task, what was done where, what came and went, weather, stops and why.

Each phone writes a log of its own, so that two that wrote on one day are merged; a day is all logs of its date.
"""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated

from pydantic import Field, StringConstraints

from pavewright.job._base import Name, Part, Place, Text
from pavewright.job._programme import TaskName
from pavewright.job.handover._record import DeliveredBatch, Line

Temperature = Annotated[float, Field(ge=-60.0, le=60.0)]
"""Temperature of the air or of a mix. [°C]"""
PhotoName = Annotated[str, StringConstraints(pattern=r"^[A-Za-z0-9_-]{1,64}$")]
"""Name of a photo of the job, as it was given when it was taken."""


class PersonOnSite(Part):
    """Somebody who was there."""

    name: Name
    there_h: Annotated[float, Field(gt=0.0, le=24.0)] | None = Field(
        None, description="Hours on site, without breaks; left out where nobody counted them. [h]"
    )


class TaskHours(Part):
    """Hours on one task of the programme."""

    task: TaskName = Field(description="Key of the task, as the plan names it.")
    person_h: Annotated[float, Field(gt=0.0, le=1000.0)] = Field(
        description="Hours of all who worked on it, added up. [h]"
    )
    done_percent: Annotated[float, Field(gt=0.0, le=100.0)] | None = Field(
        None, description="How much of it is done at the end of the day; left out where nobody looked. [%]"
    )
    note: Text = ""


class WorkStage(StrEnum):
    """How far a bay is."""

    DUG = "dug"
    BASE = "base"
    BED = "bed"
    LAID = "laid"
    JOINTED = "jointed"


class BayDone(Part):
    """A bay that was brought to a stage on this day: the one in which the place lies."""

    area: Name = Field(description="Name of the area.")
    stage: WorkStage = Field(description="How far it is at the end of the day.")
    x_mm: Place = Field(description="A place in the bay, east on the site grid. [mm]")
    y_mm: Place = Field(description="A place in the bay, north on the site grid. [mm]")


class MixedBatch(Part):
    """Mortar or concrete as it was mixed."""

    mix: Line = Field(description="Which mix.")
    count: Annotated[int, Field(ge=1, le=1000)] | None = Field(
        None, description="How many batches of it; left out where nobody counted."
    )
    mixed_min: Annotated[int, Field(ge=0, lt=1440)] | None = Field(
        None, description="When the first was mixed, after midnight. [min]"
    )
    mix_c: Temperature | None = Field(None, description="Its temperature, as read. [°C]")


class WasteKind(StrEnum):
    """What leaves."""

    SOIL = "soil"
    RUBBLE = "rubble"
    MIXED = "mixed"
    GREEN = "green"
    OTHER = "other"


class WasteTicket(Part):
    """A load or skip that left, as its ticket says."""

    ticket: Line = Field("", description="Number of the ticket; empty where none was given.")
    carrier: Line = Field("", description="Who took it away.")
    what: WasteKind = Field(WasteKind.SOIL, description="What it was.")
    volume_m3: Annotated[float, Field(gt=0.0, le=1000.0)] | None = Field(
        None, description="How much, loose, as the ticket says. [m³]"
    )
    mass_tonnes: Annotated[float, Field(gt=0.0, le=1000.0)] | None = Field(
        None, description="How much, as it was weighed. [t]"
    )
    went_to: Line = Field("", description="Where it went.")


class SkyKind(StrEnum):
    """What the weather was like."""

    DRY = "dry"
    SHOWERS = "showers"
    RAIN = "rain"
    FROST = "frost"
    SNOW = "snow"


class DayWeather(Part):
    """The weather of a day, as entered on site."""

    sky: SkyKind | None = Field(None, description="What it was like; left out where nobody wrote it.")
    lowest_c: Temperature | None = Field(None, description="Lowest temperature that was read. [°C]")
    highest_c: Temperature | None = Field(None, description="Highest temperature that was read. [°C]")
    rain_depth_mm: Annotated[float, Field(ge=0.0, le=1000.0)] | None = Field(
        None, description="Rain in a gauge on the site. [mm]"
    )


class StopKind(StrEnum):
    """Why work stopped."""

    RAIN = "rain"
    FROST = "frost"
    HEAT = "heat"
    DELIVERY = "delivery"
    BREAKDOWN = "breakdown"
    FOUND = "found"
    LOOK = "look"
    CUSTOMER = "customer"
    PEOPLE = "people"
    OTHER = "other"


class WorkStop(Part):
    """Work that stopped, and why."""

    why: StopKind
    lost_h: Annotated[float, Field(gt=0.0, le=24.0)] | None = Field(
        None, description="How long it stood, on the clock; left out where nobody noted it. [h]"
    )
    note: Text = ""


class SiteDay(Part):
    """The log of a day by one who wrote it. What is left out is not known."""

    name: Name = Field(description="Its name in the list, made by the phone that wrote it.")
    date: dt.date = Field(strict=False)
    written_by: Line = ""
    present: tuple[PersonOnSite, ...] = Field((), max_length=60, description="Who was there.")
    worked: tuple[TaskHours, ...] = Field((), max_length=100, description="Hours by task.")
    bays: tuple[BayDone, ...] = Field((), max_length=500, description="What was done, on the plan.")
    weather: DayWeather = DayWeather()
    mixed: tuple[MixedBatch, ...] = Field((), max_length=100, description="Batches as mixed.")
    delivered: tuple[DeliveredBatch, ...] = Field(
        (), max_length=200, description="What was delivered; the papers of the handover list it."
    )
    waste: tuple[WasteTicket, ...] = Field((), max_length=100, description="Loads and skips that left.")
    stops: tuple[WorkStop, ...] = Field((), max_length=50, description="Work that stopped, and why.")
    photos: tuple[PhotoName, ...] = Field((), max_length=200, description="Photos of this day, by their names.")
    note: Text = Field("", description="What else happened, who called, what is next.")
