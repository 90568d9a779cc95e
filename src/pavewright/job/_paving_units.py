"""Slabs, blocks and setts as they are sold."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Joint, Minor, Name, Part, Size, Text, Thickness
from pavewright.job._buying_terms import BuyingTerms

MeasuredSize = Annotated[Size, Field(ge=20.0, le=3000.0)]
"""A side of a unit as measured. [mm]"""


class SizeClass(StrEnum):
    """Class of size tolerance: flags, blocks, sawn and hewn stone, cast stone."""

    FLAG_N = "flag_n"
    FLAG_P = "flag_p"
    FLAG_R = "flag_r"
    BLOCK_UNDER_100 = "block_under_100"
    BLOCK_FROM_100 = "block_from_100"
    STONE_P1 = "stone_p1"
    STONE_P2 = "stone_p2"
    STONE_HEWN = "stone_hewn"
    CAST_STONE = "cast_stone"


class UnitKind(StrEnum):
    """What a paving unit is: a slab, a block or a sett."""

    FLAG = "flag"
    BLOCK = "block"
    SETT = "sett"


class PieceInYard(Part):
    """Pieces of a unit that are left from earlier: nothing is bought for what is cut from them."""

    along_mm: Size = Field(description="Size along the length of the unit. [mm]")
    across_mm: Size = Field(description="Size across. [mm]")
    count: Annotated[int, Field(ge=1, le=500)] = 1


class PavingUnit(BuyingTerms):
    """A slab, block or sett as it is sold, by its work size."""

    name: Name
    kind: UnitKind = Field(UnitKind.FLAG, description="A slab, a block or a sett.")
    material: Text = Field("concrete", description="What it is made of.")
    length_mm: MeasuredSize = Field(description="Work size along the courses. [mm]")
    width_mm: MeasuredSize = Field(description="Work size across the courses. [mm]")
    thickness_mm: Annotated[Thickness, Field(ge=5.0, le=300.0)] = Field(
        description="Work size, greatest where it varies. [mm]"
    )
    kg_each: Annotated[float, Field(gt=0.0, le=2000.0)] = Field(description="Weight of one. [kg]")
    per_pack: Annotated[int, Field(ge=1, le=10000)] = Field(description="How many one pack holds.")
    pack_price_minor: Minor | None = Field(
        None, description="Price of one pack, before tax; left out where it is not known. [minor units]"
    )
    part_packs: bool = Field(default=False, description="Whether single units are sold.")
    joint_min_mm: Joint = Field(0.0, description="Narrowest joint that its maker allows. [mm]")
    joint_max_mm: Joint = Field(50.0, description="Widest joint that its maker allows. [mm]")
    breakage_percent: Annotated[float, Field(ge=0.0, le=50.0)] | None = Field(
        None,
        description="Chance that one breaks between lorry and bed: spares follow from it; else the rulebook's "
        "allowance. [%]",
    )
    measured_lengths_mm: Annotated[tuple[MeasuredSize, ...], Field(max_length=100)] = Field(
        (), description="Lengths of units as measured, ten or so from several packs. [mm]"
    )
    measured_widths_mm: Annotated[tuple[MeasuredSize, ...], Field(max_length=100)] = Field(
        (), description="Widths of units as measured. [mm]"
    )
    in_yard: Annotated[tuple[PieceInYard, ...], Field(max_length=200)] = Field(
        (),
        description="Pieces of it left over from earlier jobs; cut pieces are taken from them where that saves a unit.",
    )
    also_cut_from: Annotated[tuple[Name, ...], Field(max_length=8)] = Field(
        (),
        description="Other units of the same stone, such as a half slab, from which its cut pieces may be sawn where that "
        "costs less; used once all have a price.",
    )
    size_class: SizeClass | None = Field(
        None, description="Class of size to which it is sold; the rulebook holds its tolerances."
    )
    riven: bool = Field(default=False, description="Split face: needs a steeper fall.")
    veined: bool = Field(
        default=False, description="Veins or a grain of the face run along its length: no piece is turned a quarter."
    )
    low_absorption: bool = Field(default=False, description="Porcelain, dense granite, slate: needs a bond coat.")

    @property
    def keeps_direction(self) -> bool:
        """Whether no piece of it may be turned a quarter: its face shows a direction."""
        return self.riven or self.veined
