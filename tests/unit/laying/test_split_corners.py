"""Pieces with inner corners laid as two with a joint at the corner."""

from __future__ import annotations

import pytest
import shapely

from pavewright.laying import PieceKind, lay

L_SHAPE = [(0, 0), (1210, 0), (1210, 910), (1000, 910), (1000, 1210), (0, 1210)]
"""Two by two slabs of 600 with a joint of 10, a corner of 210 by 300 off: the last slab lacks it."""


def plan(small):
    job, measured = small.surveyed()
    return lay(job, measured, small.rules)


def corner_pieces(area):
    return sorted((p for p in area.pieces if p.shape.centre_mm[0] > 610 and p.shape.centre_mm[1] > 610),
                  key=lambda p: -p.area_m2)  # fmt: skip


def test_a_notched_slab_is_told_with_a_way_out_that_can_be_tried(small):
    small.area(L_SHAPE)
    made = plan(small)
    assert sum(piece.notched for piece in made.areas[0].pieces) == 1
    (finding,) = [each for each in made.findings if each.code == "laying.inner_corners"]
    assert finding.options[0].changes[0].path == "areas.0.laying.split_corners"


def test_it_is_laid_as_two_rectangles_with_a_joint_between(small):
    small.area(L_SHAPE, split_corners=True)
    made = plan(small)
    first, second = corner_pieces(made.areas[0])
    # slab from 610, 610; upright split: 390 by 600 and 200 by 300, the joint taken off the smaller;
    # level split: 600 by 300 and 390 by 290: its narrowest part is wider
    assert (first.along_mm, first.across_mm) == pytest.approx((600.0, 300.0))
    assert (second.along_mm, second.across_mm) == pytest.approx((390.0, 290.0))
    assert not any(piece.notched for piece in made.areas[0].pieces)
    assert "laying.inner_corners" not in {each.code for each in made.findings}
    assert shapely.distance(first.shape.polygon, second.shape.polygon) == pytest.approx(10.0)


def test_both_come_out_of_one_slab(small):
    small.area(L_SHAPE, split_corners=True)
    area = plan(small).areas[0]
    assert area.whole == 3
    assert area.cut == 2
    assert area.units_with_offcuts == 4


def test_a_slab_stays_in_one_where_parting_would_leave_a_sliver(small):
    small.area([(0, 0), (1210, 0), (1210, 1170), (1170, 1170), (1170, 1210), (0, 1210)], split_corners=True)
    area = plan(small).areas[0]
    assert [piece.notched for piece in area.pieces if piece.kind is PieceKind.CUT] == [True]


def test_a_slab_notched_on_both_sides_falls_into_three(small):
    outline = [(0, 0), (610 + 600, 0), (1210, 910), (1060, 910), (1060, 1210), (760, 1210), (760, 910), (610, 910),
               (610, 1210), (0, 1210)]  # fmt: skip
    small.area(outline, split_corners=True)
    area = plan(small).areas[0]
    found = corner_pieces(area)
    assert not any(piece.notched for piece in found)
    lost = 2.0 * 0.15 * 0.3
    assert sum(piece.area_m2 for piece in found) < 0.36 - lost
    assert sum(piece.area_m2 for piece in found) > 0.36 - lost - 0.02 * 0.6


@pytest.mark.parametrize("turn", [0.0, 30.0, 45.0])
def test_parts_lie_in_the_area_apart_by_the_joint_whatever_the_direction(small, turn):
    small.area(
        [(0, 0), (3700, 0), (3700, 1500), (2300, 1500), (2300, 2900), (0, 2900)], split_corners=True, turn_deg=turn
    )
    area = plan(small).areas[0]
    shapes = [piece.shape.polygon for piece in area.pieces]
    tree = shapely.STRtree(shapes)
    close = tree.query(shapes, predicate="dwithin", distance=9.0)
    assert all(first == second for first, second in close.T.tolist())
    assert area.paved_m2 + area.joint_m2 == pytest.approx(3.7 * 1.5 + 2.3 * 1.4)
