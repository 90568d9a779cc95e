"""The document of a firm: who it is, what it pays and takes, and how quick its people are."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated, Literal

from pydantic import Field

from pavewright.job import (
    BuyingTerms,
    Crew,
    Minor,
    MonthWeather,
    Name,
    OutputKind,
    OwnOutput,
    Part,
    Pattern,
    PavingUnit,
    Percent,
    Rates,
    Skill,
    SupplierKind,
    Terms,
    Text,
)
from pavewright.writing import Measure  # noqa: TC001 - pydantic reads it

BOOK_FORMAT = "pavewright.firm"
BOOK_VERSION = 1


class TaxStatus(StrEnum):
    """Whether the firm charges tax."""

    REGISTERED = "registered"
    NOT_REGISTERED = "not_registered"


class LogoKind(StrEnum):
    """What kind of picture a logo is."""

    PNG = "png"
    JPEG = "jpeg"


class Logo(Part):
    """The picture that stands beside the name of the firm."""

    kind: LogoKind
    base64: Annotated[str, Field(min_length=4, max_length=700_000, pattern="^[A-Za-z0-9+/]+={0,2}$")] = Field(
        description="The picture itself, in base 64."
    )


class Firm(Part):
    """Who the firm is."""

    name: Text = ""
    lines: tuple[Text, ...] = Field((), max_length=8, description="Lines of the letterhead, below the name.")
    logo: Logo | None = None
    accent: Annotated[str, Field(pattern="^#[0-9a-fA-F]{6}$")] | None = Field(
        None,
        description="Second colour of the papers, such as #1f4e5f; printed darker where it is too light on white, "
        "black where it is left out.",
    )
    tax_status: TaxStatus | None = Field(
        None, description="Whether the firm charges tax; left out where it is not known."
    )
    tax_number: Text = ""


class Person(Part):
    """Somebody who works for the firm."""

    id: Annotated[str, Field(pattern="^[0-9a-f]{12}$")] | None = Field(
        None,
        description="What the program calls this person, as long as the book lasts; given by the program. The calendar "
        "goes by it, whatever name is typed.",
    )
    name: Name
    skill: Skill = Field(description="What they are paid for.")
    cost_minor_per_hour: Minor | None = Field(
        None,
        description="What an hour of theirs costs the firm; left out where it is not known. [minor units]",
    )


class PastHours(Part):
    """Hours that a finished job took for one kind of work."""

    job: Name = Field(description="Number or short name of the job.")
    on: dt.date | None = Field(None, strict=False, description="When that was.")
    kind: OutputKind = Field(description="What kind of work, and in which unit it is measured.")
    pattern: Pattern | None = Field(None, description="Of laying blocks: the pattern.")
    amount: Annotated[float, Field(gt=0.0, le=1_000_000.0)] = Field(
        description="How much was done. [unit of the output]"
    )
    person_hours: Annotated[float, Field(gt=0.0, le=100_000.0)] = Field(description="How long it took. [h]")


class YearlyCost(Part):
    """Something that the firm pays in a year whatever it builds."""

    name: Name
    minor: Minor = Field(description="What it costs in a year. [minor units]")


class Overhead(Part):
    """What the firm costs in a year that no single job carries, and what carries it."""

    yearly: tuple[YearlyCost, ...] = Field((), max_length=200)
    hours_sold: Annotated[float, Field(gt=0.0, le=10_000_000.0)] | None = Field(
        None, description="Hours of labour sold in a year, all people together: overhead is put on each of them. [h]"
    )
    direct_minor: Minor | None = Field(
        None,
        description="Direct cost of all jobs of a year, where overhead is to be a percentage of it. [minor units]",
    )


class TextKey(StrEnum):
    """Where a standard text stands."""

    OPENING = "opening"
    VALIDITY = "validity"
    EXCLUSIONS = "exclusions"
    PAYMENT = "payment"
    GUARANTEE = "guarantee"
    CARE = "care"
    CLOSING = "closing"


class ListColumnKind(StrEnum):
    """What a column of a price list holds."""

    CODE = "code"
    NAME = "name"
    PRICE = "price"
    SOLD_BY = "sold_by"
    PACK_AMOUNT = "pack_amount"
    MIN_PACKS = "min_packs"
    LEAD_DAYS = "lead_days"
    WEEK_PRICE = "week_price"
    MIN_DAYS = "min_days"
    DELIVERY = "delivery"
    VOLUME = "volume"
    PAYLOAD = "payload"


class ListKind(StrEnum):
    """What a price list holds prices of."""

    GOODS = "goods"
    PLANT = "plant"
    DISPOSAL = "disposal"
    LABOUR = "labour"


class ListPer(StrEnum):
    """By what the prices of a list of plant, loads or labour are charged."""

    HOUR = "hour"
    DAY = "day"
    WEEK = "week"
    LOAD = "load"


class StandardText(Part):
    """Words that the firm puts on its papers."""

    key: TextKey = Field(description="Where they stand.")
    words: Text


class ListColumn(Part):
    """A column of a supplier's price list."""

    kind: ListColumnKind = Field(description="What stands in it.")
    head: Text = Field("", description="What stands over it; empty in a list without heads.")
    place: Annotated[int, Field(ge=0, le=200)] = Field(description="Which column it is, from 0.")


