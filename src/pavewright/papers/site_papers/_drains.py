"""Drains while they lie open: what is planned of each, unknown where nobody entered it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.papers._words import level, two
from pavewright.papers.look import CheckRow, checklist, paragraph
from pavewright.papers.site_papers._words import WORDS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.papers._input import PaperInput
    from pavewright.papers.look import Block


def drain_rows(given: PaperInput) -> list[Block]:
    """Return every gully, channel, pipe and soakaway with what is planned of it."""
    rows = list(_rows(given))
    if not rows:
        return [paragraph(WORDS.no_drains)]
    return [checklist([*rows, CheckRow(WORDS.falls)], heads=_HEADS)]


_HEADS = (WORDS.drain_heads[0], WORDS.drain_heads[1], WORDS.drain_heads[2], WORDS.drain_heads[3])


def _rows(given: PaperInput) -> Iterator[CheckRow]:
    site = given.plan.survey.site
    for placed in site.gullies:
        yield _row(placed.gully.name, WORDS.invert, _level(placed.gully.invert_level_mm))
    for channel in site.channels:
        yield _row(channel.name, WORDS.invert, _level(channel.invert_level_mm))
    for inlet in given.plan.water.inlets:
        metres = WORDS.unknown if inlet.run.length_m is None else f"{two(inlet.run.length_m)} m"
        outfall = inlet.run.outfall or WORDS.outfall_open
        yield _row(inlet.name, WORDS.run(outfall=outfall), metres)
    for each in site.outfalls:
        yield _row(each.name, WORDS.invert_start, _level(each.invert_level_mm))


def _row(name: str, what: str, planned: str) -> CheckRow:
    return CheckRow(WORDS.drain_row(name=name, what=what), planned)


def _level(level_mm: float | None) -> str:
    return WORDS.unknown if level_mm is None else level(level_mm)
