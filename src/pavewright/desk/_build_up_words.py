"""What build-ups, rules and factors are called."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.buildup import RegimeKey, RegimePart
from pavewright.job import Bedding
from pavewright.pipeline import NoFactor

if TYPE_CHECKING:
    from pavewright.pipeline import Alternative, CarbonLine

_BUILT = {
    Bedding.MORTAR_ON_CONCRETE: "bound: mortar bed on a concrete base",
    Bedding.MORTAR_ON_SUB_BASE: "mortar bed on a sub-base",
    Bedding.SAND_ON_SUB_BASE: "unbound: laying course of sand on a sub-base",
}
_REGIMES = {
    RegimeKey.OWN: "the rulebook of this job",
    RegimeKey.ROAD: "road table, an upper end for a drive",
    RegimeKey.ONE_MSA: "road for a million standard axles, an upper end for a drive",
    RegimeKey.BLOCKS: "base under blocks by use",
    RegimeKey.BLOCKS_FROST: "base under blocks where it freezes and thaws",
    RegimeKey.CONCRETE_DRIVE: "plain concrete of a drive",
    RegimeKey.PERMEABLE: "permeable paving of blocks",
}
_PARTS = {RegimePart.CONCRETE: "concrete", RegimePart.SUB_BASE: "sub-base", RegimePart.CAPPING: "capping"}
_NO_FACTOR = {
    NoFactor.NO_SOURCE: "no factor was found for it",
    NoFactor.NO_MASS: "its mass is not known",
    NoFactor.MADE_OF: "its maker has the figure: it hangs on what the unit is made of",
}


def named(alternative: Alternative) -> str:
    """Name an alternative by its area and how its units are carried."""
    return f"{alternative.area}: {built(alternative.bedding)}"


def weak(line: CarbonLine) -> str:
    """Say why a factor of carbon is weak."""
    why = "from memory, not verified" if line.factor.low is not None else "of one source, without a range"
    return f"{line.description}: its factor is {why}."


def built(bedding: Bedding | None) -> str:
    """Say how units are carried."""
    return "permeable, not planned here" if bedding is None else _BUILT[bedding]


def regime(key: RegimeKey) -> str:
    """Name a rule."""
    return _REGIMES[key]


def part(key: RegimePart) -> str:
    """Name a layer of a rule."""
    return _PARTS[key]


def no_factor(reason: NoFactor) -> str:
    """Say why the carbon of an item is not known."""
    return _NO_FACTOR[reason]
