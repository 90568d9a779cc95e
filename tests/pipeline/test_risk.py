"""The risk of a price: made again from its causes to the penny, and held against closed forms and against other plans."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from pavewright import rulebook
from pavewright.chance import Triangle, even_draws
from pavewright.cost import HireKey, LineGroup, TaskKey, TaskKind
from pavewright.desk import demo_document, make_plan_so_far, starter_document
from pavewright.pipeline import Cause, CauseKey, FactKind, risk
from pavewright.pipeline._risk_model import RiskModel
from pavewright.pipeline._risk_words import _TASKS
from pavewright.quantities import ItemKind

EXAMPLES = sorted((Path(__file__).resolve().parents[2] / "examples").glob("*.json"))


def planned(change=lambda document: None):
    document = json.loads(demo_document())
    change(document)
    return make_plan_so_far(json.dumps(document).encode())


def rules():
    return rulebook.load("england")


def model_of(made):
    return RiskModel(made, made.programme.hires, rules())


@pytest.fixture(scope="module")
def demo():
    return planned()


@pytest.fixture(scope="module")
def model(demo):
    return model_of(demo)


@pytest.fixture(scope="module")
def found(demo):
    return risk(demo, rules(), facts=False)


def test_at_the_likely_values_the_price_is_that_of_the_plan_to_the_penny(demo, model):
    likely = model.drawn({}, 3)
    assert model.fixed == []
    assert model.prime(likely).tolist() == [demo.cost.prime_minor] * 3
    assert model.total(likely).tolist() == [demo.cost.total_minor] * 3


@pytest.mark.slow
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_is_made_again_to_the_penny(path):
    made = make_plan_so_far(path.read_bytes())
    again = model_of(made)
    assert again.total(again.drawn({}, 1)).tolist() == [made.cost.total_minor]
    assert again.fixed == []


def test_the_same_seed_gives_the_same_risk_and_another_one_not(demo, found):
    assert risk(demo, rules(), facts=False) == found
    other = risk(demo, rules(), seed=99, facts=False)
    assert other.mean_minor != found.mean_minor
    for one, two in zip(found.quantiles, other.quantiles, strict=True):
        assert abs(one.minor - two.minor) < 6 * math.hypot(one.error_minor, two.error_minor) + 500


def test_bulking_at_its_ends_gives_the_loads_that_the_dig_gives(demo, model):
    line = next(number for number, each in enumerate(demo.cost.lines) if each.key.kind is ItemKind.SPOIL)
    even = {CauseKey(Cause.BULKING): np.array([1e-9, 1 - 1e-9]), CauseKey(Cause.SPOIL_MASS): np.array([1e-9, 1 - 1e-9])}
    loads = model._lines[line](model.drawn(even, 2)) / demo.cost.lines[line].rate_minor
    assert loads.tolist() == [demo.earthworks.loads.low, demo.earthworks.loads.high]


def test_a_base_that_is_too_high_takes_the_bed_and_a_deep_dig_is_filled():
    made = planned()
    moved = {each.key.cause: each for each in model_of(made).slopes}
    of = {key.material.value: slope for key, slope in moved[Cause.LAYER].items.items() if key.material is not None}
    assert of["ballast"] > 0.0 > of["sharp_sand"]
    dug = moved[Cause.FORMATION]
    # a millimetre over 49.3 m²: as much leaves, and as much concrete goes in, over its strip outside the paving too
    assert dug.away_m3 == pytest.approx(made.earthworks.areas[0].dig_m2 / 1000.0)
    hours = {key.kind.value: slope for key, slope in dug.hours.items()}
    assert min(hours["dig"], hours["base"]) > 0.0
    deep = model_of(made).moved(lambda slopes: slopes.away_m3, 0.0)
    twice = model_of(made).drawn({CauseKey(Cause.FORMATION, 0): np.array([0.841345, 0.977250])}, 2)
    assert deep(twice) == pytest.approx(np.array([8.0, 16.0]) * dug.away_m3, rel=1e-4)


def test_outputs_alone_fall_as_the_sum_of_their_triangles():
    made = planned(lambda document: document["rates"].update(plant=[]))
    alone = model_of(made)
    alone.figures = replace(alone.figures, output_correlation=replace(alone.figures.output_correlation, value=0.0))
    keys = [key for key in alone.causes if key.cause is Cause.OUTPUT]
    even = even_draws(8192, len(keys), 3)
    amounts = alone.amounts(alone.drawn({key: even[:, number] for number, key in enumerate(keys)}, 8192))
    worked = [isinstance(each.key, TaskKey) for each in made.cost.lines]
    labour = sum(each for each, is_work in zip(amounts, worked, strict=True) if is_work)
    # one kind of work goes alike in all its tasks: their triangles add as values, kinds add as variances
    likely = sum(each.amount_minor for each, is_work in zip(made.cost.lines, worked, strict=True) if is_work)
    mean, variance, exact = float(likely), 0.0, 0.0
    chance = np.random.default_rng(1)
    for key in keys:
        lines = [each for each in made.cost.lines if isinstance(each.key, TaskKey) and each.key.kind is key.task]
        tasks = {each.key: each for each in made.cost.labour}
        kind = 0.0
        draws = chance.random(200_000)
        for line in lines:
            task = tasks[line.key]
            ends = (task.low_hours, task.person_hours, task.high_hours)
            shape = Triangle(*(hours * line.rate_minor for hours in ends))
            mean += shape.mean - line.amount_minor
            kind += math.sqrt(shape.variance)
            exact = exact + shape.at(draws) - line.amount_minor
        variance += kind**2
    assert labour.mean() == pytest.approx(mean, rel=2e-4)
    assert labour.std() == pytest.approx(math.sqrt(variance), rel=0.01)
    for share in (0.1, 0.5, 0.8, 0.9):
        assert np.quantile(labour, share) == pytest.approx(likely + np.quantile(exact, share), rel=1e-3)


def test_shares_add_to_one_with_what_causes_do_together(found):
    first, total = sum(each.first for each in found.drivers), sum(each.total for each in found.drivers)
    assert 0.9 < first < 1.03
    assert total > 0.97
    assert [each.total for each in found.drivers] == sorted((each.total for each in found.drivers), reverse=True)
    assert found.drivers[0].key.cause is Cause.CREW
    assert found.drivers[0].low_minor < 0 < found.drivers[0].high_minor


def test_the_chance_of_losing_is_where_the_price_meets_what_is_covered(demo, found):
    covered = np.array(found.break_even)
    assert (np.diff(covered) >= 0).all()
    assert abs(100.0 * (1.0 - found.losing) - np.searchsorted(covered, demo.cost.total_minor)) <= 1.5
    low, middle, high, highest = (each.minor for each in found.quantiles)
    assert low < middle < high < highest
    assert 0.5 < found.dearer < 1.0  # ranges reach farther up than down


def test_a_price_without_margin_is_lost_more_often():
    bare = planned(lambda document: document["rates"].update(margin_percent=0.0))
    assert risk(bare, rules(), facts=False).losing > 0.6


def test_orders_say_what_one_step_more_and_running_short_cost(demo, found):
    items = {each.key: each for each in demo.quantities.items}
    assert len(found.orders) > 10
    for order in found.orders:
        assert order.planned == items[order.key].ordered
        shorts = [step.short for step in order.steps]
        assert shorts == sorted(shorts, reverse=True)
        means = {step.ordered: step.mean_minor for step in order.steps}
        assert means[order.cheapest] == min(means.values())
        enough = {chance: step for step in order.steps for chance in step.chances}
        assert set(enough) == {0.5, 0.8, 0.9}
        assert all(step.short <= 1.0 - chance + 1e-9 for chance, step in enough.items())
    sand = next(each for each in found.orders if each.key.material and each.key.material.value == "sharp_sand")
    # what the supplier asks for a delivery, half a day of two people lost: 0.5 × hours a day × 2 at an hour's price
    lost = 0.5 * demo.job.crew.hours_per_day * demo.job.crew.people * demo.job.rates.labour_minor_per_hour
    asked = next(each.carriage_minor for each in demo.job.rates.materials if each.key.value == "sharp_sand")
    assert asked is not None
    assert sand.again_minor == round(asked + lost)


def test_where_no_supplier_says_what_a_delivery_costs_somebody_fetches_it():
    def unsaid(document):
        for each in document["rates"]["materials"]:
            each["carriage_minor"] = None

    made = planned(unsaid)
    seen = risk(made, rules(), draws=64, facts=False)
    sand = next(each for each in seen.orders if each.key.material and each.key.material.value == "sharp_sand")
    # three hours to fetch, half a day of two people lost: (3 + 0.5 × hours a day × 2) h at an hour's price
    hours = 3.0 + 0.5 * made.job.crew.hours_per_day * made.job.crew.people
    assert sand.again_minor == round(hours * made.job.rates.labour_minor_per_hour)


def test_where_nobody_knows_who_works_no_order_is_marked():
    made = planned(lambda document: document["crew"].pop("people"))
    seen = risk(made, rules(), facts=False)
    assert seen.orders
    assert {(each.cheapest, each.again_minor) for each in seen.orders} == {(None, None)}
    assert {step.mean_minor for each in seen.orders for step in each.steps} == {None}


def test_one_other_fact_is_what_the_whole_job_then_costs(demo):
    seen = risk(demo, rules(), draws=64)
    changes = {each.kind: each for each in seen.facts}
    access = changes[FactKind.ACCESS]
    other = planned(lambda document: document["site"].update(access_width_mm=access.change.value))
    assert access.extra_minor == other.cost.total_minor - demo.cost.total_minor
    assert access.words.startswith("Access 0.7 m, not 0.9: ")
    fewer = changes[FactKind.PEOPLE]
    assert fewer.extra_days > 0


def test_what_is_assumed_is_drawn_and_said():
    def change(document):
        document["site"]["ground"]["assumed"] = {"by": "B. Layer", "why": "behind the planter"}

    made = planned(change)
    seen = risk(made, rules(), facts=False)
    assert len(seen.assumed) + len(seen.not_drawn) == len(made.cost.assumed) > 0
    drawn = [each for each in seen.drivers if each.key.cause is Cause.ASSUMED]
    assert len(drawn) == len(
        [each for each in made.cost.assumed if each.low_minor is not None and each.low_minor < each.high_minor]
    )


def test_it_says_how_far_it_is_and_can_be_stopped(demo):
    said = []

    def stop(words):
        said.append(words)
        if len(said) == 4:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        risk(demo, rules(), stop)
    assert said[1] == "drawing, 1 of 8"


def test_a_price_without_labour_is_none_to_lose_at_and_a_job_that_knows_nothing_has_no_risk():
    def nothing(document):
        document["rates"] = {}

    seen = risk(planned(nothing), rules(), facts=False)
    assert (seen.losing, seen.losing_error) == (None, None)
    assert any("Labour" in gap.words for gap in seen.gaps)
    assert risk(make_plan_so_far(starter_document("A job").encode()), rules()) is None


def test_provisional_lines_wait_for_one_depth_of_topsoil():
    def unknown(document):
        document["site"]["ground"].pop("topsoil_mm", None)

    made = planned(unknown)
    waiting = [each for each in made.cost.lines if each.group is LineGroup.PROVISIONAL]
    again = model_of(made)
    assert again.total(again.drawn({}, 1)).tolist() == [made.cost.total_minor]
    assert waiting
    assert CauseKey(Cause.TOPSOIL) in again.causes
    dearest = again.total(again.drawn({CauseKey(Cause.TOPSOIL): np.array([1 - 1e-12])}, 1))[0]
    more = sum(each.high_minor - each.amount_minor for each in waiting)
    # the lines at their upper ends, and the days of the machines that the deeper strip keeps
    rates = [each.rate_minor for each in made.cost.lines if isinstance(each.key, HireKey)]
    beyond = (dearest - made.cost.total_minor) * made.cost.prime_minor / made.cost.total_minor - more
    assert -2.0 < beyond <= 2 * sum(rates)


def test_own_outputs_scatter_as_past_jobs_did():
    own = {"kind": "lay_flags_h_per_m2", "hours_each": 0.8, "sd_hours": 0.1, "jobs": 5}
    made = planned(lambda document: document["crew"].update(outputs=[own]))
    again = model_of(made)
    key = CauseKey(Cause.OUTPUT, task=TaskKind.LAY)
    assert key in again.causes
    keys = [each.key for each in made.cost.lines]
    line = next(number for number, each in enumerate(keys) if isinstance(each, TaskKey) and each.kind is key.task)
    again.figures = replace(again.figures, output_correlation=replace(again.figures.output_correlation, value=0.0))
    amounts = again._lines[line](again.drawn({key: even_draws(4096, 1, 1)[:, 0]}, 4096))
    likely = made.cost.lines[line].amount_minor
    assert again.total(again.drawn({}, 1)).tolist() == [made.cost.total_minor]
    assert amounts.mean() == pytest.approx(likely, rel=1e-3)
    assert amounts.std() == pytest.approx(likely * 0.1 / 0.8, rel=0.01)


def test_the_price_of_a_delivery_stands_for_the_hours_to_fetch():
    def delivered(document):
        for material in document["rates"]["materials"]:
            material["carriage_minor"] = 4500

    made = planned(delivered)
    orders = {each.key: each for each in risk(made, rules(), facts=False, draws=64).orders}
    sand = next(each for key, each in orders.items() if key.material and key.material.value == "sharp_sand")
    lost = round(0.5 * made.job.crew.hours_per_day * made.job.crew.people * made.job.rates.labour_minor_per_hour)
    assert sand.again_minor == 4500 + lost


def test_while_some_labour_has_no_price_nobody_knows_the_chance_of_losing_nor_a_price_for_one():
    def skilled(document):
        document["rates"].pop("labour_minor_per_hour")
        document["rates"]["labour"] = [{"skill": each, "minor_per_hour": 2600} for each in ("layer", "labourer")]

    made = planned(skilled)
    assert any(isinstance(each.key, TaskKey) for each in made.cost.lines)
    assert any("Labour" in each.words for each in made.cost.gaps)
    seen = risk(made, rules(), facts=False, draws=64)
    assert (seen.losing, seen.losing_error, seen.break_even) == (None, None, ())


def test_hours_by_skill_are_priced_too():
    def skilled(document):
        document["rates"].pop("labour_minor_per_hour")
        skills = ("layer", "groundworker", "labourer", "drainage", "driver")
        document["rates"]["labour"] = [{"skill": each, "minor_per_hour": 2600} for each in skills]

    made = planned(skilled)
    again = model_of(made)
    assert again.total(again.drawn({}, 1)).tolist() == [made.cost.total_minor]
    assert again.fixed == []
    seen = risk(made, rules(), facts=False, draws=64)
    assert seen.losing is not None
    assert all(each.again_minor for each in seen.orders)


def test_overhead_by_the_hour_grows_with_the_hours_and_not_with_the_cost():
    def by_hour(document):
        document["rates"].update(overhead_percent=None, overhead_minor_per_hour=900, plant=[], catalogue=[])

    made = planned(by_hour)
    again = model_of(made)
    assert again.total(again.drawn({}, 1)).tolist() == [made.cost.total_minor]
    again.figures = replace(again.figures, output_correlation=replace(again.figures.output_correlation, value=0.0))
    slow = again.drawn({CauseKey(Cause.OUTPUT, task=TaskKind.LAY): np.array([1 - 1e-12])}, 1)
    task = next(each for each in made.cost.labour if each.key.kind is TaskKind.LAY)
    hours = task.high_hours - task.person_hours
    extra = hours * (made.job.rates.labour_minor_per_hour + 900)
    cost = made.cost.prime_minor + made.cost.overhead_minor
    assert again.burdened(slow)[0] == pytest.approx(cost + extra, abs=2.0)
    # bulking costs loads and no hours: no overhead goes on it
    swollen = again.drawn(
        {CauseKey(Cause.BULKING): np.array([1 - 1e-9]), CauseKey(Cause.SPOIL_MASS): np.array([1 - 1e-9])}, 1
    )
    loads = made.earthworks.loads
    assert again.burdened(swollen)[0] - cost == (loads.high - loads.likely) * made.job.rates.disposal.load_price_minor


def test_what_is_counted_comes_in_whole_pieces(found, demo):
    items = {each.key: each for each in demo.quantities.items}
    whole = [each for each in found.orders if items[each.key].unit == "each" and items[each.key].gross.is_integer()]
    assert whole
    for each in whole:
        planned = next(step for step in each.steps if step.ordered == each.planned)
        assert planned.short < 0.95, each.description


def test_every_kind_of_work_has_a_word_among_the_causes():
    assert set(_TASKS) == set(TaskKind)
