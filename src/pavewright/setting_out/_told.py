"""Findings of setting out: no base line, corners that are not proved, strings in the dig and strings that sag."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import Finding, Severity
from pavewright.setting_out import _words as words
from pavewright.setting_out._codes import Code
from pavewright.setting_out._types import Stands

if TYPE_CHECKING:
    from pavewright.setting_out._base_line import Base
    from pavewright.setting_out._figures import SetOutFigures
    from pavewright.setting_out._tapes import Taped
    from pavewright.setting_out._types import Peg, StringLine
    from pavewright.survey import PlanArea


def short_told(area: PlanArea, base: Base, figures: SetOutFigures) -> list[Finding]:
    """Return a finding where no base line could be found beside the dig."""
    if base.own_pegs:
        return []
    out = figures.profile_out
    return [
        Finding(
            Code.NO_BASE_LINE,
            Severity.CHECK,
            f"area {area.name}",
            words.no_base_line(area.name, base.side.name),
            value=base.length_mm,
            unit="mm",
            figure=out,
            at_mm=base.start,
        )
    ]


def unproven_told(area: PlanArea, proof: Taped, figures: SetOutFigures) -> list[Finding]:
    """Return a finding for the corners that no two tapes fix."""
    corners = proof.unproven
    if not corners:
        return []
    return [
        Finding(
            Code.CORNER_NOT_TAPED,
            Severity.CHECK,
            f"area {area.name}",
            words.corner_not_taped(area.name, (corner.name for corner in corners), proof.houses),
            figure=figures.behind_wall if proof.houses else None,
            at_mm=corners[0].xy,
        )
    ]


def in_dig_told(area: PlanArea, pegs: list[Peg], tied: dict[tuple[int, bool], str]) -> list[Finding]:
    """Return a finding for strings that can only be tied inside the dig."""
    ends = set(tied.values())
    inside = [each for each in pegs if each.name in ends and each.stands is Stands.DIP]
    if not inside:
        return []
    return [
        Finding(
            Code.STRING_END_IN_DIG,
            Severity.NOTE,
            f"area {area.name}",
            words.string_end_in_dig(area.name, inside),
            at_mm=inside[0].at,
        )
    ]


def long_strings_told(strings: list[StringLine], figures: SetOutFigures) -> list[Finding]:
    """Return a finding for every string that is too long to hang straight."""
    longest = figures.longest_string
    return [
        Finding(
            Code.STRING_SAGS,
            Severity.NOTE,
            f"string {each.name}",
            words.string_sags(each),
            each.length_mm,
            longest.value,
            "mm",
            longest,
        )
        for each in strings
        if each.length_mm > longest.value
    ]
