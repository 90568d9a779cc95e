"""Whose ground water runs onto, and where it ends when it crosses several areas: worked out by hand."""

from __future__ import annotations

import math

import pytest

from pavewright import rulebook
from pavewright.findings import Severity
from pavewright.job import Beyond
from pavewright.levels import TakerKind, drained_surface, finished_levels
from pavewright.water import drain

WIDE, DEEP = 5200.0, 11000.0


def drained(small):
    job, measured = small.surveyed()
    return drain(job, measured, finished_levels(job, measured, small.rules), small.rules)


def found(water):
    return {each.code: each for each in water.findings}


def tie(**said):
    return {
        "name": "Back of footway",
        "start": "D2",
        "end": "D3",
        "start_level_mm": 900.0,
        "end_level_mm": 900.0,
    } | said


@pytest.fixture
def drive(small):
    """Give a drive of 57.2 m² that falls to a tie-in at its far edge."""
    entered = small.rectangle(WIDE, DEEP, "Drive")
    entered["position"] = "front"
    entered["fall"] = {"bearing_deg": 0.0, "one_in": 60.0, "level_at": "D0", "level_mm": 900.0 + DEEP / 60.0}
    small.site["tie_ins"] = [tie()]
    return small


def highway(small, neighbour="highway"):
    small.site["boundaries"] = [{"name": "Road", "start": "D2", "end": "D3", "neighbour": neighbour}]


def test_a_tie_in_on_a_highway_boundary_is_the_highway(drive):
    highway(drive)
    water = drained(drive)
    reported = found(water)["water.over_boundary"]
    assert reported.severity is Severity.STOP
    assert reported.value == pytest.approx(57.2 * 0.014)
    assert "section 163" in reported.figure.place
    (caught,) = water.catchments
    assert (caught.kind, caught.beyond, caught.outfall) == (TakerKind.BOUNDARY, Beyond.HIGHWAY, None)


@pytest.mark.parametrize("beyond", ["highway", "neighbour"])
def test_a_tie_in_that_says_whose_it_is_needs_no_boundary(drive, beyond):
    drive.site["tie_ins"] = [tie(beyond=beyond)]
    assert found(drained(drive))["water.over_boundary"].severity is Severity.STOP


def test_where_nothing_says_what_lies_beyond_it_is_asked(drive):
    reported = found(drained(drive))
    assert reported["water.beyond_not_known"].severity is Severity.CHECK
    assert "water.over_boundary" not in reported


def test_own_paving_is_not_followed_and_says_so(drive):
    drive.site["tie_ins"] = [tie(beyond="own_paving")]
    assert set(found(drained(drive))) == {"water.onto_own_paving", "water.front_garden"}
    drive.site["tie_ins"] = [tie()]
    highway(drive, "own")
    assert "water.onto_own_paving" in found(drained(drive))


def test_own_ground_takes_water_where_a_border_is_named(drive):
    drive.site["tie_ins"] = [tie(beyond="own_ground")]
    assert "water.no_outfall" in found(drained(drive))
    drive.site["outfalls"] = [{"name": "Bed", "kind": "border", "confirmed": True}]
    assert found(drained(drive)) == {}


def test_own_ground_on_a_highway_boundary_is_disputed(drive):
    drive.site["tie_ins"] = [tie(beyond="own_ground")]
    drive.site["outfalls"] = [{"name": "Bed", "kind": "border", "confirmed": True}]
    highway(drive)
    assert found(drained(drive))["water.beyond_disputed"].severity is Severity.CHECK


@pytest.mark.parametrize("said", [{}, {"beyond": "highway"}, {"beyond": "own_paving"}])
def test_the_front_counts_all_that_does_not_end_in_ground(drive, said):
    drive.site["tie_ins"] = [tie(**said)]
    reported = found(drained(drive))["water.front_garden"]
    assert "57.2 m² are paved at the front and 57.2 m² of it" in reported.message


def test_a_boundary_that_runs_away_from_the_edge_does_not_take_its_water(drive):
    drive.site["tie_ins"] = [tie(beyond="own_ground")]
    drive.site["outfalls"] = [{"name": "Bed", "kind": "border", "confirmed": True}]
    drive.site["boundaries"] = [{"name": "Fence", "start": "D1", "end": "D2", "neighbour": "neighbour"}]
    assert found(drained(drive)) == {}


def test_the_channel_before_the_footway_takes_it(drive):
    highway(drive)
    drive.site["outfalls"] = [{"name": "Brook", "kind": "watercourse", "confirmed": True}]
    drive.site["channels"] = [{"name": "Slot", "start": "D2", "end": "D3", "outfall": "Brook"}]
    assert set(found(drained(drive))) == {"water.front_garden"}


