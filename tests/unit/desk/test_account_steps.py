"""Acceptance, variations and bills as operations on a real job: frozen, undone in one step, refused with the reason."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest
from pypdf import PdfReader

from pavewright.desk import (
    AccountRefusedError,
    AccountStep,
    account_step,
    account_told,
    find_account,
    make_pack_so_far,
    make_plan_so_far,
)
from pavewright.job import load_document, parse, to_text
from pavewright.job.operations import apply, inverse
from pavewright.papers import PaperKey
from pavewright.pipeline import varied

ROOT = Path(__file__).parents[3]
OPTION = {"name": "In running bond", "changes": [{"path": "areas.0.laying.pattern", "text": "running"}]}
HEAD = {"name": "Soft ground", "cause": "ground", "reason": "Clay found.", "asked_by": "A. Paver", "on": "2027-05-10"}
LATER_BOOK = {
    "format": "pavewright.firm",
    "version": 1,
    "rates": {"labour_minor_per_hour": 9900, "margin_percent": 40.0, "tax_percent": 5.0},
}


def step(document, what, **asked):
    done = account_step(json.dumps(document), what, {"on": "2027-05-06"} | asked)
    return apply(document, done).document, done


@pytest.fixture(scope="module")
def quoted():
    document = json.loads((ROOT / "examples" / "front_drive.json").read_text("utf-8"))
    document["terms"]["options"] = [OPTION]
    return document


@pytest.fixture(scope="module")
def accepted(quoted):
    return step(quoted, AccountStep.ACCEPT, by="A. Customer", options=[OPTION["name"]], stored_revision=3)[0]


@pytest.fixture(scope="module")
def deeper(accepted):
    return step(accepted, AccountStep.DIG_DEEPER, area="Drive", deeper_mm=120, **HEAD)


def gross(sums):
    return sum(each["net_minor"] + each["tax_minor"] for each in sums)


def test_what_is_accepted_is_what_stood_in_the_quotation_with_the_option(quoted, accepted):
    kept = accepted["accepted"]
    before = make_plan_so_far(json.dumps(quoted))
    assert gross(kept["sums"]) == before.cost.total_minor
    assert gross(kept["options"][0]["sums"]) == before.offered[0].extra_minor
    assert accepted["areas"][0]["laying"]["pattern"] == "running"
    after = make_plan_so_far(json.dumps(accepted))
    assert after.cost.total_minor == account_told(json.dumps(accepted))["agreed_minor"]
    assert kept["stored_revision"] == 3
    assert [each["name"] for each in kept["to_settle"]] == [each.description for each in before.cost.provisional.rates]


def test_several_options_come_to_the_price_of_the_job_with_all_of_them(quoted):
    both = json.loads(json.dumps(quoted))
    other = {"name": "Wider joints", "changes": [{"path": "areas.0.laying.joint_mm", "number": 5}]}
    both["terms"]["options"].append(other)
    document, _ = step(both, AccountStep.ACCEPT, by="A. Customer", options=[OPTION["name"], other["name"]])
    assert find_account(json.dumps(document)).agreed_minor == make_plan_so_far(json.dumps(document)).cost.total_minor


def test_no_later_book_or_price_moves_what_was_accepted(accepted):
    later = json.loads(json.dumps(accepted))
    later["rates"] |= {"labour_minor_per_hour": 9900, "tax_percent": 5.0}
    later["units"][0]["pack_price_minor"] = 1
    for document in (accepted, later):
        made = make_plan_so_far(json.dumps(document), firm=json.dumps(LATER_BOOK))
        assert made.cost.total_minor == find_account(json.dumps(accepted)).agreed_minor
    assert find_account(json.dumps(later)) == find_account(json.dumps(accepted))


def test_a_deeper_dig_gives_mm_m3_money_and_days_in_one_step_and_is_undone_in_one(accepted, deeper):
    document, done = deeper
    (slip,) = document["variations"]
    measures = {each["kind"]: each for each in slip["measures"]}
    assert measures["dig_depth"]["after"] - measures["dig_depth"]["before"] == 120.0
    assert measures["dig"]["after"] > measures["dig"]["before"]
    plans = [make_plan_so_far(json.dumps(each)) for each in (accepted, document)]
    assert gross(slip["sums"]) == plans[1].cost.total_minor - plans[0].cost.total_minor > 0
    assert slip["days"] == 1
    assert slip["before"][0]["layers"] != slip["after"][0]["layers"]
    assert slip["before"][0]["corners"] == slip["after"][0]["corners"]
    back = apply(document, inverse(done)).document
    assert parse(load_document(json.dumps(back))) == parse(load_document(json.dumps(accepted)))


def test_a_change_is_found_by_comparing_with_the_job_as_it_was_quoted(quoted, accepted):
    without = json.loads(json.dumps(accepted))
    without["areas"][0]["laying"]["pattern"] = quoted["areas"][0]["laying"]["pattern"]
    made, _ = step(without, AccountStep.VARY, before=json.dumps(quoted), **HEAD)
    (slip,) = made["variations"]
    assert gross(slip["sums"]) == -gross(accepted["accepted"]["options"][0]["sums"])
    with pytest.raises(AccountRefusedError, match="Nothing differs"):
        step(accepted, AccountStep.VARY, before=json.dumps(quoted), **HEAD)


def test_the_next_variation_is_compared_with_the_last(accepted, deeper):
    document, _ = deeper
    moved = json.loads(json.dumps(document))
    moved["areas"][0]["laying"]["pattern"] = "stack"
    made, _ = step(moved, AccountStep.VARY, before=json.dumps(document), **HEAD)
    assert [each["number"] for each in made["variations"]] == [1, 2]
    assert not [each for each in made["variations"][1]["measures"] if each["kind"] == "dig_depth"]


@pytest.mark.parametrize(
    ("what", "asked", "words"),
    [
        (AccountStep.ACCEPT, {"by": "A."}, "was accepted before"),
        (AccountStep.STAGE, {"number": 9}, "no such payment"),
        (AccountStep.DIG_DEEPER, {"area": "Nowhere", "deeper_mm": 5, **HEAD}, "no area Nowhere"),
        (AccountStep.STAGE, {}, "fill in every box"),
        (AccountStep.STAGE, {"number": 1, "on": "tomorrow"}, "fill in every box"),
    ],
)
def test_a_step_that_makes_no_sense_is_refused_in_words(accepted, what, asked, words):
    with pytest.raises(AccountRefusedError, match=words):
        step(accepted, what, **asked)


def test_a_job_without_a_price_cannot_be_accepted():
    bare = {
        "format": "pavewright.job", "version": 3, "measurements": {}, "areas": [], "units": [],
        "identity": {"job": "T", "title": "t", "date": "2027-01-01", "locality": "england"},
    }  # fmt: skip
    with pytest.raises(AccountRefusedError):
        step(bare, AccountStep.ACCEPT, by="A.")


def test_slips_bills_and_the_account_are_papers_of_the_pack(deeper):
    document = json.loads(json.dumps(deeper[0]))
    document["variations"][0] |= {"state": "approved", "decided_on": "2027-05-10", "decided_by": "A. Customer"}
    document, _ = step(document, AccountStep.STAGE, number=1)
    keys = frozenset({PaperKey.VARIATIONS, PaperKey.BILLS, PaperKey.ACCOUNT})
    made, left_out = make_pack_so_far(make_plan_so_far(json.dumps(document)), only=keys)
    assert left_out == ()
    papers = {each.name: each.content for each in made}
    assert set(papers) == {"variations.pdf", "invoices.pdf", "final-account.pdf"}
    said = {
        name: "".join(page.extract_text() for page in PdfReader(io.BytesIO(each)).pages)
        for name, each in papers.items()
    }
    assert "Variation 1: Soft ground" in said["variations.pdf"]
    assert "Invoice WF-2703-001" in said["invoices.pdf"]
    assert "Account so far" in said["final-account.pdf"]
    assert len(PdfReader(io.BytesIO(papers["invoices.pdf"])).pages) == 1


def test_varied_says_nothing_of_what_is_the_same(accepted):
    made = make_plan_so_far(json.dumps(accepted))
    assert to_text(made.job)
    with pytest.raises(Exception, match="same"):
        varied(made, made)
