"""Areas folded to a gully, from readings to papers: what is chosen, what drains, what is told when limits clash.

The patio of 5.4 × 4.2 m is invented; ground falls toward the house, so that only the gully can take the water.
"""

from __future__ import annotations

import math
import re

import pytest

from pavewright import units
from pavewright.cost import TaskKey, TaskKind
from pavewright.findings import Severity
from pavewright.job import JobInvalid
from pavewright.pipeline import plan


def patio(small, folding, cover_fixed=False, **fall):
    entered = small.rectangle(5400.0, 4200.0)
    entered["fall"] = {"away_from": "House", "folding": folding, "steepest_one_in": 40.0, **fall}
    small.site["walls"] = [{"name": "House", "start": "P0", "end": "P1", "dpc_level_mm": 10000.0}]
    small.site["outfalls"] = [{"name": "Drain", "kind": "surface_water_sewer", "confirmed": True}]
    small.point("Inlet", 4900.0, 2600.0)
    small.site["gullies"] = [{"name": "Gully", "point": "Inlet", "fixed": False, "size_mm": 150.0, "outfall": "Drain"}]
    if cover_fixed:
        small.point("Lid", 1500.0, 2900.0)
        small.site["covers"] = [
            {
                "name": "Lid",
                "point": "Lid",
                "level_mm": 9835.0,
                "length_mm": 100.0,
                "width_mm": 100.0,
                "fixed": True,
                "tolerance_mm": 2.0,
            }
        ]
    names = [
        small.point(f"G{number}", x, y, 9785.0 + 0.055 * y)
        for number, (x, y) in enumerate(((-1000, -1000), (7000, -1000), (7000, 6000), (-1000, 6000)))
    ]
    small.document["measurements"]["ground_points"] = names
    return entered


def codes(made):
    return [finding.code for finding in made.findings]


def reported(made, code):
    return next(finding for finding in made.findings if finding.code == code)


def test_the_cheapest_way_that_drains_is_taken_not_the_cheapest(small):
    patio(small, "cheapest")
    made = plan(small.job(), small.rules)
    (compared,) = made.levels.studies
    taken = compared.options[compared.chosen]
    assert taken.kind == "crossed_valley"
    assert taken.accepted
    costs = {option.kind: option.cost_minor for option in compared.options if option.surface is not None}
    assert costs["one_plane"] < costs["crossed_valley"]
    assert not any(
        option.accepted for option in compared.options if option.kind in {"one_plane", "to_house", "valley", "ridge"}
    )
    assert not any(
        code.startswith("levels.") and reported(made, code).severity is Severity.STOP for code in codes(made)
    )


def test_all_rooms_follow_the_folds(small):
    patio(small, "crossed_valley")
    made = plan(small.job(), small.rules)
    (area,) = made.levels.areas
    assert len(area.surface.facets) == 4
    gully = next(spot for spot in area.spots if spot.label == "gully Gully")
    assert gully.level_mm == pytest.approx(area.lowest_mm)
    formation = made.build_ups.area("Patio").formation
    for facet in formation.facets:
        inside = facet.polygon.representative_point()
        at = inside.x, inside.y
        assert area.surface.level_at(at) - formation.level_at(at) == pytest.approx(
            made.build_ups.area("Patio").total_mm
        )
    caught = {each.to: each for each in made.water.catchments}
    assert caught["Gully"].area_m2 > 0.95 * 22.68
    assert sum(each.area_m2 for each in made.water.catchments) == pytest.approx(22.68, rel=1e-6)
    folds = [peg for peg in made.setting_out.pegs if peg.role == "fold"]
    assert len(folds) == 5
    strings = [string for string in made.setting_out.strings if string.area == "Patio"]
    # each of four sides is parted once by a fold, each of four folds has a string, and two run across
    assert len(strings) == 8 + 4 + 2
    assert "laying.units_cross_fold" in codes(made)
    cuts = made.laying.areas[0].fold_cuts
    assert len(set(cuts.pieces)) == len(cuts.pieces) > 5
    # a part too narrow to be cut off stays on the part beside it, where no lip shows; nothing stops
    assert len({*cuts.pieces, *cuts.uncut}) > 10
    assert cuts.too_narrow == () and 0.0 < cuts.uncut_lip_mm <= 2.0
    folds_m = units.mm_to_m(sum(math.dist(fold.start, fold.end) for fold in area.surface.folds))
    assert 0.5 * folds_m < cuts.saw_m < folds_m
    assert 0.0 < cuts.narrowest_mm < 600.0
    marked = next(each for each in made.cost.labour if each.key == TaskKey(TaskKind.CUT, 0))
    assert marked.working.expression.startswith(f"{made.laying.areas[0].cut + len(cuts.pieces):.2f} pieces")


