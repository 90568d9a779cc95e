"""What is wrong with an account is said in words and never clipped."""

from __future__ import annotations

import datetime as dt

import pytest
from tests.unit.account.jobs import EVENTS, ON, STANDARD, accepted, bare, job_of, net, varied

from pavewright.account import (
    NotBilled,
    NotBilledError,
    account,
    credit_note,
    final_bill,
    part_bill,
    retention_bill,
    stage_bill,
    variation_bill,
)
from pavewright.account._codes import Code
from pavewright.cash import payments
from pavewright.findings import Severity
from pavewright.job import TaxRegime, TaxRounding
from pavewright.job.agreed import Bill, BillKind, Received, Settled, SettlingKind, SumToSettle, VariationState

DAY = dt.date(2027, 3, 1)
AGREED = job_of(accepted([net(1_000_000)]))
"""10 000.00 before tax, 12 000.00 with it."""


def bill(number=1, minor=100_000, kind=BillKind.STAGE, on=DAY, way=STANDARD, **more):
    return Bill(number=number, kind=kind, on=on, sums=(net(minor, way),) if minor else (), **more)


def with_bills(*bills, job=AGREED, **parts):
    return job.model_copy(update={"bills": bills} | parts)


def codes(job):
    return {each.code for each in account(job).all_findings}


def stops(job):
    return {each.code for each in account(job).all_findings if each.severity is Severity.STOP}


@pytest.mark.parametrize(
    ("code", "job"),
    [
        (Code.OVER_BILLED, with_bills(bill(1, 900_000), bill(2, 100_001))),
        (Code.NOT_ACCEPTED, bare().model_copy(update={"bills": (bill(),)})),
        (Code.NOT_ACCEPTED, bare().model_copy(update={"variations": (varied(1, [net(5)]),)})),
        (Code.NEGATIVE, with_bills(bill(1, -5))),
        (Code.NEGATIVE, with_bills(bill(1, 100_000, held_minor=-1))),
        (Code.NOTHING_BILLED, with_bills(bill(1, 0))),
        (Code.NUMBERS, with_bills(bill(1), bill(3))),
        (Code.NUMBERS, with_bills(bill(2))),
        (Code.CREDIT_TOO_LARGE, with_bills(bill(1), bill(2, 100_001, BillKind.CREDIT, credits=1))),
        (
            Code.CREDIT_TOO_LARGE,
            with_bills(
                bill(1), bill(2, 60_000, BillKind.CREDIT, credits=1), bill(3, 60_000, BillKind.CREDIT, credits=1)
            ),
        ),
        (Code.CREDIT_OF_NOTHING, with_bills(bill(1), bill(2, 5, BillKind.CREDIT, credits=7))),
        (Code.CREDIT_OF_NOTHING, with_bills(bill(1), bill(2, 5, BillKind.CREDIT))),
        (Code.FREED_TOO_MUCH, with_bills(bill(1, held_minor=50), bill(2, 0, BillKind.RETENTION, freed_minor=51))),
        (Code.WAY_NOT_AGREED, with_bills(bill(1, 5, way=(TaxRegime.REVERSE_CHARGE, 20.0)))),
        (Code.VARIATION_NOT_APPROVED, with_bills(bill(1, 5, BillKind.VARIATION, variation=4))),
        (Code.SETTLES_NOTHING, with_bills(settled=(Settled(number=9, on=ON, amount=1.0),))),
    ],
)
def test_what_cannot_be_sent_stops_and_is_not_clipped(code, job):
    assert code in stops(job)
    whole = sum(
        (-1 if each.kind is BillKind.CREDIT else 1) * sum(p.gross_minor for p in each.sums) for each in job.bills
    )
    assert account(job).billed_minor == whole


