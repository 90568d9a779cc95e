"""What comes of options that are offered to the customer."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.cost import TaxShare


class NotOffered(StrEnum):
    """Why an option does not stand before the customer."""

    NO_PLAN = "no_plan"
    NO_PRICE = "no_price"
    STOPS = "stops"


@dataclass(frozen=True, slots=True)
class Offered:
    """What comes of an option that is offered.

    Attributes:
        name: Its name.
        extra_minor: How much more the job then costs, with tax; None where it is not offered. [minor units]
        extra_days: How many working days later it is then done; None where one of the two has no dates. [days]
        refused: Why the customer does not see it; None where he does.
        shares: What is added before tax and in tax, by the way in which it is taxed; together they are ``extra_minor``.
    """

    name: str
    extra_minor: int | None
    extra_days: int | None
    refused: NotOffered | None
    shares: tuple[TaxShare, ...] = ()
