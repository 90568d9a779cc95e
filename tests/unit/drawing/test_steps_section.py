"""A section through every flight of steps, with the levels of the plan and the concrete that is ordered."""

from __future__ import annotations

import io
from pathlib import Path

import ezdxf
import pytest
import shapely

from pavewright import rulebook
from pavewright.desk import DRAWINGS
from pavewright.drawing import laying_plan, step_sections, to_dxf
from pavewright.drawing._hatches import HATCHES
from pavewright.drawing._scene import Region, Words
from pavewright.papers import customer_words
from pavewright.papers._figures import paper_figures
from pavewright.papers._sheets_money import customer_sheets
from pavewright.papers._sheets_survey import levels_sheets
from pavewright.quantities import ItemKey, ItemKind

PATH = Path(__file__).parents[3] / "examples" / "curved_path.json"


@pytest.fixture(scope="module")
def path(made_plan):
    return made_plan("curved_path")


def words_of(scene):
    return [each.text for each in scene.elements if isinstance(each, Words)]


def test_every_level_and_riser_of_the_flight_is_written(path):
    (scene,), (steps,) = step_sections(path), path.levels.steps
    words = words_of(scene)
    middle = tuple((a + b) / 2.0 for a, b in zip(steps.start, steps.end, strict=True))
    top = path.levels.area(steps.upper_area).surface.level_at(middle)
    assert f"top nosing {top / 1000:.3f}" in words
    assert f"foot {(top - steps.risers * steps.riser_mm) / 1000:.3f}" in words
    assert words.count(f"{steps.riser_mm:.0f}") == steps.risers
    assert words.count(f"{steps.going_mm:.0f}") == steps.risers - 1
    lowest = [rise - (steps.risers - 1) * steps.riser_mm for rise in (steps.rise_start_mm, steps.rise_end_mm)]
    assert any(f"{lowest[0]:.0f} mm at its left end and {lowest[1]:.0f} mm" in each for each in words)


def test_the_foot_is_the_finished_level_below(path):
    steps = path.levels.steps[0]
    (scene,) = step_sections(path)
    out = (steps.risers - 1) * steps.going_mm
    block = next(each for each in scene.elements if isinstance(each, Region) and each.rings[0][0][0] == out)
    foot = float(next(each for each in words_of(scene) if each.startswith("foot ")).removeprefix("foot "))
    assert block.rings[0][0][1] == pytest.approx(1000.0 * foot, abs=1.0)


def test_the_concrete_drawn_is_the_concrete_ordered(path):
    (scene,), (parts,) = step_sections(path), path.quantities.flights
    item = path.quantities.item(ItemKey(ItemKind.STEP_CONCRETE))
    assert item.net == pytest.approx(parts.concrete_m3)
    drawn = [shapely.Polygon(each.rings[0]) for each in scene.elements if isinstance(each, Region)
             and each.layer == "concrete" and each.hatch == "concrete"]  # fmt: skip
    foundation = min(drawn, key=lambda each: abs(each.area - parts.foundation_wide_mm * parts.foundation_thick_mm))
    assert foundation.area / 1e6 * parts.width_m == pytest.approx(parts.foundation_m3)
    # the core is drawn from the treads down to the base that runs through: what of units and bed is not laid too
    (core,) = [each for each in drawn if each is not foundation]
    assert core.area / 1e6 * parts.width_m == pytest.approx(parts.core_m3 + parts.room_m3, rel=0.06)
    # and stands clear of what is laid in front of it
    steps = path.levels.steps[0]
    out = (steps.risers - 1) * steps.going_mm
    laid = [shapely.Polygon(each.rings[0]) for each in scene.elements if isinstance(each, Region)
            and each.layer == "layers" and each.rings[0][0][0] == out]  # fmt: skip
    assert len(laid) == 2 and all(each.buffer(-1.0).disjoint(foundation) for each in laid)


def test_it_is_in_the_job_pack_the_customer_pack_and_on_the_screen(path):
    rules = rulebook.load("england")
    figures, reported = paper_figures(rules), customer_words(path, rules)
    title = step_sections(path)[0].title
    assert title == "Section through Orchard steps"
    for sheets in (levels_sheets(path, figures), customer_sheets(path, reported)):
        assert title in [sheet.title for sheet in sheets]
    assert DRAWINGS["steps-1"].draw(path).title == title
    assert DRAWINGS["steps-2"].draw(path) is None


@pytest.mark.parametrize("for_customer", [False, True])
def test_gaps_filled_with_mortar_and_the_room_of_steps_are_on_the_laying_plan(path, for_customer):
    scene = laying_plan(path, for_customer=for_customer)
    drawn = {hatch: [each for each in scene.elements if isinstance(each, Region) and each.layer == "not-laid"
                     and each.hatch == hatch] for hatch in ("filled", "under")}  # fmt: skip
    areas = path.laying.areas
    fills, under = sum(len(laid.fills) for laid in areas), [each for laid in areas for each in laid.under_steps]
    assert fills and len(drawn["filled"]) == fills
    assert len(drawn["under"]) == len(under) == 1
    assert shapely.Polygon(drawn["under"][0].rings[0]).area == pytest.approx(under[0].shape.area_m2 * 1e6)
    words = words_of(scene)
    assert "gap filled with mortar" in words and "steps: no paving under them" in words
    assert under[0].steps in words
    # told apart from cut pieces in black and white
    assert len({str(HATCHES[hatch]) for hatch in ("filled", "under", "cut", "sliver")}) == 4


def test_they_are_on_layers_of_their_own_in_the_drawing_file(path):
    model = ezdxf.read(io.StringIO(to_dxf(path).decode())).modelspace()
    assert len(model.query('LWPOLYLINE[layer=="MORTAR_FILLS"]')) == sum(
        1 + len(fill.holes) for laid in path.laying.areas for fill in laid.fills
    )
    assert len(model.query('LWPOLYLINE[layer=="UNDER_STEPS"]')) == 1
