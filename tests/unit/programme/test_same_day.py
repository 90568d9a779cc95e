"""Several suppliers on one day, whether there is room for what they bring or not."""

from __future__ import annotations

import copy
import json
from pathlib import Path

import pytest

from pavewright.desk import make_plan
from pavewright.writing import day_text

DRIVE = json.loads((Path(__file__).parents[3] / "examples" / "front_drive.json").read_text("utf-8"))


def noticed(plan):
    return [each.message for each in plan.programme.findings if each.code.value == "programme.two_deliveries"]


def busy_days(plan):
    by_day = {}
    for each in plan.programme.deliveries:
        by_day.setdefault(each.on, set()).add((each.supplier, each.supplier_kind))
    return {day: whom for day, whom in sorted(by_day.items()) if len(whom) > 1}


@pytest.mark.parametrize("room_m2", [None, 10_000.0])
def test_two_suppliers_on_one_day_are_noticed_where_there_is_room_too(room_m2):
    document = copy.deepcopy(DRIVE)
    if room_m2 is not None:
        document["arrangements"] = {**document.get("arrangements", {}), "drop_space_m2": room_m2}
    plan = make_plan(json.dumps(document))
    busy = busy_days(plan)
    assert busy
    (said,) = noticed(plan)
    assert all(day_text(day) in said for day in busy)
    assert all(supplier in said for whom in busy.values() for supplier, _ in whom if supplier)


def test_one_supplier_who_comes_twice_on_a_day_is_one():
    document = copy.deepcopy(DRIVE)
    for bought in (document["rates"]["materials"], document["rates"].get("catalogue", []), document["units"]):
        for each in bought:
            each["supplier"], each["supplier_kind"] = "Hollin Quarry (invented)", "quarry"
    plan = make_plan(json.dumps(document))
    named = [each for each in plan.programme.deliveries if each.supplier]
    assert len({each.on for each in named}) < len(named)
    assert not busy_days(plan)
    assert noticed(plan) == []
