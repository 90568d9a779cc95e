"""Damp sand and compaction, where the job says them: in the mass, in loads by volume, and in the sums shown."""

from __future__ import annotations

import pytest

from pavewright.job import MaterialKind
from pavewright.pipeline import plan
from pavewright.quantities import of_material

SAND = of_material(MaterialKind.SHARP_SAND)


@pytest.fixture
def sand(small):
    """What sharp sand a patio takes, with what the job says of mixes and of how the sand is bought."""

    def taken(mixes=None, **priced):
        small.document["areas"], small.document["measurements"]["points"] = [], []
        small.rectangle(4000.0, 3000.0)
        small.document["mixes"] = mixes or {}
        bought = {"key": "sharp_sand", "pack_amount": 850.0, "pack_unit": "kg", "pack_price_minor": 5200} | priced
        small.document["rates"]["materials"] = [bought]
        return plan(small.job(), small.rules).quantities

    return taken


def test_sand_is_taken_as_dry_where_nobody_says_otherwise(sand):
    assert sand({"sand_bulking_percent": 0.0, "sand_moisture_percent": 0.0}) == sand()


def test_water_in_the_sand_is_bought_with_it_by_mass(sand):
    dry, wet = sand().item(SAND), sand({"sand_moisture_percent": 5.0}).item(SAND)
    assert wet.gross == pytest.approx(dry.gross * 1.05)
    assert any("1.05 with its water" in each.expression for each in wet.workings)
    cement = of_material(MaterialKind.CEMENT)
    assert sand({"sand_moisture_percent": 5.0}).item(cement).gross == sand().item(cement).gross


def test_damp_sand_fills_more_of_a_load_that_is_sold_by_volume(sand):
    load = {"pack_amount": 1.0, "pack_unit": "m3"}
    dry, damp = sand(None, **load).item(SAND), sand({"sand_bulking_percent": 25.0}, **load).item(SAND)
    assert damp.gross == pytest.approx(dry.gross)  # the same mass
    holds = [each.ordered_amount / each.ordered for each in (dry, damp)]
    assert holds[1] == pytest.approx(holds[0] / 1.25)
    assert damp.ordered >= dry.ordered


def test_a_density_as_delivered_is_that_of_the_damp_sand(sand):
    load = {"pack_amount": 1.0, "pack_unit": "m3", "bulk_kg_per_m3": 1400.0}
    dry, damp = sand(None, **load).item(SAND), sand({"sand_bulking_percent": 20.0}, **load).item(SAND)
    assert damp.gross == pytest.approx(dry.gross * 1.2)
    assert damp.ordered_amount / damp.ordered == pytest.approx(1400.0)


def test_a_bed_of_sand_is_spread_thicker_than_it_lies(made_plan):
    drive = made_plan("front_drive")
    other = drive.job.model_copy(update={"mixes": drive.job.mixes.model_copy(update={"bed_compaction_percent": 20.0})})
    from pavewright import rulebook  # noqa: PLC0415 - of the edition of the plan

    found = plan(other, rulebook.load(drive.edition)).quantities.item(SAND)
    assert any("1.2 spread loose" in each.expression for each in found.workings)
    assert found.gross > drive.quantities.item(SAND).gross
