"""Deliveries with lead times and drop space, plant on and off hire, skips: dates to order by, and what is noticed."""

from __future__ import annotations

import copy
import datetime as dt
import json
from pathlib import Path

import pytest

from pavewright import rulebook
from pavewright.cash import FlowKind
from pavewright.cost import HireKey, TaskKey, TaskKind, carried, hire_period
from pavewright.desk import make_plan
from pavewright.findings import Severity
from pavewright.job import BuyingTerms, MaterialKind, PlantKind
from pavewright.papers._sheets_supply import hires_moved
from pavewright.pipeline import cash_of
from pavewright.programme import LoadKind
from pavewright.programme._clock import working_time
from pavewright.programme._keys import priced
from pavewright.programme._deliveries import comes_on, order_by
from pavewright.quantities import ItemGroup, of_material

ROOT = Path(__file__).parents[3]
DRIVE = json.loads((ROOT / "examples" / "front_drive.json").read_text("utf-8"))


def changed(**changes):
    document = copy.deepcopy(DRIVE)
    for path, value in changes.items():
        *steps, last = path.split("__")
        here = document
        for step in steps:
            here = here[step] if not isinstance(here, list) else here[int(step)]
        here[last] = value
    return document


def made(**changes):
    return make_plan(json.dumps(changed(**changes)))


def codes(plan):
    return [finding.code.value for finding in plan.programme.findings]


@pytest.fixture(scope="module")
def drive():
    return made()


def test_days_to_order_by_are_counted_back_in_working_days_of_suppliers(small):
    """Friday 21 May 2027: three days back is Tuesday; over the weekend and a day off, Thursday of the week before."""
    small.rectangle(1000.0, 1000.0)
    parsed = small.job()
    friday = dt.date(2027, 5, 21)
    assert order_by(parsed, friday, 3) == dt.date(2027, 5, 18)
    small.document["calendar"]["days_off"] = ["2027-05-17"]
    parsed = small.job()
    assert order_by(parsed, friday, 5) == dt.date(2027, 5, 13)
    assert order_by(parsed, friday, 0) == friday
    for lead in range(12):
        assert comes_on(parsed, order_by(parsed, friday, lead), lead) <= friday


def test_every_delivery_says_of_whom_when_and_by_when_to_order(drive):
    stone = [each for each in drive.programme.deliveries if each.group is ItemGroup.BASE]
    assert len({each.supplier for each in stone}) == len(stone) >= 2
    begins = min(task.start.date() for task in drive.programme.tasks if priced(task.key).kind is TaskKind.SUB_BASE)
    for each in stone:
        assert each.on < begins
        assert each.lead_days == max(item.lead_days for item in each.items)
        assert each.order_by == order_by(drive.job, each.on, each.lead_days)


def test_an_item_without_a_lead_time_says_so_and_has_no_day():
    document = changed()
    for material in document["rates"]["materials"]:
        material.pop("lead_days", None)
    plan = make_plan(json.dumps(document))
    bed = [each for each in plan.programme.deliveries if each.group is ItemGroup.BED]
    assert [(each.lead_days, each.lead_known, each.order_by) for each in bed] == [(None, False, None)]


def test_a_lead_time_that_cannot_be_met_is_reported_and_its_option_mends_it():
    plan = made(identity__date="2027-06-22", units__0__lead_days=15)
    said = next(each for each in plan.programme.findings if each.code == "programme.lead_too_long")
    assert (said.value, said.unit) == (15.0, "days")
    assert said.limit < 15
    assert "Block 80" in said.message
    later, other, ordered = said.options
    assert "another" not in later.words
    assert "supplier" in other.words
    assert ordered.changes == ()
    (change,) = later.changes
    assert change.path == "calendar.start"
    mended = made(identity__date="2027-06-22", units__0__lead_days=15, calendar__start=change.value)
    assert "programme.lead_too_long" not in codes(mended)
    assert mended.programme.start > plan.programme.start


def test_what_work_has_begun_with_is_there():
    done = [{"task": "lay.area1", "on": "2027-07-08", "done_percent": 50.0}]
    plan = made(identity__date="2027-06-22", units__0__lead_days=15, done=done)
    assert "programme.lead_too_long" not in codes(plan)
    assert all(each.begun for each in plan.programme.deliveries if each.group is ItemGroup.UNITS)


def test_plant_that_cannot_come_in_time_is_reported():
    number = next(n for n, each in enumerate(DRIVE["rates"]["plant"]) if each["key"] == "excavator")
    plan = made(identity__date="2027-06-22", **{f"rates__plant__{number}__lead_days": 10})
    said = next(each for each in plan.programme.findings if each.code == "programme.lead_too_long")
    assert said.value == 10.0


