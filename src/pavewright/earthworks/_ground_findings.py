"""What is noticed about the ground: topsoil, fill, deep digs, and ground that nobody levelled."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.earthworks import _words as words
from pavewright.earthworks._codes import Code
from pavewright.earthworks._types import Compactor
from pavewright.findings import Finding, Severity

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.earthworks._figures import CareFigures
    from pavewright.earthworks._types import AreaDig, LayerCompaction

_SAY_MM = 20.0
"""Ground this little below formation is trimmed and rolled, not filled. [mm]"""


def ground_findings(dig: AreaDig, known: CareFigures) -> list[Finding]:
    """Return findings on topsoil, fill, deep digs and ground run on: each by itself, none hides another."""
    place = f"area {dig.area}"
    return [*_run_on(dig, place, known), *_topsoil(dig, place), *_fill(dig, place), *_deep(dig, place, known)]


def plate_findings(courses: Sequence[LayerCompaction]) -> list[Finding]:
    """Return a finding where the plate is lighter than any of which the passes over stone are known."""
    light = [each for each in courses if each.layers.plate is Compactor.BELOW_TABLE]
    if not light:
        return []
    said, options = words.plate_too_light(light)
    return [Finding(Code.PLATE_LIGHT, Severity.CHECK, "ground", said, options=options)]


def _run_on(dig: AreaDig, place: str, known: CareFigures) -> list[Finding]:
    share, most = (dig.beyond_m2 / dig.dig_m2 if dig.dig_m2 else 0.0), known.run_on_share
    if share <= most.value:
        return []
    return [Finding(Code.GROUND_RUN_ON, Severity.CHECK, place, words.ground_run_on(dig), share, most.value, "-", most)]


def _topsoil(dig: AreaDig, place: str) -> list[Finding]:
    """Return the question how deep the topsoil is, where the answer moves the dig."""
    known = dig.topsoil
    if known is None:
        return []
    said, options = words.topsoil_unknown(dig.area, known)
    return [
        Finding(
            Code.TOPSOIL_UNKNOWN,
            Severity.CHECK,
            place,
            said,
            None,
            None,
            "mm",
            known.figure,
            options=options,
        )
    ]


def _fill(dig: AreaDig, place: str) -> list[Finding]:
    if dig.fill_layers is None or dig.fill_depth_mm <= _SAY_MM:
        return []
    said, options = words.fill(dig, dig.fill_layers)
    figure = dig.fill_layers.decided_by
    return [
        Finding(
            Code.FILL,
            Severity.CHECK,
            place,
            said,
            dig.fill_depth_mm,
            0.0,
            "mm",
            figure,
            options=options,
        )
    ]


def _deep(dig: AreaDig, place: str, known: CareFigures) -> list[Finding]:
    deep, limit = dig.volumes.deepest_mm, known.deep_dig
    if deep <= limit.value:
        return []
    said = words.deep_dig(dig.area, deep)
    return [Finding(Code.DEEP_DIG, Severity.STOP, place, said, deep, limit.value, "mm", limit)]
