"""The line of the list follows the job: what is to be done next is what is missing first."""

from __future__ import annotations

import json

import pytest

from pavewright.desk import demo_document, make_plan_so_far, starter_document, sums_told
from pavewright.desk._outcome import outcome
from pavewright.desk._summary import next_thing, summary


def _demo(change=None):
    job = json.loads(demo_document())
    job.pop("as_laid")
    if change:
        change(job)
    return make_plan_so_far(json.dumps(job))


def test_a_new_job_is_to_be_measured_first():
    stage, then = next_thing(make_plan_so_far(starter_document("Path")))
    assert stage == "measure"
    assert then.startswith("Nothing is measured yet: begin with the shape")


def test_a_job_that_knows_nothing_is_not_told_as_fine():
    """What it has no finding of could not be looked at."""
    assert summary(make_plan_so_far(starter_document("Path")))["whole"] is False


def test_a_job_of_which_all_is_known_was_looked_at_whole(demo):
    assert summary(demo)["whole"] is True


@pytest.fixture(scope="module")
def demo():
    return make_plan_so_far(demo_document())


def test_what_is_laid_comes_first_and_says_what_is_wrong(demo):
    stage, then = next_thing(demo)
    assert stage == "check"
    assert then.startswith("Put right: L7 lies 13.7 mm high")


def test_what_says_stop_is_the_next_thing_with_its_own_stage():
    def raise_paving(job):
        for wall in job["site"]["walls"]:
            wall["dpc_level_mm"] = 9_900.0

    plan = _demo(raise_paving)
    stop = next(finding for finding in plan.findings if finding.severity.value == "stop")
    stage, then = next_thing(plan)
    assert then == stop.message
    assert stage == {"levels": "levels", "water": "water", "earthworks": "ground"}[stop.code.partition(".")[0]]
    assert summary(plan)["stops"] == sum(finding.severity.value == "stop" for finding in plan.findings)


def test_an_outfall_that_nobody_has_seen_run_is_to_be_looked_at():
    def unseen(job):
        job["site"]["outfalls"][0]["confirmed"] = False

    stage, then = next_thing(_demo(unseen))
    assert stage == "water"
    assert then.startswith("See where")


@pytest.mark.parametrize(
    ("invented", "stage", "words"), [(True, "price", "invented"), (False, "paving", "Look at this")]
)
def test_prices_come_before_what_is_to_be_looked_at(invented, stage, words):
    def change(job):
        for outfall in job["site"]["outfalls"]:
            outfall["confirmed"] = True
        job["identity"]["invented"] = invented

    reached, then = next_thing(_demo(change))
    assert reached == stage
    assert words in then


def test_the_figures_of_a_comparison_are_those_of_the_plan(demo):
    plan = demo
    found = outcome(plan)
    assert found["whole"] == plan.laying.areas[0].whole
    assert found["cut"] == plan.laying.areas[0].cut
    assert found["total_minor"] == plan.cost.total_minor
    assert found["low_minor"] <= found["total_minor"] <= found["high_minor"]


def test_every_sum_has_a_subject():
    reported = sums_told()
    assert len({each["name"] for each in reported}) == len(reported)
    assert all(each["group"] for each in reported)
    order = list(dict.fromkeys(each["group"] for each in reported))
    assert len(order) == len({each["group"] for each in reported})
