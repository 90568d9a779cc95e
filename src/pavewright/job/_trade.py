"""Who, where, when and at what price; and the readings as laid."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated

from pydantic import Field, ValidationInfo, field_validator
from pydantic_core import PydanticCustomError

from pavewright.job._base import Millimetres, Minor, Name, Part, Percent, Place, Size, Text, Tolerance

LOCALITIES = "localities"
"""Under this name the editions that there are go into the reading of a job."""


class Identity(Part):
    """Who and where."""

    job: Name = Field(description="Number or short name of the job.")
    title: Text
    client: Text = ""
    address: Text = ""
    contractor: Text = ""
    date: dt.date = Field(strict=False, description="Date of this revision; stands on every sheet.")
    revision: Annotated[int, Field(ge=0, le=9999)] = Field(0, description="Number of this revision, from 0.")
    locality: Annotated[str, Field(pattern="^[a-z][a-z0-9_]{0,39}$")] = Field(
        description="Whose rules hold: an edition of the rulebook."
    )
    edition: dt.date | None = Field(
        None,
        strict=False,
        description="Date of the edition of the rulebook that the job was planned with and keeps; the newest where none is "
        "given.",
    )
    currency: Annotated[str, Field(pattern="^[A-Z]{3}$")] = "GBP"
    invented: bool = Field(default=False, description="Whether names and prices are invented, for examples.")

    @field_validator("locality")
    @classmethod
    def _is_known(cls, locality: str, asked: ValidationInfo) -> str:
        """Refuse a place of which there is no edition, where whoever reads the job says which there are."""
        known = (asked.context or {}).get(LOCALITIES, ())
        if known and locality not in known:
            kind, words = "enum", "no such edition"
            raise PydanticCustomError(kind, words, {"expected": ", ".join(known)})
        return locality


class MaterialKind(StrEnum):
    """What can be bought beside paving units."""

    CEMENT = "cement"
    SHARP_SAND = "sharp_sand"
    SOFT_SAND = "soft_sand"
    BALLAST = "ballast"
    SUB_BASE = "sub_base"
    CAPPING = "capping"
    BLINDING_SAND = "blinding_sand"
    JOINT_SAND = "joint_sand"
    GEOTEXTILE = "geotextile"
    EDGING = "edging"
    KERB = "kerb"
    PLASTICISER = "plasticiser"
    BOND_COAT = "bond_coat"
    TOPSOIL = "topsoil"
    CHANNEL = "channel"
    CHANNEL_END = "channel_end"
    CHANNEL_OUTLET = "channel_outlet"
    GULLY = "gully"
    GRATING = "grating"
    PIPE = "pipe"
    PIPE_BEND = "pipe_bend"
    PIPE_GRAVEL = "pipe_gravel"
    PERFORATED_PIPE = "perforated_pipe"
    SILT_TRAP = "silt_trap"
    SOAKAWAY_STONE = "soakaway_stone"
    SOAKAWAY_CRATES = "soakaway_crates"
    STEP_UNIT = "step_unit"
    MEMBRANE = "membrane"
    MOVEMENT_JOINT = "movement_joint"
    WALLING = "walling"
    DRAIN_STONE = "drain_stone"
    GUARD = "guard"


class PlantKind(StrEnum):
    """What can be hired."""

    EXCAVATOR = "excavator"
    DUMPER = "dumper"
    PLATE = "plate"
    MIXER = "mixer"
    SAW = "saw"
    BREAKER = "breaker"
    LASER = "laser"
    OTHER = "other"


class PackUnit(StrEnum):
    """In what a pack is measured."""

    KG = "kg"
    M2 = "m2"
    M = "m"
    M3 = "m3"
    LITRE = "litre"
    EACH = "each"


class Material(Part):
    """A material as it is bought: a pack of so much, at a price."""

    key: MaterialKind = Field(description="Which material.")
    name: Text = ""
    pack_amount: Annotated[float, Field(gt=0.0, le=100_000.0)] = Field(
        description="How much one pack holds. [pack_unit]"
    )
    pack_unit: PackUnit = Field(description="Unit in which a pack is measured.")
    pack_price_minor: Minor | None = Field(
        None, description="Price of one pack, before tax; left out where it is not known. [minor units]"
    )
    length_mm: Size | None = Field(None, description="Length of one edging or kerb unit. [mm]")
    bulk_kg_per_m3: Annotated[float, Field(gt=0.0, le=5000.0)] | None = Field(
        None, description="Loose density as delivered, where it differs from the rulebook's. [kg/m³]"
    )


class PlantHire(Part):
    """A machine or tool on hire."""

    key: PlantKind = Field(description="Which machine or tool.")
    name: Text = ""
    day_price_minor: Minor | None = Field(
        None, description="Price of a day on hire, before tax; left out where it is not known. [minor units]"
    )
    days: Annotated[float, Field(ge=0.0, le=365.0)] | None = Field(
        None, description="Days on hire; worked out from the programme where none is given."
    )
    kg_each: Annotated[float, Field(gt=0.0, le=20_000.0)] | None = Field(
        None, description="Of a vibrating plate, with the area of its sole: both decide layers and passes of fill. [kg]"
    )
    sole_length_mm: Size | None = Field(None, description="Of a vibrating plate: length of its sole. [mm]")
    sole_width_mm: Size | None = Field(None, description="Of a vibrating plate: width of its sole. [mm]")


class DisposalKind(StrEnum):
    """What takes spoil away."""

    SKIP = "skip"
    GRAB = "grab"
    TIPPER = "tipper"


class Disposal(Part):
    """How spoil leaves: a skip or a grab lorry."""

    kind: DisposalKind = Field(DisposalKind.SKIP, description="A skip, a grab lorry or a tipper.")
    volume_m3: Annotated[float, Field(gt=0.0, le=50.0)] = Field(description="What one load holds, loose. [m³]")
    payload_tonnes: Annotated[float, Field(gt=0.0, le=50.0)] | None = Field(
        None, description="What one load may weigh. [t]"
    )
    load_price_minor: Minor | None = Field(
        None, description="Price of one load removed and tipped; left out where it is not known. [minor units]"
    )


class ChangeKind(StrEnum):
    """What may give way where levels clash."""

    COVER = "cover"
    GULLY = "gully"
    TIE_IN = "tie_in"
    DOOR = "door"
    DOOR_REACH = "door_reach"
    JOIN = "join"
    MIN_FALL = "min_fall"
    STEEPEST = "steepest"
    VALLEY_FALL = "valley_fall"


class ChangePrice(Part):
    """What it costs to give way where levels clash: once, and for each millimetre (of each metre, for a fall)."""

    key: ChangeKind = Field(description="What gives way.")
    once_minor: Minor = Field(description="Price once. [minor units]")
    each_minor: Minor = Field(description="Price of each millimetre. [minor units]")


class Rates(Part):
    """Prices of labour, plant, disposal and materials; margin and tax. What is left out is not known, and is no zero."""

    labour_minor_per_hour: Minor | None = Field(
        None, description="Cost of one person for an hour; left out where it is not known. [minor units an hour]"
    )
    plant: tuple[PlantHire, ...] = Field((), max_length=50)
    disposal: Disposal | None = None
    materials: tuple[Material, ...] = Field((), max_length=200)
    cut_price_minor: Minor | None = Field(
        None, description="Price of a cubic metre dug and removed, for comparing levels. [minor units]"
    )
    fill_price_minor: Minor | None = Field(
        None, description="Price of a cubic metre filled, for comparing levels. [minor units]"
    )
    changes: tuple[ChangePrice, ...] = Field((), max_length=20)
    overhead_percent: Percent | None = Field(
        None,
        description="Added to the cost for overheads that no single job carries; left out where it is not known. [%]",
    )
    margin_percent: Percent | None = Field(
        None,
        description="Part of the price before tax that is left after cost and overhead; left out where it is not known. [%]",
    )
    tax_percent: Percent | None = Field(
        None, description="Tax on the price, zero where none is due; left out where it is not known. [%]"
    )
    tax_name: Text = "VAT"


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


class ToleranceRegime(StrEnum):
    """Which as-laid limits were promised."""

    FLAGS = "flags"
    BLOCKS = "blocks"


class AsLaidReading(Part):
    """A level read on the finished paving."""

    x_mm: Place = Field(description="East on the site grid. [mm]")
    y_mm: Place = Field(description="North on the site grid. [mm]")
    level_mm: Millimetres | None = Field(None, description="Level found on the paving; none while it is not read. [mm]")
    area: Name
    label: Text = ""


class AsLaid(Part):
    """Readings on the finished paving."""

    date: dt.date = Field(strict=False)
    read_by: Text = ""
    instrument: Text = ""
    reading_sd_mm: Tolerance = Field(1.5, description="Standard deviation of one reading. [mm]")
    readings: tuple[AsLaidReading, ...] = Field((), max_length=20000)
