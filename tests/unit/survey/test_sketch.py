"""A shape that follows its tapes: what is measured, what the sketch gives, sides, slips, the tape that helps next."""

from __future__ import annotations

import json
import math
from typing import Any

import pytest

from pavewright.job import JobInvalid, Measurements
from pavewright.survey import PlacedBy, SideBy, TapeGain, survey
from pavewright.survey._figures import survey_figures
from pavewright.survey._points import place_points
from pavewright.survey._remarks import Remarks
from pavewright.survey.sketch import Drawn
from pavewright.survey.sketch._laid import laid_over, neighbours, scale_of
from pavewright.survey.sketch._pairs import can_be_taped

FOUR = {"A": (0.0, 0.0), "B": (400.0, 0.0), "C": (400.0, 300.0), "D": (0.0, 300.0)}
BASE = ("A", "B", 6000.0)
ROUND = (BASE, ("B", "C", 4000.0), ("A", "C", 7211.0), ("A", "D", 4000.0), ("C", "D", 6000.0))


def drawn(points=FOUR, **more):
    return [{"name": name, "x_mm": x, "y_mm": y} for name, (x, y) in (points | more).items()]


def tapes(*rows, **more):
    return {
        "base_from": "A",
        "base_to": "B",
        "tapes": [dict(zip(("start", "end", "length_mm"), r, strict=True)) for r in rows],
    } | more


class Shaped:
    """Points of some measurements, by themselves."""

    def __init__(self, rules, measurements: dict[str, Any], lines: Drawn | None = None) -> None:
        self.remarks = Remarks()
        measured = Measurements.model_validate_json(json.dumps(measurements))
        self.points = place_points(measured, lines or Drawn(), survey_figures(rules), self.remarks)
        self.codes = [each.code for each in self.remarks.findings]

    @property
    def shape(self):
        assert self.points.shape is not None
        return self.points.shape

    def missing(self):
        return {each.name: each.missing for each in self.shape.sketched}

    def sides(self):
        return {each.name: each.by for each in self.shape.sides}


@pytest.fixture
def shaped(small):
    return lambda measurements, lines=None: Shaped(small.rules, measurements, lines)


def test_one_tape_is_a_base_line_and_no_more(shaped):
    found = shaped({"tape_plan": tapes(BASE)})
    assert {name: (round(x), round(y)) for name, (x, y) in found.points.places.items()} == {"A": (0, 0), "B": (6000, 0)}
    assert found.points.shape is None


def test_a_sketch_alone_stands_as_it_was_drawn_and_asks_for_the_longest_wall(shaped):
    found = shaped({"sketch": drawn()}, Drawn(walls=(("B", "C"),)))
    for name, place in FOUR.items():
        assert math.dist(found.points.places[name], place) < 3.0
    assert found.missing() == dict.fromkeys("ABCD", 2)
    more = found.shape.next_tape
    assert more is not None
    assert ({more.start, more.end}, more.gain) == ({"B", "C"}, TapeGain.BASE)


def test_every_tape_takes_one_condition_off_until_the_shape_is_fixed(shaped):
    left = []
    for count in range(1, 6):
        found = shaped({"sketch": drawn(), "tape_plan": tapes(*ROUND[:count])})
        assert not found.remarks.faults
        left.append(sum(found.missing().values()))
    assert left == [4, 3, 2, 1, 0]
    assert found.shape.is_fixed
    assert found.points.places["C"] == pytest.approx((6000.0, 4000.0), abs=1.0)
    assert found.points.found_by["C"] is PlacedBy.TAPES
    assert found.points.ellipses["C"].major_mm < 5.0


def test_a_sketched_point_follows_the_scale_and_the_turn_of_the_tapes(shaped):
    turned = {name: (-y, x) for name, (x, y) in FOUR.items()}
    found = shaped({"sketch": drawn(turned), "tape_plan": tapes(BASE)})
    assert found.shape.scale == pytest.approx(15.0)
    assert found.points.places["C"] == pytest.approx((6000.0, 4500.0), abs=1.0)
    assert found.points.found_by["C"] is PlacedBy.SKETCH
    assert found.points.ellipses["C"].major_mm > 300.0


