"""One hazard of the method sheet."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.papers._words import source
from pavewright.papers.look import small

if TYPE_CHECKING:
    from pavewright.papers._figures import PaperFigures
    from pavewright.papers.look import Block
    from pavewright.rules import Figure


@dataclass(frozen=True, slots=True)
class Section:
    """One hazard: what of it there is here, its blocks, and what has to be asked first.

    Attributes:
        title: What it is called.
        here: What of it there is on this job, in a few words.
        blocks: All of it.
        asks: What nobody knows and has to be asked before work begins.
    """

    title: str
    here: str
    blocks: tuple[Block, ...]
    asks: tuple[str, ...] = ()


def sources(figures: PaperFigures, *used: Figure) -> Block:
    """Return where figures come from and how far to trust them."""
    return small("; ".join(f"{each.label}: {source(each, figures)}" for each in used) + ".")
