"""From cost to price."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost import _words as words
from pavewright.cost._codes import Code
from pavewright.cost._figures import cost_figures
from pavewright.cost._haul import haul_findings, haul_gaps
from pavewright.cost._keys import LineGroup
from pavewright.cost._lines import disposal_lines, labour_gaps, labour_lines, material_lines, plant_gaps, plant_lines
from pavewright.cost._money import ALL_PERCENT, Percents, chain, to_minor
from pavewright.cost._plant_findings import hire_findings
from pavewright.cost._price_age import age_findings, with_ages
from pavewright.cost._scope import scope_lines
from pavewright.cost._types import Cost, CostLine, ProvisionalSum
from pavewright.findings import Finding, Severity
from pavewright.job import Fault, JobInvalid
from pavewright.quantities import Gap, GapReason
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.cost._money import Chain
    from pavewright.cost._types import Hire, LabourTask
    from pavewright.earthworks import Earthworks
    from pavewright.job import Job, Rates
    from pavewright.laying import LayingPlan
    from pavewright.quantities import Quantities
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
    rules: Rulebook,
) -> Cost:
    """Return the priced lines and the price, all money in whole minor units.

    Overhead goes on the sum of the lines; the margin is a part of the price before tax, not a part of the cost.

    Raises:
        JobInvalid: the margin leaves nothing for the cost.
    """
    if (job.rates.margin_percent or 0.0) >= ALL_PERCENT:
        message = "A margin of 100 % of the price leaves nothing for the cost: write a smaller one."
        raise JobInvalid((Fault("rates.margin_percent", message),))
    figures = cost_figures(rules)
    bought, unpriced = material_lines(job, laying, quantities)
    unpriced = [*labour_gaps(job, tasks), *plant_gaps(job, hires, tasks), *unpriced]
    gaps = (*unpriced, *_tax_gap(job.rates), *quantities.gaps, *haul_gaps(job, quantities, figures))
    lines = (*labour_lines(job, tasks), *plant_lines(job, hires), *disposal_lines(job, earthworks, quantities), *bought)
    lines = with_ages(lines, job, figures)
    prime = sum(line.amount_minor for line in lines)
    priced = _priced(prime, job.rates)
    low, high = (_total(sum(amounts), job.rates) for amounts in _ends(lines))
    return Cost(
        labour=tasks,
        lines=lines,
        prime_minor=prime,
        overhead_minor=priced.overhead,
        margin_minor=priced.margin,
        net_minor=priced.net,
        tax_minor=priced.tax,
        total_minor=priced.total,
        low_minor=low,
        high_minor=high,
        reasons=_reasons(lines),
        gaps=gaps,
        scope=scope_lines(tasks, lines, quantities, gaps),
        workings=_workings(prime, priced, job.rates),
        findings=(
            *_findings(tuple(gap.words for gap in unpriced)),
            *_without(job.rates),
            *age_findings(lines, figures),
            *hire_findings(job, quantities, hires),
            *haul_findings(job, quantities, figures),
        ),
        provisional=_provisional(lines, job.rates),
    )


def _provisional(lines: tuple[CostLine, ...], rates: Rates) -> ProvisionalSum | None:
    """Return what of the price is provisional, tax included: the price less the price without it, at each end."""
    mine = [line for line in lines if line.group is LineGroup.PROVISIONAL]
    if not mine:
        return None
    settled = sum(line.amount_minor for line in lines) - sum(line.amount_minor for line in mine)
    without = _total(settled, rates)
    low, likely, high = (
        _total(settled + sum(amounts), rates) - without
        for amounts in (
            [line.low_minor for line in mine],
            [line.amount_minor for line in mine],
            [line.high_minor for line in mine],
        )
    )
    return ProvisionalSum(low, likely, high)


def _priced(prime: int, rates: Rates) -> Chain[int]:
    """Return the steps from prime cost to price, each in whole minor units."""
    return chain(prime, _percents(rates), to_minor)


def _percents(rates: Rates) -> Percents:
    """Return what goes on the cost; what is not known is left out of the price, and that is said."""
    return Percents(rates.overhead_percent or 0.0, rates.margin_percent or 0.0, rates.tax_percent or 0.0)


def _tax_gap(rates: Rates) -> tuple[Gap, ...]:
    """Return the tax as not in the price where nobody knows it."""
    if rates.tax_percent is not None:
        return ()
    return (Gap((), GapReason.NO_PRICE, f"{rates.tax_name}: its rate is not known"),)


def _without(rates: Rates) -> tuple[Finding, ...]:
    """Say that overhead, margin or tax is not in the price because nobody knows it: it is no price to send."""
    wanting = (
        ("overhead", rates.overhead_percent),
        ("margin", rates.margin_percent),
        (rates.tax_name, rates.tax_percent),
    )
    names = tuple(name for name, percent in wanting if percent is None)
    if not names:
        return ()
    return (Finding(Code.PERCENT_NOT_KNOWN, Severity.STOP, "price", words.percents_not_known(names)),)


def _total(prime: int, rates: Rates) -> int:
    return _priced(prime, rates).total


def _ends(lines: tuple[CostLine, ...]) -> tuple[list[int], list[int]]:
    return [line.low_minor for line in lines], [line.high_minor for line in lines]


def _reasons(lines: tuple[CostLine, ...]) -> tuple[tuple[str, int], ...]:
    """Return what moves the cost, largest first: how much more the upper end of a line is than its likely amount."""
    moving = [(line.description, line.high_minor - line.amount_minor) for line in lines]
    moving = [reason for reason in moving if reason[1] > 0]
    return tuple(sorted(moving, key=lambda reason: (-reason[1], reason[0]))[:_REASONS])


def _workings(prime: int, priced: Chain[int], rates: Rates) -> tuple[Working, ...]:
    unit = "minor units"
    overhead, net, tax, percents = priced.overhead, priced.net, priced.tax, _percents(rates)
    return (
        Working("prime cost = sum of the lines", float(prime), unit),
        Working(f"overhead = {prime} × {percents.overhead:g} %", float(overhead), unit),
        Working(
            f"net price = ({prime} + {overhead}) / (1 − {percents.margin:g} %)",
            float(net),
            unit,
            (),
            "the margin is a part of the price, so the cost is divided",
        ),
        Working(f"margin = {net} − {prime} − {overhead}", float(priced.margin), unit),
        Working(f"{rates.tax_name} = {net} × {percents.tax:g} %", float(tax), unit),
        Working(f"total = {net} + {tax}", float(priced.total), unit),
    )


def _findings(unpriced: tuple[str, ...]) -> tuple[Finding, ...]:
    if not unpriced:
        return ()
    said, options = words.unpriced(unpriced)
    return (Finding(Code.UNPRICED, Severity.CHECK, "price", said, options=options),)
