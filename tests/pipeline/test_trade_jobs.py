"""Jobs as the trade tells them, with the verdict that a good foreman would give. Sizes that were not told are chosen."""

from __future__ import annotations

import pytest

from pavewright.cost import TaskKey, TaskKind
from pavewright.findings import Severity
from pavewright.pipeline import plan


def planned(small):
    return plan(small.job(), small.rules)


def found(made, code):
    return next(finding for finding in made.findings if finding.code == code)


def codes(made):
    return {finding.code for finding in made.findings}


def on_a_house(small, wide, deep, dpc=10000.0, **fall):
    entered = small.rectangle(wide, deep)
    entered["fall"] = {"away_from": "House", **fall}
    small.site["walls"] = [{"name": "House", "start": "P0", "end": "P1", "dpc_level_mm": dpc}]
    return entered


def border(small):
    small.site["outfalls"] = [{"name": "Border", "kind": "border", "confirmed": True}]


def sloping_ground(small, at_house, per_m, reach=12000.0):
    names = [
        small.point(f"G{number}", x, y, at_house + per_m * y / 1000.0)
        for number, (x, y) in enumerate(((-reach, -reach), (reach, -reach), (reach, reach), (-reach, reach)))
    ]
    small.document["measurements"]["ground_points"] = names


def test_a_level_garden_whose_far_wall_would_be_undermined(small):
    # 7 × 5 m was told; the garden wall at the far edge and ground 60 mm/m up to it are chosen
    on_a_house(small, 7000.0, 5000.0, one_in=80.0)
    border(small)
    small.site["walls"].append({"name": "Garden wall", "start": "P3", "end": "P2"})
    sloping_ground(small, 9850.0, 60.0)
    made = planned(small)
    reported = next(f for f in made.findings if f.code == "earthworks.near_wall" and "Garden wall" in f.place)
    # ground 300 higher at the far wall, paving 62.5 lower, 150 of build-up
    assert reported.value == pytest.approx(300.0 + 62.5 + 150.0)
    assert "footing" in reported.message
    assert len(reported.option_words) >= 2


def test_a_drive_that_is_nearly_flat_is_told(small):
    # 2.5 × 20 m and 100 mm in all were told
    entered = small.rectangle(2500.0, 20000.0, bedding="sand_on_sub_base")
    entered |= {"use": "car", "fall": {"bearing_deg": 0.0, "one_in": 200.0, "level_at": "P0", "level_mm": 1000.0}}
    small.unit.update({"length_mm": 200.0, "width_mm": 100.0, "thickness_mm": 60.0, "kg_each": 2.7})
    border(small)
    reported = found(planned(small), "levels.too_flat")
    assert "1 in 200" in reported.message
    assert any("gully" in way for way in reported.option_words)


def test_b_paving_asked_for_75_below_the_dpc_says_stop_and_what_the_rule_is(small):
    # 40 m² round a house, existing paving at the DPC; the builder wants 50 to 75 below
    on_a_house(small, 10000.0, 4000.0, one_in=60.0, level_at="P0", level_mm=9925.0)
    border(small)
    small.flat_ground(10000.0)
    made = planned(small)
    reported = found(made, "levels.too_near_dpc")
    assert reported.severity is Severity.STOP
    assert (reported.value, reported.limit) == pytest.approx((9925.0, 9850.0))
    assert "75 mm too high" in reported.message
    assert made.build_ups.areas[0].workings[1].result == pytest.approx(75.0 + 150.0)


def test_c_a_garden_that_rises_from_the_house_wants_a_channel_at_the_wall(small):
    entered = on_a_house(small, 6000.0, 4000.0)
    entered["fall"] = {"bearing_deg": 180.0, "one_in": 80.0, "level_at": "P0", "level_mm": 9850.0}
    entered["laying"]["bearing_deg"] = 45.0
    made = planned(small)
    assert found(made, "water.to_wall").severity is Severity.STOP
    border(small)
    small.site["channels"] = [{"name": "House channel", "start": "P0", "end": "P1", "outfall": "Border"}]
    made = planned(small)
    assert "water.to_wall" not in codes(made)
    (caught,) = made.water.catchments
    assert (caught.kind, caught.to) == ("channel", "House channel")
    triangles = [piece for piece in made.laying.areas[0].pieces if len(piece.shape.outer) == 3]
    assert len(triangles) >= 10


