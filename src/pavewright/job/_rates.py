"""Rates: prices, what goes on the cost, and the tax."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._assembly import Assembly
from pavewright.job._base import Minor, Part, Percent, Slug, Text
from pavewright.job._buying import CatalogueItem, Disposal, Material, PlantHire
from pavewright.job._crew import Skill


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


class TaxGroup(StrEnum):
    """Lines of a price that can be taxed in their own way."""

    LABOUR = "labour"
    PLANT = "plant"
    DISPOSAL = "disposal"
    PROVISIONAL = "provisional"
    MATERIAL = "material"


class LabourRate(Part):
    """What an hour of one skill costs."""

    skill: Skill = Field(description="Which skill; any stands for every skill that has no price of its own.")
    minor_per_hour: Minor = Field(description="Cost of one person of it for an hour. [minor units an hour]")
    supplier: Text = Field("", description="Who sends them, where they are not the firm's own.")
    priced_on: dt.date | None = Field(
        None, strict=False, description="Day on which the price was given; left out where it is not known."
    )


class TaxRegime(StrEnum):
    """How tax falls on what is sold."""

    STANDARD = "standard"
    REDUCED = "reduced"
    ZERO = "zero"
    NONE = "none"
    REVERSE_CHARGE = "reverse_charge"


class TaxRounding(StrEnum):
    """How tax is rounded to whole minor units."""

    INVOICE = "invoice"
    LINE = "line"
    DOWN = "down"
    TENTH = "tenth"


class TaxLine(Part):
    """A part of the price that is taxed in its own way."""

    group: TaxGroup | None = Field(None, description="Which lines: all of one group.")
    key: Slug | None = Field(None, description="Which line: one item of the catalogue, where no group is given.")
    regime: TaxRegime
    percent: Percent | None = Field(None, description="Tax on them, where it is not zero. [%]")


class RoundingKind(StrEnum):
    """How a price is rounded."""

    NONE = "none"
    NEAREST = "nearest"
    UP = "up"


class Rounding(Part):
    """How the price before tax is rounded: to what, and which way."""

    kind: RoundingKind
    to_minor: Annotated[int, Field(ge=1, le=1_000_000)] = Field(1, description="To whole times this. [minor units]")


class Rates(Part):
    """Prices of labour, plant, disposal and materials; margin and tax. What is left out is not known, and is no zero."""

    labour_minor_per_hour: Minor | None = Field(
        None, description="Cost of one person for an hour; left out where it is not known. [minor units an hour]"
    )
    labour: tuple[LabourRate, ...] = Field(
        (), max_length=20, description="Cost of an hour by skill, where skills cost differently."
    )
    plant: tuple[PlantHire, ...] = Field((), max_length=200)
    disposal: Disposal | None = None
    materials: tuple[Material, ...] = Field((), max_length=200)
    catalogue: tuple[CatalogueItem, ...] = Field(
        (), max_length=20_000, description="Anything else that is bought, by its unit of sale."
    )
    assemblies: tuple[Assembly, ...] = Field(
        (),
        max_length=500,
        description="What work takes beside what is drawn: added to the rulebook's list, changed in it or switched off.",
    )
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
    overhead_minor_per_hour: Minor | None = Field(
        None,
        description="Added for overheads for each hour of labour, in place of a percentage. [minor units an hour]",
    )
    margin_percent: Percent | None = Field(
        None,
        description="Part of the price before tax that is left after cost and overhead; left out where it is not known. [%]",
    )
    markup_percent: Annotated[float, Field(ge=0.0, le=1000.0)] | None = Field(
        None,
        description="Added to cost and overhead as a part of them, in place of a margin: a mark-up of 25 % is a margin of "
        "20 %. [%]",
    )
    tax_percent: Percent | None = Field(
        None, description="Tax on the price, zero where none is due; left out where it is not known. [%]"
    )
    tax_name: Text = "VAT"
    tax_regime: TaxRegime | None = Field(
        None, description="How the whole price is taxed, where no line says otherwise; standard where it is left out."
    )
    tax_lines: tuple[TaxLine, ...] = Field((), max_length=50, description="What is taxed in its own way.")
    tax_rounding: TaxRounding | None = Field(
        None,
        description="How tax is rounded: on all that one rate falls on together, on each line, down, or each line down to a "
        "tenth of the smallest coin and then their sum; together where it is left out. Ask the tax office which ways are "
        "open to you.",
    )
    rounding: Rounding | None = Field(
        None, description="How the price before tax is rounded; to whole minor units else."
    )
    price_age_days: Annotated[int, Field(ge=1, le=3650)] | None = Field(
        None,
        description="A price older than this is marked, and so is one without a date; where it is left out, a price with a "
        "date is marked by the rulebook's age. [days]",
    )
