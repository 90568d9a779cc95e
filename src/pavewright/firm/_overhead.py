"""Overhead made from what the firm costs in a year, and what carries it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.firm._book import FirmBook


@dataclass(frozen=True, slots=True)
class OverheadRate:
    """What of the overhead a job carries: for each hour of labour, or as a part of its cost; never both.

    Attributes:
        minor_per_hour: For each hour of labour. [minor units an hour]
        percent: As a part of the cost. [%]
        working: The sum behind it.
    """

    minor_per_hour: int | None
    percent: float | None
    working: Working


def overhead_per_hour(yearly: float, hours_sold: float) -> float:
    """Return what overhead an hour of labour has to bring in.

    Args:
        yearly: What the firm costs in a year whatever it builds. [any money]
        hours_sold: Hours of labour sold in a year, all people together. [h]

    Source: definition, yearly costs / hours sold

    >>> overhead_per_hour(45_000.0, 3_000.0)
    15.0
    """
    return yearly / hours_sold


def overhead_on_cost(yearly: float, direct: float) -> float:
    """Return overhead as a part of the direct cost. [%].

    Args:
        yearly: What the firm costs in a year whatever it builds. [any money]
        direct: Direct cost of all jobs of a year. [any money]

    Source: definition, yearly costs / direct cost

    >>> overhead_on_cost(300_000.0, 2_000_000.0)
    15.0
    """
    return yearly / direct * units.ALL_PERCENT


def overhead_rate(book: FirmBook) -> OverheadRate | None:
    """Return the overhead that follows from the yearly costs; None where none are written, or nothing carries them."""
    over = book.overhead
    if over is None or not over.yearly:
        return None
    yearly = sum(each.minor for each in over.yearly)
    listed = " + ".join(units.minor_to_text(each.minor, book.currency) for each in over.yearly)
    note = "; ".join(f"{each.name} {units.minor_to_text(each.minor, book.currency)}" for each in over.yearly)
    if over.hours_sold is not None:
        each = overhead_per_hour(yearly, over.hours_sold)
        said = f"({listed}) / {over.hours_sold:g} h sold in a year"
        whole = math.floor(each + 0.5)
        return OverheadRate(whole, None, Working(said, float(whole), "minor units/h", (), note))
    if over.direct_minor:
        percent = overhead_on_cost(yearly, over.direct_minor)
        direct = units.minor_to_text(over.direct_minor, book.currency)
        return OverheadRate(None, percent, Working(f"({listed}) / {direct}", percent, "%", (), note))
    return None
