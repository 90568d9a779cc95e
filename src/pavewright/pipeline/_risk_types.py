"""What is known of the risk of a price: how it falls, what drives it, what to order, what one other fact would do."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.cost import LineKey, TaskKind
    from pavewright.findings import FieldChange
    from pavewright.quantities import Gap, ItemKey, SoldAs
    from pavewright.rules import Figure
    from pavewright.survey import AssumedFact


class Cause(StrEnum):
    """Kind of a thing that nobody knows before the work."""

    FORMATION = "formation"
    LAYER = "layer"
    BULKING = "bulking"
    SPOIL_MASS = "spoil_mass"
    CREW = "crew"
    OUTPUT = "output"
    YIELD = "yield"
    BREAKAGE = "breakage"
    TOPSOIL = "topsoil"
    PROVISIONAL = "provisional"
    ASSUMED = "assumed"


@dataclass(frozen=True, slots=True)
class CauseKey:
    """One thing that nobody knows before the work.

    Attributes:
        cause: Its kind.
        area: Place of its area in the job, from 0; None where it is one for all areas.
        layer: Which layer's top is meant, counted from the paving downwards, from 0.
        task: Kind of work, for an output.
        item: The item, for a yield or breakages.
        fact: Place of the fact among those that the price assumes, or of the provisional rate in the terms, from 0.
    """

    cause: Cause
    area: int | None = None
    layer: int = 0
    task: TaskKind | None = None
    item: ItemKey | None = None
    fact: int = 0


@dataclass(frozen=True, slots=True)
class Driver:
    """What one cause does to the price.

    Attributes:
        key: The cause.
        words: What it is, in words.
        first: Share of the variance that it has by itself. [-]
        total: Share with all that it does together with others. [-]
        error: Standard error of the share by itself. [-]
        low_minor: What it alone takes off the price or adds, where it turns out as in the cheapest tenth of cases.
        high_minor: The same where it turns out as in the dearest tenth.
    """

    key: CauseKey
    words: str
    first: float
    total: float
    error: float
    low_minor: int
    high_minor: int


@dataclass(frozen=True, slots=True)
class PriceAt:
    """A price that is not exceeded with a chance.

    Attributes:
        chance: The chance. [-]
        minor: Price with tax. [minor units]
        error_minor: Its standard error. [minor units]
    """

    chance: float
    minor: int
    error_minor: int


@dataclass(frozen=True, slots=True)
class OrderStep:
    """One size of an order.

    Attributes:
        ordered: Whole packs.
        short: Chance that it runs short. [-]
        mean_minor: What it costs in the mean, running short included; None where that has no price.
        chances: The chances of having enough for which it is the smallest order: 0.5, 0.8, 0.9; empty for others. [-]
    """

    ordered: int
    short: float
    mean_minor: int | None
    chances: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class OrderChance:
    """How much to order of one item.

    Attributes:
        key: The item.
        description: In words.
        sold_as: In what it is ordered.
        planned: What the plan orders.
        step_minor: What one more costs.
        again_minor: What running short costs once: a second delivery and what the crew loses; None where not known.
        steps: Orders of interest, small to large.
        cheapest: The order that costs least in the mean; None where running short has no price.
    """

    key: ItemKey
    description: str
    sold_as: SoldAs
    planned: int
    step_minor: int
    again_minor: int | None
    steps: tuple[OrderStep, ...]
    cheapest: int | None

    @property
    def order_unit(self) -> str:
        """What is ordered, for a column apart from its number."""
        return self.sold_as.column

    @property
    def order_units(self) -> str:
        """What is ordered, as several are called ("bags of 25 kg")."""
        return self.sold_as.several

    @property
    def planned_words(self) -> str:
        """What the plan orders, with its number ("2 bags of 25 kg")."""
        return self.sold_as.counted(self.planned)


class FactKind(StrEnum):
    """Which fact of the job is taken to be another one."""

    ACCESS = "access"
    CARRY = "carry"
    MACHINE_DIG = "machine_dig"
    PEOPLE = "people"
    PACE = "pace"


@dataclass(frozen=True, slots=True)
class FactChange:
    """What the whole job would cost and take if one fact were another.

    Attributes:
        kind: Which fact.
        change: The field of the job document and what it is taken to be.
        was: What the job says; None where it does not. [unit of the field]
        extra_minor: How much more the job costs with tax, negative for less.
        extra_days: How many working days later it is done, negative for earlier; None where there are no dates.
        words: In a sentence.
    """

    kind: FactKind
    change: FieldChange
    was: float | None
    extra_minor: int
    extra_days: int | None
    words: str


@dataclass(frozen=True)
class Risk:
    """What is known of the risk of a price.

    Attributes:
        draws: Draws in each replicate.
        replicates: How many replicates, each scrambled anew; their differences give the errors.
        seed: Seed of the first.
        likely_minor: The price of the plan, with tax.
        mean_minor: Price with tax in the mean, if it were made from what the job turns out to cost.
        sd_minor: Its standard deviation.
        quantiles: The same price at chances of 10, 50, 80 and 90 per cent.
        break_even: Price with tax that just covers cost and overhead, at each chance from 1 to 99 per cent; empty where
            the chance of losing is not known.
        dearer: Chance that the job turns out to cost more than the likely values say. [-]
        losing: Chance that cost and overhead are more than the price of the plan before tax, at least, where something
            has no price; None where any labour, overhead, margin or tax is not in the price. [-]
        losing_error: Its standard error; None with it. [-]
        drivers: What moves the price, largest share first.
        orders: How much to order of each item that comes in packs.
        facts: What one other fact would do.
        assumed: Assumed facts that are drawn between their ends.
        not_drawn: Assumed facts that have no ends: the range leaves them out.
        wholly_fixed: Priced lines that are taken as certain.
        unmoved: Priced lines that cost the same in every case that was drawn.
        gaps: What is not in the price, and so not in its range.
        figures: Figures of the rulebook that say how far things are off.
    """

    draws: int
    replicates: int
    seed: int
    likely_minor: int
    mean_minor: int
    sd_minor: int
    quantiles: tuple[PriceAt, ...]
    break_even: tuple[int, ...]
    dearer: float
    losing: float | None
    losing_error: float | None
    drivers: tuple[Driver, ...]
    orders: tuple[OrderChance, ...]
    facts: tuple[FactChange, ...]
    assumed: tuple[AssumedFact, ...]
    not_drawn: tuple[AssumedFact, ...]
    wholly_fixed: tuple[LineKey, ...]
    unmoved: tuple[LineKey, ...]
    gaps: tuple[Gap, ...]
    figures: tuple[Figure, ...]
