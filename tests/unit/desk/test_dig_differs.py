"""The dig differs: one step gives the new plan, the price, the days and a slip; its inverse takes all of it back."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest
from pypdf import PdfReader

from pavewright.desk import AccountRefusedError, AccountStep, account_step, dig_step, make_pack_so_far, make_plan_so_far
from pavewright.job import load_document, parse
from pavewright.job.operations import apply, inverse
from pavewright.papers import PaperKey

ROOT = Path(__file__).parents[3]
SPOT = {
    "kind": "soft_spot", "name": "Wet clay at the gate", "area": "Drive", "depth_mm": 300, "area_m2": 6.0,
    "reason": "Sank under the plate.", "asked_by": "A. Paver", "on": "2027-05-10",
}  # fmt: skip
SLAB = SPOT | {"kind": "concrete", "name": "Old garage floor", "depth_mm": 150, "area_m2": 20.0}
PIPE = SPOT | {"kind": "drain", "name": "Clay pipe", "depth_mm": 200, "area_m2": None, "length_mm": 6000.0}
DEEPER = SPOT | {"kind": "deeper", "name": "Soft all over", "depth_mm": 120, "area_m2": None}


@pytest.fixture(scope="module")
def quoted():
    return json.loads((ROOT / "examples" / "front_drive.json").read_text("utf-8"))


@pytest.fixture(scope="module")
def accepted(quoted):
    asked = {"on": "2027-05-06", "by": "A. Customer", "stored_revision": 3}
    return apply(quoted, account_step(json.dumps(quoted), AccountStep.ACCEPT, asked)).document


def differs(document, asked):
    found = dig_step(json.dumps(document), asked)
    return apply(document, found["operations"]).document, found


def gross(variation):
    return sum(each["net_minor"] + each["tax_minor"] for each in variation["sums"])


def test_before_it_is_accepted_a_find_changes_the_job_and_enters_no_variation(quoted):
    after, found = differs(quoted, SPOT)
    assert [each["name"] for each in after["dig_found"]] == ["Wet clay at the gate"]
    assert not after.get("variations")
    assert not found["is_agreed_work"]
    plans = [make_plan_so_far(json.dumps(each)) for each in (quoted, after)]
    assert gross(found["variation"]) == plans[1].cost.total_minor - plans[0].cost.total_minor > 0
    measures = {each["kind"]: each for each in found["variation"]["measures"]}
    assert measures["dig"]["after"] - measures["dig"]["before"] == pytest.approx(1.8, abs=0.11)
    assert measures["stone"]["after"] > measures["stone"]["before"]
    back = apply(after, inverse(found["operations"])).document
    assert parse(load_document(json.dumps(back))) == parse(load_document(json.dumps(quoted)))


@pytest.mark.parametrize(("asked", "cause"), [(SPOT, "ground"), (SLAB, "hidden"), (PIPE, "hidden"), (DEEPER, "ground")])
def test_after_that_each_find_is_a_variation_to_sign_and_is_undone_in_one_step(accepted, asked, cause):
    after, found = differs(accepted, asked)
    (slip,) = after["variations"]
    assert slip["cause"] == cause
    assert slip.get("state", "proposed") == "proposed"
    plans = [make_plan_so_far(json.dumps(each)) for each in (accepted, after)]
    assert gross(slip) == plans[1].cost.total_minor - plans[0].cost.total_minor > 0
    assert slip["days"] is not None
    back = apply(after, inverse(found["operations"])).document
    assert parse(load_document(json.dumps(back))) == parse(load_document(json.dumps(accepted)))


def test_a_deeper_dig_of_the_find_is_that_of_the_command(accepted):
    after, _ = differs(accepted, DEEPER)
    head = {"name": "x", "cause": "ground", "reason": DEEPER["reason"], "asked_by": "A. Paver", "on": "2027-05-10"}
    other = account_step(json.dumps(accepted), AccountStep.DIG_DEEPER, head | {"area": "Drive", "deeper_mm": 120})
    assert after["variations"][0]["sums"] == apply(accepted, other).document["variations"][0]["sums"]
    measures = {each["kind"]: each for each in after["variations"][0]["measures"]}
    assert measures["dig_depth"]["after"] - measures["dig_depth"]["before"] == 120.0


def test_a_find_that_a_phone_wrote_gets_its_variation_on_the_working_screen(accepted):
    after, found = differs(accepted, SPOT)
    from_phone = {name: value for name, value in after.items() if name != "variations"}
    there, made = differs(from_phone, {"find": SPOT["name"], "on": "2027-05-10"})
    assert made["variation"]["sums"] == found["variation"]["sums"]
    assert [each["name"] for each in there["variations"]] == [SPOT["name"]]
    with pytest.raises(AccountRefusedError, match="fill in every box"):
        dig_step(json.dumps(accepted), {"find": "Nothing", "on": "2027-05-10"})


def test_a_second_find_of_one_name_gets_its_own(quoted):
    once, _ = differs(quoted, SPOT)
    twice, found = differs(once, SPOT)
    assert [each["name"] for each in twice["dig_found"]] == ["Wet clay at the gate", "Wet clay at the gate 2"]
    assert gross(found["variation"]) > 0


def test_a_job_without_a_price_takes_the_find_and_says_that_it_has_none_to_compare(quoted):
    bare = json.loads(json.dumps(quoted))
    bare["rates"] = {}
    after, found = differs(bare, SPOT)
    assert found["variation"] is None
    assert after["dig_found"]


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        (SPOT | {"area": "Nowhere"}, "no area of the job"),
        (SPOT | {"area_m2": None}, "How large"),
        (PIPE | {"length_mm": None}, "How long"),
        (SPOT | {"depth_mm": "deep"}, "fill in every box"),
        (SPOT | {"kind": "gold"}, "fill in every box"),
        (SPOT | {"area_m2": None, "outline": [{"x_mm": 9e6 + x, "y_mm": 9e6 + y} for x, y in ((0, 0), (9, 0), (9, 9))]},
         "Nothing differs"),
    ],
)  # fmt: skip
def test_a_find_that_makes_no_sense_is_refused_in_words(quoted, asked, words):
    with pytest.raises(AccountRefusedError, match=words):
        dig_step(json.dumps(quoted), asked)


def test_the_slip_is_a_paper_to_sign(accepted):
    after, _ = differs(accepted, SLAB)
    made, left_out = make_pack_so_far(make_plan_so_far(json.dumps(after)), only=frozenset({PaperKey.VARIATIONS}))
    assert left_out == ()
    (paper,) = made
    said = " ".join(page.extract_text() for page in PdfReader(io.BytesIO(paper.content)).pages)
    assert "Variation 1: Old garage floor" in said