class PriceListRead(Part):
    """How the price list of a supplier is read, as it was said once."""

    supplier: Name
    supplier_kind: SupplierKind | None = None
    of: ListKind = Field(ListKind.GOODS, description="What it holds prices of.")
    per: ListPer | None = Field(None, description="By what its prices are charged, where no line says it.")
    columns: tuple[ListColumn, ...] = Field((), max_length=20)
    decimal: Annotated[str, Field(pattern=r"^[.,]$")] | None = Field(None, description="Decimal mark of its prices.")
    tax_percent: Percent | None = Field(
        None, description="Tax that its prices hold; left out where they hold none. [%]"
    )
    per_unit: bool = Field(default=False, description="Whether prices are of one unit, not of the pack.")
    sheet: Text = ""


class ListedPack(BuyingTerms):
    """A pack of mixed sizes as it is sold."""

    name: Name
    units_in_pack: tuple[Name, ...] = Field(min_length=1, max_length=9, description="Names of the paving units in it.")
    counts: tuple[Annotated[int, Field(ge=1, le=1000)], ...] = Field(
        min_length=1, max_length=9, description="How many of each one pack holds, in the order of the units."
    )
    pack_price_minor: Minor | None = Field(
        None, description="Price of one pack, before tax; left out where it is not known. [minor units]"
    )


class FirmBook(Part):
    """The book of a firm. What is left out is not known; it is never zero."""

    format: Literal["pavewright.firm"]
    version: Literal[1]
    invented: bool = Field(default=False, description="Whether names and prices are invented, for examples.")
    currency: Annotated[str, Field(pattern="^[A-Z]{3}$")] = Field(
        "GBP", description="Money of the book; a job in other money takes no price from it."
    )
    locality: Annotated[str, Field(pattern="^[a-z][a-z0-9_]{0,39}$")] | None = Field(
        None, description="Where the firm works: whose rules hold for a new job, until that says otherwise."
    )
    region: Annotated[str, Field(pattern="^[A-Z]{2}$")] | None = Field(
        None, description="Region, two letters, as whose people numbers and dates are written where a job says none."
    )
    measure: Measure | None = Field(
        None, description="Whether feet and inches stand beside metres where a job does not say."
    )
    firm: Firm = Firm()
    rates: Rates = Field(Rates(), description="Prices and percentages, as a job has them.")
    units: tuple[PavingUnit, ...] = Field((), max_length=5000, description="Paving units with their prices.")
    mixed_packs: tuple[ListedPack, ...] = Field(
        (), max_length=500, description="Packs of mixed sizes with their prices, for jobs that lay the same pack."
    )
    crew: Crew = Field(Crew(), description="Who works, for jobs that say nothing of it.")
    people: tuple[Person, ...] = Field((), max_length=200)
    outputs: tuple[OwnOutput, ...] = Field((), max_length=200, description="Own outputs, in place of the rulebook's.")
    past: tuple[PastHours, ...] = Field((), max_length=10_000, description="Hours that finished jobs took.")
    overhead: Overhead | None = None
    weather: tuple[MonthWeather, ...] = Field((), max_length=12, description="Wet, frosty and hot days by month.")
    price_lists: tuple[PriceListRead, ...] = Field((), max_length=200, description="How price lists are read.")
    terms: Terms = Field(Terms(), description="Terms of jobs that say none.")
    texts: tuple[StandardText, ...] = Field((), max_length=20, description="Standard texts of the papers.")


EMPTY = FirmBook(format="pavewright.firm", version=1)
"""The book of a firm that has written nothing in it yet."""
