"""The programme as bars on paper: nothing clips, critical work is told by more than its fill, all of it stands there."""

from __future__ import annotations

import copy
import itertools
import json
import re
from pathlib import Path

import pytest

from pavewright.desk import make_plan
from pavewright.drawing import programme_bars, to_svg
from pavewright.drawing._scene import Hatch, Region, Words
from pavewright.drawing._type import MIN_TYPE_MM, width_of

LONG = "Turning head and drive behind the double garage of Number 7"
ROOT = Path(__file__).parents[3]


@pytest.fixture(scope="module")
def drive():
    """A drive with the longest name that there is, a hold, and half of a task done."""
    document = json.loads((ROOT / "examples" / "front_drive.json").read_text("utf-8"))
    name = document["areas"][0]["name"]
    document = json.loads(json.dumps(document).replace(json.dumps(name), json.dumps(LONG)))
    document["holds"] = [{"key": "drains", "wait_h": 24.0, "by": "Building control"}]
    document["done"] = [{"task": "dig.area1", "on": "2027-07-05", "done_percent": 50.0}]
    return make_plan(json.dumps(document))


def words_of(scenes):
    return [each for scene in scenes for each in scene.elements if isinstance(each, Words)]


def test_every_name_stands_there_whole_and_inside_the_sheet(drive):
    scenes = programme_bars(drive)
    shown = " ".join(each.text for each in words_of(scenes))
    for task in drive.programme.tasks:
        assert task.description in shown
    for machine in drive.programme.hires:
        assert drive.job.rates.plant[machine.key.number].name in shown
    for scene in scenes:
        x1, y1, x2, y2 = scene.bounds_mm
        assert x2 - x1 <= 186.0
        assert y2 - y1 <= 237.0
        for each in words_of([scene]):
            wide = width_of(each.text, each.height_mm, bold=each.bold)
            left = each.at[0] - (wide / 2.0 if each.anchor == "middle" else 0.0)
            assert x1 <= left
            assert left + wide <= x2 + 0.5
            assert y1 < each.at[1] < y2
            assert each.height_mm >= MIN_TYPE_MM
            # a name ends before the days begin
            if each.at[0] == 0.0:
                assert wide <= 66.0


def test_lines_of_names_stand_apart(drive):
    for scene in programme_bars(drive):
        names = sorted((each.at[1] for each in words_of([scene]) if each.at[0] == 0.0), reverse=True)
        assert all(one - other >= MIN_TYPE_MM for one, other in itertools.pairwise(names))


def test_what_is_critical_is_bold_and_black_and_what_is_not_is_neither(drive):
    scenes = programme_bars(drive)
    bold = " ".join(each.text for each in words_of(scenes) if each.bold)
    plain = " ".join(each.text for each in words_of(scenes) if not each.bold)
    critical = [task for task in drive.programme.tasks if task.critical]
    assert critical
    for task in drive.programme.tasks:
        assert task.description in (bold if task.critical else plain)
    black = [
        each for scene in scenes for each in scene.elements if isinstance(each, Region) and each.hatch is Hatch.BLACK
    ]
    # waits that are critical are dashed, not black
    assert len(black) == sum(task.hold or not task.wait for task in critical)
    assert "(50 % done)" in " ".join(each.text for each in words_of(scenes))


def test_bars_are_lines_and_words_and_no_colour(drive):
    for scene in programme_bars(drive):
        svg = to_svg(scene)
        assert "<image" not in svg
        colours = set(re.findall('"(#[0-9a-f]+)"', svg))
        assert colours <= {"#000", "#fff", "#d9d9d9"}


def test_a_long_programme_runs_on_to_further_sheets(drive):
    document = json.loads((ROOT / "examples" / "front_drive.json").read_text("utf-8"))
    document = copy.deepcopy(document)
    document["crew"]["hours_per_day"] = 0.5
    made = make_plan(json.dumps(document))
    scenes = programme_bars(made)
    assert sum(len({each.text for each in words_of([scene])}) for scene in scenes) > 0
    first = scenes[0]
    assert first.bounds_mm[2] - first.bounds_mm[0] <= 186.0
    dates = [each for each in words_of([first]) if each.at[1] > 4.0]
    ends = sorted((each.at[0], each.at[0] + width_of(each.text, each.height_mm, bold=True)) for each in dates)
    assert all(one[1] <= other[0] for one, other in itertools.pairwise(ends))
