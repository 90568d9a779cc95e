"""Patterns and borders, with numbers worked out by hand and with what must hold of any of them."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from shapely import STRtree
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from pavewright.geometry import shared
from pavewright.job import JobInvalid, Pattern, parse
from pavewright.laying import PieceKind, lay
from pavewright.laying.patterns import Bond, Layout, Size

BLOCK = {
    "name": "Block",
    "kind": "block",
    "length_mm": 200.0,
    "width_mm": 100.0,
    "thickness_mm": 40.0,
    "kg_each": 1.85,
    "per_pack": 400,
    "pack_price_minor": 20000,
}


def other(name, length, width):
    return {
        **BLOCK,
        "name": name,
        "length_mm": float(length),
        "width_mm": float(width),
        "kg_each": length * width * 9e-5,
    }


@pytest.fixture
def new_small(small):
    return type(small)


def laid(small):
    job, measured = small.surveyed()
    return lay(job, measured, small.rules)


def blocks(small, *others):
    small.document["units"] += [BLOCK, *others]
    return small


def polygons(area):
    return [Polygon(piece.shape.outer, piece.shape.holes) for piece in area.pieces]


def bonds():
    sizes = st.tuples(st.floats(80.0, 200.0), st.integers(2, 4), st.floats(0.0, 12.0))
    return sizes.map(lambda s: Bond((Size(s[0] * s[1] + s[2] * (s[1] - 1), s[0]),), s[2], 0.25))


@settings(max_examples=60, deadline=None)
@given(
    bonds(),
    st.sampled_from([Pattern.STACK, Pattern.RUNNING, Pattern.HERRINGBONE, Pattern.BASKETWEAVE]),
    st.tuples(st.floats(-900, 900), st.floats(-900, 900)),
    st.booleans(),
    st.booleans(),
    st.tuples(st.floats(-3000, 3000), st.floats(-3000, 3000)),
)
def test_every_pattern_covers_a_box_with_even_joints(bond, pattern, start, right, far, at):
    layout = Layout(pattern, bond, start, right, far)
    place = box(at[0], at[1], at[0] + 900.0, at[1] + 700.0)
    units = layout.over(place.bounds).outlines()
    grown = unary_union([unit.buffer(bond.joint_mm / 2.0 + 1e-6, join_style="mitre") for unit in units])
    assert place.difference(grown).area == pytest.approx(0.0, abs=1e-3)
    for first, second in STRtree(units).query(units, predicate="overlaps").T:
        assert shared(units[first], units[second]).area < 1e-3


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 50), st.floats(-4000, 4000), st.floats(0.0, 12.0), st.booleans(), st.booleans())
def test_mixed_courses_cover_a_box_and_keep_their_joints_apart(mix, y, joint, right, far):
    bond = Bond((Size(600.0, 450.0), Size(450.0, 300.0), Size(300.0, 200.0)), joint, mix=mix)
    layout = Layout(Pattern.COURSED, bond, (0.0, 0.0), right, far)
    place = box(-700.0, y, 900.0, y + 1500.0)
    placing = layout.over(place.bounds)
    units = placing.outlines()
    grown = unary_union([unit.buffer(joint + 1e-6, join_style="mitre") for unit in units])
    assert place.difference(grown).area == pytest.approx(0.0, abs=1e-3)
    for course in np.unique(placing.course):
        assert len(set(placing.size[placing.course == course])) == 1
    again = layout.over(place.bounds)
    assert np.array_equal(again.x_mm, placing.x_mm) and np.array_equal(again.size, placing.size)


def test_another_mix_is_another_order_of_courses():
    sizes = (Size(600.0, 450.0), Size(450.0, 300.0), Size(300.0, 200.0))
    orders = {
        tuple(np.unique(np.stack((p.course, p.size)), axis=1)[1])
        for mix in range(6)
        for p in (Layout(Pattern.COURSED, Bond(sizes, 5.0, mix=mix), (0.0, 0.0)).over((0.0, 0.0, 100.0, 9000.0)),)
    }
    assert len(orders) > 3


def test_herringbone_of_two_to_one_repeats_after_four_widths():
    bond = Bond((Size(206.0, 100.0),), 6.0)
    placing = Layout(Pattern.HERRINGBONE, bond, (0.0, 0.0)).over((0.0, 0.0, 1000.0, 400.0))
    lying = placing.turn_deg == 0.0
    first = np.sort(placing.x_mm[lying & (placing.y_mm == 0.0)])
    assert np.diff(first) == pytest.approx(4 * 106.0)
    second = placing.x_mm[lying & (placing.y_mm == 106.0)]
    assert set(np.mod(second - first[0], 424.0).round(6)) == {106.0}


def test_a_modular_herringbone_square_needs_no_slab_but_halves_at_its_edges(small):
    blocks(small).rectangle(800.0, 800.0, unit="Block", pattern="herringbone", joint_mm=0.0)
    area = laid(small).areas[0]
    assert area.paved_m2 == pytest.approx(0.64)
    halves = [piece for piece in area.pieces if piece.kind is PieceKind.CUT]
    assert {(round(p.along_mm), round(p.across_mm)) for p in halves} == {(100, 100)}
    assert len(halves) % 2 == 0 and area.units_with_offcuts >= 32


def test_basketweave_squares_turn_in_turn(small):
    blocks(small).rectangle(400.0, 400.0, unit="Block", pattern="basketweave", joint_mm=0.0)
    area = laid(small).areas[0]
    assert (area.whole, area.cut, area.courses) == (8, 0, 2)
    wide = [piece.shape.bounds_mm[2] - piece.shape.bounds_mm[0] for piece in area.pieces]
    assert sorted(round(each) for each in wide) == [100] * 4 + [200] * 4


def test_courses_turned_against_a_line_run_diagonally(small):
    small.rectangle(4000.0, 3000.0, along=("P0", "P1"), turn_deg=45.0)
    area = laid(small).areas[0]
    assert area.bearing_deg == pytest.approx(135.0)
    assert area.paved_m2 + area.joint_m2 == pytest.approx(12.0)


@pytest.mark.parametrize("corner", ["mitred", "butted"])
@pytest.mark.parametrize(("kind", "deep", "wide"), [("soldier", 200.0, 100.0), ("stretcher", 100.0, 200.0)])
@pytest.mark.parametrize("courses", [1, 2])
def test_courses_of_a_border_are_whole_but_at_corners_and_at_their_ends(small, corner, kind, deep, wide, courses):
    border = {"kind": kind, "corner": corner, "courses": courses, "unit": "Block"}
    blocks(small).rectangle(4030.0, 3010.0, joint_mm=10.0, border=border)
    area = laid(small).areas[0]
    assert area.border_courses == courses
    assert area.pieces[0].shape.centre_mm[0] < 500.0 and area.pieces[0].shape.centre_mm[1] < 500.0
    edging = [piece for piece in area.pieces if piece.border]
    assert {piece.unit for piece in edging} == {"Block"}
    depth = courses * (deep + 10.0)
    corners = [(x, y) for x in (0.0, 4030.0) for y in (0.0, 3010.0)]
    reach = depth + 2.0 * (wide + 10.0)
    for piece in edging:
        x, y = piece.shape.centre_mm
        if piece.kind is PieceKind.CUT:
            assert min(max(abs(x - cx), abs(y - cy)) for cx, cy in corners) < reach
    field = unary_union([Polygon(p.shape.outer) for p in area.pieces if not p.border])
    assert field.bounds == pytest.approx((depth, depth, 4030.0 - depth, 3010.0 - depth))


def test_a_butted_border_that_fits_has_no_cut(small):
    border = {"kind": "stretcher", "corner": "butted", "unit": "Block"}
    # from corner to corner: nine stretchers with joints and the width of the one that runs through with its joint
    blocks(small).rectangle(9 * 210.0 + 100.0, 4 * 210.0 + 100.0, joint_mm=10.0, border=border)
    edging = [piece for piece in laid(small).areas[0].pieces if piece.border]
    assert [piece.kind for piece in edging] == [PieceKind.WHOLE] * 26


@pytest.mark.parametrize("corner", ["mitred", "butted"])
def test_stretched_joints_end_every_side_in_a_whole_unit(small, corner):
    border = {"kind": "stretcher", "corner": corner, "unit": "Block", "stretch_joints": True}
    edge = {**BLOCK, "joint_min_mm": 5.0, "joint_max_mm": 15.0}
    small.document["units"].append(edge)
    small.rectangle(4030.0, 3010.0, joint_mm=10.0, border=border)
    area = laid(small).areas[0]
    edging = [piece for piece in area.pieces if piece.border]
    cut = sum(piece.kind is PieceKind.CUT for piece in edging)
    if corner == "butted":
        # rows of 3920 and 2900 behind a stretcher and its joint: (3920 - 19 × 200) / 18 and (2900 - 14 × 200) / 13
        assert [round(joint, 2) for joint in (120.0 / 18.0, 100.0 / 13.0)] == [6.67, 7.69]
        assert len(edging) == 2 * (19 + 14)
        assert cut == 0
        said = "6.7 to 7.7 mm"
    else:
        # sides of 4030 and 3010: (4030 - 19 × 200) / 18 and (3010 - 14 × 200) / 13 is 16.2, too wide; 15 leave 0.7
        assert cut == 2 * 2 + 2 * 2 + 2
        said = "10.0 to 12.8 mm"
    assert any(said in words for words in area.limits)


def test_joints_stay_where_no_stretch_ends_in_a_whole_unit(small):
    edge = {**BLOCK, "joint_min_mm": 9.0, "joint_max_mm": 11.0}
    small.document["units"].append(edge)
    border = {"kind": "stretcher", "corner": "butted", "unit": "Block"}
    small.rectangle(1500.0, 1500.0, joint_mm=10.0, border=border)
    plain = laid(small).areas[0].pieces
    border["stretch_joints"] = True
    assert laid(small).areas[0].pieces == plain


def test_a_stretched_border_turns_an_inner_corner_without_a_cut(small):
    small.document["units"].append({**BLOCK, "joint_min_mm": 2.0, "joint_max_mm": 20.0})
    corners = [(0, 0), (4000, 0), (4000, 2000), (2500, 2000), (2500, 3040), (0, 3040)]
    small.area(corners, joint_mm=10.0,
               border={"corner": "butted", "kind": "stretcher", "unit": "Block", "stretch_joints": True})  # fmt: skip
    edging = [piece for piece in laid(small).areas[0].pieces if piece.border]
    assert edging
    assert {piece.kind for piece in edging} == {PieceKind.WHOLE}


def test_a_border_turns_an_inner_corner(small):
    blocks(small)
    corners = [(0, 0), (4000, 0), (4000, 2000), (2500, 2000), (2500, 3000), (0, 3000)]
    for corner in ("mitred", "butted"):
        small.document["areas"].clear()
        small.document["measurements"]["points"].clear()
        small.area(corners, unit="Block", joint_mm=4.0, border={"corner": corner})
        area = laid(small).areas[0]
        edging = unary_union([Polygon(p.shape.outer) for p in area.pieces if p.border])
        outline = Polygon(corners)
        band = outline.difference(outline.buffer(-200.0, join_style="mitre"))
        assert edging.area == pytest.approx(band.area, rel=0.05)
        assert edging.difference(band.buffer(0.01)).area == pytest.approx(0.0, abs=1.0)


def test_a_border_fans_out_round_a_curve(small):
    blocks(small).area([(0, 0, 1500.0), (3000, 0, 1500.0)], unit="Block", joint_mm=5.0, border={"kind": "soldier"})
    area = laid(small).areas[0]
    edging = [piece for piece in area.pieces if piece.border]
    whole = [piece for piece in edging if piece.kind is PieceKind.WHOLE]
    # a circle of 3 m: the inner edge of the course is 2π · 1.3 m long
    assert len(edging) == math.floor(2.0 * math.pi * 1300.0 / 105.0)
    assert len(whole) == len(edging)


def outlines():
    def ring(radii):
        return [
            (3000.0 + r * math.cos(2 * math.pi * k / len(radii)), 3000.0 + r * math.sin(2 * math.pi * k / len(radii)))
            for k, r in enumerate(radii)
        ]

    return st.lists(st.floats(1200.0, 2900.0), min_size=4, max_size=8).map(ring)


LAYINGS = (
    {"pattern": "stack", "turn_deg": 30.0},
    {"pattern": "running", "stagger": 0.33},
    {"pattern": "herringbone"},
    {"pattern": "herringbone", "turn_deg": 45.0, "border": {"kind": "stretcher", "courses": 2}},
    {"pattern": "basketweave", "border": {"corner": "butted"}},
    {"pattern": "coursed", "course_units": ["Larger", "Largest"], "mix": 4, "border": {"unit": "Larger"}},
)


@pytest.mark.slow
@settings(
    max_examples=40,
    deadline=None,
    phases=[Phase.explicit, Phase.generate],
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(
    outlines(),
    st.sampled_from(LAYINGS),
    st.floats(0.0, 359.0),
    st.integers(0, 8),
    st.sampled_from(["near_left", "near_right", "far_left", "far_right"]),
)
def test_pieces_and_joints_make_any_area_in_any_pattern(new_small, corners, laying, bearing, joint, start):
    small = blocks(new_small(), other("Larger", 300.0, 150.0), other("Largest", 300.0, 200.0))
    whole = {"bearing_deg": bearing, "joint_mm": float(joint), "start_corner": start, "unit": "Block", **laying}
    small.area(corners, **whole)
    area = laid(small).areas[0]
    found = polygons(area)
    outline = Polygon(corners)
    assert sum(each.area for each in found) / 1e6 + area.joint_m2 == pytest.approx(outline.area / 1e6, abs=1e-6)
    assert unary_union(found).difference(outline.buffer(0.01)).area == pytest.approx(0.0, abs=1.0)
    for first, second in STRtree(found).query(found, predicate="overlaps").T:
        assert shared(found[first], found[second]).area < 1.0
    # all lies within reach of a unit: no gap wider than the joints, what they absorb, and a border's wedges at bends
    wedge = 200.0 * math.tan(math.radians(6.0)) if "border" in laying else 0.0
    far = outline.buffer(-1.0).difference(unary_union(found).buffer(2.0 * joint + 6.0 + wedge / 2.0))
    assert far.area < 150.0
    assert [piece.number for piece in area.pieces] == list(range(1, len(area.pieces) + 1))
    assert sum(count.whole + count.cut for count in area.by_unit) == len(area.pieces)
    assert sum(count.units_with_offcuts for count in area.by_unit) == area.units_with_offcuts
    assert {part.piece for sawn in area.sawn for part in sawn.parts} == {
        piece.number for piece in area.pieces if piece.kind is PieceKind.CUT
    }


@pytest.mark.parametrize("laying", LAYINGS)
def test_turning_the_site_changes_no_piece(small, laying):
    corners = [(0, 0), (3100, 150), (3300, 2200), (1500, 2350), (-100, 1900)]
    sizes = []
    for turn in (0.0, 33.0):
        small.document["areas"].clear()
        small.document["measurements"]["points"].clear()
        small.document["units"][1:] = []
        blocks(small, other("Larger", 300.0, 150.0), other("Largest", 300.0, 200.0))
        cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        turned = [(x * cos - y * sin, x * sin + y * cos) for x, y in corners]
        small.area(turned, unit="Block", joint_mm=4.0, bearing_deg=(90.0 - turn) % 360.0, **laying)
        area = laid(small).areas[0]
        sizes.append(sorted((round(p.along_mm, 3), round(p.across_mm, 3), p.border) for p in area.pieces))
    for one, two in zip(*sizes, strict=True):
        assert one == pytest.approx(two, abs=2e-3)


def faults(small):
    with pytest.raises(JobInvalid) as caught:
        parse(small.document)
    return [(fault.path, fault.message) for fault in caught.value.faults]


def test_a_square_slab_makes_no_herringbone(small):
    small.rectangle(3000.0, 2000.0, pattern="herringbone")
    ((path, words),) = faults(small)
    assert path == "areas.0.laying.pattern"
    assert "at least twice as long as wide" in words


def test_a_unit_that_opens_its_own_pattern_is_refused(small):
    small.document["units"].append(other("Odd", 240.0, 100.0))
    small.rectangle(3000.0, 2000.0, pattern="basketweave", unit="Odd", joint_mm=5.0)
    ((_, words),) = faults(small)
    assert "a whole number of widths" in words


def test_mixes_and_borders_that_make_no_sense_are_told(small):
    small.document["units"].append({**other("Thin", 200.0, 100.0), "thickness_mm": 25.0, "kg_each": 1.2})
    small.rectangle(3000.0, 2000.0, pattern="coursed", border={"unit": "Thin"})
    small.rectangle(3000.0, 2000.0, name="Other", course_units=["Slab", "Nowhere"])
    reported = faults(small)
    paths = [path for path, _ in reported]
    assert "areas.0.laying.course_units" in paths
    assert "areas.0.laying.border.unit" in paths
    assert "areas.1.laying.course_units" in paths
    assert "areas.1.laying.course_units.1" in paths


def test_a_border_that_eats_the_area_is_refused(small):
    small.rectangle(1500.0, 1100.0, border={"courses": 2})
    with pytest.raises(JobInvalid, match="leaves no field"):
        laid(small)


def test_joints_that_open_in_a_woven_pattern_are_told_with_the_joint_that_fits(small):
    small.document["units"].append({**BLOCK, "joint_min_mm": 2.0, "joint_max_mm": 5.0})
    small.rectangle(3000.0, 2000.0, pattern="herringbone", unit="Block", joint_mm=3.0)
    (finding,) = [each for each in laid(small).findings if each.code == "laying.woven_joint"]
    assert finding.value == pytest.approx(6.0)
    assert "joints of 2.5 mm" in finding.option_words[0]
    small.document["areas"][0]["laying"]["joint_mm"] = 2.5
    assert not [each for each in laid(small).findings if each.code == "laying.woven_joint"]


def test_small_pieces_and_a_bond_that_does_not_lock_are_told_where_cars_run(small):
    blocks(small)
    entered = small.rectangle(4250.0, 3000.0, unit="Block", joint_mm=0.0)
    codes = {each.code for each in laid(small).findings}
    assert "laying.bond_under_wheels" not in codes
    assert "laying.small_under_wheels" not in codes
    entered["use"] = "car"
    found = {each.code: each for each in laid(small).findings}
    assert "herringbone" in found["laying.bond_under_wheels"].message
    # 21 blocks of 200 leave 50 mm of 200: a quarter
    assert found["laying.small_under_wheels"].value == pytest.approx(0.25)
    assert found["laying.small_under_wheels"].message.startswith("30 cut pieces")
    entered["laying"]["pattern"] = "herringbone"
    assert "laying.bond_under_wheels" not in {each.code for each in laid(small).findings}
