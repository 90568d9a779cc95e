"""Other build-ups of a job: each figure is that of the plan that the build-up makes, and what is not known has none."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from pavewright import rulebook
from pavewright.buildup import BasePart
from pavewright.desk import build_ups_told, make_plan_so_far
from pavewright.findings import Severity
from pavewright.job import BaseRule, Bedding, changed, to_text
from pavewright.pipeline import NoFactor, NotKnownKind, build_up_choice
from pavewright.quantities import ItemKind
from pavewright.rules import Status

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
RULES = rulebook.load("england")
FIGURES = ("build_up_mm", "dig_mm", "dig_m3", "fill_m3", "total_minor", "mass_t", "days", "carbon")


def document(name="front_drive"):
    return json.loads((EXAMPLES / f"{name}.json").read_text("utf-8"))


def made(entered):
    return make_plan_so_far(json.dumps(entered))


def choice(entered):
    return build_up_choice(made(entered), RULES)


@pytest.fixture(scope="module")
def drive():
    plan = made(document())
    return plan, build_up_choice(plan, RULES)


def own_figures(plan, area=0):
    """What a plan says of itself, item by item, without the room under test."""
    name = plan.job.areas[area].name
    brought = [
        item.kg
        for item in plan.quantities.items
        if item.key.bought and item.kg is not None and "spoil" not in item.key.kind.value
    ]
    return (
        plan.build_ups.area(name).total_mm,
        plan.earthworks.cut_m3,
        plan.cost.total_minor,
        plan.programme.site_days,
        pytest.approx(sum(brought) / 1000.0),
    )


def ruled(found, rule):
    """The build-up by a rule, refused or not."""
    return next(each for each in (*found.alternatives, *found.refused) if each.rule is rule)


def shown(alternative):
    figures = alternative.figures
    return figures.build_up_mm, figures.dig_m3, figures.total_minor, figures.days, figures.mass_t


@pytest.mark.parametrize("name", ["front_drive", "mixed_patio", "gully_yard"])
def test_the_build_up_that_the_job_has_shows_the_figures_of_its_plan(made_plan, name):
    plan = made_plan(name)
    for each in build_up_choice(plan, RULES).alternatives:
        if each.chosen:
            assert shown(each) == own_figures(plan, each.number)
            assert each.changes == ()


def test_with_the_book_of_the_firm_the_figures_are_those_of_the_plan_with_it():
    entered = document()
    entered["rates"] = {}
    plan = make_plan_so_far(json.dumps(entered), None, (EXAMPLES / "firm" / "book.json").read_text("utf-8"))
    without = make_plan_so_far(json.dumps(entered))
    chosen = build_up_choice(plan, RULES).alternatives[0]
    assert shown(chosen) == own_figures(plan)
    assert chosen.figures.total_minor != (without.cost.total_minor if without.cost else None)


def test_choosing_one_and_planning_again_gives_the_figures_that_were_shown(drive):
    plan, found = drive
    others = [each for each in (*found.alternatives, *found.refused) if each.changes]
    assert len(others) >= 7
    for each in others:
        again = make_plan_so_far(to_text(changed(plan.job, each.changes)))
        assert shown(each) == own_figures(again), (each.bedding, each.rule)
    for each in (others[0], others[-1]):
        again = make_plan_so_far(to_text(changed(plan.job, each.changes)))
        (now,) = (other for other in build_up_choice(again, RULES).alternatives if other.chosen)
        assert (now.bedding, now.rule) == (each.bedding, each.rule)
        assert [getattr(now.figures, name) for name in FIGURES] == [getattr(each.figures, name) for name in FIGURES]


def test_each_base_is_planned_once_and_the_deciding_rule_is_named(drive):
    _, found = drive
    keys = [(each.bedding, each.rule) for each in (*found.alternatives, *found.refused)]
    assert len(keys) == len(set(keys))
    # 250 mm where it freezes and thaws is what the rulebook's own rule takes on this clay: the same base is no other
    assert (Bedding.SAND_ON_SUB_BASE, BaseRule.BLOCKS_FROST) not in keys
    for each in found.alternatives:
        if each.bedding is not None:
            deciding = [regime.rule for regime in each.regimes if regime.decides]
            assert deciding == [each.rule] == [each.regimes[0].rule]


def test_capping_is_dug_bought_and_laid(drive):
    plan, found = drive
    capped = ruled(found, BaseRule.SHARED_SURFACE)
    assert capped.figures.build_up_mm == 80.0 + 40.0 + 250.0 + 250.0
    own = next(each for each in found.alternatives if each.chosen)
    assert capped.figures.dig_m3 > own.figures.dig_m3
    assert capped.figures.mass_t > own.figures.mass_t
    again = make_plan_so_far(to_text(changed(plan.job, capped.changes)))
    bought = [item for item in again.quantities.items if item.key.text == "material.capping"]
    area = plan.build_ups.areas[0].base_shape.area_m2
    assert bought[0].net == pytest.approx(area * 0.25 * 2000.0)
    # nobody entered a price of capping: the price is a lower end that is not set against the other
    assert [gap.item.text for gap in capped.in_one_price_only] == ["material.capping"]


def test_a_price_that_lacks_what_the_other_has_is_not_compared_until_it_is_entered():
    entered = document()
    entered["rates"]["materials"].append(
        {"key": "capping", "name": "Capping", "pack_amount": 1000.0, "pack_unit": "kg", "pack_price_minor": 3000}
    )
    told = build_ups_told(made(entered))
    capped = next(each for each in told["refused"] if each["base_rule"] == "shared_surface")
    assert capped["price_comparable"]
    assert capped["in_one_price_only"] == []
    without = build_ups_told(made(document()))
    capped = next(each for each in without["refused"] if each["base_rule"] == "shared_surface")
    assert not capped["price_comparable"]
    assert capped["at_least"]


def test_mortar_over_loose_stone_under_wheels_is_refused_with_its_stop(drive):
    _, found = drive
    (refused,) = (each for each in found.refused if each.bedding is Bedding.MORTAR_ON_SUB_BASE)
    assert "buildup.rigid_on_unbound" in [each.code for each in refused.findings if each.severity is Severity.STOP]


def test_a_deeper_dig_that_meets_a_pipe_is_refused_though_the_pipe_was_a_check_before(drive):
    plan, found = drive
    code = "earthworks.service_in_dig"
    assert [each.severity for each in plan.findings if each.code == code] == [Severity.CHECK]
    deep = ruled(found, BaseRule.SHARED_SURFACE)
    assert deep in found.refused
    assert [each.severity for each in deep.findings if each.code == code] == [Severity.STOP]


def test_a_stop_of_the_ground_stays_with_every_build_up():
    entered = document()
    entered["site"]["ground"] |= {"cbr_percent": 1.5}
    found = choice(entered)
    for each in found.alternatives:
        if each.bedding is not None:
            stops = each.findings if each.chosen else each.stays
            assert "buildup.ground_too_weak" in [stop.code for stop in stops]
    one = ruled(found, BaseRule.MILLION_AXLES)
    assert [(layer.part, layer.thickness_mm) for layer in one.regimes[0].layers] == [(BasePart.SUB_BASE, 590.0)]
    assert found.ground.measured


def test_a_stop_that_a_build_up_ends_is_named():
    entered = document()
    entered["areas"][0]["laying"]["bedding"] = "mortar_on_sub_base"
    found = choice(entered)
    sand = next(each for each in found.alternatives if each.bedding is Bedding.SAND_ON_SUB_BASE)
    assert "buildup.rigid_on_unbound" in [each.code for each in sand.ends]


def test_a_design_of_the_ground_ends_its_stop_and_what_is_not_designed_brings_it_back():
    entered = document()
    entered["site"]["ground"] |= {"cbr_percent": 1.5}
    entered["areas"][0]["base_design"] = {"by": "An engineer", "sub_base_mm": 200.0, "capping_mm": 600.0}
    designed = ruled(choice(entered), BaseRule.DESIGNED)
    assert "buildup.ground_too_weak" in [stop.code for stop in designed.ends]
    entered["areas"][0]["base_rule"] = "designed"
    found = choice(entered)
    assert {each.rule for each in found.alternatives if each.bedding is not None} == {BaseRule.DESIGNED}
    for each in found.refused:
        # a design is for the bed that it was made for: on another bed the ground has none
        assert each.rule is not BaseRule.DESIGNED
        stops = [stop.code for stop in each.findings if stop.severity is Severity.STOP]
        assert "buildup.ground_too_weak" in stops
    told = build_ups_told(made(entered))["alternatives"][0]
    assert told["rule"] == (
        "Sub-base 200 mm: entered in this job, not checked here. Capping 600 mm: entered in this job, not checked here."
    )


def test_permeable_paving_has_no_figure_and_asks(drive):
    _, found = drive
    (permeable,) = (each for each in found.alternatives if each.bedding is None)
    assert {getattr(permeable.figures, name) for name in FIGURES} == {None}
    assert permeable.changes == ()
    kinds = {each.kind for each in permeable.not_known}
    assert {NotKnownKind.SEALED_GROUND, NotKnownKind.INFILTRATION, NotKnownKind.PERMEABLE_UNIT} <= kinds
    assert {NotKnownKind.WEAK_GROUND, NotKnownKind.CLAY, NotKnownKind.HOUSE_NEAR} <= kinds
    # the rain of the place is given and the drive has one fall: the storage could be calculated
    assert NotKnownKind.STORAGE not in kinds
    (regime,) = permeable.regimes
    assert not regime.decides
    assert regime.layers[0].decided_by[0].status is Status.MEMORY


def permeable_of(soil="gravel", change=lambda _: None, **known):
    """What is said of permeable paving on the drive: kept or refused, and the alternative."""
    entered = document()
    entered["site"]["ground"]["soil"] = soil
    entered["areas"][0]["permeable"] = {"infiltration_m_per_s": 2e-5, "sealed_m2": 0.0, "lets_through": True} | known
    change(entered)
    plan = made(entered)
    found = build_up_choice(plan, RULES)
    here = [(each, number) for number, some in enumerate((found.alternatives, found.refused)) for each in some]
    ((permeable, refused),) = (pair for pair in here if pair[0].bedding is None or pair[0].rule is BaseRule.PERMEABLE)
    return plan, permeable, bool(refused)


def test_permeable_paving_of_which_enough_is_known_is_planned_and_compared_like_the_others():
    plan, permeable, refused = permeable_of()
    assert not refused
    # 300 mm on ground that bears, from memory, under 50 mm of grit and the block: the storm asks for less
    assert permeable.figures.build_up_mm == 80.0 + 50.0 + 300.0
    assert None not in {getattr(permeable.figures, name) for name in FIGURES}
    again = make_plan_so_far(to_text(changed(plan.job, permeable.changes)))
    assert shown(permeable) == own_figures(again)
    # nobody entered a price of the stone and of the grit
    assert {gap.item.text for gap in permeable.in_one_price_only} == {"material.open_stone", "material.grit"}
    said = {each.code: each.severity for each in permeable.findings}
    assert said["water.permeable_house"] is Severity.CHECK
    assert said["buildup.permeable_from_memory"] is Severity.CHECK
    (now,) = (each for each in build_up_choice(again, RULES).alternatives if each.chosen)
    assert [getattr(now.figures, name) for name in FIGURES] == [getattr(permeable.figures, name) for name in FIGURES]


def test_the_storm_asks_for_thicker_stone_where_the_ground_is_slow():
    def no_pipe(entered):
        entered["site"]["services"] = []

    plan, permeable, refused = permeable_of(change=no_pipe, infiltration_m_per_s=1.5e-6, sealed_m2=60.0)
    assert not refused
    (stone,) = (each.value for each in permeable.changes if each.path == "areas.0.permeable.stone_mm")
    assert stone > 300.0
    assert permeable.figures.build_up_mm == 80.0 + 50.0 + stone
    entered = json.loads(to_text(changed(plan.job, permeable.changes)))
    entered["areas"][0]["permeable"]["stone_mm"] = stone - 10.0
    assert "water.permeable_too_shallow" in {each.code for each in made(entered).findings}


@pytest.mark.parametrize(
    ("known", "code"),
    [
        ({"soil": "silty_clay"}, "water.permeable_clay"),
        ({"sealed_m2": 200.0}, "water.permeable_sealed"),
        ({"infiltration_m_per_s": 5e-7}, "water.permeable_tight"),
        ({"lets_through": False}, "water.permeable_units"),
    ],
)
def test_permeable_paving_is_refused_with_its_reason(known, code):
    _, permeable, refused = permeable_of(**known)
    assert refused
    assert code in {each.code for each in permeable.findings if each.severity is Severity.STOP}


@pytest.mark.parametrize(
    ("known", "kind"),
    [
        ({"infiltration_m_per_s": None}, NotKnownKind.INFILTRATION),
        ({"sealed_m2": None}, NotKnownKind.SEALED_GROUND),
        ({"change": lambda entered: entered["site"].update(rain=None)}, NotKnownKind.STORAGE),
        ({"change": lambda entered: entered["site"]["ground"].update(cbr_percent=0.8)}, NotKnownKind.WEAK_GROUND),
    ],
)
def test_permeable_paving_of_which_too_little_is_known_is_not_planned(known, kind):
    _, permeable, refused = permeable_of(**known)
    assert not refused
    assert permeable.bedding is None
    assert {getattr(permeable.figures, name) for name in FIGURES} == {None}
    assert kind in {each.kind for each in permeable.not_known}


def test_no_rule_that_can_be_chosen_stands_on_memory(drive):
    _, found = drive
    for each in found.alternatives:
        for regime in each.regimes:
            if regime.rule is not None:
                figures = [figure for layer in regime.layers or () for figure in layer.decided_by]
                assert Status.MEMORY not in {figure.status for figure in figures}


def test_unknown_soil_is_no_number_without_its_word():
    entered = document()
    entered["site"]["ground"] = {"soil": "unknown", "topsoil_mm": 100.0}
    found = choice(entered)
    if found.alternatives:
        for each in found.alternatives:
            assert NotKnownKind.SOIL_UNKNOWN in {said.kind for said in each.not_known}
    else:
        assert found.missing
        assert found.ground is None


def test_without_prices_and_people_the_figures_are_not_known_and_say_so():
    entered = document()
    entered["rates"], entered["crew"] = {}, {}
    entered["units"] = [{**unit, "pack_price_minor": None} for unit in entered["units"]]
    found = choice(entered)
    chosen = found.alternatives[0]
    assert chosen.figures.dig_m3 is not None
    assert chosen.figures.total_minor is None
    assert NotKnownKind.PRICE in {said.kind for said in chosen.not_known}
    told = build_ups_told(made(entered))["alternatives"][0]
    assert told["total_minor"] is None
    assert not told["price_comparable"]


def test_a_job_without_heights_compares_nothing_and_says_what_to_measure():
    entered = document()
    entered["site"]["ground"] = {}
    told = build_ups_told(made(entered))
    assert told["alternatives"] == []
    assert told["why_not"]


def test_where_nobody_levelled_the_ground_the_dig_is_not_known_and_no_price_is_compared():
    entered = document()
    del entered["measurements"]["ground_points"]
    found = choice(entered)
    planned = [each for each in found.alternatives if each.bedding is not None]
    assert len(planned) > 1
    for each in planned:
        assert (each.figures.dig_mm, each.figures.dig_m3, each.figures.fill_m3) == (None, None, None)
        assert NotKnownKind.DIG in {said.kind for said in each.not_known}
        assert each.figures.total_minor is not None
        assert not each.price_comparable


def test_a_carry_of_unknown_length_keeps_prices_of_different_masses_apart():
    entered = document()
    del entered["site"]["carry_mm"]
    found = choice(entered)
    blocks = next(each for each in found.alternatives if each.rule is BaseRule.BLOCKS)
    carried = [gap for gap in blocks.gaps if gap.item is None and "Carrying" in gap.words]
    assert carried
    assert set(carried) <= set(blocks.in_one_price_only)
    assert not blocks.price_comparable


def test_fill_is_not_set_off_against_the_depth_of_the_dig():
    entered = json.loads((Path(__file__).parent / "jobs" / "terrace_over_lawn.json").read_text("utf-8"))
    plan = made(entered)
    dug = plan.earthworks.areas[0]
    assert dug.volumes.fill_m3 > 0.0
    chosen = build_up_choice(plan, RULES).alternatives[0]
    assert chosen.figures.dig_mm == pytest.approx(1000.0 * dug.volumes.cut_m3 / dug.dig_m2)
    assert chosen.figures.dig_mm > dug.mean_depth_mm
    assert chosen.figures.fill_m3 == plan.earthworks.fill_m3


def test_zones_lie_on_the_bed_of_their_area_in_an_alternative_too(made_plan):
    found = build_up_choice(made_plan("circle_court"), RULES)
    moved = [each for each in (*found.alternatives, *found.refused) if each.changes]
    assert moved
    for each in moved:
        if "areas.0.laying.bedding" in {change.path for change in each.changes}:
            assert "areas.0.zones.0.laying.bedding" in {change.path for change in each.changes}
        assert each.faults == ()


def test_from_sand_to_mortar_the_joints_are_asked_for(drive):
    _, found = drive
    for each in found.alternatives:
        if each.bedding is not None:
            asks = NotKnownKind.JOINTS in {said.kind for said in each.not_known}
            assert asks is (each.bedding is not Bedding.SAND_ON_SUB_BASE)


def test_the_search_can_be_stopped_and_says_where_it_is():
    plan, said = made(document()), []

    def stop_at_the_third(words):
        said.append(words)
        if len(said) == 3:
            raise InterruptedError

    with pytest.raises(InterruptedError):
        build_up_choice(plan, RULES, stop_at_the_third)
    assert said[0].startswith("another build-up of Drive, 1 of ")


def test_carbon_is_a_range_of_what_has_a_factor_and_names_the_rest(drive):
    plan, found = drive
    carbon = found.alternatives[0].figures.carbon
    bought = {item.key for item in plan.quantities.items if item.key.bought}
    assert {line.key for line in carbon.lines} | {gap.key for gap in carbon.gaps} <= bought
    assert not {line.key for line in carbon.lines} & {gap.key for gap in carbon.gaps}
    for line in carbon.lines:
        assert 0.0 < line.carbon.low <= line.carbon.likely <= line.carbon.high
        assert line.carbon.likely == pytest.approx(line.amount * line.factor.value)
    units = [gap for gap in carbon.gaps if gap.key.kind is ItemKind.UNITS]
    assert [gap.reason for gap in units] == [NoFactor.MADE_OF]
    assert carbon.total.likely == pytest.approx(sum(line.carbon.likely for line in carbon.lines))
