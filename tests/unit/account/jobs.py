"""Small jobs with something agreed."""

from __future__ import annotations

import datetime as dt

from pavewright.account import with_tax
from pavewright.job import PaymentEvent, StagePayment, TaxRegime, TaxRounding, parse
from pavewright.job.agreed import (
    Accepted,
    AcceptedMeans,
    AcceptedOption,
    Settled,
    SettlingKind,
    SumToSettle,
    Variation,
    VariationCause,
    VariationState,
)

EVENTS = [PaymentEvent.DEPOSIT, PaymentEvent.BASE_IN, PaymentEvent.LAID, PaymentEvent.COMPLETE]
STANDARD = (TaxRegime.STANDARD, 20.0)
ON = dt.date(2027, 2, 1)
RATE = 15_700


def bare(**parts):
    """A job that knows nothing."""
    return parse(
        {
            "format": "pavewright.job",
            "version": 3,
            "identity": {"job": "T-1", "title": "Terrace", "date": "2027-01-10", "locality": "england"},
            "measurements": {},
            "areas": [],
            "units": [],
        }
        | parts
    )


def net(minor, way=STANDARD, rounding=TaxRounding.INVOICE):
    """A sum with its tax."""
    return with_tax(*way, minor, rounding)


def accepted(
    sums,
    options=(),
    rounding=TaxRounding.INVOICE,
    to_settle=(),
    retention=None,
    stages=(25.0, 25.0, 40.0, None),
    days=14,
):
    """An acceptance; what is settled later is given by its amount and its way of tax."""
    return Accepted(
        by="A. Customer",
        at=dt.datetime(2027, 1, 15, 18, 30, tzinfo=dt.UTC),
        means=AcceptedMeans.PAPER,
        quoted_on=dt.date(2027, 1, 10),
        revision=1,
        currency="GBP",
        tax_rounding=rounding,
        sums=tuple(sums),
        options=tuple(AcceptedOption(name=f"Option {n}", sums=tuple(each)) for n, each in enumerate(options, 1)),
        to_settle=tuple(
            SumToSettle(
                number=n,
                name="Soft ground",
                kind=SettlingKind.RATE,
                net_minor=amount * RATE,
                unit="m³",
                amount=float(amount),
                rate_minor=RATE,
                regime=way[0],
                percent=way[1],
            )
            for n, (amount, way) in enumerate(to_settle, 1)
        ),
        stages=tuple(StagePayment(event=EVENTS[n], percent=each) for n, each in enumerate(stages)),
        retention_percent=retention,
        days_to_pay=days,
    )


def varied(number, sums, state=VariationState.APPROVED, **more):
    """A variation."""
    parts = {"name": f"Change {number}", "cause": VariationCause.GROUND, "on": ON, "sums": tuple(sums)} | more
    return Variation(number=number, state=state, **parts)


def job_of(given, variations=(), settled=(), **parts):
    """A job with what was agreed."""
    return bare().model_copy(
        update={
            "accepted": given,
            "variations": tuple(varied(n, sums, state) for n, (sums, state) in enumerate(variations, 1)),
            "settled": tuple(Settled(number=n, on=ON, amount=float(each)) for n, each in enumerate(settled, 1)),
        }
        | parts
    )