@pytest.mark.parametrize(
    ("code", "job"),
    [
        (Code.DATES_TURN_BACK, with_bills(bill(1), bill(2, on=DAY - dt.timedelta(days=1)))),
        (Code.BEFORE_ACCEPTED, with_bills(bill(1, on=dt.date(2027, 1, 14)))),
        (Code.STAGE_TWICE, with_bills(bill(1, stage=1), bill(2, stage=1))),
        (Code.OPEN_VARIATION, job_of(accepted([net(5)]), [([net(1)], VariationState.PROPOSED)])),
        (Code.NOT_PRICED, with_bills(variations=(varied(1, [net(1)], gaps=2),))),
        (Code.NOT_SETTLED, job_of(accepted([net(900_000)], to_settle=[(2, STANDARD)]))),
        (Code.PAID_TOO_MUCH, with_bills(received=(Received(on=DAY, amount_minor=1),))),
        (Code.PAYMENT_OF_NOTHING, with_bills(received=(Received(on=DAY, amount_minor=1, bill=3),))),
        (Code.RETENTION_TAX, with_bills(bill(1, held_minor=500))),
        (Code.TAX_DIFFERS, with_bills(Bill(number=1, kind=BillKind.STAGE, on=DAY, sums=(net(9_000).model_copy(update={"tax_minor": 18}),)))),
    ],
)  # fmt: skip
def test_what_is_to_be_looked_at_is_said(code, job):
    assert code in codes(job)


def test_a_sound_account_says_nothing():
    job = with_bills(received=(Received(on=DAY, amount_minor=300_000, bill=1),))
    job = job.model_copy(update={"bills": (stage_bill(job, 1, DAY),)})
    assert codes(job) == set()
    standing = account(job).bills[0]
    assert (standing.gross_minor, standing.due_minor, standing.paid_minor, standing.owing_minor) == (
        300_000,
        300_000,
        300_000,
        0,
    )
    assert job.bills[0].due_on == DAY + dt.timedelta(days=14)


def test_stages_are_billed_as_the_cash_of_the_quotation_has_them_with_what_is_held_and_freed():
    """The payments that the customer read and the bills that he gets come from one split."""
    given = accepted([net(1_234_567)], retention=5.0)
    job = job_of(given)
    terms = bare(
        terms={
            "stages": [each.model_dump(mode="json", exclude_none=True) for each in given.stages],
            "retention_percent": 5.0,
        }
    ).terms
    read = payments(account(job).agreed_minor, terms, {})
    for stage in range(1, 5):
        job = job.model_copy(update={"bills": (*job.bills, stage_bill(job, stage, DAY))})
    job = job.model_copy(update={"bills": (*job.bills, retention_bill(job, DAY))})
    assert [each.due_minor for each in account(job).bills] == [each.due_minor for each in read]
    assert [each.event for each in read][:4] == EVENTS
    assert account(job).is_final


def test_a_credit_note_gives_back_what_was_held_of_it():
    job = job_of(accepted([net(1_000_000)], retention=10.0))
    job = job.model_copy(update={"bills": (stage_bill(job, 1, DAY),)})
    assert account(job).held_minor == 30_000
    job = job.model_copy(update={"bills": (*job.bills, credit_note(job, 1, DAY, "billed too early"))})
    found = account(job)
    assert (found.held_minor, found.due_minor, found.billed_minor) == (0, 0, 0)
    again = stage_bill(job, 1, DAY)
    assert (again.number, again.sums) == (3, job.bills[0].sums)


def test_a_sum_is_settled_by_its_rate_or_by_what_the_goods_cost():
    rate = job_of(accepted([net(1_000_000)], to_settle=[(2, STANDARD)]), settled=[5])
    line = account(rate).agreed[1]
    assert (line.net_minor, line.tax_minor) == (3 * 15_700, 9_420)
    assert "5 m³" in line.working.expression
    goods = SumToSettle(
        number=1, name="Setts", kind=SettlingKind.ACTUAL_COST, net_minor=150_000, supply_minor=100_000, of_minor=10_000,
        settles_minor=15_000, percent=20.0,
    )  # fmt: skip
    job = job_of(accepted([net(1_000_000)]).model_copy(update={"to_settle": (goods,)}))
    job = job.model_copy(update={"settled": (Settled(number=1, on=ON, cost_minor=80_000),)})
    assert account(job).agreed[1].net_minor == -30_000
    unsaid = job.model_copy(update={"settled": (Settled(number=1, on=ON, amount=3.0),)})
    assert Code.SETTLES_NOTHING in stops(unsaid)


