"""What a job was quoted with: prices, people and outputs that it keeps."""

from __future__ import annotations

import datetime as dt
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Minor, Name, Part
from pavewright.job._buying_terms import BuyingTerms
from pavewright.job._crew import Crew
from pavewright.job._rates import Rates
from pavewright.job._terms import Terms


class QuotedUnit(BuyingTerms):
    """The price of a paving unit as it was quoted, and the terms on which it is bought."""

    unit: Name = Field(description="Name of the paving unit.")
    pack_price_minor: Minor | None = Field(
        None, description="Price of one pack as it was quoted; left out where none was known. [minor units]"
    )


class QuotedPack(BuyingTerms):
    """The price of a mixed pack as it was quoted, and the terms on which it is bought."""

    units_in_pack: tuple[Name, ...] = Field(max_length=9, description="Names of the paving units in it.")
    counts: tuple[Annotated[int, Field(ge=1, le=1000)], ...] = Field(
        max_length=9, description="How many of each one pack holds."
    )
    pack_price_minor: Minor | None = Field(
        None, description="Price of one pack as it was quoted; left out where none was known. [minor units]"
    )


class Quoted(Part):
    """The prices, the people and the outputs with which a job was quoted: it is planned with them, whatever changes."""

    on: dt.date = Field(strict=False, description="Day of the quotation.")
    revision: Annotated[int, Field(ge=0, le=9999)] = Field(description="Revision of the job that was quoted.")
    rates: Rates = Field(description="Prices and percentages that it was quoted with.")
    crew: Crew = Field(description="People and outputs that it was quoted with.")
    terms: Terms = Field(Terms(), description="Terms that it was quoted on.")
    unit_prices: tuple[QuotedUnit, ...] = Field((), max_length=100, description="Prices of the paving units.")
    pack_prices: tuple[QuotedPack, ...] = Field((), max_length=100, description="Prices of the mixed packs.")