@pytest.mark.parametrize("neighbour", [None, "highway", "neighbour", "own"])
@pytest.mark.parametrize("beyond", list(Beyond))
def test_cells_and_strips_say_the_same_of_what_lies_beyond(drive, neighbour, beyond):
    drive.site["tie_ins"] = [tie(beyond=beyond.value)]
    if neighbour is not None:
        highway(drive, neighbour)
    job, measured = drive.surveyed()
    levels = finished_levels(job, measured, drive.rules)
    (caught,) = drain(job, measured, levels, drive.rules).catchments
    cells = drained_surface(measured.site.areas[0], measured, levels.area("Drive").surface, drive.rules, 200.0)
    taker = max(cells.areas_m2, key=lambda each: each[1])[0]
    assert (taker.kind, taker.name, taker.beyond) == (caught.kind, caught.to, caught.beyond)


@pytest.mark.parametrize("edition", ["england", "wales", "scotland", "ireland", "usa"])
def test_the_duty_not_to_wet_the_road_is_that_of_the_place(drive, edition):
    drive.rules = rulebook.load(edition)
    highway(drive)
    figure = found(drained(drive))["water.over_boundary"].figure
    assert figure.key == "water.onto_highway_l_s"
    assert (figure.status.value == "M") == (edition in {"england", "wales", "usa"})


def test_litres_over_a_tie_in_to_the_road_are_held_against_before(drive):
    drive.site["tie_ins"] = [tie(beyond="highway")]
    drive.flat_ground(700.0)
    water = drained(drive)
    (share,) = [each for each in water.storm.shares if each.after_l > 0.0]
    assert (share.kind, share.beyond) == (TakerKind.TIE_IN, Beyond.HIGHWAY)
    assert share.after_l == pytest.approx(57.2 * water.storm.depth_mm)
    assert "water.more_over_boundary" in found(water)


def terraces(small, steps=True):
    """Give a lower terrace with a channel to a pit, and an upper one whose water comes down to it."""
    lower = small.area([(0, 0), (5000, 0), (5000, 4000), (0, 4000)], "Lower")
    lower["fall"] = {"bearing_deg": 180.0, "one_in": 60.0, "level_at": "L0", "level_mm": 1000.0}
    upper = small.area([(0, 4000), (5000, 4000), (5000, 6120), (0, 6120)], "Upper")
    upper["fall"] = {"bearing_deg": 180.0, "one_in": 60.0, "level_at": "U0", "level_mm": 1500.0}
    if steps:
        small.document["steps"] = [{"name": "Flight", "upper_area": "Upper", "lower_area": "Lower", "corner": "U0"}]
    pit = {"length_mm": 3000.0, "width_mm": 1000.0, "depth_mm": 1000.0, "infiltration_m_per_s": 4e-5}
    small.site["outfalls"] = [{"name": "Pit", "kind": "soakaway", "confirmed": True, "soakaway": pit}]
    small.site["channels"] = [{"name": "Slot", "start": "L0", "end": "L1", "outfall": "Pit", "depth_mm": 100.0}]
    small.site["rain"] = {"five_year_hour_mm": 20.0, "hour_to_two_days": 0.35}


def test_a_soakaway_takes_what_comes_down_the_steps(small):
    terraces(small)
    water = drained(small)
    (check,) = water.soakaways
    assert check.area_m2 == pytest.approx(20.0 + 10.6)
    slot = next(each for each in water.catchments if each.kind is TakerKind.CHANNEL)
    assert slot.from_others_m2 == pytest.approx(10.6)
    assert water.drains[0].flow_l_s == pytest.approx(30.6 * 0.014)
    assert water.total_l_s == pytest.approx(30.6 * 0.014)


def test_water_through_three_areas_in_a_chain_ends_in_the_pit(small):
    terraces(small, steps=False)
    top = small.area([(0, 6120), (5000, 6120), (5000, 8120), (0, 8120)], "Top")
    top["fall"] = {"bearing_deg": 180.0, "one_in": 60.0, "level_at": "T0", "level_mm": 1800.0}
    water = drained(small)
    assert water.soakaways[0].area_m2 == pytest.approx(20.0 + 10.6 + 10.0)


def test_water_goes_only_where_it_enters_the_next_area(small):
    terraces(small, steps=False)
    # the lower terrace falls to its left half's channel and its free right half alike; the upper one stands on the left
    small.site["channels"][0]["end"] = small.point("M", 2500.0, 0.0)
    small.document["measurements"]["points"][5]["x_mm"] = 2000.0
    small.document["measurements"]["points"][6]["x_mm"] = 2000.0
    water = drained(small)
    slot = next(each for each in water.catchments if each.kind is TakerKind.CHANNEL)
    edge = next(each for each in water.catchments if each.kind is TakerKind.FREE_EDGE)
    assert slot.from_others_m2 == pytest.approx(2.0 * 2.12)
    assert edge.from_others_m2 == 0.0


