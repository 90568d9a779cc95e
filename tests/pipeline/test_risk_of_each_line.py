"""Every kind of priced line is made again from its causes, to the penny of the plan, and moves as the plan would."""

from __future__ import annotations

import json

import numpy as np
import pytest

from pavewright import rulebook
from pavewright.chance import Breakages
from pavewright.cost import ChargeKey, ChargeKind, HireKey, hire_period
from pavewright.desk import demo_document, make_plan_so_far
from pavewright.pipeline import Cause, CauseKey, risk
from pavewright.pipeline._risk_model import RiskModel
from pavewright.pipeline._risk_words import cause_words
from pavewright.quantities import ItemKind

SURE = 1.0 - 1e-12


def rules():
    return rulebook.load("england")


def everything(document):
    """Put in a hire with weeks, a shortest hire and days after the call, carriage, prime costs and provisional rates."""
    rates = document["rates"]
    mixer = next(each for each in rates["plant"] if each["key"] == "mixer")
    mixer.pop("days", None)
    mixer |= {"weekly_price_minor": mixer["day_price_minor"] * 3, "min_days": 2, "off_hire_days": 1}
    mixer |= {"delivery_minor": 4500}
    for each in rates["materials"]:
        each |= {"supplier": "Yard", "carriage_minor": 3500}
    document["terms"] = {
        "prime_costs": [{"name": "Lights", "amount_minor": 40000, "attendance_percent": 7.5}],
        "provisional": [
            {"name": "Rock", "unit": "m3", "rate_minor": 9000, "amount": 2.0, "low_amount": 0.0, "high_amount": 6.0},
            {"name": "Soft spots", "unit": "m2", "rate_minor": 3000, "amount": 1.0, "low_amount": 0, "high_amount": 4},
        ],
    }


def planned(change):
    document = json.loads(demo_document())
    change(document)
    return make_plan_so_far(json.dumps(document).encode())


@pytest.fixture(scope="module")
def full():
    return planned(everything)


@pytest.fixture(scope="module")
def model(full):
    return RiskModel(full, full.programme.hires, rules())


def drawn(model, **causes):
    """Give single draws by cause; what is not drawn stands at its likely value."""
    return model.drawn({key: np.array([value]) for key, value in causes["at"].items()}, 1)


def place(made, wanted):
    return next(number for number, line in enumerate(made.cost.lines) if wanted(line.key))


def is_charge(kind):
    return lambda key: isinstance(key, ChargeKey) and key.kind is kind


def test_every_line_of_a_job_with_every_kind_of_charge_is_made_again_to_the_penny(full, model):
    kinds = {line.key.kind for line in full.cost.lines if isinstance(line.key, ChargeKey)}
    assert kinds == set(ChargeKind)
    assert model.fixed == []
    amounts = [float(each[0]) for each in model.amounts(model.drawn({}, 1))]
    assert amounts == [float(line.amount_minor) for line in full.cost.lines]


def test_a_hire_moves_as_the_price_pays_it(full, model):
    entry = next(each for each in full.job.rates.plant if each.key.value == "mixer")
    hire = next(each for each in full.programme.hires if each.key.kind.value == "mixer")
    mine = [number for number, line in enumerate(full.cost.lines) if _is_paid_by_time(line.key, hire.key.number)]
    week = rules().value("cost.hire_week_days")
    draws = model.drawn({CauseKey(Cause.CREW): np.array([1e-9, 0.5, SURE])}, 3)
    paid = sum(model.amounts(draws)[number] for number in mine)
    tasks = [task for task in full.cost.labour if hire.key.kind in task.plant]
    times = sum(model.hours(task.key)(draws) for task in tasks) / sum(task.person_hours for task in tasks)
    for amount, each in zip(paid, times, strict=True):
        wanted = max(1.0, float(np.floor(hire.wanted_days * each + 0.5)))
        period = hire_period(wanted, entry.day_price_minor, entry.weekly_price_minor, 2.0, 1.0, week)
        assert amount == period.amount_minor
    assert times[2] > 1.0 > times[0]
    assert len(set(paid)) > 1


