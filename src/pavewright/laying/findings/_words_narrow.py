"""The sentences on pieces too narrow to be laid, in one place: each takes facts and gives what is said."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.laying._words import first_few

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job import Border
    from pavewright.laying._types import Piece

_CM2_PER_M2 = 1e4


def too_narrow(area: str, many: int, worst: Piece, width_mm: float, limit_mm: float) -> str:
    """Say how many pieces are too narrow somewhere, and which is the worst. [mm]."""
    which = f"{many} pieces of {area} are" if many > 1 else f"1 piece of {area} is"
    return (
        f"{which} too narrow to be cut and laid. The worst is piece {worst.number}: an arm, a web or its whole "
        f"width is {width_mm:.0f} mm, in a box of {worst.along_mm:.0f} × {worst.across_mm:.0f} mm; {limit_mm:.0f} mm "
        "is the minimum."
    )


def filled_narrow(area: str, fills: int, filled_m2: float) -> str:
    """Say what mortar fills instead of pieces. [m²]."""
    gaps = f"{fills} gaps" if fills > 1 else "1 gap"
    return (
        f"{gaps} of {area}, {filled_m2 * _CM2_PER_M2:.0f} cm² in all, "
        f"{'are' if fills > 1 else 'is'} too narrow for a piece and filled with mortar, which shows. Ask the "
        "customer first; under wheels and beside loose joints mortar cracks out: use a fine concrete there."
    )


def wider_frame(numbers: Sequence[int], wider_mm: int) -> str:
    """Say how much wider a frame takes the place of arms beside what stands in the area. [mm]."""
    return (
        f"At what stands in the area (pieces {first_few(numbers)}): fit a frame or a mortar haunch {wider_mm} mm wider "
        "on that side, in place of the arm."
    )


def fill_with_mortar(limit_mm: float, gaps: int, gap_mm: float) -> str:
    """Say which gaps mortar would fill. [mm]."""
    return (
        f"Leave out what is narrower than {limit_mm:.0f} mm and fill its room with mortar: {gaps} "
        f"{'gaps' if gaps > 1 else 'gap'}, joints and all at most {gap_mm:.0f} mm wide. It shows, and does not "
        "hold under wheels."
    )


def then_none_is_narrow(changes: Sequence[str], slivers: int, cut: int) -> str:
    """Say what is changed, and what is left then."""
    first, *more = changes
    change = " and ".join((first, *(f"{each[0].lower()}{each[1:]}" for each in more)))
    left = f"{slivers} sliver{'' if slivers == 1 else 's'} and {cut} cut piece{'' if cut == 1 else 's'}"
    return f"{change}: no piece is too narrow then; {left}."


def move_start(along_mm: float, across_mm: float) -> str:
    """Say how far the start moves. [mm]."""
    return f"Move the start {along_mm:.0f} mm along and {across_mm:.0f} mm across the courses"


def fill_gaps(gaps: int) -> str:
    """Say how many gaps mortar fills."""
    return (
        f"Fill with mortar the {gaps} gap{'' if gaps == 1 else 's'} that "
        f"{'is' if gaps == 1 else 'are'} too narrow for a piece there"
    )


def lay_with_joints(joint_mm: float) -> str:
    """Say which joint is taken. [mm]."""
    return f"Lay with joints of {joint_mm:g} mm"


def split_corners() -> str:
    """Say that pieces with an inner corner become two."""
    return "Lay pieces with an inner corner as two, with a joint at the corner"


def lay_border(border: Border) -> str:
    """Say which border is laid."""
    many = f"{border.courses} courses" if border.courses > 1 else "1 course"
    stretched = ", its joints stretched" if border.stretch_joints else ""
    return f"Lay a border of {many} of {border.kind.value}s{stretched}"


def take_mix(mix: int) -> str:
    """Say which mix is taken."""
    return f"Take mix {mix}"


def begin_rings(radius_mm: float) -> str:
    """Say where the rings begin. [mm]."""
    return f"Begin the rings {radius_mm:.0f} mm from the centre"
