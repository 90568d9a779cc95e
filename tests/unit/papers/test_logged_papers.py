"""Logs of the days on paper: what was written stands there, what nobody wrote is unknown, and deliveries count once."""

from __future__ import annotations

import functools
import json
from pathlib import Path

from pavewright import rulebook
from pavewright.desk import make_plan
from pavewright.papers import PaperInput, written_where
from pavewright.papers.handover._facts import products
from pavewright.papers.look import as_data
from pavewright.papers.site_papers import document

RULES = rulebook.load("england")
PATIO = json.loads((Path(__file__).parents[2] / "patio.json").read_text("utf-8"))
AREA, UNIT = PATIO["areas"][0]["name"], PATIO["units"][0]["name"]
BATCH = {"unit": UNIT, "batch": "B 12/7", "ticket": "T 4", "area": AREA}
DAYS = [
    {
        "name": "one",
        "date": "2027-06-01",
        "written_by": "Ann",
        "present": [{"name": "Ann", "there_h": 8.0}, {"name": "Ben"}],
        "worked": [
            {"task": "lay.area1", "person_h": 6.5, "done_percent": 40.0},
            {"task": "point.area1", "person_h": 1},
        ],
        "bays": [{"area": AREA, "stage": "bed", "x_mm": 500.0, "y_mm": 500.0}],
        "weather": {"sky": "showers", "lowest_c": -1.5},
        "mixed": [{"mix": "Bed", "count": 3}],
        "delivered": [BATCH, {"product": "Joint sealant"}],
        "waste": [{"what": "rubble", "volume_m3": 3.5, "ticket": "W 9", "carrier": "Haul"}, {"what": "soil"}],
        "stops": [{"why": "rain", "lost_h": 1.5}, {"why": "delivery"}],
        "photos": ["p1", "p2"],
    },
    {"name": "two", "date": "2027-06-02"},
]


@functools.cache
def plan(days, more="{}"):
    return make_plan(json.dumps(PATIO | {"site_days": json.loads(days)} | json.loads(more)))


def sheets(made):
    with written_where(made):
        return {
            sheet.title: json.dumps([as_data(block) for block in sheet.blocks], ensure_ascii=False)
            for sheet in document(PaperInput(made, RULES)).sheets
        }


def test_a_log_stands_on_the_paper_as_it_was_written():
    text = sheets(plan(json.dumps(DAYS)))["Logs of the days"]
    for words in (
        "Ann 8.0 h; Ben, hours not known",
        "7.5 h booked; hours there not known",
        "showers; lowest -1.5 °C",
        "rain, 1.5 h; a delivery did not come, not timed",
        f"{AREA}: bed in",
        f"{UNIT}, batch B 12/7, ticket T 4; Joint sealant, batch not read",
        "rubble, 3.5 m³, ticket W 9; soil, no ticket",
        "3 × Bed",
    ):
        assert words in text, words
    assert '"40"' in text
    assert text.count('"unknown"') == 1  # how much of the pointing is done


def test_a_job_without_a_log_has_the_blank_form_alone():
    made = sheets(plan("[]"))
    assert "Logs of the days" not in made
    assert "Daily log" in made


def test_loads_that_left_stand_in_the_first_rows_of_the_waste_tickets():
    text = sheets(plan(json.dumps(DAYS)))["Waste tickets"]
    assert "W 9" in text
    assert "Haul" in text


def test_a_batch_that_the_log_and_the_handover_name_alike_counts_once():
    both = plan(json.dumps(DAYS), json.dumps({"handed_over": {"batches": [BATCH, {"unit": UNIT, "batch": "B 13"}]}}))
    found = [(each.product, each.batch) for each in products(both)]
    assert found == [(UNIT, "B 12/7"), (UNIT, "B 13"), ("Joint sealant", "")]
