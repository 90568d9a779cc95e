"""Options where pieces are too narrow to be cut and laid: each was laid before it is said."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright.findings import FieldChange, Option, OptionFacts, OptionKind
from pavewright.job import Border, BorderKind, Pattern, Taken, Use
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
    """One change of a laying: in words, the laying, and the fields that bring it about."""

    words: str
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
    left = f"{slivers} sliver{'' if slivers == 1 else 's'} and {cut} cut piece{'' if cut == 1 else 's'}"
    path = f"{shop.area.path}.laying"
    return Option(
        f"{change.words}: no piece is too narrow then; {left}.",
        tuple(FieldChange(f"{path}.{field}", value) for field, value in change.fields),
    )


def _moved(laying: Laying, along_mm: float, across_mm: float) -> tuple[str, Laying, _Fields]:
    """Return in words how far a start is moved, the laying then, and its fields."""
    fields = {
        "shift_along_mm": round(laying.shift_along_mm + along_mm, 2),
        "shift_across_mm": round(laying.shift_across_mm + across_mm, 2),
    }
    words = f"ove the start {along_mm:.0f} mm along and {across_mm:.0f} mm across the courses"
    return words, laying.model_copy(update=fields), tuple(fields.items())


def _starts(shop: Workshop) -> Iterator[_Change]:
    """Give starts that clear all by the count of what was clipped, fewest slivers first."""
    for start in sorted(shop.starts):
        if start.counts[0] == 0:
            words, laying, fields = _moved(shop.laying, start.along_mm, start.across_mm)
            yield _Change(f"M{words}", laying, fields)


def filled_facts(shop: Workshop) -> OptionFacts:
    """Return what an option with mortar in gaps is: under wheels it does not hold, and stands after all that does."""
    return OptionFacts(OptionKind.RULE if shop.area.area.use is not Use.FOOT else OptionKind.DESIGN)


def _fewest_filled(shop: Workshop) -> Iterator[Option]:
    best = min(shop.starts, default=None)
    if best is None or best.counts[0] >= shop.now[0]:
        return
    words, laying, fields = _moved(shop.laying, best.along_mm, best.across_mm)
    counts = shop.tried(laying.model_copy(update={"fill_narrow": True}))
    if counts is not None and counts[0] == 0:
        many = best.counts[0]
        change = _Change(
            f"M{words} and fill with mortar the {many} gap{'' if many == 1 else 's'} that "
            f"{'is' if many == 1 else 'are'} too narrow for a piece there",
            laying,
            (*fields, ("fill_narrow", True)),
        )
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
        yield _Change(f"Lay with joints of {joint:g} mm", laying, (("joint_mm", joint),))
    for joint in others[:_JOINTS_MOVED] if shop.counted else ():
        laying = shop.laying.model_copy(update={"joint_mm": joint})
        start = shop.best_start(laying)
        if start is not None:
            words, moved, fields = _moved(laying, *start)
            yield _Change(f"Lay with joints of {joint:g} mm and m{words}", moved, (("joint_mm", joint), *fields))


def _split(shop: Workshop) -> Iterator[_Change]:
    if not shop.laying.split_corners:
        words = "Lay pieces with an inner corner as two, with a joint at the corner"
        yield _Change(words, shop.laying.model_copy(update={"split_corners": True}), (("split_corners", True),))


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
        many = f"{border.courses} courses" if border.courses > 1 else "1 course"
        stretched = ", its joints stretched" if border.stretch_joints else ""
        words = f"Lay a border of {many} of {border.kind.value}s{stretched}"
        bordered = laying.model_copy(update={"border": border})
        yield _Change(words, bordered, fields)
        start = shop.best_start(bordered)
        if start is not None:
            moved_words, moved, more = _moved(bordered, *start)
            yield _Change(f"{words} and m{moved_words}", moved, (*fields, *more))


def _mixes(shop: Workshop) -> Iterator[_Change]:
    laying = shop.laying
    if laying.pattern.traits.taken is not Taken.SEVERAL or (laying.pack is not None and laying.pack.laid):
        return
    for step in range(1, _MIXES + 1):
        mix = (laying.mix + step) % 10_000
        yield _Change(f"Take mix {mix}", laying.model_copy(update={"mix": mix}), (("mix", mix),))


def _rings(shop: Workshop) -> Iterator[_Change]:
    laying, rings = shop.laying, shop.setting.rings
    if rings is None or not rings.courses:
        return
    first = laying.centre_radius_mm or rings.courses[0].inner_mm
    for step in range(1, _RING_STEPS + 1):
        radius = float(round(first + step * _RING_STEP_MM))
        changed = laying.model_copy(update={"centre_radius_mm": radius})
        yield _Change(f"Begin the rings {radius:.0f} mm from the centre", changed, (("centre_radius_mm", radius),))
