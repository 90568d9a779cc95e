"""What the adjusted tapes tell: whether they agree, which one is suspect, and which nothing checks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import Finding, Severity
from pavewright.survey._codes import Code
from pavewright.survey._types_tapes import TapeGain
from pavewright.survey.tapes import _words as words

if TYPE_CHECKING:
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey._remarks import Remarks
    from pavewright.survey._types_tapes import AdjustedTapes, SuspectTape

_PLACE = "tape plan"


def tell_network(tapes: AdjustedTapes, figures: SurveyFigures, remarks: Remarks) -> None:
    """Report what the fit of the tapes shows."""
    if tapes.next_tape is not None and tapes.next_tape.gain is TapeGain.FIX:
        _tell_fit(tapes, figures, remarks)
        _tell_next(tapes, figures, remarks)
        return
    if tapes.spare == 0:
        remarks.finding(
            Finding(
                Code.NO_SPARE_TAPE,
                Severity.CHECK,
                _PLACE,
                words.NO_SPARE_TAPE,
            )
        )
        _tell_next(tapes, figures, remarks)
        return
    _tell_unchecked(tapes, figures, remarks)
    _tell_fit(tapes, figures, remarks)
    _tell_next(tapes, figures, remarks)


def _tell_unchecked(tapes: AdjustedTapes, figures: SurveyFigures, remarks: Remarks) -> None:
    figure = figures.min_redundancy
    for tape in tapes.residuals:
        if tape.redundancy < figure.value:
            remarks.finding(
                Finding(
                    Code.TAPE_UNCHECKED,
                    Severity.CHECK,
                    f"tape {words.tape_named(tape.start, tape.end)}",
                    words.tape_unchecked(tape),
                    value=tape.redundancy,
                    limit=figure.value,
                    figure=figure,
                )
            )


def _tell_fit(tapes: AdjustedTapes, figures: SurveyFigures, remarks: Remarks) -> None:
    """Report whether the tapes agree as well as tapes do."""
    if tapes.ratio is None or tapes.ratio_low is None or tapes.ratio_high is None:
        return
    if tapes.suspects:
        for suspect in tapes.suspects:
            _tell_slip(tapes, suspect, figures, remarks)
    elif tapes.ratio > tapes.ratio_high:
        remarks.finding(
            Finding(
                Code.TAPES_AGREE_BADLY,
                Severity.CHECK,
                _PLACE,
                words.tapes_agree_badly(tapes.ratio),
                value=tapes.ratio,
                limit=tapes.ratio_high,
                figure=figures.confidence_percent,
            )
        )
    elif tapes.ratio < tapes.ratio_low:
        remarks.finding(
            Finding(
                Code.TAPES_AGREE_WELL,
                Severity.NOTE,
                _PLACE,
                words.TAPES_AGREE_WELL,
                value=tapes.ratio,
                limit=tapes.ratio_low,
                figure=figures.confidence_percent,
            )
        )


def _tell_slip(tapes: AdjustedTapes, suspect: SuspectTape, figures: SurveyFigures, remarks: Remarks) -> None:
    """Report a slip: in which tape if that can be known, else among which."""
    figure = figures.greatest_standardised_residual
    if suspect.slip_mm is not None:
        slip = suspect.slip_mm
        code, value, unit = Code.TAPE_SUSPECT, slip, "mm"
        if suspect.measured_mm:
            place = f"tape {words.tape_named(suspect.start, suspect.end)}"
            message = words.tape_suspect(suspect.start, suspect.end, suspect.measured_mm, slip)
        else:
            place = f"corner or line at {suspect.start}"
            message = words.corner_suspect(suspect.start, slip)
    else:
        code, place, value, unit = Code.TAPE_ERROR_UNPLACED, _PLACE, None, ""
        message = words.tape_error_unplaced(tapes, suspect)
    remarks.finding(Finding(code, Severity.STOP, place, message, value=value, limit=None, unit=unit, figure=figure))


def _tell_next(tapes: AdjustedTapes, figures: SurveyFigures, remarks: Remarks) -> None:
    """Report the tape that helps most, where something is unchecked or a point is weak."""
    more = tapes.next_tape
    if more is None or more.gain is TapeGain.PLACE:
        return
    figure = figures.weak_point_mm
    if more.gain is TapeGain.FIX:
        message = words.next_fixes(more)
    elif more.gain is TapeGain.CHECK:
        message = words.next_checks(more)
    elif more.before > figure.value:
        message = words.next_strengthens(more)
    else:
        return
    remarks.finding(Finding(Code.NEXT_TAPE, Severity.NOTE, _PLACE, message, more.before, figure=figure))
