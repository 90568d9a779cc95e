"""Options that the program can take: what each changes in the job, and that the finding is gone afterwards."""

from __future__ import annotations

import copy
import json
from pathlib import Path

import pytest

from pavewright import rulebook
from pavewright.findings import FieldChange, Finding, Severity, Option, one_in_within, worded
from pavewright.job import parse
from pavewright.pipeline import plan

RANK = {Severity.STOP: 2, Severity.CHECK: 1, Severity.NOTE: 0}


def put(document, path, value):
    """Set a field as a screen does: lists grow by one, what is missing is made."""
    here, steps = document, [int(step) if step.isdigit() else step for step in path.split(".")]
    for step, following in zip(steps, steps[1:], strict=False):
        if isinstance(step, int) and step == len(here):
            here.append(None)
        if isinstance(step, str) and here.get(step) is None:
            here[step] = [] if isinstance(following, int) else {}
        if isinstance(step, int) and here[step] is None:
            here[step] = {}
        here = here[step]
    here[steps[-1]] = value


def tried(small, way):
    document = copy.deepcopy(small.document)
    for change in way.changes:
        put(document, change.path, change.value)
    return plan(parse(document), small.rules)


def finding(made, code):
    return next((each for each in made.findings if each.code == code), None)


def taken(small, code, word):
    """Return a plan's finding and the plan after the way out that holds a word was tried."""
    reported = finding(plan(small.job(), small.rules), code)
    assert reported is not None
    way = next(way for way in reported.options if word in way.words)
    assert way.changes, way.words
    return reported, tried(small, way)


def gone(small, code, word):
    reported, after = taken(small, code, word)
    assert finding(after, code) is None, (reported.message, finding(after, code).message)
    return after


def on_a_house(small, wide=6000.0, deep=3000.0, **laying):
    area = small.rectangle(wide, deep, **laying)
    small.site["walls"] = [{"name": "House", "start": "P0", "end": "P1", "dpc_level_mm": 10000.0}]
    small.site["outfalls"] = [{"name": "Bed", "kind": "border", "confirmed": True}]
    area["fall"] = {"away_from": "House", "one_in": 60.0}
    return area


def cover(small, level_mm, **more):
    small.point("M", 3000.0, 2900.0)
    small.site["covers"] = [
        {
            "name": "IC1",
            "point": "M",
            "length_mm": 100.0,
            "width_mm": 100.0,
            "level_mm": level_mm,
            "fixed": True,
            **more,
        }
    ]


@pytest.mark.parametrize("level_mm", [9816.0, 9835.0])
@pytest.mark.parametrize("word", ["Lay at 1 in", "the frame of cover IC1"])
def test_a_cover_clash_is_ended_by_another_fall_or_by_its_frame(small, level_mm, word):
    on_a_house(small)
    cover(small, level_mm)
    gone(small, "levels.cover_clash", word)


def test_a_fold_offered_for_a_clash_ends_it(small):
    on_a_house(small)
    cover(small, 9835.0)
    small.site["outfalls"][0]["invert_level_mm"] = 9300.0
    small.site["channels"] = [{"name": "C", "start": "P0", "end": "P1", "width_mm": 130.0, "outfall": "Bed"}]
    small.flat_ground(9800.0)
    gone(small, "levels.cover_clash", "Fold it as")


def test_a_level_asked_for_is_lowered_to_the_limit(small):
    area = on_a_house(small)
    area["fall"] |= {"level_at": "P0", "level_mm": 9900.0}
    gone(small, "levels.too_near_dpc", "lower than asked")


def test_a_smaller_step_at_a_door_and_a_larger_one(small):
    area = on_a_house(small)
    door = {"name": "Door", "along_mm": 1000.0, "width_mm": 900.0, "threshold_level_mm": 10075.0}
    small.site["walls"][0]["openings"] = [door | {"max_step_mm": 15.0}]
    gone(small, "levels.door_step_too_big", "Put a step at Door")
    small.site["walls"][0]["openings"] = [door | {"threshold_level_mm": 9900.0, "min_step_mm": 100.0}]
    area["fall"] |= {"level_at": "P0", "level_mm": 9850.0}
    reported, after = taken(small, "levels.door_step_too_small", "lower than asked")
    assert reported.severity is Severity.STOP
    assert finding(after, "levels.door_step_too_small") is None