def test_the_dig_under_the_folds_is_the_sum_over_the_planes(small):
    patio(small, "crossed_valley")
    made = plan(small.job(), small.rules)
    (area,) = made.levels.areas
    option = made.levels.studies[0].options[0]
    inside = sum(_prism(facet, made) for facet in area.surface.facets)
    # samples 250 mm apart come within a per cent of the exact prisms under the paving alone
    assert option.cut_m3 - option.fill_m3 == pytest.approx(inside, rel=0.01)
    assert made.earthworks.cut_m3 > inside


def _prism(facet, made):
    total = made.build_ups.area("Patio").total_mm
    middle = facet.polygon.centroid
    at = middle.x, middle.y
    # both surfaces are planes over a facet, so the depth at its middle is the mean depth
    depth = (9785.0 + 0.055 * middle.y) - (facet.plane.level_at(at) - total)
    return depth * facet.polygon.area / 1e9


def test_a_plain_valley_that_runs_past_its_gully_is_not_accepted(small):
    patio(small, "valley")
    made = plan(small.job(), small.rules)
    finding = reported(made, "levels.stands_on_design")
    assert finding.severity is Severity.STOP
    assert "keeps every limit and does not drain" in finding.message
    assert finding.value == pytest.approx(4.0, abs=1.0)


def test_a_fixed_cover_is_told_as_a_chain_with_priced_ways_out(small):
    patio(small, "valley", cover_fixed=True)
    made = plan(small.job(), small.rules)
    finding = reported(made, "levels.fold_clash")
    assert finding.severity is Severity.STOP
    assert "150 mm below the damp-proof course of wall House" in finding.message
    chain = " ".join(finding.chain_words)
    # planes that turn may lie higher at the lid than planes that fall square to the wall: 34.6 is the most
    below, away, low = (
        float(each) for each in re.search(r"(\d+) mm below the .*, ([\d.]+) m .* ([\d.]+) mm too low", chain).groups()
    )
    assert away == 2.9
    assert 15.0 < low < 34.6
    assert below == pytest.approx(167.0 + low, abs=0.6)
    by = float(
        re.search(
            r"ask the owner first: lower the frame of cover Lid by ([\d.]+) mm", " ".join(finding.option_words)
        ).group(1)
    )
    # the frame goes down by what is missing and by its tolerance
    assert by == pytest.approx(low + 2.0, abs=0.15)
    assert any(words.startswith("Accept a fall of 1 in ") for words in finding.option_words)
    assert finding.option_words[-1].startswith("Not offered")
    # the plan goes on with the cheapest change
    lid = next(spot for spot in made.levels.areas[0].spots if spot.label == "cover Lid")
    assert lid.level_mm == pytest.approx(9835.0 - by, abs=0.1)
    # and that surface is filled too: a plain valley stands at its edge whichever way out is taken
    assert "levels.stands_on_design" in codes(made)
    assert "Prices of the options are invented" in finding.message


def test_own_prices_put_the_ways_out_in_another_order(small):
    patio(small, "valley", cover_fixed=True)
    small.document["rates"]["changes"] = [{"key": "min_fall", "once_minor": 0, "each_minor": 1}]
    finding = reported(plan(small.job(), small.rules), "levels.fold_clash")
    first = finding.option_words[0]
    assert first.startswith("Accept a fall of 1 in ")


def test_a_way_that_the_area_does_not_offer_is_a_fault_with_a_sentence(small):
    patio(small, "mitre")
    with pytest.raises(JobInvalid) as caught:
        plan(small.job(), small.rules)
    assert "inner corner" in caught.value.faults[0].message


def test_an_unknown_gully_is_a_fault(small):
    patio(small, "valley", gully="Nowhere")
    with pytest.raises(JobInvalid) as caught:
        small.job()
    assert "no gully here" in caught.value.faults[0].message


def test_turned_and_moved_the_same_way_is_taken_at_the_same_cost(small):
    patio(small, "cheapest")
    here = plan(small.job(), small.rules).levels.studies[0]
    turn = math.radians(37.0)
    for point in small.document["measurements"]["points"]:
        x, y = point["x_mm"], point["y_mm"]
        point["x_mm"] = x * math.cos(turn) - y * math.sin(turn) + 5000.0
        point["y_mm"] = x * math.sin(turn) + y * math.cos(turn) - 7000.0
    there = plan(small.job(), small.rules).levels.studies[0]
    assert [option.kind for option in here.options] == [option.kind for option in there.options]
    assert here.chosen == there.chosen
    cost = here.options[here.chosen].cost_minor
    # turned, samples fall at other places and the circle of slopes has its corners elsewhere
    assert there.options[there.chosen].cost_minor == pytest.approx(cost, rel=0.02)


