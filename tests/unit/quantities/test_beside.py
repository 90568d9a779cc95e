"""Everything that is built is bought: what work takes beside what is drawn, asked for where nobody said."""

from __future__ import annotations

import copy
import json
from pathlib import Path

import pytest

from pavewright import rulebook
from pavewright.job import MaterialKind, parse
from pavewright.pipeline import plan
from pavewright.quantities import GapReason, ItemKind, of_catalogue, of_material

ROOT = Path(__file__).parents[3]


def document(name="curved_path"):
    return json.loads((ROOT / "examples" / f"{name}.json").read_text("utf-8"))


def planned(made):
    return plan(parse(made), rulebook.load("england"))


def words(cost):
    return [gap.words for gap in cost.gaps]


@pytest.mark.parametrize(
    "name", ["l_terrace", "curved_path", "front_drive", "gully_yard", "mixed_patio", "circle_court"]
)
def test_every_item_of_an_example_is_bought_once(made_plan, name):
    made = made_plan(name)
    keys = [item.key for item in made.quantities.items]
    assert len(keys) == len(set(keys))
    lines = [line.key for line in made.cost.lines]
    assert len(lines) == len(set(lines))
    bought = {item.key for item in made.quantities.items if item.key.kind is ItemKind.CATALOGUE}
    assert bought <= set(lines), "the examples have a price for all that they take"


def test_what_a_drive_takes_beside_is_counted_from_its_plan(made_plan):
    made = made_plan("front_drive")
    item = made.quantities.item
    saw = made.laying.saw_m
    assert item(of_catalogue("saw_blade")).net == pytest.approx(saw * 0.01)
    assert item(of_catalogue("drain_test")).net == pytest.approx(1.0)
    assert item(of_catalogue("marker_tape")).net == pytest.approx(3.5 * 1.05)
    cover = made.job.site.covers[0]
    assert item(of_catalogue("frame_mortar")).net == pytest.approx(2 * (cover.length_mm + cover.width_mm) / 1000 * 6)
    assert item(of_catalogue("fuel")).net > 0.0
    with pytest.raises(KeyError):
        item(of_catalogue("spacer"))
    with pytest.raises(KeyError):
        item(of_catalogue("infiltration_test"))


def test_what_nobody_said_is_asked_and_neither_bought_nor_left_out():
    made = document()
    del made["arrangements"]
    found = planned(made)
    asked = [gap for gap in found.cost.gaps if gap.reason is GapReason.NOT_KNOWN]
    for part in ("Permit for a skip", "Parking", "Toilet", "Water brought in"):
        assert any(gap.words.startswith(part) for gap in asked), part
    assert all(gap.ours for gap in asked)
    kinds = {item.key.catalogue for item in found.quantities.items}
    assert not {"skip_permit", "parking", "toilet_hire", "water_brought"} & kinds


def test_what_is_said_is_bought():
    made = document()
    made["arrangements"] = {
        "skip_on_road": True,
        "parking_paid": True,
        "water_on_site": False,
        "toilet_on_site": False,
        "new_frames": False,
    }
    found = planned(made)
    item = found.quantities.item
    assert item(of_catalogue("skip_permit")).ordered == found.earthworks.loads.likely
    assert item(of_catalogue("parking")).ordered == found.programme.site_days
    assert item(of_catalogue("toilet_hire")).ordered >= 1
    brought = item(of_catalogue("water_brought"))
    assert brought.net == pytest.approx(next(i.gross for i in found.quantities.items if i.key.kind is ItemKind.WATER))
    assert sum(each.startswith("Permit for a skip") for each in words(found.cost)) == 1, "no price: a named gap"