@pytest.mark.parametrize(
    ("why", "make"),
    [
        (NotBilled.NOT_ACCEPTED, lambda: stage_bill(bare(), 1, DAY)),
        (NotBilled.NO_SUCH_STAGE, lambda: stage_bill(AGREED, 5, DAY)),
        (NotBilled.STAGE_BILLED, lambda: stage_bill(with_bills(bill(1, stage=1)), 1, DAY)),
        (NotBilled.NOTHING_LEFT, lambda: final_bill(with_bills(bill(1, 1_000_000)), DAY)),
        (NotBilled.MORE_THAN_LEFT, lambda: part_bill(AGREED, 1_200_001, DAY)),
        (NotBilled.MORE_THAN_LEFT, lambda: part_bill(AGREED, 0, DAY)),
        (NotBilled.NO_SUCH_VARIATION, lambda: variation_bill(AGREED, 1, DAY)),
        (NotBilled.NOT_APPROVED, lambda: variation_bill(job_of(accepted([net(9)]), [([net(1)], VariationState.REFUSED)]), 1, DAY)),
        (NotBilled.SAVES, lambda: variation_bill(job_of(accepted([net(900)]), [([net(-1)], VariationState.APPROVED)]), 1, DAY)),
        (NotBilled.NO_SUCH_BILL, lambda: credit_note(AGREED, 1, DAY, "")),
        (NotBilled.MORE_THAN_BILLED, lambda: credit_note(with_bills(bill()), 1, DAY, "", 120_001)),
        (NotBilled.NOTHING_HELD, lambda: retention_bill(AGREED, DAY)),
        (NotBilled.CREDIT_FIRST, lambda: final_bill(with_bills(bill(1, 1_000_000), variations=(varied(1, [net(-500)]),)), DAY)),
        (NotBilled.DATED_BEFORE, lambda: final_bill(job_of(accepted([net(9)]), [([net(1)], VariationState.APPROVED)]), dt.date(2027, 1, 20))),
        (NotBilled.DATED_BEFORE, lambda: variation_bill(job_of(accepted([net(9)]), [([net(1)], VariationState.APPROVED)]), 1, dt.date(2027, 1, 20))),
        (NotBilled.STILL_OPEN, lambda: final_bill(job_of(accepted([net(9)]), [([net(1)], VariationState.PROPOSED)]), DAY)),
    ],
)  # fmt: skip
def test_a_bill_that_cannot_be_right_is_refused_with_the_reason(why, make):
    with pytest.raises(NotBilledError) as refused:
        make()
    assert refused.value.why is why
    assert why.words.endswith(".")


def test_reverse_charge_bills_no_tax_and_tax_is_rounded_as_the_quotation_is():
    way = (TaxRegime.REVERSE_CHARGE, 20.0)
    job = job_of(accepted([net(1_000_000, way)]))
    assert final_bill(job, DAY).sums[0].tax_minor == 0
    down = job_of(accepted([net(1_003, rounding=TaxRounding.DOWN)], rounding=TaxRounding.DOWN))
    assert account(down).agreed[0].tax_minor == 200
    assert part_bill(down, 601, DAY).sums[0].tax_minor == 100


def test_pennies_of_tax_on_many_small_bills_leave_no_tax_below_zero():
    job = job_of(accepted([net(10)]))
    for _ in range(3):
        job = job.model_copy(update={"bills": (*job.bills, part_bill(job, 3, DAY))})
    job = job.model_copy(update={"bills": (*job.bills, final_bill(job, DAY))})
    assert [each.sums[0].tax_minor for each in job.bills] == [1, 1, 0, 0]
    assert account(job).is_final
    assert stops(job) == set()
