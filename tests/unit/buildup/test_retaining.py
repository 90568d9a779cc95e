"""Edges that stand high, drops that hurt, ground that nobody read, and loose edges that nothing holds."""

from __future__ import annotations

import pytest

from pavewright.buildup import Beyond, Remedy, build_up
from pavewright.findings import Severity
from pavewright.job import changed, parse
from pavewright.levels import finished_levels
from pavewright.survey import survey


def built(small):
    job, measured = small.surveyed()
    return build_up(job, measured, finished_levels(job, measured, small.rules), small.rules)


def found(ups, code):
    return [finding for finding in ups.findings if finding.code == code]


def terrace(small, ground_mm, *, use="foot", restraint="none", sides=("P1", "P2", "P3"), **laying):
    """A terrace of 6 by 4 m, level at 1.000 but for 4 mm, a house wall along its first side."""
    entered = small.rectangle(6000.0, 4000.0, **laying)
    entered["use"] = use
    entered["fall"] = {"bearing_deg": 0.0, "one_in": 1000.0, "level_at": "P0", "level_mm": 1000.0}
    entered["edges"] = [{"corner": corner, "restraint": restraint} for corner in sides]
    small.site["walls"] = [{"name": "House", "start": "P0", "end": "P1", "dpc_level_mm": 1150.0}]
    small.flat_ground(ground_mm)
    return entered


def test_a_terrace_half_a_metre_up_gets_a_low_wall_with_its_section_and_quantities(small):
    terrace(small, 500.0)
    ups = built(small)
    assert [(edge.side, edge.remedy) for edge in ups.retained] == [
        (side, Remedy.LOW_WALL) for side in ("P1–P2", "P2–P3", "P3–P0")
    ]
    assert {reported.severity for reported in found(ups, "buildup.edge_stands_high")} == {Severity.STOP}
    end = ups.retained[1]
    assert end.drop_mm == pytest.approx(496.0)
    assert end.length_mm == pytest.approx(6000.0)
    wall = end.wall
    # face from 300 below the lower ground to the paving; footing 600 by 200; stone 200 thick behind
    assert wall.face_m2 == pytest.approx(6.0 * (0.496 + 0.300))
    assert wall.footing_m3 == pytest.approx(6.0 * 0.6 * 0.2)
    assert wall.trench_m3 == pytest.approx(6.0 * 0.6 * 0.5)
    assert wall.drain_stone_m3 == pytest.approx(6.0 * 0.2 * 0.496)
    assert not found(ups, "buildup.guard_needed")


def test_the_wall_as_an_option_ends_the_stop(small):
    terrace(small, 500.0)
    reported = found(built(small), "buildup.edge_stands_high")[1]
    way = next(way for way in reported.options if way.changes)
    job = changed(parse(small.document), way.changes)
    measured = survey(job, small.rules)
    ups = build_up(job, measured, finished_levels(job, measured, small.rules), small.rules)
    again = [each for each in found(ups, "buildup.edge_stands_high") if each.place == reported.place]
    assert [each.severity for each in again] == [Severity.CHECK]
    for finding in (reported, *again):
        assert "Look at the ground under its footing first." in finding.message


@pytest.mark.parametrize(
    ("ground_mm", "restraint", "remedy"),
    [(880.0, "none", None), (800.0, "kerb", Remedy.LOW_WALL), (300.0, "kerb", Remedy.ENGINEER)],
)
def test_what_a_drop_takes_goes_by_its_height(small, ground_mm, restraint, remedy):
    terrace(small, ground_mm, restraint=restraint)
    assert {edge.remedy for edge in built(small).retained} == ({remedy} if remedy else set())


def test_on_a_loose_bed_a_bare_edge_holds_next_to_nothing_and_a_kerb_150(small):
    terrace(small, 900.0, bedding="sand_on_sub_base")
    (reported, *_) = found(built(small), "buildup.edge_stands_high")
    assert reported.severity is Severity.CHECK
    assert reported.limit == 25.0
    for edge in small.document["areas"][0]["edges"]:
        edge["restraint"] = "kerb"
    assert built(small).retained == ()


def test_a_drive_above_a_drop_is_for_an_engineer_at_any_height_and_no_low_wall_is_priced(small):
    terrace(small, 800.0, use="car", restraint="retaining")
    ups = built(small)
    assert {edge.remedy for edge in ups.retained} == {Remedy.ENGINEER}
    assert all(edge.wall is None for edge in ups.retained)
    assert {reported.severity for reported in found(ups, "buildup.edge_stands_high")} == {Severity.STOP}


def test_an_engineered_side_is_shown_and_does_not_stop(small):
    terrace(small, 200.0, restraint="engineered")
    ups = built(small)
    assert {reported.severity for reported in found(ups, "buildup.edge_stands_high")} == {Severity.CHECK}
    assert found(ups, "buildup.guard_needed")