def _is_paid_by_time(key, number):
    if isinstance(key, HireKey):
        return key.number == number
    return is_charge(ChargeKind.HIRE_WEEKS)(key) and key.number == number


def test_each_provisional_rate_goes_by_what_is_found_of_it_and_not_by_the_topsoil(full, model):
    rock, soft = (
        place(full, lambda key, n=n: is_charge(ChargeKind.PROVISIONAL)(key) and key.number == n) for n in (0, 1)
    )
    key = CauseKey(Cause.PROVISIONAL, fact=0)
    assert key in model.causes
    assert CauseKey(Cause.TOPSOIL) not in model.causes
    most = model.amounts(drawn(model, at={key: SURE}))
    assert abs(float(most[rock][0]) - full.cost.lines[rock].high_minor) <= 1.0
    assert float(most[soft][0]) == full.cost.lines[soft].amount_minor
    assert cause_words(key, full) == "How much is found: Rock"


def test_what_is_settled_by_its_rate_is_in_what_the_customer_pays_and_loses_the_firm_nothing(full, model):
    most = drawn(model, at={CauseKey(Cause.PROVISIONAL, fact=0): SURE})
    assert model.total(most)[0] > full.cost.total_minor
    assert model.burdened(most)[0] == pytest.approx(full.cost.prime_minor + full.cost.overhead_minor, abs=1.0)


def test_sums_as_stated_stand_in_every_draw_and_are_said_to(full):
    found = risk(full, rules(), draws=64, facts=False)
    sure = {ChargeKind.PRIME_COST, ChargeKind.ATTENDANCE, ChargeKind.CARRIAGE, ChargeKind.HIRE_DELIVERY}
    assert sure <= {key.kind for key in found.unmoved}
    assert not set(found.unmoved) & set(found.wholly_fixed)


def test_what_is_bought_by_the_day_moves_with_the_hours(full, model):
    line = place(full, lambda key: getattr(key, "catalogue", None) == "dust_mask")
    item = next(each for each in full.quantities.items if each.key == full.cost.lines[line].key)
    slow = model.drawn({CauseKey(Cause.CREW): np.array([SURE])}, 1)
    likely = sum(task.person_hours for task in full.cost.labour)
    each_day = item.gross / (likely / full.job.crew.hours_per_day)
    more = (model.all_hours()(slow)[0] - likely) / full.job.crew.hours_per_day * each_day
    need = model.needs[item.key](slow)[0] * item.ordered_amount / item.ordered
    assert need == pytest.approx(item.gross + more)
    assert more > 0.0


def test_mixed_packs_are_bought_again_where_one_size_breaks_more_than_there_are_spares(made_plan):
    made = made_plan("mixed_patio")
    again = RiskModel(made, made.programme.hires, rules())
    assert again.fixed == []
    line = place(made, lambda key: getattr(key, "kind", None) is ItemKind.MIXED_PACK)
    item = next(each for each in made.quantities.items if each.key == made.cost.lines[line].key)
    sizes = [each for each in item.holds if each.needed]
    breaks = [key for key in again.causes if key.cause is Cause.BREAKAGE]
    assert [cause_words(key, made) for key in breaks] == [f"How many break: {each.unit}" for each in sizes]
    draws = again.drawn({key: np.array([SURE]) for key in breaks}, 1)
    packs = []
    for key, each in zip(breaks, sizes, strict=True):
        percent = made.job.units[key.item.number].breakage_percent or rules().value("chance.breakage_percent")
        broken = Breakages(each.needed, percent / 100.0).at(np.array([SURE]))[0]
        packs.append((each.needed + broken) / each.per_pack)
    assert again.needs[item.key](draws)[0] == pytest.approx(max(packs))
    short = np.ceil(max(packs) - 1e-9) > item.ordered
    extra = again.amounts(draws)[line][0] - made.cost.lines[line].amount_minor
    assert short == (extra > 0.0)
