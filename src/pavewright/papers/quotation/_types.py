"""The facts of a quotation: typed values from which both the sheet and the page on a phone are made."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.firm import TextKey
    from pavewright.job import PaymentEvent
    from pavewright.papers._customer_money import CustomerMoney
    from pavewright.papers.cancelling import Cancelling


@dataclass(frozen=True, slots=True)
class QuotedLayer:
    """A layer of what is built.

    Attributes:
        name: What it is.
        thickness_mm: How thick it is; zero for a sheet. [mm]
    """

    name: str
    thickness_mm: float


@dataclass(frozen=True, slots=True)
class QuotedArea:
    """An area as it is built.

    Attributes:
        name: Its name.
        area_m2: How large it is. [m²]
        falls: How it falls, in words.
        layers: What it is built of, from the top down.
        doors: For each door that it meets, the step down to the paving in words.
    """

    name: str
    area_m2: float
    falls: str
    layers: tuple[QuotedLayer, ...]
    doors: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class QuotedOption:
    """An option that the customer may tick, as a difference to the price.

    Attributes:
        id: Key of it for forms: "option-1" is the first of the terms. It holds for this revision of the job.
        name: Its name.
        extra_minor: How much more is to pay with it, tax in it; negative where it is less. [minor units]
        extra_days: How many working days later the work then ends; None where that is not known. [days]
    """

    id: str
    name: str
    extra_minor: int
    extra_days: int | None


@dataclass(frozen=True, slots=True)
class QuotedGoods:
    """Goods that the customer still chooses.

    Attributes:
        name: What they are.
        supply_minor: What is counted for supplying them, before tax. [minor units]
        price_minor: What stands in the price for them, before tax. [minor units]
        settles_minor: What the price before tax becomes more or less by, for each ``of_minor`` of cost. [minor units]
        of_minor: By how much of what they cost they are settled. [minor units]
    """

    name: str
    supply_minor: int
    price_minor: int
    settles_minor: int
    of_minor: int


@dataclass(frozen=True, slots=True)
class QuotedRate:
    """Work that is settled by what is found, with its rate.

    Attributes:
        what: What it is.
        amount: How much of it stands in the price; zero where only the rate is agreed. [in ``unit``]
        unit: What is counted.
        rate_minor: Price of one, before tax. [minor units]
    """

    what: str
    amount: float
    unit: str
    rate_minor: int


@dataclass(frozen=True, slots=True)
class QuotedProvisional:
    """What of the price is provisional: settled by what is found, at these rates.

    Attributes:
        rates: Work with its rates.
        low_minor: Least that it comes to, with tax. [minor units]
        likely_minor: What of it stands in the price, with tax. [minor units]
        high_minor: Most that it comes to, with tax. [minor units]
    """

    rates: tuple[QuotedRate, ...]
    low_minor: int
    likely_minor: int
    high_minor: int


@dataclass(frozen=True, slots=True)
class QuotedPayment:
    """A payment by stages.

    Attributes:
        event: When it falls due.
        words: The same in words: what everybody can see then.
        on: Day by the programme; None where it is not known.
        gross_minor: Its part of the price with tax. [minor units]
        held_minor: What is held back of it. [minor units]
        freed_minor: What was held back before and is freed with it. [minor units]
        due_minor: What is to pay. [minor units]
    """

    event: PaymentEvent
    words: str
    on: dt.date | None
    gross_minor: int
    held_minor: int
    freed_minor: int
    due_minor: int


@dataclass(frozen=True, slots=True)
class QuotedWindow:
    """When the work is done, by the programme.

    Attributes:
        start: First day.
        finish: Last day of work.
        likely_finish: By when it ends in most weather; None where no weather is known.
        likely_percent: In how many of a hundred cases it has ended by then; None where no weather is known. [%]
        foot_ready: When it may be walked on.
        car_ready: When a car may stand on it; None where no car will.
        dig_known: Whether the digging is in these dates.
    """

    start: dt.date
    finish: dt.date
    likely_finish: dt.date | None
    likely_percent: float | None
    foot_ready: dt.date
    car_ready: dt.date | None
    dig_known: bool


@dataclass(frozen=True, slots=True)
class QuotedJob:
    """Who is offered what, and when.

    Attributes:
        job: Number of the job.
        title: What it is.
        client: Who gets it.
        address: Where the work is.
        contractor: Who quotes.
        invented: Whether names and prices are invented.
        on: Day of the quotation.
        revision: Revision of the job that is quoted.
        currency: Money that it is in.
    """

    job: str
    title: str
    client: str
    address: str
    contractor: str
    invented: bool
    on: dt.date
    revision: int
    currency: str


@dataclass(frozen=True, slots=True)
class QuotationFacts:
    """All that a quotation says, and nothing of what the work costs the contractor.

    Amounts of money are whole minor units of the currency of the job; as they are written they stand in ``money``.

    Attributes:
        who: Who is offered what, and when.
        not_ready: Why it must not be sent yet; empty where it may be.
        net_minor: Price before tax. [minor units]
        tax_minor: Tax; None where nobody knows it, and then it is not in the total. [minor units]
        total_minor: What is to pay. [minor units]
        tax: What the tax is called, with its rates.
        money: The same and all that goes with it as it is written.
        included: What is done, a sentence for each thing.
        not_included: What is not in the price.
        assumed: What could not be seen or was not asked, and is open.
        areas: Areas as they are built.
        options: Options to tick.
        goods: Goods that the customer still chooses.
        provisional: Work that is settled by what is found; None where there is none.
        payments: Payments by stages; none where they are not stated.
        holds_until: Last day on which the price holds; None where that is not stated.
        window: When the work is done.
        when: The same in sentences.
        cautions: What the household takes care of while the work goes on.
        tolerances: Limits that the work is held to, never what happens to be planned.
        warranty_months: Months in which faults are put right; None where that is not stated. [months]
        warranty: The same in sentences.
        care: How to look after it, as far as it is known now.
        changes: How changes are agreed.
        complaints: How to complain.
        cancelling: The right to cancel.
        right_to_cancel: The same in sentences.
        accepting: What the customer confirms when signing.
        own_words: The firm's own words, by the part of the quotation that they belong to.
    """

    who: QuotedJob
    not_ready: str
    net_minor: int
    tax_minor: int | None
    total_minor: int
    tax: str
    money: CustomerMoney
    included: tuple[str, ...]
    not_included: tuple[str, ...]
    assumed: tuple[str, ...]
    areas: tuple[QuotedArea, ...]
    options: tuple[QuotedOption, ...]
    goods: tuple[QuotedGoods, ...]
    provisional: QuotedProvisional | None
    payments: tuple[QuotedPayment, ...]
    holds_until: dt.date | None
    window: QuotedWindow
    when: tuple[str, ...]
    cautions: tuple[str, ...]
    tolerances: tuple[str, ...]
    warranty_months: int | None
    warranty: tuple[str, ...]
    care: tuple[str, ...]
    changes: tuple[str, ...]
    complaints: tuple[str, ...]
    cancelling: Cancelling
    right_to_cancel: tuple[str, ...]
    accepting: tuple[str, ...]
    own_words: tuple[tuple[TextKey, str], ...]

    def option(self, key: str) -> QuotedOption:
        """Return the option with this id.

        Raises:
            LookupError: there is none.
        """
        for option in self.options:
            if option.id == key:
                return option
        message = f"no option {key}"
        raise LookupError(message)

    def total_with(self, chosen: tuple[str, ...]) -> int | None:
        """Return what is to pay with the options of these ids; None for several, whose sum is not their price.

        Args:
            chosen: Ids of options. [minor units]
        """
        if len(chosen) > 1:
            return None
        return self.total_minor + sum(self.option(key).extra_minor for key in chosen)
