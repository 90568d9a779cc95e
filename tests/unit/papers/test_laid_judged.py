"""The papers tell the verdict over everything: levels that pass are no pass where a hose test failed or water stands."""

from __future__ import annotations

import json

import pytest

from pavewright.as_laid import Ground, Verdict
from pavewright.desk import make_plan
from pavewright.desk._verbs import demo_document
from pavewright.papers._laid_judged import judged_of, read_on
from pavewright.papers.handover._sheets import _measured


@pytest.fixture(scope="module")
def failed():
    document = json.loads(demo_document())
    place = {"name": "W1", "x_mm": 2000.0, "y_mm": 1500.0, "depth_mm": 8.0}
    document["hose_tests"] = [
        {"name": "H1", "area": "Terrace", "date": "2027-07-02", "after_min": 30.0, "marks": [place]}
    ]
    channel = document["site"]["channels"][0]["name"]
    document["drain_marks"] = [{"name": "D1", "drain": channel, "date": "2027-07-02", "above_mm": -3.0}]
    return make_plan(json.dumps(document))


def test_standing_water_is_in_the_verdict_of_papers_and_is_worked_out_once(failed):
    found = judged_of(failed)
    assert found.is_water_judged
    assert not failed.as_laid.is_water_judged
    assert found.verdict is Verdict.FAILS
    grounds = {each.ground for each in found.areas[0].reasons}
    assert {Ground.LEVEL, Ground.HOSE, Ground.GRATING, Ground.STANDING} <= grounds
    assert read_on(failed)


def test_the_handover_names_each_reason(failed):
    (line,) = [each for each in _measured(failed) if each.startswith("Terrace")]
    assert "fail" in line
    for words in ("hose test: H1", "grating: D1", "pond that may stand"):
        assert words in line