def test_a_user_switches_off_changes_and_adds():
    made = document()
    made["rates"]["assemblies"] = [
        {"key": "saw_blade", "off": True},
        {"key": "marker_peg", "amount": 2.0},
        {"key": "kneeling_mat", "name": "Kneeling mat", "per": "paved_m2", "amount": 0.1, "unit": "each"},
        {"key": "more_edging", "name": "Edging", "per": "job", "amount": 2.0, "unit": "m", "material": "edging"},
        {"key": "half_said", "name": "Half said", "amount": 2.0},
    ]
    before, found = planned(document()), planned(made)
    kinds = {item.key.catalogue: item for item in found.quantities.items if item.key.catalogue}
    assert "saw_blade" not in kinds
    assert kinds["marker_peg"].net == pytest.approx(4.0 * before.quantities.item(of_catalogue("marker_peg")).net)
    assert kinds["kneeling_mat"].net == pytest.approx(0.1 * sum(laid.paved_m2 for laid in found.laying.areas))
    assert any(each.startswith("Kneeling mat: ") for each in words(found.cost))
    edging = of_material(MaterialKind.EDGING)
    assert found.quantities.item(edging).net == pytest.approx(before.quantities.item(edging).net + 2.0)
    assert any(each.startswith("Half said: how much of it") for each in words(found.cost))


def test_what_is_sold_otherwise_than_it_is_counted_is_a_gap():
    made = document()
    next(each for each in made["rates"]["catalogue"] if each["key"] == "saw_blade")["pack_unit"] = "kg"
    found = planned(made)
    assert any("sold by kg and counted by each" in each for each in words(found.cost))


def test_a_minimum_order_is_ordered_and_shown_and_carriage_and_lead_stand_with_the_supplier():
    made = document()
    sub_base = next(each for each in made["rates"]["materials"] if each["key"] == "sub_base")
    sub_base |= {"supplier": "Pit", "supplier_kind": "quarry", "min_packs": 9, "carriage_minor": 4500, "lead_days": 3}
    found = planned(made)
    item = found.quantities.item(of_material(MaterialKind.SUB_BASE))
    assert item.ordered == 9
    order = next(each for each in found.cost.orders if each.supplier == "Pit")
    assert (order.carriage_minor, order.lead_days, order.carriage_known) == (4500, 3, True)
    assert order.lead_known
    assert order.lines[0].raised
    assert order.goods_minor == 9 * sub_base["pack_price_minor"]
    (carried,) = [line for line in found.cost.lines if line.description == "Carriage, Pit"]
    assert (carried.amount_minor, carried.description) == (4500, "Carriage, Pit")
    assert found.cost.prime_minor == sum(line.amount_minor for line in found.cost.lines)
    others = [line.item for each in found.cost.orders for line in each.lines]
    assert len(others) == len(set(others))


@pytest.mark.parametrize(
    "name", ["l_terrace", "curved_path", "front_drive", "gully_yard", "mixed_patio", "circle_court"]
)
def test_waste_is_calculated_or_allowed_for_and_never_both(made_plan, name):
    """Units whose breakages are known, or that are cut by the plan, carry no allowance on top of it."""
    made = made_plan(name)
    for item in made.quantities.items:
        if item.key.kind is not ItemKind.UNITS:
            continue
        unit = made.job.units[item.key.number]
        cut = sum(
            count.units_with_offcuts for laid in made.laying.areas for count in laid.by_unit if count.unit == unit.name
        )
        assert item.net == cut, "cuts are in the net amount, by calculation"
        named = {figure.key for working in item.workings for figure in working.figures}
        computed, allowed = "quantities.max_short_percent" in named, "quantities.spare_percent" in named
        assert computed != allowed
        assert "quantities.edging_percent" not in named
        assert computed == (unit.breakage_percent is not None)


def test_without_dates_what_is_bought_by_the_day_is_asked():
    made = copy.deepcopy(document())
    made["calendar"] = {}
    from pavewright.pipeline import plan_as_far  # noqa: PLC0415

    found = plan_as_far(parse(made), rulebook.load("england"))
    assert any(each == "Fuel: the days on hire are not known" for each in words(found.cost))
