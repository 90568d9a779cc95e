"""What the survey sheet says of shapes measured beside the tapes, and of tapes in doubt."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.papers._blocks import heading, paragraph, points, rest, right, table
from pavewright.papers._site_words import TAPES as SAID
from pavewright.papers._words import one, two
from pavewright.survey import ShapeKind

if TYPE_CHECKING:
    from pavewright.papers._blocks import Block
    from pavewright.survey import AdjustedTapes, LevelsTogether


def shape_blocks(tapes: AdjustedTapes) -> list[Block]:
    """Return square corners and points on lines with how far they are off; nothing where there are none."""
    rows = [
        (
            f"{each.points[0]} square to {each.points[1]} and {each.points[2]}"
            if each.kind is ShapeKind.SQUARE
            else f"{each.points[0]} on {each.points[1]}–{each.points[2]}",
            f"{each.off_mm:+.1f}",
            f"{100.0 * each.redundancy:.0f} %",
        )
        for each in tapes.shapes
    ]
    return (
        [table((rest("shape"), right("off, mm", "mm"), right(SAID.checked_others)), rows, type_size=8.0, pad=2.3)]
        if rows
        else []
    )


def doubt_blocks(tapes: AdjustedTapes) -> list[Block]:
    """Return the tapes in doubt and the one that would help most, in words."""
    said = []
    for tape in tapes.suspects:
        if tape.slip_mm is None:
            names = ", ".join(f"{start}–{end}" for start, end in tape.alike)
            said.append(SAID.error_lies_one_measure(names=names))
        else:
            way = "long" if tape.slip_mm > 0.0 else "short"
            said.append(
                SAID.tape_looks_mm_too(start=tape.start, end=tape.end, slip=f"{abs(tape.slip_mm):.0f}", way=way)
            )
    more = tapes.next_tape
    if more is not None:
        length = f"{units.mm_to_m(more.length_mm):.2f} m"
        said.append(SAID.if_you_take_one(start=more.start, end=more.end, length=length))
    return [points(said)] if said else []


def level_blocks(found: LevelsTogether) -> list[Block]:
    """Return all readings of levels as they were adjusted together, the worst first."""
    ratio = "" if found.ratio is None else SAID.fit_times_what_was(ratio=two(found.ratio))
    checked = [each for each in found.readings if each.standardised is not None]
    worst = sorted(checked, key=lambda each: -abs(each.standardised or 0.0))
    rows = [
        (each.words, f"{each.residual_mm:+.1f}", f"{100.0 * each.redundancy:.0f} %", "IN DOUBT" if each.suspect else "")
        for each in worst
    ]
    once = len(found.readings) - len(checked)
    beside = SAID.nothing_checks_more_points(once=once) if once else ""
    weakest = max(found.sds_mm, key=lambda each: each[1], default=None)
    sure = SAID.least_certain_with_standard(what=weakest[0], one=one(weakest[1])) if weakest else ""
    return [
        heading(SAID.levels_adjusted_together),
        paragraph(f"{found.spare} spare readings{ratio}.{beside}{sure}"),
        table((rest("reading"), right("change", "mm"), right(SAID.checked_others), "*"), rows, type_size=8.0, pad=2.3),
    ]
