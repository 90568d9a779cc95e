"""Which of the starts that were laid are shown: those that are best at something, and in what words."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import median
from typing import TYPE_CHECKING

from pavewright.job import StartCorner

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.job import Laying
    from pavewright.laying._types import LaidArea, Piece


@dataclass(frozen=True)
class Choice:
    """One way to begin an area.

    Attributes:
        best_at: What no other start that was laid does better.
        fields: Fields of the laying that bring it about, as they stand in the job document. [unit of the field]
        cut: Number of cut pieces.
        slivers: Number of cut pieces smaller than wanted.
        notched: Number of pieces with an inner corner.
        smallest_mm: Smallest size of a cut piece; None where nothing is cut. [mm]
        saw_m: Length of all saw cuts. [m]
        units_with_offcuts: Units needed with offcuts used again.
        uneven_mm: How far the pieces at opposite edges differ: the first course from the last, and the first of a
            course from its last. [mm]
        unlayable: Number of pieces that are too narrow somewhere to be cut and laid.
    """

    best_at: tuple[str, ...]
    fields: tuple[tuple[str, float | str | None], ...]
    cut: int
    slivers: int
    notched: int
    smallest_mm: float | None
    saw_m: float
    units_with_offcuts: int
    uneven_mm: float = 0.0
    unlayable: int = 0


_AIMS: tuple[tuple[str, Callable[[LaidArea], tuple[float, ...]]], ...] = (
    ("fewest slivers", lambda laid: (laid.slivers, laid.cut)),
    ("fewest cut pieces", lambda laid: (laid.cut, laid.slivers)),
    ("fewest units", lambda laid: (laid.units_with_offcuts, laid.slivers, laid.cut)),
    ("least sawing", lambda laid: (round(laid.saw_m, 2), laid.slivers)),
    ("largest smallest piece", lambda laid: (-_smallest(laid) // 1.0, laid.slivers, laid.cut)),
    ("most even edges", lambda laid: (round(_uneven(laid)), laid.slivers, laid.cut)),
)


def front(laid: list[tuple[Laying, LaidArea]], before: Laying) -> tuple[Choice, ...]:
    """Return the starts that are best at something, each once."""
    best_at: dict[int, list[str]] = {}
    for aim, measure in _AIMS:
        # what can be cut and laid at all comes first
        place = min(range(len(laid)), key=lambda each: (laid[each][1].unlayable, *measure(laid[each][1]), each))
        best_at.setdefault(place, []).append(aim)
    return tuple(choice_of(*laid[place], before, tuple(aims)) for place, aims in best_at.items())


def _smallest(laid: LaidArea) -> float:
    return min((min(piece.along_mm, piece.across_mm) for piece in laid.pieces if piece.saw_m > 0.0), default=math.inf)


def _uneven(laid: LaidArea) -> float:
    """Return how far the pieces at opposite edges of the field differ: the eye sees that first. [mm]."""
    courses: dict[int, list[Piece]] = {}
    for piece in laid.pieces:
        if not piece.border and not piece.zone:
            courses.setdefault(piece.course, []).append(piece)
    if not courses:
        return 0.0
    first, last = (max(each.across_mm for each in courses[number]) for number in (min(courses), max(courses)))
    ends = [abs(row[0].along_mm - row[-1].along_mm) for row in courses.values() if len(row) > 1]
    return max(abs(first - last), median(ends) if ends else 0.0)


def choice_of(laying: Laying, laid: LaidArea, before: Laying, best_at: tuple[str, ...]) -> Choice:
    names = ("turn_deg", "joint_mm", "start_corner", "shift_along_mm", "shift_across_mm", "mix")
    changed = [(name, getattr(laying, name)) for name in names if getattr(laying, name) != getattr(before, name)]
    if laying.border is not None and before.border is not None and laying.border != before.border:
        for name in ("courses", "stretch_joints"):
            value = getattr(laying.border, name)
            if value != getattr(before.border, name):
                changed.append((f"border.{name}", value))
    smallest = _smallest(laid)
    return Choice(
        best_at=best_at,
        fields=tuple((name, value.value if isinstance(value, StartCorner) else value) for name, value in changed),
        cut=laid.cut,
        slivers=laid.slivers,
        notched=sum(piece.notched for piece in laid.pieces),
        smallest_mm=None if math.isinf(smallest) else smallest,
        saw_m=laid.saw_m,
        units_with_offcuts=laid.units_with_offcuts,
        uneven_mm=_uneven(laid),
        unlayable=laid.unlayable,
    )


def words_of(now: Choice, choices: tuple[Choice, ...], size: tuple[int, int, int, int]) -> str:
    """Return what the search found: the most that any start saves, and how much was tried."""
    tried, turns, joints, laid = size
    saved = [
        (max(getattr(now, field) - min(getattr(choice, field) for choice in choices), 0), one, many)
        for field, one, many in (
            ("slivers", "sliver", "slivers"),
            ("cut", "cut piece", "cut pieces"),
            ("units_with_offcuts", "unit", "units"),
        )
    ]
    slivers, cuts, wanted = (f"{count} {one if count == 1 else many}" for count, one, many in saved)
    return (
        f"{tried} starts in {turns} directions and with {joints} widths of joint were counted and the best {laid} laid "
        f"and cut. No start, joint or angle tried counts better, and of those laid none saves more than {slivers}, "
        f"{cuts} or {wanted} against now.{_narrow_words(now, choices)}"
    )


def _narrow_words(now: Choice, choices: tuple[Choice, ...]) -> str:
    """Return what the starts leave that cannot be cut and laid; empty where there is none now and then."""
    best = min(choice.unlayable for choice in choices)
    if not best and not now.unlayable:
        return ""
    left = "no piece" if not best else f"{best} piece{'s' if best > 1 else ''}"
    return f" Too narrow to be cut and laid: {now.unlayable} now, {left} with the best of them."
