"""Pieces that are too narrow somewhere to be cut and laid: found by their true shape, stopped, and got rid of."""

from __future__ import annotations

import copy
import json
import math
from pathlib import Path

import numpy as np
import pytest
import shapely
from shapely.affinity import rotate
from shapely.geometry import Point, Polygon, box

from pavewright import rulebook
from pavewright.findings import Severity, OptionKind
from pavewright.job import parse
from pavewright.laying import best_starts, lay
from pavewright.laying.pieces._necks import narrow, necks_mm, widened
from pavewright.survey import survey

EXAMPLES = Path(__file__).parents[3] / "examples"
ABSORBED_MM = 3.0


def neck(shape, limit=25.0):
    return necks_mm([shape], [limit], ABSORBED_MM)[0]


def plan_of(document, rules):
    job = parse(document)
    return lay(job, survey(job, rules), rules)


def put(document, path, value):
    here, steps = document, [int(step) if step.isdigit() else step for step in path.split(".")]
    for step in steps[:-1]:
        if isinstance(step, str) and here.get(step) is None:
            here[step] = {}
        here = here[step]
    here[steps[-1]] = value


def narrow_of(plan):
    return [each for each in plan.findings if each.code == "laying.too_narrow"]


def where(reported):
    """Return the laying that a stop is about: the last way, mortar instead, names it."""
    return reported.options[-1].changes[0].path


def clears(document, rules):
    """Apply every option with changes of every stop and return how many there were; each clears its area."""
    tried = 0
    for reported in narrow_of(plan_of(document, rules)):
        assert reported.severity is Severity.STOP
        for way in reported.options:
            if way.changes:
                changed = copy.deepcopy(document)
                for change in way.changes:
                    put(changed, change.path, change.value)
                after = narrow_of(plan_of(changed, rules))
                assert where(reported) not in {where(each) for each in after}, way.words
                tried += 1
    return tried


def cover(small, x, y, wide, deep, area=0, name="C"):
    corners = [(x, y), (x + wide, y), (x + wide, y + deep), (x, y + deep)]
    hole = [{"point": small.point(f"{name}{number}", *corner)} for number, corner in enumerate(corners)]
    small.document["areas"][area].setdefault("holes", []).append(hole)


@pytest.mark.parametrize(
    ("shape", "width"),
    [
        (box(0, 0, 600, 4), 4.0),
        (box(0, 0, 10, 10), 10.0),
        # a C round a frame: the box is a whole slab, the arms 6 mm
        (box(0, 0, 600, 600) - box(200, 6, 700, 594), 6.0),
        # a web of 13 between a hole and the side
        (box(0, 0, 450, 450) - box(13, 100, 300, 300), 13.0),
        # two bodies that hang together by 8
        (box(0, 0, 600, 300) - box(280, 8, 320, 310), 8.0),
        # beside a round hole
        (box(0, 0, 600, 600) - Point(300, 300).buffer(290.0, quad_segs=32), 10.0),
    ],
)
def test_the_narrowest_neck_is_found_however_the_piece_lies(shape, width):
    # setting in stops where nothing is left but what joints take up, so that it is right to a millimetre or two
    for turn in (0.0, 37.0):
        assert neck(rotate(shape, turn)) == pytest.approx(width, abs=2.0)


@pytest.mark.parametrize(
    "shape",
    [
        box(0, 0, 600, 26),
        box(0, 0, 600, 600) - box(26, 26, 574, 700),
        Polygon([(0, 0), (600, 0), (600, 200)]),  # a tapered point is trimmed, not stopped
        Polygon([(0, 0), (600, 0), (600, 150), (0, 30)]),
        box(0, 0, 600, 600) - Point(300, 300).buffer(260.0),
        box(0, 0, 600, 600) - box(598, 200, 700, 300),  # a nick of a joint's width
    ],
)
def test_what_can_be_cut_is_not_stopped(shape):
    assert neck(max(shapely.get_parts(shape), key=shapely.area)) is None


