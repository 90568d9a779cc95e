"""On which terms a job is sold: payments by stages, money held back, days to pay, and sums that are settled later."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING, Annotated

from pydantic import Field

from pavewright import units
from pavewright.job._base import Minor, Name, Part, Percent, Text
from pavewright.job._faults import Fault
from pavewright.job._offered import OfferedOption, option_faults

if TYPE_CHECKING:
    from collections.abc import Iterator


_NEAR = 1e-6

Days = Annotated[int, Field(ge=0, le=366)]
"""Days on the calendar. [days]"""


class PaymentEvent(StrEnum):
    """What everybody can see, so that nobody argues whether a payment is due."""

    DEPOSIT = "deposit"
    MATERIALS_ON_SITE = "materials_on_site"
    BASE_IN = "base_in"
    LAID = "laid"
    COMPLETE = "complete"
    SNAG_FREE = "snag_free"


class StagePayment(Part):
    """A payment that falls due when something can be seen: a part of the price, a sum, or the rest of it."""

    event: PaymentEvent = Field(description="When it falls due: what can be seen then.")
    percent: Percent | None = Field(None, description="Part of the price with tax. [%]")
    amount_minor: Minor | None = Field(
        None,
        description="A sum with tax, in place of a part; one stage without either takes the rest. [minor units]",
    )


class PrimeCostItem(Part):
    """A sum for goods that the customer still chooses; what they cost in the end takes its place."""

    name: Name
    amount_minor: Minor = Field(description="What stands in the cost for supplying them, before tax. [minor units]")
    attendance_percent: Percent = Field(
        0.0, description="For ordering, unloading and looking after them, a part of that sum. [%]"
    )
    attendance_minor: Minor = Field(0, description="The same as a fixed sum. [minor units]")


class ProvisionalUnit(StrEnum):
    """By what provisional work is measured when it is settled."""

    M3 = "m3"
    M2 = "m2"
    M = "m"
    EACH = "each"
    HOUR = "hour"
    LOAD = "load"
    TONNE = "tonne"

    @property
    def words(self) -> str:
        """How it is written."""
        return _WRITTEN[self]


_WRITTEN = {
    ProvisionalUnit.M3: "m³",
    ProvisionalUnit.M2: "m²",
    ProvisionalUnit.M: "m",
    ProvisionalUnit.EACH: "each",
    ProvisionalUnit.HOUR: "h",
    ProvisionalUnit.LOAD: "load",
    ProvisionalUnit.TONNE: "t",
}


class ProvisionalRate(Part):
    """Work that nobody can measure yet, with the rate at which it will be settled: a soft spot, rock, daywork."""

    name: Name
    unit: ProvisionalUnit = Field(description="What is counted when it is settled.")
    rate_minor: Minor = Field(
        description="Cost of one, as all rates of the job: overhead, profit and tax come on it. [minor units]"
    )
    amount: Annotated[float, Field(ge=0.0, le=100_000.0)] = Field(
        0.0, description="How much of it stands in the price; zero shows the rate alone. [unit]"
    )
    low_amount: Annotated[float, Field(ge=0.0, le=100_000.0)] | None = Field(
        None, description="Least that may be found; what stands in the price where it is left out. [unit]"
    )
    high_amount: Annotated[float, Field(ge=0.0, le=100_000.0)] | None = Field(
        None, description="Most that may be found; what stands in the price where it is left out. [unit]"
    )


class Terms(Part):
    """On which terms the job is sold and bought. What is left out is not known."""

    stages: tuple[StagePayment, ...] = Field((), max_length=12, description="Payments in the order of the work.")
    retention_percent: Percent | None = Field(
        None, description="Part of each payment that the customer holds back; none where it is left out. [%]"
    )
    retention_freed_percent: Percent = Field(
        50.0,
        description="Part of what is held back that is freed when the work is complete; the rest when snag free. [%]",
    )
    defects_days: Days | None = Field(
        None,
        description="Days from completion until it is held to be snag free; two weeks where it is left out. [days]",
    )
    days_to_pay: Days | None = Field(None, description="Days that the customer has to pay; none are at once. [days]")
    supplier_days: Days | None = Field(
        None, description="Days after a delivery on which suppliers and hire firms are paid; none are at once. [days]"
    )
    deposit_days: Days | None = Field(
        None, description="Days before the start on which a deposit falls due; a week where it is left out. [days]"
    )
    reclaims_tax: bool | None = Field(
        None,
        description="Whether the firm reclaims the tax that suppliers charge; where it is left out that tax is in no curve of "
        "cash.",
    )
    purchase_tax_percent: Percent | None = Field(
        None,
        description="Tax that suppliers put on the prices as entered, zero where they are entered with it; the standard rate "
        "of the place where it is left out. [%]",
    )
    valid_days: Days | None = Field(
        None,
        description="Days from the date of the job, or of its quotation, for which the price holds; not stated where it is "
        "left out. [days]",
    )
    warranty_months: Annotated[int, Field(ge=0, le=600)] | None = Field(
        None,
        description="Months from completion in which faults of the work are put right free of charge; not stated where it is "
        "left out. [months]",
    )
    complaint_to: Text = Field("", description="Whom a complaint goes to: a name, a telephone number, an address.")
    complaint_days: Days | None = Field(
        None, description="Days in which a complaint is answered; not stated where it is left out. [days]"
    )
    prime_costs: tuple[PrimeCostItem, ...] = Field(
        (), max_length=50, description="Sums for goods that the customer still chooses."
    )
    provisional: tuple[ProvisionalRate, ...] = Field(
        (), max_length=50, description="Work that is settled by what is found, each with its rate."
    )
    options: tuple[OfferedOption, ...] = Field(
        (), max_length=6, description="Options for the customer, each priced as a difference to the job as it stands."
    )


def term_faults(terms: Terms) -> Iterator[Fault]:
    """Give stages that make no whole price, and names that are said twice."""
    yield from _stage_faults(terms.stages)
    yield from option_faults(terms.options)
    for number, rate in enumerate(terms.provisional):
        low = rate.amount if rate.low_amount is None else rate.low_amount
        high = rate.amount if rate.high_amount is None else rate.high_amount
        if not low <= rate.amount <= high:
            words = "What stands in the price lies outside the range of what may be found: correct one of them."
            yield Fault(f"terms.provisional.{number}.amount", words)
    for field, names in (
        ("prime_costs", [each.name for each in terms.prime_costs]),
        ("provisional", [each.name for each in terms.provisional]),
        ("options", [each.name for each in terms.options]),
    ):
        for number, name in enumerate(names):
            if name in names[:number]:
                yield Fault(f"terms.{field}.{number}.name", f"{name} stands here twice: give each a name of its own.")


def _stage_faults(stages: tuple[StagePayment, ...]) -> Iterator[Fault]:
    order = list(PaymentEvent)
    resting = []
    for number, stage in enumerate(stages):
        path = f"terms.stages.{number}"
        if number and order.index(stage.event) < order.index(stages[number - 1].event):
            yield Fault(
                f"{path}.event", "This payment comes before the one above it: put them in the order of the work."
            )
        if stage.percent is not None and stage.amount_minor is not None:
            yield Fault(path, "A payment is a part of the price or a sum: give one of the two.")
        if stage.percent is None and stage.amount_minor is None:
            resting.append(path)
    for path in resting[1:]:
        yield Fault(path, "Two payments take the rest: say how much one of them is.")
    if not stages:
        return
    shares = sum(stage.percent or 0.0 for stage in stages)
    with_sums = any(stage.amount_minor is not None for stage in stages)
    if shares > units.ALL_PERCENT + _NEAR:
        yield Fault("terms.stages", f"The payments add up to {shares:g} % of the price: make them 100 %.")
    elif not resting and (with_sums or shares < units.ALL_PERCENT - _NEAR):
        words = "The payments do not add up to the whole price: leave one of them without a part or a sum, it takes the rest."
        yield Fault("terms.stages", words)
