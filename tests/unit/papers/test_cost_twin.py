"""The workbook of the cost, every formula worked out anew: the same price to the penny, however it is priced."""

from __future__ import annotations

import io
import json

import openpyxl
import pytest

from pavewright.desk import demo_document, make_plan
from pavewright.papers._workbook import cost_workbook
from pavewright.units import money_places
from tests.unit.papers.recalculated import Recalculated

EXAMPLES = ("demo", "curved_path", "front_drive", "gully_yard", "mixed_patio", "circle_court")
PLAIN = {"overhead_percent": None, "margin_percent": None, "tax_percent": None}
WAYS = {
    "a mark-up": {"margin_percent": None, "markup_percent": 22.5},
    "overhead by the hour": {"overhead_percent": None, "overhead_minor_per_hour": 1150},
    "two rates of tax": {"tax_lines": [{"group": "material", "regime": "reduced", "percent": 5.0}]},
    "reverse charge": {"tax_regime": "reverse_charge"},
    "tax rounded down": {"tax_percent": 17.5, "tax_rounding": "down"},
    "tax by the line": {"tax_percent": 17.5, "tax_rounding": "line"},
    "up to whole tens": {"rounding": {"kind": "up", "to_minor": 1000}},
    "to the nearest five": {"rounding": {"kind": "nearest", "to_minor": 500}},
    "nothing on it": PLAIN,
}


def in_minor(found, sheet, cell, plan):
    return round(float(found.value("Cost", cell)) * 10 ** money_places(plan.job.identity.currency))


def check(plan):
    content = cost_workbook(plan)
    found = Recalculated(content)
    sheet = openpyxl.load_workbook(io.BytesIO(content))["Cost"]
    named = {sheet.cell(row, 1).value: f"E{row}" for row in range(5, sheet.max_row + 1) if sheet.cell(row, 1).value}
    cost = plan.cost
    for number, line in enumerate(cost.lines, start=5):
        assert in_minor(found, sheet, f"E{number}", plan) == line.amount_minor, line.description
    steps = [(words, cell) for words, cell in named.items() if int(cell[1:]) > 5 + len(cost.lines)]
    answers = [cost.prime_minor, cost.overhead_minor, cost.net_minor, *(each.tax_minor for each in cost.tax)]
    for (words, cell), minor in zip(steps, [*answers, cost.total_minor], strict=False):
        assert in_minor(found, sheet, cell, plan) == minor, words
    assert in_minor(found, sheet, named["To pay"], plan) == cost.total_minor
    formulas_of_money = [cell for _, cell in steps[: len(answers) + 1] if str(sheet[cell].value).startswith("=")]
    assert len(formulas_of_money) >= len(answers)  # one step at most is a number alone


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_example_comes_to_its_price(made_plan, name):
    check(made_plan(name))


@pytest.mark.parametrize("way", WAYS)
def test_however_it_is_priced_it_comes_to_its_price(way):
    document = json.loads(demo_document())
    document["rates"] |= WAYS[way]
    document["rates"]["plant"][0] |= {"min_days": 3, "weekly_price_minor": 31000, "delivery_minor": 4500}
    document["rates"]["materials"][0] |= {"supplier": "Yard", "carriage_minor": 3500}
    document["terms"] = {
        "prime_costs": [{"name": "Lamp", "amount_minor": 12345, "attendance_percent": 7.5}],
        "provisional": [{"name": "Soft spot", "unit": "m3", "amount": 1.5, "rate_minor": 9333, "high_amount": 4.0}],
    }
    plan = make_plan(json.dumps(document))
    assert any(line.key.text.startswith("charge.carriage") for line in plan.cost.lines)
    check(plan)
