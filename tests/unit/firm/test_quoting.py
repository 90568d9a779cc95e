"""A quoted job keeps its prices, and shows what re-pricing changes, line by line."""

from __future__ import annotations

import copy
import datetime as dt
import json
from typing import Any

import pytest

from pavewright import firm, rulebook
from pavewright.cost import LineChangeKind, PriceStep, TaskKind
from pavewright.desk import demo_document, make_plan
from pavewright.firm import with_book
from pavewright.job import parse
from pavewright.job.operations import apply
from pavewright.pipeline import reprice

ON = dt.date(2027, 4, 1)


@pytest.fixture(scope="module")
def bare() -> dict[str, Any]:
    """The demo with all its prices left to the book."""
    document = json.loads(demo_document())
    document["rates"] = {"plant": [{"key": each["key"], "name": each["name"]} for each in document["rates"]["plant"]]}
    del document["units"][0]["pack_price_minor"]
    del document["crew"]
    return document


@pytest.fixture(scope="module")
def book() -> dict[str, Any]:
    demo = json.loads(demo_document())
    return {
        "format": "pavewright.firm",
        "version": 1,
        "rates": demo["rates"],
        "units": demo["units"],
        "crew": demo["crew"],
        "outputs": [{"kind": "cut_h_each", "hours_each": 0.2}],
    }


@pytest.fixture(scope="module")
def dearer(book) -> dict[str, Any]:
    """The book a year later: cement and labour cost more, cutting goes quicker, and pipes have no price any more."""
    later = copy.deepcopy(book)
    later["rates"]["labour_minor_per_hour"] += 300
    cement = next(each for each in later["rates"]["materials"] if each["key"] == "cement")
    cement["pack_price_minor"] += 60
    later["rates"]["materials"] = [each for each in later["rates"]["materials"] if each["key"] != "pipe_bend"]
    later["outputs"][0]["hours_each"] = 0.1
    later["overhead"] = {"yearly": [{"name": "Van", "minor": 100}], "direct_minor": 1000}
    del later["rates"]["overhead_percent"]
    later["crew"]["people"] = 3
    return later


@pytest.fixture(scope="module")
def rules():
    return rulebook.load(rulebook.newest("england"))


@pytest.fixture(scope="module")
def quoted(bare, book, rules) -> dict[str, Any]:
    used = [each["key"] for each in book["rates"]["catalogue"]]
    made = firm.quoted(bare, firm.read(book), ON, rules, used)
    return apply(bare, made).document


def test_what_is_quoted_goes_in_as_operations_and_can_be_read(bare, quoted, rules):
    job = parse(quoted)
    assert job.quoted is not None
    assert job.quoted.on == ON
    assert job.quoted.rates.labour_minor_per_hour == 2850
    assert job.quoted.unit_prices[0].pack_price_minor == 23800
    assert job.identity.edition == rules.dated
    assert job.rates == parse(bare).rates


def test_a_quoted_job_resolves_as_it_was_quoted_whatever_the_book_says_since(bare, book, dearer, quoted):
    then = with_book(parse(bare), firm.read(book))
    now = with_book(parse(quoted), firm.read(dearer))
    assert now.rates == then.rates
    assert now.units == then.units
    assert now.crew == then.crew
    assert with_book(parse(quoted), None).rates == then.rates


def test_what_belongs_to_a_price_is_kept_with_it_whatever_the_book_says_since(rules):
    cement = {"key": "cement", "pack_amount": 25.0, "pack_unit": "kg"}
    document = json.loads(demo_document()) | {"rates": {"materials": [cement]}}
    priced = cement | {"name": "Bag", "pack_price_minor": 85, "bulk_kg_per_m3": 1400.0}
    book = firm.read({"format": "pavewright.firm", "version": 1, "currency": "GBP", "rates": {"materials": [priced]}})
    made = parse(apply(document, firm.quoted(document, book, ON, rules)).document)
    for later in (None, firm.read({"format": "pavewright.firm", "version": 1})):
        (kept,) = with_book(made, later).rates.materials
        assert (kept.name, kept.pack_price_minor, kept.bulk_kg_per_m3) == ("Bag", 85, 1400.0)


def test_the_price_of_a_quoted_job_stays(bare, book, dearer, quoted):
    then = make_plan(json.dumps(bare), None, json.dumps(book))
    now = make_plan(json.dumps(quoted), None, json.dumps(dearer))
    assert now.cost == then.cost
    assert "firm.quoted" in {each.code for each in now.findings}
    assert "firm.quoted_otherwise" not in {each.code for each in now.findings}


def test_what_the_job_says_otherwise_since_is_not_used_and_is_named(quoted, book):
    changed = copy.deepcopy(quoted)
    changed["rates"]["margin_percent"] = 40.0
    changed["units"][0]["pack_price_minor"] = 1
    assert with_book(parse(changed), firm.read(book)).rates.margin_percent == 18.0
    found = {each.code: each.message for each in firm.book_findings(parse(changed), firm.read(book))}
    assert "the margin" in found["firm.quoted_otherwise"]
    assert "Flag 600" in found["firm.quoted_otherwise"]


def test_what_was_not_known_when_it_was_quoted_stays_unknown(bare, book, rules):
    poor = copy.deepcopy(book)
    del poor["rates"]["margin_percent"]
    made = apply(bare, firm.quoted(bare, firm.read(poor), ON, rules)).document
    assert with_book(parse(made), firm.read(book)).rates.margin_percent is None


