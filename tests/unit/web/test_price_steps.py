"""The steps from cost to price on the price stage are the sums of the plan, to the penny."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import pytest

from pavewright.desk import plain
from pavewright.pipeline import plan

STEPS = Path(__file__).parents[3] / "src" / "pavewright" / "web" / "static" / "job" / "stages" / "price-steps.js"


@pytest.fixture
def steps(small, tmp_path):
    """Gives the cost and the steps of a small job with rates of its own, and some lines taxed in their own way."""
    if shutil.which("node") is None:
        pytest.skip("no node: the scripts of the pages are not run")

    def made(**rates):
        small.rectangle(4000.0, 3000.0)
        small.document["rates"] |= rates
        small.document["terms"] = {
            "provisional": [{"name": "Soft spot", "unit": "m3", "rate_minor": 9_137, "amount": 1.5}],
            "prime_costs": [{"name": "Lamps", "amount_minor": 33_333, "attendance_percent": 7.5}],
        }
        found = plan(small.job(), small.rules)
        given = json.dumps([plain(found.cost), plain(found.job.rates.model_dump(mode="json"))])
        script = tmp_path / "run.mjs"
        words = f"import {{ priceSteps }} from {json.dumps(STEPS.as_uri())};"
        script.write_text(f"{words} console.log(JSON.stringify(priceSteps(...{given})));", "utf-8")
        done = subprocess.run([shutil.which("node"), str(script)], capture_output=True, check=True)
        return found.cost, json.loads(done.stdout)

    return made


RATES = {"overhead_percent": 11.3, "margin_percent": 17.7, "tax_percent": 20.0}


def test_steps_add_up_to_the_price_of_the_plan_by_every_regime(steps):
    cost, found = steps(
        **RATES,
        tax_lines=[
            {"group": "labour", "regime": "reverse_charge"},
            {"group": "material", "regime": "reduced", "percent": 5.0},
        ],
    )
    assert len(cost.tax) == 3
    reached, totals = 0, {}
    for step in found:
        if step.get("total"):
            assert step["value"] == reached, step
            totals[step["label"]] = reached
        else:
            reached += step["value"]
    assert totals == {"Cost": cost.prime_minor, "Price before tax": cost.net_minor, "Price": cost.total_minor}
    assert {"Labour", "Materials", "Provisional sums"} <= {step["label"] for step in found}
    assert sum("reverse charge" in step["label"] for step in found) == 1


def test_what_is_not_known_is_no_number(steps):
    cost, found = steps(overhead_percent=None, margin_percent=None, tax_percent=None)
    unknown = [step["label"] for step in found if step.get("words") == "not known"]
    assert {"Overhead", "Margin"} <= set(unknown)
    assert cost.overhead_minor == cost.margin_minor == 0