def test_d_a_flush_door_one_course_above_the_dpc_cannot_be_with_these_rules(small):
    on_a_house(small, 5000.0, 3000.0, one_in=60.0)
    border(small)
    door = {"name": "Folding door", "along_mm": 1000.0, "width_mm": 2400.0}
    small.site["walls"][0] |= {
        "openings": [door | {"threshold_level_mm": 10075.0, "max_step_mm": 15.0}],
        "air_bricks": [{"name": "V1", "along_mm": 4200.0, "underside_level_mm": 10000.0}],
    }
    reported = found(planned(small), "levels.door_step_too_big")
    assert reported.severity is Severity.STOP
    # 150 below a DPC that lies 75 under the threshold: a step of 225, 210 more than wanted
    assert "210 mm too low" in reported.message
    assert reported.chain[0].words.startswith("The damp-proof course")
    assert reported.option_words[-1].startswith("Not offered")


def test_e_two_edges_fixed_at_different_heights_clash_in_millimetres(small):
    # an extension and a garage; levels chosen so that the fall does not fit between them
    small.rectangle(5000.0, 4000.0)["fall"] = {"bearing_deg": 0.0, "one_in": 80.0}
    border(small)
    small.site["tie_ins"] = [
        {"name": "Extension step", "start": "P0", "end": "P1", "start_level_mm": 1000.0, "end_level_mm": 1000.0},
        {"name": "Garage apron", "start": "P3", "end": "P2", "start_level_mm": 990.0, "end_level_mm": 990.0},
    ]
    reported = [finding for finding in planned(small).findings if finding.code == "levels.tie_in_clash"]
    assert {finding.severity for finding in reported} == {Severity.STOP}
    # 4 m at 1 in 80 drop 50 and only 10 may: 40 too many, shared out, less 3 either way
    assert sum(abs(finding.value - finding.limit) for finding in reported) == pytest.approx(40.0 - 6.0)


def test_f_a_patio_out_of_parallel_shows_the_taper_in_its_last_course(small):
    # 2 in. in 10 ft
    small.area([(0, 0), (3048, 0), (3048, 3098.8), (0, 3048)])
    border(small)
    laid = planned(small).laying.areas[0]
    last = [piece for piece in laid.pieces if piece.course == laid.courses]
    assert all(piece.kind.value == "cut" for piece in last)
    deep = sorted(piece.across_mm for piece in last if piece.along_mm > 500.0)
    assert deep[-1] - deep[0] > 30.0


def test_g_a_hump_100_below_the_dpc_is_proved_from_readings(small):
    on_a_house(small, 5000.0, 4000.0, one_in=60.0)
    border(small)
    small.document["as_laid"] = {
        "date": "2027-08-01",
        "readings": [
            {
                "x_mm": float(x),
                "y_mm": float(y),
                "level_mm": 9850.0 - y / 60.0 + (50.0 if y < 600 else 0.0),
                "area": "Patio",
            }
            for x in (300, 1700, 3300, 4700)
            for y in (300, 2000, 3700)
        ],
    }
    made = planned(small)
    assert found(made, "as_laid.too_near_dpc").value == pytest.approx(100.0)
    assert made.as_laid.verdict == "fail"
    assert any("Between readings" in words for words in made.as_laid.limits)


def test_h_thirty_cubic_metres_through_a_passage_are_told_in_barrows_and_hours(small):
    # 30 m³ over a 60 m run was told; 12 × 10 m dug 250 deep is chosen
    entered = small.rectangle(12000.0, 10000.0)
    entered["fall"] = {"bearing_deg": 0.0, "one_in": 1000.0, "level_at": "P0", "level_mm": 1000.0}
    entered["edges"] = [{"corner": f"P{n}", "restraint": "existing"} for n in range(4)]
    small.flat_ground(1095.0)
    small.site.update({"access_width_mm": 1200.0, "carry_mm": 60000.0})
    made = planned(small)
    assert made.earthworks.cut_m3 == pytest.approx(30.0, rel=0.02)
    assert made.earthworks.barrows.low >= 600
    wheel = next(task for task in made.cost.labour if task.key == TaskKey(TaskKind.CART, 0))
    assert wheel.person_hours == pytest.approx(made.earthworks.cut_m3 * 1.1 * 60.0 / 50.0)


def test_i_clay_laid_when_baked_is_told(small):
    small.rectangle(5000.0, 4000.0)
    border(small)
    small.site["ground"] = {"soil": "heavy_clay"}
    assert "buildup.clay_moves" in codes(planned(small))


def test_j_a_rectangle_to_one_corner_is_exact(small):
    # 10 ft, a quarter of an inch in a foot each way: the far corner 5 in. lower
    entered = small.rectangle(3048.0, 3048.0)
    entered["fall"] = {
        "bearing_deg": 0.0,
        "one_in": 48.0,
        "cross_one_in": 48.0,
        "level_at": "P0",
        "level_mm": 1000.0,
    }
    border(small)
    corners = {spot.label: spot.level_mm for spot in planned(small).levels.areas[0].corners}
    assert 1000.0 - corners["P2"] == pytest.approx(5 * 25.4)