def test_another_machine_than_was_quoted_has_no_price_until_the_job_says_one_or_is_quoted_again(quoted, book):
    changed = copy.deepcopy(quoted)
    changed["rates"]["plant"].append({"key": "plate", "name": "Plate"})
    plant = with_book(parse(changed), firm.read(book)).rates.plant
    assert plant[-1].day_price_minor is None
    more = copy.deepcopy(book)
    more["rates"]["plant"].append({"key": "plate", "name": "Plate", "day_price_minor": 2500})
    assert with_book(parse(changed), firm.read(more)).rates.plant[-1].day_price_minor is None
    changed["rates"]["plant"][-1]["day_price_minor"] = 2600
    assert with_book(parse(changed), firm.read(more)).rates.plant[-1].day_price_minor == 2600


def test_a_catalogue_is_kept_as_far_as_it_is_used(bare, book, rules):
    items = [{"key": f"item_{n}", "name": f"Item {n}", "pack_amount": 1.0, "pack_unit": "each"} for n in range(5)]
    large = {**book, "rates": {**book["rates"], "catalogue": items}}
    made = apply(bare, firm.quoted(bare, firm.read(large), ON, rules, used={"item_3"})).document
    assert [each["key"] for each in made["quoted"]["rates"]["catalogue"]] == ["item_3"]


def test_repricing_shows_every_line_that_changes_and_adds_up(quoted, dearer, rules):
    found = reprice(parse(quoted), rules, firm.read(dearer))
    assert found is not None
    steps = {each.step: each.new_minor - each.old_minor for each in found.steps}
    assert sum(line.extra_minor for line in found.lines) == steps[PriceStep.PRIME]
    kinds = {line.key.text: line.kind for line in found.lines}
    assert kinds["material.cement"] is LineChangeKind.RATE
    assert LineChangeKind.GONE in kinds.values()
    assert LineChangeKind.BOTH in kinds.values()
    assert found.gaps_new == found.gaps_old + 1
    assert [line.extra_minor for line in found.lines] == sorted(
        (each.extra_minor for each in found.lines), reverse=True
    )


def test_repricing_with_the_same_book_changes_nothing(quoted, book, rules):
    found = reprice(parse(quoted), rules, firm.read(book))
    assert found is not None
    assert found.lines == ()
    assert all(step.old_minor == step.new_minor for step in found.steps)


def test_a_book_of_other_money_and_a_price_of_another_pack_are_named(bare, book):
    other = firm.read({**book, "currency": "EUR"})
    assert [each.code for each in firm.book_findings(parse(bare), other)] == ["firm.other_money"]
    packs = copy.deepcopy(book)
    packs["units"][0]["per_pack"] = 7
    found = firm.book_findings(parse(bare), firm.read(packs))
    assert [each.code for each in found] == ["firm.other_pack"]
    assert "Flag 600" in found[0].message


def test_outputs_learnt_from_past_jobs_are_kept_as_they_were(bare, book, rules):
    past = [{"job": f"J{n}", "kind": "lay_flags_h_per_m2", "amount": 20.0, "person_hours": 12.0 + n} for n in range(4)]
    learning = firm.read({**book, "past": past})
    used = [each["key"] for each in book["rates"]["catalogue"]]
    made = apply(bare, firm.quoted(bare, learning, ON, rules, used)).document
    then = make_plan(json.dumps(bare), None, firm.to_text(learning))
    now = make_plan(json.dumps(made), None, json.dumps(book))
    assert now.cost.labour == then.cost.labour
    assert then.cost.labour != make_plan(json.dumps(bare), None, json.dumps(book)).cost.labour


def test_assemblies_that_were_switched_off_or_on_stay_as_they_were_quoted(bare, book, rules):
    """Whatever the book and the job say since, blades are bought or not as the customer was quoted."""

    def blades(document, with_this):
        plan = make_plan(json.dumps(document), None, json.dumps(with_this))
        return any(item.key.catalogue == "saw_blade" for item in plan.quantities.items), plan

    off = copy.deepcopy(book)
    off["rates"]["assemblies"] = [{"key": "saw_blade", "off": True}]
    used = [each["key"] for each in book["rates"]["catalogue"]]
    quoted_with, quoted_without = (
        apply(bare, firm.quoted(bare, firm.read(each), ON, rules, used)).document for each in (book, off)
    )
    assert blades(bare, book)[0]
    assert not blades(bare, off)[0]
    assert blades(quoted_with, off)[0]
    assert not blades(quoted_without, book)[0]
    changed = copy.deepcopy(quoted_with)
    changed["rates"]["assemblies"] = [{"key": "saw_blade", "off": True}]
    bought, plan = blades(changed, book)
    assert bought
    assert plan.cost.total_minor == blades(quoted_with, book)[1].cost.total_minor
    found = {each.code: each.message for each in plan.findings}
    assert "bought beside what is drawn" in found["firm.quoted_otherwise"]


def test_what_is_done_moves_the_dates_of_a_quoted_job_and_not_its_price(quoted):
    before = make_plan(json.dumps(quoted))
    lay = next(each for each in before.programme.tasks if each.key.kind is TaskKind.LAY)
    late = copy.deepcopy(quoted)
    late["done"] = [{"task": lay.key.text, "on": str(lay.finish.date() + dt.timedelta(days=3)), "done_percent": 40}]
    after = make_plan(json.dumps(late))
    assert after.programme.finish > before.programme.finish
    assert [each.days for each in after.programme.hires] != [each.days for each in before.programme.hires]
    assert after.cost.total_minor == before.cost.total_minor
    assert after.cost.lines == before.cost.lines
    # its day is written as every other on the screen
    assert any("quoted on Thu 1 Apr 2027 as revision" in each.message for each in after.findings)
