"""Templates: offsets of a circle by its equation, corners of a notch by hand, boxes that keep their sizes."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.drawing import template_scenes
from pavewright.laying import is_skew, lay, template_of, wants_template
from tests.conftest import SmallJob


def laid(small):
    job, measured = small.surveyed()
    return lay(job, measured, small.rules).areas[0]


def whole_mm(corners):
    return sorted((round(x), round(y)) for x, y in corners)


def drawn(small, every_mm=50.0):
    area = laid(small)
    return [(piece, template_of(area, piece, every_mm)) for piece in area.pieces if wants_template(piece)]


@pytest.mark.parametrize("bearing", [90.0, 0.0])
def test_offsets_of_a_half_round_end_follow_the_circle(small, bearing):
    # a half circle of 1000 on top of a rectangle: x² + (y − 2000)² = 1000²
    small.area([(-1000, 0), (1000, 0), (1000, 2000, 1000), (-1000, 2000)], bearing_deg=bearing)
    area = laid(small)
    found = [(piece, template_of(area, piece, 50.0)) for piece in area.pieces if piece.curved]
    assert len(found) >= 4
    for piece, template in found:
        x1, y1, _, y2 = piece.shape.bounds_mm
        along, across = (piece.along_mm, piece.across_mm)
        assert (template.along_mm, template.across_mm) == pytest.approx((along, across), abs=0.05)
        if bearing == 90.0 and y1 > 2000.0:
            for ordinate in template.ordinates[1:-1]:
                top = min(2000.0 + math.sqrt(1e6 - (x1 + ordinate.at_mm) ** 2), y2)
                assert ordinate.spans_mm[-1][1] == pytest.approx(top - y1, abs=1.0)
        area_by_steps = 0.0
        for one, after in zip(template.ordinates, template.ordinates[1:], strict=False):
            high = [sum(top - low for low, top in each.spans_mm) for each in (one, after)]
            area_by_steps += (after.at_mm - one.at_mm) * sum(high) / 2.0
        # chords of 50 mm lie a few square centimetres within the curve
        assert area_by_steps == pytest.approx(piece.shape.polygon.area, abs=6000.0)


def test_a_notch_is_told_by_its_corners_alone(small):
    small.rectangle(3040.0, 1820.0)
    small.point("Post", 1525.0, 605.0)
    small.site["obstacles"] = [{"name": "Post", "point": "Post", "length_mm": 100.0, "width_mm": 100.0}]
    lower, upper = [template for _, template in drawn(small)]
    assert lower.ordinates == ()
    # the post reaches 255 to 355 along each slab, 45 deep
    assert whole_mm(lower.corners_mm) == (
        [(0, 0), (0, 600), (255, 555), (255, 600), (355, 555), (355, 600), (600, 0), (600, 600)]
    )
    assert whole_mm(upper.corners_mm) == (
        [(0, 0), (0, 600), (255, 0), (255, 45), (355, 0), (355, 45), (600, 0), (600, 600)]
    )


def test_a_hole_in_a_slab_gives_two_spans(small):
    small.rectangle(3040.0, 1820.0)
    small.point("Pipe", 300.0, 300.0)
    small.site["obstacles"] = [{"name": "Pipe", "point": "Pipe", "diameter_mm": 100.0}]
    ((_, template),) = drawn(small)
    middle = next(each for each in template.ordinates if each.at_mm == 300.0)
    (low, hole_low), (hole_high, high) = middle.spans_mm
    assert (low, high) == pytest.approx((0.0, 600.0))
    assert (hole_low, hole_high) == pytest.approx((250.0, 350.0), abs=0.5)
    beside = next(each for each in template.ordinates if each.at_mm == 200.0)
    assert beside.spans_mm == (pytest.approx((0.0, 600.0)),)


def test_pieces_of_a_border_on_a_curve_lie_in_their_own_box(small):
    small.area([(-2000, 0), (2000, 0), (2000, 2000, 900), (-2000, 2000)], border={"kind": "soldier"})
    small.unit.update({"length_mm": 300.0, "width_mm": 200.0, "kg_each": 5.0})
    area = laid(small)
    turned = [piece for piece in area.pieces if piece.border and (is_skew(piece) or wants_template(piece))]
    assert len(turned) > 10
    for piece in turned:
        template = template_of(area, piece, 25.0)
        assert (template.along_mm, template.across_mm) == pytest.approx((piece.along_mm, piece.across_mm), abs=0.1)
        assert shapely.Polygon(template.rings_mm[0], template.rings_mm[1:]).area == pytest.approx(
            piece.shape.polygon.area, rel=1e-9
        )


def test_a_square_cut_is_not_skew_and_a_slanting_one_is(small):
    small.area([(0, 0), (3300, 0), (2800, 2000), (0, 2000)])
    area = laid(small)
    skew = [piece for piece in area.pieces if is_skew(piece)]
    assert {piece.place for piece in skew} <= {5, 6}
    assert len(skew) >= 3
    square = [piece for piece in area.pieces if piece.kind.value == "cut" and piece not in skew]
    assert square
    for piece in square:
        assert piece.shape.polygon.area == pytest.approx(piece.along_mm * piece.across_mm, rel=2e-3)
    for piece in skew:
        template = template_of(area, piece, 50.0)
        assert template.ordinates == ()
        assert len(template.corners_mm) in {3, 4, 5}


def test_a_bow_of_less_than_a_millimetre_is_straight_and_its_corners_tell_it(small):
    # over a slab of 600 a rise of 0.4 on 4000 bows far less than a millimetre
    small.area([(0, 0), (4000, 0), (4000, 2700, 0.4), (0, 2500)])
    area = laid(small)
    top = [piece for piece in area.pieces if piece.shape.bounds_mm[3] > 2480.0]
    assert any(piece.curved for piece in top)
    assert not any(wants_template(piece) for piece in top)
    assert all(template_of(area, piece, 50.0).ordinates == () for piece in top)


@pytest.mark.parametrize("rise", [20.0, 150.0, 400.0, -150.0])
def test_corners_of_a_piece_without_offsets_draw_it_within_a_millimetre(small, rise):
    small.area([(0, 0), (4000, 0), (4000, 2700, rise), (0, 2500)])
    area = laid(small)
    reported = [template_of(area, piece, 50.0) for piece in area.pieces if is_skew(piece)]
    for template in reported:
        outline = shapely.Polygon(template.rings_mm[0])
        by_corners = shapely.Polygon(template.corners_mm)
        assert shapely.hausdorff_distance(outline.exterior, by_corners.exterior) <= 1.0 + 1e-6


def test_a_curve_that_runs_up_the_box_is_told_from_its_side(small):
    # a side that bulges to the right by 300 over 3000: radius (1500² + 300²) / 600 = 3900, centre 300 − 3900 beyond it
    small.area([(0, 0), (2000, 0, 0), (2000, 3000, 0), (0, 3000)])
    small.document["areas"][0]["outline"][1]["rise_mm"] = 300.0
    area = laid(small)
    found = [(piece, template_of(area, piece, 50.0)) for piece in area.pieces if wants_template(piece)]
    upright = [(piece, template) for piece, template in found if template.upright]
    assert upright
    for piece, template in upright:
        x1, y1, x2, _ = piece.shape.bounds_mm
        assert template.ordinates[-1].at_mm == pytest.approx(template.across_mm)
        for ordinate in template.ordinates[1:-1]:
            right = 2000.0 - 3600.0 + math.sqrt(3900.0**2 - (y1 + ordinate.at_mm - 1500.0) ** 2)
            assert ordinate.spans_mm[-1][1] == pytest.approx(min(right, x2) - x1, abs=1.0)


@pytest.mark.slow
@given(
    st.floats(-600.0, 600.0),
    st.floats(0.0, 359.0),
    st.sampled_from(["stack", "running", "herringbone"]),
    st.booleans(),
)
@settings(max_examples=25, deadline=None)
def test_every_cut_piece_keeps_its_box_whatever_the_outline(rise, bearing, pattern, border):
    small = SmallJob()
    more = {"border": {"kind": "soldier"}} if border else {}
    small.area(
        [(0, 0), (2500, 300), (2700, 2000, rise), (900, 2100), (900, 1300), (0, 1200)],
        bearing_deg=bearing, pattern=pattern, **more,
    )  # fmt: skip
    small.unit.update({"length_mm": 400.0, "width_mm": 200.0, "kg_each": 7.0})
    area = laid(small)
    cut = [piece for piece in area.pieces if piece.kind.value == "cut"]
    for piece in cut:
        template = template_of(area, piece, 50.0)
        assert (template.along_mm, template.across_mm) == pytest.approx((piece.along_mm, piece.across_mm), abs=0.1)
        whole = [(low, high) for each in template.ordinates for low, high in each.spans_mm]
        wide = template.along_mm if template.upright else template.across_mm
        assert all(-1e-6 <= low <= high <= wide + 1e-6 for low, high in whole)
        assert len(template.corners_mm) >= 2
    for scene in template_scenes([(area, piece) for piece in cut]):
        assert scene.paper_mm[0] <= 178.0
        assert scene.paper_mm[1] <= 226.0
