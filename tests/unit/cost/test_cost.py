"""Prices worked out by hand."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.cost import SUMS, HireKey, TaskKey, TaskKind, _pricing, _sums_cost
from pavewright.cost._money import Percents, chain, to_minor
from pavewright.job import JobInvalid, MaterialKind, PlantKind
from pavewright.pipeline import plan
from pavewright.quantities import of_material


def priced(small):
    return plan(small.job(), small.rules).cost


def task(cost, key):
    return next(each for each in cost.labour if each.key.text == key)


def line(cost, key):
    return next(each for each in cost.lines if each.key.text == key)


def test_labour_is_amount_times_output_with_its_range(small):
    small.rectangle(4000.0, 3000.0)
    lay_task = task(priced(small), "lay.area1")
    assert lay_task.person_hours == pytest.approx(12.0 * 0.8)
    assert (lay_task.low_hours, lay_task.high_hours) == pytest.approx((12.0 * 0.5, 12.0 * 1.5))
    small.document["crew"]["pace"] = 1.25
    assert task(priced(small), "lay.area1").person_hours == pytest.approx(12.0 * 0.8 / 1.25)


def test_digging_by_hand_is_loaded_and_wheeled_and_by_machine_not_loaded(small):
    small.rectangle(4000.0, 3000.0)
    small.flat_ground(1000.0)
    small.site["carry_mm"] = 25000.0
    keys = {each.key.text for each in priced(small).labour}
    assert {"dig.area1", "load.area1", "cart.area1"} <= keys
    small.document["crew"]["machine_dig"] = True
    cost = priced(small)
    assert "load.area1" not in {each.key.text for each in cost.labour}
    # half the reference run takes half the time
    cut = task(cost, "dig.area1").person_hours / 0.4
    assert task(cost, "cart.area1").person_hours == pytest.approx(cut * 1.1 * 0.5)


def test_units_are_priced_by_what_is_ordered(small):
    small.rectangle(5 * 610 - 10, 4 * 610 - 10)
    assert line(priced(small), "units.1").amount_minor == 2 * 30000
    small.unit["part_packs"] = True
    assert line(priced(small), "units.1").amount_minor == 21 * 1500


def test_plant_is_hired_for_the_days_of_its_work_or_as_entered(small):
    small.rectangle(4000.0, 3000.0)
    small.document["rates"]["plant"] = [
        {"key": "saw", "day_price_minor": 4000},
        {"key": "mixer", "day_price_minor": 2500, "days": 3.0},
    ]
    cost = priced(small)
    assert line(cost, "hire.mixer.2").amount_minor == 7500
    made = plan(small.job(), small.rules)
    cutting = [
        each for each in made.programme.tasks if each.key in {TaskKey(TaskKind.CUT, 0), TaskKey(TaskKind.LAY, 0)}
    ]
    days = {day.date() for each in cutting for day in (each.start, each.finish)}
    assert line(cost, "hire.saw.1").quantity == float(len(days))


def test_what_has_no_price_is_listed_and_told(small):
    small.rectangle(4000.0, 3000.0)
    cost = priced(small)
    assert any(gap.item == of_material(MaterialKind.CEMENT) and gap.words.startswith("Cement: ") for gap in cost.gaps)
    assert cost.findings[0].code == "cost.unpriced"
    assert "Cement: " in cost.findings[0].message


def test_money_adds_up_and_the_margin_is_a_part_of_the_price(small):
    small.rectangle(4000.0, 3000.0)
    small.document["rates"] |= {"overhead_percent": 10.0, "margin_percent": 20.0, "tax_percent": 20.0}
    cost = priced(small)
    assert cost.prime_minor == sum(each.amount_minor for each in cost.lines)
    assert cost.net_minor == cost.prime_minor + cost.overhead_minor + cost.margin_minor
    assert cost.total_minor == cost.net_minor + cost.tax_minor
    assert cost.margin_minor / cost.net_minor == pytest.approx(0.2, abs=1e-5)
    assert cost.low_minor <= cost.total_minor <= cost.high_minor
    assert cost.reasons == tuple(sorted(cost.reasons, key=lambda reason: -reason[1]))


def test_a_margin_of_the_whole_price_is_refused(small):
    small.rectangle(4000.0, 3000.0)
    small.document["rates"]["margin_percent"] = 100.0
    with pytest.raises(JobInvalid, match="leaves nothing for the cost"):
        priced(small)


@settings(max_examples=200, deadline=None)
@given(st.integers(0, 10_000_000), st.floats(0, 60), st.floats(0, 80), st.floats(0, 30))
def test_every_chain_adds_up_to_the_penny(prime, overhead, margin, tax):
    found = chain(prime, Percents(overhead, margin, tax), to_minor)
    assert prime + found.overhead + found.margin == found.net
    assert found.net + found.tax == found.total
    steps = (found.overhead, found.margin, found.net, found.tax, found.total)
    assert all(isinstance(amount, int) for amount in steps)
    assert found.margin >= -1


def test_a_price_of_a_job_and_the_sum_of_it_are_one_engine(small, monkeypatch):
    """What the plan runs is what the published cases of the sums run: change it and both change."""
    small.rectangle(4000.0, 3000.0)
    seen = []
    for module in (_pricing, _sums_cost):
        monkeypatch.setattr(module, "chain", lambda *given, of=module: seen.append(of) or chain(*given))
    cost = priced(small)
    answers = SUMS[0].run({"cost": float(cost.prime_minor), "margin_percent": 0.0})
    assert {_pricing, _sums_cost} == set(seen)
    assert answers["net"] == pytest.approx(cost.net_minor)


def test_a_border_is_laid_at_the_output_of_its_own_unit(small):
    small.document["units"].append(
        {"name": "Block", "kind": "block", "length_mm": 200.0, "width_mm": 100.0, "thickness_mm": 40.0, "kg_each": 1.8,
         "per_pack": 400, "pack_price_minor": 20000}
    )  # fmt: skip
    small.rectangle(4000.0, 3000.0, border={"unit": "Block", "kind": "soldier"})
    cost = priced(small)
    border, field = task(cost, "lay_border.area1"), task(cost, "lay.area1")
    ring = 4.0 * 3.0 - 3.6 * 2.6
    assert border.person_hours / 1.2 + field.person_hours / 0.8 == pytest.approx(12.0)
    assert border.person_hours / 1.2 == pytest.approx(ring, rel=0.05)
    keys = [each.key.text for each in cost.labour]
    assert keys.index("lay_border.area1") == keys.index("lay.area1") - 1


def test_herringbone_takes_longer_than_blocks_in_bond(small):
    small.document["units"].append(
        {"name": "Block", "kind": "block", "length_mm": 200.0, "width_mm": 100.0, "thickness_mm": 50.0, "kg_each": 2.2,
         "per_pack": 400, "pack_price_minor": 20000}
    )  # fmt: skip
    area = small.rectangle(4000.0, 3000.0, unit="Block", joint_mm=0.0, pattern="running")
    assert task(priced(small), "lay.area1").person_hours == pytest.approx(12.0 * 1.2)
    area["laying"]["pattern"] = "herringbone"
    assert task(priced(small), "lay.area1").person_hours == pytest.approx(12.0 * 1.5)


def test_a_unit_named_like_a_material_is_priced_as_a_unit(small):
    small.rectangle(4000.0, 3000.0)
    small.document["rates"]["materials"] = [
        {"key": "cement", "pack_amount": 25.0, "pack_unit": "kg", "pack_price_minor": 700}
    ]
    before = priced(small)
    for name in ("cement", "edging", "mixed_pack.1", "disposal"):
        small.unit["name"] = small.document["areas"][0]["laying"]["unit"] = name
        cost = priced(small)
        assert [each.amount_minor for each in cost.lines] == [each.amount_minor for each in before.lines]
        assert cost.total_minor == before.total_minor


def test_days_on_hire_are_the_same_in_programme_and_price(small):
    small.rectangle(6000.0, 5000.0)
    small.flat_ground(1000.0)
    small.document["rates"]["plant"] = [
        {"key": kind, "day_price_minor": 1000} for kind in ("mixer", "plate", "saw", "dumper", "laser", "excavator")
    ] + [{"key": "breaker", "day_price_minor": 1000, "days": 0.5}]
    made = plan(small.job(), small.rules)
    paid = {each.key: each.quantity for each in made.cost.lines if isinstance(each.key, HireKey)}
    assert paid == {each.key: each.days for each in made.programme.hires}
    assert len(paid) == 7
    # concrete, bed and pointing lie on different days, with waits between them
    mixer = made.programme.hires[0]
    mixing = [each for each in made.programme.tasks if not each.wait and PlantKind.MIXER in needs(made, each.key)]
    touched = set()
    for each in mixing:
        day = each.start.date()
        while day <= each.finish.date():
            touched |= {day} if day.weekday() < 5 else set()
            day += dt.timedelta(days=1)
    assert mixer.days == mixer.wanted_days == len(touched) >= 3
    assert [each.code for each in made.cost.findings if each.code == "cost.hire_too_short"] == ["cost.hire_too_short"]


def needs(made, key):
    return next(each.plant for each in made.cost.labour if each.key == key)


def test_on_sand_nothing_is_mixed_and_the_plate_fills_the_joints(small):
    small.rectangle(4000.0, 3000.0, bedding="sand_on_sub_base")
    made = plan(small.job(), small.rules)
    assert needs(made, TaskKey(TaskKind.POINT, 0)) == (PlantKind.PLATE,)
    assert PlantKind.MIXER not in needs(made, TaskKey(TaskKind.LAY, 0))
    small.document["areas"][0]["laying"]["bedding"] = "mortar_on_concrete"
    made = plan(small.job(), small.rules)
    assert needs(made, TaskKey(TaskKind.POINT, 0)) == (PlantKind.MIXER,)


def test_without_a_mixer_concrete_is_mixed_by_hand_and_that_is_said(small):
    small.rectangle(4000.0, 3000.0)
    by_hand = priced(small)
    assert "cost.mixed_by_hand" in {each.code for each in by_hand.findings}
    assert task(by_hand, "base.area1").description == "Mix by hand and place concrete base, Patio"
    small.document["crew"]["own_mixer"] = True
    own = priced(small)
    small.document["crew"]["own_mixer"] = False
    small.document["rates"]["plant"] = [{"key": "mixer", "day_price_minor": 0}]
    hired = priced(small)
    for drum in (own, hired):
        assert "cost.mixed_by_hand" not in {each.code for each in drum.findings}
        assert task(drum, "base.area1").person_hours == pytest.approx(task(by_hand, "base.area1").person_hours * 0.6)


def test_an_excavator_beside_a_dig_by_hand_is_told(small):
    small.rectangle(4000.0, 3000.0)
    small.flat_ground(1000.0)
    small.document["rates"]["plant"] = [{"key": "excavator", "day_price_minor": 9000}]
    assert "cost.digger_not_used" in {each.code for each in priced(small).findings}
    small.document["crew"]["machine_dig"] = True
    assert "cost.digger_not_used" not in {each.code for each in priced(small).findings}
