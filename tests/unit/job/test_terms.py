"""Terms of a job: stages make the whole price, in the order of the work."""

import json
from pathlib import Path

import pytest
from pavewright.job import JobInvalid, PaymentEvent, Terms, parse

DEMO = Path(__file__).parents[3] / "src" / "pavewright" / "desk" / "demo.json"


def with_terms(terms):
    document = json.loads(DEMO.read_text("utf-8"))
    document["terms"] = terms
    return document


def faults(terms):
    with pytest.raises(JobInvalid) as refused:
        parse(with_terms(terms))
    return {fault.path: fault.message for fault in refused.value.faults}


def test_a_job_without_terms_reads_and_knows_none():
    document = json.loads(DEMO.read_text("utf-8"))
    document.pop("terms", None)
    assert parse(document).terms == Terms()
    assert parse(with_terms(None)).terms == Terms()


def test_one_stage_takes_the_rest():
    stages = [{"event": "deposit", "amount_minor": 50_000}, {"event": "laid", "percent": 60}, {"event": "complete"}]
    assert [each.event for each in parse(with_terms({"stages": stages})).terms.stages] == [
        PaymentEvent.DEPOSIT,
        PaymentEvent.LAID,
        PaymentEvent.COMPLETE,
    ]


@pytest.mark.parametrize(
    ("stages", "path"),
    [
        ([{"event": "laid", "percent": 60}, {"event": "complete", "percent": 30}], "terms.stages"),
        ([{"event": "laid", "percent": 60}, {"event": "complete", "percent": 50}], "terms.stages"),
        ([{"event": "laid", "percent": 60, "amount_minor": 5}, {"event": "complete"}], "terms.stages.0"),
        ([{"event": "laid"}, {"event": "complete"}], "terms.stages.1"),
        ([{"event": "complete", "percent": 60}, {"event": "laid"}], "terms.stages.1.event"),
        ([{"event": "deposit", "amount_minor": 5}, {"event": "laid", "percent": 100}], "terms.stages"),
    ],
)
def test_stages_that_make_no_whole_price_are_faults(stages, path):
    assert path in faults({"stages": stages})


def test_a_name_stands_once():
    items = [{"name": "Bench", "amount_minor": 1}, {"name": "Bench", "amount_minor": 2}]
    assert "terms.prime_costs.1.name" in faults({"prime_costs": items})
