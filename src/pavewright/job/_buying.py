"""What is bought, hired and carted away, with its price."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Minor, Name, Size, Slug, Text
from pavewright.job._buying_terms import BuyingTerms


class MaterialKind(StrEnum):
    """What can be bought beside paving units."""

    CEMENT = "cement"
    SHARP_SAND = "sharp_sand"
    SOFT_SAND = "soft_sand"
    BALLAST = "ballast"
    SUB_BASE = "sub_base"
    CAPPING = "capping"
    OPEN_STONE = "open_stone"
    GRIT = "grit"
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
    SPLITTER = "splitter"
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


class Material(BuyingTerms):
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


class CatalogueItem(BuyingTerms):
    """Anything else that is bought: a pack of so much, at a price."""

    key: Slug = Field(description="Under what the program knows it: made from its name once, never typed.")
    name: Name
    pack_amount: Annotated[float, Field(gt=0.0, le=100_000.0)] = Field(
        description="How much one pack holds. [pack_unit]"
    )
    pack_unit: PackUnit = Field(description="Unit in which a pack is measured.")
    pack_price_minor: Minor | None = Field(
        None, description="Price of one pack, before tax; left out where it is not known. [minor units]"
    )
    kg_per_unit: Annotated[float, Field(gt=0.0, le=50_000.0)] | None = Field(
        None, description="Mass of one unit of it: of a metre, a litre, a piece. [kg]"
    )


class PlantHire(BuyingTerms):
    """A machine or tool on hire, or the firm's own."""

    key: PlantKind = Field(description="Which machine or tool.")
    name: Text = ""
    day_price_minor: Minor | None = Field(
        None, description="Price of a day on hire, before tax; left out where it is not known. [minor units]"
    )
    days: Annotated[float, Field(ge=0.0, le=365.0)] | None = Field(
        None, description="Days on hire; worked out from the programme where none is given."
    )
    owned: bool = Field(
        default=False,
        description="Whether it is the firm's own: no hire is paid, and a price of a day, where one is given, is what a day "
        "of it costs. In the firm's book: on every job that names none of its kind.",
    )
    usual: bool = Field(
        default=False,
        description="In the firm's book: on hire for every job that names no plant of its own.",
    )
    min_days: Annotated[float, Field(ge=0.0, le=365.0)] | None = Field(
        None, description="Shortest hire that is charged, in days."
    )
    weekly_price_minor: Minor | None = Field(
        None, description="Price of a week on hire, where that is cheaper than its days. [minor units]"
    )
    off_hire_days: Annotated[float, Field(ge=0.0, le=30.0)] | None = Field(
        None, description="Days that are still paid for after the call that ends the hire."
    )
    fuel_litres_per_hour: Annotated[float, Field(ge=0.0, le=200.0)] | None = Field(
        None, description="Fuel that it burns while it works. [l/h]"
    )
    delivery_minor: Minor | None = Field(
        None, description="Delivery and collection together, once a hire; left out where it is not known. [minor units]"
    )
    kg_each: Annotated[float, Field(gt=0.0, le=20_000.0)] | None = Field(
        None, description="Of a vibrating plate, with the area of its sole: both decide layers and passes of fill. [kg]"
    )
    sole_length_mm: Size | None = Field(None, description="Of a vibrating plate: length of its sole. [mm]")
    sole_width_mm: Size | None = Field(None, description="Of a vibrating plate: width of its sole. [mm]")
    vibration_m_per_s2: Annotated[float, Field(gt=0.0, le=100.0)] | None = Field(
        None,
        description="Vibration at the hands as it is used, measured or from a report of such work, not its maker's test; "
        "left out where it is not known. [m/s²]",
    )
    noise_db: Annotated[float, Field(gt=0.0, le=160.0)] | None = Field(
        None, description="Noise at the ear of who works it; left out where it is not known. [dB(A)]"
    )


class DisposalKind(StrEnum):
    """What takes spoil away."""

    SKIP = "skip"
    GRAB = "grab"
    TIPPER = "tipper"


class Disposal(BuyingTerms):
    """How spoil leaves: a skip or a grab lorry."""

    kind: DisposalKind = Field(DisposalKind.SKIP, description="A skip, a grab lorry or a tipper.")
    volume_m3: Annotated[float, Field(gt=0.0, le=50.0)] = Field(description="What one load holds, loose. [m³]")
    payload_tonnes: Annotated[float, Field(gt=0.0, le=50.0)] | None = Field(
        None, description="What one load may weigh. [t]"
    )
    load_price_minor: Minor | None = Field(
        None, description="Price of one load removed and tipped; left out where it is not known. [minor units]"
    )
