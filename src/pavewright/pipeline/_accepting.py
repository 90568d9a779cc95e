"""Acceptance: the sums, options and terms of a quotation, frozen as the customer read them."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.cost import RangeKind, exact, to_minor
from pavewright.job import PaymentEvent, StagePayment, TaxRegime, TaxRounding
from pavewright.job.agreed import Accepted, AcceptedMeans, AcceptedOption, SettlingKind, SumToSettle, TaxedSum

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Collection, Iterator

    from pavewright.cost import Cost, Taxed, TaxShare
    from pavewright.pipeline._types import Plan, PlanSoFar


class NotAccepted(StrEnum):
    """Why a quotation cannot be accepted as it stands."""

    NO_PRICE = "no_price"
    TAX_NOT_KNOWN = "tax_not_known"
    NOT_OFFERED = "not_offered"
    ALREADY = "already"


class NotAcceptedError(Exception):
    """A quotation cannot be accepted as it stands.

    Attributes:
        why: Why not.
        option: Which option is not offered; empty where it is not for an option.
    """

    def __init__(self, why: NotAccepted, option: str = "") -> None:
        """Take the reason."""
        self.why, self.option = why, option
        super().__init__(why.value)


def accepted_of(
    made: Plan | PlanSoFar,
    chosen: Collection[str],
    by: str,
    at: dt.datetime,
    means: AcceptedMeans,
    stored_revision: int | None = None,
    paper_sha256: str | None = None,
) -> Accepted:
    """Return what a customer accepts of a plan with its price: every sum as it stands, whatever prices do later.

    Args:
        made: The plan of the job as it was quoted.
        chosen: Names of the options that are taken.
        by: Who accepts.
        at: When, with its offset from UTC.
        means: How.
        stored_revision: Under which number the document is kept with the jobs.
        paper_sha256: SHA-256 of the PDF that is accepted.

    Raises:
        NotAcceptedError: there is no price, its tax is not known, or an option is not offered.
    """
    job, cost = made.job, made.cost
    if job.accepted is not None:
        raise NotAcceptedError(NotAccepted.ALREADY)
    if cost is None or not cost.lines or cost.range_kind is RangeKind.NOT_KNOWN:
        raise NotAcceptedError(NotAccepted.NO_PRICE)
    if not all(share.taxed.is_known for share in cost.tax):
        raise NotAcceptedError(NotAccepted.TAX_NOT_KNOWN)
    terms = job.terms
    return Accepted(
        by=by,
        at=at,
        means=means,
        quoted_on=job.identity.date if job.quoted is None else job.quoted.on,
        revision=job.identity.revision if job.quoted is None else job.quoted.revision,
        stored_revision=stored_revision,
        paper_sha256=paper_sha256,
        currency=job.identity.currency,
        tax_name=job.rates.tax_name,
        tax_rounding=job.rates.tax_rounding or TaxRounding.INVOICE,
        sums=tuple(map(taxed_sum, cost.tax)),
        options=tuple(_options(made, chosen)),
        to_settle=tuple(_to_settle(cost)),
        stages=terms.stages or (StagePayment(event=PaymentEvent.COMPLETE),),
        retention_percent=terms.retention_percent,
        retention_freed_percent=terms.retention_freed_percent,
        days_to_pay=terms.days_to_pay,
    )


def taxed_sum(share: TaxShare) -> TaxedSum:
    """Return a part of a price as it is kept."""
    how = share.taxed
    return TaxedSum(regime=how.regime, percent=how.percent, net_minor=share.net_minor, tax_minor=share.tax_minor)


def _options(made: Plan | PlanSoFar, chosen: Collection[str]) -> Iterator[AcceptedOption]:
    offered = {each.name: each for each in made.offered if each.extra_minor is not None}
    for name in dict.fromkeys(chosen):
        if name not in offered:
            raise NotAcceptedError(NotAccepted.NOT_OFFERED, name)
        yield AcceptedOption(name=name, sums=tuple(map(taxed_sum, offered[name].shares)))


def _to_settle(cost: Cost) -> Iterator[SumToSettle]:
    number = 0
    for rate in () if cost.provisional is None else cost.provisional.rates:
        number += 1
        yield SumToSettle(
            number=number,
            name=rate.description,
            kind=SettlingKind.RATE,
            net_minor=to_minor(exact(rate.amount) * rate.rate_minor),
            unit=rate.unit,
            amount=rate.amount,
            rate_minor=rate.rate_minor,
            regime=_regime(rate.taxed),
            percent=None if rate.taxed is None else rate.taxed.percent,
        )
    for goods in cost.prime_costs:
        number += 1
        yield SumToSettle(
            number=number,
            name=goods.name,
            kind=SettlingKind.ACTUAL_COST,
            net_minor=goods.price_minor,
            supply_minor=goods.supply_minor,
            of_minor=goods.of_minor,
            settles_minor=goods.settles_minor,
            regime=_regime(goods.taxed),
            percent=None if goods.taxed is None else goods.taxed.percent,
        )


def _regime(how: Taxed | None) -> TaxRegime:
    return TaxRegime.STANDARD if how is None else how.regime
