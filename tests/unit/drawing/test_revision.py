"""What changed since another revision stands in numbered clouds and in a list under the plan."""

from __future__ import annotations

import copy
import json
from pathlib import Path

import pytest

from pavewright import rulebook
from pavewright.drawing import DRAWINGS, changes_between, revision_plan, variations_plan
from pavewright.drawing._changes import ChangeHow, ChangeOf
from pavewright.drawing._faults import sheet_faults
from pavewright.drawing._scene import Path as Line
from pavewright.drawing._scene import Symbol, Words
from pavewright.job import parse
from pavewright.pipeline import plan

ROOT = Path(__file__).parents[3]
DOCUMENT = json.loads((ROOT / "examples" / "l_terrace.json").read_text("utf-8"))


def made(document):
    return plan(parse(document), rulebook.load("england"))


@pytest.fixture(scope="module")
def before(made_plan):
    return made_plan("l_terrace")


@pytest.fixture(scope="module")
def after():
    document = copy.deepcopy(DOCUMENT)
    document["identity"]["revision"] = 2
    for wall in document["site"]["walls"]:
        wall["dpc_level_mm"] -= 20.0
    document["site"]["channels"][0]["invert_level_mm"] = 9650.0
    document["site"]["services"][0]["depth_mm"] = 700.0
    document["site"]["covers"][0]["name"] = "Chamber 2"
    document.pop("handed_over", None)
    return made(document)


def test_a_plan_and_itself_differ_in_nothing(before):
    assert changes_between(before, before) == ()
    assert revision_plan(before, before) is None


def test_every_change_is_found_with_its_figures(before, after):
    found = {(each.of, each.name): each for each in changes_between(before, after)}
    assert set(found) == {
        (ChangeOf.LEVELS, "Terrace"),
        (ChangeOf.WALL, "House rear"),
        (ChangeOf.WALL, "Extension"),
        (ChangeOf.CHANNEL, "Fence channel"),
        (ChangeOf.SERVICE, "Foul drain"),
        (ChangeOf.COVER, "IC1"),
        (ChangeOf.COVER, "Chamber 2"),
    }
    levels = found[ChangeOf.LEVELS, "Terrace"]
    assert levels.after_mm - levels.before_mm == pytest.approx(-20.0, abs=0.1)
    channel = found[ChangeOf.CHANNEL, "Fence channel"]
    assert (channel.before_mm, channel.after_mm) == (9700.0, 9650.0)
    assert found[ChangeOf.COVER, "IC1"].kind is ChangeHow.GONE
    assert found[ChangeOf.COVER, "Chamber 2"].kind is ChangeHow.NEW


def test_a_corner_that_moved_has_a_cloud_where_it_moved(small):
    small.rectangle(4000.0, 3000.0)
    first = made(small.document)
    moved = copy.deepcopy(small.document)
    next(each for each in moved["measurements"]["points"] if each["name"] == "P2")["x_mm"] = 4500.0
    outline = [each for each in changes_between(first, made(moved)) if each.of is ChangeOf.OUTLINE]
    # the strip between x 4000 and 4500 and nothing else
    (change,) = outline
    assert change.box == pytest.approx((4000.0, 0.0, 4500.0, 3000.0))


@pytest.mark.parametrize("frame", [(396.0, 244.0), (270.0, 150.0)])
def test_every_change_has_a_cloud_a_number_and_a_line_and_the_sheet_has_no_faults(before, after, frame):
    scene = revision_plan(before, after, frame)
    changes = changes_between(before, after)
    clouds = [each for each in scene.elements if isinstance(each, Line) and each.layer == "clouds"]
    marks = [each for each in scene.elements if isinstance(each, Symbol) and each.layer == "clouds"]
    assert len(clouds) == len(marks) == len(changes)
    for cloud, change in zip(clouds, changes, strict=True):
        assert cloud.closed and all(rise > 0.0 for rise in cloud.rises_mm)
        xs, ys = zip(*cloud.points, strict=True)
        middle = (change.box[0] + change.box[2]) / 2.0, (change.box[1] + change.box[3]) / 2.0
        assert min(xs) <= middle[0] <= max(xs) and min(ys) <= middle[1] <= max(ys)
    words = " ".join(each.text for each in scene.elements if isinstance(each, Words))
    assert scene.title == "Changes since revision 1"
    assert "Fence channel: channel changed, 9.700 to 9.650." in words
    assert "Foul drain: buried service changed, 850 to 700." in words
    assert "Buried services" in words
    assert sheet_faults(scene) == ()
    wide, high = scene.paper_mm
    assert (wide <= frame[0] and high <= frame[1]) or (wide <= frame[1] + 28.0 and high <= frame[0] - 30.0)


def test_variations_have_clouds_with_their_numbers_and_refused_ones_none(small):
    small.rectangle(4000.0, 3000.0)
    corners = [{"x_mm": x, "y_mm": y, "finished_mm": 1000.0} for x, y in ((0, 0), (4000, 0), (4000, 3000), (0, 3000))]
    wider = [corners[0], {**corners[1], "x_mm": 4600.0}, {**corners[2], "x_mm": 4600.0}, corners[3]]

    def variation(number, state):
        return {
            "number": number,
            "name": "Wider",
            "cause": "asked",
            "on": "2027-06-01",
            "state": state,
            "before": [{"name": "Patio", "corners": corners}],
            "after": [{"name": "Patio", "corners": wider}],
        }

    assert variations_plan(made(small.document)) is None
    small.document["variations"] = [variation(1, "proposed"), variation(2, "refused")]
    (register,) = [each for each in DRAWINGS if each.key == "revision"]
    scene = register.draw(made(small.document))
    words = " ".join(each.text for each in scene.elements if isinstance(each, Words))
    assert "Patio: outline moved; variation 1, not approved." in words
    assert "variation 2" not in words
    assert sheet_faults(scene) == ()
