"""On which terms something is bought: from whom, at a price of which day, how it is delivered."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Minor, Part, Text


class SupplierKind(StrEnum):
    """Who sells, hires out or takes away."""

    MERCHANT = "merchant"
    QUARRY = "quarry"
    MAKER = "maker"
    HIRE = "hire"
    WASTE = "waste"
    CARRIER = "carrier"
    LABOUR = "labour"
    OTHER = "other"


class BuyingTerms(Part):
    """Terms on which something is bought. What is left out is not known."""

    supplier: Text = Field("", description="Who supplies it.")
    supplier_code: Text = Field("", description="What the supplier calls it in short, as on the price list.")
    supplier_kind: SupplierKind | None = Field(None, description="What kind of supplier that is.")
    priced_on: dt.date | None = Field(
        None, strict=False, description="Day on which the price was given; left out where it is not known."
    )
    min_packs: Annotated[int, Field(ge=1, le=100_000)] | None = Field(
        None, description="Fewest packs that the supplier delivers."
    )
    carriage_minor: Minor | None = Field(
        None,
        description="Carriage of one delivery, zero where it is free; left out where it is not known. [minor units]",
    )
    lead_days: Annotated[int, Field(ge=0, le=400)] | None = Field(
        None, description="Working days from the order to the delivery."
    )
