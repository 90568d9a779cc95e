"""What the survey sheet says of shapes measured beside the tapes, and of tapes in doubt."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.papers._blocks import heading, paragraph, points, rest, right, table
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
        [table((rest("shape"), right("off, mm", "mm"), right("checked by others")), rows, type_size=8.0, pad=2.3)]
        if rows
        else []
    )


def doubt_blocks(tapes: AdjustedTapes) -> list[Block]:
    """Return the tapes in doubt and the one that would help most, in words."""
    said = []
    for tape in tapes.suspects:
        if tape.slip_mm is None:
            names = ", ".join(f"{start}–{end}" for start, end in tape.alike)
            said.append(f"An error lies in one of {names}: measure these again.")
        else:
            way = "long" if tape.slip_mm > 0.0 else "short"
            said.append(f"Tape {tape.start}–{tape.end} looks {abs(tape.slip_mm):.0f} mm too {way}: measure it again.")
    more = tapes.next_tape
    if more is not None:
        length = f"{units.mm_to_m(more.length_mm):.2f} m"
        said.append(f"If you take one more tape: {more.start}–{more.end}, about {length}, helps most.")
    return [points(said)] if said else []


def level_blocks(found: LevelsTogether) -> list[Block]:
    """Return all readings of levels as they were adjusted together, the worst first."""
    ratio = "" if found.ratio is None else f"; fit {two(found.ratio)} times what was expected"
    checked = [each for each in found.readings if each.standardised is not None]
    worst = sorted(checked, key=lambda each: -abs(each.standardised or 0.0))
    rows = [
        (each.words, f"{each.residual_mm:+.1f}", f"{100.0 * each.redundancy:.0f} %", "IN DOUBT" if each.suspect else "")
        for each in worst
    ]
    once = len(found.readings) - len(checked)
    beside = f" Nothing checks {once} more, on points that were read once." if once else ""
    weakest = max(found.sds_mm, key=lambda each: each[1], default=None)
    sure = f" The least certain is {weakest[0]}, with a standard deviation of {one(weakest[1])} mm." if weakest else ""
    return [
        heading("Levels adjusted together"),
        paragraph(f"{found.spare} spare readings{ratio}.{beside}{sure}"),
        table((rest("reading"), right("change", "mm"), right("checked by others"), "*"), rows, type_size=8.0, pad=2.3),
    ]
