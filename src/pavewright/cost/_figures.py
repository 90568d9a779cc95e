"""The figures of cost, read from the rulebook once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.job import MaterialKind, Pattern
from pavewright.rules import read_figures

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.rules import Figure, Rulebook


@dataclass(frozen=True, slots=True)
class CostFigures:
    """Outputs of labour and what carries; each field is the figure of its name in the rulebook, with its unit there.

    Attributes:
        lay_own: Outputs of patterns that have one of their own.
        loose_stone_kg_per_m3: Mass of what is carried in, loose.
        each_kg: Mass of materials that are not bought by mass, by the metre or square metre. [kg]
    """

    set_out_h: Figure
    dig_by_hand_h_per_m3: Figure
    dig_by_machine_h_per_m3: Figure
    load_by_hand_h_per_m3: Figure
    wheel_h_per_m3: Figure
    fill_h_per_m3: Figure
    break_out_h_per_m3: Figure
    carry_load_h_per_m3: Figure
    power_barrow_h_per_m3: Figure
    power_barrow_width_mm: Figure
    barrow_width_mm: Figure
    barrow_kg: Figure
    wall_h_per_m2: Figure
    guard_h_per_m: Figure
    sub_base_h_per_m3: Figure
    concrete_h_per_m3: Figure
    concrete_by_hand_h_per_m3: Figure
    lay_flags_h_per_m2: Figure
    lay_blocks_h_per_m2: Figure
    cut_h_each: Figure
    point_h_per_m2: Figure
    joint_sand_h_per_m2: Figure
    kerb_h_per_m: Figure
    edging_h_per_m: Figure
    haunch_h_per_m: Figure
    channel_h_per_m: Figure
    cover_h_each: Figure
    riser_h_per_m: Figure
    clear_h: Figure
    hire_week_days: Figure
    wheel_reference_m: Figure
    gully_h_each: Figure
    pipe_h_per_m: Figure
    pipe_fill_share: Figure
    pit_fill_h_per_m3: Figure
    silt_trap_h_each: Figure
    price_age_days: Figure
    lay_own: Mapping[Pattern, Figure]
    loose_stone_kg_per_m3: Figure
    each_kg: Mapping[MaterialKind, float]


def cost_figures(rules: Rulebook) -> CostFigures:
    """Return the figures of cost."""
    own = {pattern: rules.figures.get(f"cost.lay_{pattern.value}_h_per_m2") for pattern in Pattern}
    return read_figures(
        CostFigures,
        rules,
        "cost",
        lay_own={pattern: figure for pattern, figure in own.items() if figure is not None},
        loose_stone_kg_per_m3=rules.figure("quantities.loose_stone_kg_per_m3"),
        each_kg={material: rules.value(f"quantities.{name}") for material, name in _MASSES.items()},
    )


_MASSES = {
    MaterialKind.KERB: "kerb_kg_per_m",
    MaterialKind.EDGING: "edging_kg_per_m",
    MaterialKind.WALLING: "walling_kg_per_m2",
}