def test_setting_in_agrees_with_a_raster_of_discs():
    # twin: a point is kept where a disc that holds it lies inside; corners are given back by hand
    shape = box(0, 0, 300, 200) - box(120, 12, 180, 200) - box(40, 60, 90, 188)
    limit, step = 25.0, 2.0
    xs, ys = np.meshgrid(np.arange(1, 300, step), np.arange(1, 200, step))
    points = shapely.points(xs.ravel(), ys.ravel())
    inside = shapely.contains(shape, points)
    centres = inside & (shapely.distance(points, shape.boundary) >= limit / 2.0)
    tree = shapely.STRtree(points[centres])
    kept = np.zeros(len(points), dtype=bool)
    kept[tree.query(points, "dwithin", limit / 2.0)[0]] = True
    left_out = points[inside & ~kept]
    arms = [box(122, 0, 178, 12), box(42, 188, 88, 200)]
    for arm in arms:
        assert sum(arm.contains(point) for point in left_out) > 0.7 * arm.area / step**2
    assert neck(shape) is not None
    (left,) = widened(shape - arms[0], limit, ABSORBED_MM)[:1]
    assert not narrow(np.array([left]), np.array([limit]), ABSORBED_MM).any()


def test_an_arm_beside_a_cover_is_a_stop_whose_options_clear_it(small):
    small.unit.update(joint_min_mm=6.0, joint_max_mm=15.0)
    small.rectangle(6 * 610.0 - 10.0, 5 * 610.0 - 10.0)
    # 450 × 600: 6 mm short of the joint on one side
    cover(small, 1226.0, 700.0, 450.0, 600.0)
    plan = plan_of(small.document, small.rules)
    (reported,) = narrow_of(plan)
    assert reported.value == pytest.approx(6.0, abs=1.0)
    assert reported.limit == 25.0
    assert reported.figure is not None
    assert reported.figure.status.value == "C"
    assert clears(small.document, small.rules) >= 3
    words = " ".join(reported.option_words)
    assert "Move the start" in words
    assert "frame" in words
    assert reported.options[-1].changes[0].path.endswith("fill_narrow")


def test_the_wider_frame_takes_up_what_is_said(small):
    small.rectangle(6 * 610.0 - 10.0, 5 * 610.0 - 10.0)
    cover(small, 1226.0, 700.0, 450.0, 600.0)
    (reported,) = narrow_of(plan_of(small.document, small.rules))
    (words,) = [way.words for way in reported.options if "frame" in way.words]
    wider = float(words.split(" mm wider")[0].rsplit(" ", 1)[1])
    for point in small.document["measurements"]["points"]:
        if point["name"] in {"C0", "C3"}:
            point["x_mm"] -= wider
    assert not narrow_of(plan_of(small.document, small.rules))


def test_an_untidy_patio_with_a_bay_and_a_cover(small):
    # inner corners 200 mm deep where the bay of the wall stands in, and a frame at no particular place
    small.unit.update(joint_min_mm=6.0, joint_max_mm=14.0)
    small.area(
        [(0, 0), (1805, 0), (1805, 200), (3105, 200), (3105, 0), (4870, 0), (4870, 3655), (0, 3655)], pattern="running"
    )
    cover(small, 1842.0, 1300.0, 450.0, 400.0)
    assert clears(small.document, small.rules) >= 1


def test_blocks_at_45_degrees_beside_a_wall(small):
    small.unit.update(kind="block", length_mm=200.0, width_mm=100.0, kg_each=1.84, joint_min_mm=2.0, joint_max_mm=5.0)
    small.rectangle(3737.0, 2923.0, pattern="herringbone", turn_deg=45.0, joint_mm=3.0, bedding="sand_on_sub_base")
    plan = plan_of(small.document, small.rules)
    # triangles in the corners of the weave: 10 mm sides are no piece
    assert narrow_of(plan)
    assert clears(small.document, small.rules) >= 1


@pytest.mark.parametrize("depth", [5.0, 7.0])
def test_nothing_is_set_out_from_a_course_that_cannot_be_laid(small, depth):
    small.rectangle(
        4 * 610.0 - 10.0, depth + 10.0 + 3 * 610.0 - 10.0, start_corner="near_left", shift_across_mm=depth + 10
    )
    plan = plan_of(small.document, small.rules)
    laid = plan.areas[0]
    assert {piece.course for piece in laid.pieces if piece.neck_mm is not None} == {1}
    marked = {piece.number: piece for piece in laid.pieces}
    assert {marked[mark.piece].course for mark in laid.gauge} == {2}
    assert clears(small.document, small.rules) >= 1


