"""Services beside pegs, and how far the tops of layers may be off."""

from __future__ import annotations

import pytest

from pavewright import rulebook
from pavewright.setting_out import HeightOf, layer_tolerances, pegs_of_layers, services_near

RULES = rulebook.load("england")


def test_a_peg_that_bears_no_pin_is_listed_with_the_same_distance(made_plan):
    setting = made_plan("l_terrace").setting_out
    near = {(each.peg, each.service): each for each in services_near(setting, RULES)}
    stopped = [peg for peg in setting.pegs if peg.no_pin is not None]
    assert stopped
    for peg in stopped:
        assert min(near[peg.number, name].away_mm for name in peg.no_pin.services) == pytest.approx(peg.no_pin.away_mm)
        assert all(near[peg.number, name].in_band for name in peg.no_pin.services)


def test_layers_are_read_at_pegs_inside_the_dig_and_not_at_pins_outside(made_plan):
    plan = made_plan("l_terrace")
    pegs = {peg.number: peg for peg in plan.setting_out.pegs}
    numbers = pegs_of_layers(plan.setting_out, "Terrace")
    assert numbers
    assert not {pegs[number].role.value for number in numbers} & {"base", "profile"}


def test_a_formation_may_not_be_high_and_what_has_no_figure_has_none():
    held = layer_tolerances(RULES)
    assert held[HeightOf.FORMATION].above.value == 0.0
    assert held[HeightOf.FORMATION].below.value == 25.0
    assert held[HeightOf.BASE].above.status.value == "M"
    assert HeightOf.BED not in held
