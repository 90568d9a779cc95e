"""What is due against a day, from days that a job knows."""

import datetime as dt
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright import rulebook
from pavewright.desk import demo_document
from pavewright.job import parse, up_to_date
from pavewright.job.standing import JobState
from pavewright.order_book import (
    ORDER,
    DueFact,
    DueKind,
    DueWhen,
    JobDues,
    JobFacts,
    book_of,
    due_items,
    follows_from,
    place_of,
)
from pavewright.pipeline import plan_as_far

import json

TODAY = dt.date(2027, 5, 10)
DAYS = st.dates(dt.date(2027, 4, 1), dt.date(2027, 6, 30))
FACTS = st.builds(
    DueFact, st.sampled_from(DueKind), st.sampled_from(["a", "b"]), DAYS, st.one_of(st.none(), DAYS), st.just(""),
    st.one_of(st.none(), st.integers(1, 900)),
)  # fmt: skip
JOBS = st.builds(
    JobDues, st.sampled_from(["j1", "j2"]), st.just("Patio"), st.sampled_from([None, *JobState]), st.just("GBP"),
    st.lists(FACTS, max_size=8).map(tuple),
)  # fmt: skip
FIELDS = {
    "visit_on": DAYS, "measured": st.just(True), "quoted_on": DAYS, "link_out": st.just(True), "accepted_on": DAYS,
    "starts_on": DAYS, "begun": st.just(True), "begun_on": DAYS, "completed_on": DAYS, "final_bill_sent": st.just(True),
    "snags_open": st.integers(1, 9), "settled": st.just(True), "warranty_until": DAYS, "later_on": DAYS,
}  # fmt: skip


@settings(max_examples=200, deadline=None)
@given(st.lists(JOBS, max_size=4), st.booleans())
def test_nothing_is_due_twice_and_no_money_is_told_who_may_not_see_it(jobs, money):
    found = due_items(jobs, TODAY, money=money)
    keys = [(each.job_id, each.fact.kind, each.fact.key) for each in found]
    assert len(keys) == len(set(keys))
    assert [each.fact.on for each in found] == sorted(each.fact.on for each in found)
    ranks = [(each.fact.on, list(DueKind).index(each.fact.kind)) for each in found]
    assert ranks == sorted(ranks)
    # hidden amounts say nothing by the order either
    bare = [replace(each, dues=tuple(replace(fact, amount_minor=None) for fact in each.dues)) for each in jobs]
    hidden = [(each.job_id, each.fact.kind, each.fact.key) for each in due_items(bare, TODAY, money=False)]
    assert money or keys == hidden
    if not money:
        assert all(each.fact.kind not in {DueKind.BILL_OWING, DueKind.PAYMENT_OUT} for each in found)


def test_of_one_day_and_kind_the_largest_amount_comes_first():
    def bill(title, amount):
        return JobDues(
            title, title, None, "GBP", (DueFact(DueKind.BILL_OWING, "b", TODAY, amount_minor=amount),), "ZZ9"
        )

    asked = JobDues("q", "Question", None, "", (DueFact(DueKind.QUESTION, "q", TODAY),))
    jobs = [bill("Small", 100), bill("Unknown", None), bill("Large", 900), asked]
    found = due_items(jobs, TODAY)
    assert [each.title for each in found] == ["Question", "Large", "Small", "Unknown"]
    assert [each.place for each in found] == ["", "ZZ9", "ZZ9", "ZZ9"]


@settings(max_examples=200, deadline=None)
@given(st.fixed_dictionaries({}, optional=FIELDS), st.fixed_dictionaries({}, optional=FIELDS))
def test_more_that_is_written_down_never_moves_a_job_back(known, more):
    before, after = (follows_from(JobFacts(**each))[0] for each in (known, more | known))
    assert ORDER.index(after) >= ORDER.index(before)


def test_a_thing_is_shown_from_its_days_ahead_until_its_last_day():
    order = DueFact(DueKind.ORDER_BY, "slabs", TODAY, TODAY + dt.timedelta(days=3))
    job = JobDues("j", "Patio", JobState.PLANNED, "GBP", (order,))
    seen = {
        days: [each.when for each in due_items([job], TODAY + dt.timedelta(days=days))] for days in (-3, -2, 0, 3, 4)
    }
    assert seen == {-3: [], -2: [DueWhen.SOON], 0: [DueWhen.TODAY], 3: [DueWhen.LATE], 4: []}
    assert due_items([JobDues("j", "Patio", JobState.LOST, "GBP", (order,))], TODAY) == ()


def test_the_order_book_of_the_demo_knows_its_days_and_names_what_it_does_not_know():
    rules = rulebook.load("england")
    made = plan_as_far(parse(up_to_date(json.loads(demo_document()))), rules)
    book = book_of(made, rules)
    kinds = {fact.kind for fact in book.dues}
    assert {DueKind.STARTS, DueKind.PAYMENT_OUT} <= kinds
    keys = [(fact.kind, fact.key) for fact in book.dues]
    assert len(keys) == len(set(keys))
    assert book.weeks
    assert all(week.week.weekday() == 0 for week in book.weeks)
    bare = parse(
        up_to_date({**json.loads(demo_document()), "rates": {}, "terms": {}, "as_laid": None, "handed_over": None})
    )
    assert {gap.value for gap in book_of(plan_as_far(bare, rules), rules).gaps} >= {"no_stages"}


def test_a_place_is_the_district_of_a_postcode_or_a_town():
    assert place_of("1 High Street\nNether Combe\nZZ10 1AA") == "ZZ10"
    assert place_of("Flat 2, 3 Mill Lane, Mill End") == "Mill End"
    assert place_of("") == ""
