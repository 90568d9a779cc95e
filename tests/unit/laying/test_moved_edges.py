"""Edges that may be moved, borders that may be wider, and edges that look even."""

from __future__ import annotations

import pytest

from pavewright.laying import best_starts, lay
from pavewright.laying.starts._moved_edges import _moved


def starts(small):
    job, measured = small.surveyed()
    return best_starts(job, measured, small.rules)[0]


@pytest.mark.parametrize("split", [False, True])
def test_an_edge_moved_within_its_freedom_saves_a_row_of_cuts(small, split):
    # five slabs across, and 35 too much: a column of slivers goes when the far side comes in by 35
    area = small.rectangle(5 * 610.0 - 10.0 + 35.0, 4 * 610.0 - 10.0, split_corners=split)
    area["edges"] = [{"corner": "P1", "restraint": "haunch", "freedom_mm": 50.0}]
    found = starts(small)
    (moved,) = found.moved
    assert (moved.start, moved.end) == ("P1", "P2")
    # a gap of less than a joint and a crumb needs no piece: the least move that leaves none
    assert -35.0 <= moved.out_mm <= -20.0
    assert moved.cut == 0
    assert moved.area_m2 == pytest.approx((3.075 + moved.out_mm / 1e3) * 2.43, rel=1e-6)
    assert f"P1–P2 {-moved.out_mm:.0f} mm in saves" in found.words


def test_no_freedom_no_move(small):
    small.rectangle(3085.0, 2430.0)
    found = starts(small)
    assert found.moved == ()
    assert "may be moved" not in found.words


def test_a_freedom_that_saves_nothing_is_told(small):
    area = small.rectangle(5 * 610.0 - 10.0 + 300.0, 4 * 610.0 - 10.0)
    area["edges"] = [{"corner": "P1", "restraint": "haunch", "freedom_mm": 20.0}]
    found = starts(small)
    assert found.moved == ()
    assert "none saves a cut" in found.words


def test_a_moved_side_draws_its_neighbours_out_and_keeps_holes(small):
    entered = small.area([(0, 0), (4000, 0), (5000, 3000), (0, 3000)])
    entered["holes"] = [[{"point": small.point(n, x, y)} for n, x, y in
                         (("H0", 1000, 1000), ("H1", 1500, 1000), ("H2", 1500, 1500), ("H3", 1000, 1500))]]  # fmt: skip
    _, measured = small.surveyed()
    (area,) = measured.site.areas
    out = _moved(area, "P2", 100.0)
    # the side from (5000, 3000) to (0, 3000) goes up; its right neighbour leans out by a third of that
    assert out.ring.points()[2] == pytest.approx((5000.0 + 100.0 / 3.0, 3100.0))
    assert out.ring.points()[3] == pytest.approx((0.0, 3100.0))
    more = 0.1 * (5.0 + 5.0 + 0.1 / 3.0) / 2.0
    assert out.shape.area_m2 == pytest.approx(area.shape.area_m2 + more)
    assert out.shape.holes


def test_a_border_of_another_width_is_among_the_choices(small):
    small.document["units"].append(
        {"name": "Block", "kind": "block", "length_mm": 200.0, "width_mm": 100.0, "thickness_mm": 40.0, "kg_each": 1.8,
         "per_pack": 400, "pack_price_minor": 20000}
    )  # fmt: skip
    # with two courses of soldiers round it the field is whole slabs, with one it is not
    wide = 2 * 2 * 210.0 + 4 * 600.0 + 3 * 10.0
    small.rectangle(wide, wide, border={"unit": "Block", "kind": "soldier", "courses": 1})
    found = starts(small)
    fields = [dict(choice.fields) for choice in found.choices]
    assert any(each.get("border.courses") == 2 for each in fields)
    chosen = next(c for c in found.choices if dict(c.fields).get("border.courses") == 2)
    small.document["areas"][0]["laying"]["border"]["courses"] = 2
    for name, value in chosen.fields:
        if "." not in name:
            small.document["areas"][0]["laying"][name] = value
    job, measured = small.surveyed()
    assert lay(job, measured, small.rules).areas[0].cut == chosen.cut


def test_even_edges_are_one_of_the_aims(small):
    small.rectangle(5 * 610.0 - 10.0 + 300.0, 3 * 610.0 - 10.0)
    found = starts(small)
    even = min(found.choices, key=lambda choice: choice.uneven_mm)
    assert even.uneven_mm < 1.0
    assert found.now.uneven_mm == pytest.approx(600.0 - 290.0, abs=1.0)
