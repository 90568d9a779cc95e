"""The command that works out the risk of a price."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import click

from pavewright import units
from pavewright.cli._asked import FIRM, JOB, QUIET, plan_so_far_or_stop, tell_faults
from pavewright.cli._engine_asked import EngineAsked, engine_options, spread_or_stop
from pavewright.cli._progress import Progress
from pavewright.desk import draws_for, plain, risk_of, spread_risk
from pavewright.job import JobInvalid
from pavewright.pipeline import MOST_DRAWS, REPLICATES, USUAL_DRAWS, losing_text

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from pavewright.pipeline import OrderChance, Risk

_DRIVERS = 8


@click.command("risk")
@JOB
@FIRM
@click.option(
    "--losing",
    type=click.IntRange(1, 50),
    default=10,
    show_default=True,
    help="Chance of losing money that you take, in per cent: the price for it.",
)
@click.option(
    "--draws",
    "cases",
    type=click.IntRange(1, MOST_DRAWS * REPLICATES),
    default=USUAL_DRAWS * REPLICATES,
    show_default=True,
    help="Least number of cases to draw; it is rounded up to eight times a power of two.",
)
@engine_options
@click.option("--json", "as_json", is_flag=True, help="Print all of it as JSON.")
@QUIET
def risk_command(
    job: Path,
    firm: Path | None,
    *,
    losing: int,
    cases: int,
    asked_engine: EngineAsked,
    as_json: bool,
    quiet: bool,
) -> None:
    """Work out what a price risks: how it falls, what moves it, how much to order, what one other fact would do.

    Everything that nobody knows before the work is drawn together some thousand times. It is no guarantee. With
    --workers or --cluster the parts are shared out, with the same answer.

    \b
    Example: pavewright risk examples/l_terrace.json
             pavewright risk my-job.json --firm my-firm.json --losing 5
             pavewright risk my-job.json --draws 500000 --workers 2
    """  # noqa: D301 - the sign keeps click from joining lines
    made = plan_so_far_or_stop(job, quiet=quiet, firm=firm)
    try:
        if asked_engine.named:
            with spread_or_stop(asked_engine, job, firm, quiet=quiet) as here:
                found = spread_risk(made, here, draws_for(cases))
        else:
            found = risk_of(made, Progress(quiet), draws_for(cases))
    except JobInvalid as invalid:
        tell_faults(job, invalid, "a job with a price")
    if as_json:
        click.echo(json.dumps(plain(found), indent=1, ensure_ascii=False))
        return
    for line in risk_lines(found, made.job.identity.currency, losing):
        click.echo(line)


def risk_lines(found: Risk, currency: str, losing: int) -> Iterator[str]:
    """Give the risk of a price line by line.

    Args:
        found: The risk.
        currency: Money of the job.
        losing: Chance of losing money that is taken. [%]
    """

    def money(minor: int) -> str:
        return units.minor_to_text(minor, currency)

    left = ", what has no price left out" if found.gaps else ""
    yield f"price of the plan  {money(found.likely_minor)}"
    for each in found.quantiles:
        yield f"P{100.0 * each.chance:.0f}{left}  {money(each.minor)} ± {money(each.error_minor)}"
    yield from _losing_lines(found, losing, money)
    yield ""
    yield "what moves the price (share of its variance, less and more by itself)"
    for driver in found.drivers[:_DRIVERS]:
        share = f"{100.0 * max(0.0, driver.total):4.0f} %"
        yield f"  {share}  {driver.words}: {money(driver.low_minor)} to {money(driver.high_minor)}"
    moving = [each for each in found.orders if any(step.short > 0.0 for step in each.steps)]
    if moving:
        yield ""
        yield "how much to order"
        yield from (_order_line(each) for each in moving)
    if found.facts:
        yield ""
        yield "if one fact were another"
        yield from (f"  {each.words}" for each in found.facts)
    for gap in found.gaps:
        yield f"not in the price: {gap.words}"


def _losing_lines(found: Risk, losing: int, money: Callable[[int], str]) -> Iterator[str]:
    left_out = ", what has no price left out" if found.gaps else ""
    yield f"chance of losing money at it{left_out}: {losing_text(found)}"
    if found.losing is None:
        return
    said = f"{money(found.break_even[99 - losing])}{', and what has no price on top' if found.gaps else ''}"
    yield f"price at which {losing} in 100 such jobs lose money: {said}"


def _order_line(order: OrderChance) -> str:
    at = {chance: step.ordered for step in order.steps for chance in step.chances}
    cheapest = "not known" if order.cheapest is None else str(order.cheapest)
    return (
        f"  {order.description}: plan {order.planned_words}; P50 {at[0.5]}, P80 {at[0.8]}, "
        f"P90 {at[0.9]}; cheapest in the mean {cheapest}"
    )
