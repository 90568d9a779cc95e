"""Rates and quotation: what is said twice, or in two ways that contradict each other."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job._faults import Fault
from pavewright.job._terms import term_faults

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterable, Iterator

    from pavewright.job._crew import Crew
    from pavewright.job._document import Job
    from pavewright.job._rates import Rates


def rates_twice(job: Job) -> Iterator[Fault]:
    """Give rates of the job, those that it was quoted with, and terms, that contradict themselves."""
    yield from term_faults(job.terms)
    yield from rate_faults(job.rates, "rates")
    yield from crew_faults(job.crew, "crew")
    if job.quoted is not None:
        yield from rate_faults(job.quoted.rates, "quoted.rates")
        yield from crew_faults(job.quoted.crew, "quoted.crew")


def rate_faults(rates: Rates, path: str) -> Iterator[Fault]:
    """Give what rates say twice.

    Args:
        rates: Prices and percentages.
        path: Where they stand in their document.
    """
    if rates.margin_percent is not None and rates.markup_percent is not None:
        words = (
            "A margin and a mark-up are both given: keep one. A margin is a part of the price, a mark-up of the cost."
        )
        yield Fault(f"{path}.markup_percent", words)
    if rates.overhead_percent is not None and rates.overhead_minor_per_hour is not None:
        words = "Overhead is given as a percentage and for each hour: keep one of the two."
        yield Fault(f"{path}.overhead_minor_per_hour", words)
    yield from _twice(f"{path}.labour", "an hour of this skill", (each.skill for each in rates.labour))
    yield from _twice(f"{path}.catalogue", "this item of the catalogue", (each.key for each in rates.catalogue))
    yield from _twice(f"{path}.assemblies", "this assembly", (each.key for each in rates.assemblies))
    for number, line in enumerate(rates.tax_lines):
        if (line.group is None) == (line.key is None):
            words = "A line of tax names either a group of lines or one item of the catalogue: give one of the two."
            yield Fault(f"{path}.tax_lines.{number}", words)


def crew_faults(crew: Crew, path: str) -> Iterator[Fault]:
    """Give what a crew says twice.

    Args:
        crew: Who works.
        path: Where that stands in its document.
    """
    yield from _twice(f"{path}.gangs", "a gang of this name", (gang.name for gang in crew.gangs))
    yield from _twice(f"{path}.outputs", "this output", ((each.kind, each.pattern) for each in crew.outputs))


def _twice(path: str, what: str, keys: Iterable[Hashable]) -> Iterator[Fault]:
    seen: set[Hashable] = set()
    for number, key in enumerate(keys):
        if key in seen:
            yield Fault(f"{path}.{number}", f"There is {what} already: keep one of the two.")
        seen.add(key)
