"""The workshop: other ways of laying one area, tried before they are said."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from typing import TYPE_CHECKING

from pavewright.job import Pattern
from pavewright.laying._types import PieceKind
from pavewright.laying.mixed import MixedRefusal
from pavewright.laying.pieces import frame_of, is_sliver, sizes
from pavewright.laying.search import best_shifts, field_of
from pavewright.laying.setting._kept import cut_parts, kept_parts, narrow_parts
from pavewright.laying.setting._mixed_placing import with_mixed
from pavewright.laying.setting._setting import limits_of, region_of, setting_of

if TYPE_CHECKING:
    from pavewright.job import Job, Laying
    from pavewright.laying._figures import LayingFigures
    from pavewright.laying._types import Piece
    from pavewright.laying.search import Ranked
    from pavewright.laying.setting._setting import Setting
    from pavewright.survey import PlanArea, Survey

_MAX_SHIFTS = 500
"""About so many starts are counted: the whole search is asked for by itself."""
_CLIPPED = 4
"""So many of the best of them are really clipped."""
_KEPT = 16
"""Answers kept: a change of a price or a level asks again for the same field."""

Counts = tuple[int, int, int]
"""Pieces too narrow to be cut and laid, slivers, and cut pieces in all."""


@dataclass(frozen=True, slots=True, order=True)
class Start:
    """A start that was really clipped: what it leaves, and how far it is moved the way laying runs. [mm]."""

    counts: Counts
    along_mm: float
    across_mm: float


@dataclass(frozen=True)
class Workshop:
    """What it takes to try another way of laying one area.

    Attributes:
        job: The job.
        area: The area, or a part of one.
        survey: What was measured, adjusted.
        known: Figures of this room.
        setting: How it is laid now.
        pieces: Its pieces now.
        zoned: Whether its joint also shapes the seams of zones: it is not changed then.
        tries: Whether other ways are tried at all; where options are not asked for, none is found.
    """

    job: Job
    area: PlanArea
    survey: Survey
    known: LayingFigures
    setting: Setting
    pieces: tuple[Piece, ...]
    zoned: bool
    tries: bool = True

    @property
    def laying(self) -> Laying:
        """How it is laid now."""
        return self.area.area.laying

    @property
    def now(self) -> Counts:
        """What it leaves now."""
        return _counts([piece for piece in self.pieces if piece.kind is PieceKind.CUT])

    @property
    def counted(self) -> bool:
        """Whether the pattern has starts that can be counted: another start of mixed sizes is another layout."""
        return self.laying.pattern not in {Pattern.MIXED, Pattern.RINGS}

    @property
    def starts_tried(self) -> int:
        """How many starts were counted."""
        return _starts_of(_Question(self.setting, self.laying, self.known))[1]

    @cached_property
    def starts(self) -> tuple[Start, ...]:
        """The best starts by the count of the kernel, really clipped; a border stays as it is."""
        if not self.counted or not self.tries:
            return ()
        border = _counts([piece for piece in self.pieces if piece.border and piece.kind is PieceKind.CUT])
        found, _ = _starts_of(_Question(self.setting, self.laying, self.known))
        return tuple(
            replace(each, counts=(border[0] + narrow, border[1] + slivers, border[2] + cut))
            for each in found
            for narrow, slivers, cut in (each.counts,)
        )

    def setting_with(self, laying: Laying) -> tuple[PlanArea, Setting] | None:
        """Return the area and how it is laid another way; None where nothing is left to lay or nothing is tried."""
        if not self.tries:
            return None
        changed = replace(self.area, area=self.area.area.model_copy(update={"laying": laying}))
        frame = frame_of(changed, self.survey)
        region = region_of(changed, frame)
        setting = setting_of(self.job, changed, frame, region) if region is not None else None
        return (changed, setting) if setting is not None and setting.field else None

    def best_start(self, laying: Laying) -> tuple[float, float] | None:
        """Return how far another way of laying is best moved, the way laying runs, by the count of the kernel. [mm]."""
        found = self.setting_with(laying)
        if found is None:
            return None
        x, y = _ranked(found[1], self.known, 1).shifts[0].tolist()
        return _the_way_laying_runs(found[1], x, y)

    def tried(self, laying: Laying) -> Counts | None:
        """Return what another way of laying leaves, really clipped; None where it cannot be laid."""
        found = self.setting_with(laying)
        if found is None:
            return None
        setting = with_mixed(found[1], found[0], self.known)
        return None if isinstance(setting, MixedRefusal) else counts_of(setting, laying, self.known)


class _Question:
    """Which starts are best of a field: two are the same where all that decides the answer is."""

    def __init__(self, setting: Setting, laying: Laying, known: LayingFigures) -> None:
        self.setting, self.laying, self.known = setting, laying, known
        limits = tuple(sizes(unit, known) for unit in setting.units)
        ways = laying.split_corners, laying.fill_narrow
        self._key = tuple(part.wkb for part in setting.field), setting.layout, limits, ways

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Question) and self._key == other._key

    def __hash__(self) -> int:
        return hash(self._key)


@lru_cache(maxsize=_KEPT)
def _starts_of(asked: _Question) -> tuple[tuple[Start, ...], int]:
    """Return the best starts of a field, really clipped, and how many were counted."""
    setting, ranked = asked.setting, _ranked(asked.setting, asked.known, _CLIPPED)
    found = []
    for x, y in ranked.shifts.tolist():
        moved = replace(setting, layout=setting.layout.moved(x, y), strips=())
        counts = counts_of(moved, asked.laying, asked.known)
        found.append(Start(counts, *_the_way_laying_runs(setting, x, y)))
    return tuple(found), ranked.tried


def _ranked(setting: Setting, known: LayingFigures, kept: int) -> Ranked:
    limits, layout = limits_of(setting, known), setting.layout
    return best_shifts(field_of(setting.field, layout, limits), layout.period_mm, limits, _MAX_SHIFTS, kept)


def _the_way_laying_runs(setting: Setting, x_mm: float, y_mm: float) -> tuple[float, float]:
    """Return a shift in the frame as one of the document. [mm]."""
    wide, deep = setting.layout.period_mm
    along = -x_mm % wide if setting.layout.from_right else x_mm
    return along, -y_mm % deep if setting.layout.from_far else y_mm


def _counts(cut: list[Piece]) -> Counts:
    return sum(piece.neck_mm is not None for piece in cut), sum(piece.sliver for piece in cut), len(cut)


def counts_of(setting: Setting, laying: Laying, known: LayingFigures) -> Counts:
    """Return what a setting leaves, really clipped."""
    kept, _ = kept_parts(setting, laying, known, whole_too=False)
    limits = [sizes(unit, known) for unit in setting.units]
    cut = cut_parts(kept, limits)
    slivers = sum(is_sliver(each.on_unit, limits[each.size]) for each in cut)
    return len(narrow_parts(cut, limits)), slivers, len(cut)
