"""From cost to price."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright.cost import _words as words
from pavewright.cost._charges import carriage_lines, charge_lines
from pavewright.cost._codes import Code
from pavewright.cost._figures import cost_figures
from pavewright.cost._haul import haul_findings, haul_gaps
from pavewright.cost._hire_lines import plant_lines
from pavewright.cost._lines import disposal_lines, labour_gaps, labour_lines, material_lines
from pavewright.cost._money import ALL_PERCENT
from pavewright.cost._orders import orders
from pavewright.cost._plant_findings import hire_findings
from pavewright.cost._plant_gaps import plant_gaps
from pavewright.cost._price_age import age_findings, with_ages
from pavewright.cost._pricing import Pricing
from pavewright.cost._range import range_kind
from pavewright.cost._scope import scope_lines
from pavewright.cost._settled import prime_cost_sums, provisional_sum
from pavewright.cost._tax_findings import tax_findings
from pavewright.cost._types import Cost, CostLine
from pavewright.findings import Finding, Severity
from pavewright.job import Fault, JobInvalid
from pavewright.quantities import Gap, GapReason

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Mapping, Sequence

    from pavewright.cost._types import Hire, LabourTask
    from pavewright.earthworks import Earthworks
    from pavewright.job import Job, Rates
    from pavewright.laying import LayingPlan
    from pavewright.quantities import ItemKey, Quantities
    from pavewright.rules import Rulebook

_REASONS = 6
"""How many things that move the price are shown. [-]"""


def price(
    job: Job,
    laying: LayingPlan,
    earthworks: Earthworks,
    quantities: Quantities,
    tasks: tuple[LabourTask, ...],
    hires: tuple[Hire, ...],
    brought: Mapping[ItemKey, dt.date],
    rules: Rulebook,
) -> Cost:
    """Return the priced lines and the price, all money in whole minor units.

    Overhead goes on the sum of the lines; the margin is a part of the price before tax, not a part of the cost.
    Where days are known on which items come, every day on which a supplier comes is a delivery with its carriage.

    Raises:
        JobInvalid: the margin leaves nothing for the cost.
    """
    if (job.rates.margin_percent or 0.0) >= ALL_PERCENT:
        message = "A margin of 100 % of the price leaves nothing for the cost: write a smaller one."
        raise JobInvalid((Fault("rates.margin_percent", message),))
    figures = cost_figures(rules)
    bought, unpriced = material_lines(job, laying, quantities)
    unworked = labour_gaps(job, tasks)
    unpriced = [*plant_gaps(job, hires, tasks, laying), *unpriced]
    pricing = Pricing(job.rates, rules, sum(task.person_hours for task in tasks), job.identity.currency)
    gaps = (*unworked, *unpriced, *_tax_gap(job.rates, pricing), *quantities.gaps, *haul_gaps(job, quantities, figures))
    taken = (
        *labour_lines(job, tasks),
        *plant_lines(job, hires, figures),
        *disposal_lines(job, earthworks, quantities),
        *bought,
        *charge_lines(job.terms, job.identity.currency),
    )
    ordered = orders(job, quantities.items, taken, brought)
    lines = with_ages((*taken, *carriage_lines(ordered, job.identity.currency)), job, figures)
    chained = _chained(job, lines, pricing)
    findings = (
        *tax_findings(job.rates.tax_name, chained.tax, rules),
        *_findings(unworked, tuple(gap.words for gap in unpriced)),
        *_without(job.rates, pricing),
        *age_findings(lines, figures),
        *hire_findings(job, quantities, hires),
        *haul_findings(job, quantities, figures),
    )
    return replace(
        chained,
        labour=tasks,
        hires=hires,
        gaps=gaps,
        scope=scope_lines(tasks, lines, quantities, gaps, ordered),
        findings=findings,
        orders=ordered,
        range_kind=range_kind(tasks, lines, gaps, findings),
    )


def _chained(job: Job, lines: tuple[CostLine, ...], pricing: Pricing) -> Cost:
    """Return what follows from priced lines alone: the way to the price, and what of it is settled later."""
    priced = pricing.priced(lines, [line.amount_minor for line in lines])
    low, high = (pricing.priced(lines, amounts).total for amounts in _ends(lines))
    return Cost(
        labour=(),
        lines=lines,
        prime_minor=priced.prime,
        overhead_minor=priced.overhead,
        margin_minor=priced.margin,
        net_minor=priced.net,
        tax_minor=priced.tax,
        total_minor=priced.total,
        low_minor=low,
        high_minor=high,
        reasons=_reasons(lines),
        gaps=(),
        scope=(),
        workings=pricing.workings(priced),
        findings=(),
        provisional=provisional_sum(job.terms, lines, pricing),
        tax=priced.shares,
        prime_costs=prime_cost_sums(job.terms, pricing),
        markup_percent=priced.markup_percent,
        margin_percent=priced.margin_percent,
    )


def _tax_gap(rates: Rates, pricing: Pricing) -> tuple[Gap, ...]:
    """Return the tax as not in the price where nobody knows it."""
    if pricing.tax_is_known:
        return ()
    return (Gap((), GapReason.NO_PRICE, f"{rates.tax_name}: its rate is not known"),)


def _without(rates: Rates, pricing: Pricing) -> tuple[Finding, ...]:
    """Say that overhead, margin or tax is not in the price because nobody knows it: it is no price to send."""
    wanting = (
        ("overhead", rates.overhead_percent is None and rates.overhead_minor_per_hour is None),
        ("margin", rates.margin_percent is None and rates.markup_percent is None),
        (rates.tax_name, not pricing.tax_is_known),
    )
    names = tuple(name for name, unknown in wanting if unknown)
    if not names:
        return ()
    return (Finding(Code.PERCENT_NOT_KNOWN, Severity.STOP, "price", words.percents_not_known(names)),)


def _ends(lines: tuple[CostLine, ...]) -> tuple[list[int], list[int]]:
    return [line.low_minor for line in lines], [line.high_minor for line in lines]


def _reasons(lines: tuple[CostLine, ...]) -> tuple[tuple[str, int], ...]:
    """Return what moves the cost, largest first: how much more the upper end of a line is than its likely amount."""
    moving = [(line.description, line.high_minor - line.amount_minor) for line in lines]
    moving = [reason for reason in moving if reason[1] > 0]
    return tuple(sorted(moving, key=lambda reason: (-reason[1], reason[0]))[:_REASONS])


def _findings(unworked: Sequence[Gap], unpriced: Sequence[str]) -> Iterator[Finding]:
    """Give that work, and that things have no price: without its work it is no price to send."""
    if unworked:
        said, options = words.labour_missing(unworked)
        yield Finding(Code.LABOUR_UNPRICED, Severity.STOP, "price", said, options=options)
    if unpriced:
        said, options = words.unpriced(unpriced)
        yield Finding(Code.UNPRICED, Severity.CHECK, "price", said, options=options)
