"""What the work takes beside what is drawn: so much of something for each metre, piece, load or day, as data."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Length, LongWay, Name, Part, Percent, Slug, Text
from pavewright.job._buying import MaterialKind, PackUnit


class Driver(StrEnum):
    """What an amount is counted by."""

    JOB = "job"
    PAVED_M2 = "paved_m2"
    MORTAR_M2 = "mortar_m2"
    SAND_M2 = "sand_m2"
    LOW_ABSORPTION_M2 = "low_absorption_m2"
    UNIT = "unit"
    MORTAR_UNIT = "mortar_unit"
    CUT_M = "cut_m"
    PERIMETER_M = "perimeter_m"
    MOVEMENT_JOINT_M = "movement_joint_m"
    RISER_M = "riser_m"
    COVER = "cover"
    COVER_FRAME_M = "cover_frame_m"
    DRAIN_RUN = "drain_run"
    DRAIN_M = "drain_m"
    GULLY = "gully"
    CHANNEL = "channel"
    SOAKAWAY = "soakaway"
    LOAD = "load"
    WATER_LITRE = "water_litre"
    WORK_DAY = "work_day"
    WEEK = "week"
    PERSON_DAY = "person_day"
    FUEL_LITRE = "fuel_litre"

    @property
    def timed(self) -> bool:
        """Whether it is known only when the days of work are."""
        return self in {Driver.WORK_DAY, Driver.WEEK, Driver.PERSON_DAY, Driver.FUEL_LITRE}


class Condition(StrEnum):
    """On what it hangs whether an assembly is taken; what nobody said is asked, never assumed."""

    ALWAYS = "always"
    SKIP_ON_ROAD = "skip_on_road"
    PARKING_PAID = "parking_paid"
    NO_WATER = "no_water"
    NO_TOILET = "no_toilet"
    NEW_FRAMES = "new_frames"
    INFILTRATION_NOT_TESTED = "infiltration_not_tested"


_Amount = Annotated[float, Field(ge=0.0, le=1_000_000.0)]


class Assembly(Part):
    """So much of one thing for each of another: blades to a metre of cut, a permit to a skip on the road.

    One with the key of an assembly of the rulebook changes it: what is left out stays as the rulebook has it. One with
    a key of its own is added.
    """

    key: Slug = Field(description="Under what the program knows it: the rulebook's, or made from its name once.")
    name: Name | None = Field(None, description="What is bought, in words.")
    item: Slug | None = Field(
        None, description="Which item of the catalogue is bought; one with the key of the assembly where none is given."
    )
    material: MaterialKind | None = Field(
        None, description="Which material is bought, where it is one of the rates and no item of the catalogue."
    )
    per: Driver | None = Field(None, description="What the amount is counted by.")
    amount: _Amount | None = Field(None, description="Likely amount for one of what it is counted by. [unit]")
    low: _Amount | None = Field(
        None, description="Lower end of the amount; the amount itself where none is given. [unit]"
    )
    high: _Amount | None = Field(None, description="Upper end; the amount itself where none is given. [unit]")
    unit: PackUnit | None = Field(None, description="Unit of the amount.")
    lost_percent: Percent | None = Field(None, description="Lost beside the amount; none where it is left out. [%]")
    when: Condition | None = Field(None, description="On what it hangs; always where it is left out.")
    off: bool | None = Field(None, description="Whether it is switched off: nothing of it is bought.")
    source: Text = Field("", description="Where the amount is from, in words.")


class Arrangements(Part):
    """What is arranged for the days of work. What nobody said is asked."""

    skip_on_road: bool | None = Field(
        None, description="Whether skips stand on the road, which takes a permit; left out where nobody has said."
    )
    parking_paid: bool | None = Field(
        None, description="Whether parking of the crew is paid by the day; left out where nobody has said."
    )
    water_on_site: bool | None = Field(
        None, description="Whether the customer's tap may be used; left out where nobody has said."
    )
    toilet_on_site: bool | None = Field(
        None, description="Whether the crew may use a toilet of the house; left out where nobody has said."
    )
    drop_space_m2: Annotated[float, Field(ge=0.0, le=10_000.0)] | None = Field(
        None,
        description="Room where lorries set down what they bring; left out where nobody has said. [m2]",
    )
    drop_point: Name | None = Field(
        None, description="Point at which lorries set down what they bring; left out where nobody has said."
    )
    clear_height_mm: Length | None = Field(
        None,
        description="Clear height on the way in, under cables, arches and branches; left out where nobody has said. [mm]",
    )
    lorry_limit_tonnes: Annotated[float, Field(gt=0.0, le=100.0)] | None = Field(
        None,
        description="What a lorry may weigh on the way in, by a sign, a bridge or a drive; left out where nobody has "
        "said. [t]",
    )
    crane_reach_mm: LongWay | None = Field(
        None,
        description="From where the lorry can stand to where it sets down: the reach that its crane needs; left out where "
        "nobody has measured it. [mm]",
    )
    order_prices: bool = Field(
        default=False, description="Whether the prices that were agreed stand on the order lists."
    )
    new_frames: bool | None = Field(
        None, description="Whether covers get new frames or recessed trays; left out where nobody has said."
    )
