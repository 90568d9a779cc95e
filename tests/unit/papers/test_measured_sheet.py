"""The sheet of photos that measure and of levels that are turned, from the marks in the job to what is printed."""

from __future__ import annotations

import json

import numpy as np
import pytest
from tests.unit.photo_survey.made_up import Camera

from pavewright import rulebook
from pavewright.desk import demo_document, make_plan
from pavewright.job import parse
from pavewright.papers import PaperInput, written_where
from pavewright.papers.look import as_data
from pavewright.papers.site_papers._measured import measured_sheets
from pavewright.papers.site_papers._measured_words import WORDS
from pavewright.photo_survey import WEAK_WORDS, Weak, read_photos
from pavewright.survey import survey

RULES = rulebook.load("england")
NEAR = {"A": (4000.0, 400.0), "B": (7600.0, 500.0), "C": (7500.0, 3000.0), "D": (3900.0, 3100.0), "E": (5600.0, 2100.0)}
THING = (6100.0, 1500.0)


def document():
    """The demo with a photo of five places of the ground, and a slope."""
    rng = np.random.default_rng(1)
    camera = Camera(rng, pitch_deg=35.0, height_mm=1800.0, focal=1.2)
    middle = np.array([5800.0, 1700.0])
    ahead = camera.axes[2][:2] / np.linalg.norm(camera.axes[2][:2])
    camera.stood = np.array([*(middle - 3800.0 * ahead), 1800.0])
    seen = camera.seen(np.array([(*at, 0.0) for at in (*NEAR.values(), THING)]))
    made = json.loads(demo_document())
    made["photo_planes"] = [
        {
            "name": "Photo 1",
            "width_px": 1600.0,
            "height_px": 1200.0,
            "marks": [
                {"name": name, "seen_x_px": float(x), "seen_y_px": float(y), "x_mm": at[0], "y_mm": at[1]}
                for (name, at), (x, y) in zip(NEAR.items(), seen[:-1], strict=True)
            ],
            "things": [
                {"name": "Tap", "seen_x_px": float(seen[-1][0]), "seen_y_px": float(seen[-1][1])},
                {"name": "Cloud", "seen_x_px": 800.0, "seen_y_px": -4000.0},
            ],
        }
    ]
    made["phone_slopes"] = [
        {"name": "Path", "pairs": [{"first_deg": 1.3, "turned_deg": -1.1}]},
        {"name": "Step", "tool": "bubble", "pairs": [{"first_deg": 0.2, "turned_deg": -0.2}] * 3},
    ]
    return made


@pytest.fixture(scope="module")
def plan():
    return make_plan(json.dumps(document()))


def test_the_sheet_shows_places_slopes_and_what_is_unknown(plan):
    with written_where(plan):
        (sheet,) = measured_sheets(PaperInput(plan, RULES))
        blocks = [as_data(block) for block in sheet.blocks]
    places, slopes, blank = (block["rows"] for block in blocks if block["kind"] == "table")
    assert places[0][:3] == ["Tap", "6.10", "1.50"]
    assert 10 < int(places[0][3]) < 120
    assert places[1][1] == WORDS.no_place
    assert WEAK_WORDS[Weak.FAR_BEYOND] in places[1][4]
    assert slopes[0][:4] == ["Path", WORDS.one_pair, "20.9", "1.7"]
    assert slopes[1][1] == "3"
    assert not any(cell for row in blank for cell in row)


def test_points_of_the_job_are_the_known_places_and_one_without_a_place_is_left_out():
    made = document()
    marks = made["photo_planes"][0]["marks"]
    for mark in marks[:2]:
        del mark["x_mm"], mark["y_mm"]
    marks[0]["point"], marks[1]["point"] = "Not measured", "B"
    job = parse(made)
    found = read_photos(job, survey(job, RULES), RULES)
    assert found.not_placed == (("Photo 1", "A"),)
    assert [mark.name for mark in found.photos[0].marks] == ["B", "C", "D", "E"]


def test_a_wall_takes_no_place_from_a_point_of_the_plan():
    made = document()
    made["photo_planes"][0] |= {"kind": "wall"}
    del made["photo_planes"][0]["marks"][1]["x_mm"], made["photo_planes"][0]["marks"][1]["y_mm"]
    made["photo_planes"][0]["marks"][1]["point"] = "B"
    job = parse(made)
    assert read_photos(job, survey(job, RULES), RULES).not_placed == (("Photo 1", "B"),)
