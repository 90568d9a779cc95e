"""What the customer accepted: sums, options and terms, frozen as they stood on the paper that he accepted."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Minor, Name, Part, Percent, Sha256, Text
from pavewright.job._rates import TaxRegime, TaxRounding
from pavewright.job._terms import Days, StagePayment
from pavewright.job.agreed._taxed_sum import TaxedSum

Amount = Annotated[float, Field(ge=0.0, le=100_000.0)]


class AcceptedMeans(StrEnum):
    """How the customer accepted."""

    LINK = "link"
    PAPER = "paper"
    MESSAGE = "message"


class AcceptedOption(Part):
    """An option that the customer ticked, at the difference that stood beside it."""

    name: Name = Field(description="Its name in the quotation.")
    sums: tuple[TaxedSum, ...] = Field(
        (), max_length=20, description="What it adds to the quotation, less than zero where it saves."
    )


class SettlingKind(StrEnum):
    """How a sum is settled that stands in the quotation for something not known then."""

    RATE = "rate"
    ACTUAL_COST = "actual_cost"


class SumToSettle(Part):
    """A sum of the quotation that is settled later: by a rate for what is found, or by what goods cost in the end."""

    number: Annotated[int, Field(ge=1, le=200)] = Field(description="Its number on the quotation, from 1.")
    name: Text = Field(description="What it is for, as quoted.")
    kind: SettlingKind = Field(description="By a rate, or by what the goods cost.")
    net_minor: Minor = Field(description="What stands for it in the quotation, before tax. [minor units]")
    unit: Text = Field("", description="What is counted, where a rate settles it.")
    amount: Amount = Field(0.0, description="How much of it stands in the quotation, where a rate settles it. [unit]")
    rate_minor: Minor = Field(0, description="The rate that settles it, before tax. [minor units]")
    supply_minor: Minor = Field(
        0, description="What supplying the goods was taken to cost, where their cost settles it. [minor units]"
    )
    of_minor: Annotated[int, Field(ge=1, le=10_000_000_000)] = Field(
        1, description="By how much of what they cost they are settled. [minor units]"
    )
    settles_minor: Minor = Field(
        0, description="What so much that they cost more or less makes in the price before tax. [minor units]"
    )
    regime: TaxRegime = Field(TaxRegime.STANDARD, description="Under which regime it is taxed.")
    percent: Percent | None = Field(None, description="Rate of that tax. [%]")


class Accepted(Part):
    """What the customer accepted, by whom and when; later prices, books and changes of the job leave it as it is."""

    by: Name = Field(description="Who accepted.")
    at: dt.datetime = Field(strict=False, description="When, with its offset from UTC.")
    means: AcceptedMeans = Field(description="By the private link, on paper or by message.")
    quoted_on: dt.date = Field(strict=False, description="Date of the quotation.")
    revision: Annotated[int, Field(ge=0, le=9999)] = Field(description="Revision of the job that was quoted.")
    stored_revision: Annotated[int, Field(ge=1, le=10_000_000)] | None = Field(
        None, description="Under which number the document that was quoted is kept with the jobs."
    )
    paper_sha256: Sha256 | None = Field(None, description="SHA-256 of the PDF that was accepted.")
    currency: Annotated[str, Field(pattern="^[A-Z]{3}$")] = Field(description="Money of the sums.")
    tax_name: Text = Field("VAT", description="What the tax is called.")
    tax_rounding: TaxRounding = Field(TaxRounding.INVOICE, description="How tax is rounded, as in the quotation.")
    sums: tuple[TaxedSum, ...] = Field(
        min_length=1, max_length=20, description="The quotation without options, by the way in which it is taxed."
    )
    options: tuple[AcceptedOption, ...] = Field((), max_length=7, description="Options that were taken.")
    to_settle: tuple[SumToSettle, ...] = Field((), max_length=200, description="Sums that are settled later.")
    stages: tuple[StagePayment, ...] = Field((), max_length=12, description="Payments in the order of the work.")
    retention_percent: Percent | None = Field(
        None, description="Part of each payment that the customer holds back; none where it is left out. [%]"
    )
    retention_freed_percent: Percent = Field(
        50.0, description="Part of what is held back that is freed when the work is complete. [%]"
    )
    days_to_pay: Days | None = Field(None, description="Days that the customer has to pay; none are at once. [days]")
