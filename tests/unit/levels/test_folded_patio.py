"""A patio of 5.4 × 4.2 m with an inboard gully and a cover that will not move, folded in every way.

The case is invented. Costs and changes were reckoned once with another program (linear programme, 16 sides for the
circle of slopes, samples 250 mm apart, slight waves on the ground, which this case leaves out); ours has to come within
one per cent of them. Threshold level and prices of the changes are chosen here.
"""

from __future__ import annotations

import dataclasses
import math

import pytest
from shapely.geometry import Polygon

from pavewright.levels.design import _arrangements, _facet_rows
from pavewright.levels.design._arrangements import crossed_valley, mitres, one_plane, ridge, to_gully, valley
from pavewright.levels.design._bounds import Bound
from pavewright.levels.design._design import Earth, Task, design, samples
from pavewright.levels.design._facet_rows import FallRange
from pavewright.levels.design._repairs import ChangePrice, clashing, reach, repairs
from pavewright.levels.design._rule import MIN_FALL, STEEPEST, RuleKind

PATIO = ((0.0, 0.0), (5400.0, 0.0), (5400.0, 4200.0), (0.0, 4200.0))
GULLY = (4900.0, 2600.0)
ALONG = (1.0, 0.0)
FALLS = FallRange(1 / 60, 1 / 40, 1 / 100)
PRICES = {
    RuleKind.COVER: ChangePrice(120.0, 1.0),
    RuleKind.MIN_FALL: ChangePrice(150.0, 10.0),
    RuleKind.STEEPEST: ChangePrice(180.0, 10.0),
    RuleKind.TIE_IN: ChangePrice(200.0, 2.0),
}


class Ground:
    """Ground that falls toward the house."""

    def level_beyond(self, place):
        return -215.0 + 0.055 * place[1]

    def levels_beyond(self, _x, y):
        return -215.0 + 0.055 * y


EARTH = Earth(
    samples(Polygon(PATIO), Ground()),  # type: ignore[arg-type] # all that is asked of a surface
    245.0,
    85.0,
    70.0,
)


def bound(kind, thing, at, low, high, fixed, locked=False):
    return Bound(kind, thing, at, low, high, fixed, locked, f"{thing} at {fixed:g}", path=thing)


HOUSE = (
    *(bound(RuleKind.DPC, "wall House", at, -math.inf, -150.0, 0.0, True) for at in (PATIO[0], PATIO[1])),
    *(bound(RuleKind.DOOR, "Door", (x, 0.0), -math.inf, 0.0, 0.0) for x in (2400.0, 3300.0)),
    *(bound(RuleKind.DOOR_REACH, "Door", (x, 0.0), -190.0, math.inf, 0.0) for x in (2400.0, 3300.0)),
)
LID = bound(RuleKind.COVER, "cover Lid", (1500.0, 2900.0), -167.0, -163.0, -165.0)


def task(arrangement, *more, turn=False):
    return Task(dataclasses.replace(arrangement, may_turn=turn), (*HOUSE, *more), FALLS, EARTH)


FOLDED = {
    "away": one_plane(PATIO, (0.0, 1.0)),
    "towards": one_plane(PATIO, (0.0, -1.0)),
    "valley": valley(PATIO, GULLY, ALONG, "gully"),
    "crossed": crossed_valley(PATIO, GULLY, ALONG, "gully"),
}


@pytest.mark.parametrize(("name", "cost"), [("away", 638.0), ("towards", 471.0), ("valley", 667.0), ("crossed", 666.0)])
def test_earthwork_costs_what_the_other_program_found(name, cost):
    assert design(task(FOLDED[name])).cost == pytest.approx(cost, rel=0.01)


def test_the_plane_away_from_the_house_lies_as_high_as_it_may():
    surface = design(task(FOLDED["away"])).surface
    assert surface.level_at((2000.0, 0.0)) == pytest.approx(-150.0, abs=1e-6)
    assert surface.level_at((2000.0, 4200.0)) == pytest.approx(-220.0, abs=1e-6)


def test_the_valley_falls_one_in_a_hundred_between_facets_of_51_and_40():
    surface = design(task(FOLDED["valley"])).surface
    (fold,) = surface.folds
    assert fold.is_valley
    assert (surface.level_at(fold.start), surface.level_at(fold.end)) == pytest.approx((-193.3, -247.3), abs=0.1)
    assert [1.0 / facet.plane.fall for facet in surface.facets] == pytest.approx([51.4, 40.0], abs=0.1)


