"""A photo of a job, as papers take it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt

PHOTOS_MAX = 48
"""Photos of one handover, the last that came; how many more there are is said."""


@dataclass(frozen=True, slots=True)
class PaperPhoto:
    """A photo of a job, freed of what a camera writes beside the picture.

    Attributes:
        content: The bytes of the file; None where it was left where it is kept. What no program reads is named.
        caption: What it shows, in the words of who took it; empty where nobody said.
        on: Day on which it came; None where nobody noted one.
        x_mm: Where it is pinned; None where it is not. [mm]
        y_mm: [mm]
    """

    content: bytes | None
    caption: str = ""
    on: dt.date | None = None
    x_mm: float | None = None
    y_mm: float | None = None
