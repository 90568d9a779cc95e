"""Variations: what changes after the quotation was accepted, each with its reason, its measures and its price."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Millimetres, Name, Part, Place, Slug, Text, Thickness
from pavewright.job.agreed._taxed_sum import TaxedSum


class VariationState(StrEnum):
    """Whether a variation is agreed."""

    PROPOSED = "proposed"
    APPROVED = "approved"
    REFUSED = "refused"


class VariationCause(StrEnum):
    """Why something changes."""

    ASKED = "asked"
    GROUND = "ground"
    HIDDEN = "hidden"
    DESIGN = "design"
    RULE = "rule"
    OTHER = "other"


class VariationMeasureKind(StrEnum):
    """What a variation makes more or less of; each has its unit."""

    DIG_DEPTH = "dig_depth"
    LEVEL = "level"
    DIG = "dig"
    FILL = "fill"
    STONE = "stone"
    PAVED = "paved"
    LOADS = "loads"

    @property
    def unit(self) -> str:
        """Its unit, as printed."""
        return _UNITS[self]

    @property
    def decimals(self) -> int:
        """How many decimals are printed of it."""
        return _DECIMALS.get(self, 0)


_UNITS = {
    VariationMeasureKind.DIG_DEPTH: "mm",
    VariationMeasureKind.LEVEL: "mm",
    VariationMeasureKind.DIG: "m³",
    VariationMeasureKind.FILL: "m³",
    VariationMeasureKind.STONE: "t",
    VariationMeasureKind.PAVED: "m²",
    VariationMeasureKind.LOADS: "loads",
}

_DECIMALS = {
    VariationMeasureKind.DIG: 1,
    VariationMeasureKind.FILL: 1,
    VariationMeasureKind.STONE: 1,
    VariationMeasureKind.PAVED: 2,
}


class VariationMeasure(Part):
    """A measure before and after a variation."""

    kind: VariationMeasureKind = Field(description="What is measured; its unit goes with it.")
    where: Text = Field("", description="Which area, as it was called then; empty for the whole job.")
    before: float | None = Field(
        None, description="As accepted; left out where there was none. [mm, m3, m2, t or loads]"
    )
    after: float | None = Field(
        None, description="With the variation; left out where there is none. [mm, m3, m2, t or loads]"
    )


class DrawnCorner(Part):
    """A corner of an outline on the drawing of a variation."""

    x_mm: Place = Field(description="East on the site grid. [mm]")
    y_mm: Place = Field(description="North on the site grid. [mm]")
    finished_mm: Millimetres | None = Field(None, description="Finished level there; none where it is not known. [mm]")


class DrawnLayer(Part):
    """A layer under an area on the drawing of a variation."""

    name: Text = Field(description="What the layer is.")
    material: Slug = Field(description="What it is made of, as the program calls it.")
    thickness_mm: Thickness = Field(description="Its thickness. [mm]")


class DrawnArea(Part):
    """An area as drawn before or after a variation: its outline, and its layers from the top down."""

    name: Text = Field(description="What the area was called then.")
    corners: tuple[DrawnCorner, ...] = Field((), max_length=200, description="Its outline.")
    layers: tuple[DrawnLayer, ...] = Field((), max_length=20, description="What lies in it, from the top down.")


class Variation(Part):
    """A variation as it stands on its slip; once it is decided nothing of it follows the plan any more."""

    number: Annotated[int, Field(ge=1, le=9999)] = Field(description="Its number in the register, from 1.")
    name: Name = Field(description="What changes, in a few words.")
    cause: VariationCause = Field(description="Why it changes.")
    reason: Text = Field("", description="The reason in words: what was found, or what was asked.")
    asked_by: Text = Field("", description="Who asked for it.")
    on: dt.date = Field(strict=False, description="Day on which it was written.")
    state: VariationState = Field(VariationState.PROPOSED, description="Proposed, approved or refused.")
    decided_on: dt.date | None = Field(None, strict=False, description="Day on which it was approved or refused.")
    decided_by: Text = Field("", description="Who approved or refused it for the customer.")
    sums: tuple[TaxedSum, ...] = Field(
        (), max_length=20, description="What it adds to the price, less than zero where it saves."
    )
    days: Annotated[int, Field(ge=-1000, le=1000)] | None = Field(
        None, description="Working days by which the job is done later; left out where that is not known. [days]"
    )
    measures: tuple[VariationMeasure, ...] = Field((), max_length=100, description="What it makes more or less of.")
    before: tuple[DrawnArea, ...] = Field((), max_length=50, description="The areas that it changes, as accepted.")
    after: tuple[DrawnArea, ...] = Field((), max_length=50, description="The same areas with it.")
    gaps: Annotated[int, Field(ge=0, le=10_000)] = Field(
        0, description="How many things it takes that have no price: its sum is then too low."
    )
    stored_revision: Annotated[int, Field(ge=1, le=10_000_000)] | None = Field(
        None,
        description="Under which number the document with it is kept with the jobs: what changes later is compared with it.",
    )