def test_arms_in_a_zone_and_in_a_border_are_found_too(small):
    small.rectangle(6 * 610.0 - 10.0, 5 * 610.0 - 10.0, border={"kind": "soldier"})
    small.document["areas"][0]["zones"] = [
        {
            "name": "Inlay",
            "outline": [
                {"point": small.point(f"Z{n}", x, y)}
                for n, (x, y) in enumerate(((700, 700), (2000, 700), (2000, 1925), (700, 1925)))
            ],
            "laying": {"unit": "Slab", "joint_mm": 10.0},
        }
    ]
    cover(small, 1200.0, 9.0, 400.0, 400.0)
    plan = plan_of(small.document, small.rules)
    places = {where(reported) for reported in narrow_of(plan)}
    worst = {(piece.border, piece.zone) for piece in plan.areas[0].pieces if piece.neck_mm is not None}
    assert (True, "") in worst
    assert (False, "Inlay") in worst
    assert places == {"areas.0.laying.fill_narrow", "areas.0.zones.0.laying.fill_narrow"}
    assert clears(small.document, small.rules) >= 2


def test_filled_room_is_counted_as_joint_and_told(small):
    small.rectangle(6 * 610.0 - 10.0, 5 * 610.0 - 10.0)
    cover(small, 1226.0, 700.0, 450.0, 600.0)
    before = plan_of(small.document, small.rules).areas[0]
    small.document["areas"][0]["laying"]["fill_narrow"] = True
    plan = plan_of(small.document, small.rules)
    after = plan.areas[0]
    assert after.unlayable == 0
    assert after.filled_m2 > 0.0
    assert after.joint_m2 == pytest.approx(before.joint_m2 + after.filled_m2, rel=1e-6)
    assert len(after.fills) == sum(f.value for f in plan.findings if f.code == "laying.filled_narrow")
    together = shapely.union_all([*(p.shape.polygon for p in after.pieces), *(f.polygon for f in after.fills)])
    was = shapely.union_all([p.shape.polygon for p in before.pieces])
    assert together.symmetric_difference(was).area < 1.0


def test_the_search_puts_what_can_be_laid_before_fewer_slabs(small):
    small.rectangle(6 * 610.0 - 10.0, 5 * 610.0 - 10.0)
    cover(small, 1226.0, 700.0, 450.0, 600.0)
    job, measured = small.surveyed()
    (found,) = best_starts(job, measured, small.rules)
    assert found.now.unlayable > 0
    assert all(choice.unlayable == 0 for choice in found.choices)
    assert "no piece with the best" in found.words


def test_every_option_of_every_example_clears_its_stop():
    for path in sorted(EXAMPLES.glob("*.json")):
        document = json.loads(path.read_text("utf-8"))
        clears(document, rulebook.load(parse(document).identity.locality))


def test_limits_stay_below_small_units(small):
    # setts of 50: a third of the unit, not 20
    small.unit.update(kind="sett", length_mm=50.0, width_mm=50.0, kg_each=0.23)
    small.rectangle(5 * 55.0 + 17.5 + 5.0 - 5.0, 4 * 55.0 - 5.0, joint_mm=5.0)
    assert math.isclose(plan_of(small.document, small.rules).areas[0].pieces[5].along_mm, 17.5, abs_tol=0.1)
    assert not narrow_of(plan_of(small.document, small.rules))


@pytest.mark.parametrize(("use", "kind"), [("car", OptionKind.RULE), ("foot", OptionKind.DESIGN)])
def test_mortar_in_gaps_comes_after_all_that_holds_under_wheels(small, use, kind):
    small.rectangle(3065.0, 2430.0)["use"] = use
    stops = narrow_of(plan_of(small.document, small.rules))
    fills = [
        way
        for reported in stops
        for way in reported.options
        if any(each.path.endswith("fill_narrow") for each in way.changes)
    ]
    assert fills
    assert {way.facts.kind for way in fills} == {kind}