def test_a_point_with_one_tape_says_which_way_it_is_free(shaped):
    found = shaped({"sketch": drawn(), "tape_plan": tapes(BASE, ("B", "C", 4000.0))})
    c = next(each for each in found.shape.sketched if each.name == "C")
    assert c.missing == 1
    assert c.free_bearing_deg == pytest.approx(90.0, abs=5.0)
    assert math.dist(found.points.places["C"], found.points.places["B"]) == pytest.approx(4000.0, abs=0.01)


def test_the_sketch_moves_nothing_that_tapes_fix(shaped):
    side = [{"point": "C", "line_from": "A", "line_to": "B", "side": "left"}]
    more = [*ROUND, ("B", "D", 7215.0)]
    without = shaped({"tape_plan": tapes(*more, sides=[*side, {**side[0], "point": "D"}])})
    bent = {"A": (0.0, 0.0), "B": (420.0, 30.0), "C": (350.0, 330.0), "D": (40.0, 270.0)}
    found = shaped({"sketch": drawn(bent), "tape_plan": tapes(*more)})
    for name in "ABCD":
        assert found.points.places[name] == pytest.approx(without.points.places[name], abs=1e-6)
    assert found.points.tapes is not None
    assert [each.residual_mm for each in found.points.tapes.residuals] == pytest.approx(
        [each.residual_mm for each in without.points.tapes.residuals], abs=1e-6
    )


def test_left_and_right_come_from_the_sketch_where_no_side_is_stated(shaped):
    down = {name: (x, -y) for name, (x, y) in FOUR.items()}
    found = shaped({"sketch": drawn(down), "tape_plan": tapes(*ROUND)})
    assert found.points.places["C"] == pytest.approx((6000.0, -4000.0), abs=1.0)
    assert found.sides()["C"] is SideBy.SKETCH
    assert "survey.side_by_sketch" in found.codes
    side = [{"point": "C", "line_from": "A", "line_to": "B", "side": "left"}]
    stated = shaped({"sketch": drawn(down), "tape_plan": tapes(*ROUND, sides=side)})
    assert stated.points.places["C"] == pytest.approx((6000.0, 4000.0), abs=1.0)
    assert stated.sides()["C"] is SideBy.STATED


def test_a_point_drawn_on_its_line_is_doubtful_and_asked_for(shaped):
    line = {"A": (0.0, 0.0), "B": (400.0, 0.0), "C": (200.0, 0.0)}
    found = shaped({"sketch": drawn(line), "tape_plan": tapes(BASE, ("A", "C", 4000.0), ("B", "C", 4000.0))})
    assert abs(found.points.places["C"][1]) == pytest.approx(2645.8, abs=1.0)
    assert found.sides() == {"C": SideBy.DOUBTFUL}
    assert any(each.severity == "check" and each.place == "point C" for each in found.remarks.findings)


def test_tapes_turn_a_point_over_that_was_drawn_on_the_wrong_side(shaped):
    wrong = FOUR | {"E": (200.0, -30.0)}
    rows = (*ROUND, ("B", "D", 7211.0), ("A", "E", 3041.0), ("B", "E", 3041.0), ("C", "E", 4610.0), ("D", "E", 4610.0))
    found = shaped({"sketch": drawn(wrong), "tape_plan": tapes(*rows)})
    assert found.points.places["E"] == pytest.approx((3000.0, 500.0), abs=5.0)
    assert found.points.tapes is not None
    assert found.points.tapes.suspects == ()


def test_tapes_that_make_no_triangle_are_named_and_the_shape_stays(shaped):
    found = shaped({"sketch": drawn(), "tape_plan": tapes(BASE, ("A", "C", 3000.0), ("B", "C", 2000.0))})
    (fault,) = found.remarks.faults
    assert all(name in fault.message for name in ("A–B", "A–C", "B–C", "do not meet"))
    assert set(found.points.places) == set("ABCD")


def test_a_stated_side_that_the_tapes_contradict_is_named(shaped):
    side = [{"point": "D", "line_from": "A", "line_to": "C", "side": "right"}]
    found = shaped({"sketch": drawn(), "tape_plan": tapes(*ROUND, ("B", "D", 7211.0), sides=side)})
    (fault,) = found.remarks.faults
    assert "D is said to lie right of A–C" in fault.message


