"""Plant that the work needs is in the price, is the firm's own, or is named as missing."""

from __future__ import annotations

import json

import pytest

from pavewright.cost import LineGroup
from pavewright.cost._plant_gaps import plant_gaps
from pavewright.job import PlantHire
from pavewright.pipeline import plan

EXCAVATOR, PLATE, SAW, SPLITTER = "Excavator: the dig", "Plate compactor: ", "Saw: ", "Splitter or saw: "


def asked(made, plant, **crew):
    """Return the machines that are asked for, by how their words begin."""
    job = made.job
    rates = job.rates.model_copy(
        update={"plant": tuple(PlantHire.model_validate_json(json.dumps(each)) for each in plant)}
    )
    job = job.model_copy(update={"rates": rates, "crew": job.crew.model_copy(update=crew)})
    gaps = plant_gaps(job, (), made.cost.labour, made.laying)
    begun = [each for gap in gaps for each in (EXCAVATOR, PLATE, SAW, SPLITTER) if gap.words.startswith(each)]
    assert len(begun) == sum("none is entered" in gap.words for gap in gaps)
    return begun


def test_a_dig_by_machine_without_a_machine_is_not_in_the_price(made_plan):
    demo = made_plan("demo")
    others = [{"key": "saw", "owned": True}]
    assert EXCAVATOR in asked(demo, others)
    assert EXCAVATOR not in asked(demo, [*others, {"key": "excavator", "owned": True}])
    assert EXCAVATOR not in asked(demo, others, machine_dig=False)
    assert not any("none is entered" in gap.words for gap in demo.cost.gaps)


def test_layers_that_are_compacted_ask_for_a_plate_unless_the_firm_owns_one(made_plan):
    drive = made_plan("front_drive")
    assert not any("none is entered" in gap.words for gap in drive.cost.gaps)
    others = [{"key": "excavator", "owned": True}, {"key": "saw", "owned": True}]
    assert asked(drive, others) == [PLATE]
    assert asked(drive, [*others, {"key": "plate", "owned": True}]) == []
    assert asked(drive, [*others, {"key": "plate", "day_price_minor": 2900, "days": 1.0}]) == []


def test_cut_slabs_ask_for_a_saw_and_no_splitter_does(made_plan):
    demo = made_plan("demo")
    others = [{"key": "excavator", "owned": True}]
    assert asked(demo, others) == [SAW]
    assert asked(demo, [*others, {"key": "splitter", "owned": True}]) == [SAW]
    assert asked(demo, [*others, {"key": "saw", "owned": True}]) == []


@pytest.fixture
def blocks(small):
    """A path of blocks whose last course is cut, straight across."""
    small.rectangle(2100.0, 1080.0)
    small.document["units"][0] |= {
        "kind": "block",
        "length_mm": 200.0,
        "width_mm": 100.0,
        "thickness_mm": 60.0,
        "kg_each": 2.8,
    }
    return plan(small.job(), small.rules)


def test_straight_cuts_of_blocks_ask_for_a_splitter_or_a_saw(blocks):
    assert sum(area.cut for area in blocks.laying.areas) > 0
    assert asked(blocks, [])[-1] == SPLITTER
    assert SPLITTER not in asked(blocks, [{"key": "splitter", "owned": True}])
    assert SPLITTER not in asked(blocks, [{"key": "saw", "owned": True}])


def test_own_plant_is_no_line_without_a_price_and_a_line_with_one(small):
    small.rectangle(4000.0, 3000.0)
    small.document["rates"]["plant"] = [{"key": "saw", "owned": True}, {"key": "breaker", "owned": True}]
    free = plan(small.job(), small.rules).cost
    assert not any(line.group is LineGroup.PLANT for line in free.lines)
    assert not any(word in gap.words for gap in free.gaps for word in ("Saw", "Breaker"))
    assert not any("on hire" in finding.message for finding in free.findings if "mixer" not in finding.message)
    small.document["rates"]["plant"][0]["day_price_minor"] = 1500
    charged = plan(small.job(), small.rules).cost
    [found] = [line for line in charged.lines if line.group is LineGroup.PLANT]
    assert found.rate_minor == 1500
    assert found.quantity > 0.0
