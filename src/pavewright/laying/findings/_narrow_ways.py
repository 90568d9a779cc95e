"""Options where pieces are too narrow to be cut and laid: each was laid before it is said."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright.findings import FieldChange, Option, OptionFacts, OptionKind
from pavewright.job import Border, BorderKind, Pattern, Taken, Use
from pavewright.laying.findings import _words_narrow as words
from pavewright.laying.search import borders_to_try, joints_to_try

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job import Laying
    from pavewright.laying.setting import Counts, Workshop

_HOPEFUL = 3
"""Other joints and borders are tried where the best start leaves no more pieces than this that are too narrow."""
_MIXES = 6
"""So many other mixes of mixed or coursed laying are tried."""
_JOINTS_MOVED = 2
"""So many other joints are tried from a start of their own."""
_RING_STEPS, _RING_STEP_MM = 12, 10.0
"""So many other beginnings of rings are tried, so far apart. [mm]"""

_Fields = tuple[tuple[str, str | float | bool], ...]


@dataclass(frozen=True, slots=True)
class _Change:
    """Changes of a laying: each in words, the laying then, and the fields that bring it about."""

    changes: tuple[str, ...]
    laying: Laying
    fields: _Fields


def narrow_ways(shop: Workshop) -> Iterator[Option]:
    """Give changes of the laying after which no piece is too narrow, one of each kind; the least change first.

    Where none is found: the start that leaves fewest such pieces, with mortar in their place.
    """
    none = True
    for family in (_starts, _joints, _split, _borders, _mixes, _rings):
        for change in family(shop):
            counts = shop.tried(change.laying)
            if counts is not None and counts[0] == 0:
                none = False
                yield _way(shop, change, counts)
                break
    if none:
        yield from _fewest_filled(shop)


def _way(shop: Workshop, change: _Change, counts: Counts) -> Option:
    _, slivers, cut = counts
    path = f"{shop.area.path}.laying"
    return Option(
        words.then_none_is_narrow(change.changes, slivers, cut),
        tuple(FieldChange(f"{path}.{field}", value) for field, value in change.fields),
    )


def _moved(laying: Laying, along_mm: float, across_mm: float) -> tuple[str, Laying, _Fields]:
    """Return in words how far a start is moved, the laying then, and its fields."""
    fields = {
        "shift_along_mm": round(laying.shift_along_mm + along_mm, 2),
        "shift_across_mm": round(laying.shift_across_mm + across_mm, 2),
    }
    return words.move_start(along_mm, across_mm), laying.model_copy(update=fields), tuple(fields.items())


def _starts(shop: Workshop) -> Iterator[_Change]:
    """Give starts that clear all by the count of what was clipped, fewest slivers first."""
    for start in sorted(shop.starts):
        if start.counts[0] == 0:
            start_moved, laying, fields = _moved(shop.laying, start.along_mm, start.across_mm)
            yield _Change((start_moved,), laying, fields)


def filled_facts(shop: Workshop) -> OptionFacts:
    """Return what an option with mortar in gaps is: under wheels it does not hold, and stands after all that does."""
    return OptionFacts(OptionKind.RULE if shop.area.area.use is not Use.FOOT else OptionKind.DESIGN)


def _fewest_filled(shop: Workshop) -> Iterator[Option]:
    best = min(shop.starts, default=None)
    if best is None or best.counts[0] >= shop.now[0]:
        return
    start_moved, laying, fields = _moved(shop.laying, best.along_mm, best.across_mm)
    counts = shop.tried(laying.model_copy(update={"fill_narrow": True}))
    if counts is not None and counts[0] == 0:
        changes = start_moved, words.fill_gaps(best.counts[0])
        change = _Change(changes, laying, (*fields, ("fill_narrow", True)))
        yield replace(_way(shop, change, counts), facts=filled_facts(shop))


def _hopeful(shop: Workshop) -> bool:
    return min((start.counts[0] for start in shop.starts), default=0) <= _HOPEFUL


def _joints(shop: Workshop) -> Iterator[_Change]:
    """Give other joints, each from the present start, then some from their own best start."""
    if shop.zoned or shop.laying.pattern is Pattern.MIXED or not _hopeful(shop):
        return
    others = sorted(joints_to_try(shop.job, shop.laying)[1:], key=lambda joint: abs(joint - shop.laying.joint_mm))
    for joint in others:
        laying = shop.laying.model_copy(update={"joint_mm": joint})
        yield _Change((words.lay_with_joints(joint),), laying, (("joint_mm", joint),))
    for joint in others[:_JOINTS_MOVED] if shop.counted else ():
        laying = shop.laying.model_copy(update={"joint_mm": joint})
        start = shop.best_start(laying)
        if start is not None:
            start_moved, moved, fields = _moved(laying, *start)
            changes = words.lay_with_joints(joint), start_moved
            yield _Change(changes, moved, (("joint_mm", joint), *fields))


def _split(shop: Workshop) -> Iterator[_Change]:
    if not shop.laying.split_corners:
        yield _Change(
            (words.split_corners(),), shop.laying.model_copy(update={"split_corners": True}), (("split_corners", True),)
        )


def _borders(shop: Workshop) -> Iterator[_Change]:
    """Give a border where there is none, or other courses and joints of the one there is, each with its best start."""
    laying = shop.laying
    if not shop.counted or not _hopeful(shop):
        return
    if laying.border is None:
        borders = [Border(kind=kind) for kind in (BorderKind.SOLDIER, BorderKind.STRETCHER)]
    else:
        borders = list(borders_to_try(shop.job, laying))
    for border in borders:
        fields: _Fields = (
            ("border.kind", border.kind.value),
            ("border.courses", border.courses),
            ("border.stretch_joints", border.stretch_joints),
        )
        bordered = laying.model_copy(update={"border": border})
        yield _Change((words.lay_border(border),), bordered, fields)
        start = shop.best_start(bordered)
        if start is not None:
            start_moved, moved, more = _moved(bordered, *start)
            yield _Change((words.lay_border(border), start_moved), moved, (*fields, *more))


def _mixes(shop: Workshop) -> Iterator[_Change]:
    laying = shop.laying
    if laying.pattern.traits.taken is not Taken.SEVERAL or (laying.pack is not None and laying.pack.laid):
        return
    for step in range(1, _MIXES + 1):
        mix = (laying.mix + step) % 10_000
        yield _Change((words.take_mix(mix),), laying.model_copy(update={"mix": mix}), (("mix", mix),))


def _rings(shop: Workshop) -> Iterator[_Change]:
    laying, rings = shop.laying, shop.setting.rings
    if rings is None or not rings.courses:
        return
    first = laying.centre_radius_mm or rings.courses[0].inner_mm
    for step in range(1, _RING_STEPS + 1):
        radius = float(round(first + step * _RING_STEP_MM))
        changed = laying.model_copy(update={"centre_radius_mm": radius})
        yield _Change((words.begin_rings(radius),), changed, (("centre_radius_mm", radius),))
