"""What the cost room hands on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.cost._parts import RangeKind
from pavewright.writing import counted_text

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.buildup import LayerKey
    from pavewright.cost._keys import HireKey, LineGroup, LineKey, TaskKey
    from pavewright.cost._parts import Order, StaleBy, Taxed, TaxShare
    from pavewright.findings import Finding
    from pavewright.job import PlantKind
    from pavewright.quantities import Gap, ScopeKey, SoldAs
    from pavewright.rules import Figure
    from pavewright.sums import Working
    from pavewright.survey import AssumedFact


@dataclass(frozen=True, slots=True)
class WorkLayer:
    """A layer of stone that goes in and is compacted by itself.

    Attributes:
        course: Which course of the build-up it belongs to.
        number: Which layer of that course, from 1 at its bottom.
        of: How many layers that course has.
        thickness_mm: Its thickness when compacted. [mm]
        share: Its part of the hours of the task, by volume. [-]
    """

    course: LayerKey
    number: int
    of: int
    thickness_mm: float
    share: float


@dataclass(frozen=True, slots=True)
class MeasuredWork:
    """What the hours of a task are worked out from.

    Attributes:
        amount: How much there is to do. [unit of the output]
        output: Person-hours for one unit of it, of the rulebook or the firm's own.
        times: How many times the work for which the output holds, as for a longer way. [-]
    """

    amount: float
    output: Figure
    times: float


@dataclass(frozen=True, slots=True)
class LabourTask:
    """Work to be done, in person-hours, before a crew and a calendar make days of it.

    Attributes:
        key: What it is, and where.
        description: In words.
        person_hours: Likely. [h]
        low_hours: Lower end. [h]
        high_hours: Upper end. [h]
        working: The sum behind it: quantity times output, with the output's source.
        plant: Plant that it needs.
        layers: The layers in which it is done, from the bottom; none where it is done in one.
        measured: What its hours are worked out from.
    """

    key: TaskKey
    description: str
    person_hours: float
    low_hours: float
    high_hours: float
    working: Working
    plant: tuple[PlantKind, ...] = ()
    layers: tuple[WorkLayer, ...] = ()
    measured: MeasuredWork | None = None


@dataclass(frozen=True, slots=True)
class Hire:
    """A machine or tool on hire: for how many days, the same in the programme and in the price.

    Attributes:
        key: Which of them.
        days: Days that are paid for.
        wanted_days: Days on which work needs it, by the programme.
        entered: Whether the days paid for are entered in the job document.
        working: The sum behind the days.
        on: The day on which it comes on hire; None of the firm's own, and where no dates are known.
        off: The day at the end of which the hire is called off: the last on which work needs it.
        paid_until: The last working day that is paid, with the shortest hire and the days after the call.
        order_by: The last day on which to order it; None where its lead time is not known.
        held_days: Working days from the one to the other: it runs on through days on which nothing needs it.
    """

    key: HireKey
    days: float
    wanted_days: int
    entered: bool
    working: Working
    on: dt.date | None = None
    off: dt.date | None = None
    paid_until: dt.date | None = None
    order_by: dt.date | None = None
    held_days: int = 0


@dataclass(frozen=True, slots=True)
class CostLine:
    """One priced line.

    Attributes:
        key: Key of the item, task or hire.
        group: What is paid for.
        description: In words.
        quantity: How much. [in ``unit``]
        unit: Of what.
        rate_minor: Price of one, minor units.
        amount_minor: Likely amount, minor units.
        low_minor: Lower end.
        high_minor: Upper end.
        working: The sum behind it.
        stale: That its price is too old or has no date; None where it is neither, or nobody asked.
        sold_as: In what goods are bought; None for everything that is no order of goods.
    """

    key: LineKey
    group: LineGroup
    description: str
    quantity: float
    unit: str
    rate_minor: int
    amount_minor: int
    low_minor: int
    high_minor: int
    working: Working
    stale: StaleBy | None = None
    sold_as: SoldAs | None = None

    @property
    def quantity_words(self) -> str:
        """How much, with its unit ("2 packs of 850 kg", "1 day")."""
        if self.sold_as is not None:
            return self.sold_as.counted(self.quantity)
        return counted_text(self.quantity, self.unit)


@dataclass(frozen=True, slots=True)
class ScopeLine:
    """One thing that is done: what of it is in the price, and what is not.

    Attributes:
        key: What it is.
        lines: Priced lines that serve it, alone or with others.
        gaps: What it takes beside them and is not in the price.
    """

    key: ScopeKey
    lines: tuple[LineKey, ...]
    gaps: tuple[Gap, ...]


@dataclass(frozen=True, slots=True)
class SettlingRate:
    """The rate at which provisional work is settled, for the customer's eyes: overhead and margin are in it.

    Attributes:
        key: Its line; the charge of the terms where nothing of it stands in the price.
        description: In words.
        unit: What is counted.
        amount: How much of it stands in the price. [in ``unit``]
        rate_minor: Price of one, before tax.
        taxed: How it is taxed; None where nobody asked.
    """

    key: LineKey
    description: str
    unit: str
    amount: float
    rate_minor: int
    taxed: Taxed | None = None


@dataclass(frozen=True, slots=True)
class ProvisionalSum:
    """What of the price is provisional, at the rates that settle it and with tax: settled by what is found.

    Attributes:
        low_minor: Lower end.
        likely_minor: What stands in the price.
        high_minor: Upper end.
        rates: The rate that settles each part of it.
        rounding_minor: What the price would be less without it beside that: rounding alone. [minor units]
    """

    low_minor: int
    likely_minor: int
    high_minor: int
    rates: tuple[SettlingRate, ...] = ()
    rounding_minor: int = 0


@dataclass(frozen=True, slots=True)
class PrimeCostSum:
    """Goods that the customer still chooses, as they stand in the price, before tax.

    Attributes:
        name: What they are.
        supply_minor: The sum for supplying them: what they cost in the end takes its place.
        price_minor: What stands in the price for them, attendance, overhead and margin in it.
        of_minor: By how much of what they cost they are settled. [minor units]
        settles_minor: What so much that they cost more or less makes in the price before tax. [minor units]
        taxed: How they are taxed; None where nobody asked.
    """

    name: str
    supply_minor: int
    price_minor: int
    of_minor: int
    settles_minor: int
    taxed: Taxed | None = None


@dataclass(frozen=True, slots=True)
class AssumedShare:
    """What an assumed fact may do to the price, found by planning the job with it at either end.

    Attributes:
        fact: What is assumed.
        low_minor: How much the price with tax may be less, zero or negative; None where that was not found.
        high_minor: How much it may be more, zero or positive; None where that was not found.
    """

    fact: AssumedFact
    low_minor: int | None
    high_minor: int | None


@dataclass(frozen=True)
class Cost:
    """From cost to price, all in whole minor units.

    Attributes:
        labour: The work in person-hours, in the order of the work.
        lines: Priced lines.
        prime_minor: Sum of the lines.
        overhead_minor: Overhead on it.
        margin_minor: Margin, so that margin over net price is the stated percentage.
        net_minor: Price before tax.
        tax_minor: Tax.
        total_minor: Price with tax.
        low_minor: Price with tax if every range turns out at its lower end, what is assumed among them.
        high_minor: Price with tax if every range turns out at its upper end, what is assumed among them.
        reasons: What moves the price, largest first: words and the difference in minor units either way.
        gaps: What the job takes and is not in the price: without a price, not measured or not known.
        scope: What is done, made from the priced lines and the gaps.
        workings: The sums from prime cost to total.
        findings: What was noticed.
        provisional: What of the price is provisional; None where nothing is.
        assumed: What each assumed fact may do to it; it stands in the range where it was found.
        tax: The price before tax by the way in which it is taxed.
        prime_costs: Goods that the customer still chooses.
        markup_percent: What the margin is as a part of cost and overhead; None where there is no cost. [%]
        margin_percent: What it is as a part of the price before tax; None where there is no price. [%]
        orders: What is bought, supplier by supplier.
        range_kind: What its range says: both ends, two lower ends, or nothing.
        hires: Machines on hire, with the days that stand in the price.
    """

    labour: tuple[LabourTask, ...]
    lines: tuple[CostLine, ...]
    prime_minor: int
    overhead_minor: int
    margin_minor: int
    net_minor: int
    tax_minor: int
    total_minor: int
    low_minor: int
    high_minor: int
    reasons: tuple[tuple[str, int], ...]
    gaps: tuple[Gap, ...]
    scope: tuple[ScopeLine, ...]
    workings: tuple[Working, ...]
    findings: tuple[Finding, ...]
    provisional: ProvisionalSum | None = None
    assumed: tuple[AssumedShare, ...] = ()
    tax: tuple[TaxShare, ...] = ()
    prime_costs: tuple[PrimeCostSum, ...] = ()
    markup_percent: float | None = None
    margin_percent: float | None = None
    orders: tuple[Order, ...] = ()
    range_kind: RangeKind = RangeKind.NOT_KNOWN
    hires: tuple[Hire, ...] = ()