def test_a_tape_to_a_point_that_is_not_sketched(shaped):
    one = shaped({"sketch": drawn(), "tape_plan": tapes(BASE, ("A", "X", 2000.0))})
    assert [(each.name, each.missing) for each in one.shape.unplaced] == [("X", 1)]
    assert "X" not in one.points.places
    assert "survey.point_unplaced" in one.codes
    two = shaped({"sketch": drawn(), "tape_plan": tapes(BASE, ("A", "X", 2000.0), ("B", "X", 5000.0))})
    assert [(each.name, each.missing) for each in two.shape.unplaced] == [("X", 0)]
    side = [{"point": "X", "line_from": "A", "line_to": "B", "side": "right"}]
    placed = shaped({"sketch": drawn(), "tape_plan": tapes(BASE, ("A", "X", 2000.0), ("B", "X", 5000.0), sides=side)})
    assert placed.points.places["X"][1] < -1000.0
    assert placed.points.found_by["X"] is PlacedBy.TAPES


def test_a_wall_that_names_a_point_without_a_place_is_a_fault(small):
    wall = {"name": "Rear", "start": "A", "end": "X", "kind": "house"}
    measured = {"sketch": drawn(), "tape_plan": tapes(BASE, ("A", "X", 2000.0))}
    with pytest.raises(JobInvalid, match="Wall Rear names point X"):
        survey(small.job(measured, walls=[wall]), small.rules)


def test_the_next_tape_fixes_a_point_and_prefers_sides(shaped):
    first = shaped({"sketch": drawn(), "tape_plan": tapes(BASE)}).shape.next_tape
    assert first is not None
    assert (first.gain, {first.start, first.end}) == (TapeGain.FIX, {"A", "D"})
    second = shaped({"sketch": drawn(), "tape_plan": tapes(BASE, ("B", "C", 4000.0))}).shape.next_tape
    assert second is not None
    assert second.fixes == ("C",)
    whole = shaped({"sketch": drawn(), "tape_plan": tapes(*ROUND)}).shape.next_tape
    assert whole is not None
    assert (whole.gain, {whole.start, whole.end}) == (TapeGain.CHECK, {"B", "D"})


def test_no_tape_is_asked_for_through_a_wall_or_behind_the_house():
    places = {
        "A": (0.0, 0.0),
        "B": (4000.0, 0.0),
        "C": (4000.0, 3000.0),
        "D": (8000.0, 3000.0),
        "E": (8000.0, 6000.0),
        "F": (0.0, 6000.0),
    }
    ring = tuple("ABCDEF")
    house = Drawn(walls=(("B", "C"), ("C", "D")), rings=(ring,))
    assert not can_be_taped("B", "D", places, house)  # the house stands in that corner
    assert not can_be_taped("A", "D", places, house)  # through the wall B–C
    assert can_be_taped("A", "E", places, Drawn(rings=(ring,)))
    assert can_be_taped("A", "C", places, house)
    assert can_be_taped("C", "F", places, house)
    assert can_be_taped("B", "C", places, house)


def test_a_slip_is_placed_among_spare_tapes_and_a_gross_one_too(shaped):
    true = {"A": (0, 0), "B": (6000, 0), "C": (6000, 4000), "D": (0, 4000), "E": (3000, 6500)}
    pairs = [(a, b) for n, a in enumerate(true) for b in list(true)[n + 1 :]]
    for which, slip in ((("B", "C"), 1000.0), (("D", "E"), 5400.0), (("A", "C"), -900.0)):
        rows = [(a, b, round(math.dist(true[a], true[b])) + (slip if (a, b) == which else 0.0)) for a, b in pairs]
        sketch = drawn({name: (x / 12.0, y / 13.0) for name, (x, y) in true.items()})
        found = shaped({"sketch": sketch, "tape_plan": tapes(*rows)})
        assert found.points.tapes is not None
        (suspect,) = found.points.tapes.suspects
        assert (suspect.start, suspect.end) == which
        assert suspect.slip_mm == pytest.approx(slip, abs=10.0)


