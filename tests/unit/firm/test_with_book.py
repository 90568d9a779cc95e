"""What a job takes from the book, and what it keeps for itself."""

from __future__ import annotations

import copy
import json
from typing import Any

import pytest

from pavewright import firm
from pavewright.desk import demo_document
from pavewright.firm import with_book
from pavewright.job import JobInvalid, Skill, TaxRegime, parse


@pytest.fixture(scope="module")
def demo() -> dict[str, Any]:
    return json.loads(demo_document())


def book_of(**parts: Any) -> firm.FirmBook:
    return firm.read({"format": "pavewright.firm", "version": 1, **parts})


def faults(**parts: Any) -> dict[str, str]:
    with pytest.raises(JobInvalid) as caught:
        book_of(**parts)
    return {fault.path: fault.message for fault in caught.value.faults}


def less(document: dict[str, Any], *paths: str) -> dict[str, Any]:
    """Return a document without some fields."""
    left = copy.deepcopy(document)
    for path in paths:
        *way, last = [int(step) if step.isdigit() else step for step in path.split(".")]
        here: Any = left
        for step in way:
            here = here[step]
        del here[last]
    return left


def test_no_book_and_an_empty_book_change_nothing(demo):
    job = parse(demo)
    assert with_book(job, None) is job
    assert with_book(job, book_of()) == job


def test_the_whole_of_the_prices_may_stand_in_the_book(demo):
    whole = parse(demo)
    bare = less(demo, "crew", "units.0.pack_price_minor")
    bare["rates"] = {"plant": [{"key": each["key"], "name": each["name"]} for each in demo["rates"]["plant"]]}
    book = book_of(rates=demo["rates"], units=demo["units"], crew=demo["crew"])
    filled = with_book(parse(bare), book)
    assert filled.rates == whole.rates
    assert filled.units == whole.units
    assert filled.crew == whole.crew


def test_what_a_job_says_wins(demo):
    rates = copy.deepcopy(demo["rates"])
    rates |= {"labour_minor_per_hour": 9999, "overhead_percent": 50.0, "tax_percent": 5.0}
    for each in rates["materials"]:
        each["pack_price_minor"] = 1
        each["supplier"] = "Somebody"
    job = parse(demo)
    filled = with_book(job, book_of(rates=rates, units=[{**demo["units"][0], "pack_price_minor": 1}]))
    assert filled.rates == job.rates
    assert filled.units == job.units


def test_a_price_of_another_pack_is_no_price_of_this_one(demo):
    bare = less(demo, "units.0.pack_price_minor")
    bare["rates"]["materials"] = [{"key": "cement", "pack_amount": 20.0, "pack_unit": "kg"}]
    other = {**demo["units"][0], "per_pack": 40}
    filled = with_book(parse(bare), book_of(rates={"materials": demo["rates"]["materials"]}, units=[other]))
    assert filled.units[0].pack_price_minor is None
    assert filled.rates.materials[0].pack_price_minor is None
    assert [each.key for each in filled.rates.materials].count("cement") == 1


def test_the_day_and_the_supplier_come_with_the_price_and_not_without(demo):
    mine = {"key": "cement", "pack_amount": 25.0, "pack_unit": "kg"}
    theirs = {
        **mine,
        "pack_price_minor": 700,
        "priced_on": "2026-03-02",
        "supplier": "Invented Merchants",
        "lead_days": 2,
    }
    book = book_of(rates={"materials": [theirs]})
    own = less(demo, "rates")
    own["rates"] = {"materials": [{**mine, "pack_price_minor": 500}]}
    assert with_book(parse(own), book).rates.materials[0].priced_on is None
    own["rates"] = {"materials": [mine]}
    filled = with_book(parse(own), book).rates.materials[0]
    assert (filled.pack_price_minor, filled.supplier, filled.lead_days) == (700, "Invented Merchants", 2)
    assert str(filled.priced_on) == "2026-03-02"


def test_a_book_in_other_money_gives_no_price(demo):
    bare = less(demo, "rates", "crew")
    filled = with_book(parse(bare), book_of(currency="EUR", rates=demo["rates"], crew=demo["crew"]))
    assert filled.rates == parse(bare).rates
    assert filled.crew.people == 2


def test_plant_of_the_book_is_hired_only_where_it_is_usual_and_the_job_says_nothing(demo):
    plant = [
        {"key": "plate", "name": "Plate", "day_price_minor": 2000, "usual": True},
        {"key": "saw", "day_price_minor": 1},
    ]
    book = book_of(rates={"plant": plant})
    bare = less(demo, "rates.plant")
    assert [each.key for each in with_book(parse(bare), book).rates.plant] == ["plate"]
    bare["rates"]["plant"] = []
    assert with_book(parse(bare), book).rates.plant == ()


