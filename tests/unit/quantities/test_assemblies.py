"""What drains, soakaways and steps take, worked out by hand."""

from __future__ import annotations

import copy
import json
import math
from pathlib import Path

import pytest

from pavewright import rulebook
from pavewright.cost import TaskKey, TaskKind
from pavewright.desk import make_plan
from pavewright.job import MaterialKind
from pavewright.papers import customer_words
from pavewright.pipeline import plan
from pavewright.quantities import GapReason, ItemKey, ItemKind, ScopeKey, ScopeKind, of_material

ROOT = Path(__file__).parents[3] / "examples"
DRIVE = json.loads((ROOT / "front_drive.json").read_text("utf-8"))
PATH = json.loads((ROOT / "curved_path.json").read_text("utf-8"))
SOAKAWAY = ScopeKey(ScopeKind.SOAKAWAY)


def net(made, material):
    return made.quantities.item(of_material(material)).net


def bought(made):
    return {item.key.material for item in made.quantities.items if item.key.material is not None}


@pytest.fixture(scope="module")
def drive():
    return make_plan(json.dumps(DRIVE))


def test_a_sized_soakaway_is_bought_dug_and_on_the_list_of_what_is_done(drive):
    # 1.5 × 1.0 × 1.2 m of stone less a pipe of 100 mm, 1.6 t/m³; membrane L(2W + 2d + 0.3) + 2Wd
    stone = 1.5 * 1.0 * 1.2 - 1.5 * math.pi * 0.05**2
    assert net(drive, MaterialKind.SOAKAWAY_STONE) == pytest.approx(stone * 1600.0)
    assert net(drive, MaterialKind.PERFORATED_PIPE) == pytest.approx(1.5)
    assert net(drive, MaterialKind.SILT_TRAP) == 1.0
    cloth = [item for item in drive.quantities.items if item.key == of_material(MaterialKind.GEOTEXTILE)][0]
    assert SOAKAWAY in cloth.scope
    assert any(working.result == pytest.approx(1.5 * (2.0 + 2.4 + 0.3) + 2.0 * 1.2) for working in cloth.workings)
    assert {TaskKind.PIT_DIG, TaskKind.PIT_FILL, TaskKind.SILT_TRAPS} <= {each.key.kind for each in drive.cost.labour}
    assert SOAKAWAY in {line.key for line in drive.cost.scope}


def test_what_a_soakaway_displaces_leaves_with_the_loads_of_the_dig(drive):
    pit = drive.quantities.pit_spoil
    assert pit.loose.low > 1.8
    alone = drive.earthworks.loads.likely
    line = next(each for each in drive.cost.lines if each.key == ItemKey(ItemKind.PIT_SPOIL))
    assert line.quantity == pit.loads.likely
    holds = drive.job.rates.disposal.volume_m3
    assert alone + line.quantity >= (drive.earthworks.loose_m3.likely + pit.loose.likely) / holds
    assert alone + line.quantity < (drive.earthworks.loose_m3.likely + pit.loose.likely) / holds + 2.0


def test_a_deep_hole_is_told_before_anybody_goes_in(drive):
    # 600 of cover over 1200
    (deep,) = [each for each in drive.findings if each.code == "quantities.deep_pit"]
    assert deep.value == pytest.approx(1800.0)


def test_a_soakaway_that_is_there_already_takes_nothing():
    document = copy.deepcopy(DRIVE)
    document["site"]["outfalls"][0]["state"] = "existing"
    made = make_plan(json.dumps(document))
    assert MaterialKind.SOAKAWAY_STONE not in bought(made)
    assert SOAKAWAY not in {line.key for line in made.cost.scope}


def test_a_pipe_of_unknown_length_is_a_gap_on_the_page_of_the_customer(rules):
    document = copy.deepcopy(DRIVE)
    del document["site"]["channels"][0]["pipe_mm"]
    made = make_plan(json.dumps(document))
    (gap,) = made.cost.gaps
    assert (gap.reason, gap.scope) == (GapReason.NOT_KNOWN, (ScopeKey(ScopeKind.CHANNEL),))
    assert MaterialKind.PIPE not in bought(made)
    words = customer_words(made, rules)
    assert any(said.startswith("Pipe from Road channel to Soakaway") for said in words.not_included)
    assert any("Road channel" in said and "without its pipe" in said for said in words.scope)
    assert any(each.code == "quantities.not_in_price" for each in made.findings)