def test_a_mitre_at_a_house_corner_falls_away_from_both_walls(small):
    entered = small.area([(0, 0), (6000, 0), (6000, 3000), (3000, 3000), (3000, 6000), (0, 6000)])
    entered["fall"] = {"folding": "mitre", "one_in": 60.0}
    small.site["walls"] = [
        {"name": "Gable", "start": "P3", "end": "P2", "dpc_level_mm": 10150.0},
        {"name": "Front", "start": "P3", "end": "P4", "dpc_level_mm": 10150.0},
    ]
    small.site["outfalls"] = [{"name": "Lawn", "kind": "lawn", "confirmed": True}]
    made = plan(small.job(), small.rules)
    (area,) = made.levels.areas
    assert area.surface.level_at((6000.0, 3000.0)) == pytest.approx(10000.0)
    assert area.surface.level_at((3000.0, 6000.0)) == pytest.approx(10000.0)
    assert area.surface.level_at((6000.0, 0.0)) == pytest.approx(10000.0 - 50.0, abs=0.1)
    assert [clearance.min_mm for clearance in area.clearances] == pytest.approx([150.0, 150.0])
    assert made.levels.studies[0].options[0].accepted


def test_a_plane_towards_the_house_is_cheapest_but_drains_only_into_a_channel_along_the_wall(small):
    patio(small, "cheapest")
    (compared,) = plan(small.job(), small.rules).levels.studies
    towards = next(option for option in compared.options if option.kind == "to_house")
    assert not towards.accepted
    assert towards.cost_minor < compared.options[compared.chosen].cost_minor
    small.site["channels"] = [
        {"name": "Wall channel", "start": "P0", "end": "P1", "width_mm": 130.0, "outfall": "Drain"}
    ]
    (compared,) = plan(small.job(), small.rules).levels.studies
    assert compared.options[compared.chosen].kind == "to_house"


def test_mirrored_the_same_way_is_taken_at_the_same_cost(small):
    patio(small, "cheapest")
    here = plan(small.job(), small.rules).levels.studies[0]
    for point in small.document["measurements"]["points"]:
        point["x_mm"] = -point["x_mm"]
    small.document["areas"][0]["outline"].reverse()
    there = plan(small.job(), small.rules).levels.studies[0]
    assert here.options[here.chosen].kind == there.options[there.chosen].kind
    assert there.options[there.chosen].cost_minor == pytest.approx(here.options[here.chosen].cost_minor, rel=1e-4)


def test_where_one_plane_clashes_a_fold_that_does_not_comes_before_any_relaxation(small):
    # the cover is too high for a plane away from the house; towards a channel at the wall it is not
    patio(small, "one_plane", cover_fixed=True, one_in=60.0)
    small.site["channels"] = [
        {"name": "Wall channel", "start": "P0", "end": "P1", "width_mm": 130.0, "outfall": "Drain"}
    ]
    finding = reported(plan(small.job(), small.rules), "levels.cover_clash")
    assert finding.option_words[0].startswith("Fold it as one plane towards the house")
    assert "every limit is kept, earthwork £" in finding.option_words[0]
    assert any("flatter than 1 in 80" in way for way in finding.option_words[1:])


def test_a_step_parts_an_area_by_one_riser_and_is_told(small):
    patio(small, "stepped")
    # ground that falls steeply away from the house
    for point in small.document["measurements"]["points"]:
        if point["name"].startswith("G"):
            point["level_mm"] = 9850.0 - 0.06 * point["y_mm"]
    made = plan(small.job(), small.rules)
    (area,) = made.levels.areas
    (fold,) = area.surface.folds
    least, most = small.rules.value("levels.riser_min_mm"), small.rules.value("levels.riser_max_mm")
    assert least - 1e-6 <= fold.step_mm <= most + 1e-6
    tops = [spot.level_mm for spot in area.spots if spot.label == "top of the step"]
    feet = [spot.level_mm for spot in area.spots if spot.label == "foot of the step"]
    assert [top - foot for top, foot in zip(tops, feet, strict=True)] == pytest.approx([fold.step_mm] * 2)
    assert reported(made, "levels.parted_by_step").value == pytest.approx(fold.step_mm)
    # water goes over the step to the far edge
    assert sum(each.area_m2 for each in made.water.catchments if each.kind == "free_edge") > 20.0