def test_an_hour_by_skill_comes_from_the_people_and_one_price_for_all_hours_keeps_them_out(demo):
    people = [
        {"name": "A", "skill": "layer", "cost_minor_per_hour": 2600},
        {"name": "B", "skill": "layer", "cost_minor_per_hour": 2701},
        {"name": "C", "skill": "labourer", "cost_minor_per_hour": 1900},
        {"name": "D", "skill": "driver"},
    ]
    book = book_of(people=people, rates={"labour": [{"skill": "labourer", "minor_per_hour": 2000}]})
    filled = with_book(parse(less(demo, "rates.labour_minor_per_hour")), book)
    assert {each.skill: each.minor_per_hour for each in filled.rates.labour} == {
        Skill.LAYER: 2651,
        Skill.LABOURER: 2000,
    }
    assert with_book(parse(demo), book).rates.labour == ()


def test_overhead_is_made_from_the_year_and_a_job_keeps_its_own(demo):
    yearly = [{"name": "Van", "minor": 900_000}, {"name": "Insurance", "minor": 345_000}]
    book = book_of(overhead={"yearly": yearly, "hours_sold": 3000.0})
    filled = with_book(parse(less(demo, "rates.overhead_percent")), book)
    assert filled.rates.overhead_minor_per_hour == 415
    assert filled.rates.overhead_percent is None
    assert with_book(parse(demo), book).rates == parse(demo).rates
    half = book_of(overhead={"yearly": yearly})
    unknown = with_book(parse(less(demo, "rates.overhead_percent")), half).rates
    assert (unknown.overhead_percent, unknown.overhead_minor_per_hour) == (None, None)


def test_a_margin_keeps_the_mark_up_of_the_book_out(demo):
    book = book_of(rates={"markup_percent": 30.0})
    assert with_book(parse(demo), book).rates.markup_percent is None
    assert with_book(parse(less(demo, "rates.margin_percent")), book).rates.markup_percent == 30.0


def test_a_firm_that_is_not_registered_charges_no_tax(demo):
    book = book_of(firm={"tax_status": "not_registered"}, rates={"tax_percent": 20.0})
    filled = with_book(parse(less(demo, "rates.tax_percent")), book).rates
    assert (filled.tax_percent, filled.tax_regime) == (0.0, TaxRegime.NONE)


def test_faults_are_told_all_at_once_with_their_place():
    found = faults(
        rates={"margin_percent": 20.0, "markup_percent": 25.0, "overhead_percent": 10.0},
        overhead={"yearly": [{"name": "Van", "minor": 1}], "hours_sold": 10.0},
        people=[{"name": "A", "skill": "layer"}, {"name": "A", "skill": "layer"}],
    )
    assert set(found) == {"rates.markup_percent", "people.1", "rates.overhead_percent"}
    assert "mark-up" in found["rates.markup_percent"]


def test_a_field_that_makes_no_sense_has_a_sentence():
    assert faults(rates={"materials": [{"key": "cement", "pack_amount": 0, "pack_unit": "kg"}]}) == {
        "rates.materials.0.pack_amount": "Pack amount of cement is 0; it must be more than 0.0: read it again."
    }
    with pytest.raises(JobInvalid, match="not a firm's book"):
        firm.read({"format": "pavewright.job"})
    with pytest.raises(JobInvalid, match="firm's book"):
        firm.read("[]")


def test_a_book_reads_as_it_was_written():
    book = book_of(firm={"name": "Invented Paving"}, rates={"tax_percent": 20.0})
    assert firm.read(firm.to_text(book)) == book
    assert firm.schema()["properties"]["rates"]


def test_plant_that_the_firm_owns_is_on_every_job_that_names_none_of_its_kind(demo):
    own = [{"key": "plate", "owned": True, "kg_each": 90.0}, {"key": "saw", "owned": True}]
    book = book_of(rates={"plant": own})
    named = [each.key for each in parse(demo).rates.plant]
    found = with_book(parse(demo), book).rates.plant
    assert [each.key for each in found] == [*named, "plate"]
    assert found[-1].kg_each == 90.0
    bare = less(demo, "rates.plant")
    assert [each.key for each in with_book(parse(bare), book).rates.plant] == ["plate", "saw"]
    quoted = {"on": "2026-05-01", "revision": 1, "rates": {"plant": own}, "crew": {}}
    kept = with_book(parse(demo | {"quoted": quoted}), None).rates.plant
    assert [each.key for each in kept] == [*named, "plate"]


def test_a_job_is_written_as_the_firm_writes_where_it_does_not_say(demo):
    book = book_of(region="DE", measure="imperial")
    taken = with_book(parse(demo), book).identity
    assert (taken.region, taken.measure) == ("DE", "imperial")
    own = copy.deepcopy(demo)
    own["identity"] |= {"region": "AU", "measure": "metric"}
    kept = with_book(parse(own), book).identity
    assert (kept.region, kept.measure) == ("AU", "metric")
    assert with_book(parse(demo), book_of()).identity.region is None


def test_a_quoted_job_is_written_as_the_firm_writes_and_takes_no_price(demo):
    quoted = copy.deepcopy(demo)
    quoted["quoted"] = {"on": "2027-03-18", "revision": 1, "rates": {}, "crew": {}}
    book = book_of(region="DE", rates={"labour_minor_per_hour": 1})
    taken = with_book(parse(quoted), book)
    assert taken.identity.region == "DE"
    assert taken.rates.labour_minor_per_hour != 1


def test_the_letters_of_a_region_are_checked():
    assert "region" in " ".join(faults(region="Germany"))