@pytest.mark.parametrize("name", ["valley", "crossed"])
def test_turning_the_direction_never_costs_more_and_keeps_the_min_fall(name):
    fixed, turned = design(task(FOLDED[name])), design(task(FOLDED[name], turn=True))
    assert turned.cost <= fixed.cost + 1e-6
    assert turned.rounds > 1
    assert min(facet.plane.fall for facet in turned.surface.facets) >= 1 / 60 - 1e-9


@pytest.mark.parametrize("name", ["valley", "crossed"])
def test_facets_meet_along_their_folds(name):
    surface = design(task(FOLDED[name], turn=True)).surface
    for fold in surface.folds:
        for at in (fold.start, fold.end):
            levels = [facet.plane.level_at(at) for facet in surface.facets if facet.polygon.distance(_point(at)) < 1e-6]
            assert max(levels) - min(levels) < 1e-6


def _point(at):
    return Polygon([at, (at[0] + 1e-9, at[1]), (at[0], at[1] + 1e-9)])


def test_a_plane_from_every_side_to_an_inlet_near_one_edge_cannot_be():
    fan = to_gully(PATIO, GULLY, "gully")
    assert design(task(fan)) is None
    assert MIN_FALL in clashing(task(fan))
    assert STEEPEST in clashing(task(fan))


def test_a_cover_that_will_not_move_clashes_with_wall_and_fall():
    clash = task(FOLDED["away"], LID)
    assert design(clash) is None
    assert set(clashing(clash)) == {MIN_FALL, HOUSE[0].rule, LID.rule}
    _, highest = reach(clash, LID.rule, LID.at)
    assert highest == pytest.approx(-150.0 - 2900.0 / 60.0)


def test_the_ways_out_of_one_plane_are_the_cover_or_the_fall():
    cover, fall = repairs(task(FOLDED["away"], LID), PRICES)
    assert [(change.rule, round(change.by)) for change in cover.changes] == [(LID.rule, 31)]
    assert [change.rule for change in fall.changes] == [MIN_FALL]
    assert 1.0 / fall.task.falls.least == pytest.approx(171.0, abs=0.5)
    assert cover.price < fall.price
    assert cover.designed.cost == pytest.approx(638.0, rel=0.01)


def test_the_ways_out_of_the_valley_are_the_cover_or_the_fall():
    cover, fall, *_ = repairs(task(FOLDED["valley"], LID), PRICES)
    # with 1024 sides for the circle of slopes 34.46 and 293.0; the other program found 35 and 300 with 16
    (change,) = cover.changes
    assert (change.rule, change.by) == (LID.rule, pytest.approx(34.46, abs=0.02))
    assert 1.0 / fall.task.falls.least == pytest.approx(293.0, rel=0.002)
    assert cover.designed.cost == pytest.approx(667.0, rel=0.01)


def test_two_clashes_at_once_are_mended_only_by_sets():
    path = bound(RuleKind.TIE_IN, "path", (5400.0, 4200.0), -122.0, -118.0, -120.0)
    clash = task(FOLDED["valley"], LID, path)
    found = repairs(clash, PRICES)
    sets = [{change.rule for change in repair.changes} for repair in found]
    assert {LID.rule, path.rule} in sets
    assert {LID.rule} not in sets
    assert {path.rule} not in sets
    prices = [repair.price for repair in found]
    assert prices == sorted(prices)
    assert not any(one < other for one in sets for other in sets)


def test_what_is_locked_is_never_offered():
    for arrangement in FOLDED.values():
        for repair in repairs(task(arrangement, LID), PRICES | {RuleKind.DPC: ChangePrice(0.0, 0.0)}):
            assert all(change.rule.kind is not RuleKind.DPC for change in repair.changes)


@pytest.mark.parametrize("up", [-100000.0, 12345.0])
def test_another_datum_changes_no_cost(up):
    raised = tuple(
        dataclasses.replace(each, low_mm=each.low_mm + up, high_mm=each.high_mm + up, fixed_mm=each.fixed_mm + up)
        for each in HOUSE
    )
    places = EARTH.places.copy()
    places[:, 2] += up
    there = Task(FOLDED["crossed"], raised, FALLS, dataclasses.replace(EARTH, places=places))
    here = Task(FOLDED["crossed"], HOUSE, FALLS, EARTH)
    assert design(there).cost == pytest.approx(design(here).cost, rel=1e-6)