def test_an_edge_of_existing_paving_is_relaid(small):
    on_a_house(small)
    small.site["tie_ins"] = [
        {"name": "Path", "start": "P3", "end": "P2", "start_level_mm": 9840.0, "end_level_mm": 9840.0}
    ]
    gone(small, "levels.tie_in_clash", "ask the owner first: take up and relay")


def folded(small):
    area = on_a_house(small, 5400.0, 4200.0)
    small.point("M", 4900.0, 2600.0)
    small.point("L", 1500.0, 2900.0)
    small.site["gullies"] = [{"name": "Yard gully", "point": "M", "outfall": "Bed"}]
    lid = {"name": "Lid", "point": "L", "length_mm": 450.0, "width_mm": 450.0, "level_mm": 9835.0, "fixed": True}
    small.site["covers"] = [lid | {"tolerance_mm": 2.0}]
    area["fall"] = {"away_from": "House", "folding": "valley", "steepest_one_in": 40.0}
    return area


def test_each_way_out_of_a_folded_surface_that_can_be_tried_ends_the_clash(small):
    folded(small)
    reported = finding(plan(small.job(), small.rules), "levels.fold_clash")
    able = [way for way in reported.options if way.changes]
    assert any("the frame of cover Lid" in way.words for way in able)
    for way in able:
        assert finding(tried(small, way), "levels.fold_clash") is None, way.words


def test_a_surface_that_stands_is_folded_in_the_cheapest_way(small):
    folded(small)
    small.site["covers"] = []
    small.site["outfalls"][0]["kind"] = "surface_water_sewer"
    # ground that rises from the house shuts the water in
    small.document["measurements"]["ground_points"] = [
        small.point(f"G{number}", x, y, 9785.0 + 0.055 * y)
        for number, (x, y) in enumerate(((-1000, -1000), (7000, -1000), (7000, 6000), (-1000, 6000)))
    ]
    gone(small, "levels.stands_on_design", "cheapest")


def test_a_fall_too_flat_and_one_too_steep(small):
    area = on_a_house(small)
    area["fall"]["one_in"] = 200.0
    gone(small, "levels.too_flat", "or steeper")
    area["fall"]["one_in"] = 15.0
    gone(small, "levels.too_steep", "Lay flatter")


def test_a_joint_outside_its_range_and_one_that_a_weave_opens(small):
    area = on_a_house(small, joint_mm=12.0)
    small.unit.update({"joint_min_mm": 3.0, "joint_max_mm": 8.0})
    gone(small, "laying.joint_out_of_range", "Change the joint")
    area["laying"] |= {"pattern": "herringbone", "joint_mm": 3.0}
    small.unit.update({"length_mm": 200.0, "width_mm": 100.0, "kg_each": 1.9, "joint_min_mm": 2.0, "joint_max_mm": 5.0})
    gone(small, "laying.woven_joint", "Lay with joints of")


def test_a_shifted_pattern_leaves_fewer_slivers(small):
    on_a_house(small, 6130.0, 3030.0)
    reported, after = taken(small, "laying.slivers", "Shift the pattern")
    left = finding(after, "laying.slivers")
    before = int(reported.message.split()[0])
    assert left is None or int(left.message.split()[0]) < before


def test_the_shift_counts_from_the_present_one_and_from_the_far_right(small):
    area = on_a_house(small, 6130.0, 3030.0, start_corner="far_right", shift_along_mm=37.0, shift_across_mm=11.0)
    reported, after = taken(small, "laying.slivers", "Shift the pattern")
    promised = 0 if "no sliver" in reported.option_words[0] else int(reported.option_words[0].split(": ")[1].split()[0])
    left = finding(after, "laying.slivers")
    assert (0 if left is None else int(left.message.split()[0])) == promised
    assert area["laying"]["shift_along_mm"] == 37.0