def test_a_soakaway_without_a_size_is_a_gap_and_not_on_the_list_of_what_is_done(rules):
    document = copy.deepcopy(DRIVE)
    del document["site"]["outfalls"][0]["soakaway"]
    made = make_plan(json.dumps(document))
    (line,) = [line for line in made.cost.scope if line.key == SOAKAWAY]
    assert line.lines == ()
    assert line.gaps[0].reason is GapReason.NOT_KNOWN
    words = customer_words(made, rules)
    assert not any(said.startswith("Soakaway:") for said in words.scope)
    assert any(said.startswith("Soakaway:") for said in words.not_included)


@pytest.fixture
def rules():
    return rulebook.load("england")


def with_gully(small, **more):
    small.rectangle(4000.0, 3000.0)
    small.point("In", 2000.0, 2900.0)
    small.site["outfalls"] = [{"name": "Sewer", "kind": "surface_water_sewer", "confirmed": True}]
    small.site["gullies"] = [{"name": "Yard gully", "point": "In", "outfall": "Sewer", "pipe_mm": 6000.0, **more}]
    return plan(small.job(), small.rules)


def test_a_new_gully_is_a_pot_a_grating_and_a_pipe(small):
    made = with_gully(small, state="new")
    assert net(made, MaterialKind.GULLY) == net(made, MaterialKind.GRATING) == 1.0
    assert net(made, MaterialKind.PIPE) == pytest.approx(6.0)
    assert net(made, MaterialKind.PIPE_BEND) == 2.0
    # trench 300 wide, 100 under and over a pipe of 100
    assert net(made, MaterialKind.PIPE_GRAVEL) == pytest.approx(6.0 * (0.3 * 0.3 - math.pi * 0.05**2) * 1600.0)
    kinds = {each.key.kind for each in made.cost.labour}
    assert {TaskKind.GULLIES, TaskKind.GULLY_PIPES} <= kinds
    assert TaskKind.GRATINGS not in kinds


def test_an_old_gully_has_its_grating_reset_and_nothing_is_bought(small):
    made = with_gully(small, state="existing", grating_level_mm=950.0)
    assert bought(made).isdisjoint({MaterialKind.GULLY, MaterialKind.GRATING, MaterialKind.PIPE})
    (reset,) = [each for each in made.cost.labour if each.key == TaskKey(TaskKind.GRATINGS)]
    assert reset.person_hours == pytest.approx(1.5)


def test_steps_take_units_a_foundation_and_a_core_of_concrete(rules):
    made = make_plan(json.dumps(PATH))
    steps = made.levels.steps[0]
    width = math.dist(steps.start, steps.end) / 1000.0
    assert steps.risers == 2
    assert net(made, MaterialKind.STEP_UNIT) == pytest.approx(2.0 * width)
    concrete = made.quantities.item(ItemKey(ItemKind.STEP_CONCRETE)).net
    # 400 × 150 under the first riser, one tread of 330 standing on concrete a riser high, and below that the room of
    # blocks of 50 on 40 of sand, which are not laid under it
    (under,) = made.laying.area(steps.lower_area).under_steps
    core = width * 0.33 * steps.riser_mm / 1000.0
    assert concrete == pytest.approx(width * 0.06 + core + under.shape.area_m2 * 0.09)
    assert under.shape.area_m2 == pytest.approx(width * 0.33, rel=0.02)
    assert ScopeKey(ScopeKind.STEPS) in {line.key for line in made.cost.scope}
    document = copy.deepcopy(PATH)
    document["rates"]["materials"] = [each for each in PATH["rates"]["materials"] if each["key"] != "step_unit"]
    without = make_plan(json.dumps(document))
    assert any(said.startswith("Units of riser and tread: ") for said in customer_words(without, rules).not_included)
    assert without.cost.prime_minor < made.cost.prime_minor


def test_a_channel_of_which_nobody_said_whether_it_is_there_is_taken_as_new_and_that_is_said(drive):
    assert not any(each.code == "quantities.taken_as_new" for each in drive.findings)
    document = copy.deepcopy(DRIVE)
    del document["site"]["channels"][0]["state"]
    made = make_plan(json.dumps(document))
    assert made.cost.total_minor == drive.cost.total_minor
    assert any(each.code == "quantities.taken_as_new" for each in made.findings)
    document["site"]["channels"][0]["state"] = "existing"
    old = make_plan(json.dumps(document))
    assert bought(old).isdisjoint({MaterialKind.CHANNEL, MaterialKind.PIPE, MaterialKind.CHANNEL_END})
    assert ScopeKey(ScopeKind.CHANNEL) not in {line.key for line in old.cost.scope}
