"""What must hold of whole plans: the parts make the whole, and where the site lies or what its datum is changes nothing."""

from __future__ import annotations

import copy
import json
import math
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon
from shapely import STRtree

from pavewright import rulebook
from pavewright.buildup import depth_under
from pavewright.desk import make_plan
from pavewright.geometry import shared
from pavewright.job import load_document, parse
from pavewright.laying import lay
from pavewright.levels import finished_levels
from pavewright.survey import survey

ROOT = Path(__file__).parents[2]
PATH = json.loads((ROOT / "examples" / "curved_path.json").read_text("utf-8"))
TERRACE = json.loads((ROOT / "examples" / "l_terrace.json").read_text("utf-8"))


def levelled(document):
    """Return a job with its rulebook, survey and levels: as the pipeline makes them, and nothing after them.

    The pipeline plans the whole job again for every option of a stop; what is asked here is settled before.
    """
    job = parse(load_document(json.dumps(document)))
    rules = rulebook.load(job.identity.locality)
    measured = survey(job, rules)
    return job, rules, measured, finished_levels(job, measured, rules, depth_under(job, rules))


def moved(document, turn_deg, east, north, up):
    """Return the curved path turned, moved and on another datum."""
    found = copy.deepcopy(document)
    turn = math.radians(turn_deg)
    for point in found["measurements"]["points"]:
        x, y = point["x_mm"], point["y_mm"]
        point["x_mm"] = x * math.cos(turn) - y * math.sin(turn) + east
        point["y_mm"] = x * math.sin(turn) + y * math.cos(turn) + north
        if "level_mm" in point:
            point["level_mm"] += up
    for area in found["areas"]:
        area["fall"]["bearing_deg"] = (area["fall"]["bearing_deg"] - turn_deg) % 360.0
        area["laying"]["bearing_deg"] = (area["laying"]["bearing_deg"] - turn_deg) % 360.0
        if "level_mm" in area["fall"]:
            area["fall"]["level_mm"] += up
    return found


@pytest.fixture(scope="module")
def here():
    return make_plan(json.dumps(PATH))


@settings(max_examples=15, deadline=None)
@given(
    turn=st.floats(0.0, 359.0),
    east=st.integers(-90000, 90000),
    north=st.integers(-90000, 90000),
    up=st.integers(-100000, 100000),
)
def test_turning_moving_or_another_datum_changes_no_quantity(here, turn, east, north, up):
    there = make_plan(json.dumps(moved(PATH, turn, float(east), float(north), float(up))))
    for one, other in zip(here.quantities.items, there.quantities.items, strict=True):
        assert (one.key, one.ordered) == (other.key, pytest.approx(other.ordered, rel=1e-6))
        assert one.net == pytest.approx(other.net, rel=1e-6, abs=1e-9)
    for laid, other in zip(here.laying.areas, there.laying.areas, strict=True):
        assert (laid.whole, laid.cut, laid.slivers, len(laid.sawn)) == (
            other.whole,
            other.cut,
            other.slivers,
            len(other.sawn),
        )
    assert here.cost.total_minor == pytest.approx(there.cost.total_minor, abs=3)
    for caught, other in zip(here.water.catchments, there.water.catchments, strict=True):
        assert caught.area_m2 == pytest.approx(other.area_m2, rel=1e-5, abs=1e-4)
    assert [finding.code for finding in here.findings] == [finding.code for finding in there.findings]


@settings(max_examples=30, deadline=None)
@example(5.960464477539063e-08, 605, 474, 9, 1.1754943508222875e-38, -1.9, "near_left")  # sides that all but coincide
@given(
    st.floats(0.0, 359.0),
    st.integers(200, 900),
    st.integers(150, 600),
    st.integers(0, 14),
    st.floats(0.0, 0.95),
    st.floats(-400.0, 400.0),
    st.sampled_from(["near_left", "near_right", "far_left", "far_right"]),
)
def test_pieces_joints_and_holes_make_the_area(bearing, length, width, joint, stagger, shift, corner):
    document = copy.deepcopy(TERRACE)
    document["units"][0] |= {
        "length_mm": float(length),
        "width_mm": float(width),
        "kg_each": length * width * 40.0 * 2.3e-6,
        "joint_min_mm": 0.0,
        "joint_max_mm": 20.0,
    }
    laying = document["areas"][0]["laying"]
    del laying["along"], laying["origin"]
    laying |= {
        "bearing_deg": bearing, "joint_mm": float(joint), "stagger": stagger, "shift_along_mm": shift, "start_corner": corner,
    }  # fmt: skip
    job, rules, measured, levels = levelled(document)
    laid, area = lay(job, measured, rules, levels).areas[0], measured.site.areas[0]
    polygons = [Polygon(piece.shape.outer, piece.shape.holes) for piece in laid.pieces]
    pieces_m2 = sum(polygon.area for polygon in polygons) / 1e6
    outline_m2 = Polygon(area.ring.points()).area / 1e6
    holes_m2 = outline_m2 - area.shape.area_m2
    assert pieces_m2 + laid.joint_m2 + holes_m2 == pytest.approx(outline_m2, abs=1e-6)
    for first, second in STRtree(polygons).query(polygons, predicate="overlaps").T:
        assert shared(polygons[first], polygons[second]).area < 1.0
    assert laid.joint_m2 >= -1e-9
    assert [piece.number for piece in laid.pieces] == list(range(1, len(laid.pieces) + 1))


@settings(max_examples=25, deadline=None)
@given(st.integers(-400, 400), st.integers(-400, 400), st.integers(20, 200), st.booleans())
def test_finished_paving_is_never_above_the_dpc_rule_without_a_finding(rear, side, one_in, cover_fixed):
    document = copy.deepcopy(TERRACE)
    del document["as_laid"]
    document["site"]["walls"][0]["dpc_level_mm"] += rear
    document["site"]["walls"][1]["dpc_level_mm"] += side
    document["areas"][0]["fall"]["one_in"] = float(one_in)
    document["site"]["covers"][0]["fixed"] = cover_fixed
    _, _, _, levels = levelled(document)
    least = min(clearance.min_mm for clearance in levels.areas[0].clearances)
    reported = any(finding.code == "levels.too_near_dpc" for finding in levels.findings)
    assert least >= 150.0 - 1e-3 or reported
