"""No sheet of any example has words on words, a leader over words or over another, words past its edge, or small type."""

from __future__ import annotations

import dataclasses

import pytest

from pavewright.drawing import (
    DRAWINGS,
    as_laid_plan,
    dig_plan,
    edge_details,
    laying_parts,
    laying_plan,
    levels_plan,
    setting_out_plan,
    site_plan,
    step_sections,
    water_plan,
)
from pavewright.drawing._faults import FaultKind, sheet_faults
from pavewright.drawing._scene import HAIR, Path, Scene, Words
from pavewright.drawing._sheet import A3_FRAME, Sheet

EXAMPLES = ("l_terrace", "curved_path", "front_drive", "gully_yard", "mixed_patio", "circle_court")
PLANS = (site_plan, levels_plan, laying_plan, dig_plan, water_plan, setting_out_plan, as_laid_plan)
FRAMES = (A3_FRAME, (270.0, 150.0))


def scenes_of(plan):
    for builder in PLANS:
        for frame in FRAMES:
            yield builder(plan, frame)
    for each in DRAWINGS:
        yield from each.scenes(plan)
    yield from step_sections(plan)
    yield from edge_details(plan)
    yield from (part.scene for part in laying_parts(plan))


@pytest.mark.parametrize("name", EXAMPLES)
def test_words_and_leaders_of_every_sheet_are_clear_of_each_other(made_plan, name):
    found = {
        (scene.name, scene.scale): sheet_faults(scene) for scene in scenes_of(made_plan(name)) if scene is not None
    }
    assert {sheet: faults for sheet, faults in found.items() if faults} == {}


def scene_of(*elements):
    return Scene("s", "S", elements, (0.0, 0.0, 100.0, 100.0), 1, "")


@pytest.mark.parametrize(
    ("elements", "kind"),
    [
        ((Words((50.0, 50.0), "10.150", 3.0), Words((52.0, 51.0), "9.820", 3.0)), FaultKind.WORDS_ON_WORDS),
        (
            (Words((50.0, 50.0), "10.150", 3.0), Path(((50.0, 40.0), (50.0, 60.0)), HAIR, leads=True)),
            FaultKind.LEADER_ON_WORDS,
        ),
        (
            (
                Path(((10.0, 10.0), (20.0, 20.0)), HAIR, leads=True),
                Path(((10.0, 20.0), (20.0, 10.0)), HAIR, leads=True),
            ),
            FaultKind.LEADER_ON_LEADER,
        ),
        ((Words((99.0, 50.0), "10.150", 3.0),), FaultKind.OFF_SHEET),
    ],
)
def test_each_kind_of_fault_is_found(elements, kind):
    assert [fault.kind for fault in sheet_faults(scene_of(*elements))] == [kind]


def test_a_line_that_is_no_leader_may_run_under_words():
    line = Path(((50.0, 40.0), (50.0, 60.0)), HAIR)
    assert sheet_faults(scene_of(Words((50.0, 50.0), "10.150", 3.0), line)) == ()


def test_leaders_of_close_pegs_do_not_cross():
    """Twelve pegs a few millimetres of paper apart: labels that have no room are left out, the rest stays clear."""
    sheet = Sheet([(0.0, 0.0), (6000.0, 6000.0)])
    places = [(2000.0 + 140.0 * (k % 3), 2000.0 + 300.0 * (k // 3)) for k in range(12)]
    for at in places:
        sheet.keep_clear(at, 1.6)
    for number, at in enumerate(places):
        sheet.on("pegs").label(at, f"peg {number} at 10.15{number}", 2.9)
    scene = sheet.scene("s", "S", "", None)
    assert sum(path.leads for path in scene.elements if isinstance(path, Path)) >= 3
    assert sheet_faults(scene) == ()


@pytest.mark.parametrize("bearing", [0.0, 45.0, 90.0, 135.0, 180.0, 198.0, 270.0, 341.0])
def test_north_stays_clear_of_the_notes_whichever_way_it_points(bearing):
    sheet = Sheet([(0.0, 0.0), (2000.0, 2000.0)])
    sheet.notes.append("A note that is long enough to run the whole width of the narrowest sheet that there is, twice.")
    assert sheet_faults(sheet.scene("s", "S", "", bearing)) == ()


def test_north_that_nobody_took_is_not_drawn(made_plan):
    plan = made_plan("mixed_patio")
    site = dataclasses.replace(plan.survey.site, north_bearing_deg=None)
    scene = levels_plan(dataclasses.replace(plan, survey=dataclasses.replace(plan.survey, site=site)))
    words = [each.text for each in scene.elements if isinstance(each, Words)]
    assert "N" not in words and "not taken" in words
    assert sheet_faults(scene) == ()


@pytest.mark.parametrize("name", EXAMPLES)
def test_plans_fit_a_sheet_of_a3_with_their_title(made_plan, name):
    """The sheet lies or stands; head, title and foot are taken off."""
    made = made_plan(name)
    for each in DRAWINGS:
        scene = each.draw(made) if each.on_a3 else None
        if scene is not None:
            wide, high = scene.paper_mm
            assert (wide <= 396.0 and high <= 244.0) or (wide <= 273.0 and high <= 360.0), each.key
