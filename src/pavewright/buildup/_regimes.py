"""What published rules say of one area and its ground, each apart: the one that decides, and the others beside it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.buildup._base_rules import BaseCase, BasePart, RuledLayer, ruled_layers, rules_that_speak
from pavewright.buildup._figures import figures
from pavewright.buildup._layers import base_parts, bearing_ratio, own_parts
from pavewright.job import BaseRule

if TYPE_CHECKING:
    from pavewright.job import Ground
    from pavewright.rules import Rulebook


@dataclass(frozen=True, slots=True)
class Regime:
    """What one rule says.

    Attributes:
        rule: Which rule it is; None for permeable paving of which no plan is made.
        layers: Its layers from the top down; None where it says nothing of this use or this ground.
        decides: Whether the build-up goes by it.
    """

    rule: BaseRule | None
    layers: tuple[RuledLayer, ...] | None
    decides: bool


def regimes(rule: BaseRule, case: BaseCase, rules: Rulebook) -> tuple[Regime, ...]:
    """Return what published rules say of an area, the one that decides first; of permeable paving where it is chosen.

    Args:
        rule: The rule that is chosen for the area.
        case: What it goes by.
        rules: The rulebook.
    """
    known = figures(rules).layers
    said = {
        each: ruled_layers(each, case, known.published)
        for each in rules_that_speak(case)
        if rule is each or each is not BaseRule.PERMEABLE
    }
    deciding = rule if said.get(rule) is not None else BaseRule.OWN
    every = {BaseRule.OWN: own_parts(case, known), **said}
    found = [Regime(each, layers, decides=each is deciding) for each, layers in every.items()]
    return tuple(sorted(found, key=lambda each: not each.decides))


def rules_for_base(case: BaseCase, rules: Rulebook) -> dict[BaseRule, tuple[tuple[BasePart, float], ...]]:
    """Return every rule that gives a base, the rulebook's own first, with the thickness of each of its layers. [mm]."""
    known = figures(rules).layers
    speak = [each for each in rules_that_speak(case) if ruled_layers(each, case, known.published) is not None]
    return {
        rule: tuple((each.part, each.thickness_mm) for each in base_parts(rule, case, known))
        for rule in (BaseRule.OWN, *speak)
    }


def ground_bearing(ground: Ground, rules: Rulebook) -> float:
    """Return the bearing ratio of the ground, as measured or by its soil. [%]."""
    found = bearing_ratio(ground, figures(rules).layers)
    return found if isinstance(found, float) else found.value


def permeable_regime(rules: Rulebook) -> Regime:
    """Return what is said of permeable paving; it decides nothing here."""
    figure = rules.figure("buildup.permeable_sub_base_mm")
    return Regime(None, (RuledLayer(BasePart.SUB_BASE, figure.value, (figure,), BaseRule.OWN),), decides=False)
