"""The record of a handover."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated

from pydantic import Field, StringConstraints

from pavewright.job._base import Name, NonNegativeLength, Part, Text

Line = Annotated[Text, StringConstraints(max_length=200)]
"""One line of free words."""
Count = Annotated[int, Field(ge=0, le=100_000)]
"""How many there are."""


class DeliveredBatch(Part):
    """What the label of a pack or bag says: which batch was delivered, and where it was laid."""

    unit: Name | None = Field(
        None, description="Name of the paving unit; left out for other goods, such as joint filler or kerbs."
    )
    product: Line = Field("", description="What the label says that it is.")
    batch: Line = Field("", description="Batch as the label has it; empty where nobody read it.")
    area: Name | None = Field(None, description="Area where it was laid; left out where nobody noted that.")
    delivered_on: dt.date | None = Field(None, strict=False, description="Day of the delivery.")
    ticket: Line = Field("", description="Number of the delivery ticket.")


class BuriedKind(StrEnum):
    """What lies buried."""

    DRAIN = "drain"
    SERVICE = "service"
    SOAKAWAY = "soakaway"
    EDGE = "edge"
    OTHER = "other"


class BuriedReading(Part):
    """How deep something was found to lie before it was covered."""

    name: Name = Field(description="What and where: the pipe at the gully, the haunch at the gate.")
    kind: BuriedKind = Field(BuriedKind.DRAIN, description="What it is.")
    depth_mm: NonNegativeLength | None = Field(
        None, description="From the finished surface down to its top; left out where it was seen and not read. [mm]"
    )
    measured_on: dt.date | None = Field(None, strict=False, description="Day on which it was measured.")
    note: Text = ""


class CoverKeys(Part):
    """Keys with which a cover is lifted."""

    cover: Name = Field(description="Name of the cover.")
    count: Count | None = Field(None, description="How many were handed over; left out where nobody counted them.")
    kept_at: Line = Field("", description="Where they hang, or who has them.")


class SpareUnits(Part):
    """Units that were counted as left over and stay with the customer."""

    unit: Name = Field(description="Name of the paving unit.")
    count: Count = Field(description="How many were counted.")
    kept_at: Line = Field("", description="Where they are stacked.")


class HandedOver(Part):
    """What is known of the handover. What is left out is not known."""

    completed_on: dt.date | None = Field(
        None, strict=False, description="Day on which the last joint was filled; dates of care count from it."
    )
    handed_on: dt.date | None = Field(None, strict=False, description="Day of the handover.")
    handed_by: Line = Field("", description="Who handed it over.")
    handed_to: Line = Field("", description="Who took it over.")
    warranty_until: dt.date | None = Field(
        None,
        strict=False,
        description="Last day of the firm's warranty; where it is left out it follows from the months of the terms, if any.",
    )
    batches: tuple[DeliveredBatch, ...] = Field((), max_length=200, description="Batches as delivered.")
    buried: tuple[BuriedReading, ...] = Field(
        (), max_length=200, description="What was measured before it was covered."
    )
    cover_keys: tuple[CoverKeys, ...] = Field((), max_length=100, description="Keys of covers.")
    spares: tuple[SpareUnits, ...] = Field((), max_length=100, description="Units left over, as counted.")
    notes: Text = Field("", description="What else was said at the handover.")