def test_places_by_a_tap_are_by_eye_until_they_are_taped(shaped):
    tap = [{"name": "T", "x_mm": 2000.0, "y_mm": 1500.0, "place_sd_mm": 200.0}]
    found = shaped({"sketch": drawn(), "tape_plan": tapes(BASE), "points": tap})
    assert found.points.places["T"] == (2000.0, 1500.0)
    assert found.points.ellipses["T"].major_mm == 200.0
    taped = shaped({"points": tap, "tape_plan": tapes(BASE, ("A", "T", 2700.0), ("B", "T", 4400.0))})
    assert math.dist(taped.points.places["T"], taped.points.places["A"]) == pytest.approx(2700.0, abs=0.01)
    assert taped.points.ellipses["T"].major_mm < 10.0


def test_points_off_a_sketched_line_hang_on_it(shaped):
    offsets = [
        {"name": "G", "line_from": "A", "line_to": "B", "along_mm": 2000, "offset_mm": 1500},
        {"name": "H", "line_from": "C", "line_to": "D", "along_mm": 500, "offset_mm": 0},
        {"name": "I", "line_from": "H", "line_to": "A", "along_mm": 500, "offset_mm": 0},
    ]
    found = shaped({"sketch": drawn(), "tape_plan": tapes(BASE), "offsets": offsets})
    assert found.points.places["G"] == pytest.approx((2000.0, 1500.0))
    assert found.shape.hanging == ("H", "I")


def test_square_corners_and_points_on_lines_fix_with_tapes(shaped):
    squares = [{"at": "B", "first": "A", "second": "C"}, {"at": "A", "first": "B", "second": "D"}]
    plan = tapes(BASE, ("B", "C", 4000.0), ("A", "D", 4000.0), square_corners=squares)
    found = shaped({"sketch": drawn(), "tape_plan": plan})
    assert found.shape.is_fixed
    assert found.points.places["C"] == pytest.approx((6000.0, 4000.0), abs=0.5)


def test_a_reading_on_the_ground_is_a_spot_of_the_ground(small):
    rows = [
        {"point": "A", "backsight_mm": 1400.0, "on": "mark"},
        {"point": "B", "intermediate_mm": 1450.0, "on": "ground"},
        {"point": "C", "intermediate_mm": 1500.0, "on": "ground"},
        {"point": "D", "intermediate_mm": 1480.0, "on": "ground"},
        {"point": "Z", "intermediate_mm": 1480.0, "on": "ground"},
        {"point": "A", "foresight_mm": 1400.0},
    ]
    mark = [{"point": "A", "level_mm": 10_000.0, "assumed": True}]
    found = small.survey(
        {"points": list(small.square), "benchmarks": mark, "level_books": [{"name": "run", "rows": rows}]}
    )
    assert found.ground is not None
    assert len(found.ground.points) == 3
    assert "the assumed datum" in found.point("A").levelled_words
    assert [each.place for each in found.findings if each.code == "survey.spot_unplaced"] == ["point Z"]


def test_an_outline_follows_a_measured_arc_either_way_round(small):
    radius, chord = 4000.0, 6000.0
    rise = radius - math.sqrt(radius**2 - (chord / 2.0) ** 2)
    offsets = [
        {"along_mm": along, "offset_mm": -(math.sqrt(radius**2 - (along - chord / 2.0) ** 2) - (radius - rise))}
        for along in (1000.0, 2500.0, 4500.0)
    ]
    whole = {
        "points": list(small.square),
        "curves": [{"name": "Lawn", "line_from": "A", "line_to": "B", "offsets": offsets, "one_arc": True}],
    }
    segment = radius**2 * math.asin(chord / 2.0 / radius) - chord / 2.0 * (radius - rise)
    for corners in ("ABCD", "ADCB"):
        outline = [{"point": name} for name in corners]
        curved = "A" if corners == "ABCD" else "B"
        next(each for each in outline if each["point"] == curved)["curve"] = "Lawn"
        area = {"name": "Patio", "outline": outline, "laying": {"unit": "Slab"}}
        found = small.survey(whole, [area])
        assert found.site.areas[0].gross.polygon.area == pytest.approx(24e6 + segment, rel=1e-4)


