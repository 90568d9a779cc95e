"""What was agreed: the quotation, options, sums that are settled, and approved variations."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.account._tax import gross_of, net_of, tax_of, with_tax
from pavewright.account._types import AgreedKind, AgreedLine
from pavewright.cost import exact, to_minor
from pavewright.job.agreed import SettlingKind, VariationState
from pavewright.sums import Working

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job import Job
    from pavewright.job.agreed import Accepted, Settled, SumToSettle, TaxedSum, Variation

_UNIT = "minor units"


def agreed_lines(job: Job) -> Iterator[AgreedLine]:
    """Give what was agreed, in the order of a final account; nothing where nothing was accepted."""
    given = job.accepted
    if given is None:
        return
    money = given.currency
    yield AgreedLine(AgreedKind.QUOTATION, 0, "", given.sums, _sum_of(given.sums, money, "as accepted"))
    for number, option in enumerate(given.options, 1):
        working = _sum_of(option.sums, money, "the difference that stood beside it")
        yield AgreedLine(AgreedKind.OPTION, number, option.name, option.sums, working)
    yield from _settled_lines(job, given)
    for variation in job.variations:
        if variation.state is VariationState.APPROVED:
            yield variation_line(variation, money)


def proposed_lines(job: Job) -> Iterator[AgreedLine]:
    """Give variations that nobody has decided."""
    money = job.identity.currency if job.accepted is None else job.accepted.currency
    for variation in job.variations:
        if variation.state is VariationState.PROPOSED:
            yield variation_line(variation, money)


def variation_line(variation: Variation, currency: str) -> AgreedLine:
    """Return a variation as a sum."""
    working = _sum_of(variation.sums, currency, "as on its slip")
    return AgreedLine(AgreedKind.VARIATION, variation.number, variation.name, variation.sums, working)


def unsettled_sums(job: Job) -> tuple[SumToSettle, ...]:
    """Return sums of the quotation that are not settled; a rate of which nothing stands in it waits for nobody."""
    if job.accepted is None:
        return ()
    done = {each.number for each in job.settled}
    return tuple(each for each in job.accepted.to_settle if each.number not in done and each.net_minor)


def _settled_lines(job: Job, given: Accepted) -> Iterator[AgreedLine]:
    sums = {each.number: each for each in given.to_settle}
    for settled in job.settled:
        quoted = sums.get(settled.number)
        if quoted is None or not _says_how(settled, quoted):
            continue
        net, working = _difference(settled, quoted, given.currency)
        part = with_tax(quoted.regime, quoted.percent, net, given.tax_rounding)
        yield AgreedLine(AgreedKind.SETTLED, settled.number, quoted.name, (part,) if net else (), working)


def _says_how(settled: Settled, quoted: SumToSettle) -> bool:
    """Return whether it is said what settles a sum."""
    return (settled.amount if quoted.kind is SettlingKind.RATE else settled.cost_minor) is not None


def _difference(settled: Settled, quoted: SumToSettle, currency: str) -> tuple[int, Working]:
    """Return by how much a settled sum differs from what stood in the quotation, before tax, and the sum behind it."""
    if quoted.kind is SettlingKind.RATE:
        found = settled.amount or 0.0
        net = to_minor(exact(found) * quoted.rate_minor) - quoted.net_minor
        rate = units.minor_to_text(quoted.rate_minor, currency)
        words = f"{found:g} {quoted.unit} × {rate} − {units.minor_to_text(quoted.net_minor, currency)} quoted"
        return net, Working(words, float(net), _UNIT, (), settled.note)
    cost = settled.cost_minor or 0
    net = to_minor(Fraction((cost - quoted.supply_minor) * quoted.settles_minor, quoted.of_minor))
    money = [units.minor_to_text(each, currency) for each in (cost, quoted.supply_minor)]
    by = [units.minor_to_text(each, currency) for each in (quoted.settles_minor, quoted.of_minor)]
    return net, Working(f"({money[0]} − {money[1]}) × {by[0]} / {by[1]}", float(net), _UNIT, (), settled.note)


def _sum_of(sums: tuple[TaxedSum, ...], currency: str, note: str) -> Working:
    net, tax = (units.minor_to_text(each, currency) for each in (net_of(sums), tax_of(sums)))
    return Working(f"{net} + tax {tax}", float(gross_of(sums)), _UNIT, (), note)
