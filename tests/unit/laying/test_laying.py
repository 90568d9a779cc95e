"""Laying plans with numbers worked out by hand."""

from __future__ import annotations

import math

import pytest
from shapely.geometry import Polygon
from shapely.ops import unary_union

from pavewright.job import JobInvalid
from pavewright.laying import Part, PieceKind, lay
from pavewright.laying.cutting import Stock, check_saw_plan


def laid(small):
    job, measured = small.surveyed()
    return lay(job, measured, small.rules)


def one(small):
    return laid(small).areas[0]


def test_a_modular_patio_needs_no_cut(small):
    small.rectangle(5 * 600 + 4 * 10, 3 * 600 + 2 * 10)
    area = one(small)
    assert (area.whole, area.cut, area.courses) == (15, 0, 3)
    assert area.units_with_offcuts == area.min_units == area.units_each_cut_new == 15
    assert area.paved_m2 == pytest.approx(15 * 0.36)
    assert area.joint_m2 == pytest.approx(3.04 * 1.82 - 5.4)


def test_slivers_at_two_edges_are_flagged_with_a_shift_that_removes_them(small):
    # 7 slabs reach 4.26 m and 5 reach 3.04 m: 30 and 50 are left after a joint
    small.rectangle(4300.0, 3100.0)
    plan = laid(small)
    area = plan.areas[0]
    assert area.whole == 35
    assert {round(piece.along_mm) for piece in area.pieces if piece.kind is PieceKind.CUT} == {30, 600}
    assert area.slivers == area.cut == 7 + 5 + 1
    (finding,) = [each for each in plan.findings if each.code == "laying.slivers"]
    assert finding.value == pytest.approx(30.0)
    assert "no sliver is left" in finding.option_words[0]


def test_numbers_run_outward_from_the_starting_corner(small):
    small.rectangle(3 * 610 - 10, 2 * 610 - 10)
    first = one(small).pieces[0]
    assert first.shape.centre_mm == pytest.approx((300.0, 300.0))
    small.document["areas"][0]["laying"]["start_corner"] = "far_right"
    pieces = one(small).pieces
    assert pieces[0].shape.centre_mm == pytest.approx((1520.0, 910.0))
    assert pieces[1].shape.centre_mm == pytest.approx((910.0, 910.0))
    assert [(piece.course, piece.place) for piece in pieces] == [(1, 1), (1, 2), (1, 3), (2, 1), (2, 2), (2, 3)]


def test_running_bond_shifts_every_course_against_the_last(small):
    small.rectangle(4 * 610 - 10, 3 * 610 - 10, pattern="running", stagger=0.5)
    area = one(small)
    second = sorted(piece.shape.bounds_mm[0] for piece in area.pieces if piece.course == 2)
    # the joint of the shifted course falls at 300: 0 to 295 cut, then 305 onward
    assert second == pytest.approx([0.0, 305.0, 915.0, 1525.0, 2135.0])
    assert area.whole == 4 + 3 + 4
    assert area.cut == 2


def test_a_third_stagger_returns_after_three_courses(small):
    small.rectangle(4 * 610 - 10, 4 * 610 - 10, pattern="running", stagger=1.0 / 3.0)
    starts = [
        min(p.shape.bounds_mm[0] for p in one(small).pieces if p.course == course and p.kind is PieceKind.WHOLE)
        for course in (1, 4)
    ]
    assert starts == pytest.approx([0.0, 0.0], abs=1e-6)


def test_courses_turned_by_45_degrees_cover_the_same_area(small):
    small.rectangle(4000.0, 3000.0, bearing_deg=45.0)
    area = one(small)
    assert area.paved_m2 + area.joint_m2 == pytest.approx(12.0)
    assert area.paved_m2 / 12.0 == pytest.approx((600 / 610) ** 2, rel=0.01)


def test_courses_follow_two_points(small):
    small.area([(0, 0), (3000, 1000), (2500, 2500), (-500, 1500)], along=("P0", "P1"))
    assert one(small).bearing_deg == pytest.approx(math.degrees(math.atan2(3.0, 1.0)))


