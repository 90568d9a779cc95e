"""How far a job is, as it follows from what is written down in it."""

import datetime as dt
import json

import pytest

from pavewright.desk import demo_document
from pavewright.job import parse, up_to_date
from pavewright.job.standing import JobState, NotTaken
from pavewright.order_book import ENDS, ORDER, JobFacts, Why, facts_of, state_of

DAY = dt.date(2027, 5, 10)
DEMO = json.loads(demo_document())


def job_with(**parts):
    bare = {name: value for name, value in DEMO.items() if name not in {"as_laid", "handed_over"}}
    return parse(up_to_date(bare | parts))


@pytest.mark.parametrize(
    ("facts", "state", "why"),
    [
        (JobFacts(), JobState.ENQUIRY, Why.NOTHING_YET),
        (JobFacts(visit_on=DAY), JobState.VISIT, Why.VISIT_PROMISED),
        (JobFacts(measured=True, visit_on=DAY), JobState.VISIT, Why.MEASURED),
        (JobFacts(measured=True, link_out=True), JobState.QUOTED, Why.LINK_OUT),
        (JobFacts(quoted_on=DAY, link_out=True), JobState.QUOTED, Why.QUOTED),
        (JobFacts(starts_on=DAY, quoted_on=DAY), JobState.QUOTED, Why.QUOTED),
        (JobFacts(accepted_on=DAY), JobState.ACCEPTED, Why.ACCEPTED),
        (JobFacts(accepted_on=DAY, starts_on=DAY), JobState.PLANNED, Why.DATED),
        (JobFacts(begun=True), JobState.ON_SITE, Why.BEGUN),
        (JobFacts(begun=True, completed_on=DAY, snags_open=2), JobState.SNAGGING, Why.COMPLETE),
        (JobFacts(completed_on=DAY, settled=True), JobState.PAID, Why.SETTLED),
        (JobFacts(settled=True, warranty_until=DAY), JobState.WATCHED, Why.WARRANTY),
        (JobFacts(settled=True, later_on=DAY), JobState.WATCHED, Why.LATER_VISIT),
        (JobFacts(warranty_until=DAY), JobState.ENQUIRY, Why.NOTHING_YET),
    ],
)
def test_a_state_follows_from_the_furthest_thing_written_down(facts, state, why):
    found, reason = state_of(facts)
    assert (found, reason.why, reason.follows) == (state, why, state)


def test_what_a_person_sets_wins_and_says_so():
    state, reason = state_of(JobFacts(accepted_on=DAY, by_hand=JobState.ON_SITE, by_hand_on=DAY))
    assert (state, reason.why, reason.on, reason.follows) == (JobState.ON_SITE, Why.BY_HAND, DAY, JobState.ACCEPTED)
    state, reason = state_of(JobFacts(quoted_on=DAY, by_hand=JobState.LOST, not_taken=NotTaken.PRICE))
    assert (state, reason.not_taken, reason.follows) == (JobState.LOST, NotTaken.PRICE, JobState.QUOTED)


def test_every_state_has_its_place():
    assert set(ORDER) | ENDS == set(JobState)


def test_facts_are_read_from_a_job():
    assert state_of(facts_of(job_with()))[0] is JobState.VISIT
    assert state_of(facts_of(job_with(), link_out=True))[0] is JobState.QUOTED
    day = {"name": "d1", "date": "2027-05-11"}
    begun = facts_of(job_with(site_days=[day]))
    assert (begun.begun, begun.begun_on) == (True, dt.date(2027, 5, 11))
    hand = {"state": "lost", "on": "2027-05-01", "why": "price"}
    assert state_of(facts_of(job_with(standing={"by_hand": hand})))[1].not_taken is NotTaken.PRICE
    whole = facts_of(parse(up_to_date(DEMO)))
    assert state_of(whole)[0] is JobState.SNAGGING
    assert whole.warranty_until is not None


def test_a_promised_visit_moves_an_enquiry_to_a_visit():
    bare = {"standing": {"visits": [{"name": "v1", "on": "2027-05-03"}]}, "measurements": {"datum": "none"}}
    empty = {"areas": [], "site": {}, "units": [], "arrangements": {}}
    job = job_with(**bare, **empty)
    assert facts_of(job).visit_on == dt.date(2027, 5, 3)
    assert state_of(facts_of(job))[0] is JobState.VISIT
