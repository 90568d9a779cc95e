"""Rings in an area, inlays, and a change of pattern at a line."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.job import JobInvalid
from pavewright.laying import best_starts, lay
from tests.conftest import SmallJob


def sett(small, name, length, width, least=4.0, most=18.0):
    small.document["units"].append(
        small.unit | {"name": name, "kind": "sett", "length_mm": length, "width_mm": width, "kg_each": 1.0,
                      "joint_min_mm": least, "joint_max_mm": most}
    )  # fmt: skip
    return name


def rings(small, **more):
    names = [sett(small, "Sett 200", 200.0, 100.0), sett(small, "Sett 100", 100.0, 100.0)]
    return {"unit": names[0], "course_units": names[1:], "pattern": "rings", "origin": "O", "joint_mm": 6.0} | more


def round_inlay(small, x=3000.0, y=2500.0, radius=1300.0, **more):
    area = small.rectangle(6000.0, 5000.0, pattern="running")
    small.point("O", x, y)
    area["zones"] = [{"name": "Circle", "circle_at": "O", "radius_mm": radius, "laying": rings(small, **more)}]
    return area


def laid(small):
    job, measured = small.surveyed()
    return measured.site.areas[0], lay(job, measured, small.rules)


def closes(area, one):
    pieces = [piece.shape.polygon for piece in one.pieces]
    whole = shapely.union_all(pieces)
    assert sum(piece.area for piece in pieces) == pytest.approx(whole.area, rel=1e-6)
    assert whole.difference(area.shape.polygon.buffer(0.01)).area < 1.0
    assert one.paved_m2 + one.joint_m2 == pytest.approx(area.shape.area_m2, abs=1e-9)
    assert [piece.number for piece in one.pieces] == list(range(1, len(one.pieces) + 1))


def test_a_round_inlay_is_laid_first_and_the_field_is_cut_round_it(small):
    round_inlay(small)
    area, plan = laid(small)
    one = plan.areas[0]
    closes(area, one)
    (zone,) = one.zones
    assert {piece.zone for piece in one.pieces[: zone.pieces]} == {"Circle"}
    assert {piece.zone for piece in one.pieces[zone.pieces :]} == {""}
    assert zone.shape.area_m2 == pytest.approx(math.pi * 1.3**2, rel=2e-3)
    seam = min(piece.shape.polygon.distance(shapely.Point(3000.0, 2500.0)) for piece in one.pieces if not piece.zone)
    assert seam >= 1300.0 + 10.0 - 0.5  # the circle is flattened
    assert {count.unit for count in one.by_unit} == {"Slab", "Sett 200", "Sett 100"}
    assert sum(count.whole + count.cut for count in one.by_unit) == len(one.pieces)
    for unit in one.sawn:
        for part in unit.parts:
            assert one.pieces[part.piece - 1].kind.value == "cut"


def test_units_of_a_full_ring_are_whole_and_stand_clockwise(small):
    round_inlay(small)
    one = laid(small)[1].areas[0]
    third = [piece for piece in one.pieces if piece.zone and piece.course == 3]
    assert {piece.kind.value for piece in third} == {"whole"}
    turns = [math.atan2(piece.shape.centre_mm[1] - 2500.0, piece.shape.centre_mm[0] - 3000.0) for piece in third]
    steps = [(before - after) % math.tau for before, after in zip(turns, turns[1:], strict=False)]
    assert max(steps) == pytest.approx(min(steps), rel=1e-6)


def test_joints_that_open_too_wide_are_told_with_the_ring_and_ways_out(small):
    round_inlay(small, centre_radius_mm=250.0)
    finding = next(each for each in laid(small)[1].findings if each.code == "laying.ring_joint")
    assert finding.value > finding.limit == 18.0
    assert "ring 1" in finding.message
    # the radius that holds, and the wedge that keeps the joints of this one
    assert [bool(option.changes) for option in finding.options] == [True, False]


def test_joints_hold_where_the_program_chooses_the_first_ring(small):
    round_inlay(small)
    assert "laying.ring_joint" not in {each.code for each in laid(small)[1].findings}


def test_rings_about_a_far_point_cross_the_area_as_arcs(small):
    area = small.rectangle(4000.0, 3000.0)
    small.point("O", 2000.0, -2500.0)
    area["laying"] = rings(small)
    area, plan = laid(small)
    closes(area, plan.areas[0])
    assert plan.areas[0].gauge == ()
    assert len(plan.areas[0].pieces) > 400


def test_the_pattern_changes_at_a_line(small):
    area = small.rectangle(6000.0, 4000.0, pattern="running")
    small.point("L1", 0.0, 2500.0)
    small.point("L2", 6000.0, 2500.0)
    area["zones"] = [
        {"name": "Back", "beyond": ["L1", "L2"], "laying": {"unit": "Slab", "pattern": "stack", "turn_deg": 45.0}}
    ]
    area, plan = laid(small)
    one = plan.areas[0]
    closes(area, one)
    assert min(piece.shape.polygon.bounds[1] for piece in one.pieces if piece.zone) >= 2500.0 - 0.01
    assert max(piece.shape.polygon.bounds[3] for piece in one.pieces if not piece.zone) <= 2490.0 + 0.01


def test_starts_of_an_area_with_an_inlay_are_those_of_the_rest(small):
    round_inlay(small)
    job, measured = small.surveyed()
    (found,) = best_starts(job, measured, small.rules)
    assert found.starts_tried > 100
    area = small.document["areas"][0]
    area["laying"] = area.pop("zones")[0]["laying"]
    job, measured = small.surveyed()
    assert "rings" in best_starts(job, measured, small.rules)[0].words


@pytest.mark.parametrize(("change", "words"), [
    (lambda zone: zone.update(radius_mm=4000.0), "reaches out of"),
    (lambda zone: zone.update(outline=[{"point": "O"}]), "one of them"),
    (lambda zone: zone.pop("radius_mm"), "its centre and its radius"),
    (lambda zone: zone["laying"].pop("origin"), "run about a point"),
    (lambda zone: zone["laying"].update(unit="Nothing"), "not among the units"),
    (lambda zone: zone.update(circle_at="Nowhere"), "not measured"),
    (lambda zone: zone["laying"].update(bedding="sand_on_sub_base"), "same bedding"),
])  # fmt: skip
def test_a_zone_that_makes_no_sense_is_told(small, change, words):
    area = round_inlay(small)
    change(area["zones"][0])
    with pytest.raises(JobInvalid) as reported:
        laid(small)
    assert words in " ".join(fault.message for fault in reported.value.faults)


def test_zones_that_overlap_and_units_of_another_thickness_are_told(small):
    area = round_inlay(small)
    area["zones"].append(dict(area["zones"][0], name="Second"))
    with pytest.raises(JobInvalid, match="overlap"):
        laid(small)
    area["zones"].pop()
    small.document["units"][1]["thickness_mm"] = 60.0
    with pytest.raises(JobInvalid, match="lie on one bed"):
        laid(small)


@pytest.mark.slow
@settings(max_examples=25, deadline=None)
@given(
    x=st.floats(1500.0, 4500.0),
    y=st.floats(1500.0, 3500.0),
    radius=st.floats(300.0, 1400.0),
    joint=st.floats(4.0, 12.0),
)
def test_any_round_inlay_closes_the_area_and_tells_what_is_too_small(x, y, radius, joint):
    small = SmallJob()
    round_inlay(small, x, y, radius, joint_mm=joint)
    area, plan = laid(small)
    closes(area, plan.areas[0])
    if any(piece.sliver for piece in plan.areas[0].pieces):
        assert "laying.slivers" in {each.code for each in plan.findings}