def test_without_known_ground_the_surface_lies_as_high_as_it_may():
    found = design(Task(FOLDED["away"], HOUSE, FALLS, None))
    assert found.cost is None
    assert found.surface.level_at(PATIO[0]) == pytest.approx(-150.0)


def test_a_ridge_falls_away_on_both_sides():
    arrangement = ridge(PATIO, ALONG)
    held = (bound(RuleKind.TIE_IN, "top", (0.0, 2100.0), 0.0, 0.0, 0.0),)
    surface = design(Task(arrangement, held, FALLS, None)).surface
    for side in (0.0, 4200.0):
        assert surface.level_at((2700.0, side)) <= surface.level_at((2700.0, 2100.0)) - 2100.0 / 120.0 + 1e-6
    assert min(facet.plane.fall for facet in surface.facets) >= 1 / 60 - 1e-9
    assert not surface.folds[0].is_valley


def test_an_inner_corner_gives_a_mitre_whose_parts_fill_the_area():
    house_corner = ((0.0, 0.0), (6000.0, 0.0), (6000.0, 3000.0), (3000.0, 3000.0), (3000.0, 6000.0), (0.0, 6000.0))
    (found,) = mitres(house_corner)
    parts = [Polygon(facet.outline) for facet in found.facets]
    assert sum(part.area for part in parts) == pytest.approx(Polygon(house_corner).area)
    assert {tuple(round(value) for value in facet.direction) for facet in found.facets} == {(0, -1), (-1, 0)}
    assert found.folds_m == pytest.approx(3.0 * math.sqrt(2.0))


def turned(wanted, degrees):
    """The same patio with everything turned about a corner."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))

    def at(place):
        return place[0] * c - place[1] * s, place[0] * s + place[1] * c

    way = wanted.arrangement
    facets = tuple(
        dataclasses.replace(
            facet,
            outline=tuple(at(corner) for corner in facet.outline),
            direction=at(facet.direction),
            target=tuple(at(place) for place in facet.target),
        )
        for facet in way.facets
    )
    places = wanted.earth.places.copy()
    places[:, :2] = [at(place) for place in places[:, :2]]
    return dataclasses.replace(
        wanted,
        arrangement=dataclasses.replace(
            way, facets=facets, valleys=tuple((at(high), at(low)) for high, low in way.valleys)
        ),
        limits=tuple(dataclasses.replace(each, at=at(each.at)) for each in wanted.limits),
        earth=dataclasses.replace(wanted.earth, places=places),
    )


@pytest.mark.parametrize("degrees", [0.0, 5.0, 11.25])
@pytest.mark.parametrize("way", [FOLDED["towards"], ridge(PATIO, ALONG)], ids=lambda way: way.kind.value)
def test_planes_cost_no_more_than_a_thousandth_over_the_best(way, degrees, monkeypatch):
    # slopes are held in a polygon within the circle of those allowed: the best is what a polygon of 1024 sides finds
    wanted = turned(task(way, turn=True), degrees)
    ours = design(wanted).cost
    monkeypatch.setattr(_facet_rows, "_SIDES", 1024)
    best = design(wanted).cost
    assert best - 1e-6 <= ours <= best * 1.001


def test_a_task_is_set_up_again_without_making_a_shape_again(monkeypatch):
    wanted = task(FOLDED["crossed"], turn=True)
    design(wanted)
    made = []
    monkeypatch.setattr(_arrangements, "Polygon", lambda *given: made.append(given))
    assert design(wanted).rounds > 1
    assert made == []


def test_the_solver_writes_nothing_to_the_console(capfd):
    design(task(FOLDED["valley"]))
    assert capfd.readouterr() == ("", "")


def test_two_things_of_one_name_are_two_rules_and_give_way_apart():
    high = dataclasses.replace(LID, path="site.covers.1", at=(3900.0, 2900.0), low_mm=-157.0, high_mm=-153.0)
    found = repairs(task(FOLDED["away"], LID, high), PRICES)
    by = next(each.changes for each in found if {change.rule for change in each.changes} == {LID.rule, high.rule})
    low, more = (next(change.by for change in by if change.rule == rule) for rule in (LID.rule, high.rule))
    assert more - low == pytest.approx(10.0, abs=0.01)
