"""Checks across the document: everything that no single field shows, reported together."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job._as_laid_checks import as_laid_faults
from pavewright.job._books import book_faults
from pavewright.job._caps import too_much
from pavewright.job._handover_checks import handover_faults
from pavewright.job._hold_checks import hold_faults
from pavewright.job._laid_checks import laid_faults
from pavewright.job._levels import levels_in_metres
from pavewright.job._money_checks import rates_twice
from pavewright.job._names import double_names, unknown_names
from pavewright.job._outlines import corner_faults
from pavewright.job._patterns import pattern_faults
from pavewright.job._photo_checks import photo_faults
from pavewright.job._point_names import lines_of_no_length, unknown_points
from pavewright.job._programme_checks import twice_in_programme
from pavewright.job._sizes import strange_sizes
from pavewright.job._stones import stone_faults
from pavewright.job._units_read_checks import unit_read_faults
from pavewright.job._weather_checks import weather_faults
from pavewright.job._wishes import conflicting_wishes, days_of_no_job, half_said, packs, rain_half_said
from pavewright.job._zones import zone_faults

if TYPE_CHECKING:
    from pavewright.job._document import Job
    from pavewright.job._faults import Fault

_CHECKS = (
    double_names,
    unknown_names,
    unknown_points,
    lines_of_no_length,
    corner_faults,
    book_faults,
    conflicting_wishes,
    half_said,
    days_of_no_job,
    pattern_faults,
    rain_half_said,
    strange_sizes,
    levels_in_metres,
    packs,
    zone_faults,
    stone_faults,
    rates_twice,
    twice_in_programme,
    weather_faults,
    handover_faults,
    hold_faults,
    as_laid_faults,
    unit_read_faults,
    photo_faults,
    laid_faults,
)


def cross_faults(job: Job) -> tuple[Fault, ...]:
    """Return every fault that no single field shows; what asks for too much is not looked into further."""
    beyond = tuple(too_much(job))
    if beyond:
        return beyond
    return tuple(fault for check in _CHECKS for fault in check(job))
