"""In which region, and in which measures, something is written: set once by whoever prints."""

from __future__ import annotations

from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator


class Measure(StrEnum):
    """Which measures are shown."""

    METRIC = "metric"
    IMPERIAL = "imperial"


_REGIONS = {"england": "GB", "wales": "GB", "scotland": "GB", "ireland": "IE", "usa": "US"}
"""Region of a locality of this program."""
_HOMES = {
    "GBP": "GB",
    "USD": "US",
    "AUD": "AU",
    "CAD": "CA",
    "NZD": "NZ",
    "CHF": "CH",
    "ZAR": "ZA",
    "INR": "IN",
    "SEK": "SE",
    "NOK": "NO",
    "DKK": "DK",
    "PLN": "PL",
    "JPY": "JP",
    "SGD": "SG",
    "HKD": "HK",
}
"""Region in which a currency is at home, where that is one."""
NEUTRAL_REGION = "GB"
_FEET = frozenset({"US"})


@dataclass(frozen=True, slots=True)
class Writing:
    """How something is written.

    Attributes:
        region: Region by its two letters: order of dates, marks in numbers.
        measure: Which measures are shown.
        currency: Its money.
    """

    region: str = NEUTRAL_REGION
    measure: Measure = Measure.METRIC
    currency: str = "GBP"

    @property
    def imperial(self) -> bool:
        """Return whether feet stand beside metres."""
        return self.measure is Measure.IMPERIAL

    @classmethod
    def of(
        cls, locality: str, currency: str, region: str | None = None, measure: Measure | str | None = None
    ) -> Writing:
        """Return how a job is written: as it says, else by its place, else by its currency.

        >>> Writing.of("usa", "USD").imperial, Writing.of("elsewhere", "AUD").region, Writing.of("wales", "EUR").region
        (True, 'AU', 'GB')
        """
        where = region or _REGIONS.get(locality) or _HOMES.get(currency, NEUTRAL_REGION)
        default = Measure.IMPERIAL if where in _FEET else Measure.METRIC
        return cls(where, Measure(measure) if measure else default, currency)


_WRITING: ContextVar[Writing] = ContextVar("writing", default=Writing())  # noqa: B039 - it is frozen
_KEPT: ContextVar[frozenset[str]] = ContextVar("kept", default=frozenset())


def now() -> Writing:
    """Return how whoever prints has it written."""
    return _WRITING.get()


def kept_now() -> frozenset[str]:
    """Return what was typed and what is quoted: it stays as it is."""
    return _KEPT.get()


@contextmanager
def written_as(writing: Writing, kept: frozenset[str] = frozenset()) -> Iterator[None]:
    """Have everything that is printed inside written so.

    Args:
        writing: How.
        kept: What was typed, and what is quoted: it stays as it is.
    """
    before, kept_before = _WRITING.set(writing), _KEPT.set(kept)
    try:
        yield
    finally:
        _WRITING.reset(before)
        _KEPT.reset(kept_before)
