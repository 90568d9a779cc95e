"""Joints round a curve: a border and rings are held to what their unit takes, and every option said holds."""

from __future__ import annotations

import copy
import math

import pytest

from pavewright.job import parse
from pavewright.laying import PieceKind, lay
from pavewright.laying.pieces._frame import frame_of
from pavewright.laying.setting._setting import region_of, setting_of
from pavewright.survey import survey


def plan_of(document, rules):
    job = parse(document)
    return lay(job, survey(job, rules), rules)


def found(document, rules, code):
    return [each for each in plan_of(document, rules).findings if each.code == code]


def widest(small):
    """Return the widest joint of the border, without the sawing of a whole plan."""
    job, measured = small.surveyed()
    area = measured.site.areas[0]
    frame = frame_of(area, measured)
    return max(row.widest_mm for row in setting_of(job, area, frame, region_of(area, frame)).curved)


def put(document, path, value):
    here, steps = document, [int(step) if step.isdigit() else step for step in path.split(".")]
    for step in steps[:-1]:
        here = here.setdefault(step, []) if step == "course_units" else here[step]
    if isinstance(here, list) and steps[-1] == len(here):
        here.append(value)
    else:
        here[steps[-1]] = value


def every_option_holds(document, rules, code):
    """Apply every option with changes; return their words."""
    words = []
    for reported in found(document, rules, code):
        for way in reported.options:
            if way.changes:
                changed = copy.deepcopy(document)
                for change in way.changes:
                    put(changed, change.path, change.value)
                assert not found(changed, rules, code), way.words
                words.append(way.words)
    return words


def round_lawn(small, radius, *, joint=3.0, circle=True, **border):
    """Blocks of 200 × 100 with a border round a whole or half circle."""
    small.unit.update(kind="block", length_mm=200.0, width_mm=100.0, kg_each=1.84, joint_min_mm=2.0, joint_max_mm=5.0)
    if circle:
        corners = [(-radius, 0, radius), (radius, 0, radius)]
    else:
        corners = [(-radius, 0), (radius, 0, radius)]
    field = {"name": "Field", "length_mm": 900.0, "width_mm": 900.0, "kg_each": 75.0}
    small.document["units"].append({**small.unit, **field})
    area = small.area(corners, joint_mm=joint, border={"kind": "soldier", "unit": "Slab", **border})
    area["laying"]["unit"] = "Field"
    return area


def moved_to(small, radius, *, circle=True):
    """Set the radius of the curve."""
    for point in small.document["measurements"]["points"]:
        point["x_mm"] = math.copysign(radius, point["x_mm"])
    for corner in small.document["areas"][0]["outline"]:
        if circle or corner.get("rise_mm"):
            corner["rise_mm"] = radius


@pytest.mark.parametrize("radius", [1000.0, 2600.0])
def test_a_border_opens_by_the_arithmetic_of_a_fan(small, radius):
    round_lawn(small, radius, circle=False)
    (reported,) = found(small.document, small.rules, "laying.border_joint")
    # each unit with its joint of 3 takes 103 of the inner arc, and as much more outside as the radius is larger
    by_hand = 103.0 * radius / (radius - 200.0) - 100.0
    assert reported.value == pytest.approx(by_hand, rel=0.02)
    assert reported.value == pytest.approx(widest(small))
    assert reported.limit == 5.0


def test_a_wide_curve_holds(small):
    round_lawn(small, 11_000.0, circle=False)
    assert widest(small) < 5.0


@pytest.mark.parametrize("circle", [True, False])
@pytest.mark.parametrize("more", [0.0, 7.0, 130.0])
def test_the_radius_that_is_said_holds_and_so_do_larger_ones(small, circle, more):
    round_lawn(small, 1500.0, circle=circle)
    (reported,) = found(small.document, small.rules, "laying.border_joint")
    (words,) = [way.words for way in reported.options if "radius" in way.words]
    radius = float(words.split("radius of ")[1].split(" mm")[0])
    moved_to(small, radius + more, circle=circle)
    assert widest(small) <= 5.0
    moved_to(small, radius * 0.8, circle=circle)
    assert widest(small) > 5.0