def test_an_offset_that_is_off_its_arc_or_past_its_chord_is_reported(small):
    arc = [(1500.0, -420.0), (3000.0, -560.0), (4500.0, -420.0)]

    def curve(offsets):
        rows = [{"along_mm": along, "offset_mm": off} for along, off in offsets]
        return [{"name": "Lawn", "line_from": "A", "line_to": "B", "offsets": rows, "one_arc": True}]

    def codes(offsets):
        found = small.survey({"points": list(small.square), "curves": curve(offsets)})
        return [each.message for each in found.findings if each.code == "survey.curve_off"]

    assert codes(arc) == []
    (message,) = codes([*arc[:2], (4500.0, -520.0)])
    assert "4.500" in message or "1.500" in message
    with pytest.raises(JobInvalid, match="not between A and B"):
        codes([*arc, (6500.0, -10.0)])


def test_a_curve_that_nobody_measured_or_that_runs_elsewhere_is_a_fault(small):
    curve = {"name": "Lawn", "line_from": "A", "line_to": "B", "offsets": [{"along_mm": 1.0, "offset_mm": 2.0}]}
    points = {"points": list(small.square)}
    area = small.area(["A", "B", "C", "D"])
    area["outline"][0]["curve"] = "Lawn"
    for measured, words in (
        (points, "not measured"),
        (points | {"curves": [curve]}, "no single arc"),
        (points | {"curves": [curve | {"one_arc": True, "line_to": "C"}]}, "choose the side"),
    ):
        with pytest.raises(JobInvalid, match=words):
            small.job(measured, [area])


def test_the_sketch_is_laid_by_scale_and_turn_and_its_neighbours_are_its_sides():
    assert scale_of(FOUR, [("A", "B", 6000.0), ("B", "C", 4200.0), ("A", "C", 1.0)]) == pytest.approx(14.0)
    laid = laid_over(FOUR, {"A": (0.0, 0.0), "B": (0.0, 6000.0)}, 15.0)
    assert laid.on_site((0.0, 300.0)) == pytest.approx((-4500.0, 0.0), abs=1e-6)
    assert {frozenset(pair) for pair in neighbours(FOUR)} == {frozenset(p) for p in ("AB", "BC", "CD", "DA")}


def test_areas_on_a_sketch_say_that_they_are_by_eye(small):
    found = small.survey({"sketch": drawn(), "tape_plan": tapes(BASE)})
    assert found.site.areas[0].gross.polygon.area == pytest.approx(27e6, rel=0.01)
    (finding,) = [each for each in found.findings if each.code == "survey.point_sketched"]
    assert "C, D are placed by the sketch" in finding.message
    assert {each.place for each in found.assumed if each.what == "place"} == {"C", "D"}


def test_a_spot_in_the_middle_is_not_asked_for_while_nothing_is_taped_to_it(shaped):
    lines = Drawn(rings=(tuple("ABCD"),))
    spot = drawn(M=(210.0, 140.0))
    left = shaped({"sketch": spot, "tape_plan": tapes(*ROUND)}, lines)
    assert left.shape.is_fixed
    assert left.missing() == {"M": 2}
    assert left.shape.next_tape is not None
    assert left.shape.next_tape.gain is TapeGain.CHECK
    one = shaped({"sketch": spot, "tape_plan": tapes(*ROUND, ("A", "M", 3700.0))}, lines)
    assert not one.shape.is_fixed
    assert one.shape.next_tape is not None
    assert "M" in one.shape.next_tape.fixes


def test_a_point_held_by_one_that_may_move_itself_is_sketched_too(shaped):
    sketch = drawn({"A": (1821.0, 899.0), "B": (366.0, 3311.0), "C": (1389.0, 3394.0), "D": (1545.0, 2504.0)})
    rows = (("A", "B", 5174.0), ("B", "C", 1556.0), ("C", "D", 1623.0), ("A", "D", 3414.0))
    found = shaped({"sketch": sketch, "tape_plan": tapes(*rows)})
    assert not found.remarks.faults
    assert set(found.missing()) == {"C", "D"}
