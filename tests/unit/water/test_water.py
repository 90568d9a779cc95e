"""Where water runs, worked out by hand."""

from __future__ import annotations

import json
import math
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from pavewright import rulebook
from pavewright.desk import make_plan
from pavewright.levels import finished_levels
from pavewright.water import DrainState, drain
from pavewright.water.runoff._strips import strips


def drained(small):
    job, measured = small.surveyed()
    return drain(job, measured, finished_levels(job, measured, small.rules), small.rules)


def takes(water):
    return {(each.kind, each.to): round(each.area_m2, 3) for each in water.catchments}


def codes(water):
    return [finding.code for finding in water.findings]


def falling(small, bearing, **more):
    entered = small.rectangle(6000.0, 4000.0)
    entered["fall"] = {"bearing_deg": bearing, "one_in": 60.0, "level_at": "P0", "level_mm": 1000.0, **more}
    return entered


def border(small):
    small.site["outfalls"] = [{"name": "Rose bed", "kind": "border", "confirmed": True}]


def test_all_of_it_runs_to_the_low_edge(small):
    falling(small, 0.0)
    border(small)
    water = drained(small)
    assert takes(water) == {("free_edge", "P2–P3"): 24.0}
    assert water.total_l_s == pytest.approx(24.0 * 0.014)
    assert water.catchments[0].outfall == "Rose bed"
    assert codes(water) == []


def test_a_fall_to_the_corner_is_shared_between_two_edges(small):
    falling(small, 45.0)
    border(small)
    # along the diagonal: the short edge takes half of a 4 × 4 square
    assert takes(drained(small)) == {("free_edge", "P1–P2"): 8.0, ("free_edge", "P2–P3"): 16.0}


def test_water_to_a_house_wall_says_stop_with_ways_out(small):
    falling(small, 180.0)
    small.site["walls"] = [{"name": "House", "start": "P0", "end": "P1", "dpc_level_mm": 1400.0}]
    water = drained(small)
    assert takes(water) == {("wall", "House"): 24.0}
    assert water.findings[0].code == "water.to_wall"
    assert water.findings[0].severity.value == "stop"
    assert len(water.findings[0].option_words) == 3


def test_a_channel_along_the_wall_takes_it(small):
    falling(small, 180.0)
    border(small)
    small.site["walls"] = [{"name": "House", "start": "P0", "end": "P1", "dpc_level_mm": 1400.0}]
    small.site["channels"] = [{"name": "Channel", "start": "P0", "end": "P1", "outfall": "Rose bed"}]
    water = drained(small)
    assert takes(water) == {("channel", "Channel"): 24.0}
    assert codes(water) == []


def test_half_a_channel_takes_half(small):
    falling(small, 0.0)
    border(small)
    small.point("M", 3000.0, 4000.0)
    small.site["channels"] = [{"name": "Channel", "start": "P2", "end": "M", "outfall": "Rose bed"}]
    found = takes(drained(small))
    # the channel reaches 200 mm past its end by the slack of what stands at an edge
    assert found["channel", "Channel"] == pytest.approx(12.0, abs=0.9)
    assert sum(found.values()) == pytest.approx(24.0)


def test_a_channel_across_the_fall_takes_what_runs_over_it(small):
    entered = falling(small, 180.0)
    border(small)
    small.site["walls"] = [{"name": "House", "start": "P0", "end": "P1", "dpc_level_mm": 1400.0}]
    # 0.500 m off the wall and 5 mm short of the edges: 3.450 m of paving above its grating, 0.450 m below it
    small.point("C1", 5.0, 500.0)
    small.point("C2", 5995.0, 500.0)
    small.site["channels"] = [{"name": "Slot", "start": "C1", "end": "C2", "width_mm": 100.0, "outfall": "Rose bed"}]
    found = takes(drained(small))
    assert found == pytest.approx({("channel", "Slot"): 6.0 * 3.45, ("wall", "House"): 6.0 * 0.45})
    # turned by half a right angle, water collects along a kerb and runs down it into the channel
    entered["fall"]["bearing_deg"] = 225.0
    entered["edges"] = [{"corner": "P3", "restraint": "kerb"}]
    found = takes(drained(small))
    assert ("kerb", "P3–P0") not in {key for key, area in found.items() if area > 0.15}
    assert found["channel", "Slot"] == pytest.approx(6.0 * 3.45, abs=0.05)


def test_a_gully_in_the_middle_takes_only_its_own_strip(small):
    falling(small, 0.0)
    border(small)
    small.point("G", 3000.0, 2000.0)
    small.site["gullies"] = [{"name": "Yard gully", "point": "G", "size_mm": 200.0, "outfall": "Rose bed"}]
    found = takes(drained(small))
    assert found["gully", "Yard gully"] == pytest.approx(0.2 * 1.9)


