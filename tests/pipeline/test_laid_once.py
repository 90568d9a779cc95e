"""A plan and the trials of its options lay an area once: the same bytes with and without what was laid before."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from pavewright import pipeline, rulebook
from pavewright.findings import FieldChange
from pavewright.job import changed, parse
from pavewright.laying import LaidBefore, _lay, lay
from pavewright.papers import plan_json
from pavewright.pipeline import plan
from pavewright.survey import survey

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*.json"))
JOBS = sorted((ROOT / "tests" / "pipeline" / "jobs").glob("*.json"))


def job_of(path):
    return parse(json.loads(path.read_text("utf-8")))


@pytest.fixture
def layings(monkeypatch):
    """Return the names of areas in the order in which they are laid."""
    names, really = [], _lay.lay_area

    def counted(area, *others):
        names.append(area.name)
        return really(area, *others)

    monkeypatch.setattr(_lay, "lay_area", counted)
    return names


@pytest.mark.parametrize("path", [*EXAMPLES, *JOBS], ids=lambda path: path.stem)
def test_what_was_laid_before_changes_no_byte(path, monkeypatch):
    job = job_of(path)
    rules = rulebook.load(job.identity.locality)
    with_it = plan_json(plan(job, rules))
    monkeypatch.setattr(LaidBefore, "found", lambda _self, _asked: None)
    assert plan_json(plan(job, rules)) == with_it


def test_trials_lay_no_area_again_whose_outline_and_laying_stay(layings, monkeypatch):
    job = job_of(ROOT / "tests" / "pipeline" / "jobs" / "terrace_over_lawn.json")
    planned, really = [], pipeline._plan.priced
    monkeypatch.setattr(
        pipeline._plan, "priced", lambda *reported, **more: planned.append(1) or really(*reported, **more)
    )
    plan(job, rulebook.load(job.identity.locality))
    assert len(planned) > 2
    assert sorted(layings) == sorted(set(layings)) == sorted(area.name for area in job.areas)


def test_what_decides_the_units_is_laid_anew(small, layings):
    small.rectangle(3000.0, 2400.0)
    job, rules = small.job(), small.rules
    before = LaidBefore()

    def laid(change=None):
        other = job if change is None else changed(job, (change,))
        return lay(other, survey(other, rules), rules, before=before)

    first = laid()
    assert laid(FieldChange("areas.0.fall.one_in", 70.0)) == first
    assert laid(FieldChange("areas.0.note", "Swept.")) == first
    assert len(layings) == 1
    anew = (
        FieldChange("areas.0.laying.joint_mm", 6.0),
        FieldChange("areas.0.laying.shift_along_mm", 50.0),
        FieldChange("areas.0.laying.bedding", "sand_on_sub_base"),
        FieldChange("units.0.kg_each", 30.0),
        FieldChange("units.0.in_yard", [{"along_mm": 300.0, "across_mm": 600.0, "count": 1}]),
        FieldChange("measurements.points.2.x_mm", 3100.0),
    )
    for number, change in enumerate(anew, start=2):
        alone = changed(job, (change,))
        assert laid(change) == lay(alone, survey(alone, rules), rules)
        assert len(layings) == 2 * number - 1


def test_left_overs_that_an_area_took_are_gone_for_the_next_though_it_was_laid_before(small):
    # each area saves a slab with a left-over; there is one
    small.rectangle(3 * 610.0 + 200.0, 600.0)
    small.area([(0, 3000), (2 * 610 + 390, 3000), (2 * 610 + 390, 3600), (0, 3600)], "Walk")
    small.unit["in_yard"] = [{"along_mm": 250.0, "across_mm": 610.0}]
    job, rules = small.job(), small.rules
    before, surveyed = LaidBefore(), survey(job, rules)
    first = lay(job, surveyed, rules, before=before)
    assert lay(job, surveyed, rules, before=before) == first == lay(job, surveyed, rules)
    assert [[one.left_over_of for one in area.sawn] for area in first.areas] == [["the yard"], [""]]


def test_another_figure_of_the_edition_lays_anew(small, layings):
    small.rectangle(3000.0, 2500.0)
    job, rules = small.job(), small.rules
    before, surveyed = LaidBefore(), survey(job, rules)
    lay(job, surveyed, rules, before=before)
    kerf = rules.figure("laying.kerf_mm")
    wider = replace(rules, figures={**rules.figures, kerf.key: replace(kerf, value=kerf.value + 1.0)})
    lay(job, surveyed, wider, before=before)
    assert len(layings) == 2
