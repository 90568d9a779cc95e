"""The figures of the method, read from the rulebook once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.rules import read_figures

if TYPE_CHECKING:
    from pavewright.rules import Figure, Rulebook


@dataclass(frozen=True, slots=True)
class OftenStep:
    """What comes off the guideline weight above a rate.

    Attributes:
        above_per_min: Above so many lifts a minute. [1/min]
        less: What comes off.
    """

    above_per_min: float
    less: Figure


@dataclass(frozen=True, slots=True)
class MethodFigures:
    """All figures of this room; a field is the figure of its name in the rulebook, with its unit there.

    Attributes:
        one_person_kg: Guideline weight for one person, the same by which units are noticed as heavy.
        often: What comes off it where a lift is repeated often, the slowest rate first.
        water_l_per_min: Flow of water on the blade.
        vibration_action_m_per_s2: Vibration over eight hours at which something has to be done.
        vibration_limit_m_per_s2: Vibration over eight hours that no day may pass.
        deep_dig_mm: A deeper dig has its sides looked at.
        hand_dig_mm: This near to a known service the dig is by hand.
        root_times_stem: Radius of the roots of a tree as a multiple of its stem.
        min_temperature_c: Coldest for mortar and concrete.
        sensitised_percent: Workers whom wet cement may sensitise.
        mask_factor: Protection factor of the mask worn besides water.
        silica_limit_mg_per_m3: Limit of silica dust.
        silica_uncontrolled_mg_per_m3: Silica dust at a saw without water.
    """

    one_person_kg: Figure
    two_person_share: Figure
    seldom_lifts_per_h: Figure
    carry_m: Figure
    often: tuple[OftenStep, ...]
    lifts_each: Figure
    saw_m_per_min: Figure
    water_l_per_min: Figure
    vibration_action_m_per_s2: Figure
    vibration_limit_m_per_s2: Figure
    noise_lower_db: Figure
    noise_upper_db: Figure
    noise_limit_db: Figure
    public_near_mm: Figure
    deep_dig_mm: Figure
    hand_dig_mm: Figure
    root_times_stem: Figure
    min_temperature_c: Figure
    sensitised_percent: Figure
    mask_factor: Figure
    silica_limit_mg_per_m3: Figure
    silica_uncontrolled_mg_per_m3: Figure


_ELSEWHERE = {
    "one_person_kg": "laying.one_person_kg",
    "water_l_per_min": "papers.saw_water_l_per_min",
    "vibration_action_m_per_s2": "papers.vibration_action_m_per_s2",
    "vibration_limit_m_per_s2": "papers.vibration_limit_m_per_s2",
    "deep_dig_mm": "earthworks.deep_dig_mm",
    "hand_dig_mm": "earthworks.hand_dig_mm",
    "root_times_stem": "earthworks.root_times_stem",
    "min_temperature_c": "programme.min_temperature_c",
    "sensitised_percent": "papers.sensitised_percent",
    "mask_factor": "papers.mask_factor",
    "silica_limit_mg_per_m3": "papers.silica_limit_mg_per_m3",
    "silica_uncontrolled_mg_per_m3": "papers.silica_uncontrolled_mg_per_m3",
}
"""Figures that stand with another part of the rulebook, by what this room calls them."""


def method_figures(rules: Rulebook) -> MethodFigures:
    """Return the figures of this room from an edition."""
    table = rules.table("method.often")
    often = tuple(OftenStep(row.value("above_per_min"), table.figure(row.key, "less_percent")) for row in table.rows)
    elsewhere = {name: rules.figure(key) for name, key in _ELSEWHERE.items()}
    return read_figures(MethodFigures, rules, "method", often=often, **elsewhere)
