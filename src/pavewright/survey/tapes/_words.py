"""Sentences of the findings on tapes, made from what was found."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.survey._remarks import metres, millimetres
from pavewright.survey._types_tapes import TapeGain

if TYPE_CHECKING:
    from pavewright.survey._types_tapes import AdjustedTapes, NextTape, SuspectTape, TapeResidual

NO_SPARE_TAPE = (
    "Nothing checks this plan: there is no spare tape, and a slip in any one would not show. Measure both "
    "diagonals, or a third tape to every point."
)
TAPES_AGREE_WELL = (
    "The tapes agree better than chance lets such tapes do: they are better than was assumed, or one was "
    "worked out from the others instead of measured."
)


def tape_named(start: str, end: str) -> str:
    """Return the name of a tape by its ends."""
    return f"{start}–{end}"


def tape_unchecked(tape: TapeResidual) -> str:
    """Say that no other tape checks this one."""
    return (
        f"Nothing checks tape {tape_named(tape.start, tape.end)} {metres(tape.measured_mm)}: a slip in it would not "
        f"show. Measure it again, or one more tape to {tape.start} or {tape.end}."
    )


def tapes_agree_badly(ratio: float) -> str:
    """Say that the tapes agree worse than such tapes do.

    Args:
        ratio: How many times worse. [-]
    """
    return (
        f"The tapes agree {ratio:.1f} times worse than such tapes do, and no single one stands out: hold "
        f"the tape level and pulled tight, and measure the longest ones again."
    )


def tape_suspect(start: str, end: str, measured_mm: float, slip_mm: float) -> str:
    """Say which tape is wrong and by how much.

    Args:
        start: Where the tape starts.
        end: Where it ends.
        measured_mm: What was measured. [mm]
        slip_mm: How much too long it is. [mm]
    """
    way = "long" if slip_mm > 0 else "short"
    return (
        f"Tape {tape_named(start, end)} {metres(measured_mm)} looks about {millimetres(round(abs(slip_mm)))} too "
        f"{way}: the others make it {metres(measured_mm - slip_mm)}. Measure it again."
    )


def corner_suspect(point: str, slip_mm: float) -> str:
    """Say that a corner is not square, or a point not on its line.

    Args:
        point: The corner or point.
        slip_mm: By how much. [mm]
    """
    return (
        f"{point} is not square or not on its line, by about {millimetres(round(abs(slip_mm)))}: the "
        f"tapes say so. Try it again, or leave it out."
    )


def tape_error_unplaced(tapes: AdjustedTapes, suspect: SuspectTape) -> str:
    """Say among which tapes an error lies, and what would place it."""
    names = ", ".join(tape_named(start, end) for start, end in suspect.alike)
    return (
        f"The tapes do not agree, and {'one spare tape' if tapes.spare == 1 else 'so few spare tapes'} can show "
        f"the error but not place it: it is in one of {names}. {_settling(tapes.next_tape)}"
    )


def _settling(more: NextTape | None) -> str:
    """Return what to measure so that an error shows its place."""
    if more is None or more.gain is not TapeGain.PLACE:
        return "Measure these again, or one more tape across them."
    return f"{_one_tape(more)}, goes furthest to settle it; or measure these again."


def next_checks(more: NextTape) -> str:
    """Say which tape checks most of what nothing checks."""
    return f"{_one_tape(more)}, does most to check what nothing checks now."


def next_fixes(more: NextTape) -> str:
    """Say which tape fixes most of what the sketch leaves open."""
    what = f"fixes {', '.join(more.fixes)}" if more.fixes else "brings the shape nearer to being fixed"
    return f"{_one_tape(more)} by the sketch, {what}."


def next_strengthens(more: NextTape) -> str:
    """Say which tape makes the weakest point better known."""
    return (
        f"{_one_tape(more)}, helps most: {more.point} is known to {millimetres(round(more.before))} now, and no point "
        f"worse than {millimetres(round(more.after))} with it."
    )


def _one_tape(more: NextTape) -> str:
    return f"One tape from {more.start} to {more.end}, about {metres(more.length_mm)}"


def tape_angle(name: str, first: str, second: str, angle_deg: float) -> str:
    """Say that two tapes cut too flat.

    Args:
        name: The point that they place.
        first: Where one starts.
        second: Where the other starts.
        angle_deg: The angle between them. [deg]
    """
    return (
        f"Tapes {tape_named(first, name)} and {tape_named(second, name)} cut at {angle_deg:.0f}°: a few millimetres in "
        f"a tape move {name} by many. Measure it from a point that lies more to the side."
    )