def test_blocks_under_wheels_are_laid_in_herringbone(small):
    area = on_a_house(small, pattern="running", bedding="sand_on_sub_base")
    area["use"] = "car"
    block = {"kind": "block", "length_mm": 200.0, "width_mm": 100.0, "thickness_mm": 60.0, "kg_each": 2.7}
    small.unit.update(block)
    gone(small, "laying.bond_under_wheels", "herringbone")


@pytest.mark.parametrize("word", ["Turn the fall", "channel along the wall"])
def test_water_is_kept_from_a_house_wall(small, word):
    area = on_a_house(small)
    area["fall"] = {"bearing_deg": 180.0, "level_at": "P2", "level_mm": 9790.0}
    gone(small, "water.to_wall", word)


@pytest.mark.parametrize("word", ["Turn the fall", "channel along the boundary"])
def test_water_is_kept_from_a_neighbour(small, word):
    area = small.rectangle(6000.0, 4000.0)
    area["fall"] = {"bearing_deg": 180.0, "level_at": "P2", "level_mm": 1000.0}
    small.site["boundaries"] = [{"name": "Fence", "start": "P0", "end": "P1"}]
    gone(small, "water.over_boundary", word)


def test_an_outfall_is_named_for_a_free_edge_and_a_channel(small):
    area = small.rectangle(6000.0, 4000.0)
    area["fall"] = {"bearing_deg": 180.0, "level_at": "P2", "level_mm": 1000.0}
    gone(small, "water.no_outfall", "Name the border")
    small.site["channels"] = [{"name": "Channel", "start": "P0", "end": "P1"}]
    gone(small, "water.no_outfall", "Name the border")
    small.site["outfalls"] = [{"name": "Brook", "kind": "watercourse", "confirmed": True}]
    gone(small, "water.no_outfall", "that somebody saw")


def test_a_kerb_that_holds_water_is_laid_flush(small):
    area = small.rectangle(6000.0, 4000.0)
    area["fall"] = {"bearing_deg": 180.0, "level_at": "P2", "level_mm": 1000.0}
    area["edges"] = [{"corner": "P0", "restraint": "kerb"}]
    gone(small, "water.held_by_kerb", "Lay the edge flush")


def test_changes_stand_beside_the_ways_out_in_the_same_order():
    bare = Finding("x.y", Severity.CHECK, "here", "words", options=worded(("One.", "Two.")))
    assert [option.changes for option in bare.options] == [(), ()]
    change = FieldChange("areas.0.name", "A")
    full = bare.with_options((Option("B."), Option("A.", (change,)), Option("B.", (change,))))
    assert full.option_words == ("B.", "A.")
    assert [option.changes for option in full.options] == [(), (change,)]


def test_a_fall_is_rounded_to_the_safe_side():
    assert 1.0 / one_in_within(1.0 / 73.456, flatter=False) >= 1.0 / 73.456
    assert 1.0 / one_in_within(1.0 / 73.456, flatter=True) <= 1.0 / 73.456
    assert one_in_within(1.0 / 60.0, flatter=True) == one_in_within(1.0 / 60.0, flatter=False) == 60.0


@pytest.mark.parametrize("name", sorted(path.stem for path in (Path(__file__).parents[2] / "examples").glob("*.json")))
def test_every_change_of_an_example_leaves_a_job_that_plans(name):
    document = json.loads((Path(__file__).parents[2] / "examples" / f"{name}.json").read_text("utf-8"))
    rules = rulebook.load(parse(document).identity.locality)
    made = plan(parse(document), rules)
    for reported in made.findings:
        for way in reported.options:
            if not way.changes or reported.code == "laying.slivers":
                continue
            changed = copy.deepcopy(document)
            for change in way.changes:
                put(changed, change.path, change.value)
            after = plan(parse(changed), rules)
            same = [each for each in after.findings if (each.code, each.place) == (reported.code, reported.place)]
            assert all(RANK[each.severity] <= RANK[reported.severity] for each in same)
