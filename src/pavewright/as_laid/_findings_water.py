"""What is noticed about water on paving as laid: hose tests, gratings, and water that is likely to stand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.as_laid import _words_water as words
from pavewright.as_laid._codes import Code
from pavewright.as_laid._verdicts import Verdict
from pavewright.as_laid.standing import WaterState
from pavewright.findings import Finding, Severity

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.as_laid._types_judged import HoseAsLaid
    from pavewright.as_laid.standing import AreaStanding, DrainFound, GratingFigures


def water_findings(hoses: Sequence[HoseAsLaid], gratings: Sequence[DrainFound], held: GratingFigures) -> list[Finding]:
    """Return findings on hose tests that failed and on gratings that do not sit as they should."""
    found = [_hose(each) for each in hoses if each.verdict is Verdict.FAILS]
    return [*found, *(_grating(each, held) for each in gratings if each.verdict is Verdict.FAILS)]


def _hose(test: HoseAsLaid) -> Finding:
    message, options = words.hose_failed(test)
    place = f"area {test.area}, {test.name}"
    return Finding(
        Code.HOSE_FAILED, Severity.CHECK, place, message, test.deepest_mm, test.limit.value, "mm", test.limit,
        options=options,
    )  # fmt: skip


def _grating(read: DrainFound, held: GratingFigures) -> Finding:
    is_high = read.above_mm < held.min_above.value
    figure = held.min_above if is_high else held.max_above
    message, options = words.grating(read, is_high=is_high)
    place = f"{read.drain}, {read.mark}"
    return Finding(
        Code.GRATING, Severity.CHECK, place, message, read.above_mm, figure.value, "mm", figure, options=options
    )


def pond_findings(areas: Sequence[AreaStanding], hoses: Sequence[HoseAsLaid]) -> list[Finding]:
    """Return findings on areas on which water is likely to stand by the readings.

    Args:
        areas: What stands on each area.
        hoses: Hose tests that count: one of the whole area that was dry is told beside it.
    """
    found = []
    for area in (each for each in areas if each.state is WaterState.STANDS):
        dry = any(each.area == area.area and each.is_whole and each.verdict is Verdict.PASSES for each in hoses)
        message, options = words.stands(area, is_dry_by_hose=dry)
        at = area.ponds[0].at if area.ponds else None
        place = f"area {area.area}"
        found.append(
            Finding(Code.STANDS, Severity.CHECK, place, message, area.chance, unit="-", options=options, at_mm=at)
        )
    return found
