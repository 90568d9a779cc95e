"""Payments by stages and the curve of cash: everything that comes in and goes out is there, to the penny."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.cash import FlowKind, cash, payments, retained
from pavewright.cash._payments import stage_amounts
from pavewright.cost import LineGroup
from pavewright.findings import Severity
from pavewright.job import PaymentEvent, StagePayment, Terms
from pavewright.pipeline import cash_of, plan

EVENTS = list(PaymentEvent)


@pytest.fixture
def job(small):
    small.rectangle(4000.0, 3000.0)
    small.document["rates"] |= {"overhead_percent": 10.0, "margin_percent": 20.0, "tax_percent": 20.0}
    small.document["crew"] = {"people": 2}
    small.document["calendar"] = {"start": "2027-05-10"}
    return small


def found(job):
    made = plan(job.job(), job.rules)
    return made, cash_of(made, job.rules)


@settings(max_examples=200, deadline=None)
@given(st.integers(0, 10_000_000), st.lists(st.integers(1, 50), min_size=1, max_size=8), st.booleans())
def test_stages_add_up_to_the_price(total, parts, rest):
    shares = [100.0 * part / sum(parts) for part in parts]
    stages = [StagePayment(event=PaymentEvent.LAID, percent=min(share, 100.0)) for share in shares]
    if rest:
        stages[-1] = StagePayment(event=PaymentEvent.COMPLETE)
    assert abs(sum(stage_amounts(total, stages)) - total) <= (0 if rest else 1)


@settings(max_examples=200, deadline=None)
@given(st.lists(st.integers(0, 5_000_000), min_size=1, max_size=8), st.floats(0, 100), st.floats(0, 100), st.data())
def test_what_is_held_back_is_freed_in_the_end(gross, percent, freed_percent, data):
    complete = data.draw(st.integers(0, len(gross) - 1))
    held, freed, left = retained(gross, complete, percent, freed_percent)
    assert sum(held) == sum(freed) + left
    assert left >= 0
    assert all(kept >= 0 for kept in held)


def test_all_that_comes_in_is_the_price_and_the_curve_ends_at_the_margin(job):
    job.document["terms"] = {
        "stages": [{"event": "deposit", "percent": 20}, {"event": "laid", "percent": 40}, {"event": "complete"}],
        "retention_percent": 5,
        "days_to_pay": 7,
        "supplier_days": 30,
    }
    made, cash = found(job)
    assert sum(each.due_minor for each in cash.payments) == made.cost.total_minor
    of = {kind: sum(flow.amount_minor for flow in cash.flows if flow.kind is kind) for kind in FlowKind}
    assert of[FlowKind.PAYMENT] + of[FlowKind.RETENTION] == made.cost.total_minor
    assert -of[FlowKind.TAX] == made.cost.tax_minor
    assert -of[FlowKind.OVERHEAD] == made.cost.overhead_minor
    assert cash.days[-1].balance_minor == made.cost.margin_minor
    assert cash.lowest_minor == min(0, *(day.balance_minor for day in cash.days))


def test_payments_wait_for_what_can_be_seen(job):
    job.document["terms"] = {
        "stages": [{"event": event, "percent": 20} for event in ("deposit", "materials_on_site", "base_in", "laid")]
        + [{"event": "complete"}],
        "deposit_days": 10,
    }
    made, cash = found(job)
    on = {each.event: each.on for each in cash.payments}
    tasks = {task.key.text: task for task in made.programme.tasks}
    assert on[PaymentEvent.DEPOSIT] == made.programme.start - dt.timedelta(days=10)
    assert on[PaymentEvent.LAID] == max(task.finish.date() for key, task in tasks.items() if key.startswith("lay"))
    assert on[PaymentEvent.COMPLETE] == made.programme.finish


def test_labour_is_paid_on_fridays_and_suppliers_after_their_days(job):
    goods = {"name": "Bench", "amount_minor": 40_000, "attendance_minor": 4_000}
    job.document["terms"] = {"supplier_days": 30, "prime_costs": [goods]}
    made, cash = found(job)
    work = sum(line.amount_minor for line in made.cost.lines if line.group is LineGroup.LABOUR)
    assert -sum(flow.amount_minor for flow in cash.flows if flow.kind is FlowKind.LABOUR) == work
    assert {flow.on.weekday() for flow in cash.flows if flow.kind is FlowKind.LABOUR} == {4}
    bought = [flow.on for flow in cash.flows if flow.kind is FlowKind.MATERIAL]
    assert min(bought) >= made.programme.start + dt.timedelta(days=23)


def test_without_stages_all_comes_on_completion_and_the_lowest_point_has_its_day(job):
    made, cash = found(job)
    assert [each.gross_minor for each in cash.payments] == [made.cost.total_minor]
    assert cash.lowest_minor < 0
    assert cash.lowest_on is not None
    assert {each.code for each in cash.findings} == {"cash.no_stages", "cash.under_water"}


def test_sums_that_come_to_more_than_the_price_stop_the_job(job):
    job.document["terms"] = {"stages": [{"event": "deposit", "amount_minor": 99_000_000}, {"event": "complete"}]}
    _, cash = found(job)
    assert "cash.stages_too_much" in {each.code for each in cash.findings}


def test_while_there_are_no_dates_payments_have_sums_and_no_days():
    paid = payments(10_000, Terms(stages=(StagePayment(event=PaymentEvent.COMPLETE),)), {})
    assert [(each.due_minor, each.paid_on) for each in paid] == [(10_000, None)]


def test_a_payment_that_waits_for_what_nobody_will_ever_see_stops(job):
    job.document["terms"] = {"stages": [{"event": "laid", "percent": 50}, {"event": "complete"}]}
    assert "cash.unseen" not in {each.code for each in found(job)[1].findings}
    made = plan(job.job(), job.rules)
    nothing = replace(made.programme, tasks=())
    there = cash(made.job, made.cost, nothing, job.rules)
    (said,) = [each for each in there.findings if each.code == "cash.unseen"]
    assert said.severity is Severity.STOP
    assert "lays nothing" in said.message


STAGES = {"stages": [{"event": "deposit", "percent": 20}, {"event": "laid", "percent": 40}, {"event": "complete"}]}
BOUGHT = {FlowKind.MATERIAL, FlowKind.PLANT, FlowKind.DISPOSAL}


def sums(cash):
    return {kind: sum(flow.amount_minor for flow in cash.flows if flow.kind is kind) for kind in FlowKind}


def test_tax_on_purchases_goes_out_with_them_and_comes_off_what_is_set_aside_where_it_is_reclaimed(job):
    job.document["terms"] = STAGES
    _, before = found(job)
    job.document["terms"] = STAGES | {"reclaims_tax": True}
    made, cash = found(job)
    of = sums(cash)
    bought = -sum(of[kind] for kind in BOUGHT)
    assert bought > 0
    assert -of[FlowKind.PURCHASE_TAX] == pytest.approx(bought * 0.2, abs=len(cash.flows))
    assert of[FlowKind.TAX] + of[FlowKind.PURCHASE_TAX] == -made.cost.tax_minor
    assert cash.days[-1].balance_minor == made.cost.margin_minor == before.days[-1].balance_minor
    assert not any(each.code == "cash.tax_not_reclaimed" for each in cash.findings)


def test_tax_that_is_not_reclaimed_comes_off_the_margin_and_is_said(job):
    job.document["terms"] = STAGES | {"reclaims_tax": False, "purchase_tax_percent": 20}
    made, cash = found(job)
    tax = -sums(cash)[FlowKind.PURCHASE_TAX]
    assert cash.days[-1].balance_minor == made.cost.margin_minor - tax
    (finding,) = (each for each in cash.findings if each.code == "cash.tax_not_reclaimed")
    assert (finding.severity, finding.value) == (Severity.CHECK, tax)
    job.document["terms"]["purchase_tax_percent"] = 0
    made, cash = found(job)
    assert cash.days[-1].balance_minor == made.cost.margin_minor
    assert not any(each.code == "cash.tax_not_reclaimed" for each in cash.findings)


def test_where_no_tax_comes_in_that_on_purchases_comes_back_with_a_return(job):
    job.document["terms"] = STAGES | {"reclaims_tax": True}
    job.document["rates"]["tax_regime"] = "reverse_charge"
    made, cash = found(job)
    last = cash.flows[-1]
    assert made.cost.tax_minor == 0
    assert (last.kind, last.amount_minor) == (FlowKind.TAX, -sums(cash)[FlowKind.PURCHASE_TAX])
    assert (last.on - max(flow.on for flow in cash.flows if flow.kind is FlowKind.PURCHASE_TAX)).days == 120
    assert cash.days[-1].balance_minor == made.cost.margin_minor
    deepest = min(day.balance_minor for day in cash.days)
    assert cash.lowest_minor == min(0, deepest)
