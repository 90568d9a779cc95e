"""What build-ups, rules and factors are called."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.buildup import BasePart
from pavewright.job import BaseRule, Bedding, Soil, WaterTable
from pavewright.pipeline._carbon import NoFactor

if TYPE_CHECKING:
    from pavewright.pipeline._build_up_types import Alternative, GroundTaken
    from pavewright.pipeline._carbon import CarbonLine

_BUILT = {
    Bedding.MORTAR_ON_CONCRETE: "bound: mortar bed on a concrete base",
    Bedding.MORTAR_ON_SUB_BASE: "mortar bed on a sub-base",
    Bedding.SAND_ON_SUB_BASE: "unbound: laying course of sand on a sub-base",
}
_RULES = {
    BaseRule.OWN: "the rulebook's own",
    BaseRule.BLOCKS: "base under blocks by use",
    BaseRule.BLOCKS_FROST: "base under blocks where it freezes and thaws",
    BaseRule.SLABS: "sub-base under slabs that are walked on",
    BaseRule.SHARED_SURFACE: "residential road with a shared surface, an upper end for a drive",
    BaseRule.ROAD_1984: "road of 1984, sub-base alone, an upper end for a drive",
    BaseRule.ROAD_1984_CAPPED: "road of 1984, sub-base on capping, an upper end for a drive",
    BaseRule.MILLION_AXLES: "road for a million standard axles, an upper end for a drive",
    BaseRule.CONCRETE_DRIVE: "plain concrete of a drive",
    BaseRule.DESIGNED: "as designed for this ground",
    BaseRule.PERMEABLE: "permeable paving of blocks",
}
_PERMEABLE = "permeable: grit on open stone"
_PARTS = {BasePart.CONCRETE: "concrete", BasePart.SUB_BASE: "sub-base", BasePart.CAPPING: "capping"}
_NO_FACTOR = {
    NoFactor.NO_SOURCE: "no factor was found for it",
    NoFactor.NO_MASS: "its mass is not known",
    NoFactor.MADE_OF: "its maker has the figure: it hangs on what the unit is made of",
}


def build_up_name(alternative: Alternative) -> str:
    """Name an alternative by its area, how its units are carried, and whose rule gives the base."""
    if alternative.rule is BaseRule.PERMEABLE:
        return f"{alternative.area}: {_PERMEABLE}"
    by_rule = "" if alternative.rule is BaseRule.OWN else f"; {base_rule_words(alternative.rule)}"
    return f"{alternative.area}: {bedding_words(alternative.bedding)}{by_rule}"


def weak_factor(line: CarbonLine) -> str:
    """Say why a factor of carbon is weak."""
    why = "from memory, not verified" if line.factor.low is not None else "of one source, without a range"
    return f"{line.description}: its factor is {why}."


def permeable_words() -> str:
    """Say how permeable paving carries its units."""
    return _PERMEABLE


def bedding_words(bedding: Bedding | None) -> str:
    """Say how units are carried."""
    return "permeable, not planned here" if bedding is None else _BUILT[bedding]


def base_rule_words(key: BaseRule | None) -> str:
    """Name a rule."""
    return "permeable paving of blocks" if key is None else _RULES[key]


def base_part_words(key: BasePart) -> str:
    """Name a layer of a rule."""
    return _PARTS[key]


def ground_words(taken: GroundTaken) -> str:
    """Say which ground thicknesses go by."""
    how = "as measured" if taken.measured else "by the soil, not measured"
    return f"{_SOILS[taken.soil]}, bearing ratio {taken.cbr_percent:g} % {how}; {_WATER[taken.water_table]}"


_SOILS = {
    Soil.HEAVY_CLAY: "heavy clay",
    Soil.SILTY_CLAY: "silty clay",
    Soil.SANDY_CLAY: "sandy clay",
    Soil.SILT: "silt",
    Soil.SAND: "sand",
    Soil.GRAVEL: "gravel",
    Soil.MADE_GROUND: "made ground",
    Soil.CHALK: "chalk",
    Soil.UNKNOWN: "soil not known",
}
_WATER = {
    WaterTable.HIGH: "ground water stands high",
    WaterTable.LOW: "ground water stands low",
    WaterTable.UNKNOWN: "how ground water stands is not known",
}


def no_factor_words(reason: NoFactor) -> str:
    """Say why the carbon of an item is not known."""
    return _NO_FACTOR[reason]
