"""Layers by use and ground, formation, and what is dug."""

from __future__ import annotations

import pytest

from pavewright.buildup import LayerMaterial, build_up
from pavewright.levels import finished_levels


def built(small):
    job, measured = small.surveyed()
    return build_up(job, measured, finished_levels(job, measured, small.rules), small.rules)


def thicknesses(area):
    return {layer.key: layer.thickness_mm for layer in area.layers}


def codes(ups):
    return [finding.code for finding in ups.findings]


def test_slab_bed_and_base_make_150_and_the_formation_lies_that_much_lower(small):
    small.rectangle(4000.0, 3000.0)
    area = built(small).area("Patio")
    assert thicknesses(area) == {"unit": 40.0, "bed": 35.0, "base": 75.0}
    assert area.total_mm == 150.0
    assert area.formation.level_at((0.0, 0.0)) == pytest.approx(850.0)
    assert (area.top_of("bed"), area.top_of("base")) == (40.0, 75.0)
    assert area.workings[0].expression == "build-up = 40 + 35 + 75"


def test_what_a_user_calls_a_unit_is_never_taken_for_what_a_layer_is_made_of(small):
    entered = small.rectangle(4000.0, 3000.0)
    small.unit["name"] = entered["laying"]["unit"] = "sharp_sand"
    own = built(small).area("Patio").layers
    assert [layer.material for layer in own] == [LayerMaterial.UNIT, LayerMaterial.MORTAR, LayerMaterial.CONCRETE]


def test_the_dig_is_300_below_the_damp_proof_course(small):
    entered = small.rectangle(4000.0, 3000.0)
    entered["fall"] = {"away_from": "House"}
    small.site["walls"] = [{"name": "House", "start": "P0", "end": "P1", "dpc_level_mm": 10000.0}]
    assert built(small).area("Patio").workings[1].result == pytest.approx(300.0)


def test_blocks_for_cars_on_silty_clay_get_the_thicker_stone_and_a_fabric(small):
    small.rectangle(6000.0, 5000.0, bedding="sand_on_sub_base")["use"] = "car"
    small.unit.update({"length_mm": 200.0, "width_mm": 100.0, "thickness_mm": 60.0, "kg_each": 2.7})
    small.site["ground"] = {"soil": "silty_clay"}
    ups = built(small)
    assert thicknesses(ups.area("Patio")) == {"unit": 60.0, "bed": 40.0, "sub_base": 250.0, "geotextile": 0.0}
    assert ups.area("Patio").cbr_percent == 3.0
    assert codes(ups) == ["buildup.edge_not_held", "buildup.ground_beyond_unknown", "buildup.clay_moves"]


def test_a_measured_bearing_ratio_goes_before_the_soil(small):
    small.rectangle(6000.0, 5000.0, bedding="sand_on_sub_base")["use"] = "car"
    small.unit.update({"length_mm": 200.0, "width_mm": 100.0, "thickness_mm": 60.0, "kg_each": 2.7})
    small.site["ground"] = {"soil": "silty_clay", "cbr_percent": 12.0}
    assert thicknesses(built(small).area("Patio"))["sub_base"] == 150.0


def test_weak_ground_under_vehicles_says_stop(small):
    small.rectangle(6000.0, 5000.0, bedding="sand_on_sub_base")["use"] = "car"
    small.site["ground"] = {"soil": "silt"}
    found = built(small).findings
    assert found[0].code == "buildup.ground_too_weak"
    assert found[0].severity.value == "stop"
    assert {"buildup.unit_too_thin", "buildup.unit_too_large"} <= {each.code for each in found}


def test_mortar_over_loose_stone_under_cars_says_stop(small):
    small.rectangle(6000.0, 5000.0, bedding="mortar_on_sub_base")["use"] = "car"
    assert "buildup.rigid_on_unbound" in codes(built(small))


def test_unknown_soil_and_high_water_are_told(small):
    small.rectangle(4000.0, 3000.0)
    small.site["ground"] = {"water_table": "high"}
    assert codes(built(small))[:2] == ["buildup.soil_unknown", "buildup.water_table_high"]


def test_the_dig_runs_past_free_edges_only(small):
    small.rectangle(4000.0, 3000.0)
    # free all round: 100 past every edge
    assert built(small).area("Patio").dig_shape.area_m2 == pytest.approx(4.2 * 3.2)
    small.site["walls"] = [{"name": "House", "start": "P0", "end": "P1"}]
    assert built(small).area("Patio").dig_shape.area_m2 == pytest.approx(4.2 * 3.1 + 2 * 0.1 * 0.1)
    small.document["areas"][0]["edges"] = [{"corner": "P2", "restraint": "existing"}]
    assert built(small).area("Patio").dig_shape.area_m2 == pytest.approx(4.2 * 3.0 + 4 * 0.1 * 0.1)


def test_the_dig_never_crosses_a_boundary(small):
    small.rectangle(4000.0, 3000.0)
    small.point("N0", 4050.0, -1000.0)
    small.point("N1", 4050.0, 5000.0)
    small.site["boundaries"] = [{"name": "Fence", "start": "N0", "end": "N1"}]
    assert built(small).area("Patio").dig_shape.bounds_mm == pytest.approx((-100.0, -100.0, 4050.0, 3100.0))
