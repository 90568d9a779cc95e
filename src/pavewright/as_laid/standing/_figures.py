"""The figures by which standing water is judged, read from the rulebook once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.as_laid.standing._simulating import Common

if TYPE_CHECKING:
    from pavewright.rules import Figure, Rulebook


@dataclass(frozen=True, slots=True)
class StandingFigures:
    """The figures by which standing water is judged.

    Attributes:
        shallowest: Water that is shallower is not looked for.
        readings_sd: So many standard deviations of a reading are not looked into either.
        common: What is common of paving between readings.
        sure: Chance, per cent, from which water is taken to stand.
        clear: Chance, per cent, below which it is taken to clear.
        within: Paving is called clear only where no place of it is farther from a reading.
        told_from: Chance, per cent, from which a place is told.
        runs: Simulations.
    """

    shallowest: Figure
    readings_sd: Figure
    common: Common
    sure: Figure
    clear: Figure
    within: Figure
    told_from: Figure
    runs: Figure

    def counted_mm(self, reading_sd_mm: float) -> float:
        """Return the depth from which water is looked for: readings cannot show less. [mm].

        Args:
            reading_sd_mm: Standard deviation of a reading. [mm]
        """
        return max(self.shallowest.value, self.readings_sd.value * reading_sd_mm)


def standing_figures(rules: Rulebook) -> StandingFigures:
    """Return the figures by which standing water is judged."""
    return StandingFigures(
        shallowest=rules.figure("as_laid.pond_shallowest_mm"),
        readings_sd=rules.figure("as_laid.pond_readings_sd"),
        common=Common(
            unevenness=rules.figure("as_laid.unevenness_mm"),
            reach=rules.figure("as_laid.unevenness_reach_mm"),
            dips=rules.figure("as_laid.dips_per_m2"),
            dip_depth=rules.figure("as_laid.dip_depth_mm"),
            dip_radius=rules.figure("as_laid.dip_radius_mm"),
        ),
        sure=rules.figure("as_laid.pond_sure_percent"),
        clear=rules.figure("as_laid.pond_clear_percent"),
        within=rules.figure("as_laid.clear_within_mm"),
        told_from=rules.figure("as_laid.pond_told_percent"),
        runs=rules.figure("as_laid.pond_runs"),
    )
