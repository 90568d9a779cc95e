"""How old a price is, and whether that is older than the firm lets it be."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright.cost import _words as words
from pavewright.cost._codes import Code
from pavewright.cost._hour_price import hour_day
from pavewright.cost._keys import ChargeKey, ChargeKind, HireKey, TaskKey
from pavewright.cost._orders import terms_of
from pavewright.cost._parts import StaleBy
from pavewright.findings import Finding, Severity
from pavewright.quantities import ItemKey

if TYPE_CHECKING:
    from pavewright.cost._figures import CostFigures
    from pavewright.cost._keys import LineKey
    from pavewright.cost._types import CostLine
    from pavewright.job import BuyingTerms, Job
    from pavewright.rules import Figure


def with_ages(lines: tuple[CostLine, ...], job: Job, figures: CostFigures) -> tuple[CostLine, ...]:
    """Return priced lines, each whose price is too old marked.

    A price without a date is marked where the firm or the job says how old a price may be; else nobody asked.
    """
    return tuple(replace(line, stale=_stale(line.key, job, figures.price_age_days)) for line in lines)


def age_findings(lines: tuple[CostLine, ...], figures: CostFigures) -> tuple[Finding, ...]:
    """Return how many lines hang on prices that are too old or have no date, each kind as one finding."""
    old = [line for line in lines if line.stale is not None and line.stale.age_days is not None]
    undated = [line for line in lines if line.stale is not None and line.stale.age_days is None]
    found = []
    if old:
        oldest = max(old, key=lambda line: (line.stale.age_days or 0) if line.stale is not None else 0)
        assert oldest.stale is not None  # noqa: S101 - it was picked for that
        age, limit = float(oldest.stale.age_days or 0), float(oldest.stale.limit_days)
        said, options = words.stale_prices(tuple(line.description for line in old), age, limit)
        figure = figures.price_age_days
        by = figure if limit == figure.value else None
        found.append(Finding(Code.STALE_PRICES, Severity.CHECK, "price", said, age, limit, "days", by, options=options))
    if undated:
        said, options = words.undated_prices(tuple(line.description for line in undated))
        found.append(Finding(Code.UNDATED_PRICES, Severity.CHECK, "price", said, options=options))
    return tuple(found)


def _stale(key: LineKey, job: Job, figure: Figure) -> StaleBy | None:
    asked = job.rates.price_age_days
    limit = int(figure.value) if asked is None else asked
    if isinstance(key, TaskKey):
        day = hour_day(job, key.kind)  # the firm's own people have no day of a price
        if day is None:
            return None
    else:
        terms = _terms_of(key, job)
        if terms is None:
            return None
        day = terms.priced_on
        if day is None:
            return None if asked is None else StaleBy(None, None, limit)
    age = (job.identity.date - day).days
    return StaleBy(day, age, limit) if age > limit else None


def _terms_of(key: LineKey, job: Job) -> BuyingTerms | None:
    """Return the entry from which a line has its price; None for labour, whose price has no date."""
    if isinstance(key, HireKey) or (isinstance(key, ChargeKey) and key.kind in _OF_A_HIRE):
        return job.rates.plant[key.number]
    return terms_of(key, job) if isinstance(key, ItemKey) else None


_OF_A_HIRE = frozenset({ChargeKind.HIRE_WEEKS, ChargeKind.HIRE_DELIVERY})
