"""The plan as JSON: all of it, or what is asked for."""

from __future__ import annotations

import dataclasses
import json

import pytest

from pavewright.cost import HireKey, TaskKey, TaskKind
from pavewright.job import PlantKind
from pavewright.papers.look import as_data
from pavewright.papers import PlanPart, plan_json, plan_parts
from pavewright.papers._blocks import pencil, rest, right, table
from pavewright.papers._plan_json import plain
from pavewright.pipeline import Plan, PlanSoFar, plan
from pavewright.programme import WaitKey, WaitKind
from pavewright.quantities import Key, ScopeKey, ScopeKind


def test_every_field_of_a_plan_is_a_part_of_it():
    parts = [part.value for part in PlanPart]
    whole = [field.name for field in dataclasses.fields(Plan)]
    assert parts[: len(whole)] == whole
    assert set(parts) == {field.name for field in dataclasses.fields(PlanSoFar)}


def test_parts_that_are_asked_for_are_those_of_the_whole(small):
    small.rectangle(3000.0, 2000.0)
    made = plan(small.job(), small.rules)
    whole = json.loads(plan_json(made))
    assert list(whole) == [part.value for part in PlanPart if part.value not in {"labour", "missing", "faults"}]
    asked = (PlanPart.FINDINGS, PlanPart.LEVELS)
    assert json.loads(plan_json(made, asked)) == {"levels": whole["levels"], "findings": whole["findings"]}
    assert plan_parts(made, ()) == {}


def test_what_a_plan_does_not_hold_is_a_bug():
    with pytest.raises(TypeError):
        plain({"a": 1})
    with pytest.raises(TypeError):
        plain((1.0, object()))


def test_every_kind_of_key_is_written_by_its_name_and_equals_no_other_kind():
    keys = (
        TaskKey(TaskKind.LAY, 0),
        WaitKey(WaitKind.CURE_BED, 0),
        ScopeKey(ScopeKind.KERB, 1),
        HireKey(PlantKind.MIXER, 1),
    )
    assert plain(keys) == ["lay.area1", "cure_bed.area1", "kerb.2", "hire.mixer.2"]
    assert all(isinstance(key, Key) for key in keys)
    assert TaskKey("x", 0) != WaitKey("x", 0)  # type: ignore[arg-type]


def test_what_a_head_of_a_table_looks_like_is_not_read_from_its_words():
    made = as_data(table(("> 3 t", right("kg"), rest("why"), pencil("")), ()))
    assert [(each["head"], each["align"], each["width"]) for each in made["columns"]] == [
        ("> 3 t", "left", "auto"),
        ("kg", "decimal", "auto"),
        ("why", "left", "rest"),
        ("", "left", 26.0),
    ]