def test_the_front_follows_water_over_another_area_to_the_road(small):
    terraces(small, steps=False)
    small.document["areas"][1]["position"] = "front"
    reported = found(drained(small))
    assert "water.front_garden" not in reported
    small.site["channels"] = []
    small.site["boundaries"] = [{"name": "Road", "start": "L0", "end": "L1", "neighbour": "highway"}]
    reported = found(drained(small))
    assert "10.6 m² of it do not drain" in reported["water.front_garden"].message
    assert "20.0 m² of Lower and 10.6 m² that drain onto it" in reported["water.over_boundary"].message


def facing(small, one_in=60.0, cross=None):
    """Give two areas that fall towards each other."""
    for name, low, high, bearing in (("Near", 0, 3000, 0.0), ("Opposite", 3000, 6000, 180.0)):
        entered = small.area([(0, low), (5000, low), (5000, high), (0, high)], name)
        at = f"{name[0]}{0 if bearing == 0.0 else 3}"
        entered["fall"] = {"bearing_deg": bearing, "one_in": one_in, "level_at": at, "level_mm": 1000.0}
        if cross is not None:
            # both fall to the east as well
            turned = math.degrees(math.atan2(one_in, cross))
            entered["fall"]["bearing_deg"] = turned if bearing == 0.0 else bearing - turned
            entered["fall"]["one_in"] = 1.0 / math.hypot(1.0 / one_in, 1.0 / cross)


def test_two_areas_that_send_water_to_each_other_say_stop_and_count_nothing_twice(small):
    facing(small)
    water = drained(small)
    assert [each.code for each in water.findings] == ["water.runs_in_circle"] * 2
    assert all(each.severity is Severity.STOP for each in water.findings)
    assert all(each.from_others_m2 <= 15.0 + 1e-6 for each in water.catchments)


def test_a_channel_on_the_joint_takes_it(small):
    facing(small)
    small.site["outfalls"] = [{"name": "Brook", "kind": "watercourse", "confirmed": True}]
    small.site["channels"] = [{"name": "Slot", "start": "N3", "end": "N2", "outfall": "Brook"}]
    water = drained(small)
    assert water.findings == ()
    assert sum(each.whole_m2 for each in water.catchments if each.outfall == "Brook") == pytest.approx(30.0)


def valley(small, cross=80.0):
    """Give two areas that fall towards each other along a joint that falls too, with a border."""
    facing(small, cross=cross)
    small.site["outfalls"] = [{"name": "Bed", "kind": "border", "confirmed": True}]


def test_a_joint_that_falls_to_a_free_edge_lets_the_water_out(small):
    valley(small)
    water = drained(small)
    (reported,) = water.findings
    assert (reported.code, reported.severity) == ("water.joint_runs_out", Severity.CHECK)
    assert reported.at_mm == pytest.approx((5000.0, 3000.0), abs=25.0)
    assert reported.value == pytest.approx(1.0 / 80.0, rel=0.01)
    assert sum(each.area_m2 for each in water.catchments if each.outfall == "Bed") == pytest.approx(30.0)


def test_a_joint_that_falls_slowly_is_slow_to_clear(small):
    valley(small, 200.0)
    (reported,) = drained(small).findings
    assert "flatter than 1 in 100 is slow to clear" in reported.message


@pytest.mark.parametrize("side", [0, 1])
def test_a_joint_that_falls_to_a_wall_or_kerb_still_says_stop(small, side):
    valley(small)
    if side == 0:
        small.site["walls"] = [{"name": "House", "start": "N1", "end": "N2", "dpc_level_mm": 1300.0}]
    else:
        small.document["areas"][0]["edges"] = [{"corner": "N1", "restraint": "kerb"}]
    reported = found(drained(small))
    assert reported["water.runs_in_circle"].severity is Severity.STOP
    assert "water.joint_runs_out" not in reported


@pytest.mark.parametrize(("neighbour", "code"), [("highway", "water.over_boundary"), ("own", "water.onto_own_ground")])
def test_a_joint_that_falls_to_a_boundary_is_judged_by_it(small, neighbour, code):
    valley(small)
    small.site["boundaries"] = [{"name": "Line", "start": "N1", "end": "N2", "neighbour": neighbour}]
    reported = found(drained(small))
    assert reported[code].severity is (Severity.STOP if neighbour == "highway" else Severity.NOTE)
    assert "water.runs_in_circle" not in reported


def test_what_only_runs_into_a_circle_is_not_said_to_get_its_water_back(small):
    facing(small)
    top = small.area([(0, -2000), (5000, -2000), (5000, 0), (0, 0)], "Top")
    top["fall"] = {"bearing_deg": 0.0, "one_in": 60.0, "level_at": "T0", "level_mm": 1200.0}
    places = [each.place for each in drained(small).findings if each.code == "water.runs_in_circle"]
    assert sorted(places) == ["area Near, Opposite", "area Opposite, Near"]
