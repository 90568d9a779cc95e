"""Hold points: verdicts that own up to their doubt, and what a surface that is off takes."""

from __future__ import annotations

import copy
import json
import math
from pathlib import Path

import pytest

from pavewright.as_laid import Verdict
from pavewright.desk import make_plan_so_far
from pavewright.hold_points import DrainStanding, HoldKey, TakeUp, off_limit
from pavewright.hold_points._drains import drain_read
from pavewright.hold_points._figures import hold_figures
from pavewright.hold_points._volumes import mean_volumes, surface_volumes
from pavewright.geometry import shape_from_polygon
from pavewright.job import MaterialKind, ToleranceRegime
from pavewright.job.on_site import DrainTest, DrainTestKind, HoldCheck, HoldCheckKind, HoldLayer, HoldReading
from pavewright import rulebook
from shapely.geometry import box

ROOT = Path(__file__).parents[3]
TERRACE = json.loads((ROOT / "examples" / "l_terrace.json").read_text("utf-8"))
FORMATION = HoldKey(HoldCheckKind.FORMATION, 0)
BASE = HoldKey(HoldCheckKind.LAYER, 0, HoldLayer.BASE)
FIGURES = hold_figures(ToleranceRegime.FLAGS, rulebook.load("england"))


def planned(*checks):
    return make_plan_so_far(json.dumps(copy.deepcopy(TERRACE) | {"hold_checks": list(checks)})).hold_points


@pytest.fixture(scope="module")
def plain():
    return planned()


def check(hold, off, *, name="Look", on="2027-05-04", sd=1.5, drop=0, **extra):
    readings = [
        {"label": each.label, "x_mm": each.at[0], "y_mm": each.at[1], "level_mm": each.planned_mm + off(number)}
        for number, each in enumerate(hold.places[drop:])
    ]
    kind = {"kind": hold.key.kind.value, "area": hold.area}
    if hold.key.layer is not None:
        kind["layer"] = hold.key.layer.value
    return {"name": name, "date": on, "sd_mm": sd, "readings": readings} | kind | extra


def test_every_surface_of_the_build_up_is_a_hold_point_and_is_open_until_somebody_reads_it(plain):
    assert [each.key.text for each in plain.holds if not each.drain] == [
        "formation.1", "layer.1.base", "first_row.1", "bed.1",
    ]  # fmt: skip
    assert [each.drain for each in plain.holds if each.drain] == ["Kitchen gully", "Fence channel", "Lawn channel"]
    assert all(each.is_open and each.verdict is None for each in plain.holds)
    assert not plain.findings


def test_formation_passes_fails_or_is_not_decided_and_never_passes_with_places_unread(plain):
    hold = plain.of(FORMATION)
    assert planned(check(hold, lambda _: -10.0)).of(FORMATION).verdict is Verdict.PASSES
    high = planned(check(hold, lambda number: 12.0 if number == 0 else -10.0))
    assert high.of(FORMATION).verdict is Verdict.FAILS
    assert [each.code for each in high.findings if each.code == "hold_points.fails"]
    near = planned(check(hold, lambda number: 1.0 if number == 0 else -10.0))
    assert near.of(FORMATION).verdict is Verdict.INCONCLUSIVE
    assert [each.code for each in near.findings] == ["hold_points.not_decided"]
    part = planned(check(hold, lambda _: -10.0, drop=1)).of(FORMATION)
    assert part.verdict is Verdict.INCONCLUSIVE


def test_a_reading_belongs_to_the_place_it_lies_at_whatever_it_was_called(plain):
    hold = plain.of(FORMATION)
    called = check(hold, lambda _: -10.0)
    for number, each in enumerate(called["readings"]):
        each["label"] = f"Old {number}"
    assert planned(called).of(FORMATION).verdict is Verdict.PASSES
    moved = check(hold, lambda _: -10.0)
    first, surface = moved["readings"][0], hold.places[0]
    near_mm = FIGURES.same_place.value
    other = hold.places[1].at
    away = math.dist(surface.at, other)
    first["x_mm"] += (other[0] - surface.at[0]) * 2 * near_mm / away
    first["y_mm"] += (other[1] - surface.at[1]) * 2 * near_mm / away
    assert planned(moved).of(FORMATION).verdict is Verdict.INCONCLUSIVE


def test_the_last_look_counts_and_the_first_stays_in_the_job(plain):
    hold = plain.of(FORMATION)
    first = check(hold, lambda _: 20.0, name="First", on="2027-05-04")
    second = check(hold, lambda _: -8.0, name="Second", on="2027-05-05")
    found = planned(second, first).of(FORMATION)
    assert found.checks == ("First", "Second")
    assert found.verdict is Verdict.PASSES


