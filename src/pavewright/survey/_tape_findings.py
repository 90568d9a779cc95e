"""What the adjusted tapes tell: whether they agree, which one is suspect, and which nothing checks."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.findings import Finding, Severity
from pavewright.survey._remarks import metres, millimetres

if TYPE_CHECKING:
    from pavewright.rules import Rulebook
    from pavewright.survey._remarks import Remarks
    from pavewright.survey._types import AdjustedTapes, TapeResidual

_ALIKE = 0.02
"""Two standardised residuals within this part of each other cannot be told apart. [-]"""
_PLACE = "tape plan"


def slip_mm(residual_mm: float, redundancy: float) -> float:
    """Return the size of the slip that a residual points to: measured less true. [mm].

    Args:
        residual_mm: Adjusted less measured. [mm]
        redundancy: How far the other tapes check this one, more than 0, up to 1. [-]

    Valid for: one slip among otherwise sound tapes.
    Source: baarda_testing, −v / r

    >>> slip_mm(-12.0, 0.25)
    48.0
    """
    return -residual_mm / redundancy


def tell_network(tapes: AdjustedTapes, rules: Rulebook, remarks: Remarks) -> None:
    """Tell what the fit of the tapes shows."""
    if tapes.spare == 0:
        remarks.finding(
            Finding(
                "survey.no_spare_tape",
                Severity.CHECK,
                _PLACE,
                "Nothing checks this plan: there is no spare tape, and a slip in any one would not show. Measure both "
                "diagonals, or a third tape to every point.",
            )
        )
        return
    _tell_unchecked(tapes, rules, remarks)
    _tell_fit(tapes, rules, remarks)


def _tell_unchecked(tapes: AdjustedTapes, rules: Rulebook, remarks: Remarks) -> None:
    figure = rules.figure("survey.least_redundancy")
    for tape in tapes.residuals:
        if tape.redundancy < figure.value:
            remarks.finding(
                Finding(
                    "survey.tape_unchecked",
                    Severity.CHECK,
                    f"tape {_named(tape)}",
                    f"Nothing checks tape {_named(tape)} {metres(tape.measured_mm)}: a slip in it would not show. "
                    f"Measure it again, or one more tape to {tape.start} or {tape.end}.",
                    value=tape.redundancy,
                    limit=figure.value,
                    figure=figure,
                )
            )


def _tell_fit(tapes: AdjustedTapes, rules: Rulebook, remarks: Remarks) -> None:
    """Tell whether the tapes agree as well as tapes do."""
    if tapes.ratio is None or tapes.ratio_low is None or tapes.ratio_high is None:
        return
    worst = max(tapes.residuals, key=lambda tape: abs(tape.standardised or 0.0))
    figure = rules.figure("survey.greatest_standardised_residual")
    if tapes.ratio > tapes.ratio_high and abs(worst.standardised or 0.0) > figure.value:
        _tell_slip(tapes, worst, rules, remarks)
    elif tapes.ratio > tapes.ratio_high:
        remarks.finding(
            Finding(
                "survey.tapes_agree_badly",
                Severity.CHECK,
                _PLACE,
                f"The tapes agree {tapes.ratio:.1f} times worse than such tapes do, and no single one stands out: hold "
                f"the tape level and pulled tight, and measure the longest ones again.",
                value=tapes.ratio,
                limit=tapes.ratio_high,
                figure=rules.figure("survey.confidence_percent"),
            )
        )
    elif tapes.ratio < tapes.ratio_low:
        remarks.finding(
            Finding(
                "survey.tapes_agree_well",
                Severity.NOTE,
                _PLACE,
                "The tapes agree better than chance lets such tapes do: they are better than was assumed, or one was "
                "worked out from the others instead of measured.",
                value=tapes.ratio,
                limit=tapes.ratio_low,
                figure=rules.figure("survey.confidence_percent"),
            )
        )


def _tell_slip(tapes: AdjustedTapes, worst: TapeResidual, rules: Rulebook, remarks: Remarks) -> None:
    """Tell a slip: in which tape if that can be known, else among which."""
    figure = rules.figure("survey.greatest_standardised_residual")
    largest = abs(worst.standardised or 0.0)
    alike = tuple(tape for tape in tapes.residuals if abs(tape.standardised or 0.0) >= largest * (1.0 - _ALIKE))
    if len(alike) == 1:
        slip = slip_mm(worst.residual_mm, worst.redundancy)
        way = "long" if slip > 0 else "short"
        code, place, unit = "survey.tape_suspect", f"tape {_named(worst)}", "mm"
        value, limit = slip, figure.value * worst.sd_mm / math.sqrt(worst.redundancy)
        message = (
            f"Tape {_named(worst)} {metres(worst.measured_mm)} looks about {millimetres(round(abs(slip)))} too {way}: "
            f"the others make it {metres(worst.measured_mm - slip)}. Measure it again."
        )
    else:
        code, place, unit = "survey.tape_error_unplaced", _PLACE, ""
        value, limit = largest, figure.value
        names = ", ".join(_named(tape) for tape in alike)
        message = (
            f"The tapes do not agree, and {'one spare tape' if tapes.spare == 1 else 'so few spare tapes'} can show "
            f"the error but not place it: it is in one of {names}. Measure these again, or one more tape across them."
        )
    remarks.finding(
        Finding(
            code,
            Severity.STOP,
            place,
            message,
            value=value,
            limit=limit,
            unit=unit,
            figure=figure,
        )
    )


def _named(tape: TapeResidual) -> str:
    return f"{tape.start}–{tape.end}"
