"""What published rules say of one area and its ground, each apart: the one that decides, and the others beside it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.buildup._figures import figures
from pavewright.buildup._layers import bearing_ratio
from pavewright.buildup._types import LayerKey
from pavewright.job import Bedding, Use

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.buildup._types import Layer
    from pavewright.job import Ground
    from pavewright.rules import Figure, Rulebook


class RegimeKey(StrEnum):
    """Which rule it is."""

    OWN = "own"
    ROAD = "road"
    ONE_MSA = "one_msa"
    BLOCKS = "blocks"
    BLOCKS_FROST = "blocks_frost"
    CONCRETE_DRIVE = "concrete_drive"
    PERMEABLE = "permeable"


class RegimePart(StrEnum):
    """A layer of which a rule speaks."""

    CONCRETE = "concrete"
    SUB_BASE = "sub_base"
    CAPPING = "capping"


@dataclass(frozen=True, slots=True)
class RegimeLayer:
    """A layer as a rule has it.

    Attributes:
        part: Which layer it is.
        thickness_mm: How thick it is. [mm]
        decided_by: Figures that it comes from, the main one first.
    """

    part: RegimePart
    thickness_mm: float
    decided_by: tuple[Figure, ...]


@dataclass(frozen=True, slots=True)
class Regime:
    """What one rule says.

    Attributes:
        key: Which rule it is.
        layers: Its layers from the top down; None where it says nothing of this use or this ground.
        decides: Whether the build-up goes by it.
    """

    key: RegimeKey
    layers: tuple[RegimeLayer, ...] | None
    decides: bool


def regimes(use: Use, bedding: Bedding, cbr: float, own: Sequence[Layer], rules: Rulebook) -> tuple[Regime, ...]:
    """Return what published rules say of an area, the one that decides first.

    Args:
        use: What runs on it.
        bedding: How its units are carried.
        cbr: Bearing ratio of the ground. [%]
        own: Its layers as planned.
        rules: The rulebook.
    """
    found = [Regime(RegimeKey.OWN, _own(own), decides=True)]
    wheels = use is not Use.FOOT
    if bedding is Bedding.MORTAR_ON_CONCRETE:
        if use is Use.CAR:
            drive = _layer(RegimePart.CONCRETE, rules.figure("buildup.concrete_drive_mm"))
            found.append(Regime(RegimeKey.CONCRETE_DRIVE, (drive,), decides=False))
        return tuple(found)
    if bedding is Bedding.SAND_ON_SUB_BASE:
        found.append(Regime(RegimeKey.BLOCKS, _by_use(use, "block_base_mm", rules), decides=False))
        found.append(Regime(RegimeKey.BLOCKS_FROST, _by_use(use, "block_base_frost_mm", rules), decides=False))
    if wheels:
        found.append(Regime(RegimeKey.ROAD, _road(cbr, rules), decides=False))
        found.append(Regime(RegimeKey.ONE_MSA, _one_msa(cbr, rules), decides=False))
    return tuple(found)


def ground_bearing(ground: Ground, rules: Rulebook) -> float:
    """Return the bearing ratio of the ground, as measured or by its soil. [%]."""
    found = bearing_ratio(ground, figures(rules).layers)
    return found if isinstance(found, float) else found.value


def permeable_regime(rules: Rulebook) -> Regime:
    """Return what is said of permeable paving; it decides nothing here."""
    layer = _layer(RegimePart.SUB_BASE, rules.figure("buildup.permeable_sub_base_mm"))
    return Regime(RegimeKey.PERMEABLE, (layer,), decides=False)


def road_step(cbr: float, from_percent: Sequence[float], more_than: Sequence[float]) -> int:
    """Return which step of a road table holds for a bearing ratio: one between two steps is rounded down.

    Args:
        cbr: Bearing ratio. [%]
        from_percent: Where each step begins, the weakest ground first. [%]
        more_than: One for a step that begins only past that, zero for one that holds there as well. [-]

    Source: leics_design_guide, table 34 and text
    """
    holds = [
        number
        for number, (start, past) in enumerate(zip(from_percent, more_than, strict=True))
        if (cbr > start if past else cbr >= start)
    ]
    return max(holds, default=0)


def one_msa_sub_base_mm(
    cbr: float, sizes_mm: tuple[float, float, float], ratios_percent: tuple[float, float, float]
) -> float | None:
    """Return the sub-base of a road for a million standard axles; None between the grounds that are printed. [mm].

    Args:
        cbr: Bearing ratio. [%]
        sizes_mm: At the weak end, more under that, and on firm ground. [mm]
        ratios_percent: The weak end, over what the ground is firm, and over what no sub-base is needed. [%]

    Source: highway_engineering_textbook, page 230, step 4
    """
    (weak, weaker, firm), (weak_cbr, firm_cbr, none_cbr) = sizes_mm, ratios_percent
    if cbr <= weak_cbr:
        return weak if cbr == weak_cbr else weak + weaker
    if cbr > none_cbr:
        return 0.0
    return firm if cbr > firm_cbr else None


def _layer(part: RegimePart, figure: Figure) -> RegimeLayer:
    return RegimeLayer(part, figure.value, (figure,))


def _own(own: Sequence[Layer]) -> tuple[RegimeLayer, ...]:
    parts = {LayerKey.BASE: RegimePart.CONCRETE, LayerKey.SUB_BASE: RegimePart.SUB_BASE}
    return tuple(
        RegimeLayer(parts[layer.key], layer.thickness_mm, layer.decided_by) for layer in own if layer.key in parts
    )


def _by_use(use: Use, name: str, rules: Rulebook) -> tuple[RegimeLayer, ...] | None:
    table = rules.table(f"buildup.{name}")
    if use.value not in {row.key for row in table.rows}:
        return None
    return (_layer(RegimePart.SUB_BASE, table.figure(use.value, "thickness_mm")),)


def _road(cbr: float, rules: Rulebook) -> tuple[RegimeLayer, ...]:
    table = rules.table("buildup.road_layers_mm")
    starts = [row.value("from_cbr_percent") for row in table.rows]
    row = table.rows[road_step(cbr, starts, [row.value("more_than") for row in table.rows])]
    return (
        _layer(RegimePart.SUB_BASE, table.figure(row.key, "sub_base_mm")),
        _layer(RegimePart.CAPPING, table.figure(row.key, "capping_mm")),
    )


def _one_msa(cbr: float, rules: Rulebook) -> tuple[RegimeLayer, ...] | None:
    weak, weaker, firm = (rules.figure(f"buildup.one_msa_{name}_mm") for name in ("weak", "weaker", "firm"))
    at, over, none = (rules.figure(f"buildup.one_msa_{name}_cbr_percent") for name in ("weak", "firm", "none"))
    found = one_msa_sub_base_mm(cbr, (weak.value, weaker.value, firm.value), (at.value, over.value, none.value))
    if found is None:
        return None
    used = (firm, over, none) if cbr > over.value else (weak, weaker, at)
    return (RegimeLayer(RegimePart.SUB_BASE, found, used),)