def test_options_of_a_border_hold(small):
    round_lawn(small, 2400.0, circle=False)
    small.unit["joint_max_mm"] = 12.0
    half = {**small.unit, "name": "Half", "length_mm": 100.0, "kg_each": 0.92}
    small.document["units"].append(half)
    words = " ".join(every_option_holds(small.document, small.rules, "laying.border_joint"))
    assert "joints of 2 mm" in words
    assert "Half" in words
    assert "taper" in words


@pytest.mark.slow
def test_the_depth_that_is_said_holds(small):
    round_lawn(small, 4000.0)
    (reported,) = found(small.document, small.rules, "laying.border_joint")
    (words,) = [way.words for way in reported.options if "reach at most" in way.words]
    deep = float(words.split("at most ")[1].split(" mm")[0])
    small.document["units"].append({**small.unit, "name": "Shallow", "length_mm": deep, "kg_each": 0.0092 * deep})
    small.document["areas"][0]["laying"]["border"]["unit"] = "Shallow"
    assert not found(small.document, small.rules, "laying.border_joint")
    assert "half" not in words


def test_tapered_units_are_cut_and_keep_their_joint(small):
    round_lawn(small, 2000.0, tapered=True)
    laid = plan_of(small.document, small.rules).areas[0]
    border = [piece for piece in laid.pieces if piece.border]
    assert {piece.kind for piece in border} == {PieceKind.CUT}
    # 100 outside with a joint of 3: whole units on the outer circle
    assert len(border) == pytest.approx(math.tau * 2000.0 / 103.0, abs=1.1)
    neighbours = sorted(border, key=lambda piece: piece.place)
    gaps = [a.shape.polygon.distance(b.shape.polygon) for a, b in zip(neighbours, neighbours[1:], strict=False)]
    assert max(gaps) < 5.0
    assert min(gaps) > 2.0
    assert min(piece.area_m2 for piece in border) == pytest.approx(0.2 * 0.095, rel=0.03)


@pytest.mark.slow
def test_the_radius_said_for_rings_really_holds(small):
    small.unit.update(kind="block", length_mm=200.0, width_mm=100.0, kg_each=1.84, joint_min_mm=2.0, joint_max_mm=5.0)
    area = small.rectangle(11_000.0, 600.0, pattern="rings", joint_mm=3.0, centre_radius_mm=2000.0)
    area["laying"]["origin"] = small.point("O", 0.0, 0.0)
    (reported,) = found(small.document, small.rules, "laying.ring_joint")
    (way,) = [way for way in reported.options if "Begin the rings" in way.words]
    assert way.changes
    assert every_option_holds(small.document, small.rules, "laying.ring_joint")


def test_a_smaller_unit_for_tight_rings_is_named_where_it_holds(small):
    small.unit.update(kind="block", length_mm=200.0, width_mm=100.0, kg_each=1.84, joint_min_mm=2.0, joint_max_mm=6.0)
    sett = {"name": "Sett", "kind": "sett", "length_mm": 50.0, "width_mm": 50.0, "kg_each": 0.23, "joint_max_mm": 15.0}
    small.document["units"].append({**small.unit, **sett})
    area = small.rectangle(2600.0, 1300.0, pattern="rings", joint_mm=3.0, centre_radius_mm=900.0)
    area["laying"]["origin"] = small.point("O", 1300.0, 0.0)
    assert any("Sett" in words for words in every_option_holds(small.document, small.rules, "laying.ring_joint"))


def test_where_no_ring_holds_that_is_said(small):
    small.unit.update(joint_min_mm=2.0, joint_max_mm=3.0)
    area = small.rectangle(4000.0, 4000.0, pattern="rings", joint_mm=3.0)
    area["laying"]["origin"] = small.point("O", 2000.0, 2000.0)
    (reported,) = found(small.document, small.rules, "laying.ring_joint")
    assert any("no ring within the area" in way.words for way in reported.options)
