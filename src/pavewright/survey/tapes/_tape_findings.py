"""What the adjusted tapes tell: whether they agree, which one is suspect, and which nothing checks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import Finding, Severity
from pavewright.survey._codes import Code
from pavewright.survey._remarks import metres, millimetres

if TYPE_CHECKING:
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey._remarks import Remarks
    from pavewright.survey._types_tapes import AdjustedTapes, SuspectTape, TapeResidual

_PLACE = "tape plan"


def tell_network(tapes: AdjustedTapes, figures: SurveyFigures, remarks: Remarks) -> None:
    """Report what the fit of the tapes shows."""
    if tapes.spare == 0:
        remarks.finding(
            Finding(
                Code.NO_SPARE_TAPE,
                Severity.CHECK,
                _PLACE,
                "Nothing checks this plan: there is no spare tape, and a slip in any one would not show. Measure both "
                "diagonals, or a third tape to every point.",
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
                    f"tape {_named(tape)}",
                    f"Nothing checks tape {_named(tape)} {metres(tape.measured_mm)}: a slip in it would not show. "
                    f"Measure it again, or one more tape to {tape.start} or {tape.end}.",
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
                f"The tapes agree {tapes.ratio:.1f} times worse than such tapes do, and no single one stands out: hold "
                f"the tape level and pulled tight, and measure the longest ones again.",
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
                "The tapes agree better than chance lets such tapes do: they are better than was assumed, or one was "
                "worked out from the others instead of measured.",
                value=tapes.ratio,
                limit=tapes.ratio_low,
                figure=figures.confidence_percent,
            )
        )


def _tell_slip(tapes: AdjustedTapes, suspect: SuspectTape, figures: SurveyFigures, remarks: Remarks) -> None:
    """Report a slip: in which tape if that can be known, else among which."""
    figure = figures.greatest_standardised_residual
    if suspect.slip_mm is not None:
        slip, name = suspect.slip_mm, f"{suspect.start}–{suspect.end}"
        code, place, value, unit = Code.TAPE_SUSPECT, f"tape {name}", slip, "mm"
        if suspect.measured_mm:
            way = "long" if slip > 0 else "short"
            message = (
                f"Tape {name} {metres(suspect.measured_mm)} looks about {millimetres(round(abs(slip)))} too {way}: "
                f"the others make it {metres(suspect.measured_mm - slip)}. Measure it again."
            )
        else:
            place = f"corner or line at {suspect.start}"
            message = (
                f"{suspect.start} is not square or not on its line, by about {millimetres(round(abs(slip)))}: the "
                f"tapes say so. Try it again, or leave it out."
            )
    else:
        code, place, value, unit = Code.TAPE_ERROR_UNPLACED, _PLACE, None, ""
        names = ", ".join(f"{start}–{end}" for start, end in suspect.alike)
        message = (
            f"The tapes do not agree, and {'one spare tape' if tapes.spare == 1 else 'so few spare tapes'} can show "
            f"the error but not place it: it is in one of {names}. {_settling(tapes)}"
        )
    remarks.finding(Finding(code, Severity.STOP, place, message, value=value, limit=None, unit=unit, figure=figure))


def _settling(tapes: AdjustedTapes) -> str:
    """Return what to measure so that an error shows its place."""
    more = tapes.next_tape
    if more is None or more.gain != "place":
        return "Measure these again, or one more tape across them."
    return (
        f"One tape from {more.start} to {more.end}, about {metres(more.length_mm)}, goes furthest to settle it; or "
        f"measure these again."
    )


def _tell_next(tapes: AdjustedTapes, figures: SurveyFigures, remarks: Remarks) -> None:
    """Report the tape that helps most, where something is unchecked or a point is weak."""
    more = tapes.next_tape
    if more is None or more.gain == "place":
        return
    figure = figures.weak_point_mm
    tape = f"One tape from {more.start} to {more.end}, about {metres(more.length_mm)}"
    if more.gain == "check":
        message = f"{tape}, does most to check what nothing checks now."
    elif more.before > figure.value:
        message = (
            f"{tape}, helps most: {more.point} is known to {millimetres(round(more.before))} now, and no point worse "
            f"than {millimetres(round(more.after))} with it."
        )
    else:
        return
    remarks.finding(Finding(Code.NEXT_TAPE, Severity.NOTE, _PLACE, message, more.before, figure=figure))


def _named(tape: TapeResidual) -> str:
    return f"{tape.start}–{tape.end}"
