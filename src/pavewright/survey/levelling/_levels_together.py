"""All level books and heights of a job adjusted together: every reading of the staff weighed, every slip looked for."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from pavewright.findings import Finding, Severity
from pavewright.survey._codes import Code
from pavewright.survey._remarks import metres, millimetres
from pavewright.survey._types_levels import LevelReading, LevelsTogether
from pavewright.survey.levelling import _words as words
from pavewright.survey.networks import LevelDifference, Setup, adjust_levels, alike_with, chi_square_quantile, slip_mm

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.job import HeightOver
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey._remarks import Remarks
    from pavewright.survey._types_levels import ReducedLevelBook
    from pavewright.survey.networks import LevelNetwork

_CHECKED = 1e-6
"""A reading with less redundancy is checked by nothing. [-]"""
_PLACE = "levels"


@dataclass(frozen=True, slots=True)
class Observed:
    """A reading as a difference of level, and what it is called.

    Attributes:
        difference: The difference of level that it gives.
        words: What it is called.
        measured_mm: What was read. [mm]
        sign: 1 where the difference is what was read, -1 where it is its opposite. [-]
    """

    difference: LevelDifference
    words: str
    measured_mm: float
    sign: float


def adjust_together(
    books: Sequence[ReducedLevelBook],
    heights: Sequence[HeightOver],
    held_mm: Mapping[str, float],
    figures: SurveyFigures,
    remarks: Remarks,
) -> tuple[LevelsTogether, dict[str, float], tuple[ReducedLevelBook, ...]] | None:
    """Return the fit of all readings, the level of every point, and the books with these levels; None without readings.

    The height of collimation of each set-up is an unknown of its own, so that every reading counts by itself.

    Args:
        books: Reduced books.
        heights: Heights over another point.
        held_mm: Levels that stand fast. [mm]
        figures: Figures of the survey.
        remarks: Where slips and misfits are reported.
    """
    observed = [*_staff_readings(books, figures.staff_reading_sd_mm.value), *_heights(heights, figures)]
    if not observed:
        return None
    network = adjust_levels(held_mm, [each.difference for each in observed])
    standard = _standardised(network, observed)
    suspects = _suspects(network, standard, figures.greatest_standardised_residual.value)
    readings = tuple(
        LevelReading(
            words=each.words,
            measured_mm=each.measured_mm,
            residual_mm=each.sign * residual,
            redundancy=max(part, 0.0),
            standardised=None if part < _CHECKED else float(size),
            suspect=number in suspects,
        )
        for number, (each, residual, part, size) in enumerate(
            zip(observed, network.residuals_mm, network.redundancy, standard, strict=True)
        )
    )
    points = {name: level for name, level in network.levels_mm.items() if isinstance(name, str)}
    sds = tuple((name, sd) for name, sd in network.sds_mm.items() if isinstance(name, str))
    found = LevelsTogether(readings, sds, network.spare, network.ratio)
    _tell(found, suspects, figures, remarks)
    return found, points, tuple(_with_levels(book, points) for book in books)


def _staff_readings(books: Sequence[ReducedLevelBook], sd_mm: float) -> list[Observed]:
    """Return every reading of the staff: its point is lower than the height of collimation by what was read."""
    found = []
    for book in books:
        setup = 1
        for row in book.rows:
            read = [(row.foresight_mm, setup), (row.intermediate_mm, setup)]
            if row.backsight_mm is not None:
                setup = setup if row is book.rows[0] else setup + 1
                read.append((row.backsight_mm, setup))
            for reading, of in read:
                if reading is None:
                    continue
                station = Setup(book.name, of)
                words = f"{book.name}, set-up {of}: {metres(reading)} on {row.point}"
                found.append(Observed(LevelDifference(station, row.point, -reading, sd_mm), words, reading, -1.0))
    return found


def _heights(heights: Sequence[HeightOver], figures: SurveyFigures) -> list[Observed]:
    found = []
    for each in heights:
        sd = height_sd_mm(each, figures)
        means = each.by.value.replace("_", " ")
        words = f"{each.point} over {each.over} by {means}: {millimetres(each.higher_mm, sign=True)}"
        found.append(Observed(LevelDifference(each.over, each.point, each.higher_mm, sd), words, each.higher_mm, 1.0))
    return found


def height_sd_mm(height: HeightOver, figures: SurveyFigures) -> float:
    """Return how far a height over another point is trusted. [mm]."""
    return height.sd_mm or figures.height_by(height.by).value


def _standardised(network: LevelNetwork, observed: Sequence[Observed]) -> np.ndarray:
    parts = np.array(network.redundancy)
    sds = np.array([each.difference.sd_mm for each in observed])
    safe = np.where(parts < _CHECKED, 1.0, parts)
    found: np.ndarray = np.where(parts < _CHECKED, 0.0, np.array(network.residuals_mm) / (sds * np.sqrt(safe)))
    return found


def _suspects(network: LevelNetwork, standard: np.ndarray, limit: float) -> tuple[int, ...]:
    """Return the reading that the others contradict most, and those that may as well be the one; else none."""
    sizes = np.abs(standard)
    worst = int(np.argmax(sizes))
    if network.spare == 0 or sizes[worst] <= limit:
        return ()
    return tuple(alike_with(worst, sizes, np.array(network.redundancy), network.shown[worst]))


def _with_levels(book: ReducedLevelBook, levels_mm: Mapping[str, float]) -> ReducedLevelBook:
    """Return a book whose rows carry the levels of the fit, each with what that adds to its own reduction."""
    rows = tuple(
        replace(row, adjusted_mm=levels_mm[row.point], correction_mm=levels_mm[row.point] - row.level_mm)
        for row in book.rows
    )
    return replace(book, rows=rows, shared_out=False)


def _tell(found: LevelsTogether, suspects: tuple[int, ...], figures: SurveyFigures, remarks: Remarks) -> None:
    """Report a slip, where it can be placed; else that the readings do not agree, or that nothing checks them."""
    figure = figures.greatest_standardised_residual
    if found.ratio is None:
        remarks.finding(Finding(Code.NO_SPARE_LEVEL, Severity.CHECK, _PLACE, words.NO_SPARE_LEVEL))
        return
    if len(suspects) == 1:
        reading = found.readings[suspects[0]]
        slip = slip_mm(reading.residual_mm, reading.redundancy)
        message = words.reading_suspect(reading, slip)
        remarks.finding(
            Finding(Code.LEVEL_READING_SUSPECT, Severity.STOP, _PLACE, message, value=slip, unit="mm", figure=figure)
        )
        return
    if suspects:
        message = words.error_unplaced([found.readings[number] for number in suspects])
        remarks.finding(Finding(Code.LEVEL_ERROR_UNPLACED, Severity.STOP, _PLACE, message, figure=figure))
        return
    sure = figures.confidence_percent
    high = (chi_square_quantile(0.5 + sure.value / 200.0, found.spare) / found.spare) ** 0.5
    if found.ratio > high:
        message = words.levels_agree_badly(found.ratio)
        remarks.finding(
            Finding(Code.LEVELS_AGREE_BADLY, Severity.CHECK, _PLACE, message, found.ratio, high, figure=sure)
        )
