"""What may be varied: only what is the customer's own, and every variation is a change of the document."""

from __future__ import annotations

import copy
import json

import pytest
from untidy import PATIO, untidy

from pavewright.desk._read import read_job
from pavewright.firm import FirmBook
from pavewright.job import parse, to_text
from pavewright.pipeline import WHOLE, plan_rooms
from pavewright.proposals import (
    NothingToVaryError,
    SlotKind,
    evaluated,
    figures_of,
    figures_read,
    to_try,
    variation_words,
    with_variations,
)

OWN = {"areas", "units", "measurements", "site"}


def read(document):
    job, rules = read_job(json.dumps(document))
    return job, rules, json.loads(to_text(job))


def book_of(job, **other):
    unit = json.loads(to_text(job))["units"][0]
    listed = [unit | {"name": "Slab 450", "length_mm": 450.0, "width_mm": 450.0, "kg_each": 18.6} | other]
    return FirmBook.model_validate_json(json.dumps({"format": "pavewright.firm", "version": 1, "units": listed}))


def ways(what, kind):
    return [way for slot, found in what.slots for way in found if slot.kind is kind]


@pytest.fixture(scope="module")
def rough():
    job, rules, document = read(untidy())
    return job, rules, document, to_try(job, rules, book_of(job))


def test_no_variation_touches_what_others_own(rough):
    _, _, document, what = rough
    for _, found in what.slots:
        for way in found:
            other = with_variations(document, [way])
            assert {name for name in other if other[name] != document[name]} <= OWN
            gone = {name for name in document["site"] if other["site"][name] != document["site"][name]}
            assert gone <= {"gullies", "channels"}
            measured = other["measurements"]
            assert {n for n in measured if measured[n] != document["measurements"].get(n)} <= {"offsets"}
            assert parse(other)
            assert variation_words(way.facts)


def test_the_side_at_the_footway_stays_and_the_free_one_moves_within_its_freedom(rough):
    _, _, document, what = rough
    moved = ways(what, SlotKind.EDGE)
    assert {(way.facts.name, way.facts.other) for way in moved} == {("C", "D")}
    assert all(0.0 < abs(way.facts.value) <= 120.0 for way in moved)
    for way in moved:
        job = parse(with_variations(document, [way]))
        found = plan_rooms(job, read_job(json.dumps(PATIO))[1], ()).survey.site.areas[0]
        deep = max(y for _, y in found.shape.outer) - min(y for _, y in found.shape.outer)
        assert deep == pytest.approx(3650.0 + way.facts.value, abs=0.1)


def test_a_unit_of_the_firms_list_comes_where_it_is_the_same_material(rough):
    job, rules, document, what = rough
    (way,) = ways(what, SlotKind.UNIT)
    other = parse(with_variations(document, [way]))
    assert other.areas[0].laying.unit == "Slab 450"
    assert other.unit("Slab 450").length_mm == 450.0
    stone = to_try(job, rules, book_of(job, material="sandstone"))
    assert not ways(stone, SlotKind.UNIT)


def test_wheels_keep_a_pattern_that_locks():
    document = copy.deepcopy(PATIO)
    document["areas"][0] |= {"use": "car"}
    document["areas"][0]["laying"] |= {"pattern": "herringbone", "joint_mm": 3.0}
    document["units"][0] |= {"kind": "block", "length_mm": 200.0, "width_mm": 100.0, "thickness_mm": 60.0}
    document["units"][0] |= {"kg_each": 2.8, "per_pack": 400, "joint_min_mm": 2.0, "joint_max_mm": 5.0}
    job, rules, _ = read(document)
    assert not ways(to_try(job, rules), SlotKind.PATTERN)


def test_figures_are_those_of_the_whole_plan(rough):
    _, rules, document, what = rough
    for slot in (SlotKind.JOINT, SlotKind.EDGE, SlotKind.CROSS_FALL, SlotKind.BUILD_UP):
        for way in ways(what, slot)[:1]:
            other = with_variations(document, [way])
            found = figures_read(evaluated({"document": other, "starts": []}, lambda _: rules)["figures"])
            whole = figures_of(plan_rooms(parse(other), rules, WHOLE), rules)
            assert (found.price_minor, found.cut, found.days) == (whole.price_minor, whole.cut, whole.days)
            assert (found.carbon, found.clearance, found.stops) == (whole.carbon, whole.clearance, whole.stops)
            assert set(found.checks) <= set(whole.checks)


def test_a_start_is_found_for_what_else_is_varied(rough):
    _, rules, document, what = rough
    joint = with_variations(document, ways(what, SlotKind.JOINT)[:1])
    alone = evaluated({"document": joint, "starts": []}, lambda _: rules)
    begun = evaluated({"document": joint, "starts": [[0, 0, 0]]}, lambda _: rules)
    assert begun["starts"][0][0] == 0
    assert begun["figures"]["cut"] <= alone["figures"]["cut"]


def test_what_makes_no_job_has_no_figures(rough):
    _, rules, document, _ = rough
    broken = copy.deepcopy(document)
    broken["areas"][0]["laying"]["unit"] = "nothing of that name"
    assert evaluated({"document": broken, "starts": []}, lambda _: rules)["figures"] is None


def test_a_job_that_cannot_be_laid_says_what_is_missing():
    document = copy.deepcopy(PATIO)
    document["areas"][0]["laying"].pop("unit")
    document["units"] = []
    job, rules, _ = read(document)
    with pytest.raises(NothingToVaryError) as nothing:
        to_try(job, rules)
    assert nothing.value.missing
