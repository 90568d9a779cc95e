"""The account of a job adds up to the penny, whatever was agreed, taxed, billed and credited."""

from __future__ import annotations

import datetime as dt

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.unit.account.jobs import accepted, bare, job_of

from pavewright.account import (
    AgreedKind,
    NotBilledError,
    account,
    credit_note,
    final_bill,
    part_bill,
    retention_bill,
    stage_bill,
    variation_bill,
    with_tax,
)
from pavewright.findings import Severity
from pavewright.job import TaxRegime, TaxRounding
from pavewright.job.agreed import BillKind, VariationState

WAYS = st.sampled_from(
    [
        (TaxRegime.STANDARD, 20.0),
        (TaxRegime.STANDARD, 23.0),
        (TaxRegime.REDUCED, 5.0),
        (TaxRegime.REDUCED, 13.5),
        (TaxRegime.ZERO, None),
        (TaxRegime.NONE, None),
        (TaxRegime.REVERSE_CHARGE, 20.0),
    ]
)
ROUNDINGS = st.sampled_from(list(TaxRounding))
DAY = dt.date(2027, 3, 1)


@st.composite
def sums(draw, rounding, low=0, high=2_000_000, ways=WAYS):
    taken = draw(st.lists(ways, min_size=1, max_size=3, unique=True))
    return [with_tax(regime, percent, draw(st.integers(low, high)), rounding) for regime, percent in taken]


@st.composite
def agreed_jobs(draw):
    """Jobs with anything agreed; no option, settlement or variation takes more off a tax than is there."""
    rounding = draw(ROUNDINGS)
    quoted = draw(sums(rounding, low=2_500_000, high=9_000_000))  # more than all that is settled takes off it
    ways = st.sampled_from([(each.regime, each.percent) for each in quoted])
    options = [draw(sums(rounding, -50_000, 200_000, ways)) for _ in range(draw(st.integers(0, 3)))]
    changes = [
        (
            draw(sums(rounding, -50_000, 400_000, ways)),
            draw(st.sampled_from([*VariationState, VariationState.APPROVED])),
        )
        for _ in range(draw(st.integers(0, 4)))
    ]
    settles = draw(st.lists(st.tuples(st.integers(0, 30), st.integers(0, 30)), max_size=3))
    return job_of(
        accepted(
            quoted,
            options=options,
            rounding=rounding,
            to_settle=[(amount, draw(ways)) for amount, _ in settles],
            retention=draw(st.sampled_from([None, 2.5, 5.0])),
            stages=draw(st.sampled_from([(25.0, 25.0, 40.0, None), (None,), (33.3, 33.3, 33.4), (10.0, None, 30.0)])),
        ),
        variations=changes,
        settled=[found for _, found in settles],
    )


def gross(parts):
    return sum(part.net_minor + part.tax_minor for part in parts)


@given(agreed_jobs())
def test_quotation_options_settled_sums_and_variations_are_the_final_account_to_the_penny(job):
    found = account(job)
    lines = [*(each.gross_minor for each in found.agreed)]
    assert found.agreed_minor == sum(lines) == gross(part for line in found.agreed for part in line.sums)
    assert found.agreed_minor == sum(found.of_kind(kind) for kind in AgreedKind)
    approved = [each for each in job.variations if each.state is VariationState.APPROVED]
    expected = gross(job.accepted.sums) + sum(gross(each.sums) for each in (*job.accepted.options, *approved))
    assert found.of_kind(AgreedKind.SETTLED) == found.agreed_minor - expected
    for line in found.agreed:
        assert line.working.result in {float(line.gross_minor), float(line.net_minor)}


@given(agreed_jobs(), st.data())
@settings(max_examples=60)
def test_all_bills_less_credits_are_the_final_account_when_everything_is_billed(job, data):
    job = job.model_copy(
        update={
            "variations": tuple(
                each.model_copy(update={"state": VariationState.REFUSED})
                if each.state is VariationState.PROPOSED
                else each
                for each in job.variations
            )
        }
    )
    for _ in range(data.draw(st.integers(0, 6))):
        job = with_bill(job, data.draw(st.sampled_from(["stage", "part", "variation", "credit"])), data)
    try:
        job = job.model_copy(update={"bills": (*job.bills, final_bill(job, DAY))})
    except NotBilledError as refused:
        assert refused.why.value == "nothing_left"
    found = account(job)
    if found.held_minor:
        job = job.model_copy(update={"bills": (*job.bills, retention_bill(job, DAY))})
        found = account(job)
    signed = [(-1 if each.kind is BillKind.CREDIT else 1) * gross(each.sums) for each in job.bills]
    assert sum(signed) == found.billed_minor == found.agreed_minor == found.due_minor
    assert found.is_final
    assert not [each for each in found.all_findings if each.severity is Severity.STOP]
    assert all(part.net_minor >= 0 and part.tax_minor >= 0 for each in job.bills for part in each.sums)
    assert [each.number for each in job.bills] == list(range(1, len(job.bills) + 1))


def with_bill(job, kind, data):
    """The job with one more bill; as it is where that bill is refused."""
    try:
        if kind == "stage":
            made = stage_bill(job, data.draw(st.integers(1, 4)), DAY)
        elif kind == "part":
            made = part_bill(job, data.draw(st.integers(1, 3_000_000)), DAY)
        elif kind == "variation":
            made = variation_bill(job, data.draw(st.integers(1, 4)), DAY)
        else:
            part = data.draw(st.none() | st.integers(1, 500_000))
            made = credit_note(job, data.draw(st.integers(1, 6)), DAY, "too much", part)
    except NotBilledError:
        return job
    return job.model_copy(update={"bills": (*job.bills, made)})


@given(agreed_jobs(), st.integers(0, 100), st.integers(0, 9000))
def test_later_prices_change_nothing_that_was_accepted(job, margin, hour):
    later = bare(rates={"margin_percent": margin % 90, "labour_minor_per_hour": hour, "tax_percent": 7.0})
    moved = job.model_copy(update={"rates": later.rates, "quoted": None, "terms": later.terms})
    assert account(moved) == account(job)
