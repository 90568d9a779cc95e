"""Bills, credit notes and payments, and sums of the quotation that are settled."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Part, SignedMinor, Text
from pavewright.job.agreed._taxed_sum import TaxedSum

Number = Annotated[int, Field(ge=1, le=9999)]


class BillKind(StrEnum):
    """What is billed."""

    STAGE = "stage"
    VARIATION = "variation"
    FINAL = "final"
    RETENTION = "retention"
    CREDIT = "credit"


class Bill(Part):
    """A bill or a credit note as it was sent: what is wrong with it is put right by a credit note, never in it."""

    number: Number = Field(description="Its number among all bills and credit notes of the job, from 1 without a gap.")
    kind: BillKind = Field(description="What is billed.")
    on: dt.date = Field(strict=False, description="Date of the bill, for the tax as well.")
    due_on: dt.date | None = Field(
        None, strict=False, description="Day by which it is to be paid; at once where none is."
    )
    stage: Annotated[int, Field(ge=1, le=12)] | None = Field(
        None, description="Which of the payments that were agreed it asks for, from 1."
    )
    variation: Number | None = Field(None, description="Number of the variation that it bills.")
    credits: Number | None = Field(None, description="Number of the bill that a credit note credits.")
    words: Text = Field("", description="What it is for; of a credit note, why.")
    sums: tuple[TaxedSum, ...] = Field(
        (),
        max_length=20,
        description="What is billed or credited, by the way in which it is taxed; not less than zero.",
    )
    held_minor: SignedMinor = Field(
        0, description="What of it the customer holds back; of a credit note, what is no longer held. [minor units]"
    )
    freed_minor: SignedMinor = Field(0, description="What was held back before and is asked for with it. [minor units]")


class Received(Part):
    """Money that came in, or that was paid back."""

    on: dt.date = Field(strict=False, description="Day on which it came.")
    amount_minor: SignedMinor = Field(description="How much; less than zero where it was paid back. [minor units]")
    bill: Number | None = Field(None, description="Number of the bill that it pays, where that was said.")
    note: Text = Field("", description="How it came, or its reference.")


class Settled(Part):
    """How a sum of the quotation was settled."""

    number: Annotated[int, Field(ge=1, le=200)] = Field(description="Number of the sum on the quotation.")
    on: dt.date = Field(strict=False, description="Day on which it was settled.")
    amount: Annotated[float, Field(ge=0.0, le=100_000.0)] | None = Field(
        None, description="How much was found, where a rate settles it. [unit]"
    )
    cost_minor: SignedMinor | None = Field(
        None, description="What the goods cost, before tax, where their cost settles it. [minor units]"
    )
    note: Text = Field("", description="How it was measured, or which receipt.")