def test_a_post_is_cut_round_and_told_as_a_notch(small):
    small.rectangle(3040.0, 1820.0)
    small.point("Post", 1525.0, 605.0)
    small.site["obstacles"] = [{"name": "Post", "point": "Post", "length_mm": 100.0, "width_mm": 100.0}]
    area = one(small)
    notched = [piece for piece in area.pieces if piece.notched]
    assert len(notched) == 2
    assert area.whole == 13
    # the post stands on a cross joint: each slab loses 100 × 45, a cut of 45 + 100 + 45
    assert [piece.saw_m for piece in notched] == pytest.approx([0.19, 0.19])
    assert area.paved_m2 == pytest.approx(5.4 - 2 * 0.0045)


def test_a_curved_edge_makes_curved_pieces(small):
    small.area([(0, 0), (4000, 0), (4000, 2000, 500), (0, 2000)])
    area = one(small)
    assert any(piece.curved for piece in area.pieces)
    assert not any(piece.curved for piece in area.pieces if piece.shape.bounds_mm[3] < 1900.0)


def test_a_gap_at_the_edge_is_kept_and_laying_starts_inside_it(small):
    small.rectangle(1830.0 + 20.0 - 10.0, 1220.0 + 20.0 - 10.0, wall_joint_mm=10.0)
    area = one(small)
    assert (area.whole, area.cut) == (6, 0)
    assert min(piece.shape.bounds_mm[0] for piece in area.pieces) == pytest.approx(10.0)


def test_a_trim_of_two_millimetres_is_no_cut(small):
    small.rectangle(1828.0 - 10.0, 1218.0 - 10.0)
    assert (one(small).whole, one(small).cut) == (6, 0)


def test_pieces_lie_inside_and_do_not_overlap(small):
    small.area([(0, 0), (5000, 200), (5200, 2600), (2500, 2600), (2500, 4100), (-200, 4000, 300)], bearing_deg=80.0)
    area = one(small)
    polygons = [Polygon(piece.shape.outer, piece.shape.holes) for piece in area.pieces]
    whole = unary_union(polygons)
    assert whole.area == pytest.approx(sum(polygon.area for polygon in polygons), rel=1e-9)
    job, measured = small.surveyed()
    assert whole.difference(measured.site.areas[0].shape.polygon.buffer(0.01)).area == pytest.approx(0.0, abs=1.0)


def test_the_cutting_plan_can_be_sawn_and_stands_between_its_bounds(small):
    small.area([(0, 0), (5000, 200), (5200, 2600), (2500, 2600), (2500, 4100), (-200, 4000)], bearing_deg=80.0)
    area = one(small)
    parts = [Part(p.number, p.along_mm, p.across_mm) for p in area.pieces if p.kind is PieceKind.CUT]
    assert check_saw_plan(area.sawn, parts, (Stock(600.0, 600.0),), area.kerf_mm, may_turn=True) == ()
    assert area.min_units <= area.units_bound <= area.units_with_offcuts <= area.units_each_cut_new


def test_heavy_units_and_joints_out_of_range_are_told(small):
    small.rectangle(3040.0, 1820.0, joint_mm=10.0)
    assert [each.code for each in laid(small).findings] == ["laying.two_person_lift"]
    small.unit["kg_each"] = 20.0
    assert laid(small).findings == ()


def test_an_area_that_cannot_be_in_millimetres_is_refused(small):
    small.unit["length_mm"] = small.unit["width_mm"] = 20.0
    small.unit["kg_each"] = 0.04
    small.rectangle(300000.0, 300000.0)
    with pytest.raises(JobInvalid, match="[Cc]heck that both are in millimetres"):
        laid(small)


@pytest.mark.parametrize(
    ("long_mm", "bedding", "reported"),
    [(5900.0, "mortar_on_concrete", False), (6200.0, "mortar_on_concrete", True), (6200.0, "sand_on_sub_base", False)],
)
def test_long_paving_on_mortar_wants_movement_joints(small, long_mm, bedding, reported):
    small.rectangle(long_mm, 3000.0, bedding=bedding)
    assert ("laying.movement_joints" in {each.code for each in laid(small).findings}) is reported