def test_drop_space_is_asked_where_nobody_said_and_noticed_where_it_is_short(drive):
    asked = [each for each in drive.programme.findings if each.code == "programme.drop_space_asked"]
    assert len(asked) == 1
    assert asked[0].severity.value == "note"
    small_room = made(arrangements__drop_space_m2=5.0)
    short = [each for each in small_room.programme.findings if each.code == "programme.drop_space"]
    assert short
    for each in short:
        assert each.value > each.limit == 5.0
    # on the day of the stone two suppliers come: one may come a day earlier
    assert any("a day earlier" in option.words for each in short for option in each.options)
    room = made(arrangements__drop_space_m2=500.0)
    assert not {"programme.drop_space", "programme.drop_space_asked"} & set(codes(room))


def test_hire_runs_from_the_first_day_of_need_to_the_last_and_is_paid_as_in_the_price(drive):
    """The plate is needed on two days of five: it is on hire, and paid, on all of them."""
    clock = working_time(drive.job.calendar, drive.job.crew)
    plate = next(each for each in drive.programme.hires if each.key.kind is PlantKind.PLATE)
    assert (plate.wanted_days, plate.held_days, plate.days) == (2, 5, 5.0)
    for hire in drive.programme.hires:
        days, day = 0, hire.on
        while day <= hire.paid_until:
            days += clock.works_on(day)
            day += dt.timedelta(days=1)
        line = next(each for each in drive.cost.lines if each.key == hire.key)
        assert line.quantity == days == hire.days
        needs = [t for t in drive.cost.labour if hire.key.kind in t.plant]
        tasks = [task for task in drive.programme.tasks if any(priced(task.key) == need.key for need in needs)]
        assert hire.on == min(task.start for task in tasks).date()
        assert hire.off == max(task.finish for task in tasks).date()


@pytest.mark.parametrize("extra", [{"min_days": 8.0}, {"off_hire_days": 1.0}, {"off_hire_days": 0.5}])
def test_the_last_day_that_is_paid_is_that_of_the_price(extra):
    number = next(n for n, each in enumerate(DRIVE["rates"]["plant"]) if each["key"] == "plate")
    plan = made(**{f"rates__plant__{number}__{name}": value for name, value in extra.items()})
    clock = working_time(plan.job.calendar, plan.job.crew)
    hire = next(each for each in plan.programme.hires if each.key == HireKey(PlantKind.PLATE, number))
    paid = hire_period(hire.days, 2900, None, extra.get("min_days", 0.0), extra.get("off_hire_days", 0.0), 5.0)
    line = next(each for each in plan.cost.lines if each.key == hire.key)
    assert line.quantity == paid.paid_days
    days = sum(clock.works_on(hire.on + dt.timedelta(days=n)) for n in range((hire.paid_until - hire.on).days + 1))
    assert days - 1 < paid.paid_days <= days


def test_own_plant_is_on_no_hire():
    number = next(n for n, each in enumerate(DRIVE["rates"]["plant"]) if each["key"] == "plate")
    plan = made(**{f"rates__plant__{number}__owned": True})
    plate = next(each for each in plan.programme.hires if each.key.kind is PlantKind.PLATE)
    assert (plate.on, plate.off, plate.paid_until, plate.days) == (None, None, None, 2.0)


def test_skips_come_are_changed_and_go_while_spoil_is_dug():
    drive = made(rates__disposal__kind="skip")
    loads = drive.programme.loads
    count = sum(round(i.ordered) for i in drive.quantities.items if i.key.kind.value in {"spoil", "pit_spoil"})
    assert [each.kind for each in loads] == [
        LoadKind.SKIP_COMES, *[LoadKind.SKIP_CHANGED] * (count - 1), LoadKind.SKIP_GOES
    ]  # fmt: skip
    digging = [
        t
        for t in drive.programme.tasks
        if isinstance(t.key, TaskKey) and t.key.kind in {TaskKind.DIG, TaskKind.PIT_DIG}
    ]
    assert loads[0].on == min(t.start for t in digging).date()
    assert loads[-1].on == max(t.finish for t in digging).date()
    assert list(loads) == sorted(loads, key=lambda each: each.on)
    assert all(each.order_by == order_by(drive.job, each.on, 2) for each in loads)
    grabs = made(rates__disposal__kind="grab")
    assert {each.kind for each in grabs.programme.loads} == {LoadKind.LOAD_LEAVES}