def test_formation_that_is_low_takes_concrete_by_the_rates_of_the_plan(plain):
    hold = plain.of(FORMATION)
    found = planned(check(hold, lambda _: -20.0)).of(FORMATION)
    low = found.low
    assert found.high is None
    assert low.kind is TakeUp.CONCRETE
    assert low.volume_m3.likely == pytest.approx(hold.area_m2 * 0.020, rel=1e-6)
    assert low.volume_m3.low < low.volume_m3.likely < low.volume_m3.high
    cement = next(each for each in low.goods if each.material is MaterialKind.CEMENT)
    assert cement.packs == pytest.approx(cement.amount / 25.0)
    assert low.minor == pytest.approx(low.volume_m3.likely * hold.low_rate.minor_per_m3)
    assert low.days == pytest.approx(low.hours / 16.0, rel=0.6)


def test_the_rate_of_a_layer_is_what_the_plan_pays_for_it(plain):
    plan = make_plan_so_far(json.dumps(TERRACE))
    rate = plain.of(FORMATION).low_rate
    base = next(each for each in plan.build_ups.areas[0].layers if each.key.value == "base")
    volume = plan.build_ups.areas[0].base_shape.area_m2 * base.thickness_mm / 1000.0
    hours = sum(task.person_hours for task in plan.labour if task.key.text == "base.area1")
    assert rate.hours_per_m3 == pytest.approx(hours / volume, rel=0.02)
    spent = sum(line.amount_minor for line in plan.cost.lines if line.key.text == "base.area1")
    goods = sum(each.minor_per_m3 for each in rate.goods)
    assert rate.minor_per_m3 == pytest.approx(goods + spent / volume, rel=0.02)


def test_a_base_that_is_low_takes_bed_and_one_that_is_high_leaves_a_thin_bed(plain):
    hold = plain.of(BASE)
    low = planned(check(hold, lambda _: -10.0)).of(BASE)
    assert low.low.kind is TakeUp.BED
    assert low.low.volume_m3.likely == pytest.approx(hold.area_m2 * 0.010, rel=1e-6)
    assert low.low.hours is None
    high = planned(check(hold, lambda number: 25.0 if number == 3 else 0.0))
    assert high.of(BASE).verdict is Verdict.FAILS
    assert {each.code for each in high.findings} == {"hold_points.fails", "hold_points.thin_bed"}


def test_without_prices_there_is_no_money_and_the_m3_are_there():
    bare = copy.deepcopy(TERRACE) | {"rates": {}}
    plain = make_plan_so_far(json.dumps(bare)).hold_points
    hold = plain.of(FORMATION)
    found = make_plan_so_far(json.dumps(bare | {"hold_checks": [check(hold, lambda _: -20.0)]})).hold_points
    low = found.of(FORMATION).low
    assert low.minor is None
    assert low.volume_m3.likely > 0.0


def test_the_first_row_is_held_to_its_string_as_well(plain):
    key = HoldKey(HoldCheckKind.FIRST_ROW, 0)
    hold = plain.of(key)
    straight = check(hold, lambda _: 0.0, sd=0.5)
    assert planned(straight).of(key).verdict is Verdict.PASSES
    bent = copy.deepcopy(straight)
    bent["readings"][2]["off_mm"] = 9.0
    found = planned(bent).of(key)
    assert found.verdict is Verdict.FAILS


def test_a_limit_above_of_zero_is_passed_only_below_it_by_the_doubt():
    assert [off_limit(off, 0.0, 25.0, 0.0) for off in (0.0, 0.1, -25.0, -25.1)] == [
        Verdict.PASSES, Verdict.FAILS, Verdict.PASSES, Verdict.FAILS,
    ]  # fmt: skip
    assert off_limit(0.0, 3.0, 3.0, 2.0) is Verdict.INCONCLUSIVE


def test_triangles_give_a_wedge_exactly_where_the_mean_cannot():
    shape = shape_from_polygon(box(0.0, 0.0, 4000.0, 2000.0))
    wedge = [
        (0.0, 0.0, -40.0),
        (4000.0, 0.0, 0.0),
        (4000.0, 2000.0, 0.0),
        (0.0, 2000.0, -40.0),
        (1000.0, 1000.0, -30.0),
    ]
    found = surface_volumes(shape, wedge, 1.0)
    assert found.low_m3 == pytest.approx(4.0 * 2.0 * 0.020)
    assert found.high_m3 == 0.0
    assert found.triangles_m2 == pytest.approx(8.0)
    assert mean_volumes(8.0, [off for _, _, off in wedge], 1.0).low_m3 == pytest.approx(8.0 * 0.022)
    on_a_line = surface_volumes(shape, [(0.0, 0.0, -5.0), (1000.0, 0.0, -5.0), (2000.0, 0.0, -5.0)], 1.0)
    assert on_a_line.low_m3 == pytest.approx(8.0 * 0.005)
    assert surface_volumes(shape, wedge[:1], 1.0).doubt_m3 is None


