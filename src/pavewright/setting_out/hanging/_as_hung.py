"""Strings as they hang: with the heights that were typed back from the site, and with their sag."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright.geometry import along_and_offset, distance
from pavewright.setting_out._types import PegRole
from pavewright.setting_out.hanging._sag import sag_at_mm, sag_mm
from pavewright.setting_out.hanging._types import Crossing, HungBy, StrayReading, StringHung

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job.on_site import StringAsSet
    from pavewright.rules import Rulebook
    from pavewright.setting_out._types import Peg, StringLine
    from pavewright.setting_out.errors import ToolErrors

_ON_STRING_MM = 1.0
"""A peg this near to a string stands under it. [mm]"""


def readings_at(
    pegs: Sequence[Peg], as_set: Sequence[StringAsSet], rules: Rulebook
) -> tuple[dict[str, float], tuple[StrayReading, ...]]:
    """Return the levels of strings typed back by the name of their peg, and those that belong to no peg any more.

    Pegs are numbered anew when a job changes: a reading counts only where the peg of its name stands where it was.
    """
    by_name = {peg.name: peg for peg in pegs}
    found: dict[str, float] = {}
    stray: list[StrayReading] = []
    for each in as_set:
        peg = by_name.get(each.peg)
        away = None if peg is None else distance(peg.at, (each.x_mm, each.y_mm))
        if away is None or away > rules.value("setting_out.peg_found_mm"):
            stray.append(StrayReading(each.peg, away))
        else:
            found[each.peg] = each.level_mm
    return found, tuple(stray)


def strings_hung(
    strings: Sequence[StringLine],
    pegs: Sequence[Peg],
    read_mm: dict[str, float],
    tools: ToolErrors,
    rules: Rulebook,
) -> tuple[StringHung, ...]:
    """Return each string as it hangs: at the heights read at its ends, or else as planned."""
    by_name = {peg.name: peg for peg in pegs}
    shows = rules.value("setting_out.sag_shows_mm")
    found = []
    for string in strings:
        ends = by_name[string.start], by_name[string.end]
        known = sum(end.name in read_mm for end in ends)
        sag = sag_mm(string.length_mm, tools.string_kg_per_km, tools.string_pull_kg)
        found.append(
            StringHung(
                name=string.name,
                area=string.area,
                start=string.start,
                end=string.end,
                start_at=ends[0].at,
                end_at=ends[1].at,
                start_level_mm=read_mm.get(string.start, ends[0].string_level_mm),
                end_level_mm=read_mm.get(string.end, ends[1].string_level_mm),
                hung_by=(HungBy.PLANNED, HungBy.ONE_END, HungBy.READ)[known],
                span_mm=string.length_mm,
                sag_mm=sag,
                prop=sag > shows,
            )
        )
    return tuple(found)


def crossings(hung: Sequence[StringHung], pegs: Sequence[Peg], read_mm: dict[str, float]) -> tuple[Crossing, ...]:
    """Return every peg under a string, with the layers below the string as it hangs there.

    A height read at the peg itself counts before what follows from the ends of the string.
    """
    found = []
    for peg in pegs:
        if peg.role is PegRole.BASE:
            continue
        for string in hung:
            part = _part(string, peg)
            if part is None:
                continue
            sag = sag_at_mm(string.sag_mm, part)
            level = string.start_level_mm + part * (string.end_level_mm - string.start_level_mm) - sag
            level, by = (read_mm[peg.name], HungBy.READ) if peg.name in read_mm else (level, string.hung_by)
            found.append(
                Crossing(
                    peg=peg.name,
                    number=peg.number,
                    area=peg.area,
                    at=peg.at,
                    string=string.name,
                    level_mm=level,
                    sag_mm=sag,
                    hung_by=by,
                    heights=tuple(replace(each, down_from_string_mm=level - each.level_mm) for each in peg.heights),
                )
            )
    return tuple(found)


def _part(string: StringHung, peg: Peg) -> float | None:
    """Return how far along a string a peg stands, zero at its start and one at its end; None where not under it."""
    if string.area != peg.area or string.span_mm < _ON_STRING_MM:
        return None
    along, off = along_and_offset(string.start_at, string.end_at, peg.at)
    on = abs(off) <= _ON_STRING_MM and -_ON_STRING_MM <= along <= string.span_mm + _ON_STRING_MM
    return min(1.0, max(0.0, along / string.span_mm)) if on else None
