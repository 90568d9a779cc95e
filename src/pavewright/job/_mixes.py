"""How the sand of mixes and beds is: dry or damp, and how far a bed of it is compacted."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from pavewright.job._base import Part


class Mixes(Part):
    """The sand as it is batched and bought. What is left out is not counted, and the sand is taken as dry."""

    sand_bulking_percent: Annotated[float, Field(ge=0.0, le=60.0)] | None = Field(
        None,
        description="Gain in volume of sharp and soft sand that is damp, over the same sand dry; fine sand gains more than "
        "coarse. Left out where it is taken as dry. [%]",
    )
    sand_moisture_percent: Annotated[float, Field(ge=0.0, le=30.0)] | None = Field(
        None,
        description="Water in that sand, by mass of the dry sand: what is bought by mass is so much more. Left out where it "
        "is taken as dry. [%]",
    )
    bed_compaction_percent: Annotated[float, Field(ge=0.0, le=60.0)] | None = Field(
        None,
        description="How much more loose sand a laying course takes than it measures when units are pressed into it. Left "
        "out where nothing is added. [%]",
    )
