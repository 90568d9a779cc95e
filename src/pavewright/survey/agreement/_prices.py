"""Prices against what such things cost: pounds written where pence are wanted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import Finding, Severity
from pavewright.survey._codes import Code
from pavewright.survey.agreement import _words_job as words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job import Job
    from pavewright.survey._figures import SurveyFigures

_HUNDRED = 100.0
_KNOWN = frozenset({"GBP", "EUR", "USD"})
"""Currencies of a hundred small coins in which the bands hold."""


def prices(job: Job, figures: SurveyFigures) -> Iterator[Finding]:
    """Give prices that no such thing has; a price of nothing is no price and is not judged here.

    Args:
        job: The job with its units and rates.
        figures: Figures of the survey.
    """
    if job.identity.currency not in _KNOWN:
        return
    table = figures.plausible_prices
    for path, what, kind, amount, price_minor in _priced(job):
        if not price_minor:
            continue
        each = price_minor / amount
        low, high = table.figure(kind, "low_minor").value, table.figure(kind, "high_minor").value
        if low <= each <= high:
            continue
        money = units.minor_to_text(price_minor, job.identity.currency)
        pounds = each < low <= each * _HUNDRED <= high
        small = "cents" if job.identity.currency != "GBP" else "pence"
        span = " to ".join(units.minor_to_text(round(end), job.identity.currency) for end in (low, high))
        message = words.price_strange(what, (price_minor, small, money), (each, _PER[kind]), span, pounds=pounds)
        figure = table.figure(kind, "low_minor" if each < low else "high_minor")
        severity = Severity.STOP if pounds else Severity.CHECK
        yield Finding(Code.PRICE_STRANGE, severity, path, message, each, figure.value, small, figure)


_PER = {
    "paving": "a square metre",
    "labour": "an hour",
    "plant": "a day",
    "load": "a cubic metre removed",
    "earth": "a cubic metre",
    "kg": "a kilogram",
    "m2": "a square metre",
    "m": "a metre",
    "m3": "a cubic metre",
    "litre": "a litre",
    "each": "each",
}


def _priced(job: Job) -> Iterator[tuple[str, str, str, float, int | None]]:
    """Give place, owner, kind, amount and price of everything with a price."""
    rates = job.rates
    for unit in job.units:
        area = units.mm2_to_m2(unit.length_mm * unit.width_mm) * unit.per_pack
        yield f"unit {unit.name}", f"The pack price of {unit.name}", "paving", area, unit.pack_price_minor
    yield "labour", "The cost of labour", "labour", 1.0, rates.labour_minor_per_hour
    for hire in rates.plant:
        yield f"plant {hire.key}", f"A day of {hire.name or hire.key}", "plant", 1.0, hire.day_price_minor
    if rates.disposal is not None:
        what = f"The load price of a {rates.disposal.kind}"
        yield "disposal", what, "load", rates.disposal.volume_m3, rates.disposal.load_price_minor
    for item in rates.materials:
        what = f"The pack price of {item.name or item.key.replace('_', ' ')}"
        yield f"material {item.key}", what, item.pack_unit, item.pack_amount, item.pack_price_minor
    for work, price in (("dug and removed", rates.cut_price_minor), ("filled", rates.fill_price_minor)):
        yield "rates", f"The price of a cubic metre {work}", "earth", 1.0, price