def test_a_gully_at_the_low_end_of_a_garden_wall_takes_what_collects_along_it(small):
    falling(small, 0.0, cross_one_in=80.0)
    small.site["walls"] = [{"name": "Garden wall", "start": "P3", "end": "P2"}]
    small.point("G", 5850.0, 3850.0)
    small.site["outfalls"] = [{"name": "Drain", "kind": "surface_water_sewer", "confirmed": True}]
    small.site["gullies"] = [{"name": "Gully", "point": "G", "outfall": "Drain"}]
    found = takes(drained(small))
    # falls north and to the right (east); the east edge is free and takes a triangle, the wall the rest
    assert ("wall", "Garden wall") not in found
    assert found["gully", "Gully"] > 10.0
    small.site["gullies"] = []
    assert ("wall", "Garden wall") in takes(drained(small))


def test_water_over_a_boundary_to_a_neighbour_says_stop_and_to_oneself_not(small):
    falling(small, 0.0)
    small.site["boundaries"] = [{"name": "Fence", "start": "P3", "end": "P2", "neighbour": "neighbour"}]
    assert codes(drained(small)) == ["water.over_boundary"]
    small.site["boundaries"][0]["neighbour"] = "own"
    (reported,) = drained(small).findings
    assert (reported.code, reported.severity.value) == ("water.onto_own_ground", "check")
    assert "no border or lawn is named" in reported.message
    small.site["outfalls"] = [{"name": "Bed", "kind": "border", "confirmed": True}]
    (reported,) = drained(small).findings
    assert (reported.code, reported.severity.value) == ("water.onto_own_ground", "note")
    assert "Past the line nothing was looked at" in reported.message


def test_no_outfall_unknown_outfall_and_unseen_outfall(small):
    falling(small, 0.0)
    assert codes(drained(small)) == ["water.no_outfall"]
    small.site["channels"] = [{"name": "Channel", "start": "P2", "end": "P3", "outfall": "Old pipe"}]
    small.site["outfalls"] = [{"name": "Old pipe", "kind": "unknown", "confirmed": False}]
    assert codes(drained(small)) == ["water.outfall_unknown"]
    small.site["outfalls"] = [{"name": "Old pipe", "kind": "watercourse", "confirmed": False}]
    assert codes(drained(small)) == ["water.outfall_unseen"]


def test_an_outfall_above_its_inlet_says_stop(small):
    falling(small, 0.0)
    small.site["channels"] = [{"name": "C", "start": "P2", "end": "P3", "outfall": "Ditch", "invert_level_mm": 800.0}]
    small.site["outfalls"] = [{"name": "Ditch", "kind": "watercourse", "confirmed": True, "invert_level_mm": 850.0}]
    assert codes(drained(small)) == ["water.outfall_too_high"]


def test_a_front_garden_in_england_that_drains_to_a_sewer_is_told_and_elsewhere_not(small):
    falling(small, 0.0)["position"] = "front"
    small.site["channels"] = [{"name": "C", "start": "P2", "end": "P3", "outfall": "Sewer"}]
    small.site["outfalls"] = [{"name": "Sewer", "kind": "surface_water_sewer", "confirmed": True}]
    assert codes(drained(small)) == ["water.sewer", "water.front_garden"]
    small.site["outfalls"] = [{"name": "Sewer", "kind": "soakaway", "confirmed": True}]
    assert codes(drained(small)) == ["water.soakaway"]


def test_wales_and_scotland_have_no_allowance_at_the_front_and_elsewhere_has_no_such_rule(small):
    small.area([(0, 0), (2000, 0), (2000, 2000), (0, 2000)])["position"] = "front"
    small.document["areas"][0]["fall"] = {"bearing_deg": 0.0, "one_in": 60.0, "level_at": "P0", "level_mm": 1000.0}
    small.site["channels"] = [{"name": "C", "start": "P2", "end": "P3", "outfall": "Sewer"}]
    small.site["outfalls"] = [{"name": "Sewer", "kind": "surface_water_sewer", "confirmed": True}]
    found = {}
    for edition in ("england", "wales", "scotland", "ireland", "usa", "elsewhere"):
        small.rules = rulebook.load(edition)
        found[edition] = "water.front_garden" in codes(drained(small))
    assert {edition for edition, reported in found.items() if reported} == {"wales", "scotland"}


def test_water_runs_on_to_the_next_area(small):
    falling(small, 0.0)
    border(small)
    lower = small.area([(0, 4000), (6000, 4000), (6000, 6000), (0, 6000)], "Quiet corner")
    lower["fall"] = {"bearing_deg": 0.0, "one_in": 60.0}
    found = takes(drained(small))
    assert found["next_area", "Quiet corner"] == pytest.approx(24.0)