def test_a_drop_of_more_than_600_wants_a_guard_along_it(small):
    terrace(small, 390.0)
    ups = built(small)
    # 610 at the house, 606 at the far side
    assert sum(edge.guarded_mm for edge in ups.retained) == pytest.approx(14000.0)
    assert len(found(ups, "buildup.guard_needed")) == 3


def test_ground_that_nobody_read_is_asked_for_and_is_not_fine(small):
    entered = terrace(small, 1000.0)
    small.document["measurements"].pop("ground_points")
    (reported,) = found(built(small), "buildup.ground_beyond_unknown")
    assert reported.value == pytest.approx(14000.0)
    assert "P2–P3" in reported.message
    assert entered["name"] in reported.message


def test_spot_levels_inside_the_paving_only_say_nothing_of_the_ground_beyond(small):
    terrace(small, 1000.0)
    names = [small.point(f"I{k}", x, y, 1000.0) for k, (x, y) in enumerate(((1000, 1000), (5000, 1000), (3000, 3000)))]
    small.document["measurements"]["ground_points"] = names
    assert found(built(small), "buildup.ground_beyond_unknown")


def test_a_drop_beside_steps_wants_a_wall_and_the_flight_does_not(small):
    small.area([(0, 0), (6000, 0), (6000, 3000), (4000, 3000), (2000, 3000), (0, 3000)], "Upper")
    small.area([(0, 3000), (2000, 3000), (4000, 3000), (6000, 3000), (6000, 6000), (0, 6000)], "Lower")
    upper, lower = small.document["areas"]
    upper["fall"] = {"bearing_deg": 0.0, "one_in": 1000.0, "level_at": "U0", "level_mm": 1000.0}
    lower["fall"] = {"bearing_deg": 0.0, "one_in": 1000.0, "level_at": "L0", "level_mm": 560.0}
    small.document["steps"] = [{"name": "Flight", "upper_area": "Upper", "lower_area": "Lower", "corner": "U3"}]
    names = [
        small.point(f"G{k}", x, y, z)
        for k, (x, y, z) in enumerate(
            ((-1000, -1000, 1000), (7000, -1000, 1000), (7000, 3000, 1000), (-1000, 3000, 1000), (7000, 3100, 560),
             (-1000, 3100, 560), (7000, 7000, 560), (-1000, 7000, 560))
        )
    ]  # fmt: skip
    small.document["measurements"]["ground_points"] = names
    over = [edge for edge in built(small).retained if edge.beyond is Beyond.AREA]
    assert [(edge.area, edge.other, edge.length_mm) for edge in over] == [
        ("Upper", "Lower", pytest.approx(2000.0)),
        ("Upper", "Lower", pytest.approx(2000.0)),
    ]
    assert all(edge.drop_mm == pytest.approx(437.0) for edge in over)


def test_ground_above_the_paving_is_a_bank_that_somebody_has_to_hold(small):
    terrace(small, 1300.0)
    reported = found(built(small), "buildup.bank_above")
    assert [each.value for each in reported] == pytest.approx([304.0, 304.0, 304.0], abs=1.0)


def test_a_garden_wall_is_not_taken_for_a_wall_that_retains(small):
    terrace(small, 800.0)
    small.site["walls"].append({"name": "Garden wall", "start": "P2", "end": "P3"})
    behind = [edge for edge in built(small).retained if edge.beyond is Beyond.BEHIND_WALL]
    assert [(edge.other, edge.wall) for edge in behind] == [("Garden wall", None)]


@pytest.mark.parametrize(("use", "severity"), [("car", Severity.STOP), ("foot", Severity.CHECK)])
def test_units_on_sand_without_a_restraint_creep(small, use, severity):
    terrace(small, 1000.0, use=use, bedding="sand_on_sub_base")
    (reported,) = found(built(small), "buildup.edge_not_held")
    assert reported.severity is severity
    # the house holds one side; the corners beside it belong to the wall
    assert reported.value == pytest.approx(14000.0, abs=350.0)
    for way in reported.options:
        assert len(way.changes) == 3


def test_restraint_all_round_leaves_nothing_to_say(small):
    terrace(small, 1000.0, use="car", bedding="sand_on_sub_base", restraint="edging")
    assert not found(built(small), "buildup.edge_not_held")


def test_a_side_without_an_entry_gets_one_by_the_option(small):
    terrace(small, 1000.0, use="car", bedding="sand_on_sub_base", sides=("P1",), restraint="kerb")
    (reported,) = found(built(small), "buildup.edge_not_held")
    job = changed(parse(small.document), reported.options[0].changes)
    assert {edge.corner: edge.restraint.value for edge in job.areas[0].edges} == {
        "P1": "kerb",
        "P2": "edging",
        "P3": "edging",
    }


def test_mortar_on_concrete_holds_its_own_edge(small):
    terrace(small, 1000.0)
    assert not found(built(small), "buildup.edge_not_held")
