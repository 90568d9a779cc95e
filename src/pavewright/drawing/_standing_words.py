"""What is said on the plan of standing water as laid."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class StandingPlanWords(Catalogue):
    """The words of the plan of standing water as laid."""

    title: str = "Standing water as laid"
    about: str = (
        "Chance that water stands, given the readings and their error, as hatches: the denser the likelier. Lines of "
        "equal level against the plan in mm, dashed where the paving lies low. Triangles: read there next."
    )
    may: str = "water may stand, 5 to 50 %"
    likely: str = "likely, 50 to 95 %"
    sure: str = "STANDS, 95 % and more"
    above: str = "mm above the plan, likeliest"
    below: str = "mm below the plan, likeliest"
    read: str = "was read"
    read_next: str = "read here next"
    hose_dry: str = "hose test: dry"
    hose_wet: str = "hose test: water stood"
    pond: str = "number and chance of a pond"
    depth: Sentence = Sentence("{depth} mm if it stands")
    hose: Sentence = Sentence("{name} {depth} mm")


WORDS = StandingPlanWords()
"""The words of the plan of standing water as laid."""
