"""The preview of a drag: what the plan says, without searching again for what a hand does not change."""

from __future__ import annotations

import copy
import json
from pathlib import Path

import pytest

from pavewright.desk import SCREEN_VERBS, _preview
from pavewright.levels.design import design
from pavewright.levels.folds import _folding

EXAMPLES = Path(__file__).parents[3] / "examples"


def preview(document):
    return json.loads(SCREEN_VERBS["preview"](json.dumps(document).encode(), lambda _: None))


def moved(document, by_mm):
    """Return the yard with its corner C, which tapes fix, on a point of its own so far aside."""
    after = copy.deepcopy(document)
    name = "C moved 1"
    after["measurements"].setdefault("points", []).append({"name": name, "x_mm": 5600.0 + by_mm, "y_mm": 4300.0})
    for corner in after["areas"][0]["outline"]:
        corner["point"] = name if corner["point"] == "C" else corner["point"]
    for edge in after["areas"][0]["edges"]:
        edge["corner"] = name if edge["corner"] == "C" else edge["corner"]
    return after


@pytest.fixture
def yard():
    _preview._folded.clear()
    return json.loads((EXAMPLES / "gully_yard.json").read_bytes())


@pytest.fixture
def designs(monkeypatch):
    made = []
    monkeypatch.setattr(_folding, "design", lambda task: made.append(task.arrangement.kind) or design(task))
    return made


def test_folds_are_searched_once_and_their_heights_fitted_at_every_move(yard, designs):
    first = preview(moved(yard, 0.0))
    assert first["faults"] == []
    searched = len(designs)
    assert len(set(designs)) >= 4
    for step in (5.0, 10.0, 15.0):
        after = preview(moved(yard, step))
        assert after["areas"][0]["corners"] != first["areas"][0]["corners"]
    assert len(designs) - searched <= 3 * 2
    assert len(set(designs[searched:])) == 1
    assert preview(moved(yard, 0.0)) == first


def test_another_wish_of_the_job_is_searched_anew(yard, designs):
    preview(yard)
    searched = len(designs)
    yard["areas"][0]["fall"]["one_in"] = 45.0
    preview(yard)
    assert len(designs) >= 2 * searched - 1


def test_of_many_areas_only_the_one_under_the_hand_is_counted_again(monkeypatch):
    document = json.loads((EXAMPLES.parent / "tests" / "patio.json").read_bytes())
    area = document["areas"][0]
    document["site"]["walls"], area["fall"] = [], {"bearing_deg": 180.0}
    document["areas"] = []
    for number in range(6):
        other = copy.deepcopy(area) | {"name": f"Area {number}"}
        names = {each["point"]: f"{each['point']}{number}" for each in area["outline"]}
        for name, new in names.items():
            point = next(each for each in document["measurements"]["points"] if each["name"] == name)
            document["measurements"]["points"].append(point | {"name": new, "x_mm": point["x_mm"] + 9000.0 * number})
        other["outline"] = [{"point": names[each["point"]]} for each in area["outline"]]
        other["edges"] = [{"corner": name, "restraint": "haunch"} for name in names.values()]
        other["laying"]["along"] = [names[each] for each in area["laying"]["along"]]
        other["fall"] |= {"level_at": next(iter(names.values())), "level_mm": 10_000.0}
        document["areas"].append(other)
    counted = []
    known = _preview.quick_counts
    monkeypatch.setattr(
        _preview, "quick_counts", lambda job, area, *more: counted.append(area.name) or known(job, area, *more)
    )
    first = preview(document)
    assert first["faults"] == []
    assert sorted(counted) == [f"Area {number}" for number in range(6)]
    counted.clear()
    document["measurements"]["points"][-1]["y_mm"] += 25.0
    after = preview(document)
    assert counted == ["Area 5"]
    assert [each["area_m2"] for each in after["areas"][:5]] == [each["area_m2"] for each in first["areas"][:5]]
