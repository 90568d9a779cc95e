"""What is noticed about the ground: topsoil, fill, deep digs, and ground that nobody levelled."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.earthworks._codes import Code
from pavewright.earthworks._fill import layers_in_words
from pavewright.earthworks._types import Compactor
from pavewright.findings import Finding, Severity, worded

if TYPE_CHECKING:
    from pavewright.earthworks._figures import CareFigures
    from pavewright.earthworks._types import AreaDig

_SAY_MM = 20.0
"""Ground this little below formation is trimmed and rolled, not filled. [mm]"""


def ground_findings(dig: AreaDig, known: CareFigures) -> list[Finding]:
    """Return findings on topsoil, fill, deep digs and ground run on: each by itself, none hides another."""
    place = f"area {dig.area}"
    return [*_run_on(dig, place, known), *_topsoil(dig, place), *_fill(dig, place), *_deep(dig, place, known)]


def _run_on(dig: AreaDig, place: str, known: CareFigures) -> list[Finding]:
    share, most = (dig.beyond_m2 / dig.dig_m2 if dig.dig_m2 else 0.0), known.run_on_share
    if share <= most.value:
        return []
    words = (
        f"{dig.beyond_m2:.1f} of {dig.dig_m2:.1f} m² of the dig of {dig.area} lie past the outermost spot levels: "
        f"there the ground is extrapolated. Read the staff on its far corners."
    )
    return [Finding(Code.GROUND_RUN_ON, Severity.CHECK, place, words, share, most.value, "-", most)]


def _topsoil(dig: AreaDig, place: str) -> list[Finding]:
    """Return the question how deep the topsoil is, where the answer moves the dig."""
    known = dig.topsoil
    if known is None:
        return []
    words = (
        f"How deep is the topsoil of {dig.area}? Nobody has measured it, and all of it is dug away. "
        f"{known.depth_mm.low:g} to {known.depth_mm.high:g} mm may be expected: {known.dig_m3.low:.1f} to "
        f"{known.dig_m3.high:.1f} m³ more to dig and {known.fill_m3.low:.1f} to {known.fill_m3.high:.1f} m³ more fill "
        f"than is measured. It is priced as a provisional sum."
    )
    return [
        Finding(
            Code.TOPSOIL_UNKNOWN,
            Severity.CHECK,
            place,
            words,
            None,
            None,
            "mm",
            known.figure,
            options=worded(
                ("Dig a trial hole, measure the soil that holds roots, and enter it; zero where there is none.",)
            ),
        )
    ]


def _fill(dig: AreaDig, place: str) -> list[Finding]:
    if dig.fill_layers is None or dig.fill_depth_mm <= _SAY_MM:
        return []
    ways: list[str] = []
    if dig.fill_layers.plate is Compactor.UNKNOWN:
        ways.append("Enter the plate's mass over the area of its sole: a heavier one takes thicker layers.")
    if dig.fill_layers.plate is Compactor.BELOW_TABLE or dig.fill_layers.passes is None:
        ways.append("Hire a heavier plate: no number of passes is known for this one.")
    once = "" if dig.topsoil is not None else " once the topsoil is off"
    more = " Topsoil of unknown depth makes it deeper." if dig.topsoil is not None else ""
    words = (
        f"Formation of {dig.area} stands up to {dig.fill_depth_mm:.0f} mm over the ground{once}: "
        f"{dig.volumes.fill_m3:.2f} m³ of fill go under it, in {layers_in_words(dig.fill_layers)}. Never topsoil.{more}"
    )
    figure = dig.fill_layers.decided_by
    return [
        Finding(
            Code.FILL,
            Severity.CHECK,
            place,
            words,
            dig.fill_depth_mm,
            0.0,
            "mm",
            figure,
            options=worded(tuple(ways)),
        )
    ]


def _deep(dig: AreaDig, place: str, known: CareFigures) -> list[Finding]:
    deep, limit = dig.volumes.deepest_mm, known.deep_dig
    if deep <= limit.value:
        return []
    words = f"The dig of {dig.area} is {deep:.0f} mm deep in places. Have the sides looked at before anybody goes in."
    return [Finding(Code.DEEP_DIG, Severity.STOP, place, words, deep, limit.value, "mm", limit)]
