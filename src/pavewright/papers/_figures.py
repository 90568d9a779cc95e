"""The figures that papers print, and where figures come from, read from the rulebook once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.job import SizeClass
from pavewright.rules import read_figures

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping

    from pavewright.rules import Figure, Rulebook, Source


@dataclass(frozen=True, slots=True)
class PaperFigures:
    """What papers print of a rulebook; a field is the figure of its name there, with its unit.

    Attributes:
        packs_at_once: Packs from which units are drawn in turn.
        cut_h_each: Time of a cut.
        below_dpc_mm: Finished paving below the damp-proof course.
        thickness_mm: How far the thickness of a unit may be off, either way, by class; a class without a figure has
            none.
        sources: Sources by key.
        rulebook: Title of the rulebook.
        dated: Since when its figures stand.
    """

    silica_limit_mg_per_m3: Figure
    silica_uncontrolled_mg_per_m3: Figure
    mask_factor: Figure
    saw_water_l_per_min: Figure
    sensitised_percent: Figure
    one_person_kg: Figure
    service_by_hand_mm: Figure
    vibration_action_m_per_s2: Figure
    vibration_limit_m_per_s2: Figure
    packs_at_once: Figure
    cut_h_each: Figure
    below_dpc_mm: Figure
    thickness_mm: Mapping[SizeClass, Figure]
    sources: Mapping[str, Source]
    rulebook: str
    dated: dt.date


def paper_figures(rules: Rulebook) -> PaperFigures:
    """Return the figures of papers."""
    thick = rules.table("laying.thickness_tolerance_mm")
    return read_figures(
        PaperFigures,
        rules,
        "papers",
        one_person_kg=rules.figure("laying.one_person_kg"),
        packs_at_once=rules.figure("quantities.packs_at_once"),
        cut_h_each=rules.figure("cost.cut_h_each"),
        below_dpc_mm=rules.figure("levels.below_dpc_mm"),
        thickness_mm={SizeClass(row.key): thick.figure(row.key, "thickness_mm") for row in thick.rows},
        sources=rules.sources,
        rulebook=rules.title,
        dated=rules.dated,
    )