def test_lorries_come_on_no_saturday_though_the_crew_works_then():
    plan = made(calendar__weekdays=[0, 1, 2, 3, 4, 5, 6], calendar__start="2027-07-05")
    assert all(each.on.weekday() < 5 for each in plan.programme.deliveries)


def test_a_supplier_is_paid_for_every_day_on_which_he_comes(drive):
    """The quarry charges 45.00 a delivery and is needed on three days: the price holds three carriages."""
    (order,) = (each for each in drive.cost.orders if each.carriage_minor)
    days = sorted({each.on for each in drive.programme.deliveries if each.supplier == order.supplier})
    assert len(days) == 3
    assert [each.on for each in order.deliveries] == days
    assert sorted(key.text for each in order.deliveries for key in each.items) == sorted(
        line.item.text for line in order.lines
    )
    (paid,) = (line for line in drive.cost.lines if line.description == f"Carriage, {order.supplier}")
    assert (paid.quantity, paid.unit, paid.rate_minor, paid.amount_minor) == (3.0, "deliveries", 4500, 13500)
    (said,) = (each for each in drive.programme.findings if each.code.value == "programme.carriage_again")
    assert said.severity is Severity.NOTE
    assert order.supplier in said.message
    assert "£135.00; one delivery costs £90.00 less" in said.message
    assert all(f"{day.day} {day:%b}" in said.message for day in days)
    document = changed()
    for entries in ("materials", "catalogue"):
        for each in document["rates"].get(entries, []):
            each.pop("carriage_minor", None)
    for unit in document["units"]:
        unit.pop("carriage_minor", None)
    free = make_plan(json.dumps(document))
    assert "programme.carriage_again" not in codes(free)
    assert not any("Carriage" in line.description for line in free.cost.lines)


def test_a_delivery_is_as_dear_as_what_comes_with_it():
    """Stone and sand on one day ask 45.00, joints on the next nothing: free; what nobody says is as the dearest."""
    of = [BuyingTerms(carriage_minor=each) for each in (4500, 3000, 0, None)]
    keys = [of_material(each) for each in list(MaterialKind)[:5]]
    first = dt.date(2027, 6, 7)
    days = {key: first + dt.timedelta(days=n) for key, n in zip(keys, (0, 0, 1, 2), strict=False)}
    found = carried([*zip(keys, of, strict=False), (keys[4], None)], days)
    assert [(each.carriage_minor, each.assumed, len(each.items)) for each in found] == [
        (4500, False, 3), (0, False, 1), (4500, True, 1)
    ]  # fmt: skip
    (undated,) = carried([*zip(keys, of, strict=False)], {})
    assert (undated.on, undated.carriage_minor) == (None, 4500)


@pytest.mark.parametrize("done", [False, True])
def test_what_is_paid_out_is_the_cost_to_the_penny_though_a_supplier_comes_on_several_days(done):
    """The same on a quoted job of which a part is done and has moved: each carriage goes with its delivery."""
    document = changed()
    if done:
        sold = {key: document.get(key, {}) for key in ("rates", "crew", "terms")}
        document["quoted"] = {"on": "2027-05-20", "revision": 1, **sold}
        document["done"] = [{"task": "dig", "done_percent": 50, "on": "2027-07-20"}]
    made = make_plan(json.dumps(document))
    rules = rulebook.load(made.edition)
    found = cash_of(made, rules)
    bought = {FlowKind.LABOUR, FlowKind.PLANT, FlowKind.MATERIAL, FlowKind.DISPOSAL, FlowKind.PROVISIONAL}
    out = -sum(flow.amount_minor for flow in found.flows if flow.kind in bought | {FlowKind.OVERHEAD})
    assert out == made.cost.prime_minor + made.cost.overhead_minor
    (order,) = (each for each in made.cost.orders if each.carried_minor)
    assert order.carried_minor == 13500
    later = dt.timedelta(days=made.job.terms.supplier_days or 0)
    days = {each.on + later for each in made.programme.deliveries if each.supplier == order.supplier}
    assert days <= {flow.on for flow in found.flows if flow.kind is FlowKind.MATERIAL}
    assert bool(hires_moved(made)) is done
    if done:
        moved = [(now, then) for now, then in zip(made.programme.hires, made.cost.hires, strict=True)]
        moved = [(now, then) for now, then in moved if now.days != then.days]
        assert len(hires_moved(made)) == len(moved) > 0
        assert f"{moved[0][0].days:g} day" in hires_moved(made)[0]
        assert f"holds {moved[0][1].days:g} day" in hires_moved(made)[0]