def test_a_kerb_without_a_gully_holds_water(small):
    entered = falling(small, 0.0)
    border(small)
    entered["edges"] = [{"corner": "P2", "restraint": "kerb"}]
    assert codes(drained(small)) == ["water.held_by_kerb"]


def kerbed(small):
    """Give a patio that falls to a kerb and along it to its right end."""
    entered = falling(small, 0.0, cross_one_in=80.0)
    entered["edges"] = [{"corner": "P2", "restraint": "kerb"}, {"corner": "P1", "restraint": "kerb"}]
    small.site["outfalls"] = [{"name": "Drain", "kind": "watercourse", "confirmed": True}]


def test_the_low_end_of_a_kerb_that_runs_into_a_channel_is_drained(small):
    kerbed(small)
    small.point("C1", 5900.0, 4000.0)
    small.point("C2", 5900.0, 0.0)
    small.site["channels"] = [{"name": "Slot", "start": "C1", "end": "C2", "outfall": "Drain"}]
    water = drained(small)
    assert {each.to for each in water.catchments} == {"Slot"}
    assert codes(water) == []


def test_a_channel_at_the_high_end_of_a_kerb_leaves_it_held(small):
    kerbed(small)
    small.point("C1", 100.0, 4000.0)
    small.point("C2", 100.0, 0.0)
    small.site["channels"] = [{"name": "Slot", "start": "C1", "end": "C2", "outfall": "Drain"}]
    assert "water.held_by_kerb" in codes(drained(small))


def test_the_gully_that_a_held_kerb_is_offered_is_new_and_drains_it(small):
    kerbed(small)
    (reported,) = [each for each in drained(small).findings if "P2–P3" in each.place]
    assert reported.code == "water.held_by_kerb"
    (way,) = [each for each in reported.options if "gully" in each.words]
    fields = {each.path: each.value for each in way.changes}
    made = {path.rsplit(".", 1)[1]: value for path, value in fields.items() if path.startswith("site.gullies.0.")}
    place = {path.rsplit(".", 1)[1]: value for path, value in fields.items() if path.startswith("measurements.")}
    assert f"measurements.points.{len(small.document['measurements']['points'])}.name" in fields
    small.document["measurements"]["points"].append(place)
    small.site["gullies"] = [made]
    water = drained(small)
    assert [each.state for each in water.inlets] == [DrainState.NEW]
    assert codes(water) == []


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.tuples(st.integers(0, 9000), st.integers(0, 9000)), min_size=4, max_size=9, unique=True),
    st.floats(0.0, 360.0),
)
def test_strips_tile_any_outline_with_a_hole(corners, turn):
    hull = Polygon(corners).convex_hull
    if hull.geom_type != "Polygon" or hull.area < 1e6:
        return
    hole = hull.centroid.buffer(100.0, quad_segs=2)
    domain = hull.difference(hole)
    if domain.geom_type != "Polygon":
        return
    found = strips(domain, (math.sin(turn), math.cos(turn)), [(4000.0, 3000.0)])
    assert sum(strip.polygon.area for strip in found) == pytest.approx(domain.area, rel=1e-6)
    assert all(strip.polygon.difference(domain.buffer(0.01)).area < 1.0 for strip in found)


@pytest.mark.parametrize("step_mm", [1e-9, 4e-7, 1e-6, 1.5e-6, 3e-6, 1e-3])
def test_strips_tile_an_outline_with_a_corner_a_hair_beside_another(step_mm):
    domain = Polygon([(0, 0), (4000, 0), (4000 - step_mm, 1500), (4000 + step_mm, 3000), (step_mm, 3000), (0, 1000)])
    for turn in (0.0, 1e-10, math.pi / 2.0, math.pi):
        found = strips(domain, (math.sin(turn), math.cos(turn)), [(2000.0, 0.0), (2000.0 + step_mm, 3000.0)])
        assert sum(strip.polygon.area for strip in found) == pytest.approx(domain.area, rel=1e-6)


def test_a_drive_with_an_offset_of_a_thousandth_of_a_hair_is_planned():
    document = json.loads((Path(__file__).parents[3] / "examples" / "front_drive.json").read_text("utf-8"))
    document["measurements"]["offsets"][17]["along_mm"] = 1e-6
    assert make_plan(json.dumps(document)).water.catchments


def test_a_free_edge_below_the_ground_beyond_it_says_stop(small):
    falling(small, 0.0)
    border(small)
    small.flat_ground(960.0)
    # the low edge lies at 933, the ground beyond it at 960
    (finding,) = drained(small).findings
    assert finding.code == "water.edge_below_ground"
    assert finding.value == pytest.approx(960.0 - (1000.0 - 4000.0 / 60.0))