def drain(levels, *, run=None, sd=1.0, test=None):
    readings = tuple(
        HoldReading(label=str(number), x_mm=1000.0 * number, y_mm=0.0, level_mm=level)
        for number, level in enumerate(levels)
    )
    look = HoldCheck(name="d", kind=HoldCheckKind.DRAIN, drain="G", date="2027-05-04", sd_mm=sd, readings=readings,
                     run_mm=run, test=test)  # fmt: skip
    return drain_read(look, 1.0 / 80.0, FIGURES.drains)


def test_a_drain_falls_enough_too_little_or_cannot_be_decided():
    assert drain([100.0, 60.0], run=2000.0).fall_verdict is Verdict.PASSES
    assert drain([100.0, 90.0], run=2000.0).fall_verdict is Verdict.FAILS
    near = drain([100.0, 74.0], run=2000.0)
    assert near.fall_verdict is Verdict.INCONCLUSIVE
    assert near.fall_sd == pytest.approx(math.sqrt(2.0) / 2000.0)
    back = drain([100.0, 40.0, 60.0, 0.0])
    assert (back.back_falls, back.fall_verdict) == (1, Verdict.FAILS)
    assert drain([100.0]).fall is None


@pytest.mark.parametrize(
    ("fields", "standing"),
    [
        ({"kind": DrainTestKind.AIR, "drop_mm": 10.0, "minutes": 5.0, "start_gauge_mm": 100.0}, DrainStanding.TIGHT),
        ({"kind": DrainTestKind.AIR, "drop_mm": 40.0, "minutes": 5.0, "start_gauge_mm": 100.0}, DrainStanding.LEAKS),
        ({"kind": DrainTestKind.AIR, "drop_mm": 10.0, "minutes": 2.0, "start_gauge_mm": 100.0}, DrainStanding.TOO_SHORT),
        ({"kind": DrainTestKind.AIR}, DrainStanding.NOT_KNOWN),
        ({"kind": DrainTestKind.WATER, "lost_litre": 0.4, "length_mm": 10_000.0, "pipe_mm": 100.0, "minutes": 30.0},
         DrainStanding.TIGHT),
        ({"kind": DrainTestKind.WATER, "lost_litre": 0.6, "length_mm": 10_000.0, "pipe_mm": 100.0, "minutes": 30.0},
         DrainStanding.LEAKS),
        ({"kind": DrainTestKind.WATER, "lost_litre": 0.6, "length_mm": 10_000.0, "pipe_mm": 300.0, "minutes": 30.0},
         DrainStanding.NOT_KNOWN),
        ({"kind": DrainTestKind.SEEN_RUNNING, "seen_running": True}, DrainStanding.RUNS),
        ({"kind": DrainTestKind.SEEN_RUNNING}, DrainStanding.NOT_KNOWN),
    ],
)  # fmt: skip
def test_a_test_of_a_drain_says_what_it_can(fields, standing):
    found = drain([100.0, 60.0], run=2000.0, test=DrainTest(**fields))
    assert found.standing is standing
    wanted = {DrainStanding.TIGHT: Verdict.PASSES, DrainStanding.RUNS: Verdict.PASSES,
              DrainStanding.LEAKS: Verdict.FAILS, DrainStanding.TOO_SHORT: Verdict.INCONCLUSIVE}  # fmt: skip
    assert found.verdict is wanted.get(standing)


def test_a_drain_without_a_test_is_not_passed():
    assert drain([100.0, 60.0], run=2000.0).verdict is None


def test_under_permeable_paving_a_low_formation_takes_open_stone():
    drive = json.loads((ROOT / "examples" / "front_drive.json").read_text("utf-8"))
    permeable = {"infiltration_m_per_s": 1e-5, "sealed_m2": 0.0, "lets_through": True}
    drive["areas"][0] |= {"base_rule": "permeable", "permeable": permeable}
    first = make_plan_so_far(json.dumps(drive)).hold_points
    hold = first.of(FORMATION)
    assert [each.key.text for each in first.holds if not each.drain] == [
        "formation.1", "layer.1.sub_base", "first_row.1", "bed.1",
    ]  # fmt: skip
    found = make_plan_so_far(json.dumps(drive | {"hold_checks": [check(hold, lambda _: -15.0)]})).hold_points
    assert [each.material for each in found.of(FORMATION).low.goods] == [MaterialKind.OPEN_STONE]
    assert found.finds[0].fill.goods[0].material is MaterialKind.OPEN_STONE
